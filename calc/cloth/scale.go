package cloth

import (
	"math"
	"math/bits"
)

// scaleUp is n*num/den rounded up, exact through 128 bits; false when it does
// not fit or an operand is negative or den is not positive.
func scaleUp(n, num, den int64) (int64, bool) {
	if n < 0 || num < 0 || den <= 0 {
		return 0, false
	}
	hi, lo := bits.Mul64(uint64(n), uint64(num))
	lo, carry := bits.Add64(lo, uint64(den-1), 0)
	hi += carry
	if hi >= uint64(den) {
		return 0, false
	}
	q, _ := bits.Div64(hi, lo, uint64(den))
	if q > math.MaxInt64 {
		return 0, false
	}
	return int64(q), true
}
