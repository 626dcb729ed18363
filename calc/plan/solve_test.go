package plan_test

import (
	"os"
	"strconv"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
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
		if !plan.Possible(job) {
			continue
		}
		solved++
		r := plan.Solve(job, plan.Quick, nil)
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
	for _, f := range plan.Check(job, r.Cut...) {
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
		for _, f := range plan.Check(job, l) {
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
