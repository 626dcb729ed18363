package verify_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/verify"
)

const (
	nm = length.Nanometre
	mm = length.Millimetre
)

// onCloth is a cloth of 1400 mm whose pattern repeats every v along and h across.
func onCloth(h, v length.Length, d cloth.Drop, motifs ...cloth.Motif) cloth.Cloth {
	return cloth.Cloth{Width: 1400 * mm, Pattern: cloth.Pattern{WidthRepeat: h, LengthRepeat: v, Drop: d, Motifs: motifs}}
}

// heron is a cloth with two motifs, at a half-drop.
func heron(d cloth.Drop) cloth.Cloth {
	return onCloth(700*mm, 640*mm, d, cloth.Motif{Name: "heron", Across: 350 * mm}, cloth.Motif{Name: "sedge", Along: 320 * mm})
}

func one(id string, across, along length.Length, m panel.Match) panel.Panel {
	return panel.Panel{ID: id, Count: 1, Size: panel.Size{Across: across * mm, Along: along * mm}, Match: m}
}

// lay lays a whole copy of a panel.
func lay(job layout.Job, i, nth int, t panel.Turn, x, y length.Length) layout.Placement {
	cut := job.Panels[i].Cut()
	if t == panel.Quarter {
		cut.Across, cut.Along = cut.Along, cut.Across
	}
	return layout.Placement{Panel: i, Copy: nth, Part: 1, Parts: 1, X: x, Y: y, Across: cut.Across, Along: cut.Along, Turn: t}
}

// fit lays a copy so that its reference is the motif k of column i and row j.
func fit(job layout.Job, p, nth int, t panel.Turn, k, i, j int64, start length.Length) layout.Placement {
	pat := job.Cloth.Pattern
	d := pat.Drop.Reduced()
	m := pat.Principal()[k]
	fall := length.Length(math.Floor(float64(i*d.Num*int64(pat.LengthRepeat)) / float64(d.Den)))
	at := layout.MotifAt{Motif: int(k), X: m.Across + length.Length(i)*pat.WidthRepeat,
		Y: m.Along + length.Length(j)*pat.LengthRepeat + fall - start}
	ref, pl := job.Panels[p].Reference(), lay(job, p, nth, t, 0, 0)
	switch t {
	case panel.Upright:
		pl.X, pl.Y = at.X-ref.Across, at.Y-ref.Along
	case panel.Half:
		pl.X, pl.Y = at.X-pl.Across+ref.Across, at.Y-pl.Along+ref.Along
	case panel.Quarter:
		pl.X, pl.Y = at.X-pl.Across+ref.Along, at.Y-ref.Across
	}
	pl.Motif = &at
	return pl
}

func on(start length.Length, all ...layout.Placement) layout.Layout {
	return layout.Layout{Start: start, Placements: all}
}

// measure gives every layout the length of what is laid on it.
func measure(ls []layout.Layout) {
	for i := range ls {
		ls[i].Length = 0
		for _, p := range ls[i].Placements {
			ls[i].Length = max(ls[i].Length, p.Y+p.Along)
		}
	}
}

// kinds are the kinds of flaw, each once, in order of the alphabet.
func kinds(flaws []verify.Flaw) string {
	var all []string
	for _, f := range flaws {
		all = append(all, string(f.Kind))
	}
	slices.Sort(all)
	return strings.Join(slices.Compact(all), " ")
}

type base func() (layout.Job, []layout.Layout)

// settee has two copies centred at a half-drop, a free piece laid by a
// quarter, and a start that is not 0.
func settee() (layout.Job, []layout.Layout) {
	ib := one("IB", 620, 780, panel.Match{How: panel.Centred, Motif: "heron"})
	ib.Count, ib.Allow = 2, panel.Sides{Top: 60 * mm, Bottom: 100 * mm, Left: 20 * mm, Right: 20 * mm}
	fly := one("FLY", 300, 150, panel.Match{})
	fly.Turn = panel.Quarter
	job := layout.Job{Cloth: heron(cloth.Half()), Panels: []panel.Panel{ib, fly}}
	return job, []layout.Layout{on(190*mm, fit(job, 0, 1, panel.Upright, 0, 0, 1, 190*mm),
		fit(job, 0, 2, panel.Upright, 0, 1, 1, 190*mm), lay(job, 1, 1, panel.Quarter, 800*mm, 0))}
}

