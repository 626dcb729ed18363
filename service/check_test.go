package service_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// byHand asks whether the drops are laid rightly, one above the other.
func byHand(sold cloth.Sold) service.CheckRequest {
	req := service.CheckRequest{YardageRequest: drops(sold)}
	for k := range 3 {
		req.Placements = append(req.Placements, service.HandPlacement{Panel: "DROP", Copy: k + 1, Part: 1, Parts: 1, Y: length.Length(k) * 2 * m})
	}
	return req
}

func check(t *testing.T, req service.CheckRequest) *service.CheckAnswer {
	t.Helper()
	if l := service.CheckFaults(req); l.Len() > 0 {
		t.Fatalf("the request has faults: %+v", l.Faults())
	}
	a, err := service.Check(context.Background(), req, service.Yardage)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// said are the faults as kind, place in the request and how far out.
func said(a *service.CheckAnswer) string {
	var all []string
	for _, f := range a.Faults {
		all = append(all, fmt.Sprintf("%s %d %d %s", f.Kind, f.At, f.With, f.By))
	}
	return strings.Join(all, "; ")
}

func TestCheckOrdersEachLength(t *testing.T) {
	req := byHand(cloth.Sold{Flaw: 10 * cloth.Percent, Step: m, Minimum: 3 * m})
	a := check(t, req)
	if !a.Right() || a.Length() != 6*m || a.Order() != 7*m || a.WouldSave() != 0 || a.Engine.Order != 7*m { // 6.6 m
		t.Errorf("faults %s, length %v, order %v, saves %v", said(a), a.Length(), a.Order(), a.WouldSave())
	}
	req.Placements[2].Piece, req.Placements[2].Y = 4, 0 // 4.4 m, which are sold as 5, and 2.2 m, which are sold as 3
	a = check(t, req)
	if !a.Right() || len(a.Hand) != 5 || a.Length() != 6*m || a.Order() != 8*m || a.Orders[1] != 0 || a.Orders[4] != 3*m {
		t.Errorf("in two lengths: faults %s, order %v of %v", said(a), a.Order(), a.Orders)
	}
	if len(a.Warnings) != 1 || !a.Warnings[0].Same(note.New(note.HandLengths, note.Count("lengths", 2))) {
		t.Errorf("warnings %q", a.Warnings)
	}
}

func TestCheckWarnings(t *testing.T) {
	a := check(t, byHand(cloth.Sold{Bolt: 610 * cm, Flaw: 5 * cloth.Percent}))
	if !a.Right() || !strings.Contains(strings.Join(note.Texts(a.Warnings, length.Metric), "\n"), "6.3 m is longer than a bolt of 6.1 m") {
		t.Errorf("faults %s, warnings %q", said(a), a.Warnings)
	}
	a = check(t, byHand(cloth.Sold{Bolt: 5 * m}))
	if got := said(a); got != "past-the-bolt -1 -1 1000 mm" || len(a.Warnings) > 0 {
		t.Errorf("faults %s, warnings %q", got, a.Warnings)
	}
	req := service.CheckRequest{YardageRequest: medallion()}
	start := 17 * cm
	req.Lengths = []service.HandLength{{Start: &start}}
	req.Placements = []service.HandPlacement{{Panel: "SEAT", Copy: 1, Part: 1, Parts: 1, X: 5 * cm}}
	a = check(t, req)
	if !a.Right() || len(a.Warnings) != 1 || !a.Warnings[0].Same(note.New(note.HandStart)) {
		t.Errorf("faults %s, warnings %q", said(a), a.Warnings)
	}
	req.Cloth.StartsAt, req.Lengths = &start, nil
	if a = check(t, req); !a.Right() || len(a.Warnings) > 0 || a.Hand[0].Start != start {
		t.Errorf("start known: faults %s, warnings %q", said(a), a.Warnings)
	}
}

// A plan that beats the engine's is said to be kept, unless it is wrong.
func TestCheckThatBeatsTheEngine(t *testing.T) {
	long := func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		a, err := service.Yardage(ctx, req)
		if err == nil {
			a.Result.Cut[0].Length += 5 * cm
		}
		return a, err
	}
	req := byHand(cloth.Sold{})
	a, err := service.Check(context.Background(), req, long)
	if err != nil || a.WouldSave() != -5*cm || len(a.Warnings) != 1 || !strings.Contains(a.Warnings[0].Text(length.Metric), "shorter than the engine's by 5 cm: keep it") {
		t.Errorf("%v: saves %v, warnings %q", err, a.WouldSave(), a.Warnings)
	}
	req.Placements = req.Placements[:2]
	a, err = service.Check(context.Background(), req, long)
	if err != nil || a.Right() || a.WouldSave() != -205*cm || len(a.Warnings) > 0 {
		t.Errorf("%v: right %v, saves %v, warnings %q", err, a.Right(), a.WouldSave(), a.Warnings)
	}
}

