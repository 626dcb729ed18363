package strictjson_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/strictjson"
)

var limits = strictjson.Limits{Depth: 32, Values: 1000}

func TestParseRefuses(t *testing.T) {
	for _, tc := range []struct {
		name, doc string
		line, col int
	}{
		{"empty", "", 1, 1},
		{"spaces", " \n ", 2, 2},
		{"text after", `{"a":1} xx`, 1, 9},
		{"second document", `{}{}`, 1, 3},
		{"byte order mark", "\uFEFF{}", 1, 1},
		{"not UTF-8", "[\n\"a\xff\"]", 2, 3},
		{"name twice", `{"a":1,"a":2}`, 1, 8},
		{"name twice, escaped", `{"width":1,"\u0077idth":2}`, 1, 12},
		{"name twice, deeper", `[{"x":{"a":1,"b":2,"a":3}}]`, 1, 20},
		{"empty name twice", `{"":1,"":2}`, 1, 7},
		{"lone high", `"\ud800"`, 1, 2},
		{"lone low", `"\udc00"`, 1, 2},
		{"two high", `"\ud800\ud800"`, 1, 2},
		{"high and text", `"\ud800x"`, 1, 2},
		{"lone in a name", `{"\udfff":1}`, 1, 3},
		{"control character", "\"a\tb\"", 1, 3},
		{"bad escape", `"\x41"`, 1, 3},
		{"short escape", `"\u12"`, 1, 4},
		{"escape and end", `"\`, 1, 3},
		{"open string", `"abc`, 1, 5},
		{"plus", `+1`, 1, 1},
		{"leading zero", `01`, 1, 2},
		{"point and end", `1.`, 1, 3},
		{"no digits before the point", `.5`, 1, 1},
		{"exponent and end", `1e+`, 1, 4},
		{"minus", `-`, 1, 2},
		{"NaN", `NaN`, 1, 1},
		{"Infinity", `-Infinity`, 1, 2},
		{"capital", `True`, 1, 1},
		{"trailing comma", `[1,]`, 1, 4},
		{"trailing comma in object", `{"a":1,}`, 1, 8},
		{"no comma", `[1 2]`, 1, 4},
		{"no colon", `{"a" 1}`, 1, 6},
		{"single quotes", `{'a':1}`, 1, 2},
		{"comment", `{} // x`, 1, 4},
		{"open list", `[1`, 1, 3},
		{"form feed", "\f1", 1, 1},
		{"NUL", "1\x00", 1, 2},
	} {
		_, err := strictjson.Parse([]byte(tc.doc), limits)
		var refused *strictjson.Error
		if !errors.As(err, &refused) {
			t.Errorf("%s: Parse(%q) = %v, want an *Error", tc.name, tc.doc, err)
			continue
		}
		if refused.Line != tc.line || refused.Column != tc.col {
			t.Errorf("%s: Parse(%q) stopped at %d:%d (%s), want %d:%d", tc.name, tc.doc, refused.Line, refused.Column, refused.Reason, tc.line, tc.col)
		}
	}
}

func TestParseLimits(t *testing.T) {
	for _, tc := range []struct {
		name, doc string
		ok        bool
	}{
		{"32 deep", strings.Repeat("[", 32) + strings.Repeat("]", 32), true},
		{"33 deep", strings.Repeat("[", 33) + strings.Repeat("]", 33), false},
		{"a million deep", strings.Repeat("[", 1_000_000), false},
		{"33 deep, mixed", strings.Repeat(`{"a":[`, 16) + "{}" + strings.Repeat("]}", 16), false},
		{"siblings", "[" + strings.Repeat("[],", 99) + "[]]", true},
		{"1000 values", "[" + strings.Repeat("1,", 998) + "1]", true},
		{"1001 values", "[" + strings.Repeat("1,", 999) + "1]", false},
	} {
		if _, err := strictjson.Parse([]byte(tc.doc), limits); (err == nil) != tc.ok {
			t.Errorf("%s: %v", tc.name, err)
		}
	}
}

// A name in a reason is cut: an error is sent back, and must not grow.
func TestParseReasonIsShort(t *testing.T) {
	name := strings.Repeat("é", 30000)
	_, err := strictjson.Parse([]byte(`{"`+name+`":1,"`+name+`":2}`), limits)
	if err == nil || len(err.Error()) > 200 {
		t.Errorf("error of %d bytes", len(err.Error()))
	}
}

func TestCanonical(t *testing.T) {
	const want = `{"a":[1,-2.50,true,null,"\u0001\"\\/é😀"],"b":{},"é":[]}`
	for _, doc := range []string{
		want,
		` { "é" : [ ] , "b" : { } , "a" : [ 1 , -2.50 , true , null , "\u0001\"\\\/\u00e9\ud83d\ude00" ] } `,
	} {
		v, err := strictjson.Parse([]byte(doc), limits)
		if err != nil {
			t.Fatal(err)
		}
		if got := string(v.Canonical()); got != want {
			t.Errorf("Canonical(%s) = %s, want %s", doc, got, want)
		}
	}
}

func TestAt(t *testing.T) {
	v, err := strictjson.Parse([]byte(`{"a":[{"b/c":7}],"0":8}`), limits)
	if err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct {
		tokens []string
		start  int
		whole  bool
	}{
		{nil, 0, true},
		{[]string{"a"}, 5, true},
		{[]string{"a", "0", "b/c"}, 13, true},
		{[]string{"a", "1"}, 5, false},
		{[]string{"a", "-1"}, 5, false},
		{[]string{"a", "0", "b"}, 6, false},
		{[]string{"0"}, 21, true},
		{[]string{"x", "y"}, 0, false},
	} {
		if got, whole := v.At(tc.tokens); got.Start != tc.start || whole != tc.whole {
			t.Errorf("At(%q) = value at %d, %v, want %d, %v", tc.tokens, got.Start, whole, tc.start, tc.whole)
		}
	}
}

// What is read is what the standard library reads, and never what it refuses.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{`{"a":[1,2.5e3,"\u00e9\ud83d\ude00",null,true],"b":{}}`, `[]`, `"\ud800"`, `{"a":1,"a":2}`, "\uFEFF1", `1e999`, `-0`} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, doc []byte) {
		v, err := strictjson.Parse(doc, limits)
		if err != nil {
			return
		}
		if !json.Valid(doc) {
			t.Fatalf("Parse took %q", doc)
		}
		canonical := v.Canonical()
		again, err := strictjson.Parse(canonical, limits)
		if err != nil || !bytes.Equal(again.Canonical(), canonical) {
			t.Fatalf("canonical form %q of %q: %v", canonical, doc, err)
		}
		if got, want := decode(t, canonical), decode(t, doc); !reflect.DeepEqual(got, want) {
			t.Fatalf("canonical form %q of %q is another document", canonical, doc)
		}
	})
}

func decode(t *testing.T, doc []byte) any {
	d := json.NewDecoder(bytes.NewReader(doc))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		t.Fatal(err)
	}
	return v
}
