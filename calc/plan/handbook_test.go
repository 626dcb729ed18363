package plan_test

import (
	"fmt"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

const in = length.Inch

// drops are n full widths of a cloth, each cut to a length, with a motif in the
// middle of each.
func drops(n int, cut, repeat length.Length) plan.Job {
	job := plan.Job{Cloth: cloth.Cloth{Width: 54 * in, Pattern: cloth.Pattern{LengthRepeat: repeat}}}
	p := panel.Panel{ID: "DROP", Count: n, Size: panel.Size{Across: 54 * in, Along: cut}}
	if repeat > 0 {
		p.Match.How = panel.Along
	}
	job.Panels = []panel.Panel{p}
	return job
}

// TestDropsOfPatternedCloth holds the hand method, each width a whole number of
// repeats, against worked examples in print, and the plan against what must
// follow: all drops but the last take whole repeats.
func TestDropsOfPatternedCloth(t *testing.T) {
	cases := []struct {
		source      string
		n           int
		cut, repeat length.Length
		rows        length.Length
	}{
		{"Workroom Threads, August 2011: 116 in at a 25 in repeat takes 5 repeats", 1, 116 * in, 25 * in, 125 * in},
		{"the same, four widths", 4, 116 * in, 25 * in, 500 * in},
		{"common practice, no source: 114 in at 4 1/2 in, 26 repeats, two widths", 2, 114 * in, 9 * in / 2, 234 * in},
		{"common practice, no source: 114 in at 11 in, four widths", 4, 114 * in, 11 * in, 484 * in},
		{"common practice, no source: 240 cm at 37 cm", 1, 240 * cm, 37 * cm, 259 * cm},
		{"common practice, no source: 250 cm at 27 cm", 1, 250 * cm, 27 * cm, 270 * cm},
		{"common practice, no source: 100 in at 26 in, two widths", 2, 100 * in, 26 * in, 208 * in},
		{"a whole number of repeats takes no more: 108 in at 27 in", 3, 108 * in, 27 * in, 324 * in},
		{"common practice, no source: four unpatterned drops of 114 in", 4, 114 * in, 0, 456 * in},
		{"common practice, no source: four unpatterned drops of 240 cm", 4, 240 * cm, 0, 960 * cm},
	}
	for _, c := range cases {
		job := drops(c.n, c.cut, c.repeat)
		r := solve(t, job, plan.Quick, nil)
		for _, f := range verify.Check(job, r.Cut...) {
			t.Errorf("%s: %s", c.source, f)
		}
		if r.Rows != c.rows {
			t.Errorf("%s: rows take %v, want %v", c.source, r.Rows, c.rows)
		}
		each := c.rows / length.Length(c.n)
		if want := each*length.Length(c.n-1) + c.cut; r.Needed() != want || !r.Proven {
			t.Errorf("%s: plan takes %v (proven %v), want %v proven", c.source, r.Needed(), r.Proven, want)
		}
	}
}

// TestHalfDropWidths joins widths of a half-drop cloth side by side. In print:
// cutting all odd widths and then, half a repeat further, all even ones costs
// half a repeat once; taking them as they come costs it for each change, five
// times for six widths (common practice, no source; the Encyclopaedia of
// Curtains, p. 119, allows half a repeat for every panel).
func TestHalfDropWidths(t *testing.T) {
	const repeat = 27 * cm
	job := plan.Job{Cloth: cloth.Cloth{Width: 137 * cm, Pattern: cloth.Pattern{
		LengthRepeat: repeat, WidthRepeat: 137 * cm, Drop: cloth.Half(),
		Motifs: []cloth.Motif{{Name: "crest", Across: 137 * cm / 2}}}}}
	for k := range 6 {
		p := panel.Panel{ID: fmt.Sprint(k), Count: 1, Size: panel.Size{Across: 137 * cm, Along: 10 * repeat}}
		p.Match = panel.Match{How: panel.Centred, Motif: "crest"}
		if k > 0 {
			p.Match = panel.Match{How: panel.RunsOn, From: fmt.Sprint(k - 1), Edge: panel.RightEdge}
		}
		job.Panels = append(job.Panels, p)
	}
	r := solve(t, job, plan.Normal, nil)
	for _, f := range verify.Check(job, r.Cut...) {
		t.Error(f)
	}
	if want := 60*repeat + repeat/2; r.Needed() != want || !r.Proven {
		t.Errorf("six widths take %v (proven %v), want %v proven", r.Needed(), r.Proven, want)
	}
}

// TestSlipSeats are seats of 27 in from cloth of 54 in, two abreast: 2, 4, 6 and
// 8 seats take 3/4, 1 1/2, 2 1/4 and 3 yd; three pieces of 24 in take two rows,
// 48 in (common practice, no source; the arithmetic is exact).
func TestSlipSeats(t *testing.T) {
	seats := func(n int, side, want length.Length) {
		job := plan.Job{Cloth: cloth.Cloth{Width: 54 * in},
			Panels: []panel.Panel{{ID: "SEAT", Count: n, Size: panel.Size{Across: side, Along: side}}}}
		r := solve(t, job, plan.Quick, nil)
		for _, f := range verify.Check(job, r.Cut...) {
			t.Error(f)
		}
		if r.Needed() != want || !r.Proven {
			t.Errorf("%d seats of %v take %v (proven %v), want %v proven", n, side, r.Needed(), r.Proven, want)
		}
	}
	for k := 1; k <= 4; k++ {
		seats(2*k, 27*in, length.Length(k)*27*in)
	}
	seats(3, 24*in, 48*in)
}
