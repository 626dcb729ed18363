package verify

import (
	"math"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
)

// grid is the translations that carry the pattern to itself: by
// (i*h, j*v + i*num*v/den), any x when h is 0, any y when v is 0. Distances
// along the roll are counted in 1/den nm, so that the drop is exact.
type grid struct{ h, v, num, den length.Length }

func newGrid(p cloth.Pattern) grid {
	g := grid{h: p.WidthRepeat, v: p.LengthRepeat, den: 1}
	if d := p.Drop.Reduced(); g.h > 0 && g.v > 0 {
		g.num, g.den = length.Length(d.Num), length.Length(d.Den)
	}
	return g
}

// scale is a length in 1/den nm.
func (g grid) scale(l length.Length) length.Length { return l * g.den }

// nm is a scaled distance in whole nanometres, rounded up.
func (g grid) nm(out length.Length) length.Length { return (out + g.den - 1) / g.den }

// within reports whether a scaled distance keeps a tolerance.
func (g grid) within(out, tolerance length.Length) bool {
	return out <= g.scale(tolerance+layout.Slack)
}

// offBy is the distance of a from the nearest multiple of m; 0 when m is 0.
func offBy(a, m length.Length) length.Length {
	if m == 0 {
		return 0
	}
	r := ((a % m) + m) % m
	return min(r, m-r)
}

// dist is how far (dx, dy) lies from the nearest translation, by the larger of
// the two axes; dy and the result are scaled. The columns beyond den on either
// side only repeat, further off, those within.
func (g grid) dist(dx, dy length.Length) length.Length {
	if g.h == 0 || g.v == 0 {
		return max(g.scale(offBy(dx, g.h)), offBy(dy, g.scale(g.v)))
	}
	best := length.Length(math.MaxInt64)
	near := dx / g.h
	for i := near - g.den; i <= near+g.den; i++ {
		x := g.scale(max(dx-i*g.h, i*g.h-dx))
		y := offBy(dy-i%g.den*g.num*g.v, g.scale(g.v))
		best = min(best, max(x, y))
	}
	return best
}

// column is how far dx lies from a column of the pattern, scaled.
func (g grid) column(dx length.Length) length.Length { return g.scale(offBy(dx, g.h)) }

// row is how far dy lies from a row of the pattern, those of the neighbouring
// columns included, scaled.
func (g grid) row(dy length.Length) length.Length { return offBy(g.scale(dy), g.v) }

// mirrored is how far it is from true that two places, with the sum and the
// difference given from a motif, are mirror images: with one displaced by (dx,
// dy) from some motif of the kind, the other is by (-dx, dy) from another. The
// drop may turn up in the sum and the difference in unlike shares, so each is
// tried. When turned, the sum is along the roll and the difference across.
func (g grid) mirrored(sum, diff length.Length, turned bool) length.Length {
	dx, dy := sum, g.scale(diff)
	if turned {
		dx, dy = diff, g.scale(sum)
	}
	best := length.Length(math.MaxInt64)
	for t := range g.den {
		best = min(best, g.dist(dx, dy+2*t*g.num%g.den*g.v))
	}
	return best
}
