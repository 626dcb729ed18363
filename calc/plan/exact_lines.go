package plan

import (
	"cmp"
	"math/bits"
	"slices"
)

// weigh takes over the proof of the bound for items side by side: each item has
// a worth for each unit of its least height, and what any line across the cloth
// can cross is together worth at most so much. It holds for what is left to lay
// as well.
func (e *exact) weigh() {
	r := relax(e.m, 0)
	b := newBars(r, r.heights(), len(r.kinds))
	b.cap = 400_000
	c := b.solve()
	if c.most <= 0 || bits.Len64(uint64(c.most))+bits.Len64(uint64(tallestSum(e.m))) > 61 {
		return
	}
	e.most = c.most
	row := make(map[int]int64)
	n := 0
	for k := range e.m.items {
		it := &e.m.items[k]
		if it.class == k {
			w := int64(0)
			if b.rowOf[n] >= 0 {
				w = c.weight[b.rowOf[n]]
			} else {
				w = c.fluid * r.narrowest(&r.kinds[n])
			}
			row[k] = w
			n++
		}
		e.worth = append(e.worth, row[it.class])
	}
}

// tallestSum is an upper limit of every length that the search meets.
func tallestSum(m *model) int64 {
	sum := int64(0)
	for k := range m.items {
		h := int64(0)
		for _, l := range m.items[k].lay {
			h = max(h, l.h)
		}
		sum += h + m.grid.V
	}
	return sum
}

// findLines collects the lines that items must cross wherever they lie: those
// that no other line covers better.
func (e *exact) findLines(limit int) {
	m := e.m
	lo, hi := make([]int64, len(m.items)), make([]int64, len(m.items))
	var at []int64
	for k := range m.items {
		lo[k], hi[k] = m.mustCover(k)
		if lo[k] < hi[k] {
			at = append(at, lo[k], hi[k]-1)
		}
	}
	type line struct {
		x      int64
		items  []int
		set    uint64
		height int64
	}
	var all []line
	for _, x := range sortedUnique(at) {
		l := line{x: x}
		for k := range m.items {
			if lo[k] <= x && x < hi[k] {
				l.set |= 1 << k
				l.items = append(l.items, k)
				l.height += m.leastHeight(k)
			}
		}
		all = append(all, l)
	}
	slices.SortStableFunc(all, func(a, b line) int { return cmp.Compare(b.height, a.height) })
	var seen []uint64
	for _, l := range all {
		inside := slices.ContainsFunc(seen, func(s uint64) bool { return l.set&^s == 0 })
		if inside || len(l.items) < 2 || len(e.lines) == maxLines {
			continue
		}
		seen = append(seen, l.set)
		e.lines = append(e.lines, newStack(l.x, m.kindsOf(l.items, l.x, limit, func(int) int64 { return 0 })))
	}
}

// mustCover is the stretch [lo, hi) across that an item covers wherever it
// lies; empty when there is none.
func (m *model) mustCover(k int) (lo, hi int64) {
	it := &m.items[k]
	first, last, narrow := m.W, int64(0), m.W
	for o := range it.lay {
		l := &it.lay[o]
		gl := &m.groups[it.group].lay[o]
		narrow = min(narrow, l.w)
		if !l.consX || !gl.xFixed {
			first, last = 0, max(last, m.W-l.w)
			continue
		}
		for _, a := range gl.alts {
			l.columns(m.grid.H, a, 0, m.W-l.w, func(from, to int64) {
				first, last = min(first, from), max(last, to)
			})
		}
	}
	return last, first + narrow
}
