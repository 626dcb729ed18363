package plan

// query looks for the best place of one item, lying one way, in one strip, for
// one phase of its group.
type query struct {
	d            *decoder
	s            *strip
	l            *lay
	gl           *groupLay
	ph           phase
	knowX, knowY bool     // which parts of ph bind
	cols         []column // when listed, all the places across
	listed       bool
}

// list takes the item's columns from the model, where they are listed.
func (q *query) list(it *item, o, alt int) {
	if q.listed = it.cols[o] != nil; q.listed {
		q.cols = it.cols[o][alt]
	}
}

// search improves best with the places in this strip.
func (q *query) search(best *spot, bin, o, alt int) {
	before := *best
	q.holes(best)
	if best.found && best.hole >= 0 && before.hole < 0 && before.found {
		// A hole costs nothing, whatever the skyline offered before.
		best.bin, best.lay, best.alt = int16(bin), int8(o), int16(alt)
		return
	}
	if !best.found || best.hole < 0 {
		q.skyline(best)
	}
	if *best != before {
		best.bin, best.lay, best.alt = int16(bin), int8(o), int16(alt)
	}
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
	return origin + ceilDiv(lo-q.l.tol-origin, h)*h, true
}

// columns calls f for every stretch of [lo, hi] in which the item may begin
// when its group has the given phase across.
func (l *lay) columns(h int64, ph phase, lo, hi int64, f func(from, to int64)) {
	origin := l.sx*ph.x - l.cx
	for c := origin + ceilDiv(lo-l.tol-origin, h)*h; c-l.tol <= hi; c += h {
		f(max(c-l.tol, lo), min(c+l.tol, hi))
	}
}

// reaches reports whether a free phase may be settled by laying the item at x.
func (q *query) reaches(x int64) bool {
	if !q.l.consX || q.knowX || q.gl.reach == nil {
		return true
	}
	p := mod(q.l.sx*(x+q.l.cx), q.d.m.grid.H)
	for _, a := range q.gl.reach {
		if a.lo <= p && p <= a.hi {
			return true
		}
	}
	return false
}

// holes tries the free rectangles below the skyline: the smallest that takes
// the item.
func (q *query) holes(best *spot) {
	l := q.l
	for k := range q.s.holes {
		o := q.s.holes[k]
		if l.w > o.w || l.h > o.h {
			continue
		}
		q.d.work++
		cost := float64(float64(o.w)*float64(o.h)) - 1e290
		if cost >= best.cost {
			continue
		}
		if q.listed {
			for _, c := range q.cols {
				if c.x >= o.x && c.x+l.w <= o.x+o.w {
					q.inHole(best, k, c.x, cost)
				}
			}
			continue
		}
		c, bound := q.firstColumn(o.x)
		if !bound {
			if q.reaches(o.x) {
				q.inHole(best, k, o.x, cost)
			}
			continue
		}
		for last, n := o.x+o.w-l.w, 0; c-l.tol <= last && n < maxColumnsInHole; c, n = c+q.d.m.grid.H, n+1 {
			q.inHole(best, k, max(c-l.tol, o.x), cost)
			if l.tol > 0 {
				q.inHole(best, k, min(c+l.tol, last), cost)
			}
		}
	}
}

// inHole tries the lowest admissible place at x in hole k.
func (q *query) inHole(best *spot, k int, x int64, cost float64) {
	o := &q.s.holes[k]
	target, m := q.rowAt(x)
	y := upTo(o.y, target, m, q.l.tol)
	if y+q.l.h <= o.y+o.h && cost < best.cost && (q.s.limit == 0 || y+q.l.h <= q.s.limit) {
		*best = spot{x: x, y: y, hole: int16(k), cost: cost, found: true}
	}
}

// skyline tries the places on the skyline.
func (q *query) skyline(best *spot) {
	s, l, room := q.s, q.l, q.s.W-q.l.w
	if room < 0 {
		return
	}
	if q.listed {
		m := q.modulus()
		for _, c := range q.cols {
			q.tryRow(best, s.at(c.x), c.x, c.row-s.sigma, m)
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
		x := s.segs[j].x
		if x <= room && q.reaches(x) {
			q.tryAt(best, j, x)
		}
		if x = s.end(j) - l.w; x >= 0 && q.reaches(x) {
			q.tryAt(best, s.at(x), x)
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
			for x := mod(q.l.sx*p-q.l.cx, h); x <= room; x += h {
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
	if q.s.limit > 0 && y+l.h > q.s.limit {
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
		*best = spot{x: x, y: y, hole: -1, cost: cost, found: true}
	}
}
