package plan_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// bar is what a set of open instances must reach at an effort.
type bar struct {
	set    string
	effort plan.Effort
	count  int
	mean   float64 // greatest mean gap in percent
	worst  float64 // greatest gap
	proved int     // least number of plans proved shortest
}

// TestPlainInstances holds the open instances to what the search is known to
// reach. The thorough search takes minutes and runs when BRIDLETIE_THOROUGH is
// set.
func TestPlainInstances(t *testing.T) {
	bars := []bar{
		{"C", plan.Quick, 21, 5, 8, 5},
		{"C", plan.Normal, 21, 2, 5, 7},
		{"NGCUT", plan.Quick, 12, 2, 8, 5},
		{"NGCUT", plan.Normal, 12, 0, 0, 10},
		{"CGCUT", plan.Normal, 3, 2, 4, 1},
	}
	if os.Getenv("BRIDLETIE_THOROUGH") != "" {
		bars = append(bars,
			bar{"C", plan.Thorough, 21, 0.8, 3.4, 10},
			bar{"NGCUT", plan.Thorough, 12, 0, 0, 12},
			bar{"CGCUT", plan.Thorough, 3, 0.5, 1, 1})
	}
	for _, b := range bars {
		t.Run(fmt.Sprintf("%s/%d", b.set, b.effort), func(t *testing.T) { b.hold(t) })
	}
}

func (b bar) hold(t *testing.T) {
	all := instances(t, b.set)
	sum, proved := 0.0, 0
	for _, in := range all {
		r := solve(t, in.job, b.effort, nil)
		for _, f := range verify.Check(in.job, r.Cut...) {
			t.Errorf("%s: %s", in.name, f)
		}
		gap := gapOf(in, r)
		best := length.Length(in.height) * length.Centimetre
		if in.optimal && gap < 0 || r.Bound > best || r.Bound > r.Needed() || r.Proven != (r.Bound == r.Needed()) {
			t.Errorf("%s: plan %v, bound %v by %s, proven %v; best known %v", in.name, r.Needed(), r.Bound, r.BoundBy, r.Proven, best)
		}
		if gap > b.worst {
			t.Errorf("%s: gap %.2f %%, want at most %.2f %%", in.name, gap, b.worst)
		}
		if r.Proven {
			proved++
		}
		sum += gap
		t.Logf("%-11s %3d panels  best known %3d  plan %v  bound %v by %s  proved %-5v gap %.2f %%  work %d",
			in.name, len(in.job.Panels), in.height, r.Needed(), r.Bound, r.BoundBy, r.Proven, gap, r.Work.Used)
	}
	mean := sum / float64(len(all))
	t.Logf("mean gap %.2f %%, %d of %d proved", mean, proved, len(all))
	if len(all) != b.count || mean > b.mean || proved < b.proved {
		t.Errorf("mean gap %.2f %% and %d proved of %d; want at most %.2f %% and at least %d of %d", mean, proved, len(all), b.mean, b.proved, b.count)
	}
}

// plainPanels is a job of n plain panels of many sizes.
func plainPanels(n int) plan.Job {
	var job plan.Job
	job.Cloth.Width = 140 * length.Centimetre
	for k := range n {
		w, h := 5+k*37%91, 5+k*53%83
		job.Panels = append(job.Panels, panel.Panel{ID: fmt.Sprint(k), Count: 1, Size: panel.Size{
			Across: length.Length(w) * length.Centimetre, Along: length.Length(h) * length.Centimetre}})
	}
	return job
}

// TestPlainIsRepeatable solves one job twice at every effort that is quick, and
// again while another is solved beside it.
func TestPlainIsRepeatable(t *testing.T) {
	job := plainPanels(40)
	want := solve(t, job, plan.Normal, nil)
	other := make(chan plan.Result)
	go func() {
		r, _ := plan.Solve(job, plan.Normal, nil)
		other <- r
	}()
	again := solve(t, job, plan.Normal, nil)
	for _, got := range []plan.Result{again, <-other} {
		if got.Needed() != want.Needed() || got.Work != want.Work || got.Bound != want.Bound {
			t.Fatalf("plan %v, bound %v, work %v; want %v, %v, %v", got.Needed(), got.Bound, got.Work, want.Needed(), want.Bound, want.Work)
		}
		for k, p := range got.Cut[0].Placements {
			if p != want.Cut[0].Placements[k] {
				t.Fatalf("placement %d is %v, want %v", k, p, want.Cut[0].Placements[k])
			}
		}
	}
}

// TestPlainStops ends a thorough search when told to, with a plan.
func TestPlainStops(t *testing.T) {
	job := plainPanels(60)
	polls := 0
	r := solve(t, job, plan.Thorough, func() bool {
		polls++
		return polls > 200
	})
	if faults := verify.Check(job, r.Cut...); len(faults) > 0 {
		t.Fatal(faults)
	}
	if r.Work.Used >= r.Work.Budget/2 {
		t.Errorf("stopped after %d of %d units of work", r.Work.Used, r.Work.Budget)
	}
}

// TestPlainManyPanels plans two thousand panels within the budget and near the
// area.
func TestPlainManyPanels(t *testing.T) {
	job := plainPanels(2000)
	r := solve(t, job, plan.Quick, nil)
	if faults := verify.Check(job, r.Cut...); len(faults) > 0 {
		t.Fatal(faults)
	}
	over := float64(r.Needed()-r.Bound) / float64(r.Bound)
	t.Logf("plan %v, bound %v by %s, work %d", r.Needed(), r.Bound, r.BoundBy, r.Work.Used)
	if over < 0 || over > 0.1 {
		t.Errorf("plan %v lies %.1f %% over the bound %v, want at most 10 %%", r.Needed(), 100*over, r.Bound)
	}
}

func BenchmarkPlainPanels(b *testing.B) {
	for _, n := range []int{250, 500, 1000, 2000} {
		job := plainPanels(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for range b.N {
				solve(b, job, plan.Quick, nil)
			}
		})
	}
}

func BenchmarkPlainInstances(b *testing.B) {
	for _, set := range []string{"C", "NGCUT", "CGCUT"} {
		for _, e := range []plan.Effort{plan.Quick, plan.Normal} {
			all := instances(b, set)
			b.Run(fmt.Sprintf("%s/%d", set, e), func(b *testing.B) {
				sum, proved, work := 0.0, 0, int64(0)
				for range b.N {
					for _, in := range all {
						r := solve(b, in.job, e, nil)
						sum += gapOf(in, r)
						work += r.Work.Used
						if r.Proven {
							proved++
						}
					}
				}
				b.ReportMetric(sum/float64(b.N*len(all)), "gap%")
				b.ReportMetric(float64(proved)/float64(b.N), "proved")
				b.ReportMetric(float64(work)/float64(b.N), "work")
			})
		}
	}
}
