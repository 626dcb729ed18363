package plan

// stretch is how much of the empty cloth between items is charged to each node,
// above and below, and to both ends of the strip.
type stretch struct {
	tall []int64 // heights with what is charged, by node
	ends int64   // charged to the two ends together
}

// stretched charges the gaps of the pattern to the items (the gap transport
// bound, derived here). For every pair that may share a vertical line, p above
// q, let below[p] + above[q] <= gap(p, q); likewise between the beginning of the
// strip and p, between p and its end, and for an empty line, with a charge for
// each end, the gaps there being 0 at least. Then in every plan the stretches from y-above to y+h+below of items
// that share a line are disjoint, because the distance between any two of them,
// neighbours or not, is congruent to their gap and not negative, so not less;
// and all of them lie in a strip shorter by both charges of the ends than the
// plan. So any bound for rectangles of these heights, plus ends, is a bound for
// the plan. Items whose supply is 0 are left out. supply says how much a node's
// height is worth, strip how much the plan's length is: the transportation
// problem with these supplies has the best charges as its duals, and any
// charges that keep the conditions are as good for the proof.
func (r *relaxed) stretched(supply []int64, strip int64, workCap int64) (stretch, int64) {
	var nodes []int
	for n := range r.nodes {
		if supply[n] > 0 {
			nodes = append(nodes, n)
		}
	}
	last := len(nodes)
	t := newTransport(last+1, last+1)
	for i, p := range nodes {
		for j, q := range nodes {
			t.cost[i*t.cols+j] = r.gaps[p*len(r.nodes)+q]
		}
		t.supply[i], t.demand[i] = supply[p], supply[p]
	}
	t.supply[last], t.demand[last] = strip, strip
	t.solve(workCap)
	s := stretch{tall: make([]int64, len(r.nodes)), ends: t.a[last] + t.b[last]}
	for i, p := range nodes {
		s.tall[p] = r.nodes[p].h + t.a[i] + t.b[i]
	}
	return s, t.work
}

// tableGaps works out the gaps of all pairs of nodes.
func (r *relaxed) tableGaps() {
	n := len(r.nodes)
	r.gaps = make([]int64, n*n)
	for p := range n {
		for q := range n {
			r.gaps[p*n+q] = 4 * r.V // no line has both: any charge would do
			if r.meet(p, q) {
				r.gaps[p*n+q] = r.gap(&r.nodes[p], &r.nodes[q])
			}
		}
	}
}
