package httpapi_test

import (
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// full is an answer with everything in it, in nanometres that tell the fields
// apart.
func full(_ context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
	const mm, cm = length.Millimetre, length.Centimetre
	whole := plan.Placement{Panel: 0, Copy: 1, Part: 1, Parts: 1, X: 2*mm + 1, Y: 0, Across: 68 * cm, Along: 94 * cm,
		Turn: panel.Half, Motif: &plan.MotifAt{Motif: 1, X: 34*cm + 2, Y: 47 * cm}}
	part := plan.Placement{Panel: 1, Copy: 2, Part: 2, Parts: 3, From: 61 * cm, X: 1, Y: 94 * cm, Across: 60 * cm, Along: 66 * cm, Turn: panel.Quarter}
	return &service.YardageAnswer{
		Request: req, Order: 2000*mm + 1, AnyStart: 1900*mm + 1,
		Lengths:  []service.CutLength{{Needed: 1000*mm + 1, Start: 5 * mm, Order: 1100 * mm}, {Needed: 600 * mm, Start: 0, Order: 700 * mm}},
		Offcuts:  []service.Offcut{{Piece: 1, Rect: plan.Rect{X: 3 * mm, Y: 4 * mm, Across: 5 * mm, Along: 6 * mm}}},
		Joins:    []service.Joined{{Panel: 1, Copy: 2, Seams: []length.Length{61 * cm, 99*cm + 1}}},
		Warnings: []note.Note{note.New(note.SeveralLengths, note.Count("lengths", 2))},
		Pieces: &service.PiecesAnswer{Enough: service.EnoughIfBegun, Short: 1, Order: 10 * cm, Uses: []service.PieceUse{
			{}, {Length: 5500 * mm, Layout: plan.Layout{Length: 940 * mm, Start: 7 * mm, Placements: []plan.Placement{whole}}, AnyStart: true},
		}},
		Result: plan.Result{
			Cut: []plan.Layout{
				{Length: 1000*mm + 1, Start: 5*mm + 400_000, Placements: []plan.Placement{whole}},
				{Length: 600 * mm, Placements: []plan.Placement{part}},
			},
			Bound: 1500*mm + 999_999, BoundBy: note.BoundArea, Proven: false, Ended: plan.NothingLeft, Rows: 1800 * mm,
			Railroaded: true, Work: plan.Work{Used: 7, Budget: 9},
		},
	}, nil
}

func TestWireAnswer(t *testing.T) {
	opts := options()
	opts.Yardage = full
	w := newClient(t, opts).post(sound)
	if w.Code != 200 {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	var got gen.YardageAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	quantity := func(name string, q gen.Quantity, mm float64, text string) {
		t.Helper()
		if q.Mm != mm || q.Text != text {
			t.Errorf("%s = %v, want {%v %q}", name, q, mm, text)
		}
	}
	quantity("order", got.Order, 2000.000001, "2.001 m")
	quantity("needed", got.Needed, 1600.000001, "1.601 m")
	quantity("start", got.Start, 5.4, "0.5 cm")
	quantity("anyStart", got.AnyStart, 1900.000001, "1.901 m")
	quantity("bound", got.Bound, 1500.999999, "1.5 m")
	quantity("rowsMethod", got.RowsMethod, 1800, "1.8 m")
	quantity("saved", got.Saved, 199.999999, "19.9 cm")
	quantity("lengths[0].needed", got.Lengths[0].Needed, 1000.000001, "1.001 m")
	quantity("lengths[1].order", got.Lengths[1].Order, 700, "70 cm")
	quantity("pieces.short", got.Pieces.Short, 0.000001, "0.1 cm")
	quantity("pieces.lengths[1].used", got.Pieces.Lengths[1].Used, 940, "94 cm")
	quantity("pieces.lengths[1].start", got.Pieces.Lengths[1].Start, 7, "0.7 cm")
	if got.Gap != 6.6 { // 99.000002 of 1500.999999
		t.Errorf("gap = %v, want 6.6", got.Gap)
	}
	if got.Ended != gen.YardageAnswerEndedNothingLeftToTry || !got.Railroaded || got.Work.Used != 7 || got.BoundBy.Code != string(note.BoundArea) || got.BoundBy.Text != "area" {
		t.Errorf("ended %q, railroaded %v, work %v, by %+v", got.Ended, got.Railroaded, got.Work, got.BoundBy)
	}
	if got.Engine != service.EngineVersion || len(got.InputDigest) != len("sha256:")+64 {
		t.Errorf("engine %q, digest %q", got.Engine, got.InputDigest)
	}
	wantPlacements(t, got)
	if got.Pieces.Enough != gen.PiecesAnswerEnoughIfBegunAtStart || !got.Pieces.Lengths[1].AnyStart {
		t.Errorf("pieces = %+v", got.Pieces)
	}
	if j := got.Joins[0]; j.Panel != "SEAT" || j.Copy != 2 || len(j.SeamsMm) != 2 || j.SeamsMm[1] != 990.000001 {
		t.Errorf("join = %+v", j)
	}
	if o := got.Offcuts[0]; o.Piece != 1 || o.XMm != 3 || o.YMm != 4 || o.AcrossMm != 5 || o.AlongMm != 6 || o.WouldMake == nil {
		t.Errorf("offcut = %+v", o)
	}
}

func wantPlacements(t *testing.T, got gen.YardageAnswer) {
	t.Helper()
	first, second := got.Placements[0], got.Placements[1]
	if first.Panel != "IB" || first.Piece != 0 || first.Turn != gen.PlacementTurnHalf || first.XMm != 2.000001 || first.AcrossMm != 680 || first.AlongMm != 940 || first.Part != nil {
		t.Errorf("placement 0 = %+v", first)
	}
	if m := first.Motif; m == nil || m.Name != "sedge" || m.XMm != 340.000002 || m.YMm != 470 {
		t.Errorf("motif 0 = %+v", m)
	}
	if second.Panel != "SEAT" || second.Piece != 1 || second.Copy != 2 || second.Turn != gen.PlacementTurnQuarter || second.YMm != 940 || second.Motif != nil {
		t.Errorf("placement 1 = %+v", second)
	}
	if p := second.Part; p == nil || p.Number != 2 || p.Of != 3 || p.FromMm != 610 {
		t.Errorf("part 1 = %+v", p)
	}
	if p := got.Pieces.Placements[0]; p.Piece != 1 || p.Panel != "IB" {
		t.Errorf("placement in a piece = %+v", p)
	}
}

// Lists that are empty are lists, and texts are in the units asked for.
func TestWireAnswerEmptyAndImperial(t *testing.T) {
	c := newClient(t, options())
	w := c.post(`{"units":"imperial","cloth":{"width":"54 in"},"panels":[{"id":"A","size":{"across":"18 in","along":"40 1/2 in"}}]}`)
	for _, want := range []string{`"offcuts":[]`, `"joins":[]`, `"warnings":[]`, `"cautions":[]`, `"text":"1 yd 4 1/2 in"`, `"mm":1028.7`} {
		if !strings.Contains(w.Body.String(), want) {
			t.Errorf("no %s in %s", want, w.Body)
		}
	}
	if strings.Contains(w.Body.String(), "null") || strings.Contains(w.Body.String(), `"pieces":{`) {
		t.Errorf("null or pieces in %s", w.Body)
	}
}

// Figures at the ends of the range come out as numbers.
func TestWireAnswerIsFinite(t *testing.T) {
	opts := options()
	opts.Yardage = func(_ context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		return &service.YardageAnswer{Request: req, Order: math.MaxInt64, Result: plan.Result{
			Cut: []plan.Layout{{Length: math.MaxInt64}}, Bound: 1, Rows: math.MinInt64,
		}}, nil
	}
	s := newServer(t, opts)
	c := &client{t: &quiet{TB: t}, doc: spec(t), handler: s.Handler()} // the figures are past the contract's limits
	if w := c.post(sound); w.Code != 200 || !json.Valid(w.Body.Bytes()) {
		t.Errorf("status %d: %s", w.Code, w.Body)
	}
}

// quiet is a test that does not hear of errors.
type quiet struct{ testing.TB }

func (*quiet) Errorf(string, ...any) {}

// The same request gives the same bytes; the digest does not depend on how the
// request was written down, and does on what it says.
func TestSameBytesAndDigest(t *testing.T) {
	c := newClient(t, options())
	first, second := c.post(sound), c.post(sound)
	if first.Body.String() != second.Body.String() {
		t.Error("the same request gave other bytes")
	}
	digest := func(body string) string {
		var a gen.YardageAnswer
		if err := json.Unmarshal(c.post(body).Body.Bytes(), &a); err != nil {
			t.Fatal(err)
		}
		return a.InputDigest
	}
	want := digest(sound)
	if !strings.HasPrefix(want, "sha256:") {
		t.Errorf("digest %q", want)
	}
	var v any
	if err := json.Unmarshal([]byte(sound), &v); err != nil {
		t.Fatal(err)
	}
	sorted, err := json.MarshalIndent(v, "", "\t\t")
	if err != nil {
		t.Fatal(err)
	}
	if got := digest(string(sorted)); got != want {
		t.Errorf("in another order: %q, want %q", got, want)
	}
	if got := digest(spoil(t, "inside back", `inside b\u0061ck`)); got != want {
		t.Errorf("with an escape: %q, want %q", got, want)
	}
	if got := digest(spoil(t, "inside back", "inside")); got == want {
		t.Error("another request has the same digest")
	}
}
