package plan

import (
	"math/bits"
	"slices"
)

// twoLines are two lines along the cloth such that each of the items crosses
// one of them or both, wherever it lies. However they are shared out, the items
// of each line stack up on it, so for some sharing both stacks end below the
// target. Both lines have the same kinds of items.
type twoLines struct {
	a, b         *stack
	onA, onB     []bool // by kind: whether it must cross the line, or may choose
	counts, from []int  // scratch
}

// crossing says which of two lines an item can cross without the other.
type crossing struct{ a, b, both, none bool }

// crossings looks at every place of item k.
func (m *model) crossings(k int, xa, xb int64) crossing {
	var c crossing
	it := &m.items[k]
	for o := range it.lay {
		l, gl := &it.lay[o], &m.groups[it.group].lay[o]
		if !l.consX || !gl.xFixed || l.tol > 0 {
			return crossing{none: true}
		}
		for _, ph := range gl.alts {
			l.columns(m.grid.H, ph, 0, m.W-l.w, func(x, _ int64) {
				onA, onB := x <= xa && xa < x+l.w, x <= xb && xb < x+l.w
				c.a = c.a || onA && !onB
				c.b = c.b || onB && !onA
				c.both = c.both || onA && onB
				c.none = c.none || !onA && !onB
			})
		}
	}
	return c
}

// newTwoLines finds the two lines that take the greatest height of items, or
// nil when there are none that say more than a single line.
func newTwoLines(m *model, limit int) *twoLines {
	var at []int64
	for k := range m.items {
		it := &m.items[k]
		for o := range it.lay {
			l, gl := &it.lay[o], &m.groups[it.group].lay[o]
			if !l.consX || !gl.xFixed || l.tol > 0 {
				continue
			}
			for _, ph := range gl.alts {
				l.columns(m.grid.H, ph, 0, m.W-l.w, func(x, _ int64) { at = append(at, x+l.w/2) })
			}
		}
	}
	at = sortedUnique(at)
	best, xa, xb := int64(0), int64(0), int64(0)
	for i, a := range at[:min(len(at), 40)] {
		for _, b := range at[i+1 : min(len(at), 40)] {
			height, free := int64(0), false
			for k := range m.items {
				if c := m.crossings(k, a, b); !c.none {
					height += m.leastHeight(k)
					free = free || c.a && c.b
				}
			}
			if free && height > best {
				best, xa, xb = height, a, b
			}
		}
	}
	if best == 0 {
		return nil
	}
	return m.shareOut(xa, xb, limit)
}

// shareOut prepares two lines, with at most limit entries each.
func (m *model) shareOut(xa, xb int64, limit int) *twoLines {
	var items []int
	for k := range m.items {
		if !m.crossings(k, xa, xb).none {
			items = append(items, k)
		}
	}
	// What is alike on the second line too, and crosses in the same way.
	mark := make(map[int]int64)
	var rowsB [][]int64
	for _, k := range items {
		c, r := m.crossings(k, xa, xb), m.rowsOver(k, xb)
		at := slices.IndexFunc(rowsB, func(s []int64) bool { return slices.Equal(s, r) && (s == nil) == (r == nil) })
		if at < 0 {
			at = len(rowsB)
			rowsB = append(rowsB, r)
		}
		mark[k] = int64(at)<<2 | bit(c.a)<<1 | bit(c.b)
	}
	kinds := m.kindsOf(items, xa, limit, func(k int) int64 { return mark[k] })
	other := slices.Clone(kinds)
	t := &twoLines{counts: make([]int, len(kinds)), from: make([]int, len(kinds))}
	for j := range kinds {
		k := bits.TrailingZeros64(kinds[j].items)
		c := m.crossings(k, xa, xb)
		other[j].rows = m.rowsOver(k, xb)
		t.onA, t.onB = append(t.onA, !c.b), append(t.onB, !c.a)
	}
	t.a, t.b = newStack(xa, kinds), newStack(xb, other)
	return t
}

func bit(b bool) int64 {
	if b {
		return 1
	}
	return 0
}

// fits reports whether the remaining items can be shared out so that both
// stacks, above baseA and baseB, end at the target aimed at, and how many ways
// were tried.
func (t *twoLines) fits(rest uint64, baseA, baseB int64) (fits bool, tried int64) {
	onA, onB := t.begin(rest)
	for more := true; more; onA, onB, more = t.next(onA, onB) {
		tried++
		if baseA <= t.a.latest[onA] && baseB <= t.b.latest[onB] {
			return true, tried
		}
	}
	return false, tried
}

// least is the least length of the longer of two stacks, when it is known where
// each set of items can end, and how many ways to share out were tried.
func (t *twoLines) least() (least, tried int64) {
	least = int64(1) << 60
	onA, onB := t.begin(t.a.mask)
	for more := true; more; onA, onB, more = t.next(onA, onB) {
		tried++
		least = min(least, max(t.a.latest[onA], t.b.latest[onB]))
	}
	return least, tried
}

// begin is the first sharing: all that may choose lie on line b.
func (t *twoLines) begin(rest uint64) (onA, onB int) {
	for j := range t.a.kinds {
		k := &t.a.kinds[j]
		n := bits.OnesCount64(rest & k.items)
		t.counts[j], t.from[j] = 0, 0
		if t.onA[j] {
			onA += n * k.radix
		}
		if t.onB[j] || !t.onA[j] {
			onB += n * k.radix
		}
		if !t.onA[j] && !t.onB[j] {
			t.counts[j] = n
		}
	}
	return onA, onB
}

// next counts up to the next sharing; false after the last.
func (t *twoLines) next(onA, onB int) (int, int, bool) {
	for j := range t.counts {
		radix := t.a.kinds[j].radix
		if t.from[j] < t.counts[j] {
			t.from[j]++
			return onA + radix, onB - radix, true
		}
		onA, onB = onA-t.from[j]*radix, onB+t.from[j]*radix
		t.from[j] = 0
	}
	return onA, onB, false
}