// anchored has one anchored panel, turned, on a cloth of a third drop.
func anchored(t panel.Turn, r cloth.Railroad) base {
	return func() (layout.Job, []layout.Layout) {
		p := one("IA", 300, 500, panel.Match{How: panel.Anchor, Point: panel.Point{Across: 100 * mm, Along: 120 * mm}})
		p.Turn, p.Allow = t, panel.Sides{Top: 10 * mm, Left: 30 * mm}
		job := layout.Job{Cloth: heron(cloth.Drop{Num: 1, Den: 3}), Panels: []panel.Panel{p}}
		job.Cloth.Railroad = r
		return job, []layout.Layout{on(5*mm, fit(job, 0, 1, t, 1, 1, 1, 5*mm))}
	}
}

// stripe has one panel with a wish on a striped cloth, motif at 20 mm, 30 mm.
func stripe(h, v length.Length, how panel.How, t panel.Turn) base {
	return func() (layout.Job, []layout.Layout) {
		job := layout.Job{Cloth: onCloth(h*mm, v*mm, cloth.Drop{}, cloth.Motif{Across: 20 * mm, Along: 30 * mm}),
			Panels: []panel.Panel{one("OB", 400, 600, panel.Match{How: how})}}
		if t == panel.Quarter {
			job.Cloth.Railroad = cloth.RailroadAllowed
		}
		pl := fit(job, 0, 1, t, 0, 6, 8, 0)
		if how != panel.Centred {
			pl.Motif = nil
		}
		if h == 0 {
			pl.X += 300 * mm
		}
		if v == 0 {
			pl.Y += 300 * mm
		}
		if pl.Motif != nil {
			pl.Motif.X, pl.Motif.Y = pl.X+200*mm, pl.Y+300*mm
		}
		return job, []layout.Layout{on(0, pl)}
	}
}

// wide has a panel of three parts, the last on cloth that begins elsewhere.
func wide() (layout.Job, []layout.Layout) {
	p := one("CURTAIN", 2600, 900, panel.Match{})
	p.Join, p.JoinSeam = panel.JoinSides, 15*mm
	job := layout.Job{Cloth: heron(cloth.Drop{}), Panels: []panel.Panel{p}}
	part := func(n int, from, x, y, across length.Length) layout.Placement {
		return layout.Placement{Part: n, Parts: 3, Copy: 1, From: from * mm, X: x * mm, Y: y * mm, Across: across * mm, Along: 900 * mm}
	}
	return job, []layout.Layout{on(0, part(2, 600, 0, 0, 1400), part(1, 0, 100, 1280, 630)), on(100*mm, part(3, 1970, 670, 540, 630))}
}

// halves has a panel of two halves, with its wish on a motif of each.
func halves() (layout.Job, []layout.Layout) {
	job, ls := wide()
	p := &job.Panels[0]
	p.Join, p.Match = panel.JoinHalves, panel.Match{How: panel.Centred}
	job.Cloth.Pattern.WidthRepeat, job.Cloth.Pattern.Motifs = 630*mm, []cloth.Motif{{Across: 65 * mm}}
	first := layout.Placement{Part: 1, Parts: 2, Copy: 1, X: 25 * mm, Y: 190 * mm, Across: 1315 * mm, Along: 900 * mm}
	second := first
	second.Part, second.From, second.X, second.Y = 2, 1285*mm, 50*mm, 90*mm
	ls[0].Placements, ls[1].Placements = []layout.Placement{first}, []layout.Placement{second}
	return job, ls
}

