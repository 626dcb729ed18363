package service_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// chairBack is the inside back of the demo chair in its half-drop.
func chairBack() service.ButtoningRequest {
	return service.ButtoningRequest{
		Panel: buttoning.Panel{
			Size:  panel.Size{Across: 56 * cm, Along: 78 * cm},
			Edges: buttoning.Edges{Side: 8 * cm, Top: 9 * cm, Bottom: 12 * cm},
			Allow: panel.Sides{Top: 6 * cm, Bottom: 10 * cm, Left: 3 * cm, Right: 3 * cm},
		},
		Grid:  buttoning.Wish{How: buttoning.Spacing, Width: 13 * cm, Height: 19 * cm},
		Depth: 3 * cm,
		Cloth: cloth.Cloth{Width: 137 * cm, Pattern: cloth.Pattern{
			LengthRepeat: 64 * cm, WidthRepeat: 685 * cm / 10, Drop: cloth.Half(),
			Motifs: []cloth.Motif{{Name: "heron", Across: 342 * cm / 10}, {Name: "sedge", Along: 32 * cm}},
		}},
		Sizes:   []service.MotifSize{{Motif: "heron", Size: panel.Size{Across: 8 * cm, Along: 12 * cm}}},
		Aim:     &service.ButtoningAim{Motifs: []string{"heron"}},
		Join:    true,
		Shop:    practice.Defaults().With(practice.ButtonCloth.Give(0)),
		Buttons: service.ButtonWish{Lines: 28},
	}
}

func button(t testing.TB, req service.ButtoningRequest) *service.ButtoningAnswer {
	t.Helper()
	if l := service.Faults(service.PrepareButtoning(req)); l.Len() > 0 {
		t.Fatalf("faults: %+v", l.Faults())
	}
	a, err := service.Buttoning(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// The heron stands in the middle of a diamond, on the upright centre line, and
// is shown whole.
func TestHeronInTheDiamonds(t *testing.T) {
	a := button(t, chairBack())
	shown := 0
	for _, m := range a.Motifs {
		if m.Motif != 0 {
			continue
		}
		if m.Work.X != 0 || m.Fate != buttoning.Shown {
			t.Errorf("a heron at %+v", m)
		}
		for _, d := range a.Work.Diamonds() {
			if d.X == m.Cloth.X && d.Y == m.Cloth.Y {
				shown++
			}
		}
	}
	if shown == 0 || !a.Found.Complete || a.Skew != 0 || a.Found.Score <= a.Begun {
		t.Errorf("%d herons in diamonds: %+v", shown, a.Found)
	}
}

// A cover that would run over a selvedge with its motif in the middle is joined
// along the diamonds, or, without joins, said to be.
func TestHeronTooNearTheSelvedge(t *testing.T) {
	req := chairBack()
	req.Panel.Allow.Left, req.Panel.Allow.Right = 6*cm, 6*cm
	if a := button(t, req); len(a.Joined.Parts) != 3 {
		t.Errorf("%d parts", len(a.Joined.Parts))
	} else {
		for _, p := range a.Joined.Parts {
			if !p.Fits {
				t.Errorf("not matched: %+v", p)
			}
		}
	}
	req.Join = false
	a := button(t, req)
	if len(a.Joined.Parts) != 1 || a.Joined.Parts[0].Fits || !slices.ContainsFunc(a.Warnings, note.New(note.WidthUnmatched, note.Count("width", 1)).Same) {
		t.Errorf("%+v, %q", a.Joined, a.Warnings)
	}
}

// Varied spacing never serves the aim less, keeps the margins, and changes each
// side of the diamond by no more than it may.
func TestVariedSpacing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := chairBack()
		req.Cloth.Pattern.WidthRepeat = length.Length(rapid.Int64Range(150, 500).Draw(t, "H")) * length.Millimetre
		req.Cloth.Pattern.LengthRepeat = length.Length(rapid.Int64Range(150, 500).Draw(t, "V")) * length.Millimetre
		before, err := service.Buttoning(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		req.Vary = 12 * length.Millimetre
		after, err := service.Buttoning(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		if before.Found.Complete && after.Found.Complete && after.Found.Score < before.Found.Score-1e-12 {
			t.Errorf("varied %v, kept %v", after.Found.Score, before.Found.Score)
		}
		b, d := before.Work.Diamond(), after.Work.Diamond()
		for _, by := range []length.Length{d.Across - b.Across, d.Along - b.Along} {
			if max(by, -by) > req.Vary+length.Micrometre {
				t.Errorf("changed by %v", by)
			}
		}
		if e := after.Work.Edges; e.Side < 8*cm || e.Top < 9*cm || e.Bottom < 12*cm {
			t.Errorf("margins %+v", e)
		}
		if after.Varied && after.Found.Score <= before.Found.Score && before.Found.Complete && after.Found.Complete {
			t.Error("varied for nothing")
		}
	})
}

func TestButtoningEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := service.Buttoning(ctx, chairBack()); !errors.Is(err, context.Canceled) {
		t.Errorf("err %v", err)
	}
}
