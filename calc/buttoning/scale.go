package buttoning

import (
	"math/bits"

	"github.com/bridletie/bridletie/calc/length"
)

// scale is at·num/den to the nearest nanometre, halves up; none is negative,
// den is positive and at at most den, so that the result is in range.
func scale(at, num, den length.Length) length.Length {
	hi, lo := bits.Mul64(uint64(at), uint64(num))
	lo, carry := bits.Add64(lo, uint64(den/2), 0)
	q, _ := bits.Div64(hi+carry, lo, uint64(den))
	return length.Length(q)
}

// floorMod is a modulo b, from 0 to less than b.
func floorMod(a, b length.Length) length.Length {
	if a %= b; a < 0 {
		a += b
	}
	return a
}

// centred is a modulo b, from -b/2 to less than b/2.
func centred(a, b length.Length) length.Length {
	a = floorMod(a, b)
	if a >= b-b/2 {
		a -= b
	}
	return a
}
