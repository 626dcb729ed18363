package contract

import (
	"slices"

	"github.com/getkin/kin-openapi/openapi3"
)

// Limits are the limits on a request. The contract has the maximum of each; they can only
// be lowered.
type Limits struct {
	BodyBytes    int    // limit on the body of any operation
	Depth        int    // of JSON
	Values       int    // JSON values, including names
	Panels       int    // in one list
	Pieces       int    // in hand
	Cloths       int    // to compare
	Effort       string // the highest effort allowed: normal or thorough
	AddressBytes int    // of path and query, else 414
	HeaderFields int    // else 431
	HeaderBytes  int    // enforced by net/http
}

// tighten lowers the limits in the document to l, so that the served contract matches the
// service. It reports whether anything changed.
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

// tightener lowers the limits in a document.
type tightener struct {
	most    map[string]int // limits on the numbers of x-limits, by name
	longest map[string]int // limits on lists, by field name
	seen    map[*openapi3.Schema]bool
	smaller bool
}

// lists lowers maxItems of the lists in a schema and its subschemas.
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

// numbers lowers the numbers of an x-limits.
func (t *tightener) numbers(extensions map[string]any) {
	said, _ := extensions["x-limits"].(map[string]any)
	for name, most := range t.most {
		if number, ok := said[name].(float64); ok && float64(most) < number {
			said[name], t.smaller = float64(most), true
		}
	}
}

// numberOf returns a number from the first x-limits that has it; 0 if none has.
func numberOf(name string, all ...map[string]any) int {
	for _, extensions := range all {
		said, _ := extensions["x-limits"].(map[string]any)
		if number, ok := said[name].(float64); ok {
			return int(number)
		}
	}
	return 0
}
