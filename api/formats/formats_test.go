package formats_test

import (
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
)

func TestShare(t *testing.T) {
	for s, want := range map[string]cloth.Share{"2 %": 20000, "2%": 20000, "0.0001 %": 1, "-1.5 %": -15000, "100 %": 1000000} {
		if got, ok := formats.Share(s); !ok || got != want {
			t.Errorf("%q is %d, want %d", s, got, want)
		}
	}
	for _, s := range []string{"", "2", "%", "2  %", " 2 %", "2 % ", "1.00001 %", ".5 %", "1. %", "1,5 %", "1e1 %", "+1 %", "1234567890 %"} {
		if got, ok := formats.Share(s); ok {
			t.Errorf("%q is %d, and no share", s, got)
		}
	}
}

func TestDrop(t *testing.T) {
	for s, want := range map[string]cloth.Drop{"straight": {}, "half": cloth.Half(), "2/4": cloth.Half(), "1/3": {Num: 1, Den: 3}} {
		if got, ok := formats.Drop(s); !ok || got != want {
			t.Errorf("%q is %v, want %v", s, got, want)
		}
	}
	for _, s := range []string{"", "0/2", "2/2", "3/2", "1/0", "1/13", "1/", "/2", "1/2/3", "-1/2", "Half", "1.0/2"} {
		if got, ok := formats.Drop(s); ok {
			t.Errorf("%q is %v, and no drop", s, got)
		}
	}
}

// Every format says what is wrong with a string that is not of it, and what would do.
func TestEveryFormatHasAFault(t *testing.T) {
	for name, ok := range formats.Checks() {
		if ok("\x00") {
			t.Errorf("%s takes a control character", name)
		}
		if code, detail, try := formats.Fault(name, "\x00"); code == "" || detail == "" || try == "" || try == "see /openapi.yaml" {
			t.Errorf("%s: %s, %q, %q", name, code, detail, try)
		}
	}
}

// A pointer that is read is that pointer.
func TestPointerReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var at fault.Path
		for range rapid.IntRange(0, 4).Draw(t, "steps") {
			if rapid.Bool().Draw(t, "entry") {
				at = at.Index(rapid.IntRange(0, 999).Draw(t, "index"))
				continue
			}
			at = at.Field(rapid.StringOf(rapid.RuneFrom([]rune("abc~1/0% é?#\""))).Draw(t, "name"))
		}
		if got := formats.Pointer(at.Pointer()); got.Pointer() != at.Pointer() {
			t.Fatalf("%q is read as %q", at.Pointer(), got.Pointer())
		}
	})
}