// Faults come in cutting order, whatever the order of the placements, and those
// about the whole come first.
func TestCheckFaultsAreInCuttingOrder(t *testing.T) {
	req := byHand(cloth.Sold{})
	req.Panels[0].Count = 6
	place := func(copy, piece int, x, y length.Length) service.HandPlacement {
		return service.HandPlacement{Panel: "DROP", Copy: copy, Piece: piece, Part: 1, Parts: 1, X: x, Y: y}
	}
	req.Placements = []service.HandPlacement{
		place(1, 1, 4*mm, 0), place(2, 0, 3*mm, 2*m), place(3, 0, -1*mm, 0), place(4, 0, 2*mm, 0),
	}
	req.Lengths = []service.HandLength{{Piece: 1, Length: 201 * cm}}
	want := "missing -1 -1 0 mm; wrong-length -1 -1 10 mm; off-the-cloth 2 -1 1 mm; off-the-cloth 3 -1 2 mm; overlap 3 2 1397 mm; off-the-cloth 1 -1 3 mm; off-the-cloth 0 -1 4 mm"
	if got := said(check(t, req)); got != want {
		t.Errorf("faults are\n%s\nwant\n%s", got, want)
	}
}

// Extents that are left out are those of the panel as it is turned; those that
// are given are looked at.
func TestCheckFillsInTheExtents(t *testing.T) {
	req := service.CheckRequest{YardageRequest: drops(cloth.Sold{})}
	req.Panels = []panel.Panel{{ID: "FLY", Count: 1, Size: panel.Size{Across: 60 * cm, Along: 20 * cm}, Allow: panel.Sides{Top: cm}, Turn: panel.Quarter}}
	one := service.HandPlacement{Panel: "FLY", Copy: 1, Part: 1, Parts: 1, Turn: panel.Quarter}
	req.Placements = []service.HandPlacement{one}
	a := check(t, req)
	if p := a.Hand[0].Placements[0]; !a.Right() || p.Across != 21*cm || p.Along != 60*cm || a.Length() != 60*cm {
		t.Errorf("faults %s, laid %+v", said(a), p)
	}
	across := 22 * cm
	req.Placements[0].Across = &across
	if got := said(check(t, req)); got != "wrong-size 0 -1 10 mm" {
		t.Errorf("too wide: %s", got)
	}
	along := 60 * cm
	req.Placements[0].Along = &along
	req.Placements[0].Turn = panel.Upright
	if got := said(check(t, req)); got != "wrong-size 0 -1 390 mm" {
		t.Errorf("the extents of another turn: %s", got)
	}
}

// A motif need not be named. One that is named wrongly is a fault where the
// wish is kept, and no fault of its own where it is not.
func TestCheckOfMotifs(t *testing.T) {
	req := service.CheckRequest{YardageRequest: medallion()}
	start := 17 * cm
	req.Lengths = []service.HandLength{{Start: &start}}
	at := func(x length.Length, motif *service.HandMotif) string {
		req.Placements = []service.HandPlacement{{Panel: "SEAT", Copy: 1, Part: 1, Parts: 1, X: x, Motif: motif}}
		return said(check(t, req))
	}
	rose := &service.HandMotif{Name: "rose", X: 25 * cm, Y: 15 * cm}
	for _, tc := range []struct {
		x     length.Length
		motif *service.HandMotif
		want  string
	}{
		{5 * cm, nil, ""},
		{5 * cm, rose, ""},
		{5 * cm, &service.HandMotif{Name: "rose", X: 25 * cm, Y: 14 * cm}, "motif-misreported 0 -1 0 mm"},
		{7 * cm, nil, "motif-off 0 -1 20 mm"},
		{7 * cm, rose, "motif-off 0 -1 20 mm"},
	} {
		if got := at(tc.x, tc.motif); got != tc.want {
			t.Errorf("at %v with %+v: %q, want %q", tc.x, tc.motif, got, tc.want)
		}
	}
}

// The pieces of the job are not looked at: the engine is not asked about them.
func TestCheckLeavesPiecesAlone(t *testing.T) {
	req := byHand(cloth.Sold{})
	req.Pieces = []length.Length{-1}
	if a := check(t, req); !a.Right() || a.Engine.Pieces != nil {
		t.Errorf("faults %s, pieces %+v", said(a), a.Engine.Pieces)
	}
}

