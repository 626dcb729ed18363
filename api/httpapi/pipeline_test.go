package httpapi_test

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

func TestAccept(t *testing.T) {
	c := newClient(t, options())
	const jsonType, svg = "application/json", "image/svg+xml"
	for _, tc := range []struct {
		accept, want string // "" for 406
	}{
		{"", jsonType},
		{"*/*", jsonType},
		{"application/*", jsonType},
		{"application/json", jsonType},
		{"Application/JSON;charset=utf-8", jsonType},
		{"image/svg+xml", svg},
		{"image/*", svg},
		{"image/*, */*;q=0.1", svg},
		{"application/json;q=0.5, image/svg+xml", svg},
		{"application/json, image/svg+xml;q=0.999", jsonType},
		{"image/svg+xml;q=0.5, application/json;q=0.5", jsonType},
		{"*/*, application/json;q=0", svg},
		{"text/html, application/xhtml+xml, */*;q=0.8", jsonType},
		{"text/html", ""},
		{"application/json;q=0", ""},
		{"*/*;q=0", ""},
		{"application/json;q=2", ""},
		{"application/json;q=NaN", ""},
		{"application/json;version=2", ""},
		{"json", ""},
		{strings.Repeat("text/html,", 300) + "text/html", ""},
	} {
		w := c.do(http.MethodPost, "/v1/yardage", sound, "Content-Type", jsonType, "Accept", tc.accept)
		want, status := tc.want, http.StatusOK
		if want == "" {
			want, status = "application/problem+json", http.StatusNotAcceptable
		}
		if w.Code != status || w.Header().Get("Content-Type") != want || w.Header().Get("Vary") != "Accept" {
			t.Errorf("Accept %.60q: status %d, type %q, Vary %q", tc.accept, w.Code, w.Header().Get("Content-Type"), w.Header().Get("Vary"))
		}
		if got := w.Header().Get("Cache-Control"); got != "no-store" {
			t.Errorf("Accept %.60q: Cache-Control %q", tc.accept, got)
		}
	}
}

func TestMethodsAndPaths(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct {
		method, path string
		status       int
		allow        string
	}{
		{"GET", "/", 404, ""},
		{"GET", "/v1", 404, ""},
		{"POST", "/v1/yardage/", 404, ""},
		{"GET", "/livez/", 404, ""},
		{"GET", "/v1%2Fyardage", 405, "POST"},
		{"GET", "/%2e%2e/etc/passwd", 404, ""},
		{"GET", "/problems/", 404, ""},
		{"GET", "/problems/nonesuch", 404, ""},
		{"GET", "/problems/a/b", 404, ""},
		{"GET", "/problems/{name}", 404, ""},
		{"GET", "/metrics", 404, ""},
		{"GET", "/v1/yardage", 405, "POST"},
		{"HEAD", "/v1/yardage", 405, "POST"},
		{"OPTIONS", "/v1/yardage", 405, "POST"},
		{"PUT", "/v1/yardage", 405, "POST"},
		{"TRACE", "/v1/yardage", 405, "POST"},
		{"WHATEVER", "/v1/yardage", 405, "POST"},
		{"POST", "/livez", 405, "GET, HEAD"},
		{"DELETE", "/openapi.json", 405, "GET, HEAD"},
		{"POST", "/problems/internal", 405, "GET, HEAD"},
		{"GET", "/livez", 200, ""},
		{"HEAD", "/livez", 200, ""},
		{"HEAD", "/openapi.yaml", 200, ""},
	} {
		w := c.do(tc.method, tc.path, "")
		if w.Code != tc.status || w.Header().Get("Allow") != tc.allow {
			t.Errorf("%s %s: status %d, Allow %q, want %d, %q", tc.method, tc.path, w.Code, w.Header().Get("Allow"), tc.status, tc.allow)
		}
		if tc.method == "HEAD" && w.Body.Len() > 0 {
			t.Errorf("HEAD %s: a body of %d bytes", tc.path, w.Body.Len())
		}
	}
}

// Every type of problem that is sent has a page.
func TestProblemPages(t *testing.T) {
	c := newClient(t, options())
	sent := []*httptest.ResponseRecorder{
		c.do("GET", "/nowhere", ""), c.do("GET", "/v1/yardage", ""), c.post("{"), c.post("{}"),
		c.do("POST", "/v1/yardage", ""), c.post(strings.Repeat(" ", 70000)), c.do("GET", "/livez", "", "Accept", "x/y"),
	}
	for _, w := range sent {
		p := problemOf(t, w)
		page := c.do("GET", p.Type, "")
		if page.Code != 200 || !strings.HasPrefix(page.Body.String(), p.Title+"\n") {
			t.Errorf("%s: status %d: %s", p.Type, page.Code, page.Body)
		}
	}
}

