package plan

import "github.com/bridletie/bridletie/calc/length"

// query looks for the best place of one item, lying one way, in one strip, for
// one phase of its group.
type query struct {
	d            *decoder
	s            *strip
	l            *lay
	gl           *groupLay
	ph           phase
	bin, alt     int16
	o            int8     // the way of lying
	knowX, knowY bool     // which parts of ph bind
	cols         []column // when listed, all the places across
	shift        int64    // to be added to their rows
	listed       bool
}

// list takes the item's columns in one way of lying and alternative from the
// model, where they are listed.
func (q *query) list(it *item, o, alt int) {
	q.o, q.alt = int8(o), int16(alt)
	if q.listed = it.cols[o] != nil; q.listed {
		q.cols = it.cols[o][alt]
		if !q.gl.yFixed {
			q.shift = q.l.sy * q.ph.y
		}
	}
}

// search improves best with the places in this strip. A hole costs nothing,
// whatever the skyline offers.
func (q *query) search(best *spot) {
	if best.found && best.hole >= 0 || q.inHole(best) {
		return
	}
	q.skyline(best)
}

// take makes a place the best.
func (q *query) take(best *spot, x, y int64, hole int16, cost float64) {
	*best = spot{x: x, y: y, bin: q.bin, lay: q.o, alt: q.alt, hole: hole, cost: cost, found: true}
}

// modulus is that of the rows that bind; 0 when none do yet.
func (q *query) modulus() int64 {
	if !q.l.consY || !q.knowY || !q.s.sigmaSet && (q.gl.yFixed || q.d.many) {
		return 0
	}
	return q.d.m.grid.V
}

// rowAt is the y residue that binds at x, and its modulus; modulus 0 when none
// does.
func (q *query) rowAt(x int64) (target, m int64) {
	if m = q.modulus(); m == 0 {
		return 0, 0
	}
	return q.d.m.patternY(q.l, q.ph, x, q.knowX) - q.s.sigma, m
}

// firstColumn reports whether the columns of the pattern bind x, and if so the first
// column that reaches lo.
func (q *query) firstColumn(lo int64) (c int64, bound bool) {
	if !q.l.consX || !q.knowX {
		return 0, false
	}
	h := q.d.m.grid.H
	origin := q.l.sx*q.ph.x - q.l.cx
	return origin + length.CeilDiv(lo-q.l.tol-origin, h)*h, true
}

// columns calls f for every stretch of [lo, hi] in which the item may begin
// when its group has the given phase across.
func (l *lay) columns(h int64, ph phase, lo, hi int64, f func(from, to int64)) {
	origin := l.sx*ph.x - l.cx
	for c := origin + length.CeilDiv(lo-l.tol-origin, h)*h; c-l.tol <= hi; c += h {
		f(max(c-l.tol, lo), min(c+l.tol, hi))
	}
}

// reaches reports whether a free phase may be settled by laying the item at x.
func (q *query) reaches(x int64) bool {
	if !q.l.consX || q.knowX || q.gl.reach == nil {
		return true
	}
	p := length.Mod(q.l.sx*(x+q.l.cx), q.d.m.grid.H)
	for _, a := range q.gl.reach {
		if a.lo <= p && p <= a.hi {
			return true
		}
	}
	return false
}

// inHole takes the first free rectangle below the skyline that has room for the
// item, and reports whether there is one. (The smallest, the narrowest or the
// lowest serves no better.)
func (q *query) inHole(best *spot) bool {
	l := q.l
	for k := range q.s.holes {
		o := &q.s.holes[k]
		if l.w > o.w || l.h > o.h {
			continue
		}
		q.d.work++
		if q.listed {
			for _, c := range q.cols {
				if c.x >= o.x && c.x+l.w <= o.x+o.w && q.fits(best, k, c.x) {
					return true
				}
			}
			continue
		}
		c, bound := q.firstColumn(o.x)
		if !bound {
			if q.reaches(o.x) && q.fits(best, k, o.x) {
				return true
			}
			continue
		}
		for last, n := o.x+o.w-l.w, 0; c-l.tol <= last && n < maxColumnsInHole; c, n = c+q.d.m.grid.H, n+1 {
			if q.fits(best, k, max(c-l.tol, o.x)) || l.tol > 0 && q.fits(best, k, min(c+l.tol, last)) {
				return true
			}
		}
	}
	return false
}