func TestCheckErrors(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := service.Check(ctx, byHand(cloth.Sold{}), service.Yardage); !errors.Is(err, context.Canceled) {
		t.Errorf("the context has ended: %v", err)
	}
	broken := errors.New("broken")
	fails := func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) { return nil, broken }
	if _, err := service.Check(context.Background(), byHand(cloth.Sold{}), fails); !errors.Is(err, broken) {
		t.Errorf("the engine fails: %v", err)
	}
	none := func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) { return nil, nil }
	if _, err := service.Check(context.Background(), byHand(cloth.Sold{}), none); err == nil {
		t.Error("the engine says nothing, and no error is told")
	}
	high := func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		a, err := service.Yardage(ctx, req)
		if err == nil {
			a.Result.Bound = 6*m + 2*length.Micrometre
		}
		return a, err
	}
	if _, err := service.Check(context.Background(), byHand(cloth.Sold{}), high); !errors.Is(err, service.ErrUnsound) {
		t.Errorf("a bound above a right plan: %v", err)
	}
	split := byHand(cloth.Sold{})
	split.Placements[2].Piece, split.Placements[2].Y = 1, 0
	if _, err := service.Check(context.Background(), split, high); err != nil {
		t.Errorf("a bound for one length says nothing of two: %v", err)
	}
	bad := byHand(cloth.Sold{})
	bad.Placements[0].Copy = 4
	if l := service.CheckFaults(bad); l.Len() != 1 {
		t.Errorf("faults %+v", l.Faults())
	}
	if _, err := service.Check(context.Background(), bad, service.Yardage); !errors.Is(err, service.ErrUnsound) {
		t.Errorf("a request with faults: %v", err)
	}
}

// What the engine answers for random jobs is right by hand too.
func TestCheckAgreesWithTheEngine(t *testing.T) {
	checked := 0
	for n := range 60 {
		job := randomJob(uint64(n))
		if l := service.YardageFaults(job); l.Len() > 0 {
			continue
		}
		a := answer(t, job)
		req := service.CheckRequest{YardageRequest: job}
		for k, l := range a.Result.Cut {
			start := l.Start
			req.Lengths = append(req.Lengths, service.HandLength{Piece: k, Start: &start, Length: l.Length})
			for _, p := range l.Placements {
				across, along := p.Across, p.Along
				hand := service.HandPlacement{Panel: job.Panels[p.Panel].ID, Copy: p.Copy, Piece: k, Part: p.Part, Parts: p.Parts, From: p.From,
					X: p.X, Y: p.Y, Across: &across, Along: &along, Turn: p.Turn}
				if p.Motif != nil {
					hand.Motif = &service.HandMotif{Name: job.Cloth.Pattern.Principal()[p.Motif.Motif].Name, X: p.Motif.X, Y: p.Motif.Y}
				}
				req.Placements = append(req.Placements, hand)
			}
		}
		same := func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) { return a, nil }
		got, err := service.Check(context.Background(), req, same)
		if err != nil {
			t.Errorf("job %d: %v", n, err)
		} else if !got.Right() || got.WouldSave() != 0 {
			t.Errorf("job %d: %s, saves %v", n, said(got), got.WouldSave())
		}
		checked++
	}
	if checked < 20 {
		t.Errorf("only %d jobs could be planned", checked)
	}
}

// randomJob is a small job of free, centred and joined panels.
func randomJob(n uint64) service.YardageRequest {
	next := func(most uint64) length.Length { // a plain generator is enough to vary the jobs
		n = n*6364136223846793005 + 1442695040888963407
		return length.Length(n >> 33 % most)
	}
	req := service.YardageRequest{Effort: plan.Quick, Cloth: cloth.Cloth{
		Width:   (100 + next(50)) * cm,
		Pattern: cloth.Pattern{LengthRepeat: (20 + next(40)) * cm, WidthRepeat: (20 + next(30)) * cm, Drop: cloth.Half()},
	}}
	for k := range 2 + int(next(4)) {
		p := panel.Panel{ID: string(rune('A' + k)), Count: 1 + int(next(3)), Size: panel.Size{Across: (10 + next(60)) * cm, Along: (10 + next(80)) * cm}}
		switch next(4) {
		case 0:
			p.Match.How = panel.Centred
		case 1:
			p.Match.How = panel.Across
		case 2:
			p.Size.Across += 100 * cm
			p.Join, p.JoinSeam = panel.JoinHalves, 15*mm
		}
		req.Panels = append(req.Panels, p)
	}
	return req
}
