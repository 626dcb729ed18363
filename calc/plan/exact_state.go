package plan

import (
	"math/bits"
	"slices"
)

// sortedUnique sorts and removes duplicates, in place.
func sortedUnique(s []int64) []int64 {
	slices.Sort(s)
	return slices.Compact(s)
}

// baseOf returns the greatest y of a skyline over [x, x+w).
func baseOf(segs []seg, x, w int64) int64 {
	y := int64(0)
	for j := range segs {
		if segs[j].x >= x+w {
			break
		}
		if j+1 == len(segs) || segs[j+1].x > x {
			y = max(y, segs[j].y)
		}
	}
	return y
}

// risen appends a new skyline to out: segs with [x, x+w) raised to top.
func risen(out, segs []seg, width, x, w, top int64) []seg {
	add := func(at, h int64) {
		if n := len(out); n > 0 && out[n-1].y == h {
			return
		}
		out = append(out, seg{at, h})
	}
	for j, s := range segs {
		end := width
		if j+1 < len(segs) {
			end = segs[j+1].x
		}
		if s.x < x {
			add(s.x, s.y)
		}
		if s.x <= x && x < end {
			add(x, top)
		}
		if end > x+w {
			add(max(s.x, x+w), s.y)
		}
	}
	return out
}

// hopeless reports that the remaining items cannot fit below the target: for want of area,
// of room on a line that they must cross, or of height. Nothing more is placed before y.
func (e *exact) hopeless(rest uint64, segs []seg, y int64) bool {
	need, room, low := int64(0), int64(0), e.target
	for r := rest; r != 0; r &= r - 1 {
		need += e.area[bits.TrailingZeros64(r)]
	}
	round := int64(1)<<e.coarse - 1
	for j, s := range segs {
		end := e.m.W
		if j+1 < len(segs) {
			end = segs[j+1].x
		}
		room += ((end - s.x + round) >> e.coarse) * ((e.target - max(s.y, y) + round) >> e.coarse)
		low = min(low, max(s.y, y))
	}
	if need > room || e.overfull(rest, low) {
		return true
	}
	for _, line := range e.lines {
		if max(baseOf(segs, line.x, 1), y) > line.latest[line.setOf(rest)] {
			return true
		}
	}
	if t := e.two; t != nil && rest&t.a.mask != 0 {
		fits, tried := t.fits(rest, max(baseOf(segs, t.a.x, 1), y), max(baseOf(segs, t.b.x, 1), y))
		if e.spend(tried / 8); !fits {
			return true
		}
	}
	for r := rest; r != 0; r &= r - 1 {
		if low+e.low[bits.TrailingZeros64(r)] > e.target {
			return true
		}
	}
	return false
}

// overfull reports that the lines across from y on weigh less than the remaining items and
// the placed items that reach there. The weight of an item is spread evenly over its
// height as laid. Nothing more is placed before y.
func (e *exact) overfull(rest uint64, y int64) bool {
	if e.worth == nil {
		return false
	}
	need := int64(0)
	for k := range e.m.items {
		if rest&(1<<k) != 0 {
			need += e.worth[k] * e.low[k]
			continue
		}
		sp := &e.spots[k]
		h := e.m.items[k].lay[sp.lay].h
		if over := sp.y + h - y; over > 0 {
			need += e.worth[k] * e.low[k] / h * over
		}
	}
	return need > e.most*(e.target-y)
}

// seen reports whether this state was found hopeless before, and adds it to the memo. The
// state is the skyline, the items left and the phases fixed. What can still be placed
// depends on nothing else, because equal copies are always placed in the same order.
func (e *exact) seen(rest uint64, segs []seg, last seg) bool {
	b := e.key[:0]
	b = append(b, rest|uint64(len(segs))<<maxExactItems)
	add := func(x, y int64) {
		if e.small {
			b = append(b, uint64(x)<<32|uint64(y))
		} else {
			b = append(b, uint64(x), uint64(y))
		}
	}
	add(last.x, last.y)
	for _, s := range segs {
		add(s.x, s.y)
	}
	for g := range e.states {
		if st := &e.states[g]; st.set && rest&e.ofGroup[g] != 0 {
			b = append(b, uint64(g)<<9|uint64(st.lay)<<1|uint64(bit(e.slack[g])), uint64(st.settled.x), uint64(st.settled.y))
		}
	}
	e.key = b
	return e.memo.add(b)
}

// open reports whether items of group g are left.
func (e *exact) open(g int, rest uint64) bool { return rest&e.ofGroup[g] != 0 }
