package plan

import (
	"cmp"
	"math/bits"
	"slices"
)

// solve generates patterns until the program is solved, the proof equals its value, or the
// work is used up. The duals for pricing lie between those of the program and those of the
// best proof so far, which needs far fewer patterns. (Smoothing; P. Wentges, International
// Transactions in Operational Research 4 (1997), from memory.)
func (b *bars) solve() certificate {
	n := int64(b.lp.n)
	centre := b.byWidth()
	inner := slices.Clone(centre)
	for b.work < b.cap && b.lp.pivots < 40*b.lp.n+100 && b.best.length <= b.enough {
		b.work += 4 * n * n
		if b.lp.surplus() || b.fromPool() {
			continue
		}
		if v := b.lp.value(); float64(b.best.length) >= v-1e-6 || b.hasty && v <= float64(b.enough) {
			break
		}
		for k := range inner {
			inner[k] = float64(centre[k]+b.lp.duals[k]) / 2
		}
		if b.priceWith(inner) {
			copy(centre, inner)
		}
		if b.fromPool() {
			continue
		}
		if b.priceWith(b.lp.duals) {
			copy(centre, b.lp.duals)
		}
		if !b.fromPool() {
			break
		}
	}
	return b.best
}

// byWidth returns initial duals that measure only areas.
func (b *bars) byWidth() []float64 {
	out := slices.Clone(b.lp.duals)
	for k, row := range b.rowOf {
		if row >= 0 {
			out[row] = float64(b.r.narrowest(&b.r.kinds[k])) / float64(b.r.W)
		}
	}
	return out
}

// priceWith finds the pattern of the greatest weight under the duals and adds it to the
// pool. Each such search also proves a bound; it reports whether that is the best so far.
func (b *bars) priceWith(duals []float64) bool {
	c := certificate{weight: make([]int64, len(b.need))}
	for row := range b.need {
		c.weight[row] = int64(min(max(duals[row], 0), 4) * float64(b.scale))
	}
	if b.fluid >= 0 {
		c.fluid = int64(min(max(duals[b.fluid], 0), 4) * float64(b.scale) / float64(b.r.W))
	}
	b.setValues(&c)
	c.most = b.p.search(b.cap/16/int64(len(b.p.opts)+1)+50) + c.fluid*b.r.W
	b.work += (int64(len(b.p.top)) + b.p.nodes) * int64(len(b.p.opts)+4)
	b.pool = append(b.pool, slices.Clone(b.p.found))
	c.length = b.prove(&c)
	if c.length > b.best.length {
		b.best = c
		return true
	}
	return false
}

// setValues sets the weight of each option on a line: the weight of its item divided by
// its stretched height, rounded up. All lines of the item then weigh at least as much as
// the item. The weight that the same width would have as fluid is subtracted.
func (b *bars) setValues(c *certificate) {
	for j := range b.p.opts {
		o := &b.p.opts[j]
		row := b.rowOf[o.kind]
		o.value = mulDivUp(c.weight[row], b.least[row], b.tall[o.node]) - c.fluid*o.w
	}
	slices.SortFunc(b.p.opts, func(x, y valued) int { return cmp.Or(cmp.Compare(y.value, x.value), cmp.Compare(x.id, y.id)) })
}

// mulDivUp returns a*b/by rounded up, for a, b >= 0 and b <= by.
func mulDivUp(a, b, by int64) int64 {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	q, r := bits.Div64(hi, lo, uint64(by))
	if r > 0 {
		q++
	}
	return int64(q)
}

// prove returns the length that a certificate proves. Each item weighs weight*least in
// all, spread over the horizontal lines that cross it, on each at most the weight of its
// option. A line weighs at most c.most, because what it crosses is a pattern. So the
// length times c.most is at least the sum over all items. All in integers.
func (b *bars) prove(c *certificate) int64 {
	var sum wide
	for row, w := range c.weight {
		for range b.need[row] {
			sum = sum.plusProduct(w, b.least[row])
		}
	}
	if c.fluid > 0 {
		sum = sum.plusWide(b.area, c.fluid)
	}
	q, more := sum.over(c.most)
	if more && !b.r.halves {
		q++ // the shortest plan is a whole number
	}
	return q
}

// plusWide returns w plus by times a.
func (w wide) plusWide(a wide, by int64) wide {
	w = w.plusProduct(by, int64(a.lo>>1))
	w = w.plusProduct(by, int64(a.lo>>1))
	w = w.plusProduct(by, int64(a.lo&1))
	w.hi += a.hi * uint64(by)
	return w
}

// fromPool enters the known pattern that improves the program most, and reports whether
// there was one.
func (b *bars) fromPool() bool {
	best, at := 1+1e-7, -1
	for k, pat := range b.pool {
		sum, room := 0.0, b.r.W
		for _, j := range pat {
			if row := b.rowOf[b.opts[j].kind]; row >= 0 {
				sum += float64(b.lp.duals[row] * b.share(j, row))
				room -= b.opts[j].w
			}
		}
		if b.fluid >= 0 {
			sum += float64(b.lp.duals[b.fluid] * (float64(room) / float64(b.r.W)))
		}
		if sum > best {
			best, at = sum, k
		}
	}
	b.work += 4 * int64(len(b.pool))
	if at < 0 {
		return false
	}
	clear(b.col)
	room := b.r.W
	for _, j := range b.pool[at] {
		if row := b.rowOf[b.opts[j].kind]; row >= 0 {
			b.col[row] += b.share(j, row)
			room -= b.opts[j].w
		}
	}
	if b.fluid >= 0 {
		b.col[b.fluid] = float64(room) / float64(b.r.W)
	}
	return b.lp.enter(b.col, 1, at)
}

// share returns how much of its row an option covers.
func (b *bars) share(j int32, row int) float64 {
	return float64(b.least[row]) / float64(b.tall[b.opts[j].node])
}

// mulDivDown returns a*b/by rounded down, for a, b >= 0 and b <= by or a <= by.
func mulDivDown(a, b, by int64) int64 {
	q, _ := wide{}.plusProduct(a, b).over(by)
	return q
}
