package plan

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// Solve finds a plan. A job that is not sound is refused with the error of Sound,
// and the Result is then empty. stop is polled now and then; once it reports true
// the search ends with the best plan so far, which then depends on the clock:
// callers that promise equal answers must drop it. A nil stop never ends early.
func Solve(job Job, effort Effort, stop func() bool) (Result, error) {
	if stop == nil {
		stop = func() bool { return false }
	}
	ways, err := soundModels(job)
	if err != nil {
		return Result{}, err
	}
	var best *Result
	for _, m := range ways {
		r := solveModel(job, m, effort, stop)
		if best == nil {
			best = &r
		} else {
			best = better(best, &r)
		}
	}
	return *best, nil
}

// soundModels are the models of a job, at least one, or the error of Sound.
func soundModels(job Job) ([]*model, error) {
	if l := fieldFaults(job); l.Len() > 0 {
		return nil, l
	}
	ways := models(job)
	if len(ways) == 0 {
		return nil, Faults(job, fault.Path{})
	}
	return ways, nil
}

// better is the result that needs the smaller order, with what both prove.
func better(a, b *Result) *Result {
	best, other := a, b
	if b.order() < a.order() || b.order() == a.order() && b.Needed() < a.Needed() {
		best, other = b, a
	}
	if other.Bound < best.Bound {
		best.Bound, best.BoundBy = other.Bound, other.BoundBy
	}
	best.Work = Work{best.Work.Used + other.Work.Used, best.Work.Budget + other.Work.Budget}
	if best.Proven = best.Needed() <= best.Bound; !best.Proven && best.Ended == Proved {
		best.Ended = NothingLeft
	}
	return best
}

// models are the ways to lay a job that are possible: up the roll, across it,
// or both where the cloth allows.
func models(job Job) []*model {
	var out []*model
	for _, cross := range ways(job.Cloth.Railroad) {
		if m, faults := buildModel(job, cross); faults == nil && len(m.items) > 0 {
			out = append(out, m)
		}
	}
	return out
}

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

// solveModel plans one model in one length, or in several when the bolt is too
// short for that.
func solveModel(job Job, m *model, effort Effort, stop func() bool) Result {
	if effort == Thorough {
		m = m.forThorough(job)
	}
	m.stop = stop
	lb := lowerBound(m, effort)
	byRows, hand := rows(m)
	s := newSearcher(m, budgetOf(effort, m), lb, stop)
	s.run()
	if hand.top < s.best.top {
		hand.genes = s.best.genes
		s.best = hand
	}
	lb = s.bound
	r := Result{
		Bound: m.floorLength(lb.length), BoundBy: lb.by, Proven: s.best.top <= lb.length,
		Rows: m.ceilLength(byRows), Railroaded: m.cross, RowBound: m.anyAbs,
	}
	for _, st := range s.steps {
		r.Progress = append(r.Progress, Step{st.work, m.ceilLength(st.top), m.floorLength(st.bound)})
	}
	if r.Proven {
		r.Ended = Proved
	}
	plans, need := []*found{s.best}, s.best.top
	if m.anyAbs && !m.fixed {
		plans = s.anyStart(startEffortOf(effort))
		need, _ = worstStart(plans, m.grid.V)
	}
	r.Work = Work{s.d.work, s.budget}
	r.Cut = []Layout{layoutOf(job, m, s.best.sigma, s.best.spots, nil)}
	if r.Proven { // the two are one length, each rounded to the nanometre
		r.Bound = max(r.Bound, r.Needed())
	}
	r.AnyStart = []length.Length{max(m.ceilLength(need), r.Needed())}
	for _, p := range plans {
		r.Starts = append(r.Starts, layoutOf(job, m, p.sigma, p.spots, nil))
	}
	if job.Bolt > 0 && r.AnyStart[0] > job.Bolt {
		splitOverBolts(job, m, effort, stop, &r)
	}
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
