package plan

// lines drives the bounds that look at what a line across or along the roll may
// cross.
type lines struct {
	r     *relaxed
	kinds int   // most kinds taken as they are
	work  int64 // cap, in steps of the inner loops
	turns int   // how often gaps and lines are improved in turn
	nodes int   // most nodes between which gaps are reckoned
}

func newLines(m *model, effort Effort) *lines {
	l := &lines{r: relax(m), kinds: 40, work: 3_000_000, turns: 2, nodes: 120}
	switch effort {
	case Quick:
		l.kinds, l.work, l.turns = 12, 100_000, 0
	case Thorough:
		l.kinds, l.work, l.turns, l.nodes = 80, 200_000_000, 6, 400
	}
	return l
}

// improve is the better of a bound and those found here.
func (l *lines) improve(best bound) bound {
	b := newBars(l.r, l.r.heights(), l.kinds, l.work)
	c := b.solve()
	if c.length > best.length {
		best = bound{c.length, "panels side by side"}
	}
	if l.r.V == 0 || len(l.r.nodes) > l.nodes {
		return best
	}
	for _, free := range []int64{1, 0} {
		b, c := b, c
		for range l.turns {
			supply, whole := b.supplies(&c, free)
			s, _ := l.r.stretched(supply, whole, nil, l.work/4)
			b = newBars(l.r, s.tall, l.kinds, l.work)
			c = b.solve()
			if c.length+s.ends > best.length {
				best = bound{c.length + s.ends, []string{"rows of the pattern, framed", "rows of the pattern"}[free]}
			}
		}
	}
	return best
}

// supplies are what a unit of each node's height is worth in a certificate,
// and what a whole line is worth, in small numbers.
func (b *bars) supplies(c *certificate, free int64) ([]int64, int64) {
	const whole = 10_000
	share := b.shares()
	out := make([]int64, len(b.tall))
	for n := range out {
		row := b.rowOf[b.r.nodes[n].kind]
		if b.r.nodes[n].frame < 0 && free == 0 {
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
			out[b.opts[j].node] += b.lp.x[i] / float64(b.tall[b.opts[j].node])
		}
	}
	return out
}
