package buying_test

import (
	"context"
	"testing"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
)

const cm = length.Centimetre

// answered is what an operation answers to a request without faults.
func answered[R, A any](t testing.TB, req R, answer func(context.Context, R) (*A, error)) *A {
	t.Helper()
	a, err := answer(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func pipingAnswer(t testing.TB, req service.PipingRequest) *service.PipingAnswer {
	t.Helper()
	return answered(t, req, service.Piping)
}

func button(t testing.TB, req service.ButtoningRequest) *service.ButtoningAnswer {
	t.Helper()
	return answered(t, req, service.Buttoning)
}

func waddingOf(t testing.TB, req service.WaddingRequest) *service.WaddingAnswer {
	t.Helper()
	return answered(t, req, service.Wadding)
}

func foundationOf(t testing.TB, req service.FoundationRequest) *service.FoundationAnswer {
	t.Helper()
	return answered(t, req, service.Foundation)
}

func answer(t testing.TB, req service.YardageRequest) *service.YardageAnswer {
	t.Helper()
	return answered(t, req, service.Yardage)
}

// pipingRequest asks for a cushion and two facings from new cloth.
func pipingRequest() service.PipingRequest {
	return service.PipingRequest{
		Cord: 4 * length.Millimetre, Angle: piping.TrueBias, Sold: &cloth.Sold{}, Cloth: cloth.Cloth{Width: 137 * length.Centimetre},
		Runs: []service.PipingRun{
			{Count: 2, Run: piping.Run{Length: 232 * length.Centimetre, Closed: true, MaxJoins: 4}},
			{Count: 2, Run: piping.Run{Length: length.Metre, MaxJoins: 4}},
		},
	}
}

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

// wingChairFrames is the wing chair of the demo, rebuilt traditionally.
func wingChairFrames() service.FoundationRequest {
	return service.FoundationRequest{Job: foundation.Job{Frames: []foundation.Frame{
		{ID: "SEAT", Count: 1, Shape: foundation.Trapezoid, Front: 64 * cm, Back: 56 * cm, Depth: 62 * cm, EdgeRows: -1, ShowWood: true},
		{ID: "IB", Part: foundation.Back, Count: 1, Front: 56 * cm, Depth: 76 * cm, EdgeRows: -1},
		{ID: "ARM", Part: foundation.Arm, Count: 2, Front: 54 * cm, Depth: 34 * cm, EdgeRows: -1},
		{ID: "WING", Part: foundation.Arm, Count: 2, Front: 24 * cm, Depth: 48 * cm},
	}}}
}

func setteeWadding() service.WaddingRequest {
	return service.WaddingRequest{Job: wadding.Job{Items: []wadding.Item{
		{ID: "CUSHION", Count: 3, Layers: 1, Width: 60 * cm, Depth: 64 * cm, Thickness: 12 * cm, Ends: true},
		{ID: "BACK", Kind: wadding.Back, Count: 3, Layers: 2, Width: 60 * cm, Depth: 50 * cm, Thickness: 6 * cm, Material: wadding.CottonFelt},
		{ID: "SEAT", Kind: wadding.Seats, Count: 6, Layers: 1, Material: wadding.Hair},
	}}}
}

// drops are curtains as wide as the cloth: three of 2 m take 6 m however they
// are laid.
func drops(sold cloth.Sold) service.YardageRequest {
	return service.YardageRequest{
		Cloth: cloth.Cloth{Width: 140 * cm}, Sold: sold, Effort: plan.Quick,
		Panels: []panel.Panel{{ID: "DROP", Count: 3, Size: panel.Size{Across: 140 * cm, Along: 200 * cm}}},
	}
}
