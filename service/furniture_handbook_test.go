package service_test

import (
	"cmp"
	"context"
	"fmt"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

const (
	in = length.Inch
	yd = length.Yard
)

// yards is a length in yards, for printing.
func yards(l length.Length) float64 { return l.MM() / yd.MM() }

// laid is what a piece takes of a cloth, laid in several ways.
type laid struct {
	order, rows, apart length.Length
	panels             []panel.Panel
	list               furniture.List
}

// layOut plans a piece on a cloth.
func layOut(t testing.TB, p furniture.Piece, c cloth.Cloth, effort plan.Effort) laid {
	t.Helper()
	ans := service.CuttingList(service.CuttingListRequest{Piece: p, Cloth: &c})
	got, err := service.Yardage(context.Background(), service.YardageRequest{Cloth: c, Panels: ans.Covers[furniture.Top], Effort: effort})
	if err != nil {
		t.Fatalf("%s: %v", p.Kind, err)
	}
	return laid{got.Order, got.Result.Rows, eachInItsRow(ans.Covers[furniture.Top], c.Width), ans.Covers[furniture.Top], ans.List}
}

// eachInItsRow is what panels take when only copies of one panel lie side by
// side, as a chart reckons that is made up piece by piece.
func eachInItsRow(panels []panel.Panel, width length.Length) length.Length {
	sum := length.Length(0)
	for _, p := range panels {
		cut := p.Cut()
		rows := length.Length(p.Count)
		if abreast := width / cut.Across; abreast > 0 {
			rows = (rows + abreast - 1) / abreast
		} else {
			rows *= (cut.Across + width - 1) / width
		}
		sum += rows * cut.Along
	}
	return sum
}

// Rows of published charts that follow exactly from what they say of the pieces.
// The arithmetic of each is exact. Easy Upholstery Step-by-Step prints the 4⅓ yd
// that are ordered as 4½; the others stand on pages of general interest (common
// practice, no source).
func TestPublishedPiecesExactly(t *testing.T) {
	plain := cloth.Cloth{Width: 54 * in, OneWay: true}
	slip := func(across, along, pull length.Length, count int) furniture.Piece {
		return furniture.Piece{
			Kind: "drop-in-seat", Count: count, Allow: furniture.Allowances{Pull: new(pull)},
			Measures: map[string]length.Length{"seat-width": across, "seat-depth": along, "pad-thickness": in},
		}
	}
	// 6 in are added each way: 1 in of pad and 2 in of pull on every side.
	for _, row := range []struct {
		id            string
		across, along length.Length
		wantA, wantB  length.Length
	}{
		{"a larger slip seat", 20 * in, 22 * in, 26 * in, 28 * in},
		{"a smaller slip seat", 35 * in / 2, 17 * in, 47 * in / 2, 23 * in},
	} {
		if got := slip(row.across, row.along, 2*in, 1).List().Panels[0].Cut(); got != (panel.Size{Across: row.wantA, Along: row.wantB}) {
			t.Errorf("%s: a seat of %v × %v is cut %v", row.id, row.across, row.along, got)
		}
	}
	for _, row := range []struct {
		id    string
		side  length.Length // of the piece as cut, 6 in more than the seat
		seats int
		want  length.Length
	}{
		{"slip seats", 27 * in, 2, 27 * in}, {"slip seats", 27 * in, 4, 54 * in}, {"slip seats", 27 * in, 6, 81 * in}, {"slip seats", 27 * in, 8, 108 * in},
		{"two across", 24 * in, 3, 48 * in},
	} {
		p := slip(row.side-6*in, row.side-6*in, 2*in, row.seats)
		ans := service.CuttingList(service.CuttingListRequest{Piece: p, Cloth: &plain})
		got, err := service.Yardage(context.Background(), service.YardageRequest{Cloth: plain, Panels: ans.Covers[0]})
		if err != nil || got.Result.Needed() != row.want {
			t.Errorf("%s: %d seats of %v need %v, want %v (%v)", row.id, row.seats, row.side, got.Result.Needed(), row.want, err)
		}
	}
	// What is laid out is rounded up to half a yard.
	for _, row := range []struct {
		id         string
		laid, want length.Length
	}{{"six slip seats", 89 * in, 90 * in}, {"a chair", 13 * yd / 3, 9 * yd / 2}} {
		got, err := service.Yardage(context.Background(), service.YardageRequest{
			Cloth: plain, Sold: cloth.Sold{Step: yd / 2}, Panels: []panel.Panel{{ID: "ALL", Count: 1, Size: panel.Size{Across: 54 * in, Along: row.laid}}},
		})
		if err != nil || got.Order != row.want {
			t.Errorf("%s: %v is ordered as %v, want %v (%v)", row.id, row.laid, got.Order, row.want, err)
		}
	}
	// 4 in are added each way, 2 in on every side.
	wing := furniture.Piece{
		Kind: "wing-chair", Count: 1, Options: map[string]string{"flies": "no"},
		Allow:    furniture.Allowances{Seam: new(2 * in), Pull: new(2 * in), Tuck: new(2 * in), Under: new(2 * in)},
		Measures: map[string]length.Length{"back-width": 32 * in, "back-height": 46 * in, "wing-width": 12 * in, "wing-height": 18 * in},
	}
	want := map[string]panel.Size{"IB": {Across: 36 * in, Along: 50 * in}, "IWL": {Across: 16 * in, Along: 22 * in}, "OWR": {Across: 16 * in, Along: 22 * in}}
	for _, p := range wing.List().Panels {
		if size, ok := want[p.ID]; ok && p.Cut() != size {
			t.Errorf("%s is cut %v, want %v", p.ID, p.Cut(), size)
		}
	}
}

// Skirts as published for loose covers: gathered 1½ times the run, box-pleated
// twice, inverted pleats the run and 32 in; self-lined, twice the
// finished depth and 2.5 cm, 11 cm more at each end of a side with 12 mm seams,
// and 22 cm of underlay (pages on loose covers and inverted-pleat skirts; common
// practice, no source).
func TestPublishedSkirts(t *testing.T) {
	skirt := func(kind, made string) (run, wide, deep length.Length) {
		p := furniture.Piece{Kind: "club-chair", Count: 1, Options: map[string]string{"skirt": kind, "skirt-make": made}, Allow: furniture.Allowances{Seam: new(12500 * length.Micrometre)}}
		for _, q := range p.List().Panels {
			switch q.ID {
			case "KF", "KS", "KB":
				wide += length.Length(q.Count) * q.Size.Across
				deep = q.Cut().Along
			}
		}
		return 2 * (78 + 66) * cm, wide, deep
	}
	for _, row := range []struct {
		kind string
		want func(run length.Length) length.Length
		off  length.Length // how far from the published figure ours may be
	}{
		{"gathered", func(r length.Length) length.Length { return r + r/2 }, 0},
		{"box", func(r length.Length) length.Length { return 2 * r }, 0},
		{"plain", func(r length.Length) length.Length { return r + 32*in }, 2 * cm}, // 80 cm for 32 in
	} {
		run, wide, _ := skirt(row.kind, "hem")
		if d := wide - row.want(run); d > row.off || d < -row.off {
			t.Errorf("a %s skirt is %v wide, published %v", row.kind, wide, row.want(run))
		}
	}
	if _, _, deep := skirt("plain", "self"); deep != 2*16*cm+25*length.Millimetre {
		t.Errorf("a self-lined skirt is cut %v deep", deep)
	}
}

// band is a row of a chart for a whole piece, in yards of plain cloth.
type band struct {
	what, conf  string
	kind        string
	options     map[string]string
	measures    map[string]length.Length
	least, most float64
	inches      length.Length // width of the cloth; 54 when 0
}

// bands are the rows that name a kind of ours. All are of low confidence: pages of
// general interest, or from memory ("common practice, no source"); so none of
// them fails a build. Typical measures were fixed before any of these was looked
// at; a measure is given only where the row gives it.
func bands() []band {
	full := func(more ...string) map[string]string {
		o := map[string]string{"flies": "no", "platform": "cover"}
		for i := 0; i+1 < len(more); i += 2 {
			o[more[i]] = more[i+1]
		}
		return o
	}
	tight := map[string]string{"flies": "no"}
	foot := 12 * in
	wide := func(feet length.Length, arms length.Length) map[string]length.Length {
		w := feet*foot - arms
		return map[string]length.Length{"seat-width": w, "back-width": w, "outside-width": feet * foot}
	}
	return []band{
		{"drop-in seat, at most 18 in deep", "low", "drop-in-seat", nil, nil, .5, .5, 0},
		{"drop-in seat, deeper", "low", "drop-in-seat", nil, map[string]length.Length{"seat-depth": 19 * in}, 1, 1, 0},
		{"club chair", "low", "club-chair", full(), nil, 6, 6, 0},
		{"club chair with a skirt", "low", "club-chair", full("skirt", "box", "skirt-make", "self"), nil, 10, 10, 0},
		{"occasional chair, loose cover", "low", "fireside-chair", map[string]string{"flies": "no", "back": "plain"}, nil, 4, 6, 0},
		{"club chair, loose cover", "low", "club-chair", full(), nil, 6, 7.5, 0},
		{"wing chair, loose cover", "low", "wing-chair", full(), nil, 7, 9, 0},
		{"wing chair, built up piece by piece", "low", "wing-chair", full(), nil, 7, 7, 0},
		{"wing chair with a plain skirt", "low", "wing-chair", full("skirt", "plain"), nil, 9, 9, 0},
		{"sofa of 6 ft, two cushions", "low", "two-seat-settee", full(), wide(6, 24*cm), 12, 12, 0},
		{"sofa of 7 ft, six cushions", "low", "three-seat-settee", full("back", "cushions"), wide(7, 24*cm), 20, 20, 0},
		{"large sofa, loose cover, 60 in cloth", "low", "three-seat-settee", full(), nil, 10, 14, 60},
		{"large sofa, loose cover, 45 in cloth", "low", "three-seat-settee", full(), nil, 16, 20, 45},
		{"small sofa, loose cover, 60 in cloth", "low", "two-seat-settee", full(), nil, 6, 8, 60},
		{"small sofa, loose cover, 45 in cloth", "low", "two-seat-settee", full(), nil, 10, 12, 45},
		{"buttoned armchair of a restorer", "low", "club-chair", map[string]string{"flies": "no", "cushion": "fixed", "back": "buttoned"}, nil, 7.655, 7.655, 0},
		{"side chair, seat and back", "memory", "stuff-over-chair", map[string]string{"back": "pad"}, nil, 1.5, 2, 0},
		{"open armchair", "memory", "carver", nil, nil, 2.5, 3, 0},
		{"tub or barrel chair", "memory", "tub-chair", full(), nil, 5, 6, 0},
		{"chaise", "memory", "chaise", tight, nil, 7, 9, 0},
		{"ottoman", "memory", "footstool", nil, nil, 1, 2, 0},
		{"two-seat settee", "memory", "two-seat-settee", full(), nil, 8, 10, 0},
		{"three-seat settee", "memory", "three-seat-settee", full(), nil, 10, 14, 0},
		{"headboard", "memory", "headboard", nil, nil, 2, 3, 0},
		{"window seat", "memory", "bench-cushion", nil, nil, 2, 4, 0},
	}
}

// reason says in which way of laying the panels a row's figure is met. A single
// figure is an "about": it is met within a twentieth.
func (b band) reason(l laid) string {
	least, most := b.least, b.most
	if least == most {
		least, most = .95*least, 1.05*most
	}
	meets := func(of length.Length) bool { return yards(of) >= least && yards(of) <= most }
	switch {
	case meets(l.order):
		return "within"
	case yards(l.order) > most:
		return "above: the row reckons with a smaller piece than the typical one, or with two out of one width"
	case meets(l.rows):
		return "below: met when laid in rows by hand"
	case meets(l.apart):
		return "below: met when every panel has a row of its own"
	case yards(l.apart) > most:
		return "below: lies between rows by hand and a row for every panel"
	}
	return "below however it is laid: the row reckons with more or larger pieces"
}

func (b band) text() string {
	if b.least == b.most {
		return fmt.Sprintf("%.2f", b.least)
	}
	return fmt.Sprintf("%.1f to %.1f", b.least, b.most)
}

func (b band) layOut(t testing.TB) laid {
	p := furniture.Piece{Kind: b.kind, Count: 1, Options: b.options, Measures: b.measures}
	if l := p.Faults(fault.Path{}); l.Len() > 0 {
		t.Fatalf("%s: %+v", b.what, l.Faults())
	}
	return layOut(t, p, cloth.Cloth{Width: cmp.Or(b.inches, 54) * in, OneWay: true}, plan.Normal)
}

// What each row's kind takes beside the row's band. A figure outside is printed
// with its reason and fails nothing; one that no chart would print does.
func TestTypicalPiecesBesideTheBands(t *testing.T) {
	for _, b := range bands() {
		l := b.layOut(t)
		t.Logf("%-40s %5.2f yd; rows %5.2f, a row each %5.2f; band %s: %s", b.what, yards(l.order), yards(l.rows), yards(l.apart), b.text(), b.reason(l))
		if yards(l.order) > 2*b.most || yards(l.order) < b.least/3 {
			t.Errorf("%s takes %.2f yd, which no chart would print", b.what, yards(l.order))
		}
	}
}
