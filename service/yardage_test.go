package service_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

const (
	nm = length.Nanometre
	mm = length.Millimetre
	cm = length.Centimetre
	m  = length.Metre
)

// drops are curtains as wide as the cloth: three of 2 m take 6 m however they
// are laid.
func drops(sold cloth.Sold) service.YardageRequest {
	return service.YardageRequest{
		Cloth: cloth.Cloth{Width: 140 * cm}, Sold: sold, Effort: plan.Quick,
		Panels: []panel.Panel{{ID: "DROP", Count: 3, Size: panel.Size{Across: 140 * cm, Along: 2 * m}}},
	}
}

// medallion is one panel of 30 cm in the middle of a motif that repeats every
// 32 cm: begun rightly it takes 30 cm, begun just after that a repeat more.
func medallion() service.YardageRequest {
	return service.YardageRequest{
		Cloth:  cloth.Cloth{Width: 50 * cm, Pattern: cloth.Pattern{LengthRepeat: 32 * cm, WidthRepeat: 50 * cm, Motifs: []cloth.Motif{{Name: "rose", Across: 25 * cm}}}},
		Panels: []panel.Panel{{ID: "SEAT", Count: 1, Size: panel.Size{Across: 40 * cm, Along: 30 * cm}, Match: panel.Match{How: panel.Centred}}},
		Effort: plan.Quick,
	}
}

