package verify_test

import (
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/verify"
)

// names reports the motif k at x, y for the n-th placement.
func names(n, k int, x, y length.Length) change {
	return with(n, func(p *layout.Placement) { p.Motif = &layout.MotifAt{Motif: k, X: x * mm, Y: y * mm} })
}

// both makes one change and then another.
func both(f, g change) change {
	return func(j *layout.Job, ls []layout.Layout) { f(j, ls); g(j, ls) }
}

func TestCheckEdgesOfRules(t *testing.T) {
	u, h, q := panel.Upright, panel.Half, panel.Quarter
	how := func(n int, how panel.How) change { return job(func(j *layout.Job) { j.Panels[n].Match.How = how }) }
	join := func(n int, from, across, x length.Length) change {
		return with(n, func(p *layout.Placement) { p.From += from; p.Across += across; p.X += x })
	}
	plain := job(func(j *layout.Job) { j.Cloth.Pattern = cloth.Pattern{} })
	begun := func(start length.Length) change {
		return func(_ *layout.Job, ls []layout.Layout) { ls[0].Start = start * mm }
	}
	runChecks(t, []checkCase{
		{"upright, too wide by 1 nm", settee, with(0, func(p *layout.Placement) { p.Across++ }), "wrong-size"},
		{"no turn, no wish to check", settee, both(by(0, 3*nm, 0), with(0, func(p *layout.Placement) { p.Turn = 7 })), "wrong-turn"},
		{"a start of a whole repeat", wide, begun(640), "bad-start"},
		{"a start where nothing repeats", wide, plain, "bad-start"},

		{"across, motif on the line", settee, how(0, panel.Across), ""},
		{"across, motif along out", settee, both(how(0, panel.Across), by(0, 0, 5*mm)), ""},
		{"across, motif across out", settee, both(how(0, panel.Across), by(0, 5*mm, 0)), "motif-misreported motif-off"},
		{"along, motif across out", settee, both(how(0, panel.Along), by(0, 5*mm, 0)), ""},
		{"along, motif along out", settee, both(how(0, panel.Along), by(0, 0, 5*mm)), "motif-misreported motif-off"},
		{"along, motif of the next row", settee, both(how(0, panel.Along), by(0, 0, 320*mm)), "motif-misreported"},
		{"free, motif reported and not wished", settee, both(how(0, panel.Free), by(0, 5*mm, 5*mm)), ""},
		{"free, motif on it", settee, both(names(2, 0, 1050, 130), by(2, 160*mm, 0)), ""},
		{"free, motif to the right", settee, names(2, 0, 1050, 130), "motif-misreported"},
		{"free, motif to the left", settee, both(names(2, 0, 1050, 130), by(2, 251*mm, 0)), "motif-misreported"},
		{"free, motif above", settee, both(names(2, 0, 1050, 130), by(2, 160*mm, 1300*mm)), "motif-misreported"},
		{"free, motif below", settee, both(names(2, 0, 1050, 770), by(2, 160*mm, 0)), "motif-misreported"},
		{"a motif on a plain cloth", settee, plain, "bad-start motif-misreported"},
		{"no motif on a plain cloth", settee, func(j *layout.Job, ls []layout.Layout) {
			plain(j, ls)
			ls[0].Start, piece(ls, 0).Motif, piece(ls, 1).Motif = 0, nil, nil
		}, ""},
		{"the motif is above the panel", anchored(u, 0), func(j *layout.Job, ls []layout.Layout) {
			j.Panels[0].Match.Point.Along -= 200 * mm
			piece(ls, 0).Y += 200 * mm
			piece(ls, 0).Motif = nil
		}, ""},
		{"crosswise stripe, a drop without columns", stripe(0, 90, panel.Along, u), both(job(func(j *layout.Job) { j.Cloth.Pattern.Drop = cloth.Half() }), by(0, 0, 45*mm)), "motif-off"},
		{"across, no rows, motif anywhere along", stripe(120, 0, panel.Across, u), names(0, 0, 740, 600), ""},
		{"lengthwise stripe, centred, out", stripe(120, 0, panel.Centred, u), by(0, 3*nm, 0), "motif-misreported motif-off"},
		{"crosswise stripe, centred, out", stripe(0, 90, panel.Centred, u), by(0, 0, 3*nm), "motif-misreported motif-off"},

		{"free and upright in a railroaded plan", settee, func(j *layout.Job, ls []layout.Layout) {
			j.Cloth.Railroad, j.Panels = cloth.RailroadAlways, j.Panels[1:]
			ls[0].Placements = []layout.Placement{lay(*j, 0, 1, u, 0, 0)}
		}, ""},
		{"wished and upright in a railroaded plan", anchored(u, cloth.RailroadAlways), job(func(j *layout.Job) { j.Panels[0].Turn = q }), "wrong-turn"},
		{"free but not to be turned", settee, func(j *layout.Job, ls []layout.Layout) {
			j.Cloth.Railroad, j.Panels = cloth.RailroadAlways, j.Panels[1:]
			j.Panels[0].Turn = u
			ls[0].Placements = []layout.Placement{lay(*j, 0, 1, u, 0, 0)}
		}, "wrong-turn"},
		{"free, by a quarter, on a cloth that is not railroaded", settee, job(func(j *layout.Job) { j.Cloth.OneWay = true }), ""},

		{"joined, begun elsewhere in the repeat", wide, func(_ *layout.Job, ls []layout.Layout) {
			ls[0].Start, ls[1].Start = 40*mm, 140*mm
		}, ""},
		{"joined, the first part left out", wide, func(_ *layout.Job, ls []layout.Layout) { ls[0].Placements = ls[0].Placements[:1] }, "missing"},
		{"joined, tolerance is not for joins", wide, tolerant(0, 0, 3*nm), "join-off"},
		{"joined, ends too soon", wide, job(func(j *layout.Job) { j.Panels[0].Size.Across++ }), "wrong-parts"},
		{"joined, begins too late", wide, join(1, 1, -1, 1), "wrong-parts"},
		{"joined, sides unlike by 2 nm", wide, both(join(0, 0, -2, 0), join(2, -2, 2, -2)), ""},
		{"joined, sides unlike by 3 nm the other way", wide, both(join(0, 0, 3, 0), join(2, 3, -3, 3)), "off-the-cloth wrong-parts"},
		{"joined, and laid whole", wide, also(layout.Placement{Copy: 1, Part: 1, Parts: 1, Y: 6000 * mm, Across: 2600 * mm, Along: 900 * mm}), "off-the-cloth twice"},
		{"joined, parts without end", wide, with(0, func(p *layout.Placement) { p.Parts = 1 << 40 }), "missing wrong-parts"},
		{"halves, each at tolerance", halves, both(tolerant(0, -5*mm, 0), by(1, 5*mm, 0)), ""},
		{"halves, each at tolerance, anchored", halves, both(tolerant(0, -5*mm, 0), func(j *layout.Job, ls []layout.Layout) {
			j.Panels[0].Match.How, j.Panels[0].Match.Point = panel.Anchor, panel.Point{Across: 1300 * mm, Along: 450 * mm}
			piece(ls, 1).X += 5 * mm
		}), ""},

		{"mirrored by a quarter about a motif further on", arms(panel.Mirrored, q, cloth.Drop{}, 850, 330), func(j *layout.Job, ls []layout.Layout) {
			j.Cloth.Pattern.Motifs[0].Along = 315 * mm
		}, ""},
		{"mirrored, no motif named", arms(panel.Mirrored, u, cloth.Drop{}, 950, 0), job(func(j *layout.Job) { j.Panels[0].Match.Motif = "" }), ""},
		{"twins by the half-dozen", arms(panel.SameMotif, h, cloth.Drop{}, 850, 0), func(j *layout.Job, ls []layout.Layout) {
			j.Panels[0].Count = 6
			for k := range 4 { // the third and fourth are no twins of the first two, nor the fifth and sixth
				p := *piece(ls, k%2)
				p.Copy, p.Y = k+3, (length.Length(k/2)+1)*500*mm
				ls[0].Placements = append(ls[0].Placements, p)
			}
		}, ""},
		{"twins by the half-dozen, the third pair out", arms(panel.SameMotif, h, cloth.Drop{}, 850, 0), func(j *layout.Job, ls []layout.Layout) {
			j.Panels[0].Count = 6
			for k := range 4 {
				p := *piece(ls, k%2)
				p.Copy, p.Y = k+3, (length.Length(k/2)+1)*500*mm+length.Length(k/3)*3
				ls[0].Placements = append(ls[0].Placements, p)
			}
		}, "pair-off"},
	})
}

