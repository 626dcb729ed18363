package plan_test

import (
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// TestPiecesOfAnyLength plans round lengths from pieces that are no multiple of
// anything, down to a nanometre: nothing is cut from a piece that it is too short for.
func TestPiecesOfAnyLength(t *testing.T) {
	short := 0
	rapid.Check(t, func(t *rapid.T) {
		tens := func(name string, least, most int) length.Length {
			return length.Length(rapid.IntRange(least, most).Draw(t, name)) * 100 * length.Millimetre
		}
		job := plan.Job{Cloth: cloth.Cloth{Width: tens("width", 10, 15)}, Panels: []panel.Panel{
			{ID: "SEAT", Count: rapid.IntRange(1, 4).Draw(t, "count"), Size: panel.Size{Across: tens("across", 1, 10), Along: tens("along", 1, 10)}},
		}}
		if rapid.Bool().Draw(t, "patterned") {
			job.Cloth.Pattern.LengthRepeat = tens("repeat", 1, 5)
		}
		var pieces []length.Length
		for range rapid.IntRange(1, 3).Draw(t, "pieces") {
			pieces = append(pieces, length.Length(rapid.Int64Range(1, int64(2*length.Metre)).Draw(t, "piece")>>rapid.IntRange(0, 30).Draw(t, "shorter")))
		}
		h := solvePieces(t, job, pieces, plan.Quick, nil)
		for k, u := range h.Uses {
			if u.Layout.Length > pieces[k] {
				t.Errorf("%v is cut from a piece of %v", u.Layout.Length, pieces[k])
			}
		}
		if len(h.Buy) > 0 {
			short++
		}
	})
	if short == 0 {
		t.Error("the pieces were enough each time: they should not be")
	}
}

// TestClothKeepsItsStart plans panels bound to rows on cloth whose start is
// known, from every place in the repeat, whether the cloth serves or not: with bolts
// that take one panel, it often does not.
func TestClothKeepsItsStart(t *testing.T) {
	const mm = length.Millimetre
	idle := 0
	for _, pieces := range [][]length.Length{nil, {300 * mm}, {700 * mm}, {700 * mm, 1500 * mm}} {
		for start := length.Length(0); start < 320*mm; start += 20 * mm {
			job := plan.Job{Bolt: 700 * mm, Cloth: cloth.Cloth{Width: 1400 * mm, StartsAt: new(start),
				Pattern: cloth.Pattern{LengthRepeat: 320 * mm, WidthRepeat: 700 * mm, Motifs: []cloth.Motif{{Name: "heron", Across: 350 * mm, Along: 100 * mm}}}},
				Panels: []panel.Panel{
					{ID: "IB", Count: 2, Size: panel.Size{Across: 600 * mm, Along: 660 * mm}, Match: panel.Match{How: panel.Centred, Motif: "heron"}},
					{ID: "OB", Count: 3, Size: panel.Size{Across: 640 * mm, Along: 700 * mm}, Match: panel.Match{How: panel.Along}},
				}}
			cut := solve(t, job, plan.Quick, nil).Cut
			if pieces != nil {
				cut = nil
				h := solvePieces(t, job, pieces, plan.Quick, nil)
				for _, b := range h.Buy {
					cut = append(cut, b.Layout)
				}
				for k, u := range h.Uses {
					cut = append(cut, u.Layout)
					if u.Layout.Length > pieces[k] {
						t.Errorf("start %v: %v is cut from a piece of %v", start, u.Layout.Length, pieces[k])
					}
				}
				job.Bolt = 0 // a piece in hand may be longer than a bolt
			}
			for _, f := range verify.Check(job, cut...) {
				t.Errorf("start %v, pieces %v: %s", start, pieces, f)
			}
			if len(cut[0].Placements) == 0 {
				idle++
			}
		}
	}
	if idle == 0 {
		t.Error("the cloth whose start is known served each time: it should not")
	}
}
