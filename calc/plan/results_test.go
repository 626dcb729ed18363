package plan_test

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// tally sums up how the engine did on a set.
type tally struct {
	jobs, proven            int
	small, smallProven      int
	anchored, anchoredProof int
	worse                   int
	gap, worst, saved       float64
	spent                   time.Duration
}

func (t *tally) add(job plan.Job, r plan.Result, gap float64, spent time.Duration) {
	t.jobs++
	t.gap += gap
	t.worst = max(t.worst, gap)
	t.saved += 100 * float64(r.Rows-r.Needed()) / float64(r.Rows)
	t.spent += spent
	if r.Needed() > r.Rows {
		t.worse++
	}
	panels, anchored := 0, true
	for _, p := range job.Panels {
		panels += p.Count
		anchored = anchored && (p.Match.How == panel.Centred || p.Match.How == panel.Anchor || p.Match.How == panel.RunsOn)
	}
	count := func(all, proof *int) {
		*all++
		if r.Proven {
			*proof++
		}
	}
	count(&t.jobs, &t.proven)
	t.jobs--
	if panels <= 14 {
		count(&t.small, &t.smallProven)
	}
	if anchored {
		count(&t.anchored, &t.anchoredProof)
	}
}

func (t *tally) row(set, effort string) string {
	n := float64(max(t.jobs, 1))
	return fmt.Sprintf("| %s | %s | %d | %.2f %% | %.2f %% | %d | %d of %d | %d of %d | %.1f %% | %.1f ms |\n", set, effort, t.jobs,
		t.gap/n, t.worst, t.proven, t.smallProven, t.small, t.anchoredProof, t.anchored, t.saved/n,
		float64(t.spent.Microseconds())/1000/n)
}

// solveAll solves a set, two jobs at a time when there are two processors.
func solveAll(jobs []plan.Job, effort plan.Effort, each func(k int, r plan.Result, spent time.Duration)) {
	var wg sync.WaitGroup
	var mu sync.Mutex
	next := make(chan int)
	for range min(runtime.GOMAXPROCS(0), 2) {
		wg.Go(func() {
			for k := range next {
				began := time.Now()
				r, _ := plan.Solve(jobs[k], effort, nil) // of a job that is not sound it is empty, and does not pass
				spent := time.Since(began)
				mu.Lock()
				each(k, r, spent)
				mu.Unlock()
			}
		})
	}
	for k := range jobs {
		next <- k
	}
	close(next)
	wg.Wait()
}

var efforts = []struct {
	name   string
	effort plan.Effort
}{{"quick", plan.Quick}, {"normal", plan.Normal}, {"thorough", plan.Thorough}}

// TestChairs holds the engine to what it must reach on a fixed set of patterned
// upholstery jobs at the normal effort: a hundredth of the number of random jobs.
func TestChairs(t *testing.T) {
	jobs := chairs(max(min(jobsToTry(t, 2_000)/50, 300), 5))
	var sum tally
	solveAll(jobs, plan.Normal, func(k int, r plan.Result, spent time.Duration) {
		for _, wrong := range resultHolds(jobs[k], r) {
			t.Errorf("job %d: %s", k, wrong)
		}
		sum.add(jobs[k], r, boundGap(r), spent)
	})
	t.Log(sum.row("chairs", "normal"))
	if sum.worse > 0 {
		t.Errorf("%d plans are longer than the rows method", sum.worse)
	}
	if n := float64(sum.jobs); sum.gap/n > 8 || sum.saved/n < 10 {
		t.Errorf("mean gap %.2f %%, mean saving %.1f %%: want at most 8 and at least 10", sum.gap/n, sum.saved/n)
	}
}

func chairs(n int) []plan.Job {
	jobs := make([]plan.Job, n)
	for k := range jobs {
		jobs[k] = chairJob(uint64(k))
	}
	return jobs
}

func boundGap(r plan.Result) float64 {
	return 100 * float64(r.Needed()-r.Bound) / float64(r.Bound)
}

// TestResults writes testdata/results/plan.md anew when BRIDLETIE_RESULTS names
// the efforts to run, such as "quick,normal"; thorough takes half an hour.
func TestResults(t *testing.T) {
	wanted := os.Getenv("BRIDLETIE_RESULTS")
	if wanted == "" {
		t.Skip("BRIDLETIE_RESULTS does not ask for the table of results")
	}
	var out strings.Builder
	fmt.Fprintf(&out, "# Results of the cutting plan engine\n\nMade by `BRIDLETIE_RESULTS=%s go test ./calc/plan -run TestResults -timeout 2h` with %s on %s, two jobs at a time.\n\n",
		wanted, runtime.Version(), processor())
	out.WriteString("For C, NGCUT and CGCUT the gap is over the best known length; for the chairs, a generated set of patterned upholstery jobs, and the same with every panel anchored, over the engine's own bound.\n\n")
	out.WriteString("| set | effort | jobs | mean gap | worst gap | proved | proved, at most 14 panels | proved, all anchored | saved on rows | time a job |\n|---|---|---|---|---|---|---|---|---|---|\n")
	for _, set := range []string{"C", "NGCUT", "CGCUT", "chairs", "anchored"} {
		for _, e := range efforts {
			if strings.Contains(wanted, e.name) {
				out.WriteString(resultsOf(t, set, e.name, e.effort))
			}
		}
	}
	t.Log(out.String())
	file := filepath.Join("..", "..", "testdata", "results", "plan.md")
	if err := os.WriteFile(file, []byte(out.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

func resultsOf(t *testing.T, set, name string, effort plan.Effort) string {
	var jobs []plan.Job
	var known []instance
	switch set {
	case "chairs", "anchored":
		jobs = chairs(300)
		if set == "anchored" {
			for k := range jobs {
				jobs[k] = anchoredJob(uint64(k))
			}
		}
		if effort == plan.Thorough {
			jobs = jobs[:jobsToTry(t, 300)]
		}
	default:
		known = instances(t, set)
		for _, in := range known {
			jobs = append(jobs, in.job)
		}
	}
	var sum tally
	solveAll(jobs, effort, func(k int, r plan.Result, spent time.Duration) {
		for _, f := range verify.Check(jobs[k], r.Cut...) {
			t.Errorf("%s %d: %s", set, k, f)
		}
		gap := boundGap(r)
		if known != nil {
			gap = gapOf(known[k], r)
		}
		sum.add(jobs[k], r, gap, spent)
	})
	return sum.row(set, name)
}

// processor is what the machine says of itself.
func processor() string {
	info, _ := os.ReadFile("/proc/cpuinfo")
	for line := range strings.Lines(string(info)) {
		if name, ok := strings.CutPrefix(line, "model name"); ok {
			return fmt.Sprintf("%d processors %s", runtime.NumCPU(), strings.TrimSpace(strings.TrimLeft(name, "\t :")))
		}
	}
	return fmt.Sprintf("%d processors", runtime.NumCPU())
}
