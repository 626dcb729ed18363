package practice

import (
	"math/bits"

	"github.com/bridletie/bridletie/calc/length"
)

// Times is a length by a number in millionths, both not negative, rounded up to
// the nanometre. A result beyond the range of a length is the largest one.
func Times(l length.Length, millionths int64) length.Length { return scaled(l, millionths, One-1) }

// Part is the same rounded down.
func Part(l length.Length, millionths int64) length.Length { return scaled(l, millionths, 0) }

func scaled(l length.Length, millionths int64, up uint64) length.Length {
	hi, lo := bits.Mul64(uint64(max(l, 0)), uint64(max(millionths, 0)))
	lo, carry := bits.Add64(lo, up, 0)
	hi += carry
	if hi >= One/2 {
		return 1<<63 - 1
	}
	n, _ := bits.Div64(hi, lo, One)
	return length.Length(min(n, 1<<63-1))
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
