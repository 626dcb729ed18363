package httpapi

import (
	"context"
	"net/http"

	"go.opentelemetry.io/otel/attribute"
	"go.opentelemetry.io/otel/codes"
	"go.opentelemetry.io/otel/trace"
)

// traced gives each request a span, a child of the one that its traceparent names.
// Without a tracer it does nothing.
func (s *Server) traced(next handler) handler {
	tracer := s.opts.Tracer
	if tracer == nil {
		return next
	}
	return func(x *exchange) error {
		r := x.r
		ctx, span := tracer.Start(parentOf(r.Context(), r.Header), "request", trace.WithSpanKind(trace.SpanKindServer))
		defer func() { // also when an answer is broken off
			op := x.operation()
			if op != "" {
				span.SetName(op)
			}
			status := x.w.status()
			span.SetAttributes(attribute.Int("http.response.status_code", status), attribute.Int64("http.response.body.size", x.w.size),
				attribute.String("bridletie.operation", op), attribute.String("bridletie.request", x.id))
			if status >= http.StatusInternalServerError {
				span.SetStatus(codes.Error, "")
			}
			span.End()
		}()
		x.r = r.WithContext(ctx)
		return next(x)
	}
}

// step starts a child span for a part of a request, if the request has a span. The
// returned function ends it.
func step(ctx context.Context, name string) (context.Context, func()) {
	parent := trace.SpanFromContext(ctx)
	if !parent.IsRecording() {
		return ctx, func() {}
	}
	ctx, span := parent.TracerProvider().Tracer("github.com/bridletie/bridletie").Start(ctx, name)
	return ctx, func() { span.End() }
}
