package piping

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// StripWidth is how wide a strip is cut that goes round a cord and leaves a seam
// allowance on each side: pi*(d+t) + 2*s for cord diameter d, cloth thickness t,
// the middle of which goes round at the radius (d+t)/2, and allowance s; twice
// pi*(d+t) for double piping, whose one strip goes round two cords (derived here).
// It is rounded up to the nanometre. No argument may be negative.
func StripWidth(cord, thickness, seam length.Length, double bool) length.Length {
	round := math.Pi
	if double {
		round = 2 * math.Pi
	}
	return length.RoundNM(scaled(cord+thickness, round), length.Nanometre, length.Up) + 2*seam
}

// PracticalWidth is the least multiple of step that is not below the width; the
// width itself when step is 0.
func PracticalWidth(width, step length.Length) length.Length {
	if practical, ok := length.RoundUpTo(width, step); ok {
		return practical
	}
	return width
}

// StretchStraight is how far cloth gives along a straight strip, in thousandths.
func StretchStraight(shop practice.Set) int {
	return int(shop.Number(practice.PipingGiveStraight) / (practice.One / 1000))
}

// StretchAt is how far cloth gives along a strip at an angle to the selvedge, in
// thousandths: straight + (bias - straight) * sin(2a)^2, since a woven cloth gives
// by the shearing of its threads, which is greatest at 45 degrees (derived here).
func StretchAt(degrees int, shop practice.Set) int {
	sin, cos := sinCos(degrees)
	twice := float64(2 * float64(sin*cos))
	straight, bias := StretchStraight(shop), int(shop.Number(practice.PipingGiveBias)/(practice.One/1000))
	return straight + int(math.Floor(float64(float64(bias-straight)*float64(twice*twice))+0.5))
}

// LeastRadius is the tightest curve of a seam that piping goes round without
// puckering: the cloth over the cord stands d + 2*t out from the seam and must
// stretch there by (d+2*t)/r. With a stretch in thousandths, more than 0, that is
// r = (d + 2*t) * 1000 / stretch, rounded up to the nanometre (derived here).
func LeastRadius(cord, thickness length.Length, stretch int) length.Length {
	n := (cord + 2*thickness) * 1000
	d := length.Length(max(stretch, 1))
	return (n + d - 1) / d
}

// LongestStrip is the longest strip at an angle that a cloth gives from selvedge
// to selvedge, measured along its edge: width / sin(angle), which is width*sqrt(2)
// on the true bias; rounded down to the micrometre.
func LongestStrip(width length.Length, degrees int) length.Length {
	sin, _ := sinCos(degrees)
	return down(float64(width) / sin)
}

// AreaLength is the handbooks' rule for what a rectangle makes: its area by the
// strip's width, rounded down to the micrometre. It counts parts of a strip and no
// ends, so that no way of cutting gives more.
func AreaLength(across, along, strip length.Length) length.Length {
	return down(float64(across) / float64(strip) * float64(along))
}

// AreaSquare is the same rule turned round: the side of the square that makes a
// length, the root of length times width, rounded up to the micrometre.
func AreaSquare(long, strip length.Length) length.Length {
	return up(math.Sqrt(scaled(long, float64(strip))))
}
