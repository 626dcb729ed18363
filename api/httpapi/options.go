package httpapi

import (
	"context"
	"fmt"
	"log/slog"
	"runtime"
	"time"

	"github.com/bridletie/bridletie/service"
)

// YardageFunc answers a request that has no faults.
type YardageFunc func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error)

// Options are the settings of a Server.
type Options struct {
	Yardage   YardageFunc   // the use case; service.Yardage
	Log       *slog.Logger  // access log; nothing is logged when nil
	Solves    int           // answers worked on at the same time
	SolveWait time.Duration // how long a request waits for its turn before 503
	SolveTime time.Duration // how long an answer may be worked on before 503
	Origins   []string      // of pages that may call, such as https://shop.example; * alone for all
}

// DefaultOptions are the settings of a server in use, without a log.
func DefaultOptions() Options {
	return Options{
		Yardage:   service.Yardage,
		Solves:    runtime.GOMAXPROCS(0),
		SolveWait: 250 * time.Millisecond,
		SolveTime: 50 * time.Second,
	}
}

// validate names the option that makes no sense.
func (o Options) validate() error {
	switch {
	case o.Yardage == nil:
		return fmt.Errorf("httpapi: Options.Yardage is nil")
	case o.Solves < 1:
		return fmt.Errorf("httpapi: Options.Solves must be positive")
	case o.SolveWait < 0:
		return fmt.Errorf("httpapi: Options.SolveWait must not be negative")
	case o.SolveTime <= 0:
		return fmt.Errorf("httpapi: Options.SolveTime must be positive")
	}
	return checkOrigins(o.Origins)
}
