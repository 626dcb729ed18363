package service_test

import (
	"context"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// cloths are of every kind of pattern, in the widths of the trade.
func cloths() []cloth.Cloth {
	return []cloth.Cloth{
		{Width: 54 * length.Inch},
		{Width: 140 * cm, OneWay: true},
		{Width: 137 * cm, Pattern: cloth.Pattern{WidthRepeat: 9 * cm}},
		{Width: 140 * cm, Pattern: cloth.Pattern{LengthRepeat: 32 * cm}},
		{Width: 140 * cm, Pattern: cloth.Pattern{LengthRepeat: 32 * cm, WidthRepeat: 28 * cm}},
		{Width: 137 * cm, OneWay: true, Pattern: cloth.Pattern{
			LengthRepeat: 64 * cm, WidthRepeat: 685 * length.Millimetre, Drop: cloth.Half(),
			Motifs: []cloth.Motif{{Name: "heron", Across: 342 * length.Millimetre}, {Name: "sedge", Along: 32 * cm}},
		}},
		{Width: 145 * cm, OneWay: true, Pattern: cloth.Pattern{LengthRepeat: 45 * cm, WidthRepeat: 70 * cm, Drop: cloth.Drop{Num: 1, Den: 3}}},
	}
}

// Every kind, with every choice of style and at its least, usual and largest
// measures, comes down to a list that has no faults and that is planned on every
// second cloth; service.Yardage puts each plan to verify.Check. FuzzCuttingList goes
// between.
func TestEveryCuttingListIsPlanned(t *testing.T) {
	planned := 0
	for _, k := range furniture.Kinds() {
		for n, p := range pieces(k) {
			for i, c := range cloths() {
				if every := map[bool]int{true: 5, false: 2}[testing.Short()]; (n+i)%every != 0 {
					continue
				}
				req := service.CuttingListRequest{Piece: p, Cloth: &c}
				if l := service.Faults(service.PrepareCuttingList(req)); l.Len() > 0 {
					t.Errorf("%s, piece %d, cloth %d: %+v", k.ID, n, i, l.Faults())
					continue
				}
				ans := service.CuttingList(req)
				yardage := service.YardageRequest{Cloth: c, Panels: ans.Covers[furniture.Top], Effort: plan.Quick}
				if l := service.YardageFaults(yardage); l.Len() > 0 {
					t.Errorf("%s, piece %d, cloth %d: %+v", k.ID, n, i, l.Faults())
					continue
				}
				if _, err := service.Yardage(context.Background(), yardage); err != nil {
					t.Errorf("%s, piece %d, cloth %d: %v", k.ID, n, i, err)
				}
				planned++
			}
		}
	}
	t.Logf("%d plans", planned)
}

// pieces are of one kind: at the usual measures with each choice of style, and
// at the least and the largest measures.
func pieces(k furniture.Kind) []furniture.Piece {
	list := []furniture.Piece{{Kind: k.ID, Count: 1}, {Kind: k.ID, Count: 2}}
	for _, o := range k.Options {
		for _, c := range o.Choices[1:] {
			list = append(list, furniture.Piece{Kind: k.ID, Count: 1, Options: map[string]string{o.ID: c.ID}})
		}
	}
	least, most := furniture.Piece{Kind: k.ID, Count: 1, Measures: map[string]length.Length{}}, furniture.Piece{Kind: k.ID, Count: 1, Measures: map[string]length.Length{}}
	for _, m := range k.Measures {
		least.Measures[m.ID], most.Measures[m.ID] = m.Least, m.Most
	}
	return append(list, least, most)
}

// The demo chair's wishes fit its cloth: all that shows keeps its motif.
func TestCuttingListKeepsWishes(t *testing.T) {
	c := cloths()[5]
	ans := service.CuttingList(service.CuttingListRequest{Cloth: &c, Piece: furniture.Piece{Kind: "wing-chair", Count: 1, Motif: "heron"}})
	if got := ans.Covers[0][0]; got.ID != "IB" || got.Match != (panel.Match{How: panel.Centred, Motif: "heron"}) {
		t.Errorf("inside back is %+v", got)
	}
	for _, l := range ans.Loosened {
		t.Logf("%s: %s", l.Panel, l.Why.Text(length.Metric))
	}
}

// Panels are left out, replaced and added; ties to those that are gone go too.
func TestCuttingListChanges(t *testing.T) {
	seat := panel.Panel{ID: "SEAT", Count: 1, Size: panel.Size{Across: 50 * cm, Along: 50 * cm}}
	extra := panel.Panel{ID: "EXTRA", Count: 3, Size: panel.Size{Across: 20 * cm, Along: 20 * cm}}
	ans := service.CuttingList(service.CuttingListRequest{
		Piece: furniture.Piece{Kind: "carver", Count: 1}, Drop: []string{"IB", "PAD"}, Replace: []panel.Panel{seat, extra},
	})
	var ids []string
	for _, p := range ans.Covers[0] {
		ids = append(ids, p.ID)
		if p.Match.How == panel.RunsOn {
			t.Errorf("%s runs on from %s, which is gone", p.ID, p.Match.From)
		}
	}
	if len(ids) != 3 || ids[0] != "OB" || ids[1] != "SEAT" || ids[2] != "EXTRA" {
		t.Errorf("panels %q", ids)
	}
}
