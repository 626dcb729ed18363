package plan

import (
	"os"
	"strconv"
	"testing"
)

// jobsForBounds is how many tiny jobs are drawn; BRIDLETIE_JOBS asks for more.
func jobsForBounds(t *testing.T) int {
	t.Helper()
	s := os.Getenv("BRIDLETIE_JOBS")
	if s == "" {
		return 1500
	}
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatalf("BRIDLETIE_JOBS: %v", err)
	}
	return n
}

// TestBoundsNeverPassTheShortestPlan holds every bound against a search of all
// plans of thousands of tiny jobs.
func TestBoundsNeverPassTheShortestPlan(t *testing.T) {
	tried, met := 0, 0
	by := make(map[string]int)
	for seed := range uint64(jobsForBounds(t)) {
		for _, m := range models(tinyJob(seed)) {
			_, hand := rows(m)
			best, ok := shortest(m, hand.top)
			if !ok {
				continue
			}
			tried++
			for _, e := range []Effort{Quick, Normal, Thorough} {
				b := lowerBound(m, e)
				if b.length > best {
					t.Fatalf("seed %d effort %d: bound %d (%s) passes the shortest plan %d: %+v", seed, e, b.length, b.by, best, m)
				}
				by[b.by]++
				if e == Thorough && b.length == best {
					met++
				}
			}
		}
	}
	t.Logf("tried %d models, the bound meets the shortest plan in %d; by %v", tried, met, by)
}
