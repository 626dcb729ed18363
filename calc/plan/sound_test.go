package plan_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

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
		{fault.TooSmall, "bolt", func(j *plan.Job, _ *panel.Panel) { j.Bolt = -1 }},
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

// A wish that no plan can keep makes a job unsound, though every field is right.
func TestUnkeptWishIsUnsound(t *testing.T) {
	job := plan.Job{
		Cloth:  cloth.Cloth{Width: 60 * cm, Pattern: cloth.Pattern{WidthRepeat: 60 * cm, Motifs: []cloth.Motif{{Name: "rose", Across: 5 * cm}}}},
		Panels: []panel.Panel{{ID: "SEAT", Count: 1, Size: panel.Size{Across: 50 * cm, Along: 50 * cm}, Match: panel.Match{How: panel.Centred}}},
	}
	var wrong fault.List
	if err := plan.Sound(job); !errors.As(err, &wrong) || wrong.Len() != 1 || wrong.Faults()[0].Code != fault.NoPlace {
		t.Errorf("%v", err)
	}
}
