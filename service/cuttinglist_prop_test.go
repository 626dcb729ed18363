package service_test

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// drawnPiece is a piece of any kind within its measures and options.
func drawnPiece(t *rapid.T) furniture.Piece {
	k := rapid.SampledFrom(furniture.Kinds()).Draw(t, "kind")
	p := furniture.Piece{Kind: k.ID, Count: rapid.IntRange(1, 2).Draw(t, "count"), Measures: map[string]length.Length{}, Options: map[string]string{}}
	for _, m := range k.Measures {
		p.Measures[m.ID] = m.Least + length.Length(rapid.Int64Range(0, int64((m.Most-m.Least)/length.Millimetre)).Draw(t, m.ID))*length.Millimetre
	}
	for _, o := range k.Options {
		p.Options[o.ID] = rapid.SampledFrom(o.Choices).Draw(t, o.ID).ID
	}
	return p
}

// larger is a piece of which no measure is less.
func larger(t *rapid.T, p furniture.Piece) furniture.Piece {
	k, _ := furniture.Find(p.Kind)
	q := p
	q.Measures = make(map[string]length.Length, len(k.Measures))
	for _, m := range k.Measures {
		room := int64((m.Most - p.Measures[m.ID]) / length.Millimetre)
		q.Measures[m.ID] = p.Measures[m.ID] + length.Length(rapid.Int64Range(0, min(room, 150)).Draw(t, "more "+m.ID))*length.Millimetre
	}
	return q
}

// topCover are the panels of the top cover as a cloth can keep their wishes.
func topCover(t *rapid.T, p furniture.Piece, c cloth.Cloth) []panel.Panel {
	req := service.CuttingListRequest{Piece: p, Cloth: &c}
	if l := service.Faults(service.PrepareCuttingList(req)); l.Len() > 0 {
		t.Fatalf("%+v", l.Faults())
	}
	return service.CuttingList(req).Covers[furniture.Top]
}

func plannedCover(t *rapid.T, panels []panel.Panel, c cloth.Cloth) *service.YardageAnswer {
	got, err := service.Yardage(context.Background(), service.YardageRequest{Cloth: c, Panels: panels, Effort: plan.Quick})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// searchTolerance is by how much of its length a plan may be longer than the one
// of something that takes no less: a search at the quick effort is not exhausted.
const searchTolerance = 5 // percent

func nearly(l length.Length) length.Length { return l - l*searchTolerance/100 }

// A larger piece never needs less. On plain cloth a plan for the larger one is one
// for the smaller, so that it cannot be shorter than what is proven for the
// smaller; the plans that are found may be out by the tolerance of the search. On
// patterned cloth a change of size also moves the panels that run on within the
// repeat, so that a larger piece may fall more luckily: by up to one length repeat
// for each row in which such panels lie, at most one for each of them.
func TestLargerNeverNeedsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(cloths()).Draw(t, "cloth")
		small := drawnPiece(t)
		large := larger(t, small)
		a, b := topCover(t, small, c), topCover(t, large, c)
		of, than := plannedCover(t, b, c), plannedCover(t, a, c)
		if !sameWishes(a, b) {
			return // a wish that only one of the two can keep
		}
		slack := length.Length(0)
		if v := c.Pattern.LengthRepeat; v > 0 {
			for _, p := range a {
				if p.Match.How == panel.RunsOn {
					slack += v * length.Length(p.Count)
				}
			}
		}
		if slack == 0 && of.Result.Needed() < than.Result.Bound {
			t.Errorf("the larger piece needs %v, and the smaller at least %v", of.Result.Needed(), than.Result.Bound)
		}
		if of.Result.Needed() < nearly(than.Result.Needed())-slack {
			t.Errorf("the larger piece needs %v, the smaller %v", of.Result.Needed(), than.Result.Needed())
		}
	})
}

// sameWishes reports whether two lists of the same panels wish the same.
func sameWishes(a, b []panel.Panel) bool {
	for i := range a {
		if a[i].ID != b[i].ID || a[i].Match.How != b[i].Match.How || a[i].Pair != b[i].Pair {
			return false
		}
	}
	return len(a) == len(b)
}

// Plain cloth never takes more than patterned of the same width that lies the
// same way up: every plan of the patterned cloth is one of the plain.
func TestPlainNeverTakesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(cloths()).Draw(t, "cloth")
		p := drawnPiece(t)
		plain := cloth.Cloth{Width: c.Width, OneWay: c.OneWay}
		of, than := plannedCover(t, topCover(t, p, plain), plain), plannedCover(t, topCover(t, p, c), c)
		if of.Result.Bound > than.Result.Needed() {
			t.Errorf("plain cloth takes at least %v, patterned %v", of.Result.Bound, than.Result.Needed())
		}
		if nearly(of.Result.Needed()) > than.Result.Needed() {
			t.Errorf("plain cloth takes %v, patterned %v", of.Result.Needed(), than.Result.Needed())
		}
	})
}
