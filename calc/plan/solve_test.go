package plan_test

import (
	"os"
	"strconv"
	"testing"

	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// jobsToTry is how many random jobs the property tests draw; BRIDLETIE_JOBS
// asks for more.
func jobsToTry(t *testing.T, usual int) int {
	t.Helper()
	if s := os.Getenv("BRIDLETIE_JOBS"); s != "" {
		n, err := strconv.Atoi(s)
		if err != nil {
			t.Fatalf("BRIDLETIE_JOBS: %v", err)
		}
		return n
	}
	return usual
}

func TestRandomJobsPassCheck(t *testing.T) {
	solved := 0
	n := jobsToTry(t, 10_000)
	for k := range n {
		job := randomJob(uint64(k))
		if plan.Sound(job) != nil {
			continue
		}
		solved++
		r := solve(job, plan.Quick, nil)
		proveResult(t, k, job, r)
		if t.Failed() {
			return
		}
	}
	if solved < n*8/10 {
		t.Errorf("only %d of %d jobs were possible: the generator makes too many that are not", solved, n)
	}
}

// proveResult holds a result against everything that must be true of it.
func proveResult(t *testing.T, k int, job plan.Job, r plan.Result) {
	t.Helper()
	for _, f := range verify.Check(job, r.Cut...) {
		t.Errorf("job %d: %s", k, f)
	}
	if r.Needed() > r.Rows {
		t.Errorf("job %d: plan %v is longer than the rows method %v", k, r.Needed(), r.Rows)
	}
	if r.Needed() < r.Bound {
		t.Errorf("job %d: plan %v is shorter than the bound %v", k, r.Needed(), r.Bound)
	}
	if r.Proven != (r.Needed() <= r.Bound) && r.Proven {
		t.Errorf("job %d: proven, but plan %v is above bound %v", k, r.Needed(), r.Bound)
	}
	v := job.Cloth.Pattern.LengthRepeat
	if v == 0 || job.Cloth.StartKnown || len(r.Cut) > 1 {
		return
	}
	for i := range length.Length(7) {
		start := v * i / 7
		l := r.AtStart(job, start)
		for _, f := range verify.Check(job, l) {
			t.Errorf("job %d, start %v: %s", k, start, f)
		}
		if l.Start != start {
			t.Errorf("job %d: asked for start %v, got %v", k, start, l.Start)
		}
		if l.Length > r.AnyStart[0]+2 {
			t.Errorf("job %d, start %v: needs %v, more than the order %v", k, start, l.Length, r.AnyStart[0])
		}
	}
}

func TestRandomJobsOverBolts(t *testing.T) {
	split := 0
	for k := range jobsToTry(t, 1_000) {
		job := randomJob(uint64(k))
		for _, p := range job.Panels {
			job.Bolt = max(job.Bolt, p.Cut().Along, p.Cut().Across)
		}
		job.Bolt += job.Cloth.Pattern.LengthRepeat * length.Length(k%2)
		if plan.Sound(job) != nil {
			continue
		}
		r := solve(job, plan.Quick, nil)
		for _, f := range verify.Check(job, r.Cut...) {
			t.Fatalf("job %d: %s", k, f)
		}
		if len(r.Cut) > 1 {
			split++
		}
		if r.Needed() < r.Bound {
			t.Fatalf("job %d: %d lengths take %v, less than the bound %v by %s", k, len(r.Cut), r.Needed(), r.Bound, r.BoundBy)
		}
		if len(r.AnyStart) != len(r.Cut) {
			t.Fatalf("job %d: %d lengths, %d any-start lengths", k, len(r.Cut), len(r.AnyStart))
		}
		for b, need := range r.AnyStart {
			if k%2 == 1 && need > job.Bolt {
				t.Fatalf("job %d: length %d needs %v, the bolt has %v", k, b, need, job.Bolt)
			}
		}
	}
	if split == 0 {
		t.Error("no job was split over bolts")
	}
}

func TestRandomJobsFromPieces(t *testing.T) {
	enough, short := 0, 0
	for k := range jobsToTry(t, 1_000) {
		job := randomJob(uint64(k))
		if plan.Sound(job) != nil {
			continue
		}
		pieces := []length.Length{2500 * length.Millimetre, length.Length(1000+k%3000) * length.Millimetre}
		if k%3 == 0 {
			pieces = append(pieces, 4*length.Metre)
		}
		if k%4 == 0 {
			for _, p := range job.Panels {
				job.Bolt = max(job.Bolt, p.Cut().Along, p.Cut().Across)
			}
		}
		h := solvePieces(job, pieces, plan.Quick, nil)
		var layouts []plan.Layout
		bought := length.Length(0)
		for _, b := range h.Buy {
			layouts = append(layouts, b.Layout)
			if bought += b.Layout.Length; job.Bolt > 0 && b.Layout.Length > job.Bolt {
				t.Fatalf("job %d: a length of %v, the bolt has %v", k, b.Layout.Length, job.Bolt)
			}
		}
		if len(h.Buy) == 0 {
			layouts = append(layouts, plan.Layout{Start: job.Cloth.StartsAt})
		}
		for p, u := range h.Uses {
			layouts = append(layouts, u.Layout)
			if u.Layout.Length > pieces[p] {
				t.Fatalf("job %d: piece %d of %v would have to be %v", k, p, pieces[p], u.Layout.Length)
			}
		}
		job.Bolt = 0 // a piece in hand may be longer than a bolt
		for _, f := range verify.Check(job, layouts...) {
			t.Fatalf("job %d: %s", k, f)
		}
		if h.Least > bought || bought > h.Short {
			t.Fatalf("job %d: at least %v, planned %v, short %v: want them in this order", k, h.Least, bought, h.Short)
		}
		if h.Short == 0 {
			enough++
		} else {
			short++
		}
	}
	if enough == 0 || short == 0 {
		t.Errorf("pieces were enough %d times and short %d times: both should occur", enough, short)
	}
}

// TestEveryStart sweeps where the cloth begins in fine steps: the order must
// hold a plan for each.
func TestEveryStart(t *testing.T) {
	for n := range uint64(12) {
		job := chairJob(n)
		r := solve(job, plan.Quick, nil)
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
			r := solve(job, plan.Thorough, func() bool { polls++; return polls > after })
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
	r := solve(job, plan.Quick, nil)
	for _, f := range verify.Check(job, r.Cut...) {
		t.Error(f)
	}
	if most := 20 * r.Work.Budget; r.Work.Used > most {
		t.Errorf("%d units of work, more than %d", r.Work.Used, most)
	}
}
