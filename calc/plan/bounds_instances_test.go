package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
)

// TestBoundsOfInstances wants the bounds of the open instances at or below
// their known optimum, and near it.
func TestBoundsOfInstances(t *testing.T) {
	for _, set := range []string{"C", "NGCUT", "CGCUT"} {
		sum, met := 0.0, 0
		all := instances(t, set)
		for _, in := range all {
			best := length.Length(in.height) * length.Centimetre
			b, by, plain, _ := plan.BoundOf(in.job, plan.Normal)
			if b > best || b < plain {
				t.Errorf("%s: bound %v by %s, area %v, known height %v", in.name, b, by, plain, best)
			}
			if b > best-length.Centimetre {
				met++
			}
			sum += 100 * float64(best-b) / float64(best)
		}
		mean := sum / float64(len(all))
		t.Logf("%s: mean %.2f %% below the known height, met by %d of %d", set, mean, met, len(all))
		if mean > 3 {
			t.Errorf("%s: bounds are %.2f %% below the known heights", set, mean)
		}
	}
}

// clothKind names what repeats.
func clothKind(job plan.Job) string {
	p := job.Cloth.Pattern
	switch {
	case p.IsPlain():
		return "plain"
	case p.LengthRepeat == 0:
		return "lengthwise stripe"
	case p.WidthRepeat == 0:
		return "crosswise stripe"
	case p.Drop.Num == 0:
		return "straight match"
	default:
		return "drop"
	}
}

// TestBoundsOfRandomJobs logs how far quick plans lie above the bounds, by the
// kind of cloth and by the bound that is best, and wants it to stay small.
func TestBoundsOfRandomJobs(t *testing.T) {
	type tally struct {
		n             int
		plain, better float64
	}
	kinds, bys := make(map[string]tally), make(map[string]tally)
	for n := range uint64(jobsToTry(t, 300)) {
		job := randomJob(n)
		b, by, plain, ok := plan.BoundOf(job, plan.Normal)
		if !ok {
			continue
		}
		need := solve(t, job, plan.Quick, nil).Needed()
		if need < b {
			t.Errorf("job %d: the plan of %v is shorter than the bound %v by %s", n, need, b, by)
		}
		for _, in := range []struct {
			m   map[string]tally
			key string
		}{{kinds, clothKind(job)}, {kinds, "all"}, {bys, by}} {
			a := in.m[in.key]
			a.n++
			a.plain += 100 * (float64(need)/float64(plain) - 1)
			a.better += 100 * (float64(need)/float64(b) - 1)
			in.m[in.key] = a
		}
	}
	for _, m := range []map[string]tally{kinds, bys} {
		var lines []string
		for k, a := range m {
			lines = append(lines, fmt.Sprintf("%-45s %4d jobs: plans lie %5.1f %% above area or tallest, %5.1f %% above the bound",
				k, a.n, a.plain/float64(a.n), a.better/float64(a.n)))
		}
		slices.Sort(lines)
		for _, l := range lines {
			t.Log(l)
		}
	}
	if a := kinds["all"]; a.better > 10*float64(a.n) {
		t.Errorf("quick plans lie %.1f %% above the bounds", a.better/float64(a.n))
	}
}
