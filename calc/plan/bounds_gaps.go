package plan

// stretch is how much of the empty cloth between items is charged to each node,
// above and below, and to both ends of the strip.
type stretch struct {
	tall []int64 // heights with what is charged, by node
	ends int64   // charged to the two ends together; not above 0 in all
}

// stretched charges the gaps of the pattern to the items (the gap transport
// bound, derived here). For every pair that may share a vertical line, p above
// q, let below[p] + above[q] <= gap(p, q); between the beginning of the strip
// and p, and between p and the end, and for an empty line, the same with the
// gap 0. Then in every plan the stretches from y-above to y+h+below of items
// that share a line are disjoint, because the distance between any two of them,
// neighbours or not, is congruent to their gap and not negative, so not less;
// and all of them lie in a strip longer by -(ends) than the plan. So any bound
// for rectangles of these heights, plus ends, is a bound for the plan. supply
// says how much a node's height is worth; the transportation problem with these
// supplies has the best charges as its duals.
func (r *relaxed) stretched(supply []int64, strip int64, workCap int64) (stretch, int64) {
	n := len(r.nodes)
	t := newTransport(n+1, n+1)
	for p := range n {
		for q := range n {
			t.cost[p*t.cols+q] = 4 * r.V // no line has both: any charge would do
			if r.meet(p, q) {
				t.cost[p*t.cols+q] = r.gap(&r.nodes[p], &r.nodes[q])
			}
		}
		t.supply[p], t.demand[p] = supply[p], supply[p]
	}
	t.supply[n], t.demand[n] = strip, strip
	t.solve(workCap)
	s := stretch{tall: r.heights(), ends: t.a[n] + t.b[n]}
	for p := range n {
		s.tall[p] += t.a[p] + t.b[p]
	}
	return s, t.work
}
