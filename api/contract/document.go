package contract

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/calc/fault"
)

// Document is a parsed JSON body and the faults found in it so far.
type Document struct {
	value  *strictjson.Value
	schema *openapi3.Schema
	found  []fault.Fault
	plain  []byte // canonical form; nil until needed
}

// Read parses the body of an operation that takes JSON, and validates it against its
// schema. The error is a *strictjson.Error.
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

// Faults returns all faults of a request in document order. They come from the schema,
// from form (found while reading the wire form), and from all or fields. all runs only
// when there is no other fault. Otherwise fields runs, which checks each field by itself.
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

// Decode decodes the document into its wire form, leaving out the parts with faults.
func (d *Document) Decode(into any) error {
	if len(d.found) == 0 {
		return d.value.Decode(into)
	}
	return decodeSound(d.value, d.schema, d.found, into)
}

// Digest returns a hash of the canonical document.
func (d *Document) Digest() string {
	if d.plain == nil {
		d.plain = d.value.Canonical()
	}
	sum := sha256.Sum256(d.plain)
	return "sha256:" + hex.EncodeToString(sum[:])
}
