package wire

import (
	"net/url"
	"strings"

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
			Path: pathOf(f.Pointer), Code: fault.Code(f.Code), Detail: f.Detail, Given: value(f.Given), Try: value(f.Try),
		})
	}
	return faults
}

// pathOf is the path that a pointer in a URI fragment leads along (RFC 6901,
// section 6). Every step is taken for a field's name.
func pathOf(pointer string) fault.Path {
	var at fault.Path
	for _, token := range strings.Split(strings.TrimPrefix(pointer, "#"), "/")[1:] {
		if plain, err := url.PathUnescape(token); err == nil {
			token = plain
		}
		at = at.Field(strings.ReplaceAll(strings.ReplaceAll(token, "~1", "/"), "~0", "~"))
	}
	return at
}