// TestCheckRefusesBadJobs has one fault in each job, and a right plan but for
// that.
func TestCheckRefusesBadJobs(t *testing.T) {
	for name, spoil := range map[string]func(*layout.Job, *panel.Panel){
		"count of none":      func(_ *layout.Job, p *panel.Panel) { p.Count = 0 },
		"count too large":    func(_ *layout.Job, p *panel.Panel) { p.Count = 1 << 40 },
		"no size":            func(_ *layout.Job, p *panel.Panel) { p.Size.Along = 0 },
		"negative allowance": func(_ *layout.Job, p *panel.Panel) { p.Allow.Left = -1 },
		"negative tolerance": func(_ *layout.Job, p *panel.Panel) { p.Match.Tolerance = -1 },
		"point too far":      func(_ *layout.Job, p *panel.Panel) { p.Match.Point.Across = 1<<50 + 1 },
		"how below":          func(_ *layout.Job, p *panel.Panel) { p.Match.How = -1 },
		"how above":          func(_ *layout.Job, p *panel.Panel) { p.Match.How = panel.RunsOn + 1 },
		"edge below":         func(_ *layout.Job, p *panel.Panel) { p.Match.Edge = -1 },
		"edge above":         func(_ *layout.Job, p *panel.Panel) { p.Match.Edge = panel.RightEdge + 1 },
		"runs on, unlike":    func(_ *layout.Job, p *panel.Panel) { p.Match.How, p.Match.From = panel.RunsOn, "FLY" },
		"twin, unlike":       func(_ *layout.Job, p *panel.Panel) { p.Pair = "FLY" },
		"drop of one":        func(j *layout.Job, _ *panel.Panel) { j.Cloth.Pattern.Drop = cloth.Drop{Num: 2, Den: 2} },
		"drop too fine":      func(j *layout.Job, _ *panel.Panel) { j.Cloth.Pattern.Drop = cloth.Drop{Num: 1, Den: 13} },
		"motif too far":      func(j *layout.Job, _ *panel.Panel) { j.Cloth.Pattern.Motifs[0].Across = 1<<50 + 1 },
		"negative repeat":    func(j *layout.Job, _ *panel.Panel) { j.Cloth.Pattern.WidthRepeat = -1 },
	} {
		j, ls := settee()
		spoil(&j, &j.Panels[0])
		measure(ls)
		if got := kinds(verify.Check(j, ls...)); got != "bad-job" {
			t.Errorf("%s: flaws %q, want bad-job", name, got)
		}
	}
}

