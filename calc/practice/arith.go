package practice

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
)

// Times is a length by a number in millionths, both not negative, rounded up to
// the nanometre. A result beyond the range of a length is the largest one.
func Times(l length.Length, millionths int64) length.Length {
	return scaled(l, millionths, length.Up)
}

// Part is the same rounded down.
func Part(l length.Length, millionths int64) length.Length {
	return scaled(l, millionths, length.Down)
}

func scaled(l length.Length, millionths int64, r length.Rounding) length.Length {
	out, ok := length.Scale(max(l, 0), max(millionths, 0), One, r)
	if !ok {
		return math.MaxInt64
	}
	return out
}

// Packs is how many packs of size hold need, after need has grown by a share in
// millionths; rounded up once. Need and size are counted alike.
func Packs(need, size, spare int64) int64 {
	if need <= 0 || size <= 0 {
		return 0
	}
	grown := int64(Times(length.Length(need), One+max(spare, 0)))
	return (grown-1)/size + 1
}
