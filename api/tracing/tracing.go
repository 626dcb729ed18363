// Package tracing sends spans to a collector of OpenTelemetry. It is used only
// where the operator names one: without, nothing is sent and no connection made.
package tracing

import (
	"context"
	"fmt"
	"net/url"
	"time"

	"go.opentelemetry.io/otel/attribute"
	"go.opentelemetry.io/otel/exporters/otlp/otlptrace/otlptracehttp"
	"go.opentelemetry.io/otel/sdk/resource"
	sdktrace "go.opentelemetry.io/otel/sdk/trace"
	"go.opentelemetry.io/otel/trace"
)

// Off is the address of no collector.
const Off = "off"

// Address is that of a collector. It is logged, and so must hold nothing secret;
// the error does not say what it is.
func Address(collector string) (*url.URL, error) {
	at, err := url.Parse(collector)
	if err != nil || at.Scheme != "http" && at.Scheme != "https" || at.Host == "" || at.User != nil || at.RawQuery != "" {
		return nil, fmt.Errorf("tracing: a collector has an http or https address, without a name, a password or a query")
	}
	return at, nil
}

// Start makes a tracer that sends one in so many of the requests that no caller
// has decided about, as a share from 0 to 1, to the collector at an http or https
// address (OTLP over HTTP), and a function that sends the rest and ends it. For
// Off it is nil, and the function does nothing.
func Start(ctx context.Context, collector string, share float64, version string) (trace.Tracer, func(context.Context) error, error) {
	if collector == Off || collector == "" {
		return nil, func(context.Context) error { return nil }, nil
	}
	at, err := Address(collector)
	if err != nil {
		return nil, nil, err
	}
	if !(share >= 0 && share <= 1) {
		return nil, nil, fmt.Errorf("tracing: the share %v is not from 0 to 1", share)
	}
	if at.Path == "" || at.Path == "/" {
		at.Path = "/v1/traces"
	}
	exporter, err := otlptracehttp.New(ctx, otlptracehttp.WithEndpointURL(at.String()), otlptracehttp.WithTimeout(5*time.Second))
	if err != nil {
		return nil, nil, fmt.Errorf("tracing: %w", err)
	}
	provider := sdktrace.NewTracerProvider(
		sdktrace.WithBatcher(exporter),
		sdktrace.WithSampler(sdktrace.ParentBased(sdktrace.TraceIDRatioBased(share))),
		sdktrace.WithResource(resource.NewSchemaless(attribute.String("service.name", "bridletie"), attribute.String("service.version", version))),
	)
	return provider.Tracer("github.com/bridletie/bridletie"), provider.Shutdown, nil
}
