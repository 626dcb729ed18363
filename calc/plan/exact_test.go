package plan

import (
	"os"
	"strconv"
	"testing"

	"github.com/bridletie/bridletie/calc/verify"
)

// TestTinyJobsAreSolved holds plan, bound and proof against a search of all
// plans of random tiny jobs. BRIDLETIE_JOBS asks for more of them.
func TestTinyJobsAreSolved(t *testing.T) {
	n := 300
	if s := os.Getenv("BRIDLETIE_TINY"); s != "" {
		var err error
		if n, err = strconv.Atoi(s); err != nil {
			t.Fatal(err)
		}
	}
	tried, proven := 0, 0
	for seed := range uint64(n) {
		job := tinyJob(seed)
		for _, m := range modelsOf(job) {
			_, hand := rows(m)
			best, ok := shortest(m, hand.top)
			if !ok || m.blurred() {
				continue
			}
			tried++
			lb := lowerBound(m, Thorough)
			s := newSearcher(m, 3_000_000, lb, func() bool { return false })
			s.run()
			if f := verify.Check(job, layoutOf(job, m, s.best.sigma, s.best.spots, nil)); len(f) > 0 {
				t.Errorf("seed %d: %s", seed, f[0])
			}
			if s.best.top < best && m.mayEndBetween() {
				continue // the search of all plans keeps to whole units
			}
			if s.best.top != best {
				t.Errorf("seed %d: plan %d, the shortest is %d (bound %d by %s)", seed, s.best.top, best, s.bound.length, s.bound.by)
			}
			if s.bound.length > best {
				t.Errorf("seed %d: bound %d by %s passes the shortest plan %d", seed, s.bound.length, s.bound.by, best)
			}
			if s.best.top == s.bound.length {
				proven++
			}
		}
	}
	t.Logf("%d models, %d proved", tried, proven)
	if proven < tried*9/10 {
		t.Errorf("only %d of %d tiny models were proved", proven, tried)
	}
}

// TestSixPanelsAreSolved is the same for five and six panels. There the search of
// all plans only looks for one that is shorter than the engine's, within more
// steps; jobs for which that is not enough are passed over.
func TestSixPanelsAreSolved(t *testing.T) {
	n := 60
	if s := os.Getenv("BRIDLETIE_TINY"); s != "" {
		var err error
		if n, err = strconv.Atoi(s); err != nil {
			t.Fatal(err)
		}
	}
	drawn, tried, proven := 0, 0, 0
	for seed := range uint64(n) {
		job := tinyJobOf(seed, 5, 6)
		for _, m := range modelsOf(job) {
			if drawn++; m.blurred() {
				continue
			}
			s := thoroughly(job, m)
			best, ok := shortestWithin(m, (s.best.top-1)/(s.m.den/m.den), 10*bruteSteps)
			best *= s.m.den / m.den
			if best < s.best.top {
				t.Errorf("seed %d: plan %d, there is one of %d (bound %d by %s)", seed, s.best.top, best, s.bound.length, s.bound.by)
			}
			if f := verify.Check(job, layoutOf(job, s.m, s.best.sigma, s.best.spots, nil)); len(f) > 0 {
				t.Errorf("seed %d: %s", seed, f[0])
			}
			if s.bound.length > best {
				t.Errorf("seed %d: bound %d by %s passes a plan of %d", seed, s.bound.length, s.bound.by, best)
			}
			if !ok {
				continue
			}
			if tried++; s.best.top == s.bound.length {
				proven++
			}
		}
	}
	t.Logf("%d of %d models searched, %d proved", tried, drawn, proven)
	if tried < drawn/4 || proven < tried*9/10 {
		t.Errorf("%d of %d models were searched, and %d proved", tried, drawn, proven)
	}
}

// thoroughly searches a model as the thorough effort does, with a tenth of its
// work.
func thoroughly(job Job, m *model) *searcher {
	m = m.forThorough(job)
	s := newSearcher(m, budgetOf(Thorough, m)/10, lowerBound(m, Thorough), func() bool { return false })
	s.run()
	return s
}

// blurred reports whether a tolerance reaches half a repeat, far beyond what a
// request may ask for: then it is not clear which column is meant.
func (m *model) blurred() bool {
	for k := range m.items {
		for _, l := range m.items[k].lay {
			if l.tol > 0 && (2*l.tol >= m.grid.H && m.grid.H > 0 || 2*l.tol >= m.grid.V && m.grid.V > 0) {
				return true
			}
		}
	}
	return false
}
