package sheet

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// rect is a part of a sheet, in the enlarged measure: a kerf is part of each
// piece, and of the sheet once.
type rect struct{ x, y, w, h length.Length }

// open is a sheet that still takes pieces. Free holds the largest free
// rectangles, which may overlap one another (the maximal rectangles of
// J. Jylänki, A Thousand Ways to Pack the Bin, 2010).
type open struct {
	kind  int
	free  []rect
	laid  []laid
	room  float64 // area that is not covered
	whole float64
	least length.Length // no free rectangle with a shorter side is of use
}

// mostFree is how many free rectangles a sheet keeps, the largest: what is dropped
// is never used, and the work of a sheet with many small pieces stays bounded.
const mostFree = 48

// laid is a piece as it lies.
type laid struct {
	piece int
	at    rect
}

func newOpen(kind int, k Kind, kerf, least length.Length) *open {
	w, h := k.Across-2*k.Trim+kerf, k.Along-2*k.Trim+kerf
	area := area(w, h)
	return &open{kind: kind, free: []rect{{0, 0, w, h}}, room: area, whole: area, least: least}
}

// area is in square micrometres; it only compares.
func area(w, h length.Length) float64 { return w.MM() * h.MM() }

// rule is how the place of a piece is chosen.
type rule int

const (
	shortSide rule = iota // least left over at the nearer side
	leastArea             // least left over of the free rectangle
	nearest               // nearest to the origin
	rules
)

// spot is a place for a piece; less is better.
type spot struct {
	at          rect
	first, then length.Length
	found       bool
}

// best is the best place for a piece of that enlarged size, as it is given or, where
// either way will do, turned. It adds the places that it tries to work.
func (o *open) best(w, h length.Length, either bool, by rule, work *int64) spot {
	var b spot
	if area(w, h) > o.room {
		*work++
		return b
	}
	for _, f := range o.free {
		*work += 2
		if w <= f.w && h <= f.h {
			b.take(f, w, h, by)
		}
		if either && w != h && h <= f.w && w <= f.h {
			b.take(f, h, w, by)
		}
	}
	return b
}

func (b *spot) take(f rect, w, h length.Length, by rule) {
	var s spot
	dx, dy := f.w-w, f.h-h
	switch by {
	case leastArea:
		s.first, s.then = length.Length(area(f.w, f.h)-area(w, h)), min(dx, dy)
	case nearest:
		s.first, s.then = f.y+h, f.x
	default:
		s.first, s.then = min(dx, dy), max(dx, dy)
	}
	if !b.found || s.first < b.first || s.first == b.first && s.then < b.then {
		*b = spot{rect{f.x, f.y, w, h}, s.first, s.then, true}
	}
}

// put lays a piece and cuts its place out of what is free.
func (o *open) put(piece int, s spot) {
	o.laid = append(o.laid, laid{piece, s.at})
	o.cover(s.at)
}

// putBlocks lays pieces in the blocks of a layout of a free place.
func (o *open) putBlocks(list []block, at rect, run []int) {
	for _, b := range list {
		x, y := at.x+b.x, at.y+b.y
		for n := range b.cols * b.rows {
			o.laid = append(o.laid, laid{run[n], rect{x + b.w*length.Length(n%b.cols), y + b.h*length.Length(n/b.cols), b.w, b.h}})
		}
		run = run[b.cols*b.rows:]
		o.cover(rect{x, y, b.across(), b.along()})
	}
}

// cover cuts a place out of what is free.
func (o *open) cover(at rect) {
	o.room -= area(at.w, at.h)
	next := make([]rect, 0, len(o.free)+4)
	for _, f := range o.free {
		next = cutOut(next, f, at, o.least)
	}
	if len(next) > 2*mostFree {
		slices.SortStableFunc(next, func(a, b rect) int { return cmp.Compare(area(b.w, b.h), area(a.w, a.h)) })
		next = next[:2*mostFree]
	}
	o.free = o.free[:0]
	for i, f := range next {
		if len(o.free) < mostFree && !coveredBy(f, i, next) {
			o.free = append(o.free, f)
		}
	}
}

// cutOut appends what is left of f beside a place.
func cutOut(to []rect, f, at rect, least length.Length) []rect {
	if at.x >= f.x+f.w || at.x+at.w <= f.x || at.y >= f.y+f.h || at.y+at.h <= f.y {
		return append(to, f)
	}
	for _, r := range [...]rect{
		{f.x, f.y, at.x - f.x, f.h},
		{at.x + at.w, f.y, f.x + f.w - at.x - at.w, f.h},
		{f.x, f.y, f.w, at.y - f.y},
		{f.x, at.y + at.h, f.w, f.y + f.h - at.y - at.h},
	} {
		if min(r.w, r.h) >= max(least, 1) {
			to = append(to, r)
		}
	}
	return to
}

// coveredBy reports whether another rectangle of the list holds the ith; of two
// alike the first stays.
func coveredBy(f rect, i int, list []rect) bool {
	for j, g := range list {
		if j != i && f.x >= g.x && f.y >= g.y && f.x+f.w <= g.x+g.w && f.y+f.h <= g.y+g.h && (f != g || j < i) {
			return true
		}
	}
	return false
}
