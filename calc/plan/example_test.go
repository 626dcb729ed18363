package plan_test

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// Two chair seats with a motif in the middle of each, from a cloth on which the
// motif comes every 32 cm along and 28 cm across.
func ExampleSolve() {
	job := plan.Job{
		Cloth: cloth.Cloth{
			Width: 140 * length.Centimetre,
			Pattern: cloth.Pattern{
				LengthRepeat: 32 * length.Centimetre,
				WidthRepeat:  28 * length.Centimetre,
				Motifs:       []cloth.Motif{{Name: "crossing", Across: 14 * length.Centimetre}},
			},
		},
		Panels: []panel.Panel{{
			ID: "SEAT", Count: 2,
			Size:  panel.Size{Across: 46 * length.Centimetre, Along: 48 * length.Centimetre},
			Allow: panel.Sides{Top: 7 * length.Centimetre, Bottom: 7 * length.Centimetre, Left: 5 * length.Centimetre, Right: 5 * length.Centimetre},
			Match: panel.Match{How: panel.Centred},
		}},
	}
	r, err := plan.Solve(job, plan.Normal, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("needed", r.Needed().Text(length.Metric, length.Up), "from", r.Cut[0].Start.Text(length.Metric, length.Nearest))
	fmt.Println("any start", r.AnyStart[0].Text(length.Metric, length.Up), "by rows", r.Rows.Text(length.Metric, length.Up))
	fmt.Println("proven", r.Proven, "flaws", len(verify.Check(job, r.Cut...)))
	// Output:
	// needed 62 cm from 1 cm
	// any start 94 cm by rows 64 cm
	// proven true flaws 0
}

// What is wrong with a job is one error that lists all of it; the engine gives no
// plan with it.
func ExampleSound() {
	job := plan.Job{
		Cloth: cloth.Cloth{Width: 140 * length.Centimetre},
		Panels: []panel.Panel{
			{ID: "SEAT", Count: 0, Size: panel.Size{Across: 60 * length.Centimetre, Along: 55 * length.Centimetre}},
			{ID: "BACK", Count: 1, Size: panel.Size{Across: 150 * length.Centimetre, Along: 70 * length.Centimetre}},
		},
	}
	var wrong fault.List
	if errors.As(plan.Sound(job), &wrong) {
		for _, f := range wrong.Faults() {
			fmt.Println(f.Pointer(), f.Code)
		}
	}
	_, err := plan.Solve(job, plan.Normal, nil)
	fmt.Println("a plan:", err == nil)
	// Output:
	// #/panels/0/count too-small
	// #/panels/1/size/across wider-than-cloth
	// a plan: false
}

// TestProgress prints how the search for one of the chair jobs went, bound and
// plan against work, for tuning on evidence:
//
//	BRIDLETIE_CHAIR=16 go test ./calc/plan -run TestProgress -v
func TestProgress(t *testing.T) {
	n, _ := strconv.Atoi(os.Getenv("BRIDLETIE_CHAIR"))
	r := solve(t, chairJob(uint64(n)), plan.Normal, nil)
	for k, s := range r.Progress {
		t.Logf("%10d  plan %-12v bound %v", s.Work, s.Plan, s.Bound)
		if k > 0 && (s.Plan > r.Progress[k-1].Plan || s.Bound < r.Progress[k-1].Bound || s.Work < r.Progress[k-1].Work) {
			t.Errorf("step %d goes backwards", k)
		}
	}
	if last := r.Progress[len(r.Progress)-1]; last.Plan < r.Needed() || last.Bound > r.Bound {
		t.Errorf("the last step says %v over %v, the result %v over %v", last.Plan, last.Bound, r.Needed(), r.Bound)
	}
}
