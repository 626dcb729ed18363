package drawing

import (
	"math"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
)

// maxMarks bounds the lattice marks of one drawing: motifs and repeat lines.
const maxMarks = 4000

// grid is the pattern's lattice on one length of cloth, in millimetres.
type grid struct {
	w, l  float64 // the cloth
	h, v  float64 // the repeats, 0 where there is none
	drop  float64 // of the next column, as a length
	start float64
}

func gridOf(c cloth.Cloth, l plan.Layout, long float64) grid {
	p := c.Pattern
	g := grid{w: max(c.Width.MM(), 0), l: max(long, 0), h: max(p.WidthRepeat.MM(), 0), v: max(p.LengthRepeat.MM(), 0)}
	if g.v == 0 {
		return g
	}
	g.start = l.Start.MM()
	if d := p.Drop.Reduced(); g.h > 0 && d.Den > 0 {
		g.drop = float64(d.Num) / float64(d.Den) * g.v
	}
	return g
}

// marks is about how many motifs of n kinds and lines there are; never less.
func (g grid) marks(n int) float64 {
	cols, rows := 2.0, 2.0
	if g.h > 0 {
		cols = g.w/g.h + 2
	}
	if g.v > 0 {
		rows = g.l/g.v + 2
	}
	return cols*rows*float64(n+1) + cols
}

// columns are the places across of a motif that is woven at x0: one for each
// column that lies on the cloth, with its number.
func (g grid) columns(x0 float64) (first, count int) {
	if g.h == 0 {
		return 0, 1
	}
	lo, hi := math.Ceil((0-x0)/g.h), math.Floor((g.w-x0)/g.h)
	return int(lo), max(0, int(hi-lo)+1)
}

// rows are the places along in column i of a motif woven at y0.
func (g grid) rows(y0 float64, i int) []float64 {
	if g.v == 0 {
		return nil
	}
	off := math.Mod(y0+float64(i)*g.drop-g.start, g.v)
	if off < 0 {
		off += g.v
	}
	var ys []float64
	for y := off; y <= g.l; y += g.v {
		ys = append(ys, y)
	}
	return ys
}

// motifs are the centres of one kind. Where the pattern does not repeat in one
// direction it is a stripe, and its marks stand at both ends of the stripe.
func (g grid) motifs(m cloth.Motif) []Pt {
	x0, y0 := m.Across.MM(), m.Along.MM()
	first, count := g.columns(x0)
	var pts []Pt
	for i := first; i < first+count; i++ {
		x := x0 + float64(i)*g.h
		switch {
		case g.v == 0 && g.h == 0:
		case g.v == 0:
			pts = append(pts, Pt{x, 0}, Pt{x, g.l})
		case g.h == 0:
			for _, y := range g.rows(y0, 0) {
				pts = append(pts, Pt{0, y}, Pt{g.w, y})
			}
		default:
			for _, y := range g.rows(y0, i) {
				pts = append(pts, Pt{x, y})
			}
		}
	}
	return pts
}

// lines are the edges of the repeats: down between the columns, and across
// each column where its repeat begins.
func (g grid) lines() []Polyline {
	var out []Polyline
	add := func(ax, ay, bx, by float64) {
		out = append(out, Polyline{Pts: []Pt{{ax, ay}, {bx, by}}})
	}
	if g.h == 0 {
		for _, y := range g.rows(0, 0) {
			add(0, y, g.w, y)
		}
		return out
	}
	for i := range int(g.w/g.h) + 1 {
		x := float64(i) * g.h
		if i > 0 && x < g.w {
			add(x, 0, x, g.l)
		}
		for _, y := range g.rows(0, i) {
			add(x, y, min(x+g.h, g.w), y)
		}
	}
	return out
}

// firstMotif is the motif that lies nearest to the beginning of a layout, of
// those in the first column that each kind has on the cloth.
func firstMotif(c cloth.Cloth, l plan.Layout) (at plan.MotifAt, ok bool) {
	p := c.Pattern
	if p.LengthRepeat <= 0 {
		return at, false
	}
	d := p.Drop.Reduced()
	for k, m := range p.Principal() {
		x, column := m.Across, int64(0)
		if p.WidthRepeat > 0 {
			column = -int64(m.Across / p.WidthRepeat)
			x = m.Across % p.WidthRepeat
			if x < 0 {
				x += p.WidthRepeat
				column++
			}
			if x > c.Width {
				continue
			}
		}
		y := m.Along%p.LengthRepeat - l.Start%p.LengthRepeat
		if d.Den > 0 && p.WidthRepeat > 0 {
			y += share(p.LengthRepeat, column%d.Den*d.Num%d.Den, d.Den)
		}
		y %= p.LengthRepeat
		if y < 0 {
			y += p.LengthRepeat
		}
		if !ok || y < at.Y {
			at, ok = plan.MotifAt{Motif: k, X: x, Y: y}, true
		}
	}
	return at, ok
}

// share is num/den of l, of a num that is nearer to 0 than den, rounded towards
// zero and without overflow.
func share(l length.Length, num, den int64) length.Length {
	return length.Length(int64(l)/den*num + int64(l)%den*num/den)
}