func TestSpecDocuments(t *testing.T) {
	c := newClient(t, options())
	for _, path := range []string{"/openapi.yaml", "/openapi.json"} {
		full := c.do("GET", path, "")
		tag := full.Header().Get("ETag")
		if full.Code != 200 || len(tag) < 10 || full.Body.Len() < 1000 {
			t.Fatalf("%s: status %d, ETag %q, %d bytes", path, full.Code, tag, full.Body.Len())
		}
		for _, tc := range []struct {
			condition string
			status    int
		}{
			{tag, 304}, {"W/" + tag, 304}, {`"x", ` + tag, 304}, {"*", 304}, {`"x"`, 200}, {"", 200}, {strings.Trim(tag, `"`), 200},
		} {
			w := c.do("GET", path, "", "If-None-Match", tc.condition)
			if w.Code != tc.status || w.Header().Get("ETag") != tag || (w.Body.Len() > 0) != (tc.status == 200) {
				t.Errorf("%s, If-None-Match %s: status %d, %d bytes", path, tc.condition, w.Code, w.Body.Len())
			}
		}
	}
}

func TestRequestID(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct {
		id   string
		kept bool
	}{
		{"a1-B2_c3.d4", true}, {strings.Repeat("x", 64), true}, {strings.Repeat("x", 65), false},
		{"a b", false}, {"a\"b", false}, {"é", false}, {"", false},
	} {
		got := c.do("GET", "/livez", "", "X-Request-Id", tc.id).Header().Get("X-Request-Id")
		if (got == tc.id) != tc.kept || got == "" {
			t.Errorf("X-Request-Id %q came back as %q", tc.id, got)
		}
	}
}

// A panic is a 500 that names the request and nothing else; it is counted, and
// the next request is answered.
func TestPanic(t *testing.T) {
	opts := options()
	var log bytes.Buffer
	opts.Log = slog.New(slog.NewJSONHandler(&log, nil))
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		if req.Cloth.Name == "Heron and sedge" {
			panic("secret of the engine")
		}
		return stacked(ctx, req)
	}
	server := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	w := c.do("POST", "/v1/yardage", sound, "Content-Type", "application/json", "X-Request-Id", "r-1")
	if w.Code != 500 || !strings.Contains(w.Body.String(), "r-1") || strings.Contains(w.Body.String(), "secret") {
		t.Errorf("status %d: %s", w.Code, w.Body)
	}
	if !strings.Contains(log.String(), "secret of the engine") {
		t.Error("the log does not say what failed")
	}
	if w := c.post(spoil(t, "Heron and sedge", "Reed")); w.Code != 200 {
		t.Errorf("after a panic: status %d", w.Code)
	}
	for _, want := range []string{
		"bridletie_panics_total 1",
		`bridletie_requests_total{class="5xx",operation="yardage"} 1`,
		`bridletie_requests_total{class="2xx",operation="yardage"} 1`,
		"bridletie_requests_in_flight 0",
		"bridletie_plan_gap_ratio_count 1",
		`bridletie_plans_total{proven="false"} 1`,
		"bridletie_build_info", "go_goroutines",
	} {
		if m := scrape(server.MetricsHandler()); !strings.Contains(m, want) {
			t.Errorf("no %s in the metrics", want)
		}
	}
}

func scrape(h http.Handler) string {
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("GET", "/metrics", nil))
	return w.Body.String()
}

// An error of the use case is a 500 that says nothing about it.
func TestInternalError(t *testing.T) {
	opts := options()
	opts.Yardage = func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) {
		return nil, errors.New("secret of the engine")
	}
	w := newClient(t, opts).post(sound)
	if w.Code != 500 || strings.Contains(w.Body.String(), "secret") {
		t.Errorf("status %d: %s", w.Code, w.Body)
	}
	opts.Yardage = func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) { return nil, nil }
	if w := newClient(t, opts).post(sound); w.Code != 500 {
		t.Errorf("neither answer nor error: status %d", w.Code)
	}
}

