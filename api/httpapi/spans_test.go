package httpapi_test

import (
	"context"
	"net/http"
	"slices"
	"testing"

	sdktrace "go.opentelemetry.io/otel/sdk/trace"
	"go.opentelemetry.io/otel/sdk/trace/tracetest"

	"github.com/bridletie/bridletie/api/httpapi"
)

// A request has a span in its caller's trace, with one for each of its parts.
func TestSpans(t *testing.T) {
	kept := tracetest.NewInMemoryExporter()
	provider := sdktrace.NewTracerProvider(sdktrace.WithSyncer(kept))
	defer func() { _ = provider.Shutdown(context.Background()) }()
	opts := options()
	opts.Tracer = provider.Tracer("test")
	c := newClient(t, opts)
	const parent = "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01"
	for _, tc := range []struct {
		name, path, body, media, accept, parent string
		want                                    []string
	}{
		{"plan", "/v1/yardage", sound, "application/json", "application/json", parent, []string{"wait", "read", "calc", "write", "yardage"}},
		{"drawing", "/v1/yardage", sound, "application/json", "image/svg+xml", "", []string{"wait", "read", "calc", "draw", "yardage"}},
		{"fault", "/v1/yardage", "{}", "application/json", "", "nonsense", []string{"wait", "read", "yardage"}},
		{"lines", "/v1/batch", pleatLine, ndjson, "", parent, []string{"calc", "write", "line", "batch"}},
		{"nowhere", "/nowhere", "", "", "", parent, []string{"request"}},
	} {
		kept.Reset()
		c.do(http.MethodPost, tc.path, tc.body, "Content-Type", tc.media, "Accept", tc.accept, "Traceparent", tc.parent)
		var got []string
		spans := kept.GetSpans()
		for _, s := range spans {
			got = append(got, s.Name)
			if s.SpanContext.TraceID() != spans[0].SpanContext.TraceID() {
				t.Errorf("%s: %s is of another trace", tc.name, s.Name)
			}
		}
		if !slices.Equal(got, tc.want) {
			t.Errorf("%s: spans %q, want %q", tc.name, got, tc.want)
			continue
		}
		if of := spans[0].SpanContext.TraceID().String() == parent[3:35]; of != (tc.parent == parent) {
			t.Errorf("%s: in its caller's trace is %v", tc.name, of)
		}
		if last := spans[len(spans)-1]; last.Parent.IsValid() != (tc.parent == parent) || !spans[0].Parent.IsValid() && len(spans) > 1 {
			t.Errorf("%s: parents %v and %v", tc.name, last.Parent, spans[0].Parent)
		}
	}
}

// Without a tracer there is nothing to pay for.
func TestNoSpans(t *testing.T) {
	if httpapi.DefaultOptions().Tracer != nil {
		t.Error("spans are made unless told otherwise")
	}
}
