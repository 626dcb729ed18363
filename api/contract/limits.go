package contract

import (
	"slices"

	"github.com/getkin/kin-openapi/openapi3"
)

// Limits are those of a request, which the contract says. They may only be made
// smaller.
type Limits struct {
	BodyBytes    int    // the largest body of any operation
	Depth        int    // of JSON
	Values       int    // of JSON, names counted too
	Panels       int    // in one list
	Pieces       int    // in hand
	Cloths       int    // to compare
	Effort       string // the most thorough that may be asked for: normal or thorough
	AddressBytes int    // of path and query, else 414
	HeaderFields int    // else 431
	HeaderBytes  int    // which net/http sees to
}

// tighten writes limits that are smaller than the contract's into it, so that the
// service says what it does. It reports whether there was one.
func (l Limits) tighten(doc *openapi3.T, answerSeconds int) bool {
	t := tightener{seen: make(map[*openapi3.Schema]bool), longest: map[string]int{"panels": l.Panels, "pieces": l.Pieces, "cloths": l.Cloths}}
	t.most = map[string]int{
		"bodyBytes": l.BodyBytes, "depth": l.Depth, "values": l.Values, "addressBytes": l.AddressBytes, "headerFields": l.HeaderFields, "headerBytes": l.HeaderBytes,
		"panels": l.Panels, "pieces": l.Pieces, "cloths": l.Cloths, "answerSeconds": answerSeconds,
	}
	for _, item := range doc.Paths.Map() {
		for _, op := range item.Operations() {
			if op.RequestBody == nil {
				continue
			}
			t.numbers(op.Extensions)
			for _, media := range op.RequestBody.Value.Content {
				t.lists(media.Schema)
			}
		}
	}
	t.numbers(doc.Extensions)
	if effort := doc.Components.Schemas["Effort"]; effort != nil && l.Effort != "thorough" {
		effort.Value.Enum = slices.DeleteFunc(effort.Value.Enum, func(word any) bool { return word == "thorough" })
		t.smaller = true
	}
	return t.smaller
}

// tightener makes limits of a document smaller.
type tightener struct {
	most    map[string]int // of the numbers of x-limits
	longest map[string]int // of lists, by their names
	seen    map[*openapi3.Schema]bool
	smaller bool
}

// lists makes lists no longer, in a schema and all that stands in it.
func (t *tightener) lists(ref *openapi3.SchemaRef) {
	if ref == nil || t.seen[ref.Value] {
		return
	}
	s := ref.Value
	t.seen[s] = true
	for name, part := range s.Properties {
		most, ok := t.longest[name]
		if ok && part.Value.MaxItems != nil && uint64(most) < *part.Value.MaxItems { //nolint:gosec // never negative
			n := uint64(most) //nolint:gosec // never negative
			part.Value.MaxItems, t.smaller = &n, true
		}
		t.lists(part)
	}
	t.lists(s.Items)
	for _, part := range slices.Concat(s.AllOf, s.OneOf, s.AnyOf) {
		t.lists(part)
	}
}

// numbers makes the numbers of an x-limits no larger.
func (t *tightener) numbers(extensions map[string]any) {
	said, _ := extensions["x-limits"].(map[string]any)
	for name, most := range t.most {
		if number, ok := said[name].(float64); ok && float64(most) < number {
			said[name], t.smaller = float64(most), true
		}
	}
}

// numberOf is a number of the first x-limits that has it; 0 where none has.
func numberOf(name string, all ...map[string]any) int {
	for _, extensions := range all {
		said, _ := extensions["x-limits"].(map[string]any)
		if number, ok := said[name].(float64); ok {
			return int(number)
		}
	}
	return 0
}
