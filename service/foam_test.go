package service

import (
	"context"
	"errors"
	"slices"
	"strconv"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/verify"
)

// fiveSizes are cushions that fill several sheets.
func fiveSizes() FoamRequest {
	const mm = length.Millimetre
	req := FoamRequest{Job: foam.Job{
		Foams: []foam.Foam{{ID: "F", Density: 33_000}},
		Stock: []foam.Stock{{ID: "S", Across: 1200 * mm, Along: 2000 * mm, Thickness: 50 * mm, Trim: 4 * mm}},
		Shop:  practice.Defaults().With(practice.FoamKerf.Give(3 * mm)),
	}}
	for i := range length.Length(5) {
		req.Items = append(req.Items, foam.Item{ID: string(rune('A' + i)), Count: 4, Thickness: 100 * mm,
			Shape: foam.Shape{Across: (450 + 37*i) * mm, Along: (500 + 23*i) * mm}})
	}
	return req
}

// The checker of cutting plans, which knows nothing of sheets, finds the nesting
// right: each sheet is a bolt of plain cloth that may be railroaded, as wide and as
// long as what is usable and a kerf, and each layer a panel larger by a kerf.
func TestPlanCheckerFindsSheetsRight(t *testing.T) {
	req := fiveSizes()
	kerf := req.Shop.Length(practice.FoamKerf)
	a, err := Foam(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	layers := 0
	for _, g := range a.Result.Groups {
		k := g.Kinds[0]
		job := plan.Job{
			Cloth: cloth.Cloth{Width: k.Across - 2*k.Trim + kerf, Railroad: cloth.RailroadAllowed},
			Bolt:  k.Along - 2*k.Trim + kerf,
		}
		for i, p := range g.Sizes {
			job.Panels = append(job.Panels, panel.Panel{ID: "P" + string(rune('0'+i/10)) + string(rune('0'+i%10)), Count: 1, Turn: panel.Quarter,
				Size: panel.Size{Across: p.Across + kerf, Along: p.Along + kerf}})
		}
		var cut []plan.Layout
		for _, s := range g.Nest.Sheets {
			var l plan.Layout
			for _, p := range s.Pieces {
				pl := plan.Placement{Panel: p.Piece, Copy: 1, Part: 1, Parts: 1, X: p.X - k.Trim, Y: p.Y - k.Trim,
					Across: p.Across + kerf, Along: p.Along + kerf}
				if p.Turned {
					pl.Turn = panel.Quarter
				}
				l.Placements = append(l.Placements, pl)
				l.Length = max(l.Length, pl.Y+pl.Along)
				layers++
			}
			cut = append(cut, l)
		}
		if flaws := verify.Check(job, cut...); len(flaws) > 0 {
			t.Fatal(flaws)
		}
		cut[0].Placements[0].X += 2 * length.Metre
		if len(verify.Check(job, cut...)) == 0 {
			t.Error("a spoilt nesting is found right")
		}
	}
	if layers != 40 {
		t.Errorf("%d layers, want 40", layers)
	}
}

// A context that has ended gets no answer.
func TestFoamEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if a, err := Foam(ctx, fiveSizes()); a != nil && err == nil || !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// The search may turn on nothing but the request.
func TestFoamIsTheSameAgain(t *testing.T) {
	one, err := Foam(context.Background(), fiveSizes())
	if err != nil {
		t.Fatal(err)
	}
	two, _ := Foam(context.Background(), fiveSizes())
	if one.Result.Cost != two.Result.Cost || one.Result.Work != two.Result.Work {
		t.Error("not the same again")
	}
}

// Sheets that are full to the edge are warned of where no kerf is given, before
// anything else.
func TestFoamWithoutKerf(t *testing.T) {
	const mm = length.Millimetre
	req := FoamRequest{Job: foam.Job{
		Foams: []foam.Foam{{ID: "F", Density: 33_000}},
		Stock: []foam.Stock{{ID: "S", Across: 1000 * mm, Along: 2000 * mm, Thickness: 50 * mm}},
	}}
	for i := range length.Length(150) {
		req.Items = append(req.Items, foam.Item{ID: "I" + strconv.Itoa(int(i)), Count: 1, Place: foam.Pad, Thickness: 26*mm + i*mm,
			Shape: foam.Shape{Across: 500 * mm, Along: 500 * mm}})
	}
	a, err := Foam(context.Background(), req)
	if err != nil || a.Warnings[0].Code != note.FoamWithoutKerf {
		t.Errorf("%v, %d warnings, the first %q", err, len(a.Warnings), a.Warnings[0].Code)
	}
	req.Shop = req.Shop.With(practice.FoamKerf.Give(3 * mm))
	if a, err = Foam(context.Background(), req); err != nil || slices.ContainsFunc(a.Warnings, func(n note.Note) bool { return n.Code == note.FoamWithoutKerf }) {
		t.Errorf("%v: a kerf is given, and its lack warned of", err)
	}
}