// TestCheckSaysByHowMuch holds the distance named with a flaw against what was
// done to the plan.
func TestCheckSaysByHowMuch(t *testing.T) {
	for _, c := range []struct {
		kind   verify.FlawKind
		change change
		want   length.Length
	}{
		{verify.FlawOverlap, by(2, 0, 20*mm+7), 7},
		{verify.FlawOverlap, with(2, func(p *layout.Placement) { p.X = 680*mm - 9 }), 9},
		{verify.FlawPastTheBolt, job(func(j *layout.Job) { j.Bolt = 1200 * mm }), 60 * mm},
		{verify.FlawWrongSize, with(2, func(p *layout.Placement) { p.Across += 4 }), 4},
		{verify.FlawWrongSize, with(2, func(p *layout.Placement) { p.Along -= 6 }), 6},
		{verify.FlawOffTheCloth, by(2, 450*mm+5, 0), 5},
		{verify.FlawMotifOff, by(0, -3*mm, 8*mm), 8 * mm},
	} {
		j, ls := settee()
		c.change(&j, ls)
		measure(ls)
		flaws := verify.Check(j, ls...)
		found := false
		for _, f := range flaws {
			found = found || f.Kind == c.kind && f.By == c.want
		}
		if !found {
			t.Errorf("%s by %s not among %+v", c.kind, c.want, flaws)
		}
	}
}
