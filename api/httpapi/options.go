package httpapi

import (
	"context"
	"errors"
	"fmt"
	"log/slog"

	"go.opentelemetry.io/otel/trace"

	"github.com/bridletie/bridletie/service"
)

// YardageFunc plans a request that has no faults.
type YardageFunc func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error)

// YardageByFunc is a YardageFunc that stops early and returns the best plan so far once
// hurry returns true.
type YardageByFunc func(ctx context.Context, req service.YardageRequest, hurry func() bool) (*service.YardageAnswer, error)

// Options are the settings of a Server.
type Options struct {
	Yardage YardageFunc   // by default service.Yardage
	Hurried YardageByFunc // used with Prefer: best-so-far; by default service.YardageBy
	Log     *slog.Logger  // access log; nil for none
	Origins []string      // origins of pages that may call, such as https://shop.example; * alone for all
	Kept    int64         // size of the cache in bytes; 0 for no cache
	Batch   BatchOptions  // of POST /v1/batch
	Tracer  trace.Tracer  // nil for no spans
	Limits
	Access
}

// DefaultOptions returns the settings for production, without a log.
func DefaultOptions() Options {
	return Options{
		Yardage: service.Yardage,
		Hurried: service.YardageBy,
		Kept:    32 << 20,
		Batch:   DefaultBatchOptions(),
		Limits:  DefaultLimits(),
	}
}

// validate returns an error that names the invalid option.
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