// fits takes the lowest admissible place at x in hole k, if there is room.
func (q *query) fits(best *spot, k int, x int64) bool {
	o := &q.s.holes[k]
	target, m := q.rowAt(x)
	y := upTo(o.y, target, m, q.l.tol)
	if y+q.l.h > min(o.y+o.h, q.s.limit) {
		return false
	}
	q.take(best, x, y, int16(k), 0)
	return true
}

// skyline tries the places on the skyline.
func (q *query) skyline(best *spot) {
	s, l, room := q.s, q.l, q.s.W-q.l.w
	if room < 0 {
		return
	}
	if q.listed {
		m, shift := q.modulus(), q.shift-s.sigma
		j := 0
		for _, c := range q.cols { // from left to right
			for j+1 < len(s.segs) && s.segs[j+1].x <= c.x {
				j++
			}
			q.tryRow(best, j, c.x, c.row+shift, m)
		}
		return
	}
	if c, bound := q.firstColumn(0); bound {
		if q.d.m.manyColumns() {
			q.touching(best, room)
			return
		}
		for ; c-l.tol <= room; c += q.d.m.grid.H {
			x := max(c-l.tol, 0)
			q.tryAt(best, s.at(x), x)
			if l.tol > 0 {
				x = min(c+l.tol, room)
				q.tryAt(best, s.at(x), x)
			}
		}
		return
	}
	for j := range s.segs {
		if float64(s.segs[j].y+l.h) > best.cost {
			continue // whatever lies on this segment
		}
		x := s.segs[j].x
		if x <= room && q.reaches(x) {
			q.tryAt(best, j, x)
		}
		if x = s.end(j) - l.w; x >= 0 && q.reaches(x) {
			i := j
			for s.segs[i].x > x {
				i--
			}
			q.tryAt(best, i, x)
		}
	}
	if l.consX && !q.knowX {
		q.edges(best, room)
	}
}

// maxColumnsInHole bounds the columns tried in one hole.
const maxColumnsInHole = 128

// touching tries, for every segment of the skyline, the first column at or after
// its start and the last that ends the item at or before its end.
func (q *query) touching(best *spot, room int64) {
	h := q.d.m.grid.H
	for j := range q.s.segs {
		if c, _ := q.firstColumn(q.s.segs[j].x); c-q.l.tol <= room {
			x := max(c-q.l.tol, q.s.segs[j].x)
			q.tryAt(best, q.s.at(x), x)
		}
		at := q.s.end(j) - q.l.w
		if c, _ := q.firstColumn(at); at >= 0 {
			if c-q.l.tol > at {
				c -= h
			}
			if x := min(c+q.l.tol, at); x >= 0 {
				q.tryAt(best, q.s.at(x), x)
			}
		}
	}
}

// edges tries the ends of where a free phase may lie.
func (q *query) edges(best *spot, room int64) {
	h := q.d.m.grid.H
	for _, a := range q.gl.reach {
		for _, p := range [2]int64{a.lo, a.hi} {
			for x := length.Mod(q.l.sx*p-q.l.cx, h); x <= room; x += h {
				q.tryAt(best, q.s.at(x), x)
			}
		}
	}
}

// tryAt tries the lowest admissible place with the left edge at x, over
// segment j.
func (q *query) tryAt(best *spot, j int, x int64) {
	target, m := q.rowAt(x)
	q.tryRow(best, j, x, target, m)
}

// tryRow is tryAt when the row that binds is known.
func (q *query) tryRow(best *spot, j int, x, target, m int64) {
	q.d.work++
	l := q.l
	y := q.s.base(j, x, l.w, 1<<62)
	if float64(y+l.h) > best.cost {
		return
	}
	y = upTo(y, target, m, l.tol)
	if y+l.h > q.s.limit {
		return
	}
	cost := float64(y + l.h)
	if cost > best.cost {
		return
	}
	if q.d.weight > 0 {
		cost += float64(q.d.weight * q.s.waste(j, x, l.w, y))
	}
	if cost < best.cost || cost == best.cost && x < best.x {
		q.take(best, x, y, -1, cost)
	}
}
