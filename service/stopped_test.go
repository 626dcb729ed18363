package service

import (
	"context"
	"errors"
	"testing"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
)

// An estimate that nobody waits for begins no further run of the engine.
func TestEstimateEndsWhenItIsTold(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	e := estimator{req: EstimateRequest{Piece: furniture.Piece{Kind: "corner-settee", Count: 1}}}
	for i := range e.at {
		e.at[i] = e.laid(i-1, i-1, "")
	}
	if e.corners(ctx, 1); e.order != (Range[length.Length]{}) {
		t.Errorf("runs that were told to end give %+v", e.order)
	}
	if _, err := Estimate(ctx, e.req, 1); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}
