package httpapi

import (
	"errors"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/job"
)

// The limits of a request body, as the contract says them.
const (
	MaxBody        = 65536 // bytes
	MaxCheckBody   = 1048576
	maxValues      = 20000
	maxCheckValues = 200000
)

// The limits of a request for foam, which may list 500 cushions.
const (
	MaxFoamBody   = 262144
	maxFoamValues = 40000
)

// reader is how the body of one operation is read.
type reader struct {
	most   int // bytes
	values int
	read   func(*contract.Document) (any, *Problem) // what the handler is given
}

// readers are those of the operations that have a body, by the operation's id.
func readers() map[string]reader {
	return map[string]reader{
		"yardage":        {MaxBody, maxValues, reads(wire.YardageIn, service.YardageFaults, service.YardageFieldFaults)},
		"yardageCheck":   {MaxCheckBody, maxCheckValues, reads(wire.CheckIn, service.CheckFaults, service.CheckFieldFaults)},
		"yardageCompare": {MaxCheckBody, maxCheckValues, reads(wire.CompareIn, service.CompareFaults, service.CompareFieldFaults)},
		"estimate":       {MaxBody, maxValues, reads(wire.EstimateIn, service.EstimateFaults, service.EstimateFieldFaults)},
		"cuttingList":    {MaxBody, maxValues, reads(wire.CuttingListIn, service.CuttingListFaults, service.CuttingListFieldFaults)},
		"buttoning":      {MaxBody, maxValues, reads(wire.ButtoningIn, service.ButtoningFaults, service.ButtoningFieldFaults)},
		"piping":         {MaxCheckBody, maxCheckValues, reads(wire.PipingIn, service.PipingFaults, service.PipingFieldFaults)},
		"repeat":         {MaxBody, maxValues, reads(wire.RepeatIn, service.RepeatFaults, service.RepeatFieldFaults)},
		"reliefCuts":     {MaxBody, maxValues, reads(wire.ReliefIn, service.ReliefFaults, service.ReliefFieldFaults)},
		"pleats":         {MaxBody, maxValues, reads(wire.PleatsIn, service.PleatsFaults, service.PleatsFieldFaults)},
		"wadding":        {MaxBody, maxValues, reads(wire.WaddingIn, service.WaddingFaults, service.WaddingFieldFaults)},
		"foundation":     {MaxBody, maxValues, reads(wire.FoundationIn, service.FoundationFaults, service.FoundationFieldFaults)},
		"fireCheck":      {MaxBody, maxValues, reads(wire.FireIn, service.FireFaults, service.FireFieldFaults)},
		"job":            {MaxJobBody, maxJobValues, reads(wire.JobIn, job.Faults, job.FieldFaults)},
		"foam":           {MaxFoamBody, maxFoamValues, reads(wire.FoamIn, service.FoamFaults, service.FoamFieldFaults)},
	}
}

// input is a request read without faults: what handlers of an operation whose
// request is an R are given.
type input[R any] struct {
	request R
	digest  string
}

// digestOf names the request by what it says.
func (in *input[R]) digestOf() string { return in.digest }

// reads makes the reading of one operation's body: into its wire form W, from
// that into the request R, with the faults that only the wire form can show. The
// service names the other faults: all of them, or, where a part could not be
// read, those of the fields.
func reads[W, R any](fromWire func(*W) (R, fault.List), all, fields func(R) fault.List) func(*contract.Document) (any, *Problem) {
	return func(d *contract.Document) (any, *Problem) {
		var wire W
		if err := d.Decode(&wire); err != nil {
			return nil, problem(malformedJSON, "the document cannot be read")
		}
		request, form := fromWire(&wire)
		found := d.Faults(form, func() fault.List { return all(request) }, func() fault.List { return fields(request) })
		if len(found) > 0 {
			return nil, invalid(found)
		}
		return &input[R]{request, d.Digest()}, nil
	}
}

// read reads the body of an operation, and says everything that is wrong with
// it.
func (s *Server) read(op *contract.Operation, body []byte) (any, *Problem) {
	if len(body) > op.BodyBytes {
		return nil, tooLarge(op.BodyBytes)
	}
	d, err := s.contract.Read(op, body)
	if err != nil {
		return nil, malformed(err)
	}
	return readers()[op.ID].read(d)
}

// malformed is the problem of a body that strictjson refuses.
func malformed(err error) *Problem {
	var refused *strictjson.Error
	if !errors.As(err, &refused) {
		return problem(malformedJSON, "")
	}
	return problem(malformedJSON, refused.Error())
}