// When every slot is taken a request waits a little and is then sent away.
func TestFull(t *testing.T) {
	opts := options()
	opts.Solves, opts.SolveWait, opts.Kept = 1, 10*time.Millisecond, 0
	working, release := make(chan bool), make(chan bool)
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		working <- true
		<-release
		return stacked(ctx, req)
	}
	c := newClient(t, opts)
	first := make(chan int)
	go func() {
		r := httptest.NewRequest("POST", "/v1/yardage", strings.NewReader(sound))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		c.handler.ServeHTTP(w, r)
		first <- w.Code
	}()
	<-working
	w := c.post(sound)
	if w.Code != 503 || w.Header().Get("Retry-After") == "" {
		t.Errorf("while full: status %d, Retry-After %q", w.Code, w.Header().Get("Retry-After"))
	}
	if w := c.post("{}"); w.Code != 422 {
		t.Errorf("a bad request while full: status %d", w.Code)
	}
	close(release)
	if code := <-first; code != 200 {
		t.Errorf("the first: status %d", code)
	}
}

// The work ends when the client goes, and when it takes too long.
func TestContextReachesTheWork(t *testing.T) {
	opts := options()
	opts.SolveTime = 20 * time.Millisecond
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		<-ctx.Done()
		return nil, ctx.Err()
	}
	c := newClient(t, opts)
	if w := c.post(sound); w.Code != 503 || w.Header().Get("Retry-After") == "" {
		t.Errorf("too long: status %d", w.Code)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r := httptest.NewRequest("POST", "/v1/yardage", strings.NewReader(sound)).WithContext(ctx)
	r.Header.Set("Content-Type", "application/json")
	if w := c.send(r); w.Code != 503 {
		t.Errorf("client gone: status %d", w.Code)
	}
}

// The service is ready when it solves its tiny job rightly, and until it
// drains.
func TestReady(t *testing.T) {
	tiny := func(x, start length.Length) func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) {
		return func(_ context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
			cut := req.Panels[0].Cut()
			ans := &service.YardageAnswer{Request: req}
			ans.Result.Cut = []plan.Layout{{Length: cut.Along, Start: start, Placements: []plan.Placement{{
				Copy: 1, Part: 1, Parts: 1, X: x, Across: cut.Across, Along: cut.Along,
				Motif: &plan.MotifAt{X: x + cut.Across/2, Y: cut.Along / 2},
			}}}}
			return ans, nil
		}
	}
	const cm = length.Centimetre
	for _, tc := range []struct {
		name    string
		yardage func(context.Context, service.YardageRequest) (*service.YardageAnswer, error)
		status  int
	}{
		{"right", tiny(10*cm, 8*cm), 200},
		{"off the motif", tiny(11*cm, 8*cm), 503},
		{"off the row", tiny(10*cm, 9*cm), 503},
		{"no answer", func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) { return nil, nil }, 503},
		{"an error", func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) {
			return nil, errors.New("no")
		}, 503},
	} {
		opts := options()
		opts.Yardage = tc.yardage
		server := newServer(t, opts)
		c := &client{t: t, doc: spec(t), handler: server.Handler()}
		if w := c.do("GET", "/readyz", ""); w.Code != tc.status {
			t.Errorf("%s: status %d, want %d: %s", tc.name, w.Code, tc.status, w.Body)
		}
		server.Drain()
		if w := c.do("GET", "/readyz", ""); w.Code != 503 || w.Header().Get("Retry-After") == "" || w.Header().Get("Connection") != "close" {
			t.Errorf("%s, draining: status %d", tc.name, w.Code)
		}
		if w := c.do("GET", "/livez", ""); w.Code != 200 {
			t.Errorf("%s, draining: livez %d", tc.name, w.Code)
		}
	}
}

// The log has the request and nothing that was in it.
func TestAccessLog(t *testing.T) {
	opts := options()
	var log bytes.Buffer
	opts.Log = slog.New(slog.NewJSONHandler(&log, nil))
	newClient(t, opts).do("POST", "/v1/yardage?q=secretquery", spoil(t, "inside back", "secretname"),
		"Content-Type", "application/json", "X-Request-Id", "r-7", "Authorization", "secretkey")
	for _, want := range []string{`"request":"r-7"`, `"operation":"yardage"`, `"status":200`, `"method":"POST"`} {
		if !strings.Contains(log.String(), want) {
			t.Errorf("no %s in %s", want, &log)
		}
	}
	if strings.Contains(log.String(), "secret") {
		t.Errorf("the log holds what was sent: %s", &log)
	}
}
