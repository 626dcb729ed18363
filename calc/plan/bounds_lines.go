package plan

import "github.com/bridletie/bridletie/calc/note"

// lines drives the bounds that look at what a line across or along the roll may
// cross.
type lines struct {
	r     *relaxed
	left  int64 // steps of the inner loops that may still be made
	most  int64 // of them, for one program
	kinds int   // most kinds taken as they are
	nodes int   // most nodes for the bounds that look along the roll
	turns int   // how often one side is improved for the other
	parts int64 // into how many parts of a repeat starts are told apart
	cells int64 // into how many parts an unknown phase across is divided
	fine  int64 // into how many parts the length is divided

	stop func() bool // nil never ends it early
}

func newLines(m *model, effort Effort) *lines {
	l := &lines{left: 4_000_000, most: 1_000_000, kinds: 40, nodes: 120, turns: 2, parts: 16, fine: 400, cells: 8}
	switch effort {
	case Quick, Glance:
		l.left, l.most, l.kinds, l.nodes = 150_000, 150_000, 12, 0
		l.cells = 0
	case Thorough:
		l.left, l.most, l.kinds, l.nodes = 150_000_000, 4_000_000, 80, 400
		l.turns, l.parts, l.fine, l.cells = 3, 64, 4000, 24
	}
	l.r, l.stop = relax(m, l.cells), m.stop
	return l
}

// solve is the best proof of a program, within the work that is left: none once
// the search is to end.
func (l *lines) solve(b *bars) certificate {
	if l.stop != nil && l.stop() {
		l.left = 0
	}
	b.cap = min(l.most, l.left)
	c := b.solve()
	l.left -= b.work
	return c
}

// improve is the better of a bound and those found here.
func (l *lines) improve(m *model, best bound) bound {
	b := newBars(l.r, l.r.heights(), l.kinds)
	c := l.solve(b)
	if c.length > best.length {
		best = bound{c.length, note.BoundBeside}
	}
	if len(l.r.nodes) > l.nodes {
		return best
	}
	width := b.worth(&c)
	if l.r.V > 0 {
		l.r.tableGaps()
		all, framed := l.byGaps(b, c, true), l.byGaps(b, c, false)
		if framed.length > all.length {
			all = framed
		}
		if all.length > best.length {
			best, width = bound{all.length, note.BoundRows}, all.width
		}
	}
	s := newScales(l, m, width, b.pool)
	if low := s.raise(best.length, best.length/l.fine); low > best.length {
		best = bound{low, note.BoundBoth}
	}
	return best
}

// charged is a bound that charges gaps, and the worth across that proved it.
type charged struct {
	length int64
	width  []int64
}

// byGaps charges the gaps between items, with or without those that may lie at
// any height.
func (l *lines) byGaps(b *bars, c certificate, loose bool) charged {
	var best charged
	for range l.turns {
		supply, strip := b.supplies(&c, loose)
		s, work := l.r.stretched(supply, strip, min(l.most, l.left))
		l.left -= work
		known := b.pool
		b = newBars(l.r, s.tall, l.kinds)
		b.pool = known
		c = l.solve(b)
		if c.length+s.ends > best.length {
			best = charged{c.length + s.ends, b.worth(&c)}
		}
	}
	return best
}

// supplies are what a unit of each node's height is worth in a certificate,
// and what a whole line is worth, in small numbers.
func (b *bars) supplies(c *certificate, loose bool) ([]int64, int64) {
	const whole = 10_000
	share := b.shares()
	out := make([]int64, len(b.tall))
	for n := range out {
		row := b.rowOf[b.r.nodes[n].kind]
		if b.r.nodes[n].frame < 0 && !loose {
			continue
		}
		out[n] = 1
		if row >= 0 && c.most > 0 {
			v := float64(float64(c.weight[row])*float64(b.least[row])) / float64(b.tall[n])
			out[n] += int64(v / float64(c.most) * whole * share[n])
		}
	}
	return out, whole
}

// shares are how many items of a node's kind lie at the node, in the mix of
// patterns that the program has found.
func (b *bars) shares() []float64 {
	out := make([]float64, len(b.tall))
	for i, at := range b.lp.label {
		if at < 0 {
			continue
		}
		for _, j := range b.pool[at] {
			if n := b.opts[j].node; b.tall[n] > 0 {
				out[n] += b.lp.x[i] / float64(b.tall[n])
			}
		}
	}
	return out
}

// mainFrame is the frame whose items have the greatest area; -1 when all items
// may lie at any height.
func (r *relaxed) mainFrame() int {
	var area []float64
	for k := range r.nodes {
		n := &r.nodes[k]
		if n.frame < 0 || k > 0 && r.nodes[k-1].kind == n.kind && r.nodes[k-1].frame == n.frame {
			continue
		}
		for len(area) <= n.frame {
			area = append(area, 0)
		}
		kd := &r.kinds[n.kind]
		area[n.frame] += float64(float64(kd.count)*float64(kd.opts[0].w)) * float64(n.h)
	}
	best := -1
	for f := range area {
		if area[f] > 0 && (best < 0 || area[f] > area[best]) {
			best = f
		}
	}
	return best
}
