// Package panel describes what is cut: the finished size of each panel, what
// is added on each side, and what the pattern must do on it.
//
// Panel coordinates run from the top left corner, across to the right and
// along downwards, as the panel is worn. The finished rectangle is what shows;
// the cut rectangle has the allowances around it.
package panel

import (
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// Size is an extent across and along.
type Size struct{ Across, Along length.Length }

// Point is a place measured from a top left corner.
type Point = geom.Point

// Sides are amounts on the four sides.
type Sides struct{ Top, Bottom, Left, Right length.Length }

// How is the kind of a match wish.
type How int

// The wishes; the zero value is Free.
const (
	Free    How = iota // the pattern may fall anywhere
	Across             // a motif's centre line runs down the middle; along is free
	Along              // a row of motifs runs across the middle; across is free
	Centred            // a motif's centre is the centre of what shows
	Anchor             // a motif's centre lies at Match.Point
	RunsOn             // the pattern continues that of another panel across a seam
)

// Edge is the side of another panel.
type Edge int

// The edges; the zero value is BottomEdge.
const (
	BottomEdge Edge = iota
	TopEdge
	LeftEdge
	RightEdge
)

// Match is what the pattern must do on a panel.
type Match struct {
	How   How
	Motif string // by name; "" means any principal motif
	Point Point  // for Anchor and, with AtPoint, Across and Along: from the top left of the finished size
	// AtPoint says that Across and Along want the motif at Point, of which each
	// heeds its own direction, and not in the middle.
	AtPoint bool

	// For RunsOn: this panel's facing edge is sewn to Edge of the panel From,
	// middle on middle, then moved by Offset along the seam (to the right on
	// the top and bottom edges, downwards on the left and right edges).
	From   string
	Edge   Edge
	Offset length.Length

	// Tolerance is how far the pattern may be out, in either direction.
	Tolerance length.Length
}

// HasPoint reports whether the wish is for a motif at Point.
func (m Match) HasPoint() bool {
	return m.How == Anchor || m.AtPoint && (m.How == Across || m.How == Along)
}

// Turn is how a panel lies, or how far it may be turned.
type Turn int

// The turns; the zero value is Upright. A Quarter turn is clockwise: the
// panel's top lies towards the right selvedge. As a permission, Half allows
// upright and half, Quarter allows upright and quarter.
const (
	Upright Turn = iota
	Half
	Quarter
)

// Join is how a panel wider than the cloth is made up.
type Join int

// The joins; the zero value is NoJoin.
const (
	NoJoin     Join = iota
	JoinSides       // as wide a middle as can be, equal parts at both sides
	JoinHalves      // two halves, seamed down the middle
)

// PairAs is what pattern the twin of a pair shows.
type PairAs int

// The zero value is Mirrored.
const (
	Mirrored  PairAs = iota // the motif at mirrored places, left and right
	SameMotif               // the motif at the same place on both
)

// Panel is one panel of the cutting list, cut Count times.
type Panel struct {
	ID       string
	Name     string
	Count    int // >= 1
	Size     Size
	Allow    Sides
	Match    Match
	Turn     Turn
	Join     Join
	JoinSeam length.Length // added on each side of every join
	Pair     string        // id of the twin; "" for none
	PairAs   PairAs
}

// Title is what the panel is called: its name, or else its id.
func (p Panel) Title() string {
	if p.Name != "" {
		return p.Name
	}
	return p.ID
}

// Cut is the cut size: finished size and allowances.
func (p Panel) Cut() Size {
	return Size{
		Across: p.Allow.Left + p.Size.Across + p.Allow.Right,
		Along:  p.Allow.Top + p.Size.Along + p.Allow.Bottom,
	}
}

// VisualCentre is the centre of what shows, from the top left of the cut
// panel. Odd nanometres are rounded down.
func (p Panel) VisualCentre() Point {
	return Point{
		Across: p.Allow.Left + p.Size.Across/2,
		Along:  p.Allow.Top + p.Size.Along/2,
	}
}

// Reference is the place, from the top left of the cut panel, where the wish
// wants the motif: its point, if it has one, or else the visual centre.
func (p Panel) Reference() Point {
	if p.Match.HasPoint() {
		return Point{
			Across: p.Allow.Left + p.Match.Point.Across,
			Along:  p.Allow.Top + p.Match.Point.Along,
		}
	}
	return p.VisualCentre()
}
