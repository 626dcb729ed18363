package plan

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// unit is the whole width, or the whole length, of the strip in weights, which are
// fixed-point numbers with 20 fractional bits.
const unit = int64(1) << 20

// scales proves that no plan is as short as a target length, by conservative scales (S. P.
// Fekete and J. Schepers, Mathematical Methods of Operations Research 60 (2004) 311-329).
//
// A scale across gives each item a width weight. Any items that can lie side by side weigh
// at most one unit together. A scale along does the same for heights, with the items that
// can lie one below another within the target.
//
// The items of any plan, with these weights as sizes, can be packed into a square of one
// unit. So if the sum of the products of both weights is more than the square, no plan is
// that short. The pattern only reduces the sets of items that can share a line, so the
// argument still holds.
//
// The scales are improved in turn: each is the best one for the other, found by the
// program of bars.
type scales struct {
	l      *lines
	m      *model
	root   *relaxed
	live   []bool
	frame  int
	width  []int64   // initial weights across, by node
	pool   []pattern // known sets side by side
	stacks []pattern // known sets one below another
	turns  int
	finest int64 // the narrowest range of starts that is split
	stood  *part // the last part that was not refuted
	share  int64 // one target may use 1/share of the remaining work
}

func newScales(l *lines, m *model, width []int64, known []pattern) *scales {
	return &scales{
		l: l, m: m, root: l.r, live: slices.Repeat([]bool{true}, l.r.options), frame: l.r.mainFrame(),
		width: width, pool: known, turns: l.turns, finest: max(l.r.V/l.parts, 1), share: 4,
	}
}

// worth returns the weight of each node in a scale that satisfies the certificate, in
// fractions of unit; 0 for a node with no height.
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

// part is a subset of all plans: those whose cloth begins at a start in (after, upTo] of
// the frame, and that use only live options.
type part struct {
	after, upTo int64
	live        []bool
}

// along returns the strip turned by a quarter, for stacks of items. The cloth begins at
// one of the starts of the part and is target long. Items outside the frame may lie at any
// height.
func (s *scales) along(r *relaxed, p *part, target int64) *relaxed {
	first := p.after + 1
	if r.halves || first > p.upTo {
		first = p.after
	}
	t := &relaxed{W: target + p.upTo - first, V: r.V, nodes: r.nodes, halves: true, options: len(r.nodes)}
	used := make([]bool, len(r.nodes))
	for k := range r.kinds {
		kd := kind{count: r.kinds[k].count, group: -1}
		for j := range r.kinds[k].opts {
			n := r.kinds[k].opts[j].node
			if used[n] {
				continue
			}
			used[n] = true
			nd := &r.nodes[n]
			o := option{hi: t.W - nd.h, w: nd.h, id: int32(n), node: n, choice: -1}
			if nd.frame == s.frame && nd.frame >= 0 {
				o.rows, o.res, o.tol, o.every = true, length.Mod(nd.res-first, r.V), nd.tol, r.V
			}
			kd.opts = append(kd.opts, o)
		}
		t.kinds = append(t.kinds, kd)
	}
	return t
}

// refutes reports whether it is proved that the part has no plan of length target or less.
func (s *scales) refutes(p *part, target int64) bool {
	across, ok := s.root.restrict(p.live)
	if !ok {
		return true
	}
	width := s.width
	t := s.along(across, p, target)
	for turn := range s.turns {
		v := s.bars(t, width, s.stacks)
		c := s.l.solve(v)
		s.stacks = remember(s.stacks, v)
		if c.length > unit {
			return true
		}
		b := s.bars(across, v.worth(&c), s.pool)
		b.hasty = turn == s.turns-1
		c = s.l.solve(b)
		s.pool = remember(s.pool, b)
		if c.length > unit {
			return true
		}
		width = b.worth(&c)
	}
	return false
}

// remember adds the patterns found by a program to the known ones, up to a limit.
func remember(known []pattern, b *bars) []pattern {
	const most = 400
	known = append(known, b.pool[b.given:]...)
	if len(known) > most {
		known = slices.Clone(known[len(known)-most/2:])
	}
	return known
}

// bars sets up the program of one side, starting from those known patterns that are valid
// in it.
func (s *scales) bars(r *relaxed, tall []int64, known []pattern) *bars {
	b := newBars(r, tall, s.l.kinds)
	b.enough = unit
	for _, p := range known {
		if b.fits(p) {
			b.pool = append(b.pool, p)
		}
	}
	b.given = len(b.pool)
	return b
}

// fits reports whether a pattern, read from left to right, is valid here.
func (b *bars) fits(p pattern) bool {
	at := int64(0)
	for _, j := range p {
		o := &b.opts[j]
		if !o.live {
			return false
		}
		x := o.at(at)
		if x > o.hi {
			return false
		}
		at = x + o.w
	}
	return true
}

// refutesAll refutes all parts, and splits those that cannot be refuted as they are. It
// begins with the part that failed last.
func (s *scales) refutesAll(ranges [][2]int64, target int64) bool {
	if s.stood != nil && !s.refutes(s.stood, target) {
		return false
	}
	floor := s.l.left - s.l.left/s.share
	for _, g := range ranges {
		todo := []part{{g[0], g[1], s.live}}
		for len(todo) > 0 {
			p := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if s.refutes(&p, target) {
				continue
			}
			halves := s.split(&p)
			if halves == nil || s.l.left <= floor {
				if halves == nil {
					s.stood = &p
				}
				return false
			}
			todo = append(todo, halves...)
		}
	}
	return true
}

// starts returns the ranges of starts between consecutive rows of the frame.
func (s *scales) starts() [][2]int64 {
	if s.frame < 0 {
		return [][2]int64{{-1, 0}}
	}
	if s.m.fixed && s.frame == rowsFrame {
		return [][2]int64{{s.m.sigma - 1, s.m.sigma}}
	}
	tops := s.root.tops(s.frame)
	var out [][2]int64
	for i, t := range tops {
		last := tops[len(tops)-1] - s.root.V
		if i > 0 {
			last = tops[i-1]
		}
		out = append(out, [2]int64{last, t})
	}
	return out
}

// tops returns the last starts, modulo V, at which an item of the frame can still lie at
// the beginning of the cloth.
func (r *relaxed) tops(frame int) []int64 {
	var tops []int64
	for k := range r.nodes {
		if n := &r.nodes[k]; n.frame == frame {
			tops = append(tops, length.Mod(n.res+n.tol, r.V))
		}
	}
	slices.Sort(tops)
	return slices.Compact(tops)
}

// raise returns the best bound that it can prove, at least low. It tries growing steps
// from low, then shrinking ones.
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
