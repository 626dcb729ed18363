// Package geom is plane geometry: points, lines that cross, and arcs.
//
// Points are exact, in whole nanometres. What needs a root is worked out in
// millimetres by plain operations, each rounded once, so that every machine gives
// the same figure; as a [length.Length] it is rounded in the direction that its
// function names.
package geom

import (
	"math"
	"math/bits"

	"github.com/bridletie/bridletie/calc/length"
)

// Point is a place: across from the left, and along from the top, the back or the
// beginning of the cloth, as the field that holds it says.
type Point struct{ Across, Along length.Length }

// Side returns on which side of the line from a to b the point p lies: 1 or -1,
// and 0 on the line. It is exact for places less than 4 million kilometres from 0.
func Side(a, b, p Point) int {
	return compare(b.Across-a.Across, p.Along-a.Along, b.Along-a.Along, p.Across-a.Across)
}

// compare returns the sign of a·b − c·d.
func compare(a, b, c, d length.Length) int {
	leftHi, leftLo := product(a, b)
	rightHi, rightLo := product(c, d)
	switch {
	case leftHi < rightHi || leftHi == rightHi && leftLo < rightLo:
		return -1
	case leftHi == rightHi && leftLo == rightLo:
		return 0
	}
	return 1
}

// product returns a·b as a number of 128 bits.
func product(a, b length.Length) (hi int64, lo uint64) {
	h, lo := bits.Mul64(uint64(a), uint64(b))
	if a < 0 {
		h -= uint64(b)
	}
	if b < 0 {
		h -= uint64(a)
	}
	return int64(h), lo
}

// Meet reports whether the segments from a to b and from c to d have a point in
// common, their ends included. It is as exact as [Side].
func Meet(a, b, c, d Point) bool {
	apart := func(p, q, r, s length.Length) bool { return max(p, q) < min(r, s) || max(r, s) < min(p, q) }
	if apart(a.Across, b.Across, c.Across, d.Across) || apart(a.Along, b.Along, c.Along, d.Along) {
		return false
	}
	return Side(a, b, c)*Side(a, b, d) <= 0 && Side(c, d, a)*Side(c, d, b) <= 0
}

// Hypot returns √(a² + b²), in the unit of both.
func Hypot(a, b float64) float64 { return math.Sqrt(float64(a*a) + float64(b*b)) }
