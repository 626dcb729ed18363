package plan

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// Solve finds a plan for a job. The error is that of Sound; there is no plan with
// it. stop is polled now and then; once it reports true the search ends with the
// best plan so far, which then depends on the clock: callers that promise equal
// answers must drop it. A nil stop never ends early.
func Solve(job Job, effort Effort, stop func() bool) (Result, error) {
	p, wrong := Prepare(job)
	if wrong.Len() > 0 {
		return Result{}, wrong
	}
	return p.Solve(effort, stop), nil
}

// Sound returns nil where Solve can plan the job, and otherwise a fault.List of all
// that is wrong with it; see Prepare.
func Sound(job Job) error {
	_, wrong := Prepare(job)
	return wrong.Err()
}

// Prepared is a job that is sound, ready to be planned. It is used once, by one
// goroutine.
type Prepared struct {
	job    Job
	models []*model
}

// Prepare makes a job ready, or says all that is wrong with it: with cloth, bolt and
// panels, each by itself and together, or else, when nothing else is wrong, which
// wishes no plan can keep. Such are a motif that would push its panel off the cloth
// wherever it lies, and wishes tied together that contradict each other. Paths begin
// at cloth or panels.
func Prepare(job Job) (*Prepared, fault.List) {
	l := job.Cloth.Faults(fault.At("cloth"))
	l.Append(cloth.Sold{Bolt: job.Bolt}.Faults(fault.At("cloth")))
	at := fault.At("panels")
	if len(job.Panels) == 0 {
		l.Add(at, fault.TooFew, "", "the cutting list is empty", "one panel or more")
	}
	l.Append(panel.ListFaults(job.Panels, at))
	l.Append(panel.ClothFaults(job.Panels, job.Cloth, job.Bolt, at))
	if l.Len() > 0 {
		return nil, l
	}
	possible, unkept := models(job)
	return &Prepared{job, possible}, unkeptFaults(job, unkept)
}

// Solve plans the job, as the function of that name does.
func (p *Prepared) Solve(effort Effort, stop func() bool) Result {
	if stop == nil {
		stop = func() bool { return false }
	}
	best := solveModel(p.job, p.models[0], effort, stop)
	for _, m := range p.models[1:] {
		r := solveModel(p.job, m, effort, stop)
		best = *better(&best, &r)
	}
	return best
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
// or both where the cloth allows. Where none is, they are the reasons why the first
// is not.
func models(job Job) (possible []*model, unkept []buildFault) {
	for k, cross := range ways(job.Cloth.Railroad) {
		switch m, faults := buildModel(job, cross); {
		case faults == nil:
			possible = append(possible, m)
		case k == 0:
			unkept = faults
		}
	}
	if len(possible) > 0 {
		unkept = nil
	}
	return possible, unkept
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
