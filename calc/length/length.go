package length

import (
	"fmt"
	"math"
	"math/bits"
)

// Length is a length in nanometres, exact. The zero value is no length at all,
// "0 mm". Negative lengths are representable, so that differences are; a caller
// that wants a size must refuse them.
type Length int64

// The units, each an exact number of nanometres. Inch, Foot and Yard follow from
// the international yard and pound agreement of 1 July 1959, 1 yd = 0.9144 m
// exactly, with 3 ft to the yard and 12 in to the foot.
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch              = 25_400_000 * Nanometre
	Foot              = 12 * Inch
	Yard              = 3 * Foot
)

// MM returns l in millimetres, for geometry in answers. It is correct to within
// one part in 2^52; below 2^52 nanometres (4503 km) [FromMM] takes it back to the
// same Length.
func (l Length) MM() float64 {
	return float64(l) / float64(Millimetre)
}

// FromMM returns the Length nearest to mm millimetres; half a nanometre goes
// away from zero. The float64 is taken at its exact binary value, so the result
// is the nearest nanometre without exception.
//
// NaN, the infinities and values beyond the range of Length are refused with an
// error that wraps [ErrRange]; the Length is then 0.
func FromMM(mm float64) (Length, error) {
	l, ok := fromMM(mm)
	if !ok {
		return 0, fmt.Errorf("length: %g mm: %w", mm, ErrRange)
	}
	return l, nil
}

// fromMM does the work of FromMM in integers: mm is mant × 2^-shift exactly, so
// the nanometres are mant × 10^6 / 2^shift, rounded after adding one half.
func fromMM(mm float64) (Length, bool) {
	const limit = 1 << 44 // mm; above the largest Length, 2^63 nm < 2^44 mm
	if !(math.Abs(mm) < limit) {
		return 0, false // NaN comes here too
	}
	frac, exp := math.Frexp(math.Abs(mm))
	mant := uint64(math.Ldexp(frac, 53))
	shift := uint(53 - exp) // at least 9, as mm < 2^44
	if shift > 74 {
		return 0, true // mant × 10^6 < 2^73, so this is under half a nanometre
	}
	hi, lo := bits.Mul64(mant, uint64(Millimetre))
	halfHi, halfLo := shiftRight(1<<63, 0, 128-shift)
	lo, carry := bits.Add64(lo, halfLo, 0)
	hi, _ = bits.Add64(hi, halfHi, carry)
	_, lo = shiftRight(hi, lo, shift) // below 2^44 × 10^6, which is below 2^64
	return fromMagnitude(lo, mm < 0)
}

// shiftRight returns the 128-bit number hi:lo shifted right by n bits, n ≤ 128.
func shiftRight(hi, lo uint64, n uint) (uint64, uint64) {
	if n >= 64 {
		return 0, hi >> (n - 64)
	}
	return hi >> n, lo>>n | hi<<(64-n)
}

// Add returns a + b. If the sum is beyond the range of Length it returns 0 and
// false.
func Add(a, b Length) (Length, bool) {
	sum := a + b
	if (sum > a) != (b > 0) {
		return 0, false
	}
	return sum, true
}

// MulInt returns n times l, for n copies of one length. If the product is beyond
// the range of Length it returns 0 and false.
func MulInt(l Length, n int64) (Length, bool) {
	hi, lo := bits.Mul64(l.magnitude(), Length(n).magnitude())
	if hi != 0 {
		return 0, false
	}
	return fromMagnitude(lo, (l < 0) != (n < 0))
}

// RoundUpTo returns the least multiple of step that is not less than l: cloth
// sold by the tenth of a metre is ordered at RoundUpTo(needed, Metre/10). A
// negative l rounds towards zero. It returns 0 and false if step is zero or
// negative, or if the multiple is beyond the range of Length.
func RoundUpTo(l, step Length) (Length, bool) {
	if step <= 0 {
		return 0, false
	}
	over := l % step
	if over <= 0 {
		return l - over, true
	}
	return Add(l, step-over)
}

// magnitude returns |l|; for the least Length that is 2^63, which no Length holds.
func (l Length) magnitude() uint64 {
	if l < 0 {
		return -uint64(l)
	}
	return uint64(l)
}

// fromMagnitude returns the Length of the given magnitude and sign, or 0 and
// false if there is none: above 2^63-1, or above 2^63 where negative.
func fromMagnitude(u uint64, negative bool) (Length, bool) {
	switch {
	case negative && u <= 1<<63:
		return Length(-u), true
	case !negative && u < 1<<63:
		return Length(u), true
	}
	return 0, false
}
