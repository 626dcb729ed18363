package plan

import "math/bits"

// stack is a line along the cloth and the items that cross it wherever they
// lie. They lie one below another, and the pattern sets the gaps: after item p
// ends, item q can begin only at its own rows.
type stack struct {
	x     int64
	items []int   // at most maxStack, the tallest
	mask  uint64  // as bits of the model's items
	local []uint8 // by bit of the model's items, the index in items
	rows  [][]int64
	// path[set*n+p] is the least length from the start of p to the end of the
	// last, when the items of the set lie on the line and p is the first.
	path []int64
}

// maxStack bounds the items whose orders on one line are worked out.
const maxStack = 13

// newStack works out the shortest ways of stacking every subset of the items
// that cross a line, by dynamic programming over subsets (M. Held and
// R. M. Karp, Journal of SIAM 10 (1962) 196-210, from memory).
func newStack(m *model, x int64, items []int) *stack {
	s := &stack{x: x, items: items, local: make([]uint8, len(m.items))}
	for j, k := range items {
		s.mask |= 1 << k
		s.local[k] = uint8(j)
		s.rows = append(s.rows, m.rowsOver(k, x))
	}
	n := len(items)
	s.path = make([]int64, (1<<n)*n)
	for set := 1; set < 1<<n; set++ {
		for p := range n {
			if set&(1<<p) == 0 {
				continue
			}
			rest := set &^ (1 << p)
			least := int64(0)
			if rest != 0 {
				least = 1 << 60
				for r := rest; r != 0; r &= r - 1 {
					q := bits.TrailingZeros(uint(r))
					least = min(least, s.gap(m, p, q)+s.path[rest*n+q])
				}
			}
			s.path[set*n+p] = m.leastHeight(items[p]) + least
		}
	}
	return s
}

// rowsOver are the pattern coordinates modulo the repeat at which item k may
// begin when it crosses the line at x; nil when any will do.
func (m *model) rowsOver(k int, x int64) []int64 {
	it := &m.items[k]
	var out []int64
	for o := range it.lay {
		l, gl := &it.lay[o], &m.groups[it.group].lay[o]
		if !l.consY || !gl.yFixed || !l.consX || !gl.xFixed || l.tol > 0 {
			return nil
		}
		for _, a := range gl.alts {
			l.columns(m.grid.H, a, max(0, x-l.w+1), min(m.W-l.w, x), func(from, _ int64) {
				out = append(out, mod(m.patternY(l, a, from, true), m.grid.V))
			})
		}
	}
	return sortedUnique(out)
}

// gap is the least distance that the pattern forces between the end of p and
// the start of q.
func (s *stack) gap(m *model, p, q int) int64 {
	if s.rows[p] == nil || s.rows[q] == nil {
		return 0
	}
	least := m.grid.V
	for o := range m.items[s.items[p]].lay {
		h := m.items[s.items[p]].lay[o].h
		for _, a := range s.rows[p] {
			for _, b := range s.rows[q] {
				least = min(least, mod(b-a-h, m.grid.V))
			}
		}
	}
	return least
}

// least is the least y at which the last of the given items of the line ends,
// when they lie above base on cloth that begins at sigma.
func (s *stack) least(m *model, rest uint64, base, sigma int64) int64 {
	set := 0
	for r := rest & s.mask; r != 0; r &= r - 1 {
		set |= 1 << s.local[bits.TrailingZeros64(r)]
	}
	return s.leastOf(m, set, base, sigma)
}

// leastOf is least for a set of indices in items.
func (s *stack) leastOf(m *model, set int, base, sigma int64) int64 {
	if set == 0 {
		return base
	}
	n, best := len(s.items), int64(1)<<60
	for r := set; r != 0; r &= r - 1 {
		p := bits.TrailingZeros(uint(r))
		length := s.path[set*n+p]
		if base+length >= best {
			continue
		}
		y := base
		if s.rows[p] != nil {
			y = 1 << 60
			for _, a := range s.rows[p] {
				y = min(y, upTo(base, a-sigma, m.grid.V, 0))
			}
		}
		best = min(best, y+length)
	}
	return best
}

// shortest is, for every set, the least length of a stack from the start of its
// first item.
func (s *stack) shortest() []int64 {
	n := len(s.items)
	out := make([]int64, 1<<n)
	for set := 1; set < 1<<n; set++ {
		least := int64(1) << 60
		for p := range n {
			if set&(1<<p) != 0 {
				least = min(least, s.path[set*n+p])
			}
		}
		out[set] = least
	}
	return out
}

// leastHeight is the least extent along of an item.
func (m *model) leastHeight(k int) int64 {
	least := m.items[k].lay[0].h
	for _, l := range m.items[k].lay[1:] {
		least = min(least, l.h)
	}
	return least
}
