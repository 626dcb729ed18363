package plan_test

import (
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// FuzzSolve bends a random job out of its usual proportions and holds every
// answer against the check.
//
//	go test ./calc/plan -run '^$' -fuzz FuzzSolve -fuzztime 60s
func FuzzSolve(f *testing.F) {
	f.Add(uint64(1), uint32(1370), uint32(640), uint32(685), uint8(1), uint8(2), uint16(3))
	f.Add(uint64(2), uint32(10), uint32(1), uint32(1), uint8(11), uint8(12), uint16(0))
	f.Add(uint64(3), uint32(9999), uint32(9999), uint32(0), uint8(0), uint8(1), uint16(999))
	f.Fuzz(func(t *testing.T, seed uint64, width, along, across uint32, num, den uint8, nudge uint16) {
		const mm = length.Millimetre
		job := randomJob(seed)
		c := &job.Cloth
		c.Width = length.Length(10+width%9990) * mm
		c.Pattern.LengthRepeat = length.Length(along%10_000) * mm
		c.Pattern.WidthRepeat = length.Length(across%10_000) * mm
		c.Pattern.Drop = cloth.Drop{}
		if d := int64(den%12) + 1; c.Pattern.LengthRepeat > 0 && c.Pattern.WidthRepeat > 0 {
			c.Pattern.Drop = cloth.Drop{Num: int64(num) % d, Den: d}
		}
		if c.StartsAt != nil {
			c.StartsAt = new(length.Length(0))
		}
		job.Panels[0].Size.Across += length.Length(nudge)
		if int64(nudge)%5 == 0 {
			for _, p := range job.Panels {
				job.Bolt = max(job.Bolt, p.Cut().Along, p.Cut().Across)
			}
		}
		keepWishes(&job)
		if !plan.Possible(job) {
			return
		}
		r := solve(t, job, plan.Quick, nil)
		for _, flaw := range verify.Check(job, r.Cut...) {
			t.Errorf("%s", flaw)
		}
		if r.Needed() < r.Bound {
			t.Errorf("plan %v is shorter than the bound %v", r.Needed(), r.Bound)
		}
		if job.Bolt > 0 || c.StartsAt != nil {
			return
		}
		for _, flaw := range verify.Check(job, r.AtStart(job, c.Pattern.LengthRepeat/3)) {
			t.Errorf("at a third of the repeat: %s", flaw)
		}
	})
}

// keepWishes takes back the wishes that the bent cloth cannot express, and the places
// of motifs where it does not repeat.
func keepWishes(job *plan.Job) {
	pat := job.Cloth.Pattern
	if pat.LengthRepeat == 0 {
		job.Cloth.StartsAt = nil
	}
	keepPlaces(pat)
	least := pat.LengthRepeat
	if pat.WidthRepeat > 0 && (least == 0 || pat.WidthRepeat < least) {
		least = pat.WidthRepeat
	}
	for k := range job.Panels {
		m := &job.Panels[k].Match
		m.Tolerance = min(m.Tolerance, least/10)
		cannot := m.How == panel.Across && pat.WidthRepeat == 0 || m.How == panel.Along && pat.LengthRepeat == 0 ||
			(m.How == panel.Centred || m.How == panel.Anchor) && pat.IsPlain()
		if cannot {
			*m = panel.Match{}
		}
	}
}
