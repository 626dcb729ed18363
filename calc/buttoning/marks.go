package buttoning

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// Work is a grid with its depth: the places on the work and on the cloth.
type Work struct {
	Grid
	Spread Spread
	Allow  panel.Sides
	Groove length.Length // how deep the pleats lie midway between two buttons, below the crown
	Eased  bool          // the fullness at the edge is eased in, not pleated

	Cloth panel.Size // a diamond as it is marked on the cloth
	Runs  Edges      // the cloth over the margins
}

// NewWork spreads a grid out on the cloth.
func NewWork(g Grid, s Spread, shop practice.Set) Work {
	d := g.Diamond()
	return Work{
		Grid: g, Spread: s, Groove: practice.Part(s.Depth, shop.Number(practice.ButtoningGroove)),
		Cloth: panel.Size{Across: s.Over(d.Across), Along: s.Over(d.Along)},
		Runs:  Edges{Side: s.Edge(g.Edges.Side), Top: s.Edge(g.Edges.Top), Bottom: s.Edge(g.Edges.Bottom)},
	}
}

// rowOf counts a row in quarter heights from the level centre line.
func (g Grid) rowOf(row int) int64 { return int64(2*row - (g.Rows - 1)) }

// Across is where place k, in half widths from the upright centre line, lies on
// the work; half a nanometre goes away from the line, so that left and right
// agree.
func (g Grid) Across(k int) length.Length {
	return part(g.Field.Across, int64(k), 2*int64(g.Columns-1))
}

// Along is where a row lies on the work, from the level centre line.
func (g Grid) Along(row int) length.Length {
	return part(g.Field.Along, g.rowOf(row), 2*int64(g.Rows-1))
}

// part is l·num/den to the nearest nanometre, halves away from zero. The limits
// of a grid keep the product in range.
func part(l length.Length, num, den int64) length.Length {
	n := int64(l) * num
	if n < 0 {
		return -part(l, -num, den)
	}
	return length.Length((2*n + den) / (2 * den))
}

// ClothAcross is where place k lies on the cloth; exact.
func (w Work) ClothAcross(k int) length.Length { return w.Cloth.Across / 2 * length.Length(k) }

// ClothAlong is where a row lies on the cloth; exact.
func (w Work) ClothAlong(row int) length.Length {
	return w.Cloth.Along / 4 * length.Length(w.rowOf(row))
}

// places are the places k of the buttons in a row, from left to right.
func (g Grid) places(row int) []int {
	n := g.InRow(row)
	ks := make([]int, n)
	for i := range ks {
		ks[i] = 2*i - (n - 1)
	}
	return ks
}

// Row is one row of marks.
type Row struct {
	Along  length.Length   // from the level centre line
	Across []length.Length // from the upright centre line, left to right
}

// OnWork are the marks on the foam, hessian or frame, row by row from the top.
func (w Work) OnWork() []Row {
	return w.rows(w.Along, w.Across)
}

// OnCloth are the marks for the wrong side of the cloth. The grid is the same
// from both sides, since its left and its right agree.
func (w Work) OnCloth() []Row {
	return w.rows(w.ClothAlong, w.ClothAcross)
}

func (w Work) rows(along, across func(int) length.Length) []Row {
	rows := make([]Row, w.Rows)
	for r := range rows {
		rows[r].Along = along(r)
		for _, k := range w.places(r) {
			rows[r].Across = append(rows[r].Across, across(k))
		}
	}
	return rows
}

// Spot is a diamond or a button, by its row and its number in the row, both
// from 1. Rows of diamonds and of buttons are numbered alike: a diamond of row
// 2 has its middle on the second row of buttons.
type Spot struct{ Row, Number int }

// Diamonds are the places of the middles of whole diamonds, row by row.
func (w Work) Diamonds() []Mark {
	var out []Mark
	for r := 1; r+1 < w.Rows; r++ {
		n := w.inDiamonds(r)
		for i := range n {
			out = append(out, w.mark(r, 2*i-(n-1), i+1))
		}
	}
	return out
}

// inDiamonds is how many whole diamonds have their middle on a row: between
// every two buttons of it.
func (g Grid) inDiamonds(row int) int { return g.InRow(row) - 1 }

// Marks are the places of the buttons, row by row.
func (w Work) Marks() []Mark {
	var out []Mark
	for r := range w.Rows {
		for i, k := range w.places(r) {
			out = append(out, w.mark(r, k, i+1))
		}
	}
	return out
}

// Mark is a spot and where it lies on the cloth.
type Mark struct {
	Spot
	X, Y length.Length
}

func (w Work) mark(row, k, number int) Mark {
	return Mark{Spot{row + 1, number}, w.ClothAcross(k), w.ClothAlong(row)}
}

// ButtonAt is the mark of a button; false when there is none.
func (w Work) ButtonAt(s Spot) (Mark, bool) {
	if s.Row < 1 || s.Row > w.Rows || s.Number < 1 || s.Number > w.InRow(s.Row-1) {
		return Mark{}, false
	}
	return w.mark(s.Row-1, w.places(s.Row - 1)[s.Number-1], s.Number), true
}

