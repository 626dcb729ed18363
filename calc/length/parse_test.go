package length

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"
)

const inch64 = Inch / 64

// readTable is what Parse reads, what that is, and how it is printed.
var readTable = []struct {
	in   string
	want Length
	mm   string
}{
	// One number, each unit.
	{"137 cm", 137 * Centimetre, "1370 mm"},
	{"54 in", 54 * Inch, "1371.6 mm"},
	{"1.5 m", 1500 * Millimetre, "1500 mm"},
	{"2 yd", 2 * Yard, "1828.8 mm"},
	{"12 mm", 12 * Millimetre, "12 mm"},
	{"3 ft", 3 * Foot, "914.4 mm"},
	{"0 m", 0, "0 mm"},
	{"0.000 yd", 0, "0 mm"},
	{"000012 mm", 12 * Millimetre, "12 mm"},
	// Fractions and decimals.
	{"4 1/2 in", 9 * Inch / 2, "114.3 mm"},
	{"1/2 yd", Yard / 2, "457.2 mm"},
	{"1/64 in", inch64, "0.396875 mm"},
	{"1/1000 m", Millimetre, "1 mm"},
	{"0/7 in", 0, "0 mm"},
	{"1/3 ft", 4 * Inch, "101.6 mm"},
	{"0.1 mm", 100 * Micrometre, "0.1 mm"},
	{".5 in", Inch / 2, "12.7 mm"},
	{"0.000001 mm", Nanometre, "0.000001 mm"},
	{"0.000000001 m", Nanometre, "0.000001 mm"},
	{"0.00000125 yd", 1143 * Nanometre, "0.001143 mm"},
	{"1.50000000000000000000000000000000000000000000000000 cm", 15 * Millimetre, "15 mm"},
	// Fractions of one character, and the fraction slash.
	{"½ in", Inch / 2, "12.7 mm"},
	{"4½ in", 9 * Inch / 2, "114.3 mm"},
	{"4 ½ in", 9 * Inch / 2, "114.3 mm"},
	{"4½in", 9 * Inch / 2, "114.3 mm"},
	{"4 1⁄2 in", 9 * Inch / 2, "114.3 mm"},
	{"¼ in", 16 * inch64, "6.35 mm"},
	{"¾ in", 48 * inch64, "19.05 mm"},
	{"⅛ in", 8 * inch64, "3.175 mm"},
	{"⅜ in", 24 * inch64, "9.525 mm"},
	{"⅝ in", 40 * inch64, "15.875 mm"},
	{"⅞ in", 56 * inch64, "22.225 mm"},
	{"⅓ yd", Foot, "304.8 mm"},
	{"⅔ yd", 2 * Foot, "609.6 mm"},
	{"⅕ in", Inch / 5, "5.08 mm"},
	{"⅖ in", 2 * Inch / 5, "10.16 mm"},
	{"⅗ in", 3 * Inch / 5, "15.24 mm"},
	{"⅘ in", 4 * Inch / 5, "20.32 mm"},
	{"⅙ ft", 2 * Inch, "50.8 mm"},
	{"⅚ ft", 10 * Inch, "254 mm"},
	// Compounds.
	{"6 ft 2 in", 74 * Inch, "1879.6 mm"},
	{"1 yd 2 ft 3 1/2 in", Yard + 2*Foot + 7*Inch/2, "1612.9 mm"},
	{"1 yd 3½ in", Yard + 7*Inch/2, "1003.3 mm"},
	{"2 yd 1/2 ft", 2*Yard + Foot/2, "1981.2 mm"},
	{"1 ft 2.25 in", Foot + 9*Inch/4, "361.95 mm"},
	{"1 ft 14 in", 26 * Inch, "660.4 mm"},
	{"1yd2ft3in", Yard + 2*Foot + 3*Inch, "1600.2 mm"},
	{"1 m 20 cm", 120 * Centimetre, "1200 mm"},
	{"1 m 20 cm 5.5 mm", 1205500 * Micrometre, "1205.5 mm"},
	{"1 m 5 mm", 1005 * Millimetre, "1005 mm"},
	{"1m20cm", 120 * Centimetre, "1200 mm"},
	// Primes: ASCII, true, and closing quotes.
	{`6' 2"`, 74 * Inch, "1879.6 mm"},
	{`6'2 1/2"`, 149 * Inch / 2, "1892.3 mm"},
	{"6′ 2″", 74 * Inch, "1879.6 mm"},
	{"6′2½″", 149 * Inch / 2, "1892.3 mm"},
	{"6’ 2”", 74 * Inch, "1879.6 mm"},
	{`6 ' 2 "`, 74 * Inch, "1879.6 mm"},
	{"6'", 6 * Foot, "1828.8 mm"},
	{`54"`, 54 * Inch, "1371.6 mm"},
	{"6' 2 in", 74 * Inch, "1879.6 mm"},
	{"1 yd 2' 3\"", Yard + 2*Foot + 3*Inch, "1600.2 mm"},
	// Spaces and case.
	{"137cm", 137 * Centimetre, "1370 mm"},
	{"  137   cm  ", 137 * Centimetre, "1370 mm"},
	{"\u00a0137\u202fcm\u2009", 137 * Centimetre, "1370 mm"},
	{"4\u20091/2\u00a0in", 9 * Inch / 2, "114.3 mm"},
	{"137 CM", 137 * Centimetre, "1370 mm"},
	{"6 Ft 2 iN", 74 * Inch, "1879.6 mm"},
	// Signs, which are for the whole.
	{"+12 mm", 12 * Millimetre, "12 mm"},
	{"-12 mm", -12 * Millimetre, "-12 mm"},
	{" -4 1/2 in", -9 * Inch / 2, "-114.3 mm"},
	{"-6 ft 2 in", -74 * Inch, "-1879.6 mm"},
	{"-½ in", -Inch / 2, "-12.7 mm"},
	{"-0 mm", 0, "0 mm"},
	// The ends of the range.
	{"9223372036854.775807 mm", math.MaxInt64, "9223372036854.775807 mm"},
	{"-9223372036854.775808 mm", math.MinInt64, "-9223372036854.775808 mm"},
	{"9223372036 m 85 cm 4.775807 mm", math.MaxInt64, "9223372036854.775807 mm"},
}

