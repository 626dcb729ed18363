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
func (l Limits) tighten(doc *openapi3.T, answerSeconds int) (smaller bool) {
	lists := map[string]uint64{"panels": uint64(l.Panels), "pieces": uint64(l.Pieces), "cloths": uint64(l.Cloths)} //nolint:gosec // validated
	seen := make(map[*openapi3.Schema]bool)
	var walk func(ref *openapi3.SchemaRef)
	walk = func(ref *openapi3.SchemaRef) {
		if ref == nil || seen[ref.Value] {
			return
		}
		s := ref.Value
		seen[s] = true
		for name, part := range s.Properties {
			most, ok := lists[name]
			if ok && part.Value.MaxItems != nil && most < *part.Value.MaxItems {
				part.Value.MaxItems, smaller = &most, true
			}
			walk(part)
		}
		walk(s.Items)
		for _, part := range slices.Concat(s.AllOf, s.OneOf, s.AnyOf) {
			walk(part)
		}
	}
	for _, item := range doc.Paths.Map() {
		for _, op := range item.Operations() {
			if op.RequestBody == nil {
				continue
			}
			smaller = l.tightenNumbers(op.Extensions, answerSeconds) || smaller
			for _, media := range op.RequestBody.Value.Content {
				walk(media.Schema)
			}
		}
	}
	smaller = l.tightenNumbers(doc.Extensions, answerSeconds) || smaller
	if effort := doc.Components.Schemas["Effort"]; effort != nil && l.Effort != "thorough" {
		effort.Value.Enum = slices.DeleteFunc(effort.Value.Enum, func(word any) bool { return word == "thorough" })
		smaller = true
	}
	return smaller
}

// tightenNumbers makes the numbers of an x-limits no larger than the limits.
func (l Limits) tightenNumbers(extensions map[string]any, answerSeconds int) (smaller bool) {
	said, _ := extensions["x-limits"].(map[string]any)
	for name, most := range map[string]int{
		"bodyBytes": l.BodyBytes, "depth": l.Depth, "values": l.Values, "addressBytes": l.AddressBytes, "headerFields": l.HeaderFields, "headerBytes": l.HeaderBytes,
		"panels": l.Panels, "pieces": l.Pieces, "cloths": l.Cloths, "answerSeconds": answerSeconds,
	} {
		if number, ok := said[name].(float64); ok && float64(most) < number {
			said[name], smaller = float64(most), true
		}
	}
	return smaller
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
