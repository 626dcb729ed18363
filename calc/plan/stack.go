package plan

import (
	"cmp"
	"math/bits"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
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
	sets  int
	// latest[set] is the greatest y at which the first item of the set may begin
	// so that all of them end at the target or before; see aim.
	latest []int64
	// Scratch: how many of each kind the set has that is being looked at, and the
	// rows of each kind counted from the start of the cloth.
	digits []int
	rows   [][]int64
}

// alike is a set of items that are alike on a line.
type alike struct {
	items  uint64
	count  int
	radix  int // place value of the count
	rows   []int64
	height int64 // the least, over the ways of lying
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
		at := -1
		for j := range out {
			if marks[j] == same(k) && out[j].height == c.height && slices.Equal(out[j].rows, c.rows) {
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

// newStack is the line at x, with the given kinds of items.
func newStack(x int64, kinds []alike) *stack {
	s := &stack{x: x, kinds: kinds, sets: 1}
	for _, k := range kinds {
		s.mask |= k.items
		s.sets *= k.count + 1
	}
	return s
}

// work is what one pass over all sets costs, in the units of the search.
func (s *stack) work() int64 { return int64(s.sets*len(s.kinds))/8 + 1 }

// aim works out, for every set of items, how late the first may begin when the
// cloth begins at sigma and all must end at target: by dynamic programming over
// which item is the first, since beginning later is never easier (in the manner
// of M. Held and R. M. Karp, Journal of SIAM 10 (1962) 196-210, from memory).
func (s *stack) aim(m *model, sigma, target int64) {
	s.latest = slices.Grow(s.latest[:0], s.sets)[:s.sets]
	s.latest[0] = target
	s.begin(m, sigma)
	for set := 1; set < s.sets; set++ {
		s.count()
		best := int64(-1) << 60
		for p := range s.kinds {
			if s.digits[p] == 0 {
				continue
			}
			k := &s.kinds[p]
			if y := s.latest[set-k.radix] - k.height; y > best {
				best = max(best, s.before(p, y, m.grid.V))
			}
		}
		s.latest[set] = best
	}
}

// earliest is the least y at which the last of all items can end when the cloth
// begins at sigma.
func (s *stack) earliest(m *model, sigma int64) int64 {
	s.latest = slices.Grow(s.latest[:0], s.sets)[:s.sets]
	s.latest[0] = 0
	s.begin(m, sigma)
	for set := 1; set < s.sets; set++ {
		s.count()
		best := int64(1) << 60
		for p := range s.kinds {
			if s.digits[p] == 0 {
				continue
			}
			k := &s.kinds[p]
			if y := s.latest[set-k.radix]; y+k.height < best {
				best = min(best, s.after(p, y, m.grid.V)+k.height)
			}
		}
		s.latest[set] = best
	}
	return s.latest[s.sets-1]
}

// begin prepares to count through all sets on cloth that begins at sigma.
func (s *stack) begin(m *model, sigma int64) {
	if s.rows == nil {
		s.digits, s.rows = make([]int, len(s.kinds)), make([][]int64, len(s.kinds))
	}
	clear(s.digits)
	for p := range s.kinds {
		s.rows[p] = s.rows[p][:0]
		for _, r := range s.kinds[p].rows {
			s.rows[p] = append(s.rows[p], length.Mod(r-sigma, m.grid.V))
		}
	}
}

// count goes on to the next set.
func (s *stack) count() {
	for p := range s.digits {
		if s.digits[p]++; s.digits[p] <= s.kinds[p].count {
			return
		}
		s.digits[p] = 0
	}
}

// before is the greatest y not above limit at which kind p may begin.
func (s *stack) before(p int, limit, v int64) int64 {
	rows := s.rows[p]
	if len(rows) == 0 {
		return limit
	}
	least := v
	at := length.Mod(limit, v)
	for _, r := range rows {
		back := at - r
		if back < 0 {
			back += v
		}
		least = min(least, back)
	}
	return limit - least
}

// after is the least y not below base at which kind p may begin.
func (s *stack) after(p int, base, v int64) int64 {
	rows := s.rows[p]
	if len(rows) == 0 {
		return base
	}
	least := v
	at := length.Mod(base, v)
	for _, r := range rows {
		ahead := r - at
		if ahead < 0 {
			ahead += v
		}
		least = min(least, ahead)
	}
	return base + least
}

// setOf is the subset of the line's items among rest.
func (s *stack) setOf(rest uint64) int {
	set := 0
	for j := range s.kinds {
		set += s.kinds[j].radix * bits.OnesCount64(rest&s.kinds[j].items)
	}
	return set
}

// rowsOver are the pattern coordinates modulo the repeat at which item k may
// begin when it crosses the line at x, or anywhere for an x below 0; nil when
// any will do.
func (m *model) rowsOver(k int, x int64) []int64 {
	it := &m.items[k]
	var out []int64
	for o := range it.lay {
		l, gl := &it.lay[o], &m.groups[it.group].lay[o]
		if !l.consY || !gl.yFixed || !l.consX || !gl.xFixed || l.tol > 0 {
			return nil
		}
		lo, hi := int64(0), m.W-l.w
		if x >= 0 {
			lo, hi = max(0, x-l.w+1), min(m.W-l.w, x)
		}
		for _, a := range gl.alts {
			l.columns(m.grid.H, a, lo, hi, func(from, _ int64) {
				out = append(out, length.Mod(m.patternY(l, a, from, true), m.grid.V))
			})
		}
	}
	return sortedUnique(out)
}

// leastHeight is the least extent along of an item.
func (m *model) leastHeight(k int) int64 {
	least := m.items[k].lay[0].h
	for _, l := range m.items[k].lay[1:] {
		least = min(least, l.h)
	}
	return least
}