// TestParseAndString uses one table both ways: the text is read to the length,
// and the length is printed as mm, which is read to the length again.
func TestParseAndString(t *testing.T) {
	for _, test := range readTable {
		if got, err := Parse(test.in); err != nil || got != test.want {
			t.Errorf("Parse(%q) = %d nm, %v, want %d nm", test.in, int64(got), err, int64(test.want))
		}
		if got := test.want.String(); got != test.mm {
			t.Errorf("Length(%d).String() = %q, want %q", int64(test.want), got, test.mm)
		}
		if got, err := Parse(test.mm); err != nil || got != test.want {
			t.Errorf("Parse(%q) = %d nm, %v, want %d nm", test.mm, int64(got), err, int64(test.want))
		}
	}
}

// TestParseUnitNames reads every name of every unit, in three cases of letters.
func TestParseUnitNames(t *testing.T) {
	names := map[Length]string{
		Millimetre: "mm millimetre millimetres millimeter millimeters",
		Centimetre: "cm centimetre centimetres centimeter centimeters",
		Metre:      "m metre metres meter meters",
		Inch:       "in inch inches \" ″ ”",
		Foot:       "ft foot feet ' ′ ’",
		Yard:       "yd yard yards",
	}
	for size, list := range names {
		for name := range strings.FieldsSeq(list) {
			upper := strings.ToUpper(name)
			mixed := strings.Replace(name, "e", "E", 1)
			for _, in := range []string{"3 " + name, "3" + upper, "3 " + mixed} {
				if got, err := Parse(in); err != nil || got != 3*size {
					t.Errorf("Parse(%q) = %v, %v, want %v", in, got, err, 3*size)
				}
			}
		}
	}
}

func TestParseErrorKeepsInput(t *testing.T) {
	tests := []struct{ in, want string }{
		{"13 stone", "13 stone"},
		{"", ""},
		{strings.Repeat("9", 64), strings.Repeat("9", 64)},
		{strings.Repeat("9", 65), strings.Repeat("9", 64)},
		{strings.Repeat("9", 1000) + " mm", strings.Repeat("9", 64)},
		{strings.Repeat("9", 63) + "½ mm", strings.Repeat("9", 63)},
		{strings.Repeat("9", 62) + "½ mm", strings.Repeat("9", 62) + "½"},
		{strings.Repeat("9", 61) + "😀 mm", strings.Repeat("9", 61)},
		{strings.Repeat("\x80", 100), strings.Repeat("\x80", 64)}, // no rune borders at all
	}
	for _, test := range tests {
		got, err := Parse(test.in)
		var pe *ParseError
		if !errors.As(err, &pe) {
			t.Errorf("Parse(%q) = %v, %v, want a *ParseError", test.in, got, err)
			continue
		}
		if pe.Input != test.want {
			t.Errorf("Parse(%q): Input = %q, want %q", test.in, pe.Input, test.want)
		}
		if text := pe.Error(); !utf8.ValidString(text) || !strings.Contains(text, pe.Err.Error()) {
			t.Errorf("Parse(%q): Error() = %q, want UTF-8 with %q in it", test.in, text, pe.Err)
		}
	}
}

func TestParseErrorText(t *testing.T) {
	_, err := Parse("13 stone")
	const want = `length: "13 stone": "stone": unknown unit, use mm, cm, m, in, ft or yd`
	if err == nil || err.Error() != want {
		t.Errorf("Parse(%q): error %v, want %s", "13 stone", err, want)
	}
}

func BenchmarkParse(b *testing.B) {
	for _, in := range []string{"137 cm", "1 yd 2 ft 3 1/2 in", "0.396875 mm", "13 stone"} {
		b.Run(in, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = Parse(in) // the last is refused, which is timed too
			}
		})
	}
}
