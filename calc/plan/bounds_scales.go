package plan

import "slices"

// unit is the width, or the length, of the strip when it is measured in worth.
const unit = int64(1) << 20

// scales proves that no plan is as short as a target. Let worth across be
// numbers such that items that lie side by side, on places that they may have,
// are worth at most one unit together, and worth along numbers such that items
// that lie one below another within the target, on rows that they may have, are
// worth at most one unit. Both are conservative scales (S. P. Fekete and
// J. Schepers, Mathematical Methods of Operations Research 60 (2004) 311-329):
// the items of a plan, with these for their widths and heights, can be packed
// into a square of one unit, because which pairs are apart across and which
// along in the plan says how. So when the sum of the products is more than the
// square, there is no plan. (That the places are bound to a pattern only makes
// the sets of items fewer, which is all that the argument looks at.) Each scale
// is the best one for the other, found by the program of bars, in turn.
type scales struct {
	l      *lines
	m      *model
	across *relaxed
	frame  int
	width  []int64   // worth across by node, to begin with
	pool   []pattern // known sets side by side
	stacks []pattern // known sets one below another
	turns  int
	finest int64 // starts are told apart down to this
	stood  [2]int64
	todo   [][2]int64
}

// worth is what a certificate gives each node of a kind, in units of the whole.
func (b *bars) worth(c *certificate) []int64 {
	out := make([]int64, len(b.tall))
	if c.most <= 0 {
		return out
	}
	for n := range out {
		kind := b.r.nodes[n].kind
		if b.tall[n] < 1 {
			continue
		}
		v := int64(-1)
		if row := b.rowOf[kind]; row >= 0 {
			v = mulDivUp(c.weight[row], b.least[row], b.tall[n])
		} else if b.leastTall(&b.r.kinds[kind]) >= 1 {
			for _, o := range b.r.kinds[kind].opts {
				if w := c.fluid * o.w; o.node == n && (v < 0 || w < v) {
					v = w
				}
			}
		}
		out[n] = mulDivDown(max(v, 0), unit, c.most)
	}
	return out
}

// along is the relaxed strip turned: stacks on cloth that begins at one of the
// starts in (after, upTo] of the frame and is target long. Items outside the
// frame may lie at any height.
func (s *scales) along(after, upTo, target int64) *relaxed {
	r := s.across
	first := after + 1
	if r.halves || first > upTo {
		first = after
	}
	t := &relaxed{W: target + upTo - first, V: r.V, nodes: r.nodes, halves: true}
	for k := range r.kinds {
		kd := kind{count: r.kinds[k].count, group: -1}
		for n := range r.nodes {
			nd := &r.nodes[n]
			if nd.kind != k {
				continue
			}
			o := option{hi: t.W - nd.h, w: nd.h, node: n, choice: -1}
			if nd.frame == s.frame && nd.frame >= 0 {
				o.rows, o.res, o.tol, o.every = true, mod(nd.res-first, r.V), nd.tol, r.V
			}
			kd.opts = append(kd.opts, o)
		}
		t.kinds = append(t.kinds, kd)
	}
	return t
}

// refutes reports whether no plan from a start in (after, upTo] is as short as
// target.
func (s *scales) refutes(after, upTo, target int64) bool {
	width := s.width
	t := s.along(after, upTo, target)
	for turn := range s.turns {
		v := s.bars(t, width, &s.stacks)
		c := s.l.solve(v)
		s.stacks = v.pool
		if c.length > unit {
			return true
		}
		tall := v.worth(&c)
		b := s.bars(s.across, tall, &s.pool)
		b.hasty = turn == s.turns-1
		c = s.l.solve(b)
		s.pool = b.pool
		if c.length > unit {
			return true
		}
		width = b.worth(&c)
	}
	return false
}

// bars sets up one side, with those of the known patterns that serve.
func (s *scales) bars(r *relaxed, tall []int64, known *[]pattern) *bars {
	b := newBars(r, tall, s.l.kinds)
	b.enough = unit
	for _, p := range *known {
		if b.fits(p) {
			b.pool = append(b.pool, p)
		}
	}
	return b
}

// fits reports whether a pattern, told from left to right, still has room.
func (b *bars) fits(p pattern) bool {
	at := int64(0)
	for _, j := range p {
		o := &b.opts[j]
		x := o.at(at)
		if x > o.hi {
			return false
		}
		at = x + o.w
	}
	return true
}

// refutesAll tries all starts, splitting a range that is too wide to be
// refuted at once. The range that stood last is tried first.
func (s *scales) refutesAll(ranges [][2]int64, target int64) bool {
	if s.stood != [2]int64{} && !s.refutes(s.stood[0], s.stood[1], target) {
		return false
	}
	for _, g := range ranges {
		todo := append(s.todo[:0], g)
		for len(todo) > 0 {
			g := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if s.refutes(g[0], g[1], target) {
				continue
			}
			if g[1]-g[0] <= s.finest || s.l.left <= 0 {
				s.stood = g
				return false
			}
			mid := g[0] + (g[1]-g[0])/2
			todo = append(todo, [2]int64{g[0], mid}, [2]int64{mid, g[1]})
		}
		s.todo = todo
	}
	return true
}

// starts are the ranges of starts between the rows of the frame.
func (s *scales) starts() [][2]int64 {
	if s.frame < 0 {
		return [][2]int64{{-1, 0}}
	}
	if s.m.fixed && s.frame == rowsFrame {
		return [][2]int64{{s.m.sigma - 1, s.m.sigma}}
	}
	tops := s.across.tops(s.frame)
	var out [][2]int64
	for i, t := range tops {
		last := tops[len(tops)-1] - s.across.V
		if i > 0 {
			last = tops[i-1]
		}
		out = append(out, [2]int64{last, t})
	}
	return out
}

// tops are the last starts, modulo V, at which an item of the frame can still
// lie on the beginning of the cloth.
func (r *relaxed) tops(frame int) []int64 {
	var tops []int64
	for k := range r.nodes {
		if n := &r.nodes[k]; n.frame == frame {
			tops = append(tops, mod(n.res+n.tol, r.V))
		}
	}
	slices.Sort(tops)
	return slices.Compact(tops)
}

// raise is a bound that it proves, given one: it tries longer and longer
// strides, then shorter and shorter ones.
func (s *scales) raise(low, step int64) int64 {
	ranges := s.starts()
	if len(ranges) > 200 {
		return low
	}
	step = max(step, 1)
	stride, growing := step, true
	for stride >= step && s.l.left > 0 {
		if s.refutesAll(ranges, low+stride-1) {
			low += stride
			if growing {
				stride *= 2
			}
			continue
		}
		growing = false
		stride /= 2
	}
	return low
}

// mulDivDown is a*b/by rounded down, for a, b >= 0 and b <= by or a <= by.
func mulDivDown(a, b, by int64) int64 {
	q, _ := wide{}.plusProduct(a, b).over(by)
	return q
}
