package wire

import (
	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
)

// MaxFaults is how many faults are shown; a count beside them says how many there
// are.
const MaxFaults = 20

// FaultsOut are the first MaxFaults faults as the contract has them.
func FaultsOut(faults []fault.Fault) []gen.Fault {
	faults = faults[:min(len(faults), MaxFaults)]
	list := make([]gen.Fault, len(faults))
	for i, f := range faults {
		list[i] = gen.Fault{Pointer: f.Pointer(), Code: gen.FaultCode(f.Code), Detail: f.Detail}
		set(&list[i].Given, f.Given)
		set(&list[i].Try, f.Try)
	}
	return list
}

// FaultsIn are faults that were read from an answer.
func FaultsIn(list []gen.Fault) []fault.Fault {
	var faults []fault.Fault
	for _, f := range list {
		faults = append(faults, fault.Fault{
			Path: formats.Pointer(f.Pointer), Code: fault.Code(f.Code), Detail: f.Detail, Given: value(f.Given), Try: value(f.Try),
		})
	}
	return faults
}
