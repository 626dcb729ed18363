package drawing

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// whole is one panel that is put there by hand.
func whole(k, copy int, x, y length.Length, cut panel.Size, turn panel.Turn) plan.Placement {
	pl := plan.Placement{Panel: k, Copy: copy, Part: 1, Parts: 1, X: x, Y: y, Across: cut.Across, Along: cut.Along, Turn: turn}
	if turn == panel.Quarter {
		pl.Across, pl.Along = cut.Along, cut.Across
	}
	return pl
}

// turned is a plain cloth, two-way, with panels in every position, in inches.
func turned() *service.YardageAnswer {
	ps := []panel.Panel{
		{ID: "SEAT", Name: "seat", Count: 1, Size: size(24*in, 26*in), Allow: sides(3*in, in, 2*in, 2*in), Turn: panel.Half},
		{ID: "BACK", Name: "back", Count: 1, Size: size(22*in, 20*in), Allow: sides(4*in, in/2, in, in), Turn: panel.Half},
		{ID: "RAIL", Name: "rail", Count: 2, Size: size(30*in+in/2, 4*in), Allow: all(in / 2), Turn: panel.Quarter},
		{ID: "PAD", Name: "arm pad", Count: 4, Size: size(4*in, 9*in), Allow: all(in), Turn: panel.Half},
	}
	l := plan.Layout{Length: 66*in + in/4, Placements: []plan.Placement{
		whole(0, 1, 0, 0, ps[0].Cut(), panel.Upright),
		whole(1, 1, 28*in, 0, ps[1].Cut(), panel.Half),
		whole(2, 1, 0, 30*in, ps[2].Cut(), panel.Quarter),
		whole(2, 2, 5*in, 30*in, ps[2].Cut(), panel.Quarter),
		whole(3, 1, 10*in, 30*in, ps[3].Cut(), panel.Upright),
		whole(3, 2, 16*in, 30*in, ps[3].Cut(), panel.Half),
		whole(3, 3, 22*in, 30*in, ps[3].Cut(), panel.Upright),
		whole(3, 4, 28*in, 30*in, ps[3].Cut(), panel.Half),
	}}
	return &service.YardageAnswer{
		Request: service.YardageRequest{Units: length.Imperial, Panels: ps,
			Cloth: cloth.Cloth{Name: "Chart-room twill", Width: 54 * in, Railroad: cloth.RailroadAllowed}},
		Order: 2 * length.Yard, AnyStart: l.Length,
		Lengths:  []service.CutLength{{Needed: l.Length, Order: 2 * length.Yard}},
		Result:   plan.Result{Cut: []plan.Layout{l}, Bound: l.Length, BoundBy: "area", Proven: true, Rows: 66*in + in/4},
		Offcuts:  []service.Offcut{{Rect: plan.Rect{X: 34 * in, Y: 30 * in, Across: 20 * in, Along: 36 * in}, WouldMake: say("PAD arm pad")}},
		Warnings: say("The cloth is ordered in whole yards: 5 3/4 in are left over."),
		Cautions: cautions[:1],
	}
}

