package drawing

import (
	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/length"
)

// chart is one of the two grids: where its centre lines cross on the sheet.
type chart struct {
	s    *buttonSheet
	mid  Pt
	box  box // the outline
	rows []buttoning.Row
}

func (c chart) at(x, y length.Length) Pt { return Pt{c.mid.X + x.MM(), c.mid.Y + y.MM()} }

// charts draws both grids at one scale, side by side with their level centre
// lines at one height, or, of a wide panel, one above the other. The cloth is
// drawn as it is marked, with its wrong side up: its left is at the right.
func (s *buttonSheet) charts() {
	w, k := s.ans.Work, s.k
	cut, lines, onWork := w.Cut(), w.Lines(), w.LinesOnWork()
	lines.Across = cut.Across - lines.Across
	left := s.left() + chartLeft*k
	right := left
	if !s.stacked {
		right += w.Over.Across.MM() + chartGap*k
	}
	from := s.y
	top := s.y + 24*k
	above := max(lines.Along, onWork.Along).MM()
	if s.stacked {
		above = onWork.Along.MM()
	}
	level := s.chartHead(left, top, "On the work", "from the centre lines, in "+tapeName(s.sys)) + above
	work := chart{s, Pt{left + onWork.Across.MM(), level}, box{left, level - onWork.Along.MM(), w.Over.Across.MM(), w.Over.Along.MM()}, w.OnWork()}
	work.work()
	work.figures()
	end := work.box.y + work.box.h
	if s.stacked {
		top, above = end+(chartAbove+20)*k, lines.Along.MM()
	}
	level = s.chartHead(right, top, "On the cloth", "wrong side up, in "+tapeName(s.sys)) + above
	cloth := chart{s, Pt{right + lines.Across.MM(), level}, box{right, level - lines.Along.MM(), cut.Across.MM(), cut.Along.MM()}, w.OnCloth()}
	cloth.cloth()
	cloth.figures()
	s.y = max(end, cloth.box.y+cloth.box.h)
	s.gap(chartAbove)
	if !s.stacked {
		s.keep(from, 0)
		return
	}
	s.whole = append(s.whole, Span{from, end + chartAbove*k}, Span{end + (chartAbove+20)*k, s.y})
}

// chartHead heads a chart, and is where its upper edge may lie.
func (s *buttonSheet) chartHead(left, top float64, what, how string) float64 {
	x := left - (chartLeft-20)*s.k
	s.text(x, top+40*s.k, 36, tBold, what)
	s.text(x, top+74*s.k, 24, tQuiet, how)
	return top + (88+chartAbove)*s.k
}

func (c chart) outline(class Class) {
	b := c.box
	c.s.add(Rect{b.x, b.y, b.w, b.h, bWork}, Rect{b.x, b.y, b.w, b.h, class})
}

func (c chart) centreLines() {
	b := c.box
	c.s.add(Line{Pt{c.mid.X, b.y}, Pt{c.mid.X, b.y + b.h}, bLine}, Line{Pt{b.x, c.mid.Y}, Pt{b.x + b.w, c.mid.Y}, bLine})
}

// work draws the panel as it will be: pleats, buttons, motifs.
func (c chart) work() {
	c.outline(bEdge)
	c.centreLines()
	c.pleats()
	r := min(c.s.ans.Request.Button().Covered().MM()/2, c.s.ans.Work.Diamond().Across.MM()/4)
	for _, row := range c.rows {
		for _, x := range row.Across {
			c.s.add(Circle{c.at(x, row.Along), r, bButton})
		}
	}
	for _, m := range c.s.ans.Motifs {
		c.s.add(Path{fateGlyph(m.Fate, c.at(m.Work.X, m.Work.Y), c.motifSize()), bMotif})
	}
}

// motifSize keeps the sign of a motif smaller than a diamond.
func (c chart) motifSize() float64 {
	return min(15*c.s.k, c.s.ans.Work.Diamond().Across.MM()/6)
}

// maxArrows bounds the arrows on the pleats; past it only every so manyth
// carries one.
const maxArrows = 240

