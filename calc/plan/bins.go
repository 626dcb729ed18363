package plan

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// bin is what is cut from one of several lengths.
type bin struct {
	items []int32
	plan  *found
	need  int64 // length that is enough wherever in the repeat it begins
	// starts are plans that between them serve every start; nil when each does.
	starts []*found
}

// binBudget is the work for one try at laying a job over several lengths.
func binBudget(e Effort, m *model) int64 { return min(budgetOf(e, m)/2, 40_000_000) }

// packBins lays the items over several lengths, in the order given, where only
// the used length of paid ones counts. It answers nil when the items do not fit.
func packBins(m *model, lengths []strip, effort Effort, stop func() bool) ([]bin, int64) {
	s := newSearcher(m, binBudget(effort, m), bound{}, stop)
	s.d.many = true
	s.d.bins = lengths
	s.run()
	if s.best == nil {
		return nil, s.d.work
	}
	// Lay the best once more, to have its phases.
	s.d.decode(&s.best.genes, 1<<62)
	out := make([]bin, len(lengths))
	for _, k := range s.best.genes.order {
		b := s.d.spots[k].bin
		out[b].items = append(out[b].items, k)
	}
	work := s.d.work
	for b := range out {
		work += s.finishBin(&out[b], b, startEffortOf(effort))
	}
	return out, work
}

// finishBin works out what one bin needs wherever in the repeat it begins,
// keeping the phases that bind its panels to those in other bins.
func (s *searcher) finishBin(o *bin, b int, starts startEffort) int64 {
	st := &s.d.bins[b]
	o.plan = &found{top: st.top, sigma: st.sigma, spots: append([]spot(nil), s.d.spots...)}
	o.plan.genes = genes{order: o.items, lay: s.best.genes.lay, rule: s.best.genes.rule}
	o.need = st.top
	if !s.rowBound(o.items) || s.m.fixed && b == s.d.fixedBin() {
		return 0
	}
	one := newSearcher(s.m, 1, bound{}, s.stop)
	one.only, one.best = o.items, o.plan
	one.d.many = true
	one.first = one.constructions()
	one.d.preset = s.statesFor(o.items)
	one.d.bins[0].limit = st.limit
	o.starts = one.anyStart(starts)
	o.need, _ = worstStart(o.starts, s.m.grid.V)
	for _, p := range o.starts { // from another start it may be shorter
		if p.top < o.plan.top {
			o.plan = p
		}
	}
	return one.d.work
}

// statesFor are the settled phases that bind the items of one bin to those in
// others; a group that lies in this bin alone may settle anew.
func (s *searcher) statesFor(items []int32) []groupState {
	out := append([]groupState(nil), s.d.states...)
	here := make([]int, len(s.m.groups))
	for _, k := range items {
		here[s.m.items[k].group]++
	}
	for g := range out {
		if here[g] == len(s.m.groups[g].items) {
			out[g] = groupState{}
		}
	}
	return out
}

// rowBound reports whether the items of one bin depend on where in the repeat
// it begins.
func (s *searcher) rowBound(items []int32) bool {
	here := make(map[int]int)
	for _, k := range items {
		here[s.m.items[k].group]++
	}
	for _, k := range items {
		it := &s.m.items[k]
		sp := s.d.spots[k]
		gl := &s.m.groups[it.group].lay[sp.lay]
		if it.lay[sp.lay].consY &&
			(gl.yFixed || gl.mirrorsRows || here[it.group] < len(s.m.groups[it.group].items)) {
			return true
		}
	}
	return false
}