// joined is a settee back of three parts, with a panel that runs on at its side.
func joined() *service.YardageAnswer {
	ps := []panel.Panel{
		{ID: "OB", Name: "outside back", Count: 1, Size: size(204*cm, 60*cm), Allow: all(3 * cm), Join: panel.JoinSides,
			JoinSeam: 15 * cm / 10, Match: wish(panel.Centred, "crossing")},
		{ID: "END", Name: "end", Count: 1, Size: size(30*cm, 60*cm), Allow: all(3 * cm),
			Match: panel.Match{How: panel.RunsOn, From: "OB", Edge: panel.RightEdge, Tolerance: cm / 2}},
		{ID: "CAP", Name: "cap", Count: 1, Size: size(20*cm, 10*cm), Allow: all(2 * cm), Pair: "CAP", PairAs: panel.SameMotif,
			Match: panel.Match{How: panel.Anchor, Point: panel.Point{Across: 5 * cm, Along: 4 * cm}}},
	}
	part := func(n int, x, y, from, w length.Length) plan.Placement {
		return plan.Placement{Panel: 0, Copy: 1, Part: n, Parts: 3, From: from, X: x, Y: y, Across: w, Along: 66 * cm}
	}
	middle := part(2, 0, 0, 35*cm, 140*cm)
	middle.Motif = &plan.MotifAt{X: 70 * cm, Y: 33 * cm}
	l := plan.Layout{Length: 132 * cm, Start: 31 * cm, Placements: []plan.Placement{
		middle,
		part(1, 0, 66*cm, 0, 38*cm),
		part(3, 38*cm, 66*cm, 172*cm, 38*cm),
		whole(1, 1, 76*cm, 66*cm, ps[1].Cut(), panel.Upright),
		whole(2, 1, 112*cm, 66*cm, ps[2].Cut(), panel.Upright),
	}}
	return &service.YardageAnswer{
		Request: service.YardageRequest{Panels: ps, Cloth: cloth.Cloth{Name: "Quayside trellis", Width: 140 * cm, StartsAt: new(31 * cm),
			Pattern: cloth.Pattern{LengthRepeat: 32 * cm, WidthRepeat: 35 * cm, Motifs: []cloth.Motif{{Name: "crossing"}}}}},
		Order: 15 * length.Metre / 10, AnyStart: l.Length,
		Lengths: []service.CutLength{{Needed: l.Length, Start: l.Start, Order: 15 * length.Metre / 10}},
		Result:  plan.Result{Cut: []plan.Layout{l}, Bound: l.Length, BoundBy: "area", Rows: 160 * cm},
		Joins:   []service.Joined{{Panel: 0, Copy: 1, Seams: []length.Length{365 * cm / 10, 1735 * cm / 10}}},
		Offcuts: []service.Offcut{{Rect: plan.Rect{X: 112 * cm, Y: 80 * cm, Across: 28 * cm, Along: 52 * cm}}},
	}
}

// bolts is a job that no bolt holds in one, of which pieces in hand hold most.
func bolts() *service.YardageAnswer {
	ps := []panel.Panel{
		{ID: "BENCH", Name: "bench seat", Count: 4, Size: size(60*cm, 120*cm), Allow: all(4 * cm), Match: wish(panel.Along, "")},
		{ID: "PLINTH", Name: "plinth", Count: 1, Size: size(60*cm, 20*cm), Allow: all(4 * cm), Match: below("BENCH")},
	}
	c := cloth.Cloth{Name: "Ferry rib", Width: 140 * cm, OneWay: true, Pattern: cloth.Pattern{LengthRepeat: 30 * cm}}
	b := ps[0].Cut()
	two := func(first int, start length.Length) plan.Layout {
		l := plan.Layout{Length: 128 * cm, Start: start, Placements: []plan.Placement{
			whole(0, first, 0, 0, b, panel.Upright), whole(0, first+1, 68*cm, 0, b, panel.Upright)}}
		for i := range l.Placements {
			l.Placements[i].Motif = &plan.MotifAt{X: 34 * cm, Y: 64 * cm}
		}
		return l
	}
	withPlinth := func(l plan.Layout) plan.Layout {
		l.Placements = append(l.Placements, whole(1, 1, 0, 130*cm, ps[1].Cut(), panel.Upright))
		l.Length = 158 * cm
		return l
	}
	first, second := two(1, 26*cm), withPlinth(two(3, 26*cm))
	return &service.YardageAnswer{
		Request: service.YardageRequest{Cloth: c, Panels: ps, Sold: cloth.Sold{Bolt: 2 * length.Metre},
			Pieces: []length.Length{150 * cm, 60 * cm}},
		Order: 36 * length.Metre / 10, AnyStart: 3 * length.Metre,
		Lengths: []service.CutLength{
			{Needed: first.Length, Start: first.Start, Order: 16 * length.Metre / 10},
			{Needed: second.Length, Start: second.Start, Order: 2 * length.Metre}},
		Result: plan.Result{Cut: []plan.Layout{first, second}, Bound: 270 * cm, BoundBy: "area", Rows: 320 * cm},
		Offcuts: []service.Offcut{{Piece: 1, Rect: plan.Rect{X: 68 * cm, Y: 128 * cm, Across: 72 * cm, Along: 30 * cm},
			WouldMake: say("PLINTH plinth")}},
		Pieces: &service.PiecesAnswer{Enough: service.EnoughNo, Short: 188 * cm, Order: 19 * length.Metre / 10,
			Uses: []service.PieceUse{
				{Length: 19 * length.Metre / 10, Layout: withPlinth(two(3, 26*cm))},
				{Length: 150 * cm, Layout: two(1, 26*cm), AnyStart: true},
				{Length: 60 * cm}}},
		Cautions: cautions,
	}
}
