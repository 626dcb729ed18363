package length

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
)

// TestTextOfExact uses one table both ways: a length that is a whole number of
// steps prints the same in every rounding, and the text reads back to it.
func TestTextOfExact(t *testing.T) {
	tests := []struct {
		l    Length
		sys  System
		want string
	}{
		{0, Metric, "0 cm"},
		{Millimetre, Metric, "0.1 cm"},
		{15 * Millimetre, Metric, "1.5 cm"},
		{62 * Centimetre, Metric, "62 cm"},
		{999 * Millimetre, Metric, "99.9 cm"},
		{Metre, Metric, "1 m"},
		{1001 * Millimetre, Metric, "1.001 m"},
		{6 * Metre, Metric, "6 m"},
		{6420 * Millimetre, Metric, "6.42 m"},
		{6424 * Millimetre, Metric, "6.424 m"},
		{100 * Metre, Metric, "100 m"},
		{-15 * Millimetre, Metric, "-1.5 cm"},
		{-6420 * Millimetre, Metric, "-6.42 m"},
		{0, Imperial, "0 in"},
		{Inch / 16, Imperial, "1/16 in"},
		{Inch / 8, Imperial, "1/8 in"},
		{3 * Inch / 4, Imperial, "3/4 in"},
		{Inch / 2, Imperial, "1/2 in"},
		{15 * Inch / 16, Imperial, "15/16 in"},
		{Inch, Imperial, "1 in"},
		{9 * Inch / 2, Imperial, "4 1/2 in"},
		{191 * Inch / 16, Imperial, "11 15/16 in"},
		{Foot, Imperial, "1 ft"},
		{2*Foot + 3*Inch, Imperial, "2 ft 3 in"},
		{Foot + Inch/2, Imperial, "1 ft 1/2 in"},
		{2 * Yard, Imperial, "2 yd"},
		{7*Yard + 9*Inch/2, Imperial, "7 yd 4 1/2 in"},
		{Yard + 2*Foot, Imperial, "1 yd 2 ft"},
		{Yard + 2*Foot + 7*Inch/2, Imperial, "1 yd 2 ft 3 1/2 in"},
		{-Yard - Inch/2, Imperial, "-1 yd 1/2 in"},
		{-Inch / 16, Imperial, "-1/16 in"},
	}
	for _, test := range tests {
		for _, r := range []Rounding{Nearest, Up, Down} {
			if got := test.l.Text(test.sys, r); got != test.want {
				t.Errorf("(%v).Text(%d, %d) = %q, want %q", test.l, test.sys, r, got, test.want)
			}
		}
		if got, err := Parse(test.want); err != nil || got != test.l {
			t.Errorf("Parse(%q) = %v, %v, want %v", test.want, got, err, test.l)
		}
	}
}

func TestTextRounds(t *testing.T) {
	const most, least = Length(math.MaxInt64), Length(math.MinInt64)
	tests := []struct {
		l                 Length
		sys               System
		nearest, up, down string
	}{
		{1, Metric, "0 cm", "0.1 cm", "0 cm"},
		{-1, Metric, "0 cm", "0 cm", "-0.1 cm"},
		{Millimetre / 2, Metric, "0.1 cm", "0.1 cm", "0 cm"},
		{Millimetre/2 - 1, Metric, "0 cm", "0.1 cm", "0 cm"},
		{-Millimetre / 2, Metric, "-0.1 cm", "0 cm", "-0.1 cm"},
		{-Millimetre/2 + 1, Metric, "0 cm", "0 cm", "-0.1 cm"},
		{Metre - 1, Metric, "1 m", "1 m", "99.9 cm"},
		{Metre + 1, Metric, "1 m", "1.001 m", "1 m"},
		{-Metre - 1, Metric, "-1 m", "-1 m", "-1.001 m"},
		{6424499 * Micrometre, Metric, "6.424 m", "6.425 m", "6.424 m"},
		{most, Metric, "9223372036.855 m", "9223372036.855 m", "9223372036.854 m"},
		{least, Metric, "-9223372036.855 m", "-9223372036.854 m", "-9223372036.855 m"},
		{1, Imperial, "0 in", "1/16 in", "0 in"},
		{-1, Imperial, "0 in", "0 in", "-1/16 in"},
		{Inch / 32, Imperial, "1/16 in", "1/16 in", "0 in"},
		{Inch/32 - 1, Imperial, "0 in", "1/16 in", "0 in"},
		{-Inch / 32, Imperial, "-1/16 in", "0 in", "-1/16 in"},
		{Foot - 1, Imperial, "1 ft", "1 ft", "11 15/16 in"},
		{Yard - 1, Imperial, "1 yd", "1 yd", "2 ft 11 15/16 in"},
		{Yard + 1, Imperial, "1 yd", "1 yd 1/16 in", "1 yd"},
		{137 * Centimetre, Imperial, "1 yd 1 ft 5 15/16 in", "1 yd 1 ft 5 15/16 in", "1 yd 1 ft 5 7/8 in"},
	}
	for _, test := range tests {
		for r, want := range map[Rounding]string{Nearest: test.nearest, Up: test.up, Down: test.down} {
			if got := test.l.Text(test.sys, r); got != want {
				t.Errorf("(%v).Text(%d, %d) = %q, want %q", test.l, test.sys, r, got, want)
			}
		}
	}
}

// TestTextOfUnknown checks that values beyond the constants are the zero values.
func TestTextOfUnknown(t *testing.T) {
	const l = 6424501 * Micrometre
	if got, want := l.Text(System(9), Rounding(9)), l.Text(Metric, Nearest); got != want {
		t.Errorf("(%v).Text(9, 9) = %q, want %q", l, got, want)
	}
}

func TestJSON(t *testing.T) {
	type panel struct {
		Across Length            `json:"across"`
		Marks  map[Length]string `json:"marks"`
	}
	const in = `{"across":"4 1/2 in","marks":{"1 cm":"a"}}`
	const out = `{"across":"114.3 mm","marks":{"10 mm":"a"}}`
	var p panel
	if err := json.Unmarshal([]byte(in), &p); err != nil {
		t.Fatalf("Unmarshal(%s): %v", in, err)
	}
	if p.Across != 9*Inch/2 || p.Marks[Centimetre] != "a" {
		t.Errorf("Unmarshal(%s) = %v", in, p)
	}
	if got, err := json.Marshal(p); err != nil || string(got) != out {
		t.Errorf("Marshal(%v) = %s, %v, want %s", p, got, err, out)
	}
}

func TestUnmarshalTextRefuses(t *testing.T) {
	for in, want := range map[string]error{
		"12":                                 ErrNoUnit,
		"13 stone":                           ErrUnit,
		"1,5 m":                              ErrComma,
		strings.Repeat("1", 64) + "½":        ErrSyntax,
		"12 mm" + strings.Repeat(" ", 1<<16): ErrSyntax,
	} {
		l := Yard
		err := l.UnmarshalText([]byte(in))
		var pe *ParseError
		if !errors.Is(err, want) || !errors.As(err, &pe) || l != Yard {
			t.Errorf("UnmarshalText(%.70q): %v, length now %v; want a *ParseError with %q and %v", in, err, l, want, Yard)
		} else if !strings.HasPrefix(in, pe.Input) || len(pe.Input) > 64 {
			t.Errorf("UnmarshalText(%.70q): Input = %q", in, pe.Input)
		}
	}
}
