package length

import (
	"errors"
	"strings"
	"testing"
)

// sentinels are all reasons for refusal; ErrComma is among them beside the
// ErrSyntax that it also is.
var sentinels = []error{ErrSyntax, ErrComma, ErrNoUnit, ErrUnit, ErrInexact, ErrRange}

// refusedTable is what Parse refuses, by reason.
var refusedTable = []struct {
	want error
	in   []string
}{
	{ErrSyntax, []string{
		// No number.
		"", " ", "mm", "in 4", "width", "-", "+", "- mm", "'", "/", "½½ in", "cm 137",
		// Number words and notations of computers.
		"NaN", "NaN mm", "Inf", "-Inf mm", "+Infinity mm", "1e3 mm", "1E3 mm", "1e+3 mm", "1e-3 mm",
		"0x10 mm", "0x1p4 mm", "0b1 mm", "0o7 mm", "1_000 mm", "10 000 mm",
		// Digits and spaces that are not ours.
		"１２ mm", "٣ mm", "² mm", "12\tmm", "12 mm\n", "12\u3000mm", "12\u200bmm",
		// Signs.
		"--1 mm", "+-1 mm", "- 1 mm", "1 -mm", "1 m -20 cm", "1 m + 20 cm", "−1 mm", "±1 mm",
		// Decimals.
		".", ". mm", "1. mm", "1.. mm", "1.2.3 mm", "1 .5 mm", "1. 5 mm",
		// Fractions.
		"1/0 in", "0/0 in", "1 1/0 in", "1/1001 in", "1/ in", "/2 in", "1//2 in", "1/2/3 in", "1 / 2 in",
		"1/-2 in", "1.5/2 in", "1/2.5 in", "4.5 1/2 in", "4.5½ in", "1½/2 in", "½/2 in", "1/½ in", "4-1/2 in",
		"41/2 in", "41⁄2 in", "2/2 in", "4 3/2 in", "4 5 in", "4 1 1/2 in", "½ 1/2 in", "⅐ in", "↉ in",
		"99999999999999999999999/2 in", "1/99999999999999999999999 in",
		// Compounds.
		"2 in 6 ft", "1 ft 1 yd", "6 ft 6 ft", "6' 2'", `2" 6'`, "1 m 2 in", "1 ft 30 cm", "1 cm 1 m", "5 mm 5 mm",
		"1.5 ft 2 in", "1.0 ft 2 in", "1/2 yd 3 in", "½ yd 3 in", "1 yd 1½ ft 2 in", "1 m 20 cm 5 mm 1 mm",
		"6 ft and 2 in", "6 ft x 2 in", "6 ft; 2 in", "1 m;", "1 m m", "1 m stone",
		// Marks after the unit or in its place.
		"12 mm.", "54 in.", "12 mm²", "12 %", "12 $ mm", "12 ㎜", "12 m\u0301", "6‘", "12 \x00mm", "\xff", "12 \xff", "12 m\xff",
		// Length.
		strings.Repeat(" ", 60) + "12 mm", strings.Repeat("0", 62) + "1 m",
	}},
	{ErrComma, []string{"1,000 mm", "1,5 m", "1,5", "1.000,5 m", "1,000.5 mm", ",5 m", "1, m", "6 ft, 2 in", "1/2, in", "12 mm,", "1/,2 in", "1.,5 m"}},
	{ErrNoUnit, []string{"12", " 12 ", "-12", "1.5", ".5", "1/2", "½", "4 ½", "4 1/2", "0", "6 ft 2", "6'2", "1 m 20", "99999999999999999999"}},
	{ErrUnit, []string{
		"13 stone", "1 km", "1 µm", "1 nm", "1 dm", "1 mile", "1 foots", "1 inchs", "1 mms", "1 c m",
		"1 мм", "1 ｍｍ", "1 inﬁ", "1 metreſ", "1 millimetress", "1 ftin", "6ft2xin", "1 fttt 2 in", "0xff mm", "1e mm",
		"1 ell", "1 rod", "1 Å", "1 m 20 cmm",
	}},
	{ErrInexact, []string{
		"1/3 in", "⅓ in", "2/3 in", "⅙ in", "1/7 yd", "1/999 m", "1 1/3 in", "1 ft 1/3 in", "0.0000001 mm", "0.0000000001 m",
		"1.0000000000000000000000000000000001 m", "0.00000001 in", "0.000000001 yd", "1/128 mm", "-1/3 in",
		"0.00000000000000000000000000000000000000000000000000000001 m",
	}},
	{ErrRange, []string{
		"9223372036854.775808 mm", "-9223372036854.775809 mm", "9223372037 m", "-9223372037 m", "18446744073709.551616 mm",
		"18446744073709551615 mm", "18446744073709551620 mm", "18446744073709551616 mm", "18446744073709551617 mm", "99999999999999999999999 yd",
		"99999999999999999999999999999999999999999999 in", "9223372036 m 85 cm 4.775808 mm", "9223372036 m 99999999999 cm",
		"18446744073 m 709551616 mm", "20000000000 yd 30000000000 ft", "18446744073.709551615 m", "18446744073 3/4 m",
		"-99999999999999999999 mm", "9223372036854775807 m", "18446744073709 3/4 mm", "18446744073 m 18446744073709 mm",
	}},
}

func TestParseRefuses(t *testing.T) {
	n := 0
	for _, test := range refusedTable {
		for _, in := range test.in {
			n++
			checkRefused(t, in, test.want)
		}
	}
	if n < 60 {
		t.Errorf("%d refused inputs, want 60 or more", n)
	}
}

// checkRefused checks that Parse refuses in for the reason want and no other,
// with no length.
func checkRefused(t *testing.T, in string, want error) {
	t.Helper()
	got, err := Parse(in)
	if got != 0 || err == nil {
		t.Errorf("Parse(%q) = %v, %v, want 0 and %q", in, got, err, want)
		return
	}
	for _, s := range sentinels {
		expect := s == want || s == ErrSyntax && want == ErrComma
		if errors.Is(err, s) != expect {
			t.Errorf("Parse(%q): errors.Is(%q, %q) = %t", in, err, s, !expect)
		}
	}
}

func TestParseReportsFormBeforeValue(t *testing.T) {
	tests := []struct {
		in   string
		want error
	}{
		{"1/3 in stone", ErrSyntax},
		{"99999999999999999999 m 1 stone", ErrUnit},
		{"99999999999999999999 m 1", ErrNoUnit},
		{"99999999999999999999.00000000001 m", ErrRange},
	}
	for _, test := range tests {
		checkRefused(t, test.in, test.want)
	}
}
