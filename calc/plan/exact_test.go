package plan

import (
	"os"
	"strconv"
	"testing"
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
		for _, m := range models(job) {
			_, hand := rows(m)
			best, ok := shortest(m, hand.top)
			if !ok {
				continue
			}
			tried++
			lb := lowerBound(m, Thorough)
			s := newSearcher(m, 3_000_000, lb, func() bool { return false })
			s.run()
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
