package httpapi_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"
	"pgregory.net/rapid"
)

// body draws a value that is right by a schema. Numbers and lists stay near
// their least, and the effort low, so that thousands of requests are answered;
// what lies at the bounds is drawn by spoils.
func body(schema *openapi3.Schema, name string, depth int) *rapid.Generator[any] {
	return rapid.Custom(func(t *rapid.T) any {
		rapid.Bool().Draw(t, "something") // rapid wants that something is drawn, and a few values are fixed
		return drawn(t, schema, name, depth)
	})
}

func drawn(t *rapid.T, s *openapi3.Schema, name string, depth int) any {
	if len(s.AllOf) == 1 && s.Type == nil {
		return drawn(t, s.AllOf[0].Value, name, depth)
	}
	if len(s.OneOf) > 0 {
		return drawn(t, s.OneOf[rapid.IntRange(0, len(s.OneOf)-1).Draw(t, "branch")].Value, name, depth)
	}
	if len(s.Enum) > 0 {
		if name == "effort" {
			return "quick"
		}
		return rapid.SampledFrom(s.Enum).Draw(t, name)
	}
	switch {
	case s.Type.Is(openapi3.TypeObject):
		return drawnObject(t, s, depth)
	case s.Type.Is(openapi3.TypeArray):
		n := int(s.MinItems) + rapid.IntRange(0, 2).Draw(t, "more")
		if s.MaxItems != nil {
			n = min(n, int(*s.MaxItems))
		}
		list := []any{}
		for range n {
			list = append(list, drawn(t, s.Items.Value, name, depth+1))
		}
		return list
	case s.Type.Is(openapi3.TypeBoolean):
		return rapid.Bool().Draw(t, name)
	case s.Type.Is(openapi3.TypeInteger):
		low, high := bounds(s)
		return rapid.IntRange(int(low), int(min(high, low+6))).Draw(t, name)
	case s.Type.Is(openapi3.TypeNumber):
		low, high := bounds(s)
		return math.Round(rapid.Float64Range(low, min(high, low+50)).Draw(t, name)*100) / 100
	}
	return drawnString(t, s, name)
}

func bounds(s *openapi3.Schema) (low, high float64) {
	low, high = 0, 1e6
	if s.Min != nil {
		low = *s.Min
	}
	if s.Max != nil {
		high = *s.Max
	}
	return low, high
}

func drawnObject(t *rapid.T, s *openapi3.Schema, depth int) any {
	object := map[string]any{}
	names := make([]string, 0, len(s.Properties))
	for name := range s.Properties {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		odds := 2 + depth // of leaving out what may be left out
		if slices.Contains(s.Required, name) || rapid.IntRange(0, odds).Draw(t, "given") == 0 {
			object[name] = drawn(t, s.Properties[name].Value, name, depth+1)
		}
	}
	if s.AdditionalProperties.Schema != nil {
		for range rapid.IntRange(int(s.MinProps), 2).Draw(t, "members") {
			key := rapid.SampledFrom([]string{"seat-width", "seat-depth", "back", "cushion", "back-height", "IB"}).Draw(t, "key")
			object[key] = drawn(t, s.AdditionalProperties.Schema.Value, key, depth+1)
		}
	}
	return object
}

func drawnString(t *rapid.T, s *openapi3.Schema, name string) any {
	switch s.Format {
	case "length":
		return fmt.Sprintf("%d %s", rapid.IntRange(1, 90).Draw(t, name), rapid.SampledFrom([]string{"mm", "cm", "cm", "cm", "in"}).Draw(t, "unit"))
	case "share":
		return strconv.Itoa(rapid.IntRange(0, 9).Draw(t, name)) + " %"
	case "drop":
		return rapid.SampledFrom([]string{"straight", "half", "1/3"}).Draw(t, name)
	case "panel-id":
		return rapid.SampledFrom([]string{"IB", "OB", "SEAT", "IA", "OA", "FLY"}).Draw(t, name)
	case "day":
		return "2026-11-25"
	case "made":
		return rapid.SampledFrom([]string{"2026-11-25", "1995-03", "1908"}).Draw(t, name)
	}
	if s.Pattern != "" {
		return rapid.StringMatching(strings.ReplaceAll(s.Pattern, "*$", "{0,8}$")).Draw(t, name)
	}
	least, most := int(s.MinLength), 12
	if s.MaxLength != nil {
		most = min(most, int(*s.MaxLength))
	}
	return rapid.StringOfN(rapid.RuneFrom([]rune("abcdefgäé ×½-1")), max(least, 1), max(most, least, 1), -1).Draw(t, name)
}

// varied is a right body with a few of its values drawn anew.
func varied(doc any, schema *openapi3.Schema, seed int) any {
	type place struct {
		schema *openapi3.Schema
		name   string
		set    func(any)
	}
	var leaves []place
	var visit func(v any, s *openapi3.Schema, name string, set func(any))
	visit = func(v any, s *openapi3.Schema, name string, set func(any)) {
		of := branchFor(s, v)
		switch v := v.(type) {
		case map[string]any:
			for _, key := range slices.Sorted(maps.Keys(v)) {
				member := of.AdditionalProperties.Schema
				if p := of.Properties[key]; p != nil {
					member = p
				}
				if member != nil {
					visit(v[key], member.Value, key, func(x any) { v[key] = x })
				}
			}
		case []any:
			for i := range v {
				visit(v[i], of.Items.Value, name, func(x any) { v[i] = x })
			}
		default:
			leaves = append(leaves, place{s, name, set})
		}
	}
	visit(doc, schema, "", func(v any) { doc = v })
	for k := range 1 + seed%3 {
		p := leaves[(seed*7919+k*104729)%len(leaves)]
		p.set(body(p.schema, p.name, 1).Example(seed + k))
	}
	return doc
}
