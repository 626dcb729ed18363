package httpapi

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/job"
)

// The limits of a request body, as the contract says them.
const (
	MaxBody        = 65536 // bytes
	MaxCheckBody   = 1048576
	maxDepth       = 32
	maxValues      = 20000
	maxCheckValues = 200000
)

// reader is how the body of one operation is read.
type reader struct {
	most   int // bytes
	values int
	read   func(*received) (any, *Problem) // what the handler is given
}

// readers are those of the operations that have a body, by the operation's id.
func readers() map[string]reader {
	return map[string]reader{
		"yardage":        {MaxBody, maxValues, reads(requestFromWire, service.YardageFaults, service.YardageFieldFaults)},
		"yardageCheck":   {MaxCheckBody, maxCheckValues, reads(checkFromWire, service.CheckFaults, service.CheckFieldFaults)},
		"yardageCompare": {MaxCheckBody, maxCheckValues, reads(compareFromWire, service.CompareFaults, service.CompareFieldFaults)},
		"estimate":       {MaxBody, maxValues, reads(estimateFromWire, service.EstimateFaults, service.EstimateFieldFaults)},
		"cuttingList":    {MaxBody, maxValues, reads(cuttingListFromWire, service.CuttingListFaults, service.CuttingListFieldFaults)},
		"buttoning":      {MaxBody, maxValues, reads(buttoningFromWire, service.ButtoningFaults, service.ButtoningFieldFaults)},
		"piping":         {MaxCheckBody, maxCheckValues, reads(pipingFromWire, service.PipingFaults, service.PipingFieldFaults)},
		"repeat":         {MaxBody, maxValues, reads(repeatFromWire, service.RepeatFaults, service.RepeatFieldFaults)},
		"reliefCuts":     {MaxBody, maxValues, reads(reliefFromWire, service.ReliefFaults, service.ReliefFieldFaults)},
		"pleats":         {MaxBody, maxValues, reads(pleatsFromWire, service.PleatsFaults, service.PleatsFieldFaults)},
		"wadding":        {MaxBody, maxValues, reads(waddingFromWire, service.WaddingFaults, service.WaddingFieldFaults)},
		"foundation":     {MaxBody, maxValues, reads(foundationFromWire, service.FoundationFaults, service.FoundationFieldFaults)},
		"fireCheck":      {MaxBody, maxValues, reads(fireFromWire, service.FireFaults, service.FireFieldFaults)},
		"job":            {MaxJobBody, maxJobValues, reads(jobFromWire, job.Faults, job.FieldFaults)},
		"foam":           {MaxFoamBody, maxFoamValues, reads(foamFromWire, service.FoamFaults, service.FoamFieldFaults)},
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
func reads[W, R any](fromWire func(*W) (R, fault.List), all, fields func(R) fault.List) func(*received) (any, *Problem) {
	return func(r *received) (any, *Problem) {
		var wire W
		if err := r.decode(&wire); err != nil {
			return nil, problem(malformedJSON, "the document cannot be read")
		}
		request, shape := fromWire(&wire)
		if p := judge(r, request, shape, all, fields); p != nil {
			return nil, p
		}
		return &input[R]{request, r.digest()}, nil
	}
}

// received is a body that is JSON, and what is wrong with it so far.
type received struct {
	doc    *strictjson.Value
	schema *openapi3.Schema
	found  []fault.Fault
	plain  []byte // canonical, once it was wanted
}

// read reads the body of an operation, and says everything that is wrong with
// it.
func (c *contract) read(op operation, body []byte) (any, *Problem) {
	if len(body) > op.reader.most {
		return nil, tooLarge(op.reader.most)
	}
	doc, err := strictjson.Parse(body, strictjson.Limits{Depth: c.depth, Values: op.reader.values})
	if err != nil {
		return nil, malformed(err)
	}
	r := &received{doc: doc, schema: op.body}
	if op.shape == nil || !op.shape.holds(doc) {
		r.found = c.schemaFaults(doc, op.body)
	}
	return op.reader.read(r)
}

// judge is the problem of a request: what is wrong with the body, with its
// shape and, by the service, with its fields. Only when nothing else is wrong
// is the service asked for all.
func judge[R any](r *received, request R, shape fault.List, all, fields func(R) fault.List) *Problem {
	r.found = append(r.found, unrelated(shape.Faults(), r.found)...)
	if len(r.found) == 0 {
		list := all(request)
		r.found = list.Faults()
	} else {
		list := fields(request)
		r.found = append(r.found, unrelated(list.Faults(), r.found)...)
	}
	if len(r.found) == 0 {
		return nil
	}
	inPlace(r.doc, r.found)
	return invalid(r.found)
}

// canonical is the document as it is named and read.
func (r *received) canonical() []byte {
	if r.plain == nil {
		r.plain = r.doc.Canonical()
	}
	return r.plain
}

// decode reads the document into its wire form, as far as it is right.
func (r *received) decode(into any) error {
	if len(r.found) == 0 {
		return r.doc.Decode(into)
	}
	return decodeSound(r.doc, r.schema, r.found, into)
}

// digest names the request by what it says.
func (r *received) digest() string {
	sum := sha256.Sum256(r.canonical())
	return "sha256:" + hex.EncodeToString(sum[:])
}

// malformed is the problem of a body that strictjson refuses.
func malformed(err error) *Problem {
	var refused *strictjson.Error
	if !errors.As(err, &refused) {
		return problem(malformedJSON, "")
	}
	return problem(malformedJSON, refused.Error())
}
