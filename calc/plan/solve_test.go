package plan_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// jobsToTry is how many random jobs the property tests draw; BRIDLETIE_JOBS
// asks for more.
func jobsToTry(t *testing.T, usual int) int { return numberFrom(t, "BRIDLETIE_JOBS", usual) }

// numberFrom is a number from the environment, where it holds one.
func numberFrom(t *testing.T, variable string, usual int) int {
	t.Helper()
	s := os.Getenv(variable)
	if s == "" {
		return usual
	}
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatalf("%s: %v", variable, err)
	}
	return n
}

func TestRandomJobsPassCheck(t *testing.T) {
	n := jobsToTry(t, 2_000)
	solved := everyJob(t, n, 0, passesCheck)["planned"]
	if solved < n*8/10 {
		t.Errorf("only %d of %d jobs were possible: the generator makes too many that are not", solved, n)
	}
}

func TestRandomJobsOverBolts(t *testing.T) {
	if everyJob(t, jobsToTry(t, 1_000), 0, fitsBolts)["split"] == 0 {
		t.Error("no job was split over bolts")
	}
}

func TestRandomJobsFromPieces(t *testing.T) {
	n := jobsToTry(t, 1_000)
	saw := everyJob(t, n, 0, fitsPieces)
	for _, kind := range []string{"enough", "short", "known start"} {
		if saw[kind] == 0 && n >= 200 {
			t.Errorf("no job was %s: each should occur, and there were %v", kind, saw)
		}
	}
}

func TestRandomJobsOverTightBolts(t *testing.T) {
	n := jobsToTry(t, 500)
	if saw := everyJob(t, n, 0, fitsTightBolts); n >= 200 && (saw["planned"] < n/3 || saw["refused"] == 0) {
		t.Errorf("of %d jobs: %v; too few are planned, or none is refused", n, saw)
	}
}

// TestSeeds puts random jobs to the same tests while the search draws other
// random numbers than it does for callers. BRIDLETIE_SEEDS asks for more seeds;
// each has jobs of its own.
func TestSeeds(t *testing.T) {
	seeds := numberFrom(t, "BRIDLETIE_SEEDS", 3)
	for _, test := range []struct {
		name  string
		jobs  int
		holds holds
	}{{"plain", 300, passesCheck}, {"bolts", 100, fitsBolts}, {"pieces", 100, fitsPieces}, {"tight bolts", 100, fitsTightBolts}} {
		t.Run(test.name, func(t *testing.T) {
			n := jobsToTry(t, test.jobs)
			for seed := range seeds {
				everyJob(t, n, uint64(seed+1), test.holds)
			}
		})
	}
}

// holds plans a possible job, number k, and returns what is not true of the plan and
// should be, and a kind of job, to be counted.
type holds func(k int, job plan.Job) (wrong []string, kind string)

// everyJob puts n random jobs to a test and counts them by kind. Under another
// seed than 0 the jobs are others too. After ten that fail it tries no more.
func everyJob(t *testing.T, n int, seed uint64, holds holds) map[string]int {
	t.Helper()
	saw, failed := make(map[string]int), 0
	for k := int(seed) * n; k < (int(seed)+1)*n; k++ {
		job := randomJob(uint64(k))
		job.Salt = int64(seed)
		if !plan.Possible(job) {
			continue
		}
		wrong, kind := holds(k, job)
		saw[kind]++
		for _, w := range wrong {
			t.Errorf("job %d under seed %d: %s", k, seed, w)
		}
		if len(wrong) > 0 {
			if failed++; failed == 10 {
				return saw
			}
		}
	}
	return saw
}

// passesCheck plans one length of cloth.
func passesCheck(_ int, job plan.Job) (wrong []string, kind string) {
	r, err := plan.Solve(job, plan.Quick, nil)
	if err != nil {
		return []string{"not solved: " + err.Error()}, "planned"
	}
	return resultHolds(job, r), "planned"
}

