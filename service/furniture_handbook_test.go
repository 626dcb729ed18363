package service_test

import (
	"context"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// orderOf is what a piece takes of a cloth, as the engine orders it.
func orderOf(t *testing.T, p furniture.Piece, c cloth.Cloth, effort plan.Effort) length.Length {
	t.Helper()
	ans := service.CuttingList(service.CuttingListRequest{Piece: p, Cloth: &c})
	got, err := service.Yardage(context.Background(), service.YardageRequest{Cloth: c, Panels: ans.Covers[furniture.Top], Effort: effort})
	if err != nil {
		t.Fatal(err)
	}
	return got.Order
}

// What each kind takes of plain cloth of 54 in at its typical measures, beside
// the bands that are handed down for it (common practice, no source, from
// memory). The bands decide nothing: they are printed with the figures, and a
// figure outside is marked. Typical measures were fixed before.
func TestTypicalPiecesBesideTheBands(t *testing.T) {
	plainTop := map[string]string{"flies": "no"}
	for _, row := range []struct {
		kind        string
		options     map[string]string
		least, most float64 // yards
		of          string
	}{
		{"drop-in-seat", nil, .5, 1, "a drop-in seat"},
		{"stuff-over-chair", map[string]string{"back": "pad"}, 1.5, 2, "a side chair, seat and back"},
		{"carver", nil, 2.5, 3, "an open armchair"},
		{"tub-chair", plainTop, 5, 6, "a tub chair"},
		{"club-chair", plainTop, 6, 7.5, "a club chair"},
		{"wing-chair", plainTop, 7, 9, "a wing chair, loose cover"},
		{"chaise", plainTop, 7, 9, "a chaise"},
		{"footstool", nil, 1, 2, "an ottoman"},
		{"two-seat-settee", plainTop, 8, 10, "a settee for two"},
		{"three-seat-settee", plainTop, 10, 14, "a settee for three"},
		{"headboard", nil, 2, 3, "a headboard"},
		{"bench-cushion", nil, 2, 4, "a window seat"},
	} {
		got := orderOf(t, furniture.Piece{Kind: row.kind, Count: 1, Options: row.options}, cloth.Cloth{Width: 54 * length.Inch, OneWay: true}, plan.Normal)
		yards := got.MM() / length.Yard.MM()
		note := ""
		if yards < row.least || yards > row.most {
			note = "  outside"
		}
		t.Logf("%-20s %5.2f yd, band %.1f to %.1f for %s%s", row.kind, yards, row.least, row.most, row.of, note)
		if yards > 2*row.most || yards < row.least/3 {
			t.Errorf("%s takes %.2f yd, which no chart would print", row.kind, yards)
		}
	}
}