// seam has one panel that runs on from another, laid as they are sewn.
func seam(e panel.Edge, t panel.Turn, x, y, fx, fy length.Length) base {
	return func() (layout.Job, []layout.Layout) {
		job := layout.Job{Cloth: heron(cloth.Half()), Panels: []panel.Panel{one("BACK", 400, 300, panel.Match{}),
			one("SEAT", 200, 260, panel.Match{How: panel.RunsOn, From: "BACK", Edge: e, Offset: 30 * mm})}}
		job.Panels[0].Turn, job.Panels[1].Turn = t, t
		if t == panel.Quarter {
			job.Cloth.Railroad = cloth.RailroadAllowed
		}
		return job, []layout.Layout{on(0, lay(job, 0, 1, t, fx*mm, fy*mm), lay(job, 1, 1, t, x*mm, y*mm))}
	}
}

// arms has twins, the second at x, y.
func arms(as panel.PairAs, t panel.Turn, d cloth.Drop, x, y length.Length) base {
	return func() (layout.Job, []layout.Layout) {
		p := one("ARM", 300, 400, panel.Match{Motif: "heron"})
		p.Count, p.Pair, p.PairAs, p.Turn = 2, "ARM", as, t
		job := layout.Job{Cloth: heron(d), Panels: []panel.Panel{p}}
		return job, []layout.Layout{on(0, lay(job, 0, 1, t, 150*mm, 0), lay(job, 0, 2, t, x*mm, y*mm))}
	}
}

// piece is the n-th placement, counted over all layouts.
func piece(ls []layout.Layout, n int) *layout.Placement {
	for n >= len(ls[0].Placements) {
		n -= len(ls[0].Placements)
		ls = ls[1:]
	}
	return &ls[0].Placements[n]
}

// by moves the n-th placement and leaves its motif.
func by(n int, x, y length.Length) func(*layout.Job, []layout.Layout) {
	return func(_ *layout.Job, ls []layout.Layout) { piece(ls, n).X += x; piece(ls, n).Y += y }
}

func with(n int, f func(*layout.Placement)) func(*layout.Job, []layout.Layout) {
	return func(_ *layout.Job, ls []layout.Layout) { f(piece(ls, n)) }
}

func job(f func(*layout.Job)) func(*layout.Job, []layout.Layout) {
	return func(j *layout.Job, _ []layout.Layout) { f(j) }
}

func also(p layout.Placement) func(*layout.Job, []layout.Layout) {
	return func(_ *layout.Job, ls []layout.Layout) { ls[0].Placements = append(ls[0].Placements, p) }
}

type change = func(*layout.Job, []layout.Layout)

// tolerant is by, with 5 mm allowed to panel n.
func tolerant(n int, x, y length.Length) change {
	return func(j *layout.Job, ls []layout.Layout) { j.Panels[n].Match.Tolerance = 5 * mm; by(n, x, y)(j, ls) }
}

// checkCase is a right plan, what is changed in it, and the kinds of flaw that
// it then has.
type checkCase struct {
	name   string
	base   base
	change change
	want   string
}

func runChecks(t *testing.T, cases []checkCase) {
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			j, ls := c.base()
			if c.change != nil {
				c.change(&j, ls)
			}
			measure(ls)
			flaws := verify.Check(j, ls...)
			if got := kinds(flaws); got != c.want {
				t.Errorf("flaws %q, want %q: %v", got, c.want, flaws)
			}
		})
	}
}

