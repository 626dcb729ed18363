package length

import (
	"math"
	"math/bits"
)

// Round returns l as a multiple of step, in the direction of r: what must be
// enough is rounded Up, a place on a tape to the Nearest, half a step away from
// zero. A step that is not positive leaves l as it is. Where the multiple is
// beyond the range of Length, Round returns the end of the range; [RoundUpTo]
// reports it instead.
func (l Length) Round(step Length, r Rounding) Length {
	if step <= 0 {
		return l
	}
	if out, ok := MulInt(step, int64(l.steps(step, r))); ok {
		return out
	}
	return end(l < 0)
}

// hair, in nanometres, is far more than a float64 loses in the sums of a
// calculation, and less than any length is counted in.
const hair = 0.1

// RoundMM returns mm millimetres, worked out in floating point, as a multiple of
// step in the direction of r. Rounded Up, what lies within a tenth of a nanometre
// above a multiple is that multiple, as it is Down within as much below: 400 mm
// that a root has made 400.00000000000006 mm stays 400 mm. A step that is not
// positive is taken for a nanometre. Where the multiple is beyond the range of
// Length, RoundMM returns the end of the range; for NaN it returns 0.
func RoundMM(mm float64, step Length, r Rounding) Length {
	return RoundNM(mm*float64(Millimetre), step, r)
}

// RoundNM is RoundMM of a number of nanometres.
func RoundNM(nm float64, step Length, r Rounding) Length {
	nm = float64(nm) // rounded by itself, so that no machine fuses it with what follows
	size := float64(max(step, Nanometre))
	switch r {
	case Up:
		nm = math.Ceil((nm-hair)/size) * size
	case Down:
		nm = math.Floor((nm+hair)/size) * size
	default:
		nm = math.Round(nm/size) * size
	}
	const exact = 1 << 53 // up to here a float64 holds every whole number
	if -exact <= nm && nm <= exact {
		return Length(nm)
	}
	return beyond(nm, max(step, Nanometre))
}

// beyond is a number of nanometres that is no exact multiple of step any more, or
// no Length, or no number.
func beyond(nm float64, step Length) Length {
	switch {
	case math.IsNaN(nm):
		return 0
	case nm >= 1<<63 || nm < -1<<63:
		return end(nm < 0)
	}
	return Length(nm).Round(step, Nearest)
}

// end is the largest Length, or the least.
func end(negative bool) Length {
	if negative {
		return math.MinInt64
	}
	return math.MaxInt64
}

// Scale returns l·num/den, rounded once to a whole nanometre by r and exact until
// then. It returns 0 and false if l or num is negative, if den is not positive, or
// if the result is beyond the range of Length.
func Scale(l Length, num, den int64, r Rounding) (Length, bool) {
	if l < 0 || num < 0 || den <= 0 {
		return 0, false
	}
	add := uint64(den) / 2
	switch r {
	case Up:
		add = uint64(den) - 1
	case Down:
		add = 0
	}
	hi, lo := bits.Mul64(uint64(l), uint64(num))
	lo, carry := bits.Add64(lo, add, 0)
	if hi += carry; hi >= uint64(den) {
		return 0, false
	}
	q, _ := bits.Div64(hi, lo, uint64(den))
	return fromMagnitude(q, false)
}

// FloorDiv returns a/b rounded towards minus infinity, for b > 0.
func FloorDiv[T ~int64](a, b T) T {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// CeilDiv returns a/b rounded towards plus infinity, for b > 0: how many lengths
// of b it takes for a.
func CeilDiv[T ~int64](a, b T) T {
	q := a / b
	if a%b > 0 {
		q++
	}
	return q
}

// Mod returns a modulo m, from 0 to less than m, for m > 0 and any a: where in the
// repeat a place lies.
func Mod[T ~int64](a, m T) T {
	if a %= m; a < 0 {
		a += m
	}
	return a
}
