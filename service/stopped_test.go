package service

import (
	"context"
	"errors"
	"testing"

	"github.com/bridletie/bridletie/calc/furniture"
)

// An estimate that nobody waits for begins no further run of the engine.
func TestEstimateEndsWhenItIsTold(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	e := estimator{ctx: ctx, req: EstimateRequest{Piece: furniture.Piece{Kind: "corner-settee", Count: 50}}}
	if r := e.run(asked{}); r.usable || r.order != 0 {
		t.Errorf("a run that was told to end gives %+v", r)
	}
	if _, err := Estimate(ctx, e.req, 1); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}
