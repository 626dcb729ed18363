package buttoning

import (
	"math"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// The limits of a grid.
const (
	MaxRows    = 60
	MaxColumns = 60
	MinDiamond = 20 * length.Millimetre
	MaxDiamond = 2 * length.Metre
)

// Panel is what is buttoned.
type Panel struct {
	Size  panel.Size    // finished, measured straight from edge to edge
	Crown length.Length // how far the middle of a domed panel stands above its edges; 0 when flat
	Edges Edges         // the least margins
	Allow panel.Sides   // added to the cloth outside the finished edge
}

// Edges are the margins between the outermost buttons and the finished edge.
type Edges struct{ Side, Top, Bottom length.Length }

// Over is the finished size as a tape lies over the dome: the parabola over each
// extent with the crown as its rise. A flat panel keeps its size.
func (p Panel) Over() panel.Size {
	return panel.Size{Across: geom.Parabola(p.Size.Across, p.Crown), Along: geom.Parabola(p.Size.Along, p.Crown)}
}

// How says by what the grid is given.
type How int

// The ways; the zero value is Counts.
const (
	Counts     How = iota // rows and columns, which fill the panel within its margins
	Spacing               // the width and the height of a diamond; as many as fit, in the middle
	About                 // about so many buttons, filling the panel with diamonds near a proportion
	Proportion            // the width of a diamond, and its height by a proportion
)

// Ratio is height to width.
type Ratio struct{ Num, Den int64 }

// PleasingRatio is the height of a diamond for its width where none is wished.
func PleasingRatio(shop practice.Set) Ratio {
	num, den := shop.Number(practice.DiamondHeight), int64(practice.One)
	a, b := num, den
	for b != 0 {
		a, b = b, a%b
	}
	return Ratio{num / a, den / a}
}

// Wish is how the grid is given.
type Wish struct {
	How           How
	Rows, Columns int           // Counts
	Width, Height length.Length // Spacing; Proportion takes the width
	Buttons       int           // About
	Ratio         Ratio         // About, Proportion
	Short         bool          // the first row is one of the shorter rows
}

// Grid is a field of buttons on a panel.
type Grid struct {
	Rows    int // of buttons, 2 or more
	Columns int // buttons in a longer row, 2 or more; a shorter row has one less
	Short   bool
	Over    panel.Size // of the panel, over the dome
	Field   panel.Size // between the outermost buttons
	Edges   Edges      // the margins as they come out
}

// Diamond is the size of one diamond on the work, rounded down to a nanometre.
func (g Grid) Diamond() panel.Size {
	return panel.Size{
		Across: g.Field.Across / length.Length(g.Columns-1),
		Along:  2 * g.Field.Along / length.Length(g.Rows-1),
	}
}

// IsShort reports whether a row, counted from 0 at the top, has one button less.
func (g Grid) IsShort(row int) bool { return (row%2 == 0) == g.Short }

// InRow is how many buttons a row has.
func (g Grid) InRow(row int) int {
	if g.IsShort(row) {
		return g.Columns - 1
	}
	return g.Columns
}

// Buttons is how many buttons there are.
func (g Grid) Buttons() int { return countOf(g.Rows, g.Columns, g.Short) }

func countOf(rows, columns int, short bool) int {
	long := (rows + 1) / 2
	if short {
		long = rows / 2
	}
	return long*columns + (rows-long)*(columns-1)
}

// GridFor is the grid that a wish makes on a panel; false when nothing fits
// between the margins, or the diamonds come out smaller than MinDiamond or
// larger than MaxDiamond.
//
// Counts and About fill the panel between its least margins. Spacing and
// Proportion place as many diamonds as fit, at most MaxRows and MaxColumns, in
// the middle of that room; what is left goes to the margins in equal parts. For
// Spacing at least one width and one half height must fit.
func GridFor(p Panel, w Wish) (Grid, bool) {
	over := p.Over()
	room := panel.Size{Across: over.Across - 2*p.Edges.Side, Along: over.Along - p.Edges.Top - p.Edges.Bottom}
	g := Grid{Rows: w.Rows, Columns: w.Columns, Short: w.Short, Over: over, Field: room, Edges: p.Edges}
	if room.Across < MinDiamond || room.Along < MinDiamond/2 {
		return Grid{}, false
	}
	width, height := w.Width, w.Height
	switch w.How {
	case About:
		g.Rows, g.Columns, g.Short = nearest(room, w)
		return g.even()
	case Proportion:
		height = width * length.Length(w.Ratio.Num) / length.Length(w.Ratio.Den)
		fallthrough
	case Spacing:
		return spaced(g, width, height)
	}
	return g.even()
}

// spaced fits diamonds of that size into the room of g.
func spaced(g Grid, width, height length.Length) (Grid, bool) {
	if width < MinDiamond || height < MinDiamond {
		return Grid{}, false
	}
	room := g.Field
	g.Columns = int(min(room.Across/width, MaxColumns-1)) + 1
	g.Rows = int(min(2*room.Along/height, MaxRows-1)) + 1
	return g.Spaced(width, height)
}

// Spaced is the same grid, as many rows and columns, with diamonds of another
// size, in the middle of the same panel; false when it does not fit.
func (g Grid) Spaced(width, height length.Length) (Grid, bool) {
	across := width * length.Length(g.Columns-1)
	along := height * length.Length(g.Rows-1) / 2
	wider, longer := across-g.Field.Across, along-g.Field.Along
	g.Edges.Side -= wider / 2
	g.Edges.Top -= longer / 2
	g.Field = panel.Size{Across: across, Along: along}
	return g.even()
}

// even makes the field an even number of nanometres, so that its centre lines
// lie on one, and lets the margins take what is left: the bottom one along, and
// across the right one, where one nanometre may not be seen in Edges.Side.
func (g Grid) even() (Grid, bool) {
	g.Field.Across -= g.Field.Across % 2
	g.Field.Along -= g.Field.Along % 2
	g.Edges.Side = (g.Over.Across - g.Field.Across) / 2
	g.Edges.Bottom = g.Over.Along - g.Field.Along - g.Edges.Top
	return g, g.sound()
}

func (g Grid) sound() bool {
	if g.Rows < 2 || g.Rows > MaxRows || g.Columns < 2 || g.Columns > MaxColumns ||
		g.Edges.Side < 0 || g.Edges.Top < 0 || g.Edges.Bottom < 0 || g.Field.Across <= 0 || g.Field.Along <= 0 {
		return false
	}
	d := g.Diamond()
	return d.Across >= MinDiamond && d.Along >= MinDiamond && d.Across <= MaxDiamond && d.Along <= MaxDiamond
}

// nearest are the rows and columns that fill a room with about so many buttons.
// The grid chosen has the least of
//
//	3·|buttons − wished|/wished + (q − 1)
//
// where q, at least 1, is by how many times the diamond is too tall or too wide
// for the ratio; among equals the one with fewer rows, then with a longer first
// row. Rows are 0 when no diamond is of a size that is allowed.
func nearest(room panel.Size, w Wish) (rows, columns int, short bool) {
	best := math.Inf(1)
	for r := 2; r <= MaxRows; r++ {
		for c := 2; c <= MaxColumns; c++ {
			d := Grid{Rows: r, Columns: c, Field: room}
			if size := d.Diamond(); size.Across < MinDiamond || size.Along < MinDiamond || size.Across > MaxDiamond || size.Along > MaxDiamond {
				continue
			}
			size := d.Diamond()
			q := float64(size.Along) / float64(size.Across) * float64(w.Ratio.Den) / float64(w.Ratio.Num)
			q = max(q, 1/q)
			for _, s := range []bool{w.Short, !w.Short} {
				off := math.Abs(float64(countOf(r, c, s)-w.Buttons)) / float64(w.Buttons)
				if cost := float64(3*off) + (q - 1); cost < best {
					best, rows, columns, short = cost, r, c, s
				}
			}
		}
	}
	return rows, columns, short
}
