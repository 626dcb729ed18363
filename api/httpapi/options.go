package httpapi

import (
	"context"
	"fmt"
	"log/slog"
	"runtime"
	"time"

	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// YardageFunc answers a request that has no faults.
type YardageFunc func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error)

// Options are the settings of a Server.
type Options struct {
	Yardage   YardageFunc                         // the use case; service.Yardage
	PlanSVG   func(*service.YardageAnswer) []byte // the drawing; drawing.PlanSVG
	CheckSVG  func(*service.CheckAnswer) []byte   // the drawing of a plan that was checked; drawing.CheckSVG
	Log       *slog.Logger                        // access log; nothing is logged when nil
	Solves    int                                 // answers worked on at the same time
	SolveWait time.Duration                       // how long a request waits for its turn before 503
	SolveTime time.Duration                       // how long an answer may be worked on before 503
	Batch     BatchOptions                        // of POST /v1/batch
}

// DefaultOptions are the settings of a server in use, without a log.
func DefaultOptions() Options {
	return Options{
		Yardage:   service.Yardage,
		PlanSVG:   drawing.PlanSVG,
		CheckSVG:  drawing.CheckSVG,
		Solves:    runtime.GOMAXPROCS(0),
		SolveWait: 250 * time.Millisecond,
		SolveTime: 50 * time.Second,
		Batch:     DefaultBatchOptions(runtime.GOMAXPROCS(0)),
	}
}

// validate names the option that makes no sense.
func (o Options) validate() error {
	switch {
	case o.Yardage == nil:
		return fmt.Errorf("httpapi: Options.Yardage is nil")
	case o.PlanSVG == nil:
		return fmt.Errorf("httpapi: Options.PlanSVG is nil")
	case o.CheckSVG == nil:
		return fmt.Errorf("httpapi: Options.CheckSVG is nil")
	case o.Solves < 1:
		return fmt.Errorf("httpapi: Options.Solves must be positive")
	case o.SolveWait < 0:
		return fmt.Errorf("httpapi: Options.SolveWait must not be negative")
	case o.SolveTime <= 0:
		return fmt.Errorf("httpapi: Options.SolveTime must be positive")
	}
	return o.Batch.validate()
}
