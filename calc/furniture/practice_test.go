package furniture_test

import (
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// ordered are the rows of a cover that an order or a cloth goes by, and no list of a
// piece alone.
var ordered = map[string]bool{practice.PanelJoin.Name: true, practice.CoverShave.Name: true, practice.ClothSquaring.Name: true, practice.ClothFlaws.Name: true}

// Every figure of the table that a cutting list goes by changes one when it is
// changed, and is said in the sentence about the panel.
func TestEverySettingCounts(t *testing.T) {
	said := map[string]string{
		practice.CoverSeam.Name: "seam 50 cm", practice.CoverPull.Name: "pull 50 cm", practice.CoverTuck.Name: "tuck-in 50 cm",
		practice.CoverUnder.Name: "turn-under 50 cm", practice.CushionZip.Name: "zip 20 cm", practice.PlatformLip.Name: "platform lip 50 cm",
		practice.CollarWidth.Name: "collar 30 cm", practice.SkirtCorner.Name: "half a corner pleat 50 cm", practice.SkirtUnder.Name: "underlay 50 cm",
		practice.CoverJoint.Name: "tuck-in 50 cm", practice.FlyPast.Name: "tuck-in 50 cm", practice.FlyDepth.Name: "tuck-in 50 cm",
		practice.OutsideSide.Name: "turn-in 50 cm", practice.BackTack.Name: "back-tack 50 cm", practice.FacingTurn.Name: "turn-in 50 cm",
		practice.PlyTurn.Name: "turn-in 50 cm", practice.BorderEnd.Name: "round the post 50 cm", practice.DropInTurn.Name: "turn beneath 50 cm",
		practice.RebateTrim.Name: "trim at the rebate 50 cm", practice.ZipStrip.Name: "half of what the zip takes 10 cm", practice.ZipRound.Name: "round the corners 60 cm",
		practice.SkirtBox.Name: "5 × outside width", practice.SkirtKnife.Name: "5 × outside width", practice.SkirtGathers.Name: "5 × outside width",
	}
	for _, s := range practice.Table() {
		if s.Subject != practice.Cover && !strings.HasPrefix(s.Name, "diamond") || ordered[s.Name] {
			continue
		}
		counts, says := false, false
		value := s.Most
		if s.Name == practice.DiamondLeast.Name {
			value = int64(length.Metre) // above all that the panels would have
		}
		for _, k := range furniture.Kinds() {
			for _, p := range everyChoice(k) {
				before := p.List()
				p.Shop = practice.Defaults().With(s.Give(value))
				after := p.List()
				counts = counts || differ(before, after) || buttoned(before, after)
				for _, q := range after.Panels {
					says = says || strings.Contains(q.How.Text(length.Metric), said[s.Name])
				}
			}
		}
		if !counts || !says {
			t.Errorf("%s: changes a list %v, is said %v", s.Name, counts, says)
		}
	}
}

// buttoned reports whether two lists have other diamonds.
func buttoned(a, b furniture.List) bool {
	for i := range min(len(a.Buttons), len(b.Buttons)) {
		if a.Buttons[i] != b.Buttons[i] {
			return true
		}
	}
	return false
}

// What a piece is given stands before what its workroom goes by, and that before
// the table.
func TestGivenBeforeShopBeforeTable(t *testing.T) {
	shop := practice.Defaults().With(practice.CoverSeam.Give(2*cm), practice.CoverPull.Give(5*cm))
	p := furniture.Piece{Kind: "wing-chair", Count: 1, Shop: shop, Allow: furniture.Allowances{Pull: new(7 * cm)}}
	ib := p.List().Panels[0].Allow
	if ib.Top != 7*cm || ib.Left != 2*cm {
		t.Errorf("the inside back has %+v", ib)
	}
	if got := (furniture.Piece{Kind: "wing-chair", Count: 1}).List().Panels[0].Allow; got.Top != 6*cm || got.Left != 15*length.Millimetre {
		t.Errorf("the inside back of the table has %+v", got)
	}
}
