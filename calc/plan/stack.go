package plan

import (
	"cmp"
	"math/bits"
	"slices"
)

// stack is a line along the cloth and the items that cross it wherever they
// lie. They lie one below another, and the pattern sets the gaps: after item p
// ends, item q can begin only at its own rows.
//
// Items that are alike on the line form a kind; a subset of the items is told
// by how many of each kind it has, as a number in mixed radix.
type stack struct {
	x     int64
	kinds []alike
	mask  uint64 // all items, as bits of the model's items
	// path[set*len(kinds)+p] is the least length from the start of a p to the
	// end of the last, when the items of the set lie on the line and a p is the
	// first.
	path []int64
}

// alike is a set of items that are alike on a line.
type alike struct {
	items  uint64
	count  int
	radix  int // place value of the count
	rows   []int64
	height int64   // the least, over the ways of lying
	ends   []int64 // the heights of all ways of lying
}

// kindsOf groups items that are alike, tallest first, as long as the number of
// subsets stays within limit; same adds what else must be equal.
func (m *model) kindsOf(items []int, x int64, limit int, same func(k int) int64) []alike {
	items = slices.Clone(items)
	slices.SortStableFunc(items, func(a, b int) int { return cmp.Compare(m.leastHeight(b), m.leastHeight(a)) })
	var out []alike
	var marks []int64
	sets := 1
	for _, k := range items {
		c := alike{items: 1 << k, count: 1, rows: m.rowsOver(k, x), height: m.leastHeight(k)}
		for _, l := range m.items[k].lay {
			c.ends = append(c.ends, l.h)
		}
		at := -1
		for j := range out {
			if marks[j] == same(k) && slices.Equal(out[j].ends, c.ends) && slices.Equal(out[j].rows, c.rows) {
				at = j
			}
		}
		if at < 0 {
			if sets*2*(len(out)+1) > limit {
				continue
			}
			sets *= 2
			out, marks = append(out, c), append(marks, same(k))
			continue
		}
		grown := sets / (out[at].count + 1) * (out[at].count + 2)
		if grown*len(out) > limit {
			continue
		}
		sets = grown
		out[at].items |= c.items
		out[at].count++
	}
	place := 1
	for j := range out {
		out[j].radix = place
		place *= out[j].count + 1
	}
	return out
}

// newStack works out the shortest ways of stacking every subset of the items
// that cross a line, by dynamic programming over subsets (M. Held and
// R. M. Karp, Journal of SIAM 10 (1962) 196-210, from memory).
func newStack(m *model, x int64, kinds []alike) *stack {
	s := &stack{x: x, kinds: kinds}
	n, sets := len(kinds), 1
	for _, k := range kinds {
		s.mask |= k.items
		sets *= k.count + 1
	}
	gaps := make([]int64, n*n)
	for p := range n {
		for q := range n {
			gaps[p*n+q] = m.gapBetween(&kinds[p], &kinds[q])
		}
	}
	s.path = make([]int64, sets*n)
	for set := 1; set < sets; set++ {
		for p := range n {
			if kinds[p].in(set) == 0 {
				continue
			}
			rest := set - kinds[p].radix
			least := int64(0)
			if rest != 0 {
				least = 1 << 60
				for q := range n {
					if kinds[q].in(rest) > 0 {
						least = min(least, gaps[p*n+q]+s.path[rest*n+q])
					}
				}
			}
			s.path[set*n+p] = kinds[p].height + least
		}
	}
	return s
}

// in is how many of the kind a set has.
func (k *alike) in(set int) int { return set / k.radix % (k.count + 1) }

// setOf is the subset of the line's items among rest.
func (s *stack) setOf(rest uint64) int {
	set := 0
	for j := range s.kinds {
		set += s.kinds[j].radix * bits.OnesCount64(rest&s.kinds[j].items)
	}
	return set
}

// gapBetween is the least distance that the pattern forces between the end of
// one item and the start of the next.
func (m *model) gapBetween(p, q *alike) int64 {
	if p.rows == nil || q.rows == nil {
		return 0
	}
	least := m.grid.V
	for _, h := range p.ends {
		for _, a := range p.rows {
			for _, b := range q.rows {
				least = min(least, mod(b-a-h, m.grid.V))
			}
		}
	}
	return least
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

// leastOf is the least y at which the last item of a set ends, when they lie
// above base on cloth that begins at sigma.
func (s *stack) leastOf(m *model, set int, base, sigma int64) int64 {
	if set == 0 {
		return base
	}
	n, best := len(s.kinds), int64(1)<<60
	for p := range s.kinds {
		if s.kinds[p].in(set) == 0 {
			continue
		}
		length := s.path[set*n+p]
		if base+length >= best {
			continue
		}
		y := base
		if s.kinds[p].rows != nil {
			y = 1 << 60
			for _, a := range s.kinds[p].rows {
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
	n := len(s.kinds)
	out := make([]int64, len(s.path)/n)
	for set := 1; set < len(out); set++ {
		least := int64(1) << 60
		for p := range n {
			if s.kinds[p].in(set) > 0 {
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