func answer(t *testing.T, req service.YardageRequest) *service.YardageAnswer {
	t.Helper()
	if l := service.YardageFaults(req); l.Len() > 0 {
		t.Fatalf("the request has faults: %+v", l.Faults())
	}
	a, err := service.Yardage(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// The order is the need with flaws, then shrinkage, then as the cloth is sold.
// The figures are worked out by hand from a need of 6 m.
func TestOrder(t *testing.T) {
	const percent = cloth.Percent
	for _, tc := range []struct {
		name string
		sold cloth.Sold
		want length.Length
	}{
		{"as it is", cloth.Sold{}, 6 * m},
		{"2 % for flaws", cloth.Sold{Flaw: 2 * percent}, 612 * cm},
		{"4 % shrinkage", cloth.Sold{Shrinkage: 4 * percent}, 625 * cm},                                   // 6 / 0.96
		{"flaws and shrinkage", cloth.Sold{Flaw: 2 * percent, Shrinkage: 4 * percent}, 6375 * mm},         // 6.12 / 0.96
		{"3 % shrinkage, to the nanometre above", cloth.Sold{Shrinkage: 3 * percent}, 6_185_567_011 * nm}, // 6 / 0.97 = 6.1855670103…
		{"the most of both", cloth.Sold{Flaw: 50 * percent, Shrinkage: 50 * percent}, 18 * m},
		{"by the half metre", cloth.Sold{Flaw: 2 * percent, Step: 50 * cm}, 650 * cm},
		{"by the metre, exactly", cloth.Sold{Step: m}, 6 * m},
		{"by 7 m", cloth.Sold{Step: 7 * m}, 7 * m},
		{"at least 10 m", cloth.Sold{Minimum: 10 * m}, 10 * m},
		{"at least 10 m by 3 m", cloth.Sold{Minimum: 10 * m, Step: 3 * m}, 12 * m},
		{"at least 5 m", cloth.Sold{Minimum: 5 * m, Flaw: percent}, 606 * cm},
		{"by the yard", cloth.Sold{Step: length.Yard}, 7 * length.Yard}, // 6.56 yd
	} {
		a := answer(t, drops(tc.sold))
		if a.Result.Needed() != 6*m || a.Order != tc.want || a.Lengths[0].Order != tc.want {
			t.Errorf("%s: needed %v, order %v and %v, want %v", tc.name, a.Result.Needed(), a.Order, a.Lengths[0].Order, tc.want)
		}
		if len(a.Warnings) > 0 {
			t.Errorf("%s: warnings %q", tc.name, a.Warnings)
		}
	}
}

// Where nothing is known of the cloth, a repeat more is ordered, and that is
// said; where its start is known, what the plan takes from there.
func TestOrderForAnyStart(t *testing.T) {
	req := medallion()
	req.Sold.Step = 10 * cm
	a := answer(t, req)
	if a.Result.Needed() != 30*cm || a.AnyStart != 62*cm || a.Order != 70*cm {
		t.Errorf("needed %v, any start %v, order %v", a.Result.Needed(), a.AnyStart, a.Order)
	}
	if start := a.Lengths[0].Start; start != 17*cm { // the motif 15 cm below the cut
		t.Errorf("start %v", start)
	}
	if len(a.Warnings) != 1 || !a.Warnings[0].Same(note.New(note.BeginsElsewhere)) {
		t.Errorf("warnings %q", a.Warnings)
	}
	req.Cloth.StartsAt = new(length.Length(0)) // at 0: motifs at 0 and 32 cm, so that the panel lies from 17 to 47 cm
	a = answer(t, req)
	if a.Result.Needed() != 47*cm || a.AnyStart != 47*cm || a.Order != 50*cm || len(a.Warnings) > 0 {
		t.Errorf("start known: needed %v, any start %v, order %v, warnings %q", a.Result.Needed(), a.AnyStart, a.Order, a.Warnings)
	}
}

// A job longer than a bolt is cut from several lengths, each ordered by itself.
func TestBolts(t *testing.T) {
	a := answer(t, drops(cloth.Sold{Bolt: 250 * cm, Step: 30 * cm}))
	if len(a.Lengths) != 3 || a.Order != 630*cm || a.AnyStart != 6*m {
		t.Fatalf("%d lengths, order %v, any start %v", len(a.Lengths), a.Order, a.AnyStart)
	}
	for k, l := range a.Lengths {
		if l.Needed != 2*m || l.Order != 210*cm || a.Result.Cut[k].Length != 2*m {
			t.Errorf("length %d: %+v", k, l)
		}
	}
	if len(a.Warnings) != 1 || !a.Warnings[0].Same(note.New(note.SeveralLengths, note.Count("lengths", 3))) {
		t.Errorf("warnings %q", a.Warnings)
	}
	a = answer(t, drops(cloth.Sold{Bolt: 250 * cm, Flaw: 30 * cloth.Percent})) // 2.6 m from bolts of 2.5 m
	if a.Order != 780*cm || len(a.Warnings) != 2 || !strings.Contains(a.Warnings[1].Text(length.Metric), "2.6 m is longer than a bolt of 2.5 m") {
		t.Errorf("order %v, warnings %q", a.Order, a.Warnings)
	}
}

// Pieces in hand are used first, and what is wanting is ordered as it is sold.
func TestPieces(t *testing.T) {
	for _, tc := range []struct {
		name   string
		req    service.YardageRequest
		pieces []length.Length
		enough service.Enough
		short  length.Length
		order  length.Length
	}{
		{"enough", drops(cloth.Sold{}), []length.Length{2 * m, 4 * m}, service.EnoughYes, 0, 0},
		{"one drop wanting", drops(cloth.Sold{Step: 150 * cm}), []length.Length{410 * cm, 190 * cm}, service.EnoughNo, 2 * m, 3 * m},
		{"too short for anything", drops(cloth.Sold{Flaw: 5 * cloth.Percent}), []length.Length{199 * cm}, service.EnoughNo, 6 * m, 630 * cm},
		{"as long as the plan", medallion(), []length.Length{30 * cm}, service.EnoughIfBegun, 0, 0},
		{"as long as any plan", medallion(), []length.Length{62 * cm}, service.EnoughYes, 0, 0},
	} {
		tc.req.Pieces = tc.pieces
		a := answer(t, tc.req)
		p := a.Pieces
		if p == nil || p.Enough != tc.enough || p.Short != tc.short || p.Order != tc.order {
			t.Errorf("%s: %+v", tc.name, p)
			continue
		}
		if len(p.Uses) != len(tc.pieces)+1 || p.Uses[0].Length != tc.order {
			t.Errorf("%s: uses %+v", tc.name, p.Uses)
		}
		laid := 0
		for k, u := range p.Uses {
			laid += len(u.Layout.Placements)
			if k > 0 && (u.Length != tc.pieces[k-1] || u.Layout.Length > u.Length) {
				t.Errorf("%s: piece %d: %+v", tc.name, k, u)
			}
		}
		if laid != tc.req.Panels[0].Count {
			t.Errorf("%s: %d panels are laid", tc.name, laid)
		}
	}
	if a := answer(t, drops(cloth.Sold{})); a.Pieces != nil {
		t.Error("pieces are answered that were not asked about")
	}
}

// Seams are told from the left edge of the cut panel.
func TestJoins(t *testing.T) {
	req := drops(cloth.Sold{})
	req.Panels = []panel.Panel{
		{ID: "PLAIN", Count: 1, Size: panel.Size{Across: 100 * cm, Along: 50 * cm}},
		// 200 cm in two halves: sewn at 100 cm.
		{ID: "HALVES", Count: 2, Size: panel.Size{Across: 200 * cm, Along: 50 * cm}, Join: panel.JoinHalves, JoinSeam: 15 * mm},
		// 260 cm with a middle of the full 140 cm, of which 137 cm show between
		// the seams: sewn at (260 - 137) / 2 cm and as far from the right.
		{ID: "SIDES", Count: 1, Size: panel.Size{Across: 250 * cm, Along: 50 * cm}, Allow: panel.Sides{Left: 5 * cm, Right: 5 * cm}, Join: panel.JoinSides, JoinSeam: 15 * mm},
	}
	want := []service.Joined{
		{Panel: 1, Copy: 1, Seams: []length.Length{100 * cm}},
		{Panel: 1, Copy: 2, Seams: []length.Length{100 * cm}},
		{Panel: 2, Copy: 1, Seams: []length.Length{615 * mm, 1985 * mm}},
	}
	got := answer(t, req).Joins
	if !slices.EqualFunc(got, want, func(a, b service.Joined) bool {
		return a.Panel == b.Panel && a.Copy == b.Copy && slices.Equal(a.Seams, b.Seams)
	}) {
		t.Errorf("joins %+v, want %+v", got, want)
	}
}

// An offcut says what it would still make: free panels, piping, buttons.
func TestOffcutUses(t *testing.T) {
	req := drops(cloth.Sold{})
	req.Panels = []panel.Panel{
		{ID: "DROP", Count: 1, Size: panel.Size{Across: 100 * cm, Along: 2 * m}},
		{ID: "CUFF", Name: "cuff", Count: 1, Size: panel.Size{Across: 600 * mm, Along: 390 * mm}, Turn: panel.Quarter}, // which fits beside the drop by a quarter turn
	}
	a := answer(t, req)
	if len(a.Offcuts) == 0 {
		t.Fatal("no offcuts")
	}
	largest := a.Offcuts[0]
	makes := func(name string) bool {
		return slices.ContainsFunc(largest.WouldMake, note.New(note.MakesPanel, note.Name("panel", name)).Same)
	}
	if !makes("cuff") || makes("DROP") || !slices.ContainsFunc(largest.WouldMake, func(n note.Note) bool { return n.Code == note.MakesStraight }) {
		t.Errorf("%+v", largest)
	}
}

func TestYardageWarnings(t *testing.T) {
	req := medallion()
	req.Cloth.Pattern.Drop = cloth.Drop{Num: 1, Den: 3}
	req.Cloth.StartsAt = new(length.Length(0))
	req.Panels[0].Count, req.Panels[0].Pair = 2, "SEAT"
	if a := answer(t, req); len(a.Warnings) != 1 || !a.Warnings[0].Same(note.New(note.NotMirrored)) {
		t.Errorf("warnings %q", a.Warnings)
	}
	req.Panels[0].PairAs = panel.SameMotif
	if a := answer(t, req); len(a.Warnings) > 0 {
		t.Errorf("the same motif: warnings %q", a.Warnings)
	}
}

func TestYardageCautions(t *testing.T) {
	about := func(req service.YardageRequest, code note.Code) bool {
		return slices.ContainsFunc(answer(t, req).Cautions, note.New(code).Same)
	}
	washed := drops(cloth.Sold{Shrinkage: cloth.Percent})
	if about(drops(cloth.Sold{}), note.MeasureRepeats) || !about(medallion(), note.MeasureRepeats) || !about(washed, note.ShrinksAlong) || about(medallion(), note.ShrinksAlong) {
		t.Error("the cautions are not those of the job")
	}
	if !about(medallion(), note.FireRules) || !about(medallion(), note.MeasureCloth) {
		t.Error("a caution for every job is not there")
	}
}

// No answer is given once the context has ended, whenever that was.
func TestYardageEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if a, err := service.Yardage(ctx, drops(cloth.Sold{})); a != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("answer %v, error %v", a, err)
	}
	req := medallion()
	req.Pieces = []length.Length{m}
	for polls := range 20 {
		if _, err := service.Yardage(&ending{Context: context.Background(), after: polls}, req); err != nil && !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("ended at poll %d: %v", polls, err)
		}
	}
	if _, err := service.Yardage(&ending{Context: context.Background(), after: 1}, req); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("ended at the second poll: %v", err)
	}
}

