package plan_test

import (
	"errors"
	"math"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// failer is a test, by the testing package or by rapid.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

// solve is the plan of a sound job.
func solve(t failer, job plan.Job, effort plan.Effort, stop func() bool) plan.Result {
	t.Helper()
	r, err := plan.Solve(job, effort, stop)
	if err != nil {
		t.Fatalf("not solved: %v", err)
	}
	return r
}

// solvePieces is solve with pieces in hand.
func solvePieces(t failer, job plan.Job, pieces []length.Length, effort plan.Effort, stop func() bool) plan.InHand {
	t.Helper()
	h, err := plan.SolvePieces(job, pieces, effort, stop)
	if err != nil {
		t.Fatalf("not solved: %v", err)
	}
	return h
}

// TestUnsoundJobsAreRefused: what no plan can be made of is an error that says
// where and why, never a plan of no length.
func TestUnsoundJobsAreRefused(t *testing.T) {
	const cm = length.Centimetre
	seat := func(count int, across length.Length) panel.Panel {
		return panel.Panel{ID: "SEAT", Count: count, Size: panel.Size{Across: across, Along: 60 * cm}}
	}
	job := func(panels ...panel.Panel) plan.Job {
		return plan.Job{Cloth: cloth.Cloth{Width: 140 * cm}, Panels: panels}
	}
	centred := seat(1, 136*cm)
	centred.Match.How = panel.Centred
	edge := job(centred)
	edge.Cloth.Pattern = cloth.Pattern{WidthRepeat: 140 * cm, LengthRepeat: 30 * cm, Motifs: []cloth.Motif{{Across: 10 * cm}}}
	short := job(seat(1, 60*cm))
	short.Bolt = 50 * cm
	bolt := job(seat(1, 60*cm))
	bolt.Bolt = -1
	for _, tc := range []struct {
		name    string
		job     plan.Job
		pointer string
		code    fault.Code
	}{
		{"no panels", job(), "#/panels", fault.TooFew},
		{"no cloth", plan.Job{Panels: []panel.Panel{seat(1, cm)}}, "#/cloth/width", fault.TooSmall},
		{"a count of 0", job(seat(0, 60*cm)), "#/panels/0/count", fault.TooSmall},
		{"a count below 0", job(seat(-3, 60*cm)), "#/panels/0/count", fault.TooSmall},
		{"more copies than are believed", job(seat(math.MaxInt, 60*cm)), "#/panels", fault.TooMany},
		{"no size", job(seat(1, 0)), "#/panels/0/size/across", fault.TooSmall},
		{"a size of the end of the range", job(seat(1, math.MaxInt64)), "#/panels/0/size/across", fault.TooLarge},
		{"wider than the cloth", job(seat(1, 141*cm)), "#/panels/0/size/across", fault.WiderThanCloth},
		{"longer than the bolt", short, "#/panels/0/size/along", fault.LongerThanBolt},
		{"a bolt below 0", bolt, "#/cloth/boltLength", fault.TooSmall},
		{"a motif too near the selvedge", edge, "#/panels/0/match", fault.NoPlace},
	} {
		for how, err := range map[string]error{
			"Sound": plan.Sound(tc.job),
			"Solve": func() error { _, err := plan.Solve(tc.job, plan.Quick, nil); return err }(),
			"SolvePieces": func() error {
				_, err := plan.SolvePieces(tc.job, []length.Length{90 * cm}, plan.Quick, nil)
				return err
			}(),
		} {
			var l fault.List
			if !errors.As(err, &l) || l.Faults()[0].Pointer() != tc.pointer || l.Faults()[0].Code != tc.code {
				t.Errorf("%s, by %s: %v, want %s at %s", tc.name, how, err, tc.code, tc.pointer)
			}
		}
	}
	if err := plan.Sound(job(seat(1, 60*cm))); err != nil {
		t.Errorf("a sound job: %v", err)
	}
}
