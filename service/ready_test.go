package service_test

import (
	"context"
	"errors"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
)

// refuses is a request with a fault, asked for its faults and for its answer.
func refuses[R, A any](faults func(R) fault.List, answer func(context.Context, R) (*A, error), req R) func(*testing.T) {
	return func(t *testing.T) {
		a, err := answer(context.Background(), req)
		var wrong fault.List
		if !errors.As(err, &wrong) || a != nil {
			t.Fatalf("answered %v, error %v", a != nil, err)
		}
		want := faults(req).Faults()
		if len(want) == 0 || len(want) != wrong.Len() {
			t.Fatalf("%d faults, %d as an error", len(want), wrong.Len())
		}
		for i, f := range wrong.Faults() {
			if !f.Same(want[i]) {
				t.Errorf("fault %d as an error: %+v, want %+v", i, f, want[i])
			}
		}
	}
}

// faultsBy are the faults of a request that is prepared.
func faultsBy[R, A any](prepare func(R) (service.Ready[A], fault.List)) func(R) fault.List {
	return func(req R) fault.List { return service.Faults(prepare(req)) }
}

// What is wrong with a request is the error of its answer: there is no answer to a
// request that was not looked at first.
func TestFaultsAreTheErrorOfAnAnswer(t *testing.T) {
	noCount := drops(cloth.Sold{})
	noCount.Panels[0].Count = 0
	unkept := medallion()
	unkept.Panels[0].Size.Across = unkept.Cloth.Width
	unkept.Cloth.Pattern.Motifs[0].Across = 0
	chart, pipes, frames, wraps := chairBack(), pipingRequest(), wingChairFrames(), setteeWadding()
	chart.Grid.Width, pipes.Runs, frames.Frames[0].Count, wraps.Items[0].Width = 0, nil, 0, -cm
	wide := frames
	wide.Frames = append(wide.Frames[:0:0], wide.Frames...)
	wide.Frames[0].Count, wide.Frames[0].Front = 1, 100*m
	estimate := func(ctx context.Context, req service.EstimateRequest) (*service.EstimateAnswer, error) {
		return service.Estimate(ctx, req, 1)
	}
	for name, test := range map[string]func(*testing.T){
		"a panel that is cut no times":  refuses(service.YardageFaults, service.Yardage, noCount),
		"a wish that cannot be kept":    refuses(service.YardageFaults, service.Yardage, unkept),
		"no diamonds":                   refuses(faultsBy(service.PrepareButtoning), service.Buttoning, chart),
		"no runs":                       refuses(faultsBy(service.PreparePiping), service.Piping, pipes),
		"a frame that is made no times": refuses(faultsBy(service.PrepareFoundation), service.Foundation, frames),
		"a frame of 100 m":              refuses(faultsBy(service.PrepareFoundation), service.Foundation, wide),
		"a cushion of less than none":   refuses(faultsBy(service.PrepareWadding), service.Wadding, wraps),
		"a cloth that is no width":      refuses(service.EstimateFaults, estimate, service.EstimateRequest{Piece: furniture.Piece{Kind: "footstool", Count: 1}, Cloth: &service.CompareCloth{}}),
		"a cloth too narrow for the piece": refuses(service.EstimateFaults, estimate,
			service.EstimateRequest{Piece: furniture.Piece{Kind: "wing-chair", Count: 1}, Cloth: &service.CompareCloth{Cloth: cloth.Cloth{Width: 2 * cm}}}),
	} {
		t.Run(name, test)
	}
}

// The list that was made to see its faults is the one that is answered.
func TestPreparedCuttingList(t *testing.T) {
	req := service.CuttingListRequest{Piece: furniture.Piece{Kind: "footstool", Count: 1}}
	ready, wrong := service.PrepareCuttingList(req)
	if wrong.Len() > 0 {
		t.Fatal(wrong)
	}
	a, err := ready(context.Background())
	if err != nil || len(a.Covers[furniture.Top]) == 0 {
		t.Errorf("%+v, %v", a, err)
	}
	req.Replace = []panel.Panel{{ID: "X"}}
	if _, wrong = service.PrepareCuttingList(req); wrong.Len() == 0 {
		t.Error("a panel of no size is let through")
	}
}
