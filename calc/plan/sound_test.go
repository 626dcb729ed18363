package plan_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

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

// A job that is spoilt in any one place is refused by name of that place, by Sound
// and by both ways into the engine alike, and no plan comes with the refusal.
func TestNoPlanOfAnUnsoundJob(t *testing.T) {
	spoil := []struct {
		code fault.Code
		in   string
		how  func(job *plan.Job, p *panel.Panel)
	}{
		{fault.TooSmall, "panels", func(_ *plan.Job, p *panel.Panel) { p.Count = 0 }},
		{fault.TooSmall, "panels", func(_ *plan.Job, p *panel.Panel) { p.Count = -3 }},
		{fault.TooMany, "panels", func(_ *plan.Job, p *panel.Panel) { p.Count = panel.MaxCopies + 1 }},
		{fault.TooSmall, "panels", func(_ *plan.Job, p *panel.Panel) { p.Size.Along = 0 }},
		{fault.TooSmall, "panels", func(_ *plan.Job, p *panel.Panel) { p.Allow.Left = -1 }},
		{fault.WiderThanCloth, "panels", func(j *plan.Job, p *panel.Panel) { p.Size.Across = j.Cloth.Width + length.Millimetre }},
		{fault.LongerThanBolt, "panels", func(j *plan.Job, p *panel.Panel) { j.Bolt = p.Cut().Along - 1 }},
		{fault.UnknownPanel, "panels", func(_ *plan.Job, p *panel.Panel) { p.Match = panel.Match{How: panel.RunsOn, From: "NOBODY"} }},
		{fault.NeedsPattern, "panels", func(_ *plan.Job, p *panel.Panel) { p.Match = panel.Match{How: panel.Centred} }},
		{fault.Duplicate, "panels", func(j *plan.Job, p *panel.Panel) { j.Panels = append(j.Panels, *p) }},
		{fault.TooFew, "panels", func(j *plan.Job, _ *panel.Panel) { j.Panels = nil }},
		{fault.TooSmall, "cloth", func(j *plan.Job, _ *panel.Panel) { j.Cloth.Width = 0 }},
		{fault.NotAFraction, "cloth", func(j *plan.Job, _ *panel.Panel) { j.Cloth.Pattern.Drop = cloth.Drop{Num: 3, Den: 2} }},
		{fault.TooSmall, "cloth", func(j *plan.Job, _ *panel.Panel) { j.Bolt = -1 }},
	}
	rapid.Check(t, func(t *rapid.T) {
		job := plan.Job{Cloth: cloth.Cloth{Width: 137 * length.Centimetre}}
		for i := range rapid.IntRange(1, 5).Draw(t, "panels") {
			size := rapid.Map(rapid.Int64Range(110, 1300), func(mm int64) length.Length { return length.Length(mm) * length.Millimetre })
			job.Panels = append(job.Panels, panel.Panel{
				ID: string(rune('A' + i)), Count: rapid.IntRange(1, 3).Draw(t, "count"), Size: panel.Size{Across: size.Draw(t, "across"), Along: size.Draw(t, "along")},
			})
		}
		if err := plan.Sound(job); err != nil {
			t.Fatalf("a sound job: %v", err)
		}
		one := spoil[rapid.IntRange(0, len(spoil)-1).Draw(t, "spoilt")]
		one.how(&job, &job.Panels[rapid.IntRange(0, len(job.Panels)-1).Draw(t, "panel")])
		_, solved := plan.Solve(job, plan.Quick, nil)
		_, pieces := plan.SolvePieces(job, []length.Length{length.Metre}, plan.Quick, nil)
		for _, err := range []error{plan.Sound(job), solved, pieces} {
			var wrong fault.List
			if !errors.As(err, &wrong) {
				t.Fatalf("%s is let through: %v", one.code, err)
			}
			named := wrong.Where(func(f fault.Fault) bool { _, in := f.Path.In(one.in); return in && f.Code == one.code })
			if named.Len() == 0 {
				t.Fatalf("%s in %s is not named: %v", one.code, one.in, err)
			}
		}
	})
}
