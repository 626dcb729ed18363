package plan

// stretch holds the empty cloth between items that is charged to each node, above and
// below it, and to both ends of the strip.
type stretch struct {
	tall []int64 // heights including the charge, by node
	ends int64   // the charge of both ends together
}

// stretched charges the gaps of the pattern to the items (the gap transport bound, derived
// here).
//
// The charges meet below[p] + above[q] <= gap(p, q) for every pair that may share a
// vertical line, with p above q. The same holds between either end of the strip and an
// item, and for an empty line, where the gaps are at least 0.
//
// In every plan the ranges from y-above to y+h+below of items on one line are then
// disjoint. The distance of any two such items is congruent to their gap and not negative,
// so it is not less than the gap. All ranges lie in a strip that is shorter than the plan
// by the charges of both ends. So a bound for rectangles of these heights, plus the charge
// of the ends, is a bound for the plan.
//
// supply is the weight of each node's height, and strip that of the plan's length. The
// best charges are the duals of the transportation problem with these supplies; any
// charges that meet the conditions give a valid bound. Items with supply 0 are left out.
// workCap limits the steps. The second result is the work used.
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

// tableGaps computes the gaps of all pairs of nodes.
func (r *relaxed) tableGaps() {
	n := len(r.nodes)
	r.gaps = make([]int64, n*n)
	for p := range n {
		for q := range n {
			r.gaps[p*n+q] = 4 * r.V // they share no line: any charge is valid
			if r.meet(p, q) {
				r.gaps[p*n+q] = r.gap(&r.nodes[p], &r.nodes[q])
			}
		}
	}
}
