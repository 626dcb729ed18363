package buttoning

import (
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// PleatKind says between what a pleat runs.
type PleatKind int

// The kinds, in the order in which they are answered.
const (
	Diagonal   PleatKind = iota // from button to button, along the side of a diamond
	ToTop                       // from a button of the first row to the top edge
	ToBottom                    // from a button of the last row to the bottom edge
	ToTheSides                  // from the last button of a longer row to its side
)

// Pleats are all pleats of one kind.
type Pleats struct {
	Kind   PleatKind
	Count  int
	TakeUp length.Length // of cloth, across one pleat
	Depth  length.Length // of its fold, half of what it takes up
}

// Pleats are the pleats of the work. None is listed that would take up nothing,
// and none at the edges when the fullness there is eased.
//
// A diagonal pleat takes up what the cloth between the middles of the two
// diamonds beside it has too much. Those middles are as far apart as two
// neighbouring buttons, s on the work and s' on the cloth, and the surface
// between them sinks to the groove g: the pleat takes up s' − L(s, g), L as for
// geom.ParabolaMM. It is a model, not a rule of the trade: no published source was found
// for the depth of a groove. A pleat to an edge takes up the whole difference of
// one diamond, its width at the top and the bottom, its height at the sides.
func (w Work) Pleats() []Pleats {
	d := w.Diamond()
	all := []Pleats{
		{Kind: Diagonal, Count: 2 * (w.Columns - 1) * (w.Rows - 1), TakeUp: w.takeUp()},
	}
	if !w.Eased {
		across, along := w.Cloth.Across-d.Across, w.Cloth.Along-d.Along
		long := (w.Rows + 1) / 2
		if w.Short {
			long = w.Rows / 2
		}
		all = append(all,
			Pleats{Kind: ToTop, Count: countIf(w.Runs.Top > 0, w.InRow(0)), TakeUp: across},
			Pleats{Kind: ToBottom, Count: countIf(w.Runs.Bottom > 0, w.InRow(w.Rows-1)), TakeUp: across},
			Pleats{Kind: ToTheSides, Count: countIf(w.Runs.Side > 0, 2*long), TakeUp: along},
		)
	}
	var out []Pleats
	for _, p := range all {
		if p.Count > 0 && p.TakeUp > 0 {
			p.Depth = p.TakeUp / 2
			out = append(out, p)
		}
	}
	return out
}

func countIf(there bool, n int) int {
	if there {
		return n
	}
	return 0
}

// takeUp is what a diagonal pleat takes up, to the nearest micrometre; never
// negative, and nothing for wells of no depth.
func (w Work) takeUp() length.Length {
	d := w.Diamond()
	s := geom.Hypot(d.Across.MM()/2, d.Along.MM()/2)
	over := geom.Hypot(w.Cloth.Across.MM()/2, w.Cloth.Along.MM()/2)
	return max(length.RoundMM(over-geom.ParabolaMM(s, w.Groove.MM()), length.Micrometre, length.Nearest), 0)
}