// splitOverBolts replaces the plan of one length by plans of several, none
// longer than the bolt.
func splitOverBolts(job Job, m *model, effort Effort, stop func() bool, r *Result) {
	for n := int(m.ceilLength(lowerBound(m, Quick).length)/max(job.Bolt, 1)) + 1; ; n = n + n/4 + 1 {
		n = min(n, m.mostLengths())
		bins, work := packBins(m, m.newCloth(job.Bolt, n), effort, stop)
		r.Work.Used += work
		r.Work.Budget += binBudget(effort, m)
		if bins == nil && n < m.mostLengths() {
			continue
		}
		r.Cut, r.AnyStart, r.Starts = nil, nil, nil
		for _, b := range boughtFrom(job, m, bins) {
			r.Cut, r.AnyStart = append(r.Cut, b.Layout), append(r.AnyStart, b.Need)
		}
		for _, o := range bins {
			for _, p := range o.starts {
				if len(r.Cut) == 1 {
					r.Starts = append(r.Starts, layoutOf(job, m, p.sigma, p.spots, o.items))
				}
			}
		}
		if len(r.Cut) > 1 {
			lb := lengthsBound(m, effort)
			r.Bound, r.BoundBy = m.floorLength(lb.length), lb.by
		}
		r.Proven = r.Needed() <= r.Bound
		r.Ended = BudgetUsed
		if r.Proven {
			r.Ended = Proved
		}
		return
	}
}

// newCloth is n lengths to buy, cut from bolts of that length; 0 for no end. The
// first is the one that begins where the cloth is known to begin, if it is.
func (m *model) newCloth(bolt length.Length, n int) []strip {
	out := make([]strip, n)
	for b := range out {
		out[b] = strip{W: m.W, limit: noEnd, paid: true}
		switch {
		case bolt == 0:
		case b == 0 && m.fixed: // nothing need be kept back where the start is known
			out[b].limit = m.floorUnits(bolt)
		default:
			out[b].limit = m.boltLimit(bolt)
		}
	}
	return out
}

// boughtFrom is what is cut from lengths of newCloth, those left out from which
// nothing is. The cloth whose start is known stays the first: when it serves for
// nothing, nothing of it is bought.
func boughtFrom(job Job, m *model, bins []bin) []Bought {
	var out []Bought
	for b, o := range bins {
		if len(o.items) == 0 {
			continue
		}
		if m.fixed && b > 0 && len(out) == 0 {
			out = append(out, Bought{Layout: Layout{Start: job.Cloth.Start()}})
		}
		l := layoutOf(job, m, o.plan.sigma, o.plan.spots, o.items)
		out = append(out, Bought{l, max(m.ceilLength(o.need), l.Length)}) // each is rounded by itself
	}
	return out
}

// mostLengths is a number of new lengths over which every job can be laid that a
// bolt takes: one for each item, beside one that begins where nothing fits it.
func (m *model) mostLengths() int {
	if m.fixed {
		return len(m.items) + 1
	}
	return len(m.items)
}

// boltLimit is how much of a bolt is planned with: a repeat is kept back, so that
// the plan holds wherever in it the bolt begins, unless some panel then would
// not fit.
func (m *model) boltLimit(bolt length.Length) int64 {
	limit := m.floorUnits(bolt)
	if v := m.grid.V; m.hasRows() && m.tooLongFor(limit-v) < 0 {
		return limit - v
	}
	return limit
}

// wayWithin is the first way of lying in which no item of a group is longer than
// limit; -1 for none.
func (m *model) wayWithin(g *group, limit int64) int {
	for o := range g.lay {
		if !slices.ContainsFunc(g.items, func(k int) bool { return m.items[k].lay[o].h > limit }) {
			return o
		}
	}
	return -1
}

// tooLongFor is the first group that does not fit into limit however it lies; -1
// when each does.
func (m *model) tooLongFor(limit int64) int {
	return slices.IndexFunc(m.groups, func(g group) bool { return m.wayWithin(&g, limit) < 0 })
}

// hasRows reports whether some item is bound to rows: of the cloth, or of the
// item that it is tied to, which may lie on another length.
func (m *model) hasRows() bool {
	for k := range m.items {
		for _, l := range m.items[k].lay {
			if l.consY {
				return true
			}
		}
	}
	return false
}
