package length

import (
	"errors"
	"math"
	"testing"
)

// TestUnits checks the exact conversions of the international yard and pound
// agreement of 1 July 1959, 1 yd = 0.9144 m, and what follows from them.
func TestUnits(t *testing.T) {
	tests := []struct {
		name      string
		got, want Length
	}{
		{"1 yd = 0.9144 m", 10_000 * Yard, 9_144 * Metre},
		{"1 ft = 0.3048 m", 10_000 * Foot, 3_048 * Metre},
		{"1 in = 25.4 mm", 10 * Inch, 254 * Millimetre},
		{"1 in = 2.54 cm", 100 * Inch, 254 * Centimetre},
		{"36 in = 1 yd", 36 * Inch, Yard},
		{"1/64 in = 396 875 nm", Inch, 64 * 396_875 * Nanometre},
		{"1 m = 10^9 nm", Metre, 1_000_000_000},
		{"1 cm = 10^7 nm", Centimetre, 10_000_000},
		{"1 mm = 10^6 nm", Millimetre, 1_000_000},
		{"1 µm = 10^3 nm", Micrometre, 1_000},
	}
	for _, test := range tests {
		if test.got != test.want {
			t.Errorf("%s: %d nm, want %d nm", test.name, int64(test.got), int64(test.want))
		}
	}
}

func TestMMAndFromMM(t *testing.T) {
	tests := []struct {
		l  Length
		mm float64
	}{
		{0, 0},
		{Nanometre, 0.000001},
		{Inch, 25.4},
		{-Inch, -25.4},
		{Inch / 64, 0.396875},
		{Yard, 914.4},
		{6420 * Millimetre, 6420},
		{Millimetre / 10, 0.1},
		{1<<52 - 1, 4503599627.370495},
		{math.MinInt64, -9223372036854.775808}, // -2^63 is a float64
	}
	for _, test := range tests {
		if got := test.l.MM(); got != test.mm {
			t.Errorf("(%v).MM() = %v, want %v", test.l, got, test.mm)
		}
	}
	// The last float64 of mm is not -2^63 nm exactly, so it is not read back.
	for _, test := range tests[:len(tests)-1] {
		if got, err := FromMM(test.mm); err != nil || got != test.l {
			t.Errorf("FromMM(%v) = %v, %v, want %v", test.mm, got, err, test.l)
		}
	}
}

func TestFromMMRounds(t *testing.T) {
	const ulpOne = 1.0 / (1 << 52)
	tests := []struct {
		mm   float64
		want Length
	}{
		{4.999e-7, 0},
		{5.001e-7, 1},
		{-5.001e-7, -1},
		{math.Copysign(0, -1), 0},
		{math.SmallestNonzeroFloat64, 0},
		{-math.SmallestNonzeroFloat64, 0},
		{0.0078125, 7813},   // 2^-7 mm is 7812.5 nm exactly: away from zero
		{-0.0078125, -7813}, //
		{0.0078125 * (1 - ulpOne), 7812},
		{1.0 / 3, 333333},
		{9007199254.740993, 9007199254740993}, // 2^53+1 nm, which no float64 of nanometres is
	}
	for _, test := range tests {
		if got, err := FromMM(test.mm); err != nil || got != test.want {
			t.Errorf("FromMM(%v) = %d nm, %v, want %d nm", test.mm, int64(got), err, int64(test.want))
		}
	}
}

func TestFromMMRefuses(t *testing.T) {
	for _, mm := range []float64{
		math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, -math.MaxFloat64,
		1e300, 1 << 44, -(1 << 44), 1<<44 - 1, 18446744073709.6, 9.3e12, -9.3e12, 9223372036854.777, -9223372036854.777,
	} {
		if got, err := FromMM(mm); got != 0 || !errors.Is(err, ErrRange) {
			t.Errorf("FromMM(%v) = %v, %v, want 0 and %q", mm, got, err, ErrRange)
		}
	}
}

func TestAdd(t *testing.T) {
	const most, least = Length(math.MaxInt64), Length(math.MinInt64)
	tests := []struct {
		a, b, want Length
		ok         bool
	}{
		{0, 0, 0, true},
		{Metre, -Metre, 0, true},
		{Foot, Inch, 13 * Inch, true},
		{most, 0, most, true},
		{most, 1, 0, false},
		{most - 1, 1, most, true},
		{most, most, 0, false},
		{most, least, -1, true},
		{least, 0, least, true},
		{least, -1, 0, false},
		{least + 1, -1, least, true},
		{least, least, 0, false}, // wraps to 0, which must not be taken for the sum
	}
	for _, test := range tests {
		for _, in := range [][2]Length{{test.a, test.b}, {test.b, test.a}} {
			if got, ok := Add(in[0], in[1]); got != test.want || ok != test.ok {
				t.Errorf("Add(%v, %v) = %v, %t, want %v, %t", in[0], in[1], got, ok, test.want, test.ok)
			}
		}
	}
}

func TestMulInt(t *testing.T) {
	const most, least = Length(math.MaxInt64), Length(math.MinInt64)
	tests := []struct {
		l    Length
		n    int64
		want Length
		ok   bool
	}{
		{0, math.MinInt64, 0, true},
		{Yard, 0, 0, true},
		{Inch, 36, Yard, true},
		{-Inch, 36, -Yard, true},
		{-Inch, -36, Yard, true},
		{most, 1, most, true},
		{most, -1, least + 1, true},
		{most, 2, 0, false},
		{least, 1, least, true},
		{least, -1, 0, false},
		{1, math.MinInt64, least, true},
		{-1, math.MinInt64, 0, false},
		{1 << 31, 1 << 32, 0, false},
		{1 << 31, -(1 << 32), least, true},
		{1 << 32, 1 << 32, 0, false}, // wraps to 0
		{least, math.MinInt64, 0, false},
	}
	for _, test := range tests {
		if got, ok := MulInt(test.l, test.n); got != test.want || ok != test.ok {
			t.Errorf("MulInt(%v, %d) = %v, %t, want %v, %t", test.l, test.n, got, ok, test.want, test.ok)
		}
	}
}

func TestRoundUpTo(t *testing.T) {
	const most, least = Length(math.MaxInt64), Length(math.MinInt64)
	tests := []struct {
		l, step, want Length
		ok            bool
	}{
		{0, Metre, 0, true},
		{1, Metre, Metre, true},
		{Metre, Metre, Metre, true},
		{Metre + 1, Metre, 2 * Metre, true},
		{6424 * Millimetre, Metre / 10, 6500 * Millimetre, true},
		{10 * Inch, Yard / 4, 18 * Inch, true},
		{-1, Metre, 0, true},
		{-Metre, Metre, -Metre, true},
		{-Metre - 1, Metre, -Metre, true},
		{Metre, 0, 0, false},
		{Metre, -1, 0, false},
		{Metre, least, 0, false},
		{most, 1, most, true},
		{most, 2, 0, false},
		{most - 1, 2, most - 1, true},
		{1, most, most, true},
		{most, most, most, true},
		{least, 2, least, true},
		{least, most, -most, true},
	}
	for _, test := range tests {
		if got, ok := RoundUpTo(test.l, test.step); got != test.want || ok != test.ok {
			t.Errorf("RoundUpTo(%v, %v) = %v, %t, want %v, %t", test.l, test.step, got, ok, test.want, test.ok)
		}
	}
}
