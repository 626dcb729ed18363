package fault_test

import (
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

func TestPathPointer(t *testing.T) {
	root := fault.Path{}
	for _, tc := range []struct {
		path fault.Path
		want string
	}{
		{root, "#"},
		{root.Field("panels").Index(2).Field("size").Field("across"), "#/panels/2/size/across"},
		{root.Field("a/b~c"), "#/a~1b~0c"},
		{root.Field("a b"), "#/a%20b"},
		{root.Field("50%"), "#/50%25"},
		{root.Field(`"<>\^` + "`{|}#"), "#/%22%3C%3E%5C%5E%60%7B%7C%7D%23"},
		{root.Field("é"), "#/%C3%A9"},
		{root.Field(""), "#/"},
	} {
		if got := tc.path.Pointer(); got != tc.want {
			t.Errorf("Pointer() = %q, want %q", got, tc.want)
		}
	}
}

func TestClip(t *testing.T) {
	long := strings.Repeat("é", 65)
	for _, tc := range []struct{ in, want string }{
		{"", ""},
		{"13 stone", "13 stone"},
		{long[:2*64], long[:2*64]},
		{long, long[:2*64]},
		{"a\xffb", "a\uFFFDb"},
		{strings.Repeat("x", 63) + "\xff" + "yz", strings.Repeat("x", 63) + "\uFFFD"},
	} {
		if got := fault.Clip(tc.in); got != tc.want {
			t.Errorf("Clip(%q) = %q, want %q", tc.in, got, tc.want)
		}
	}
}

func TestBetween(t *testing.T) {
	const lo, hi = length.Millimetre, 10 * length.Metre
	for _, tc := range []struct {
		v    length.Length
		want fault.Code
	}{
		{-1, fault.TooSmall},
		{0, fault.TooSmall},
		{1, fault.TooSmall},
		{lo - 1, fault.TooSmall},
		{lo, ""},
		{hi, ""},
		{hi + 1, fault.TooLarge},
	} {
		var l fault.List
		l.Between(fault.At("x"), "the x", tc.v, lo, hi)
		got := fault.Code("")
		for _, f := range l.Faults() {
			got = f.Code
			if f.Try != "from 1 mm to 10 m" {
				t.Errorf("Between(%v).Try = %q", tc.v, f.Try)
			}
		}
		if got != tc.want {
			t.Errorf("Between(%v) = %q, want %q", tc.v, got, tc.want)
		}
	}
}

func TestListKeepsOrderAndAll(t *testing.T) {
	var a, b fault.List
	a.Add(fault.At("x"), fault.Missing, "", "", "")
	b.Add(fault.At("y"), fault.Loop, strings.Repeat("z", 100), "", "")
	a.Append(b)
	if a.Len() != 2 || a.Faults()[0].Pointer() != "#/x" || a.Faults()[1].Pointer() != "#/y" {
		t.Fatalf("Append: %+v", a.Faults())
	}
	if n := len(a.Faults()[1].Given); n != fault.MaxGiven {
		t.Errorf("given is %d characters, want %d", n, fault.MaxGiven)
	}
}