// DiamondAt is the mark of a whole diamond; false when there is none.
func (w Work) DiamondAt(s Spot) (Mark, bool) {
	if s.Row < 2 || s.Row >= w.Rows || s.Number < 1 || s.Number > w.inDiamonds(s.Row-1) {
		return Mark{}, false
	}
	return w.mark(s.Row-1, 2*(s.Number-1)-(w.inDiamonds(s.Row-1)-1), s.Number), true
}

// Span is the cloth between the finished edges: the field and the runs over the
// margins.
func (w Work) Span() panel.Size {
	return panel.Size{
		Across: w.half().Across * 2,
		Along:  w.fieldCloth().Along + w.Runs.Top + w.Runs.Bottom,
	}
}

// fieldCloth is the cloth between the outermost buttons.
func (w Work) fieldCloth() panel.Size {
	return panel.Size{Across: w.Cloth.Across * length.Length(w.Columns-1), Along: w.Cloth.Along / 2 * length.Length(w.Rows-1)}
}

// half is from the centre lines to the finished edges at the side and, below the
// line, at the bottom.
func (w Work) half() panel.Size {
	f := w.fieldCloth()
	return panel.Size{Across: f.Across/2 + w.Runs.Side, Along: f.Along/2 + w.Runs.Bottom}
}

// Cut is the size to cut: the span and the allowances.
func (w Work) Cut() panel.Size {
	s := w.Span()
	return panel.Size{Across: s.Across + w.Allow.Left + w.Allow.Right, Along: s.Along + w.Allow.Top + w.Allow.Bottom}
}

// Lines is where the centre lines lie, from the top left corner of the cut
// cloth.
func (w Work) Lines() panel.Point {
	return panel.Point{Across: w.Allow.Left + w.half().Across, Along: w.Allow.Top + w.Runs.Top + w.fieldCloth().Along/2}
}

// LinesOnWork is where they lie from the top left of the finished panel.
func (w Work) LinesOnWork() panel.Point {
	return panel.Point{Across: w.Over.Across / 2, Along: w.Edges.Top + w.Field.Along/2}
}

// Interval is one stretch between neighbouring marks: on the work and on the
// cloth.
type Interval struct{ Work, Cloth length.Length }

// IntervalsAcross are the stretches from the left finished edge to the right
// one, along a longer row. Their sums are the panel over its dome, and the span
// of the cloth, exactly.
func (w Work) IntervalsAcross() []Interval {
	out := []Interval{{w.Over.Across/2 + w.Across(-w.last()), w.Runs.Side}}
	for k := -w.last(); k < w.last(); k += 2 {
		out = append(out, Interval{w.Across(k+2) - w.Across(k), w.Cloth.Across})
	}
	return append(out, Interval{w.Over.Across - w.Over.Across/2 - w.Across(w.last()), w.Runs.Side})
}

// IntervalsAlong are those from the top edge to the bottom one, from row to row.
func (w Work) IntervalsAlong() []Interval {
	line := w.LinesOnWork().Along
	out := []Interval{{line + w.Along(0), w.Runs.Top}}
	for r := range w.Rows - 1 {
		out = append(out, Interval{w.Along(r+1) - w.Along(r), w.Cloth.Along / 2})
	}
	return append(out, Interval{w.Over.Along - line - w.Along(w.Rows-1), w.Runs.Bottom})
}

// last is the place k of the outermost button of a longer row.
func (g Grid) last() int { return g.Columns - 1 }

// WorkAt is where a place on the cloth comes to lie on the work, through the
// shortening of the stretch in which it lies; past a finished edge it is the
// edge. Halves of a nanometre go away from the centre lines.
func (w Work) WorkAt(x, y length.Length) (length.Length, length.Length) {
	if x < 0 {
		fx, fy := w.WorkAt(-x, y)
		return -fx, fy
	}
	return shorten(x, w.fieldCloth().Across/2, w.Across(w.last()), w.Runs.Side, w.Over.Across/2-w.Across(w.last())), w.alongAt(y)
}

func (w Work) alongAt(y length.Length) length.Length {
	half, end := w.fieldCloth().Along/2, w.Along(w.Rows-1)
	line := w.LinesOnWork().Along
	if y < 0 {
		return -shorten(-y, half, end, w.Runs.Top, line-end)
	}
	return shorten(y, half, end, w.Runs.Bottom, w.Over.Along-line-end)
}

// shorten carries a place from cloth to work: within the field, whose cloth
// half becomes work, and beyond it, where a run becomes a margin.
func shorten(at, half, work, run, margin length.Length) length.Length {
	if at <= half {
		on, _ := length.Scale(at, int64(work), int64(half), length.Nearest)
		return on
	}
	if at >= half+run || run <= 0 {
		return work + margin
	}
	past, _ := length.Scale(at-half, int64(margin), int64(run), length.Nearest)
	return work + past
}