// resultHolds holds a result against everything that must be true of it.
func resultHolds(job plan.Job, r plan.Result) (wrong []string) {
	add := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	for _, f := range verify.Check(job, r.Cut...) {
		add("%s", f)
	}
	if len(r.Cut) == 1 && r.Needed() > r.Rows {
		add("plan %v is longer than the rows method %v", r.Needed(), r.Rows)
	}
	if r.Needed() < r.Bound {
		add("%d lengths take %v, less than the bound %v by %s", len(r.Cut), r.Needed(), r.Bound, r.BoundBy)
	}
	if r.Proven != (r.Needed() <= r.Bound) && r.Proven {
		add("proven, but plan %v is above bound %v", r.Needed(), r.Bound)
	}
	if len(r.AnyStart) != len(r.Cut) {
		add("%d lengths, %d any-start lengths", len(r.Cut), len(r.AnyStart))
		return wrong
	}
	for b, l := range r.Cut {
		if l.Length > r.AnyStart[b] {
			add("length %d takes %v, more than the %v of its order", b, l.Length, r.AnyStart[b])
		}
	}
	v := job.Cloth.Pattern.LengthRepeat
	if v == 0 || job.Cloth.StartsAt != nil || len(r.Cut) > 1 {
		return wrong
	}
	if r.AnyStart[0] > job.Bolt {
		job.Bolt = 0 // no bolt takes the plan from every start
	}
	for i := range length.Length(7) {
		start := v * i / 7
		l := r.AtStart(job, start)
		for _, f := range verify.Check(job, l) {
			add("start %v: %s", start, f)
		}
		if l.Start != start {
			add("asked for start %v, got %v", start, l.Start)
		}
		if l.Length > r.AnyStart[0]+2 {
			add("start %v needs %v, more than the order %v", start, l.Length, r.AnyStart[0])
		}
	}
	return wrong
}

// withBolt gives a job a bolt as long as its longest panel.
func withBolt(job plan.Job) plan.Job {
	for _, p := range job.Panels {
		job.Bolt = max(job.Bolt, p.Cut().Along, p.Cut().Across)
	}
	return job
}

// fitsBolts plans bolts that take one panel and, for every second job, a repeat
// more.
func fitsBolts(k int, job plan.Job) (wrong []string, kind string) {
	add := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	job = withBolt(job)
	job.Bolt += job.Cloth.Pattern.LengthRepeat * length.Length(k%2)
	r, err := plan.Solve(job, plan.Quick, nil)
	if err != nil {
		return []string{"not solved: " + err.Error()}, "whole"
	}
	wrong = resultHolds(job, r)
	for b, need := range r.AnyStart {
		if k%2 == 1 && need > job.Bolt {
			add("length %d needs %v, the bolt has %v", b, need, job.Bolt)
		}
	}
	if len(r.Cut) > 1 {
		return wrong, "split"
	}
	return wrong, "whole"
}

// fitsPieces plans two or three pieces in hand and, for every fourth job, new
// cloth in bolts that take one panel.
func fitsPieces(k int, job plan.Job) (wrong []string, kind string) {
	pieces := []length.Length{2500 * length.Millimetre, length.Length(1000+k%3000) * length.Millimetre}
	if k%3 == 0 {
		pieces = append(pieces, 4*length.Metre)
	}
	if k%4 == 0 {
		job = withBolt(job)
	}
	h, wrong := piecesHold(job, pieces)
	switch {
	case h.Short == 0:
		return wrong, "enough"
	case job.Cloth.StartsAt != nil:
		return wrong, "known start"
	default:
		return wrong, "short"
	}
}

// piecesHold plans from pieces and holds the plan against everything that must be
// true of it.
func piecesHold(job plan.Job, pieces []length.Length) (h plan.InHand, wrong []string) {
	add := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	h, err := plan.SolvePieces(job, pieces, plan.Quick, nil)
	if err != nil {
		return h, []string{"not solved: " + err.Error()}
	}
	var layouts []layout.Layout
	bought := length.Length(0)
	for _, b := range h.Buy {
		layouts = append(layouts, b.Layout)
		if bought += b.Layout.Length; job.Bolt > 0 && b.Layout.Length > job.Bolt {
			add("a length of %v, the bolt has %v", b.Layout.Length, job.Bolt)
		}
	}
	if len(h.Buy) == 0 {
		layouts = append(layouts, layout.Layout{Start: job.Cloth.Start()})
	}
	for p, u := range h.Uses {
		layouts = append(layouts, u.Layout)
		if u.Layout.Length > pieces[p] {
			add("piece %d of %v would have to be %v", p, pieces[p], u.Layout.Length)
		}
	}
	job.Bolt = 0 // a piece in hand may be longer than a bolt
	for _, f := range verify.Check(job, layouts...) {
		add("%s", f)
	}
	if h.Least > bought || bought > h.Short {
		add("at least %v, planned %v, short %v: want them in this order", h.Least, bought, h.Short)
	}
	return h, wrong
}