// pleats draws every pleat as a line, and the way its fold faces as an arrow.
func (c chart) pleats() {
	g := c.s.ans.Work.Grid
	lines := Path{Class: bPleat}
	arrows := Path{Class: bArrow}
	size := min(30*c.s.k, g.Diamond().Along.MM()/6)
	every := 1 + 2*(g.Rows-1)*(g.Columns-1)/maxArrows
	n := 0
	pleat := func(a, b Pt, dir int) {
		lines.Lines = append(lines.Lines, Polyline{Pts: []Pt{a, b}})
		if n++; n%every == 0 {
			mid := Pt{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
			off := [4]Pt{{0, -1}, {1, 0}, {0, 1}, {-1, 0}}[dir]
			arrows.Lines = append(arrows.Lines, arrow(Pt{mid.X + off.X*size/2, mid.Y + off.Y*size/2}, size, dir)...)
		}
	}
	for r := range len(c.rows) - 1 {
		for _, x := range c.rows[r].Across {
			for _, x2 := range c.rows[r+1].Across {
				if d := x2 - x; max(d, -d) < g.Diamond().Across {
					pleat(c.at(x, c.rows[r].Along), c.at(x2, c.rows[r+1].Along), 2)
				}
			}
		}
	}
	c.edgePleats(pleat)
	c.s.add(lines, arrows)
}

// edgePleats are those from the outermost buttons to the edges.
func (c chart) edgePleats(pleat func(a, b Pt, dir int)) {
	w := c.s.ans.Work
	if w.Eased || w.Spread.Depth == 0 {
		return
	}
	for _, p := range w.Pleats() {
		switch p.Kind {
		case buttoning.ToTop, buttoning.ToBottom:
			row, edge := c.rows[0], c.box.y
			if p.Kind == buttoning.ToBottom {
				row, edge = c.rows[len(c.rows)-1], c.box.y+c.box.h
			}
			for _, x := range row.Across {
				dir := 1
				if x < 0 {
					dir = 3
				}
				at := c.at(x, row.Along)
				pleat(at, Pt{at.X, edge}, dir)
			}
		case buttoning.ToTheSides:
			for r, row := range c.rows {
				if n := len(row.Across); !w.IsShort(r) {
					pleat(Pt{c.box.x, c.at(0, row.Along).Y}, c.at(row.Across[0], row.Along), 2)
					pleat(c.at(row.Across[n-1], row.Along), Pt{c.box.x + c.box.w, c.at(0, row.Along).Y}, 2)
				}
			}
		}
	}
}

// cloth draws the cut cloth: finished edges, marks, motifs with their extents,
// joins.
func (c chart) cloth() {
	ans, k := c.s.ans, c.s.k
	c.outline(bEdge)
	span, a := ans.Work.Span(), ans.Work.Allow
	c.s.add(Rect{c.box.x + a.Right.MM(), c.box.y + a.Top.MM(), span.Across.MM(), span.Along.MM(), bFinished})
	c.centreLines()
	for _, m := range ans.Motifs {
		size, at := ans.Sizes[m.Motif], c.at(-m.Cloth.X, m.Cloth.Y)
		oval := ring(Pt{}, 1, 32, 0)
		for i, p := range oval.Pts {
			oval.Pts[i] = c.inside(Pt{at.X + float64(p.X*size.Across.MM()/2), at.Y + float64(p.Y*size.Along.MM()/2)})
		}
		c.s.add(Path{[]Polyline{oval}, bMotifBox}, Path{fateGlyph(m.Fate, at, c.motifSize()), bMotif})
	}
	marks := Path{Class: bMark}
	r := min(11*k, ans.Work.Cloth.Across.MM()/8)
	for _, row := range c.rows {
		for _, x := range row.Across {
			marks.Lines = append(marks.Lines, strokes(c.at(x, row.Along), r, 0, 2)...)
		}
	}
	c.s.add(marks)
	for _, j := range ans.Joined.Joins {
		line := Polyline{}
		for _, p := range j.Line {
			line.Pts = append(line.Pts, c.at(-p.X, p.Y))
		}
		c.s.add(Path{[]Polyline{line}, bJoin})
	}
}

// inside is the point of the outline's box that is nearest to p.
func (c chart) inside(p Pt) Pt {
	b := c.box
	return Pt{min(max(p.X, b.x), b.x+b.w), min(max(p.Y, b.y), b.y+b.h)}
}

// figureSize is that of the tape figures, on a sheet of the usual width.
const figureSize = 24.0

// figures writes the tape figures: of the first row above, of the second row
// below, and of the rows at the left. Where they stand too close, only every so
// manyth is written; the text page and the answer have them all.
func (c chart) figures() {
	s, k := c.s, c.s.k
	for n, row := range []buttoning.Row{c.rows[0], c.rows[1]} {
		y, from, to := c.box.y-16*k, c.box.y-12*k, c.box.y
		if n == 1 {
			end := c.box.y + c.box.h
			y, from, to = end+(16+figureSize*0.8)*k, end, end+12*k
		}
		apart := c.s.ans.Work.Diamond().Across.MM()
		for i, x := range row.Across {
			if spared(i, len(row.Across), apart, 3.6*figureSize*k) {
				at := c.at(x, 0)
				s.add(Line{Pt{at.X, from}, Pt{at.X, to}, bRule})
				s.add(Text{At: Pt{at.X, y}, S: tape(x, s.sys), Size: figureSize * k, Anchor: AtMiddle, Class: tLabel})
			}
		}
	}
	for i, row := range c.rows {
		if spared(i, len(c.rows), c.s.ans.Work.Diamond().Along.MM()/2, figureSize*1.15*k) {
			at := c.at(0, row.Along)
			s.add(Text{At: Pt{c.box.x - 12*k, at.Y + figureSize*0.35*k}, S: tape(row.Along, s.sys), Size: figureSize * k, Anchor: AtEnd, Class: tLabel})
		}
	}
}

// spared reports whether the ith of n figures is written: the outermost, and
// inwards from both ends as many as have room.
func spared(i, n int, apart, need float64) bool {
	every := 1
	for float64(every)*apart < need && every < n {
		every++
	}
	outer := min(i, n-1-i)
	between := n - 1 - 2*outer
	return outer%every == 0 && (between == 0 && (outer == 0 || every == 1 || outer >= every) || between >= every)
}
