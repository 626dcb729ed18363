package costing_test

import (
	"testing"

	"github.com/shopspring/decimal"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/practice"
)

func TestPresetsSayThatTheyAreExamples(t *testing.T) {
	for _, p := range costing.Presets(practice.Defaults()) {
		if got, ok := costing.FindPreset(p.Name, practice.Defaults()); !ok || got.Name != p.Name {
			t.Errorf("%s is not found", p.Name)
		}
		if p.About[:10] != "An example" || len(p.Operations) == 0 {
			t.Errorf("%s: %q", p.Name, p.About)
		}
	}
}

// More work never takes fewer hours.
func TestMoreWorkTakesMoreHours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom(costing.Presets(practice.Defaults())).Draw(t, "preset")
		n := rapid.IntRange(0, 50)
		a := costing.Work{Pieces: n.Draw(t, "pieces"), Panels: n.Draw(t, "panels"), Cushions: n.Draw(t, "cushions"), Frames: n.Draw(t, "frames"), Buttons: n.Draw(t, "buttons"), Piping: amount(t, "piping", 50, 3)}
		b := a
		b.Pieces += n.Draw(t, "more pieces")
		b.Panels += n.Draw(t, "more panels")
		b.Buttons += n.Draw(t, "more buttons")
		b.Piping = b.Piping.Add(amount(t, "more piping", 50, 3))
		if sum((costing.Timetable{Preset: p.Name}).Labour(a, d("1"), "")).GreaterThan(sum((costing.Timetable{Preset: p.Name}).Labour(b, d("1"), ""))) {
			t.Fatalf("%+v takes longer than %+v", a, b)
		}
	})
}

func sum(list []costing.Labour) decimal.Decimal {
	var all decimal.Decimal
	for _, l := range list {
		all = all.Add(l.Hours)
	}
	return all
}
