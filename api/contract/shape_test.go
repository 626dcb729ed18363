package contract_test

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie"
	"github.com/bridletie/bridletie/api/contract"
)

// loaded is the contract with its own limits.
func loaded(t testing.TB) *contract.Contract {
	t.Helper()
	c, err := contract.Load(contract.Limits{
		BodyBytes: 1 << 20, Depth: 32, Values: 200000, Panels: 500, Pieces: 20, Cloths: 1000, Effort: "thorough",
		AddressBytes: 8192, HeaderFields: 100, HeaderBytes: 16 << 10,
	}, 50)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// spec is the contract.
func spec(t testing.TB) *openapi3.T {
	t.Helper()
	doc, err := contract.Open(bridletie.Files)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// Every body is looked at quickly; only what is wrong goes to the validator.
func TestEveryBodyHasAShape(t *testing.T) {
	s := loaded(t)
	if len(s.Bodies()) < 14 {
		t.Errorf("only %q read a body", s.Bodies())
	}
	for _, op := range s.Bodies() {
		if !s.HasShape(op) {
			t.Errorf("%s has no shape: its schema uses a keyword that shapes do not know, and each body costs a validation", op)
		}
	}
}

// goodBodies are the examples of an operation and the demo jobs, which are right
// for some operation.
func goodBodies(t testing.TB, operation string) []string {
	t.Helper()
	method, path, _ := strings.Cut(operation, " ")
	var all []string
	for _, e := range spec(t).Paths.Value(path).GetOperation(method).RequestBody.Value.Content["application/json"].Examples {
		raw, err := json.Marshal(e.Value.Value)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, string(raw))
	}
	files, err := filepath.Glob("../../testdata/jobs/*.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		raw, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, string(raw))
	}
	slices.Sort(all)
	return all
}

// variants are a value's variants: each part of it in turn left out, or replaced by
// what is wrong in every way that a value can be.
func variants(v any, out func(any)) {
	instead := []any{
		nil, true, false, json.Number("0"), json.Number("-1"), json.Number("-0"), json.Number("1.5"), json.Number("1.0"), json.Number("1e3"),
		json.Number("0.1234567"), json.Number("0.123456"), json.Number("99999999999999999999"), json.Number("-99999999999999999999"),
		json.Number("1e400"), json.Number("2000000000"), "", " ", "x", "1 cm", "-1 cm", "99999999 m", "2 %", "half", "1/3", "2026-11-30",
		"12.50", "EUR", "metric", strings.Repeat("x", 33), strings.Repeat("é", 80), strings.Repeat("é", 81), "\u200d", "a\nb",
		[]any{}, []any{nil}, map[string]any{}, map[string]any{"x": "1 cm"}, map[string]any{"a-b": "a-b"},
	}
	for _, other := range instead {
		out(other)
	}
	switch v := v.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			part := v[name]
			delete(v, name)
			out(v)
			v[strings.ToUpper(name)] = part
			out(v)
			delete(v, strings.ToUpper(name))
			variants(part, func(other any) {
				v[name] = other
				out(v)
			})
			v[name] = part
		}
		v["another"] = "1 cm"
		out(v)
		delete(v, "another")
	case []any:
		for i, part := range v {
			if i > 2 { // the others are like these
				break
			}
			variants(part, func(other any) {
				v[i] = other
				out(v)
			})
			v[i] = part
		}
		if len(v) > 0 {
			many := slices.Repeat(v[:1], 101)
			out(v[1:])
			out(many)
			out(slices.Repeat(many, 6))
		}
	}
}

// The shape takes what the validator takes, and nothing else.
func TestShapesAgreeWithTheValidator(t *testing.T) {
	s := loaded(t)
	taken, refused := 0, 0
	for _, op := range s.Bodies() {
		for n, body := range goodBodies(t, op) {
			read, _, right := s.Takes(op, []byte(body))
			if !read || !right && n%8 != 0 { // few of those that are for other operations
				continue
			}
			d := json.NewDecoder(strings.NewReader(body))
			d.UseNumber()
			var v any
			if err := d.Decode(&v); err != nil {
				t.Fatal(err)
			}
			checked := n
			variants(v, func(any) {
				if checked++; checked%4 != 0 { // another quarter of each body
					return
				}
				raw, err := json.Marshal(v)
				if err != nil {
					t.Fatal(err)
				}
				read, byShape, byValidator := s.Takes(op, raw)
				if byShape != byValidator {
					t.Errorf("%s: the shape says %v, the validator %v: %.400s", op, byShape, byValidator, raw)
				}
				if read && byShape {
					taken++
				} else {
					refused++
				}
			})
		}
	}
	t.Logf("%d taken, %d refused", taken, refused)
	if taken < 1000 || refused < 1000 {
		t.Errorf("only %d were taken and %d refused", taken, refused)
	}
}

// The same for whatever comes.
func FuzzShapes(f *testing.F) {
	s := loaded(f)
	ops := s.Bodies()
	for i, op := range ops {
		for _, body := range goodBodies(f, op) {
			if _, _, right := s.Takes(op, []byte(body)); right {
				f.Add(i, []byte(body))
			}
		}
	}
	f.Fuzz(func(t *testing.T, i int, body []byte) {
		op := ops[uint(i)%uint(len(ops))]
		if read, byShape, byValidator := s.Takes(op, body); read && byShape != byValidator {
			t.Errorf("%s: the shape says %v, the validator %v", op, byShape, byValidator)
		}
	})
}
