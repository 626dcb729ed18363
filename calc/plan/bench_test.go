package plan_test

import (
	"fmt"
	"sync"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// BenchmarkChairs is the time of one patterned job, by effort, over a fixed set.
func BenchmarkChairs(b *testing.B) {
	for name, effort := range map[string]plan.Effort{"quick": plan.Quick, "normal": plan.Normal} {
		b.Run(name, func(b *testing.B) {
			gap := 0.0
			for n := 0; b.Loop(); n++ {
				r := solve(b, chairJob(uint64(n%20)), effort, nil)
				gap += 100 * float64(r.Needed()-r.Bound) / float64(r.Bound)
			}
			b.ReportMetric(gap/float64(b.N), "%gap")
		})
	}
}

// manyPanels is one job of n panels in thirty sizes on a straight-match cloth.
func manyPanels(n int) plan.Job {
	job := chairJob(0)
	job.Cloth.Pattern.Drop.Num = 0
	job.Panels = nil
	for k := range 30 {
		p := panel.Panel{ID: fmt.Sprint(k), Count: n/30 + (n%30+29-k)/30,
			Size: panel.Size{Across: length.Length(12+k%17) * 2 * cm, Along: length.Length(10+k%23) * 3 * cm}}
		if k%3 == 0 {
			p.Match.How = panel.Across
		}
		job.Panels = append(job.Panels, p)
	}
	return job
}

// BenchmarkGrowth is how the quick effort grows with the number of panels.
func BenchmarkGrowth(b *testing.B) {
	for _, n := range []int{20, 200, 2000} {
		job := manyPanels(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				solve(b, job, plan.Quick, nil)
			}
		})
	}
}

// BenchmarkCompare500 plans one job of about 25 panels on 500 cloths, two at a
// time.
func BenchmarkCompare500(b *testing.B) {
	job := chairJob(4)
	for b.Loop() {
		var wg sync.WaitGroup
		for half := range 2 {
			wg.Go(func() {
				for k := half; k < 500; k += 2 {
					j := job
					j.Cloth.Pattern.LengthRepeat += length.Length(k) * length.Millimetre
					solve(b, j, plan.Quick, nil)
				}
			})
		}
		wg.Wait()
	}
}
