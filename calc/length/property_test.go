package length

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// anyLength draws from the whole range, its ends and small values favoured.
func anyLength() *rapid.Generator[Length] {
	return rapid.Custom(func(t *rapid.T) Length {
		return Length(rapid.OneOf(
			rapid.Int64(),
			rapid.Int64Range(math.MaxInt64-10_000_000, math.MaxInt64),
			rapid.Int64Range(math.MinInt64, math.MinInt64+10_000_000),
			rapid.Int64Range(-int64(3*Yard), int64(3*Yard)),
		).Draw(t, "nm"))
	})
}

func TestStringRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength().Draw(t, "l")
		if got, err := Parse(l.String()); err != nil || got != l {
			t.Fatalf("Parse(%q) = %v, %v", l.String(), got, err)
		}
		text, err := l.MarshalText()
		if err != nil || string(text) != l.String() {
			t.Fatalf("(%v).MarshalText() = %s, %v", l, text, err)
		}
		var back Length
		if err := back.UnmarshalText(text); err != nil || back != l {
			t.Fatalf("UnmarshalText(%s) = %v, %v", text, back, err)
		}
	})
}

func TestTextRoundTrip(t *testing.T) {
	steps := map[System]Length{Metric: Millimetre, Imperial: Inch / 16}
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength().Draw(t, "l")
		sys := rapid.SampledFrom([]System{Metric, Imperial}).Draw(t, "sys")
		r := rapid.SampledFrom([]Rounding{Nearest, Up, Down}).Draw(t, "r")
		text, step := l.Text(sys, r), steps[sys]
		back, err := Parse(text)
		if errors.Is(err, ErrRange) {
			if math.MinInt64+step <= l && l <= math.MaxInt64-step {
				t.Fatalf("Parse(%q): %v, but %v is a step within the range", text, err, l)
			}
			return
		}
		if err != nil {
			t.Fatalf("Parse(%q): %v", text, err)
		}
		off := new(big.Int).Sub(big.NewInt(int64(back)), big.NewInt(int64(l))).Int64()
		ok := false
		switch r {
		case Nearest:
			ok = -int64(step) <= 2*off && 2*off <= int64(step)
		case Up:
			ok = 0 <= off && off < int64(step)
		case Down:
			ok = -int64(step) < off && off <= 0
		}
		if !ok || back%step != 0 {
			t.Fatalf("(%v).Text(%d, %d) = %q, off by %d nm", l, sys, r, text, off)
		}
	})
}

// written is a number as text and as what it means.
type written struct {
	text     string
	value    *big.Rat
	fraction bool
}

func anyNumber() *rapid.Generator[written] {
	return rapid.Custom(func(t *rapid.T) written {
		digits := rapid.StringMatching(`[0-9]{1,3}|[0-9]{8,22}`)
		whole := digits.Draw(t, "whole")
		switch rapid.IntRange(0, 3).Draw(t, "form") {
		case 0:
			return written{whole, rat(whole), false}
		case 1:
			text := whole + "." + rapid.StringMatching(`[0-9]{0,8}[05]{1,3}0{0,9}`).Draw(t, "decimals")
			return written{text, rat(text), true}
		}
		den := rapid.OneOf(rapid.SampledFrom([]int{2, 4, 8, 16, 32, 64, 5, 10, 100}), rapid.IntRange(1, 1000)).Draw(t, "den")
		num := rapid.IntRange(0, den-1).Draw(t, "num")
		fraction := fmt.Sprintf("%d/%d", num, den)
		if rapid.Bool().Draw(t, "bare") {
			return written{fraction, rat(fraction), true}
		}
		return written{whole + " " + fraction, new(big.Rat).Add(rat(whole), rat(fraction)), true}
	})
}

func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("not a rational: " + s)
	}
	return r
}

