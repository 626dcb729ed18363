package buttoning

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
)

// shallow is the share of the chord below which the series stands in for the
// closed form, whose last term is 0/0 for no rise. There the terms left out are
// below 1e-15 of the chord.
const shallow = 1e-3

// ArcMM is the length of the parabola over a chord w with the rise h, in the
// unit of both:
//
//	L = 2 ∫₀^(w/2) √(1 + (8hx/w²)²) dx = ½√(w² + 16h²) + (w²/8h)·asinh(4h/w)
//
// which is w for h = 0, and 2h for w = 0. For a rise below a thousandth of the
// chord it is the series w(1 + 8r²/3 − 32r⁴/5) with r = h/w. Both are taken as
// they are given: not negative, and far from the ends of the range. The formula
// is the rectification of the parabola, as any handbook of mathematics has it.
func ArcMM(w, h float64) float64 {
	if w <= 0 {
		return 2 * h
	}
	r := h / w
	if r < shallow {
		q := float64(r * r)
		return w * (1 + float64(8*q/3) - float64(32*q*q/5))
	}
	// Divided by w, the formula is ½√(1 + 16r²) + asinh(4r)/8r.
	return w * (0.5*math.Sqrt(1+float64(16*r*r)) + float64(math.Asinh(4*r)/(8*r)))
}

// Arc is ArcMM of two lengths, rounded to the nearest micrometre, but never
// below the chord. Without a rise it is the chord itself.
func Arc(chord, rise length.Length) length.Length {
	if rise <= 0 {
		return chord
	}
	um := math.Floor(ArcMM(chord.MM(), rise.MM())*1000 + 0.5)
	return max(length.Length(um)*length.Micrometre, chord)
}

// Model says how the longer spacing on the cloth is found.
type Model int

// The models; the zero value is ByArc.
const (
	ByArc        Model = iota // the parabola over the diamond, as deep as the well
	ByAmount                  // a fixed amount to each diamond
	ByTwiceDepth              // twice the depth to each diamond
)

// Spread turns spacings on the work into spacings on the cloth.
type Spread struct {
	Model  Model
	Depth  length.Length // of the wells below the crown
	Amount length.Length // for ByAmount, to each diamond
}

// Over is the cloth from one button over the diamond to the next one, a chord
// away on the work, rounded up to a micrometre: w for wells of no depth,
// except that ByAmount adds its amount whatever the depth.
func (s Spread) Over(chord length.Length) length.Length {
	switch s.Model {
	case ByAmount:
		return upToMicrometre(chord + s.Amount)
	case ByTwiceDepth:
		return upToMicrometre(chord + 2*s.Depth)
	}
	return upToMicrometre(Arc(chord, s.Depth))
}

// Edge is the cloth from an outermost button to the finished edge, a margin
// away: half of what a diamond twice as wide as the margin takes. Where there is
// no margin, the field ends on its buttons and nothing is taken.
func (s Spread) Edge(margin length.Length) length.Length {
	if margin <= 0 {
		return 0
	}
	return s.Over(2*margin) / 2
}

func upToMicrometre(l length.Length) length.Length {
	up, _ := length.RoundUpTo(l, length.Micrometre)
	return up
}

// DepthFor is the depth of well at which the arc over a chord takes a given
// length of cloth, to the nearest micrometre below; 0 when the cloth is not
// longer than the chord. It turns a rule of thumb back into the depth that it
// was made for.
func DepthFor(chord, over length.Length) length.Length {
	lo, hi := int64(0), int64(over/length.Micrometre) // the arc is longer than twice its rise
	for lo < hi {
		mid := lo + (hi-lo+1)/2
		if Arc(chord, length.Length(mid)*length.Micrometre) <= over {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	if over <= chord {
		return 0
	}
	return length.Length(lo) * length.Micrometre
}
