package httpapi_test

import (
	"bytes"
	"encoding/json"
	"log/slog"
	"net/http"
	"regexp"
	"strings"
	"testing"

	sdktrace "go.opentelemetry.io/otel/sdk/trace"
	"go.opentelemetry.io/otel/trace"
)

// A trace that is right is taken over into the log; whatever is wrong is ignored
// and begins a new one, and never is a request refused for it (the cases are those
// of the W3C's tests of Trace Context). It is so with spans and without.
func TestTraceparent(t *testing.T) {
	for _, tracer := range []trace.Tracer{nil, sdktrace.NewTracerProvider().Tracer("test")} {
		testTraceparent(t, tracer)
	}
}

func testTraceparent(t *testing.T, tracer trace.Tracer) {
	t.Helper()
	const trace = "0af7651916cd43dd8448eb211c80319c"
	opts := options()
	opts.Tracer = tracer
	var log bytes.Buffer
	opts.Log = slog.New(slog.NewJSONHandler(&log, nil))
	c := newClient(t, opts)
	fresh := regexp.MustCompile(`^[0-9a-f]{32}$`)
	for _, tc := range []struct {
		sent []string
		kept bool
	}{
		{[]string{"00-" + trace + "-b7ad6b7169203331-01"}, true},
		{[]string{"00-" + trace + "-b7ad6b7169203331-00"}, true},
		{[]string{"00-" + trace + "-b7ad6b7169203331-03"}, true},
		{[]string{"00-" + trace + "-b7ad6b7169203331-04"}, false}, // bits that version 00 reserves must be 0
		{[]string{"00-" + trace + "-b7ad6b7169203331-ff"}, false},
		{[]string{"cc-" + trace + "-b7ad6b7169203331-ff"}, true},
		{[]string{"cc-" + trace + "-b7ad6b7169203331-01"}, true},
		{[]string{"cc-" + trace + "-b7ad6b7169203331-01-what-is-new"}, true},
		{[]string{"cc-" + trace + "-b7ad6b7169203331-01-"}, true},
		{[]string{"cc-" + trace + "-b7ad6b7169203331-01.what"}, false},
		{[]string{"cc-" + trace + "-b7ad6b7169203331-01what"}, false},
		{[]string{"ff-" + trace + "-b7ad6b7169203331-01"}, false},
		{[]string{"00-" + trace + "-b7ad6b7169203331-01-what-is-new"}, false},
		{[]string{"00-" + trace + "-b7ad6b7169203331-01-"}, false},
		{[]string{"00-" + trace + "-b7ad6b7169203331-0"}, false},
		{[]string{"00-" + trace + "-b7ad6b7169203331-0x"}, false},
		{[]string{"00-" + trace + "-b7ad6b7169203331-.0"}, false},
		{[]string{"00-" + trace + "-b7ad6b7169203331"}, false},
		{[]string{"00-" + trace + "-b7ad6b7169203331-"}, false},
		{[]string{"00-00000000000000000000000000000000-b7ad6b7169203331-01"}, false},
		{[]string{"00-" + trace + "-0000000000000000-01"}, false},
		{[]string{"00-" + strings.ToUpper(trace) + "-b7ad6b7169203331-01"}, false},
		{[]string{"00-" + trace + "-B7AD6B7169203331-01"}, false},
		{[]string{"00-." + trace[1:] + "-b7ad6b7169203331-01"}, false},
		{[]string{"00-" + trace[1:] + "-b7ad6b7169203331-01"}, false},
		{[]string{"00-" + trace + "0-b7ad6b7169203331-01"}, false},
		{[]string{"00-" + trace + "-b7ad6b716920333-01"}, false},
		{[]string{"00-" + trace + "-.7ad6b7169203331-01"}, false},
		{[]string{"0-" + trace + "-b7ad6b7169203331-01"}, false},
		{[]string{"000-" + trace + "-b7ad6b7169203331-01"}, false},
		{[]string{".0-" + trace + "-b7ad6b7169203331-01"}, false},
		{[]string{"00_" + trace + "_b7ad6b7169203331_01"}, false},
		{[]string{"00-" + trace + "-b7ad6b7169203331-01", "00-" + trace + "-b7ad6b7169203331-01"}, false},
		{[]string{"00-" + trace + "-b7ad6b7169203331-01,00-" + trace + "-b7ad6b7169203331-01"}, false},
		{[]string{""}, false},
		{[]string{"rubbish\t" + strings.Repeat("x", 4000)}, false},
		{nil, false},
	} {
		log.Reset()
		header := []string{"Tracestate", strings.Repeat("a=1,", 40)}
		for _, v := range tc.sent {
			header = append(header, "Traceparent", v)
		}
		if w := c.do(http.MethodGet, "/livez", "", header...); w.Code != 200 {
			t.Errorf("%.80q: status %d", tc.sent, w.Code)
		}
		var line struct{ Trace string }
		if err := json.Unmarshal(log.Bytes(), &line); err != nil || !fresh.MatchString(line.Trace) || (line.Trace == trace) != tc.kept {
			t.Errorf("%.80q: the log says %s", tc.sent, &log)
		}
	}
}