// fitsTightBolts plans bolts that take some panels only if they are turned, and
// some pieces, for cloth that often begins at a known place: what has no fault
// has a plan.
func fitsTightBolts(k int, job plan.Job) (wrong []string, kind string) {
	r := rand.New(rand.NewPCG(uint64(k), 7))
	job.Cloth.Railroad = cloth.Railroad(r.IntN(3))
	if v := job.Cloth.Pattern.LengthRepeat; v > 0 && r.IntN(2) == 0 {
		job.Cloth.StartsAt = new(length.Length(r.Int64N(int64(v))))
	}
	across := job.Cloth.Railroad == cloth.RailroadAlways || job.Cloth.Railroad == cloth.RailroadAllowed && r.IntN(2) == 0
	for i := range job.Panels {
		p := &job.Panels[i]
		if p.Match.How == panel.Free {
			p.Turn = [...]panel.Turn{panel.Upright, panel.Quarter}[r.IntN(2)]
		}
		cut := p.Cut()
		if across {
			cut.Across, cut.Along = cut.Along, cut.Across
		}
		if p.Turn == panel.Quarter && cut.Along <= job.Cloth.Width {
			cut.Along = min(cut.Along, cut.Across)
		}
		job.Bolt = max(job.Bolt, cut.Along)
	}
	job.Bolt += length.Length(r.IntN(3)) * length.Millimetre / 2
	l := panel.ClothFaults(job.Panels, job.Cloth, job.Bolt, fault.Path{})
	l.Append(plan.Unkept(job))
	if l.Len() > 0 {
		return nil, "refused"
	}
	result, err := plan.Solve(job, plan.Quick, nil)
	if err != nil {
		return []string{"not solved: " + err.Error()}, "planned"
	}
	wrong = resultHolds(job, result)
	_, more := piecesHold(job, []length.Length{job.Bolt / 3, job.Bolt + 1, length.Length(r.Int64N(int64(2 * job.Bolt)))})
	return append(wrong, more...), "planned"
}

// TestEveryStart sweeps where the cloth begins in fine steps: the order must
// hold a plan for each.
func TestEveryStart(t *testing.T) {
	for n := range uint64(12) {
		job := chairJob(n)
		r := solve(t, job, plan.Quick, nil)
		v, longest := job.Cloth.Pattern.LengthRepeat, length.Length(0)
		for start := length.Length(0); start < v; start += v / 400 {
			l := r.AtStart(job, start)
			if f := verify.Check(job, l); len(f) > 0 {
				t.Fatalf("job %d, start %v: %s", n, start, f[0])
			}
			longest = max(longest, l.Length)
		}
		if longest > r.AnyStart[0] {
			t.Errorf("job %d: some start needs %v, the order holds %v", n, longest, r.AnyStart[0])
		}
		if r.AnyStart[0] > r.Needed()+v+layout.Slack {
			t.Errorf("job %d: the order holds %v, more than %v and a repeat", n, r.AnyStart[0], r.Needed())
		}
	}
}

// TestSolveStops calls a halt early in a long search: what is left of it must be
// a small part of the budget, and the plan must be sound all the same.
func TestSolveStops(t *testing.T) {
	for _, n := range []uint64{4, 10, 55} {
		for _, after := range []int{0, 50, 2000} {
			job, polls := chairJob(n), 0
			r := solve(t, job, plan.Thorough, func() bool { polls++; return polls > after })
			if r.Work.Used > r.Work.Budget/20 {
				t.Errorf("job %d, halt after %d polls: %d of %d units of work were still used", n, after, r.Work.Used, r.Work.Budget)
			}
			for _, f := range verify.Check(job, r.Cut...) {
				t.Errorf("job %d, halt after %d polls: %s", n, after, f)
			}
		}
	}
}

// TestTinyRepeats plans many panels on repeats of a millimetre: thousands of
// columns must cost neither memory nor time beyond the budget.
func TestTinyRepeats(t *testing.T) {
	job := manyPanels(1500)
	job.Cloth.Pattern.WidthRepeat, job.Cloth.Pattern.LengthRepeat = length.Millimetre, length.Millimetre
	job.Cloth.Pattern.Motifs = nil
	for k := range job.Panels {
		job.Panels[k].Match = panel.Match{How: panel.Centred}
	}
	r := solve(t, job, plan.Quick, nil)
	for _, f := range verify.Check(job, r.Cut...) {
		t.Error(f)
	}
	if most := 20 * r.Work.Budget; r.Work.Used > most {
		t.Errorf("%d units of work, more than %d", r.Work.Used, most)
	}
}
