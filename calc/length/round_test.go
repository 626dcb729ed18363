package length

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

var roundings = []Rounding{Nearest, Up, Down}

// rounded is a/b as a whole number, in the direction of r; halves go away from zero.
func rounded(a, b *big.Int, r Rounding) *big.Int {
	q, rem := new(big.Int).DivMod(a, b, new(big.Int)) // b > 0, so rem is not negative
	twice := new(big.Int).Lsh(rem, 1).Cmp(b)
	if r == Up && rem.Sign() > 0 || r == Nearest && (twice > 0 || twice == 0 && a.Sign() > 0) {
		q.Add(q, big.NewInt(1))
	}
	return q
}

func anyStep() *rapid.Generator[Length] {
	return rapid.Custom(func(t *rapid.T) Length {
		return Length(rapid.OneOf(rapid.Int64Range(1, 100), rapid.Int64Range(1, int64(Yard)), rapid.Int64Range(1, math.MaxInt64)).Draw(t, "step"))
	})
}

// TestRound holds Round, and RoundUpTo beside it, against big integers.
func TestRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, step := anyLength().Draw(t, "l"), anyStep().Draw(t, "step")
		r := rapid.SampledFrom(roundings).Draw(t, "r")
		s := big.NewInt(int64(step))
		want := new(big.Int).Mul(rounded(big.NewInt(int64(l)), s, r), s)
		inRange := want.IsInt64()
		if !inRange {
			want.SetInt64(math.MaxInt64)
			if l < 0 {
				want.SetInt64(math.MinInt64)
			}
		}
		if got := l.Round(step, r); int64(got) != want.Int64() {
			t.Fatalf("(%d).Round(%d, %d) = %d, want %d", l, step, r, got, want)
		}
		if up, ok := RoundUpTo(l, step); r == Up && (ok != inRange || ok && up != l.Round(step, Up)) {
			t.Fatalf("RoundUpTo(%d, %d) = %d, %v; Round says %d", l, step, up, ok, l.Round(step, Up))
		}
		if got := l.Round(-step, r); got != l {
			t.Fatalf("rounded to a step below 0, %d is %d", l, got)
		}
	})
}

// TestRoundMM: a whole number of steps is itself, whatever a float64 has lost on
// the way, and what is clearly beside one goes the way it is sent.
func TestRoundMM(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.SampledFrom([]Length{Micrometre, Millimetre / 10, Millimetre, Inch / 16, Centimetre}).Draw(t, "step")
		n := Length(rapid.Int64Range(-1_000_000, 1_000_000).Draw(t, "n"))
		mm := (n * step).MM()
		lost := mm * (1 + float64(rapid.IntRange(-4, 4).Draw(t, "ulps"))*0x1p-52)
		for _, r := range roundings {
			if got := RoundMM(lost, step, r); got != n*step {
				t.Fatalf("RoundMM(%v, %v, %d) = %v, want %v", lost, step, r, got, n*step)
			}
		}
		beside := mm + 1e-6*float64(rapid.IntRange(1, int(step/Nanometre/2)-1).Draw(t, "nm"))
		for r, want := range map[Rounding]Length{Nearest: n, Down: n, Up: n + 1} {
			if got := RoundMM(beside, step, r); got != want*step {
				t.Fatalf("RoundMM(%v, %v, %d) = %v, want %v", beside, step, r, got, want*step)
			}
		}
	})
}

func TestRoundMMEnds(t *testing.T) {
	for _, tc := range []struct {
		mm   float64
		step Length
		want Length
	}{
		{math.NaN(), Micrometre, 0},
		{math.Inf(1), Micrometre, math.MaxInt64},
		{math.Inf(-1), Micrometre, math.MinInt64},
		{1e300, Millimetre, math.MaxInt64},
		{-1e13, Millimetre, math.MinInt64},
		{9e12, Millimetre, 9e12 * Millimetre},
		{0.0000014, 0, 1},
		{-2.5, Millimetre, -3 * Millimetre},
	} {
		if got := RoundMM(tc.mm, tc.step, Nearest); got != tc.want {
			t.Errorf("RoundMM(%v, %d, Nearest) = %d, want %d", tc.mm, tc.step, got, tc.want)
		}
	}
}

// FuzzRoundMM gives RoundMM any number: it returns a multiple of the step or an
// end of the range.
func FuzzRoundMM(f *testing.F) {
	f.Add(math.MaxFloat64, int64(1), uint8(1))
	f.Add(9.2233720368547758e12, int64(1000), uint8(2))
	f.Fuzz(func(t *testing.T, mm float64, step int64, r uint8) {
		got := RoundMM(mm, Length(step), Rounding(r))
		if got != math.MaxInt64 && got != math.MinInt64 && got%max(Length(step), 1) != 0 {
			t.Errorf("RoundMM(%v, %d, %d) = %d", mm, step, r, got)
		}
	})
}

// TestScale holds Scale against big integers.
func TestScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength().Draw(t, "l")
		num := int64(anyLength().Draw(t, "num"))
		den := rapid.OneOf(rapid.Int64Range(-2, 100), rapid.Int64()).Draw(t, "den")
		r := rapid.SampledFrom(roundings).Draw(t, "r")
		got, ok := Scale(l, num, den, r)
		if l < 0 || num < 0 || den <= 0 {
			if ok || got != 0 {
				t.Fatalf("Scale(%d, %d, %d) = %d, %v", l, num, den, got, ok)
			}
			return
		}
		want := rounded(new(big.Int).Mul(big.NewInt(int64(l)), big.NewInt(num)), big.NewInt(den), r)
		if ok != want.IsInt64() || ok && int64(got) != want.Int64() || !ok && got != 0 {
			t.Fatalf("Scale(%d, %d, %d, %d) = %d, %v, want %v", l, num, den, r, got, ok, want)
		}
	})
}

// TestDivide holds FloorDiv, CeilDiv and Mod against big integers.
func TestDivide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyLength().Draw(t, "a"), anyStep().Draw(t, "b")
		x, y := big.NewInt(int64(a)), big.NewInt(int64(b))
		if got, want := FloorDiv(a, b), rounded(x, y, Down); int64(got) != want.Int64() {
			t.Fatalf("FloorDiv(%d, %d) = %d, want %d", a, b, got, want)
		}
		if got, want := CeilDiv(a, b), rounded(x, y, Up); int64(got) != want.Int64() {
			t.Fatalf("CeilDiv(%d, %d) = %d, want %d", a, b, got, want)
		}
		if got, want := Mod(a, b), new(big.Int).Mod(x, y); int64(got) != want.Int64() {
			t.Fatalf("Mod(%d, %d) = %d, want %d", a, b, got, want)
		}
	})
}