func TestCheckNamesEveryFlaw(t *testing.T) {
	u, h, q := panel.Upright, panel.Half, panel.Quarter
	off := "motif-misreported motif-off"
	extra := layout.Placement{Panel: 1, Copy: 1, Part: 1, Parts: 1, X: 1000 * mm, Across: 150 * mm, Along: 300 * mm, Turn: q}
	second, ninth := extra, extra
	second.Copy, ninth.Panel = 2, 9
	runChecks(t, []checkCase{
		{"settee", settee, nil, ""},
		{"left out", settee, func(_ *layout.Job, ls []layout.Layout) { ls[0].Placements = ls[0].Placements[:2] }, "missing"},
		{"laid twice", settee, also(extra), "twice"},
		{"no such copy", settee, also(second), "unknown-panel"},
		{"no such panel", settee, also(ninth), "unknown-panel"},
		{"too wide by 1 nm", settee, with(2, func(p *layout.Placement) { p.Across++ }), "wrong-size"},
		{"too short by 1 nm", settee, with(2, func(p *layout.Placement) { p.Along-- }), "wrong-size"},
		{"whole and begun inside", settee, with(2, func(p *layout.Placement) { p.From = 1 }), "wrong-parts"},
		{"part of none", settee, with(2, func(p *layout.Placement) { p.Part = 2 }), "wrong-parts"},
		{"may not be turned", settee, job(func(j *layout.Job) { j.Panels[1].Turn = u }), "wrong-turn"},
		{"no such turn", settee, with(2, func(p *layout.Placement) { p.Turn, p.Across, p.Along = 7, p.Along, p.Across }), "wrong-turn"},
		{"over the right selvedge", settee, with(2, func(p *layout.Placement) { p.X = 1250*mm + nm }), "off-the-cloth"},
		{"at the right selvedge", settee, with(2, func(p *layout.Placement) { p.X = 1250 * mm }), ""},
		{"before the beginning", settee, by(2, 0, -nm), "off-the-cloth"},
		{"edges touch", settee, with(2, func(p *layout.Placement) { p.X, p.Y = 680*mm, 20*mm }), ""},
		{"overlap across", settee, with(2, func(p *layout.Placement) { p.X = 680*mm - nm }), "overlap"},
		{"overlap along", settee, by(2, 0, 20*mm+nm), "overlap"},
		{"as long as the bolt", settee, job(func(j *layout.Job) { j.Bolt = 1260 * mm }), ""},
		{"longer than the bolt", settee, job(func(j *layout.Job) { j.Bolt = 1260*mm - nm }), "past-the-bolt"},
		{"start is the next repeat's", settee, func(_ *layout.Job, ls []layout.Layout) { ls[0].Start += 640 * mm }, "bad-start"},
		{"start before the repeat", settee, func(_ *layout.Job, ls []layout.Layout) { ls[0].Start -= 640 * mm }, "bad-start"},
		{"start known and kept", settee, job(func(j *layout.Job) { j.Cloth.StartsAt = new(190 * mm) }), ""},
		{"start known and not kept", settee, job(func(j *layout.Job) { j.Cloth.StartsAt = new(length.Length(0)) }), "bad-start"},
		{"2 nm out is rounding", settee, by(0, 2*nm, 2*nm), ""},
		{"3 nm out across", settee, by(0, -3*nm, 0), off},
		{"3 nm out along", settee, by(1, 0, 3*nm), off},
		{"start moved", settee, func(_ *layout.Job, ls []layout.Layout) { ls[0].Start += 3 * nm }, off},
		{"at tolerance", settee, tolerant(0, -5*mm-2*nm, 5*mm), ""},
		{"over tolerance", settee, tolerant(0, -5*mm-3*nm, 5*mm), off},
		{"on the other motif", settee, job(func(j *layout.Job) { j.Panels[0].Match.Motif = "sedge" }), off},
		{"motif not said", settee, with(0, func(p *layout.Placement) { p.Motif = nil }), "motif-misreported"},
		{"motif unknown", settee, with(0, func(p *layout.Placement) { p.Motif.Motif = 2 }), "motif-misreported"},
		{"motif of that name not there", settee, with(0, func(p *layout.Placement) { p.Motif.Motif = 1 }), "motif-misreported"},
		{"motif elsewhere on the cloth", settee, with(0, func(p *layout.Placement) { p.Motif.Y += 640 * mm }), "motif-misreported"},
		{"motif on it but not the one", settee, with(1, func(p *layout.Placement) { *p.Motif = layout.MotifAt{Motif: 1, X: 1400 * mm, Y: 770 * mm} }), "motif-misreported"},
		{"out of range", settee, with(2, func(p *layout.Placement) { p.X = math.MaxInt64 }), "missing out-of-range"},
		{"no width", settee, job(func(j *layout.Job) { j.Cloth.Width = 0 }), "bad-job"},
		{"a drop above one", settee, job(func(j *layout.Job) { j.Cloth.Pattern.Drop = cloth.Drop{Num: 3, Den: 2} }), "bad-job"},
		{"a motif that is not", settee, job(func(j *layout.Job) { j.Panels[0].Match.Motif = "crane" }), "bad-job"},
		{"a motif out of range", settee, job(func(j *layout.Job) { j.Cloth.Pattern.Motifs[1].Along = math.MinInt64 }), "bad-job"},
		{"a twin that is not", settee, job(func(j *layout.Job) { j.Panels[0].Pair = "X" }), "bad-job"},

		{"third drop", anchored(u, 0), nil, ""},
		{"third drop, 2 nm more", anchored(u, 0), by(0, 0, 2*nm), ""},
		{"third drop, 3 nm more", anchored(u, 0), by(0, 0, 3*nm), off},
		{"half turn", anchored(h, 0), nil, ""},
		{"half turn, 3 nm out", anchored(h, 0), by(0, 3*nm, 0), off},
		{"half turn said, upright meant", anchored(u, 0), func(j *layout.Job, ls []layout.Layout) { j.Panels[0].Turn, piece(ls, 0).Turn = h, h }, off},
		{"half turn of a one-way cloth", anchored(h, 0), job(func(j *layout.Job) { j.Cloth.OneWay = true }), "wrong-turn"},
		{"half turn not allowed", anchored(h, 0), job(func(j *layout.Job) { j.Panels[0].Turn = q }), "wrong-turn"},
		{"quarter turn", anchored(q, cloth.RailroadAllowed), nil, ""},
		{"quarter turn, 3 nm out", anchored(q, cloth.RailroadAllowed), by(0, 0, 3*nm), off},
		{"quarter turn never", anchored(q, cloth.RailroadNever), nil, "wrong-turn"},
		{"railroaded as a whole", anchored(q, cloth.RailroadAllowed), job(func(j *layout.Job) { j.Panels[0].Turn = u }), ""},
		{"upright though railroaded always", anchored(u, cloth.RailroadAlways), nil, "wrong-turn"},
		{"railroaded in part", settee, func(j *layout.Job, ls []layout.Layout) {
			j.Cloth.Railroad, j.Panels[1].Turn = cloth.RailroadAllowed, u
		}, "wrong-turn"},

		{"lengthwise stripe, across", stripe(120, 0, panel.Across, u), by(0, 120*mm, 77*mm), ""},
		{"lengthwise stripe, across, out", stripe(120, 0, panel.Across, u), by(0, 3*nm, 0), "motif-off"},
		{"lengthwise stripe, turned, along", stripe(120, 0, panel.Along, q), by(0, 120*mm, 77*mm), ""},
		{"lengthwise stripe, turned, along, out", stripe(120, 0, panel.Along, q), by(0, 3*nm, 0), "motif-off"},
		{"crosswise stripe, along", stripe(0, 90, panel.Along, u), by(0, 77*mm, 90*mm), ""},
		{"crosswise stripe, along, out", stripe(0, 90, panel.Along, u), by(0, 0, -3*nm), "motif-off"},
		{"crosswise stripe, turned, across", stripe(0, 90, panel.Across, q), by(0, 77*mm, 90*mm), ""},
		{"crosswise stripe, turned, across, out", stripe(0, 90, panel.Across, q), by(0, 0, -3*nm), "motif-off"},
		{"lengthwise stripe, centred", stripe(120, 0, panel.Centred, u), nil, ""},
		{"lengthwise stripe, centred, motif above", stripe(120, 0, panel.Centred, u), with(0, func(p *layout.Placement) { p.Motif.Y -= 3 }), "motif-misreported"},
		{"along keeps the row of the next column", settee, func(j *layout.Job, ls []layout.Layout) {
			j.Panels[0].Match.How, piece(ls, 1).Motif = panel.Along, nil
			by(1, 0, -320*mm)(j, ls)
			piece(ls, 2).Y = 1000 * mm
		}, ""},

		{"joined", wide, nil, ""},
		{"joined, a part left out", wide, func(_ *layout.Job, ls []layout.Layout) { ls[1].Placements = nil }, "missing"},
		{"joined, a part twice", wide, func(_ *layout.Job, ls []layout.Layout) {
			ls[1].Placements = append(ls[1].Placements, ls[1].Placements[0])
			piece(ls, 3).Y += 1280 * mm
		}, "twice"},
		{"joined, parts of two and of three", wide, with(2, func(p *layout.Placement) { p.Part, p.Parts = 4, 5 }), "missing wrong-parts"},
		{"joined, begun inside", wide, func(_ *layout.Job, ls []layout.Layout) {
			for n := range 3 {
				piece(ls, n).From++
			}
		}, "wrong-parts"},
		{"joined, phase out along", wide, by(2, 0, 3*nm), "join-off"},
		{"joined, phase out across", wide, by(1, 3*nm, 0), "join-off"},
		{"joined, start of the second forgotten", wide, func(_ *layout.Job, ls []layout.Layout) { ls[1].Start = 0 }, "join-off"},
		{"joined, seam too narrow", wide, job(func(j *layout.Job) { j.Panels[0].JoinSeam-- }), "wrong-parts"},
		{"joined, not allowed", wide, job(func(j *layout.Job) { j.Panels[0].Join = panel.NoJoin }), "wrong-parts"},
		{"joined, not needed", wide, job(func(j *layout.Job) { j.Cloth.Width = 2600 * mm }), "wrong-parts"},
		{"joined, not halves", wide, job(func(j *layout.Job) { j.Panels[0].Join = panel.JoinHalves }), "wrong-parts"},
		{"joined, sides unlike", wide, func(_ *layout.Job, ls []layout.Layout) {
			piece(ls, 0).Across -= 3
			piece(ls, 2).From -= 3
			piece(ls, 2).Across += 3
			piece(ls, 2).X -= 3
		}, "wrong-parts"},
		{"joined, part too short", wide, with(0, func(p *layout.Placement) { p.Along-- }), "wrong-size"},
		{"joined, part turned by a half", wide, func(j *layout.Job, ls []layout.Layout) { j.Panels[0].Turn, piece(ls, 1).Turn = h, h }, "wrong-turn"},
		{"halves", halves, nil, ""},
		{"halves, one out of its wish", halves, by(1, 3*nm, 0), "join-off motif-off"},
		{"halves, each on another motif", halves, func(j *layout.Job, ls []layout.Layout) {
			j.Cloth.Pattern.Motifs = append(j.Cloth.Pattern.Motifs, cloth.Motif{Across: 85 * mm})
			piece(ls, 1).X += 20 * mm
		}, "join-off"},

		{"runs on at the bottom", seam(panel.BottomEdge, u, 130, 300, 0, 0), nil, ""},
		{"runs on at the bottom, a column on", seam(panel.BottomEdge, u, 130, 300, 0, 0), by(1, 700*mm, -320*mm+640*mm), ""},
		{"runs on at the top", seam(panel.TopEdge, u, 130, 0, 0, 260), nil, ""},
		{"runs on at the right", seam(panel.RightEdge, u, 400, 50, 0, 0), nil, ""},
		{"runs on at the left", seam(panel.LeftEdge, u, 0, 50, 200, 0), nil, ""},
		{"runs on at the bottom, half", seam(panel.BottomEdge, h, 70, 0, 0, 260), nil, ""},
		{"runs on at the right, half", seam(panel.RightEdge, h, 0, 60, 200, 70), nil, ""},
		{"runs on at the bottom, quarter", seam(panel.BottomEdge, q, 0, 130, 260, 0), nil, ""},
		{"runs on at the top, quarter", seam(panel.TopEdge, q, 300, 130, 0, 0), nil, ""},
		{"runs on at the right, quarter", seam(panel.RightEdge, q, 0, 400, 10, 0), nil, ""},
		{"runs on at the left, quarter", seam(panel.LeftEdge, q, 0, 0, 10, 200), nil, ""},
		{"runs on at the wrong edge", seam(panel.TopEdge, u, 130, 300, 0, 0), nil, "seam-off"},
		{"runs on, 3 nm out across", seam(panel.RightEdge, u, 400, 50, 0, 0), by(1, 3*nm, 0), "seam-off"},
		{"runs on, 3 nm out along", seam(panel.BottomEdge, u, 130, 300, 0, 0), by(1, 0, 3*nm), "seam-off"},
		{"runs on, at tolerance", seam(panel.BottomEdge, u, 130, 300, 0, 0), tolerant(1, 5*mm+2*nm, 5*mm), ""},
		{"runs on, over tolerance", seam(panel.BottomEdge, u, 130, 300, 0, 0), tolerant(1, 5*mm+3*nm, 5*mm), "seam-off"},
		{"runs on, turned the other way", seam(panel.BottomEdge, h, 130, 300, 0, 0), with(1, func(p *layout.Placement) { p.Turn = u }), "wrong-turn"},
		{"runs on from itself", seam(panel.BottomEdge, u, 130, 300, 0, 0), job(func(j *layout.Job) { j.Panels[1].Match.From = "SEAT" }), "bad-job"},

		{"mirrored", arms(panel.Mirrored, u, cloth.Drop{}, 950, 0), nil, ""},
		{"mirrored across", arms(panel.Mirrored, u, cloth.Drop{}, 950, 0), by(1, 3*nm, 0), "pair-off"},
		{"mirrored along", arms(panel.Mirrored, u, cloth.Drop{}, 950, 0), by(1, 0, 3*nm), "pair-off"},
		{"mirrored at a half-drop", arms(panel.Mirrored, u, cloth.Half(), 950, 320), nil, ""},
		{"the same is not mirrored", arms(panel.Mirrored, u, cloth.Half(), 850, 320), nil, "pair-off"},
		{"the same at a third", arms(panel.Mirrored, u, cloth.Drop{Num: 1, Den: 3}, 850, 0), by(1, 0, 213_333_333), ""},
		{"the same", arms(panel.SameMotif, h, cloth.Half(), 850, 320), nil, ""},
		{"mirrored is not the same", arms(panel.SameMotif, h, cloth.Half(), 950, 320), nil, "pair-off"},
		{"mirrored about the named motif only", arms(panel.Mirrored, u, cloth.Drop{}, 950, 0), job(func(j *layout.Job) { j.Panels[0].Match.Motif = "sedge" }), ""},
		{"mirrored at a quarter drop", arms(panel.Mirrored, u, cloth.Drop{Num: 1, Den: 4}, 950, 160), nil, ""},
		{"mirrored at a quarter drop, other motifs", arms(panel.Mirrored, u, cloth.Drop{Num: 1, Den: 4}, 950, 480), nil, ""},
		{"not mirrored at a quarter drop", arms(panel.Mirrored, u, cloth.Drop{Num: 1, Den: 4}, 950, 320), nil, "pair-off"},
		{"mirrored, by a quarter", arms(panel.Mirrored, q, cloth.Drop{}, 850, 340), nil, ""},
		{"mirrored, by a quarter, the wrong way", arms(panel.Mirrored, q, cloth.Drop{}, 850, 640), nil, "pair-off"},
		{"mirrored, at tolerance", arms(panel.Mirrored, u, cloth.Drop{}, 950, 0), tolerant(0, 5*mm+2*nm, 5*mm), ""},
		{"mirrored, over tolerance", arms(panel.Mirrored, u, cloth.Drop{}, 950, 0), tolerant(0, 5*mm+3*nm, 5*mm), "pair-off"},
		{"twins that lie unlike", arms(panel.SameMotif, h, cloth.Half(), 850, 320), with(1, func(p *layout.Placement) { p.Turn = u }), "wrong-turn"},
		{"odd twins", arms(panel.Mirrored, u, cloth.Drop{}, 950, 0), job(func(j *layout.Job) { j.Panels[0].Count = 3 }), "bad-job"},
	})
}
