package plan

import "math/bits"

// layItem tries item k in every way.
func (e *exact) layItem(k int, rest uint64, segs []seg) bool {
	it := &e.m.items[k]
	st := e.states[it.group]
	for o := range it.lay {
		if st.set && int(st.lay) != o {
			continue
		}
		gl := &e.m.groups[it.group].lay[o]
		if st.set {
			if e.layAs(k, o, st.settled, true, true, int(st.alt), rest, segs) {
				return true
			}
			continue
		}
		for a, ph := range gl.alts {
			if e.layAs(k, o, ph, gl.xFixed, gl.yFixed, a, rest, segs) {
				return true
			}
			if e.dead {
				return false
			}
		}
	}
	return false
}

// layAs tries item k lying one way with one phase, at every place across.
func (e *exact) layAs(k, o int, ph phase, knowX, knowY bool, alt int, rest uint64, segs []seg) bool {
	l := &e.m.items[k].lay[o]
	if !l.consX || !knowX {
		for _, x := range e.xs {
			if x > e.m.W-l.w {
				break
			}
			if e.layAt(k, o, ph, knowX, knowY, alt, x, rest, segs) {
				return true
			}
		}
		return false
	}
	if cols := e.m.items[k].cols[o]; cols != nil {
		return e.layInColumns(k, o, ph, knowY, alt, cols[alt], rest, segs)
	}
	done := false
	l.columns(e.m.grid.H, ph, 0, e.m.W-l.w, func(from, to int64) {
		if done || e.dead {
			return
		}
		done = e.layAt(k, o, ph, knowX, knowY, alt, from, rest, segs)
		for _, x := range e.xs {
			if !done && x > from && x <= to {
				done = e.layAt(k, o, ph, knowX, knowY, alt, x, rest, segs)
			}
		}
	})
	return done
}

// layInColumns is layAs where the columns are listed.
func (e *exact) layInColumns(k, o int, ph phase, knowY bool, alt int, cols []column, rest uint64, segs []seg) bool {
	l := &e.m.items[k].lay[o]
	row := -e.sigma
	if !e.m.groups[e.m.items[k].group].lay[o].yFixed {
		row += l.sy * ph.y
	}
	for _, c := range cols {
		if e.layAtRow(k, o, ph, knowY, alt, c.x, row+c.row, rest, segs) {
			return true
		}
		if e.dead {
			return false
		}
	}
	return false
}

// layAt lays item k at x.
func (e *exact) layAt(k, o int, ph phase, knowX, knowY bool, alt int, x int64, rest uint64, segs []seg) bool {
	l, row := &e.m.items[k].lay[o], int64(0)
	if l.consY && knowY {
		row = e.m.patternY(l, ph, x, knowX) - e.sigma
	}
	return e.layAtRow(k, o, ph, knowY, alt, x, row, rest, segs)
}

// layAtRow lays item k at x, at the least admissible y, or at all that are worth a
// trial when its group's phase along is still open. What would then come before
// the last item laid, or could slide by a repeat, is not of the normal form.
func (e *exact) layAtRow(k, o int, ph phase, knowY bool, alt int, x, row int64, rest uint64, segs []seg) bool {
	l := &e.m.items[k].lay[o]
	base := baseOf(segs, x, l.w)
	if base+l.h > e.target {
		e.spend(1)
		return false
	}
	last := e.last[len(e.m.items)-bits.OnesCount64(rest)]
	if l.consY && !knowY {
		for _, y := range e.openYs(nil, k, o, base) {
			if y+l.h <= e.target && last.before(x, y) && e.layDown(k, o, ph, alt, x, y, base, rest, segs) {
				return true
			}
			if e.dead {
				return false
			}
		}
		return false
	}
	y := base
	if l.consY {
		y = upTo(y, row, e.m.grid.V, l.tol)
	}
	if y+l.h > e.target || !last.before(x, y) {
		e.spend(1)
		return false
	}
	return e.layDown(k, o, ph, alt, x, y, base, rest, segs)
}

// before reports whether an item at a place comes after one that begins at s, in
// the order of y and, for equal y, of x.
func (s seg) before(x, y int64) bool { return s.y < y || s.y == y && s.x <= x }
