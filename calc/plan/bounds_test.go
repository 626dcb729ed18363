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
		return 3000
	}
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatalf("BRIDLETIE_JOBS: %v", err)
	}
	return n
}

// eachBound is every bound by itself, in the order of boundNames.
func eachBound(m *model) []int64 {
	l := newLines(m, Thorough)
	b := newBars(l.r, l.r.heights(), l.kinds)
	c := l.solve(b)
	out := []int64{areaBound(m), tallestBound(m), c.length, 0, 0, 0}
	if l.r.V > 0 {
		l.r.tableGaps()
		out[3], out[4] = l.byGaps(b, c, true).length, l.byGaps(b, c, false).length
	}
	out[5] = newScales(l, m, b.worth(&c), b.pool).raise(max(out[0], out[1]), 1)
	return out
}

var boundNames = []string{"area", "tallest", "side by side", "gaps", "gaps of framed", "scales"}

// TestBoundsNeverPassTheShortestPlan holds every bound, and each by itself,
// against a search of all plans of thousands of tiny jobs. It also shows that
// the search would notice: each bound but for those that only charge gaps meets
// the shortest plan of many jobs, so that one more unit would be too much.
func TestBoundsNeverPassTheShortestPlan(t *testing.T) {
	tried, met := 0, 0
	metBy, bestBy := make([]int, len(boundNames)), make([]int, len(boundNames))
	n := jobsForBounds(t)
	for seed := range uint64(n) {
		for _, m := range modelsOf(tinyJob(seed)) {
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
				if e == Thorough && b.length == best {
					met++
				}
			}
			each := eachBound(m)
			for k, length := range each {
				if length > best {
					t.Fatalf("seed %d: bound %d by %s passes the shortest plan %d: %+v", seed, length, boundNames[k], best, m)
				}
				if length == best {
					metBy[k]++
					if best > max(each[0], each[1]) {
						bestBy[k]++
					}
				}
			}
		}
	}
	t.Logf("tried %d models; the best bound meets the shortest plan in %d", tried, met)
	for k, name := range boundNames {
		t.Logf("%-15s meets it in %d, in %d where area and tallest do not", name, metBy[k], bestBy[k])
		if metBy[k] < n/1000 || k >= 2 && bestBy[k] < n/1000 {
			t.Errorf("%s hardly ever meets the shortest plan: one unit more would not be noticed", name)
		}
	}
	if tried < n/3 || met < tried*3/4 {
		t.Errorf("tried %d of %d, met %d: too few for a test", tried, n, met)
	}
}

// TestBoundsAreTheSameAgain wants the same answer from the same model, and one
// not below the plain ones.
func TestBoundsAreTheSameAgain(t *testing.T) {
	for seed := range uint64(200) {
		for _, m := range modelsOf(tinyJob(seed)) {
			for _, e := range []Effort{Quick, Normal, Thorough} {
				a, b := lowerBound(m, e), lowerBound(m, e)
				if a != b || a.length < max(areaBound(m), tallestBound(m)) || a.by == "" {
					t.Fatalf("seed %d effort %d: %v, then %v", seed, e, a, b)
				}
			}
		}
	}
}
