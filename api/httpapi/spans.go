package httpapi

import (
	"context"
	"net/http"

	"go.opentelemetry.io/otel/attribute"
	"go.opentelemetry.io/otel/codes"
	"go.opentelemetry.io/otel/propagation"
	"go.opentelemetry.io/otel/trace"
)

// traced starts a span for each request, as a child of the span in its traceparent. It
// then replaces the traceparent, so that later stages use the new span. Without a tracer
// it does nothing.
func (s *Server) traced(next handler) handler {
	tracer := s.opts.Tracer
	if tracer == nil {
		return next
	}
	var w3c propagation.TraceContext
	return func(x *exchange) error {
		r := x.r
		ctx := w3c.Extract(r.Context(), propagation.HeaderCarrier(r.Header))
		ctx, span := tracer.Start(ctx, "request", trace.WithSpanKind(trace.SpanKindServer))
		defer func() { // also when the response is aborted
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
		r = r.Clone(ctx)
		w3c.Inject(ctx, propagation.HeaderCarrier(r.Header))
		x.r = r
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
