package httpapi

import (
	"context"
	"errors"
	"fmt"
	"log/slog"

	"go.opentelemetry.io/otel/trace"

	"github.com/bridletie/bridletie/service"
)

// YardageFunc answers a request that has no faults.
type YardageFunc func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error)

// YardageByFunc is a YardageFunc that ends with the best plan so far when hurry
// reports true.
type YardageByFunc func(ctx context.Context, req service.YardageRequest, hurry func() bool) (*service.YardageAnswer, error)

// Options are the settings of a Server.
type Options struct {
	Yardage YardageFunc   // the use case; service.Yardage
	Hurried YardageByFunc // the same for who prefers a plan to none; service.YardageBy
	Log     *slog.Logger  // access log; nothing is logged when nil
	Origins []string      // of pages that may call, such as https://shop.example; * alone for all
	Kept    int64         // bytes of answers that are kept; 0 has every answer made anew
	Batch   BatchOptions  // of POST /v1/batch
	Tracer  trace.Tracer  // of spans; none are made when nil
	Limits
	Access
}

// DefaultOptions are the settings of a server in use, without a log.
func DefaultOptions() Options {
	return Options{
		Yardage: service.Yardage,
		Hurried: service.YardageBy,
		Kept:    32 << 20,
		Batch:   DefaultBatchOptions(),
		Limits:  DefaultLimits(),
	}
}

// validate names the option that makes no sense.
func (o Options) validate() error {
	switch {
	case o.Yardage == nil:
		return fmt.Errorf("httpapi: Options.Yardage is nil")
	case o.Hurried == nil:
		return fmt.Errorf("httpapi: Options.Hurried is nil")
	case o.Kept < 0:
		return fmt.Errorf("httpapi: Options.Kept must not be negative")
	}
	if err := errors.Join(o.Limits.validate(), o.Batch.validate()); err != nil {
		return err
	}
	return checkOrigins(o.Origins)
}