// TestParseAgainstRationals writes compounds and adds them up in rational numbers.
func TestParseAgainstRationals(t *testing.T) {
	type named struct {
		name string
		size int64
	}
	families := [][]named{
		{{"yd", 914_400_000}, {"ft", 304_800_000}, {"in", 25_400_000}},
		{{"m", 1_000_000_000}, {"cm", 10_000_000}, {"mm", 1_000_000}},
	}
	rapid.Check(t, func(t *rapid.T) {
		family := rapid.SampledFrom(families).Draw(t, "family")
		negative := rapid.Bool().Draw(t, "negative")
		sum, text := new(big.Rat), []string{}
		for _, u := range family {
			if !rapid.Bool().Draw(t, u.name) {
				continue
			}
			n := anyNumber().Draw(t, "number")
			sum.Add(sum, new(big.Rat).Mul(n.value, big.NewRat(u.size, 1)))
			text = append(text, n.text+" "+u.name)
			if n.fraction {
				break
			}
		}
		if len(text) == 0 {
			return
		}
		in := strings.Join(text, " ")
		if negative {
			in = "-" + in
			sum.Neg(sum)
		}
		if len(in) > 64 {
			return
		}
		got, err := Parse(in)
		beyond := sum.Cmp(big.NewRat(math.MaxInt64, 1)) > 0 || sum.Cmp(big.NewRat(math.MinInt64, 1)) < 0
		switch {
		case sum.IsInt() && !beyond:
			if err != nil || big.NewInt(int64(got)).Cmp(sum.Num()) != 0 {
				t.Fatalf("Parse(%q) = %v, %v, want %v nm", in, got, err, sum.Num())
			}
		case sum.IsInt():
			if !errors.Is(err, ErrRange) {
				t.Fatalf("Parse(%q) = %v, %v, want %q", in, got, err, ErrRange)
			}
		default:
			if !errors.Is(err, ErrInexact) && !(beyond && errors.Is(err, ErrRange)) {
				t.Fatalf("Parse(%q) = %v, %v, want %q", in, got, err, ErrInexact)
			}
		}
	})
}

// TestFromMMAgainstRationals rounds the exact value of the float64.
func TestFromMMAgainstRationals(t *testing.T) {
	million, half := big.NewRat(1_000_000, 1), big.NewRat(1, 2)
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.OneOf(
			rapid.Float64(), rapid.Float64Range(-1e-5, 1e-5), rapid.Float64Range(-1e4, 1e4), rapid.Float64Range(-9.3e12, 9.3e12),
		).Draw(t, "mm")
		exact := new(big.Rat).SetFloat64(math.Abs(mm))
		exact.Mul(exact, million).Add(exact, half)
		want := new(big.Int).Quo(exact.Num(), exact.Denom()) // floor(|nm| + 1/2)
		if mm < 0 {
			want.Neg(want)
		}
		got, err := FromMM(mm)
		if !want.IsInt64() {
			if got != 0 || !errors.Is(err, ErrRange) {
				t.Fatalf("FromMM(%v) = %v, %v, want 0 and %q", mm, got, err, ErrRange)
			}
			return
		}
		if err != nil || int64(got) != want.Int64() {
			t.Fatalf("FromMM(%v) = %d nm, %v, want %v nm", mm, int64(got), err, want)
		}
	})
}

func TestMMRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Range(-(1<<52)+1, 1<<52-1).Draw(t, "nm"))
		if got, err := FromMM(l.MM()); err != nil || got != l {
			t.Fatalf("FromMM(%v) = %v, %v, want %v", l.MM(), got, err, l)
		}
	})
}

// TestArithmeticAgainstBig checks the three helpers against integers without end.
func TestArithmeticAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyLength().Draw(t, "a"), anyLength().Draw(t, "b")
		x, y := big.NewInt(int64(a)), big.NewInt(int64(b))
		check := func(name string, got Length, ok bool, want *big.Int) {
			if ok != want.IsInt64() || ok && int64(got) != want.Int64() || !ok && got != 0 {
				t.Fatalf("%s(%d, %d) = %d, %t, want %v", name, int64(a), int64(b), int64(got), ok, want)
			}
		}
		got, ok := Add(a, b)
		check("Add", got, ok, new(big.Int).Add(x, y))
		got, ok = MulInt(a, int64(b))
		check("MulInt", got, ok, new(big.Int).Mul(x, y))
		if b <= 0 {
			return
		}
		got, ok = RoundUpTo(a, b)
		up := new(big.Int).Add(x, new(big.Int).Sub(y, big.NewInt(1)))
		up.Div(up, y) // Euclidean, so the floor for a positive divisor
		check("RoundUpTo", got, ok, up.Mul(up, y))
	})
}
