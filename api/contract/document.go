package contract

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/calc/fault"
)

// Document is a body that is JSON, and what is wrong with it so far.
type Document struct {
	value  *strictjson.Value
	schema *openapi3.Schema
	found  []fault.Fault
	plain  []byte // canonical, once it was wanted
}

// Read reads the body of an operation that takes JSON, and finds what is wrong with
// it by its schema. The error is a *strictjson.Error.
func (c *Contract) Read(op *Operation, body []byte) (*Document, error) {
	value, err := strictjson.Parse(body, strictjson.Limits{Depth: c.depth, Values: op.Values})
	if err != nil {
		return nil, err
	}
	d := &Document{value: value, schema: op.body}
	if op.shape == nil || !op.shape.holds(value) {
		d.found = c.schemaFaults(value, op.body)
	}
	return d, nil
}

// Faults are all that is wrong with a request, in the order of the document: with the
// body, with what only its form on the wire can show, and by all or by fields. Only
// when nothing else is wrong is all asked; otherwise fields, which looks at each
// field by itself.
func (d *Document) Faults(form fault.List, all, fields func() fault.List) []fault.Fault {
	found := append(slices.Clone(d.found), unrelated(form.Faults(), d.found)...)
	if len(found) == 0 {
		list := all()
		found = list.Faults()
	} else {
		list := fields()
		found = append(found, unrelated(list.Faults(), found)...)
	}
	if len(found) > 0 {
		InPlace(d.value, found)
	}
	return found
}

// Decode reads the document into its form on the wire, as far as it is right.
func (d *Document) Decode(into any) error {
	if len(d.found) == 0 {
		return d.value.Decode(into)
	}
	return decodeSound(d.value, d.schema, d.found, into)
}

// Digest names the document by what it says.
func (d *Document) Digest() string {
	if d.plain == nil {
		d.plain = d.value.Canonical()
	}
	sum := sha256.Sum256(d.plain)
	return "sha256:" + hex.EncodeToString(sum[:])
}
