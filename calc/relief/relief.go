// Package relief works out the cuts by which a cover passes what stands in its
// way: posts, rails, legs and arm uprights.
//
// # The pull
//
// The cloth is fixed at the middle of what shows and pulled outwards. A place
// that lies p from the middle on the slack cloth comes to lie at p·f, across and
// along each with a factor of its own between 1 + Least and 1 + Most. Obstacles
// stand still, measured over the stuffing from the finished edges. A cut is
// given in places of the slack cloth. At every pull of the range no point of it
// comes nearer to what shows than Covered, and its ends not nearer than Covered
// and Margin but where the obstacle is too thin for that to its sides.
//
// # Hidden and shown
//
// The finished rectangle shows, less the opening at each obstacle: a strip as
// wide as the obstacle from its innermost face out to the edge, or to both edges
// in a corner, round at its inner end where the obstacle is round. Openings are
// convex, and so is what is left of them inside a margin; a cut whose ends and
// bends lie inside lies inside.
//
// # Arithmetic
//
// Geometry is done in float64 millimetres and rounded to whole nanometres; the
// openings are taken two micrometres narrower than they are, which is more than
// all the roundings together. Products are converted before they are added, so
// that every machine gives the same places.
//
// The shapes of the cuts are common practice without a source.
package relief

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// Edge is the edge at which an obstacle stands.
type Edge int

// The edges; the zero value is TopEdge.
const (
	TopEdge Edge = iota
	BottomEdge
	LeftEdge
	RightEdge

	NoEdge Edge = -1 // of an obstacle that is not said to stand anywhere, which is a fault
)

// Corner is the corner in which an obstacle stands.
type Corner int

// The corners; the zero value is none.
const (
	NoCorner Corner = iota
	TopLeft
	TopRight
	BottomLeft
	BottomRight
)

// What is the kind of an obstacle.
type What int

// The kinds; the zero value is Post. Only a leg in a corner is cut differently
// for its kind: it stands under the cloth, and what meets it is turned up.
const (
	Post What = iota
	Rail
	Leg
	Upright
)

// Obstacle is what the cloth must pass.
type Obstacle struct {
	ID     string
	What   What
	Round  bool
	Edge   Edge
	Corner Corner // where it is not NoCorner, Edge, At and Lean say nothing

	At    length.Length // the middle, along the finished edge from the left end or the top
	Width length.Length // along the edge; in a corner along the top or bottom edge; the diameter of a round one
	Deep  length.Length // from the finished edge in to the innermost face; 0 for one that stands under the edge
	Lean  int           // degrees from square to the edge

	Stuffing      length.Length // its height there
	EdgeThickness length.Length
	Covered       length.Length // how far past the face the cloth must still cover
	Margin        length.Length // kept between a cut's end and what must stay covered; 0 for MarginFor
}

// Job is a panel and what its cloth must pass.
type Job struct {
	Size        panel.Size
	Allow       panel.Sides
	Loose       bool // a loose weave
	Least, Most cloth.Share
	Obstacles   []Obstacle
	Shop        practice.Set // what the workroom goes by
}

// Kind is the kind of a cut.
type Kind string

// The kinds of cuts.
const (
	None     Kind = "none"
	Straight Kind = "straight"
	Y        Kind = "y"
	V        Kind = "v"
	Diagonal Kind = "diagonal"
	Triangle Kind = "triangle"
	Fan      Kind = "fan"
)

// Stop is where a cut ends, with the least margin there at any pull.
type Stop struct {
	At     panel.Point
	Margin length.Length
}

// Flap is a part of the cloth that the cut sets free.
type Flap struct {
	Name   string
	Width  length.Length // at its widest, at the pull that leaves least
	Needed length.Length
}

// Reaches reports whether the flap does what it is for.
func (f Flap) Reaches() bool { return f.Width >= f.Needed }

// Cut is how one obstacle is passed. Places are on the slack cloth, from its top
// left corner.
type Cut struct {
	Kind  Kind
	Whole bool // the show side stays whole at every pull
	Lines [][]panel.Point
	Stops []Stop
	Flaps []Flap

	// Allowance is one at this edge, in a corner at both, with which the cut can be
	// made and its flaps reach; 0 where the one given is enough or none would be.
	Allowance length.Length
	// NarrowTo is, where the range of the pull is too wide for a cut, the largest
	// most with which there is one; negative where there is none or no need.
	NarrowTo cloth.Share
}

// Margin is the least margin of all stops.
func (c Cut) Margin() length.Length {
	if len(c.Stops) == 0 {
		return 0
	}
	least := c.Stops[0].Margin
	for _, s := range c.Stops[1:] {
		least = min(least, s.Margin)
	}
	return least
}

// MarginFor is what is kept between the end of a cut and what must stay covered
// where no margin is given: more on a loose weave, and more with what the
// stuffing is higher than usual.
func MarginFor(stuffing length.Length, loose bool, shop practice.Set) length.Length {
	m := shop.Length(practice.ReliefMargin)
	if loose {
		m += shop.Length(practice.ReliefMarginLoose)
	}
	higher := practice.Part(stuffing-shop.Length(practice.ReliefMarginFrom), shop.Number(practice.ReliefMarginShare))
	return m + min(higher, shop.Length(practice.ReliefMarginMost))
}

// Cuts are the cuts of a job that has no faults, in the order of its obstacles.
func Cuts(j Job) []Cut {
	out := make([]Cut, len(j.Obstacles))
	for i, o := range j.Obstacles {
		out[i] = cutFor(j, o)
	}
	return out
}

func cutFor(j Job, o Obstacle) Cut {
	c, fits := attempt(j, o, j.Most)
	if fits {
		return c
	}
	c.NarrowTo = -1
	least, most := j.Least, j.Most // whole tenths of a percent above Least
	if _, ok := attempt(j, o, least); !ok {
		return c
	}
	const step = cloth.Percent / 10
	good, bad := cloth.Share(0), (most-least)/step+1
	for bad-good > 1 {
		mid := (good + bad) / 2
		if _, ok := attempt(j, o, least+mid*step); ok {
			good = mid
		} else {
			bad = mid
		}
	}
	c.NarrowTo = least + good*step
	return c
}

// attempt is the cut for a range of pulls up to most. It does not fit where the
// obstacle is too thin for the range.
func attempt(j Job, o Obstacle, most cloth.Share) (Cut, bool) {
	f := newField(j, o, most)
	switch {
	case o.Corner != NoCorner && o.Round:
		return f.roundCorner()
	case o.Corner != NoCorner && o.What == Leg:
		return f.legCorner(), true
	case o.Corner != NoCorner:
		return f.squareCorner(), true
	case o.Round:
		return f.roundEdge()
	}
	return f.squareEdge()
}
