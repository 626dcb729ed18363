package buttoning

import (
	"math"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
)

// Shift is where the first principal motif of the pattern lies, from the centre
// lines.
type Shift struct{ X, Y length.Length }

// lattice is a pattern as it lies on the centre lines: motif k at
//
//	x = shift.X + dx_k + i·H
//	y = shift.Y + dy_k + j·V + i·drop·V
//
// for all integers i and j. A repeat of 0 makes the motif a stripe: it lies at
// every place in that direction.
type lattice struct {
	h, v   length.Length
	drop   cloth.Drop // in lowest terms
	motifs []cloth.Motif
	dx, dy []length.Length // from the first motif
	drops  []length.Length // of column i, modulo v, by i modulo the drop's denominator
}

func latticeOf(p cloth.Pattern) lattice {
	l := lattice{h: p.WidthRepeat, v: p.LengthRepeat, drop: p.Drop.Reduced(), motifs: p.Principal()}
	for _, m := range l.motifs {
		l.dx = append(l.dx, m.Across-l.motifs[0].Across)
		l.dy = append(l.dy, m.Along-l.motifs[0].Along)
	}
	for n := range l.drop.Den {
		l.drops = append(l.drops, part(l.v, n*l.drop.Num%l.drop.Den, l.drop.Den))
	}
	return l
}

// dropped is by how much column i is lower, modulo v.
func (l lattice) dropped(i int64) length.Length {
	return l.drops[length.Mod(i, l.drop.Den)]
}

// offset is from (x, y) to the nearest place of motif k, and its square in
// square micrometres. Among places as near, the one in the lower column counts.
func (l lattice) offset(k int, s Shift, x, y length.Length) (ox, oy length.Length, square float64) {
	dx, dy := s.X+l.dx[k]-x, s.Y+l.dy[k]-y
	if l.h == 0 {
		if l.v > 0 {
			oy = centred(dy, l.v)
		}
		return 0, oy, squareOf(0, oy)
	}
	first := centred(dx, l.h)
	if l.v == 0 {
		return first, 0, squareOf(first, 0)
	}
	i0 := int64((first - dx) / l.h)
	square = math.Inf(1)
	// A column is worth a look while it alone is not farther than the best.
	for n := range 2*l.drop.Den + 1 {
		i := (n + 1) / 2
		if n%2 == 1 {
			i = -i
		}
		cx := first + length.Length(i)*l.h
		if squareOf(cx, 0) >= square {
			continue
		}
		cy := centred(dy+l.dropped(i0+i), l.v)
		if q := squareOf(cx, cy); q < square {
			ox, oy, square = cx, cy, q
		}
	}
	return ox, oy, square
}

// squareOf is x² + y² in square micrometres. The conversions keep a machine from
// fusing the products into the sum.
func squareOf(x, y length.Length) float64 {
	a, b := float64(x)/1000, float64(y)/1000
	return float64(a*a) + float64(b*b)
}

// mirrors are the places of the first motif across, modulo the width repeat, at
// which the named motifs lie alike on the left and the right of the upright
// centre line: with one of those motifs on the line or, where columns stand at
// one height, midway between two. There are none for a drop other than straight
// or half, or without a width repeat.
func (l lattice) mirrors(motifs []int) []length.Length {
	if l.h == 0 || l.drop.Den > 2 {
		return nil
	}
	var out []length.Length
	for _, k := range motifs {
		tries := []length.Length{centred(-l.dx[k], l.h)}
		if l.drop.Den == 1 {
			tries = append(tries, centred(l.h/2-l.dx[k], l.h))
		}
		for _, x := range tries {
			if l.alike(motifs, x) && !has(out, x) {
				out = append(out, x)
			}
		}
	}
	return out
}

// alike reports whether the mirror image of every motif is a place of the same
// motif, to half a millimetre: places measured on a cloth are no better.
func (l lattice) alike(motifs []int, x length.Length) bool {
	for _, k := range motifs {
		if l.skew(k, Shift{X: x}) > Step {
			return false
		}
	}
	return true
}

// skew is how far the mirror image of motif k, in any column, is from the
// nearest place of the same motif; rounded up to a nanometre.
func (l lattice) skew(k int, s Shift) length.Length {
	worst := 0.0
	for i := range l.drop.Den {
		x, y := s.X+l.dx[k]+length.Length(i)*l.h, s.Y+l.dy[k]+l.dropped(i)
		_, _, square := l.offset(k, s, -x, y)
		worst = max(worst, square)
	}
	return length.RoundMM(math.Sqrt(worst)/1000, length.Nanometre, length.Up)
}

func has(list []length.Length, x length.Length) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}
