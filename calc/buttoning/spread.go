package buttoning

import (
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

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
	over := geom.Parabola(chord, s.Depth)
	switch s.Model {
	case ByAmount:
		over = chord + s.Amount
	case ByTwiceDepth:
		over = chord + 2*s.Depth
	}
	return over.Round(length.Micrometre, length.Up)
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

// DepthFor is the depth of well at which the arc over a chord takes a given
// length of cloth, to the nearest micrometre below; 0 when the cloth is not
// longer than the chord. It turns a rule of thumb back into the depth that it
// was made for.
func DepthFor(chord, over length.Length) length.Length {
	lo, hi := int64(0), int64(over/length.Micrometre) // the arc is longer than twice its rise
	for lo < hi {
		mid := lo + (hi-lo+1)/2
		if geom.Parabola(chord, length.Length(mid)*length.Micrometre) <= over {
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
