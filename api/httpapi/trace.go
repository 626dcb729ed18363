package httpapi

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"net/http"
	"strings"

	"go.opentelemetry.io/otel/propagation"
	"go.opentelemetry.io/otel/trace"
)

// parentOf is the context with the trace and span that a request was sent with, by
// its traceparent (W3C Trace Context, version 00 and what later ones keep of it).
// One that is wrong in any way, or stands twice, is none: the context is as it was.
func parentOf(ctx context.Context, h http.Header) context.Context {
	const length = 55 // of version 00; the library lets a dash follow it
	sent := h.Values("Traceparent")
	if len(sent) != 1 || strings.HasPrefix(sent[0], "00-") && len(sent[0]) != length {
		return ctx
	}
	return propagation.TraceContext{}.Extract(ctx, propagation.HeaderCarrier(h))
}

// traceOf is the trace that a request belongs to: that of its span where it has one,
// else the one that it was sent with, else one of its own.
func traceOf(r *http.Request) string {
	ctx := r.Context()
	if !trace.SpanContextFromContext(ctx).IsValid() {
		ctx = parentOf(ctx, r.Header)
	}
	if of := trace.SpanContextFromContext(ctx); of.IsValid() {
		return of.TraceID().String()
	}
	var id [16]byte
	_, _ = rand.Read(id[:]) // never fails
	return hex.EncodeToString(id[:])
}
