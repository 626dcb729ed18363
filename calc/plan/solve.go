package plan

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
)

// Solve finds a plan for a job that has no Faults. stop is polled now and then;
// once it reports true the search ends with the best plan so far, which then
// depends on the clock: callers that promise equal answers must drop it. A nil
// stop never ends early.
func Solve(job Job, effort Effort, stop func() bool) Result {
	if stop == nil {
		stop = func() bool { return false }
	}
	var best *Result
	for _, cross := range ways(job.Cloth.Railroad) {
		m, faults := buildModel(job, cross)
		if faults != nil || len(m.items) == 0 {
			continue
		}
		r := solveOne(job, m, effort, stop)
		if best == nil {
			best = &r
			continue
		}
		work := Work{best.Work.Used + r.Work.Used, best.Work.Budget + r.Work.Budget}
		bound, by := best.Bound, best.BoundBy
		if r.Bound < bound {
			bound, by = r.Bound, r.BoundBy
		}
		rows := min(best.Rows, r.Rows)
		if r.order() < best.order() || r.order() == best.order() && r.Needed() < best.Needed() {
			best = &r
		}
		best.Work, best.Bound, best.BoundBy, best.Rows = work, bound, by, rows
		best.Proven = best.Needed() <= bound
	}
	if best == nil {
		return Result{}
	}
	return *best
}

// ways are the models to try: up the roll, across it, or both.
func ways(r cloth.Railroad) []bool {
	switch r {
	case cloth.RailroadAllowed:
		return []bool{false, true}
	case cloth.RailroadAlways:
		return []bool{true}
	default:
		return []bool{false}
	}
}

// order is the length that is enough wherever the repeat begins.
func (r Result) order() length.Length {
	var sum length.Length
	for _, l := range r.AnyStart {
		sum += l
	}
	return sum
}

// solveOne plans one model.
func solveOne(job Job, m *model, effort Effort, stop func() bool) Result {
	lb := lowerBound(m)
	byRows, hand := rows(m)
	s := newSearcher(m, budgetOf(effort), lb.length, stop)
	s.run()
	if hand.top < s.best.top {
		hand.genes = s.best.genes
		s.best = hand
	}
	r := Result{
		Bound: m.floorLength(lb.length), BoundBy: lb.by, Proven: s.best.top <= lb.length,
		Rows: m.floorLength(byRows), Railroaded: m.cross, RowBound: m.anyAbs && m.grid.V > 0,
	}
	if r.Proven {
		r.Ended = Proved
	}
	plans := s.anyStart(maxStarts(effort))
	r.Cut = []Layout{layoutOf(job, m, s.best.sigma, s.best.spots, 0)}
	need := s.best.top
	if r.RowBound && !m.fixed {
		need, _ = worstStart(plans, m.grid.V)
	}
	r.AnyStart = []length.Length{m.ceilLength(need)}
	for _, p := range plans {
		r.Starts = append(r.Starts, layoutOf(job, m, p.sigma, p.spots, 0))
	}
	r.Work = Work{s.d.work, s.budget}
	return r
}

// Possible reports whether every wish of the job can be kept.
func Possible(job Job) bool { return len(impossible(job)) == 0 }

// impossible are the reasons why no way of laying the panels will do: those of
// the first way, when every way has some.
func impossible(job Job) []buildFault {
	var first []buildFault
	for k, cross := range ways(job.Cloth.Railroad) {
		_, faults := buildModel(job, cross)
		if faults == nil {
			return nil
		}
		if k == 0 {
			first = faults
		}
	}
	return first
}
