package httpapi_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/calc/fault"
)

// marred is a body with one thing wrong with it, and what must be said of it.
type marred struct {
	what    string
	body    string
	status  int    // 0 for any that is documented, below 500
	pointer string // of a fault that must be among those shown; "" for none in particular
}

// spoils are all the ways in which a right body is marred, one at a time.
func spoils(doc any, schema *openapi3.Schema) []marred {
	w := spoiler{root: doc}
	w.value(doc, schema, fault.Path{}, func(v any) { w.root = v })
	return append(w.all, textSpoils(doc)...)
}

// spoiler walks a body along its schema. It puts one wrong value in place,
// writes the whole down, and puts the right one back.
type spoiler struct {
	root any
	all  []marred
}

func (w *spoiler) value(v any, s *openapi3.Schema, at fault.Path, set func(any)) {
	whole := s
	s = branchFor(s, v)
	wrong := func(what string, bad any, status int) {
		w.with(v, bad, set, marred{what: what + " at " + at.Pointer(), status: status, pointer: at.Pointer()})
	}
	for name, other := range map[string]any{"null": nil, "text": "x\u202ey", "number": 7.5, "truth": true, "list": []any{}, "object": map[string]any{}} {
		if !permits(whole, other) {
			wrong("wrong type, "+name, other, 422)
		}
	}
	switch v := v.(type) {
	case map[string]any:
		w.object(v, s, at, set)
	case []any:
		w.list(v, s, at, wrong)
	case string:
		if len(s.Enum) > 0 || s.Format != "" {
			wrong("no such text", map[bool]string{true: "a\u0007b", false: "\u00bf13 stone?"}[s.Format == "name"], 422)
			wrong("empty text", "", 422)
		}
		if s.MaxLength != nil {
			wrong("long text", strings.Repeat("m", int(*s.MaxLength)+1), 422)
			wrong("long text beyond ASCII", strings.Repeat("𝔪", int(*s.MaxLength)+1), 422)
		}
		wrong("control characters", "a\u0000\u001b[31m", 0)
	case float64:
		w.number(v, s, wrong)
	}
}

func (w *spoiler) number(v float64, s *openapi3.Schema, wrong func(string, any, int)) {
	if s.Min != nil {
		wrong("below the least", *s.Min-1, 422)
	}
	if s.Max != nil {
		wrong("above the most", *s.Max+1, 422)
	}
	for _, literal := range []string{"1e309", "-1e309", "1e-400", "9007199254740993", "123456789012345678901234567890"} {
		wrong("the number "+literal, json.RawMessage(literal), 422)
	}
	if s.Type.Is(openapi3.TypeInteger) {
		wrong("no whole number", v+0.5, 422)
	}
}

func (w *spoiler) list(v []any, s *openapi3.Schema, at fault.Path, wrong func(string, any, int)) {
	if s.MinItems > 0 {
		wrong("too few entries", []any{}, 422)
	}
	if s.MaxItems != nil && len(v) > 0 && *s.MaxItems < 2000 {
		many := slices.Repeat([]any{v[0]}, int(*s.MaxItems)+1)
		status := 422
		if text, _ := json.Marshal(many); len(text) > 30000 {
			status = 0 // the whole body may be too large first
		}
		if status == 422 {
			wrong("too many entries", many, status)
		} else {
			kept := at
			w.with(v, many, nil, marred{what: "very many entries at " + kept.Pointer()})
		}
	}
	for i := range v {
		w.value(v[i], s.Items.Value, at.Index(i), func(x any) { v[i] = x })
	}
}

