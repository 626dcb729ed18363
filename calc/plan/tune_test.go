package plan_test

import (
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

func TestTune(t *testing.T) {
	if os.Getenv("TUNE") == "" {
		t.Skip("TUNE not set")
	}
	eff := plan.Normal
	if os.Getenv("TUNE") == "thorough" {
		eff = plan.Thorough
	}
	if os.Getenv("TUNE") == "quick" {
		eff = plan.Quick
	}
	n, sum, proven, small, smallProven, anch, anchProven := 0, 0.0, 0, 0, 0, 0, 0
	var work int64
	saved := 0.0
	began := time.Now()
	for k := range jobsToTry(t, 300) {
		job := chairJob(uint64(k))
		if !plan.Possible(job) {
			continue
		}
		r := plan.Solve(job, eff, nil)
		gap := 100 * float64(r.Needed()-r.Bound) / float64(r.Bound)
		count, all := 0, true
		for _, p := range job.Panels {
			count += p.Count
			if p.Match.How == panel.Free || p.Match.How == panel.Across || p.Match.How == panel.Along {
				all = false
			}
		}
		n++
		sum += gap
		saved += 100 * float64(r.Rows-r.Needed()) / float64(r.Rows)
		work += r.Work.Used
		if r.Proven {
			proven++
		}
		if count <= 14 {
			small++
			if r.Proven {
				smallProven++
			}
		}
		if all {
			anch++
			if r.Proven {
				anchProven++
			}
		}
		if os.Getenv("EACH") != "" {
			fmt.Printf("%3d n=%2d V=%v H=%v d=%v needed %v bound %v by %s gap %.1f proven %v ended %v work %d\n", k, count, job.Cloth.Pattern.LengthRepeat, job.Cloth.Pattern.WidthRepeat, job.Cloth.Pattern.Drop, r.Needed(), r.Bound, r.BoundBy, gap, r.Proven, r.Ended, r.Work.Used)
		}
	}
	fmt.Printf("saved %.1f ", saved/float64(n))
	fmt.Printf("jobs %d gap %.2f proven %d small %d/%d anchored %d/%d  %.1f ms each, %.1f ns/unit\n", n, sum/float64(n), proven, smallProven, small, anchProven, anch, float64(time.Since(began).Milliseconds())/float64(n), float64(time.Since(began).Nanoseconds())/float64(work))
}
