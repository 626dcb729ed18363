package httpapi

import (
	"context"
	"fmt"
	"log/slog"

	"github.com/bridletie/bridletie/service"
)

// YardageFunc answers a request that has no faults.
type YardageFunc func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error)

// Options are the settings of a Server.
type Options struct {
	Yardage YardageFunc  // the use case; service.Yardage
	Log     *slog.Logger // access log; nothing is logged when nil
	Origins []string     // of pages that may call, such as https://shop.example; * alone for all
	Limits
	Access
}

// DefaultOptions are the settings of a server in use, without a log.
func DefaultOptions() Options {
	return Options{
		Yardage: service.Yardage,
		Limits:  DefaultLimits(),
	}
}

// validate names the option that makes no sense.
func (o Options) validate() error {
	switch {
	case o.Yardage == nil:
		return fmt.Errorf("httpapi: Options.Yardage is nil")
	}
	if err := o.Limits.validate(); err != nil {
		return err
	}
	return checkOrigins(o.Origins)
}