func (w *spoiler) object(v map[string]any, s *openapi3.Schema, at fault.Path, set func(any)) {
	if s.AdditionalProperties.Schema == nil {
		for _, name := range []string{"surplus", "Width", "__proto__", "a/b~c", ""} {
			if _, there := s.Properties[name]; !there {
				bad := maps.Clone(v)
				bad[name] = 1
				w.with(v, bad, set, marred{what: "the surplus field " + name + " at " + at.Pointer(), status: 422, pointer: at.Field(name).Pointer()})
			}
		}
	}
	for _, name := range s.Required {
		bad := maps.Clone(v)
		delete(bad, name)
		w.with(v, bad, set, marred{what: "without " + at.Field(name).Pointer(), status: 422, pointer: at.Field(name).Pointer()})
	}
	for _, name := range slices.Sorted(maps.Keys(v)) {
		of := s.AdditionalProperties.Schema
		if p := s.Properties[name]; p != nil {
			of = p
		}
		if of != nil {
			w.value(v[name], of.Value, at.Field(name), func(x any) { v[name] = x })
		}
	}
}

// with writes the body down with bad in place of v.
func (w *spoiler) with(v, bad any, set func(any), s marred) {
	if set == nil {
		return
	}
	set(bad)
	text, err := json.Marshal(w.root)
	set(v)
	if err == nil {
		s.body = string(text)
		w.all = append(w.all, s)
	}
}

// textSpoils are marred as text: what is no JSON, or none that all readers
// understand alike.
func textSpoils(doc any) []marred {
	text, err := json.Marshal(doc)
	if err != nil {
		return nil
	}
	right := string(text)
	var all []marred
	for what, body := range map[string]string{
		"nothing": "", "half": right[:len(right)/2], "text after the end": right + "x", "a second document": right + right,
		"a byte order mark": "\ufeff" + right, "bytes that are not UTF-8": strings.Replace(right, "{", "{\"\xff\":1,", 1),
		"a lone surrogate": strings.Replace(right, "{", `{"\ud800":1,`, 1), "a name twice": strings.Replace(right, "{", `{"units":"metric","units":"imperial",`, 1),
		"a name twice, once escaped": strings.Replace(right, "{", `{"units":"metric","\u0075nits":"metric",`, 1), "a comment": "// x\n" + right,
		"NaN": strings.Replace(right, "{", `{"units":NaN,`, 1), "depth": strings.Repeat("[", 5000),
		"UTF-16": string([]byte{0xff, 0xfe, '{', 0, '}', 0}), "a comma too many": strings.TrimSuffix(right, "}") + ",}",
	} {
		all = append(all, marred{what: what, body: body, status: 400})
	}
	for what, body := range map[string]string{"null": "null", "a list": "[]", "text": `"x"`, "a number": "1"} {
		all = append(all, marred{what: what + " as the whole", body: body, status: 422, pointer: "#"})
	}
	slices.SortFunc(all, func(a, b marred) int { return strings.Compare(a.what, b.what) })
	return all
}

// branchFor is the schema that a right value is of.
func branchFor(s *openapi3.Schema, v any) *openapi3.Schema {
	if len(s.AllOf) == 1 && s.Type == nil {
		return branchFor(s.AllOf[0].Value, v)
	}
	for _, one := range s.OneOf {
		if permits(one.Value, v) {
			return branchFor(one.Value, v)
		}
	}
	return s
}

// permits reports whether a value is of a type that the schema has.
func permits(s *openapi3.Schema, v any) bool {
	if len(s.AllOf) == 1 && s.Type == nil {
		return permits(s.AllOf[0].Value, v)
	}
	if len(s.OneOf) > 0 {
		return slices.ContainsFunc(s.OneOf, func(one *openapi3.SchemaRef) bool { return permits(one.Value, v) })
	}
	switch v := v.(type) {
	case nil:
		return s.Nullable
	case bool:
		return s.Type.Permits(openapi3.TypeBoolean)
	case string:
		return s.Type.Permits(openapi3.TypeString)
	case float64:
		return s.Type.Permits(openapi3.TypeNumber) || s.Type.Permits(openapi3.TypeInteger)
	case []any:
		return s.Type.Permits(openapi3.TypeArray)
	case map[string]any:
		return s.Type.Permits(openapi3.TypeObject)
	default:
		panic(fmt.Sprintf("%T is no JSON", v))
	}
}