// ending is a context that ends when it has been asked after times.
type ending struct {
	context.Context
	after int
}

func (c *ending) Err() error {
	if c.after--; c.after < 0 {
		return context.DeadlineExceeded
	}
	return nil
}

// What is wrong with a job is found by its field, and first of all the fields.
func TestYardageFaults(t *testing.T) {
	for _, tc := range []struct {
		name   string
		change func(*service.YardageRequest)
		want   []string
	}{
		{"nothing", func(*service.YardageRequest) {}, nil},
		{"no panels", func(r *service.YardageRequest) { r.Panels = nil }, []string{"#/panels too-few"}},
		{"pieces", func(r *service.YardageRequest) {
			r.Pieces = []length.Length{service.MinPiece - 1, service.MinPiece, service.MaxPiece, service.MaxPiece + 1}
		}, []string{"#/pieces/0 too-small", "#/pieces/3 too-large"}},
		{"no place", func(r *service.YardageRequest) { r.Cloth.Pattern.Motifs[0].Across = 10 * cm }, []string{"#/panels/0/match no-place"}},
		{"no place, and a width that is none", func(r *service.YardageRequest) { r.Cloth.Pattern.Motifs[0].Across, r.Cloth.Width = 10*cm, 0 }, []string{
			"#/cloth/width too-small"}},
		{"sold", func(r *service.YardageRequest) { r.Sold.Flaw = 60 * cloth.Percent }, []string{"#/cloth/flawAllowance too-large"}},
	} {
		req := medallion()
		tc.change(&req)
		list := service.YardageFaults(req)
		var got []string
		for _, f := range list.Faults() {
			got = append(got, f.Pointer()+" "+string(f.Code))
		}
		if !slices.Equal(got, tc.want) {
			t.Errorf("%s: faults %q, want %q", tc.name, got, tc.want)
		}
	}
}

// New cloth beside pieces in hand is cut from as many bolts as it takes.
func TestPiecesBesideAShortBolt(t *testing.T) {
	req := drops(cloth.Sold{Bolt: 3 * m})
	req.Pieces = []length.Length{1 * m}
	a := answer(t, req)
	if a.Pieces == nil || a.Pieces.Order != 6*m || a.Pieces.Least != 6*m || a.Pieces.Enough != service.EnoughNo {
		t.Fatalf("the pieces are answered %+v, want 6 m to buy and no less", a.Pieces)
	}
	// The first length to buy, the piece in hand, two more lengths to buy.
	want := []length.Length{2 * m, 0, 2 * m, 2 * m}
	for k, u := range a.Pieces.Uses {
		if k >= len(want) || u.Layout.Length != want[k] {
			t.Errorf("length %d is used for %v, want %v", k, u.Layout.Length, want)
		}
	}
	if !slices.ContainsFunc(a.Warnings, note.New(note.SeveralBeside, note.Count("lengths", 3)).Same) {
		t.Errorf("warnings %q do not say that the new cloth comes in three lengths", a.Warnings)
	}
}
