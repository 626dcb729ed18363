package httpapi_test

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/httpapi"
)

// drawnExamples asks for every example of every operation that draws.
func drawnExamples(t *testing.T, ask func(op *openapi3.Operation, path, body string)) {
	t.Helper()
	for path, item := range spec(t).Paths.Map() {
		op := item.Post
		if op == nil || op.Responses.Value("200").Value.Content["image/svg+xml"] == nil {
			continue
		}
		for _, ref := range op.RequestBody.Value.Content["application/json"].Examples {
			body, err := json.Marshal(ref.Value.Value)
			if err != nil {
				t.Fatal(err)
			}
			ask(op, path, string(body))
		}
	}
}

// Whatever is drawn can be printed: the same document each time, on A4, and on
// Letter where lengths are in inches.
func TestWhatIsDrawnIsPrinted(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	var operations []string
	drawnExamples(t, func(op *openapi3.Operation, path, body string) {
		operations = append(operations, op.OperationID)
		ask := func(body, media string) string {
			w := c.do(http.MethodPost, path, body, "Content-Type", "application/json", "Accept", media)
			if w.Code != http.StatusOK || w.Header().Get("Content-Type") != media || w.Header().Get("Cache-Control") != "no-store" {
				t.Fatalf("%s as %s: status %d, %v: %.200s", path, media, w.Code, w.Header(), w.Body)
			}
			return w.Body.String()
		}
		if svg := ask(body, "image/svg+xml"); !strings.HasPrefix(svg, "<svg ") {
			t.Errorf("%s: a drawing that begins %.40q", path, svg)
		}
		pdf := ask(body, "application/pdf")
		if !strings.HasPrefix(pdf, "%PDF-") || pdf != ask(body, "application/pdf") {
			t.Errorf("%s: a document that begins %.10q, or another the second time", path, pdf)
		}
		metric, inches := strings.Contains(pdf, "/MediaBox [0 0 595.28 841.89]"), strings.Contains(pdf, "/MediaBox [0 0 612.00 792.00]")
		if imperial := strings.Contains(body, `"units":"imperial"`); inches != imperial || metric == imperial {
			t.Errorf("%s: on A4 %v, on Letter %v", path, metric, inches)
		}
	})
	slices.Sort(operations)
	if n := len(slices.Compact(operations)); n < 12 {
		t.Errorf("only %d operations draw", n)
	}
}

// An answer that cannot be drawn is not made.
func TestFormIsChosenBeforeTheWork(t *testing.T) {
	c := newClient(t, options())
	w := c.do(http.MethodPost, "/v1/yardage", sound, "Content-Type", "application/json", "Accept", "image/png")
	if w.Code != http.StatusNotAcceptable || !strings.Contains(w.Body.String(), "application/pdf") {
		t.Errorf("status %d: %s", w.Code, w.Body)
	}
}

// Whoever asks for a page of text gets one, the same each time; whoever does not say
// what they would rather have gets JSON, and no cache takes one for the other.
func TestPagesOfText(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	for _, op := range httpapi.Operations() {
		if !slices.Contains(op.Forms, "text/plain") {
			t.Errorf("%s has no page of text", op.Path)
			continue
		}
		for _, ref := range spec(t).Paths.Value(op.Path).Post.RequestBody.Value.Content["application/json"].Examples {
			body := marshal(t, ref.Value.Value)
			first := ""
			for _, tc := range []struct{ accept, media string }{
				{"text/plain", "text/plain; charset=utf-8"},
				{"text/*", "text/plain; charset=utf-8"},
				{"text/plain; charset=utf-8", "text/plain; charset=utf-8"},
				{"text/plain, application/json;q=0.9", "text/plain; charset=utf-8"},
				{"*/*", "application/json"},
				{"application/json, text/plain", "application/json"},
				{"text/plain;q=0.5, application/json", "application/json"},
				{"text/plain", "text/plain; charset=utf-8"},
			} {
				w := c.do(http.MethodPost, op.Path, body, "Content-Type", "application/json", "Accept", tc.accept)
				h := w.Header()
				if w.Code != http.StatusOK || h.Get("Content-Type") != tc.media || !slices.Contains(h.Values("Vary"), "Accept") || h.Get("Cache-Control") != "no-store" {
					t.Fatalf("%s, Accept %q: status %d, %v", op.Path, tc.accept, w.Code, h)
				}
				page := w.Body.String()
				if tc.media == "application/json" {
					if !strings.HasPrefix(page, "{") {
						t.Errorf("%s, Accept %q: JSON that begins %.40q", op.Path, tc.accept, page)
					}
					continue
				}
				if first == "" {
					first = page
				}
				if page != first || !strings.HasSuffix(page, "\n") || !utf8.ValidString(page) || strings.HasPrefix(page, "{") {
					t.Errorf("%s, Accept %q: a page that begins %.60q, the first began %.60q", op.Path, tc.accept, page, first)
				}
			}
		}
		if w := c.do(http.MethodPost, op.Path, "{}", "Content-Type", "application/json", "Accept", "text/plain"); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: status %d for a request with faults", op.Path, w.Code)
		}
	}
}
