package plan

import (
	"cmp"
	"math/bits"
	"slices"
)

// twoLines are two lines along the cloth such that each of the items crosses
// one of them or both, wherever it lies. However they are shared out, the items
// of each line stack up on it, so for some sharing both stacks end below the
// target.
type twoLines struct {
	a, b         *stack
	onlyA, onlyB int // sets of items that cross just that line, or both
	leastA       []int64
	leastB       []int64
}

// maxShared bounds the items shared out over two lines.
const maxShared = 12

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
func newTwoLines(m *model) *twoLines {
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
	return m.shareOut(xa, xb)
}

// shareOut prepares two lines.
func (m *model) shareOut(xa, xb int64) *twoLines {
	var items []int
	for k := range m.items {
		if !m.crossings(k, xa, xb).none {
			items = append(items, k)
		}
	}
	slices.SortStableFunc(items, func(p, q int) int { return cmp.Compare(m.leastHeight(q), m.leastHeight(p)) })
	items = items[:min(len(items), maxShared)]
	t := &twoLines{a: newStack(m, xa, items), b: newStack(m, xb, items)}
	for j, k := range items {
		c := m.crossings(k, xa, xb)
		if !c.a {
			t.onlyB |= 1 << j
		}
		if !c.b {
			t.onlyA |= 1 << j
		}
	}
	t.leastA, t.leastB = t.a.shortest(), t.b.shortest()
	return t
}

// fits reports whether the remaining items can be shared out so that both
// stacks end at the target or before, and how many ways were tried.
func (t *twoLines) fits(m *model, rest uint64, baseA, baseB, sigma, target int64) (fits bool, tried int64) {
	set := 0
	for r := rest & t.a.mask; r != 0; r &= r - 1 {
		set |= 1 << t.a.local[bits.TrailingZeros64(r)]
	}
	free := set &^ (t.onlyA | t.onlyB)
	for sub := free; ; sub = (sub - 1) & free {
		tried++
		onA, onB := sub|set&t.onlyA, free&^sub|set&t.onlyB
		if baseA+t.leastA[onA] <= target && baseB+t.leastB[onB] <= target &&
			t.a.leastOf(m, onA, baseA, sigma) <= target && t.b.leastOf(m, onB, baseB, sigma) <= target {
			return true, tried
		}
		if sub == 0 {
			return false, tried
		}
	}
}
