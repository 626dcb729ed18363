package httpapi_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/service"
)

// held answers a request for a plan when it is released, or when its context
// ends.
type held struct{ working, release chan bool }

func newHeld() held { return held{make(chan bool, 100), make(chan bool)} }

func (h held) yardage(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
	h.working <- true
	select {
	case <-h.release:
		return stacked(ctx, req)
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// later sends a request and says the status when it is answered.
func later(h http.Handler, ctx context.Context, path, body string) chan int { //nolint:revive // the handler is the subject
	status := make(chan int, 1)
	go func() {
		r := httptest.NewRequest(http.MethodPost, path, strings.NewReader(body)).WithContext(ctx)
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		status <- w.Code
	}()
	return status
}

// until waits for the metrics to say something.
func until(t *testing.T, s *httpapi.Server, line string) {
	t.Helper()
	for range 10000 {
		if strings.Contains(scrape(s.MetricsHandler()), line+"\n") {
			return
		}
		time.Sleep(time.Millisecond)
	}
	t.Fatalf("never: %s", line)
}

// job is a file of the demo workroom.
func job(t testing.TB, name string) string {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/jobs/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(raw)
}

// With every heavy place taken and the queue full, a plan is refused at once and
// told when to come back; short answers, documents and probes go on; and when
// there is a place again there are plans again.
func TestLanes(t *testing.T) {
	opts, h := options(), newHeld()
	opts.Solves, opts.SolveQueue, opts.SolveWait, opts.Yardage, opts.LightTime, opts.Kept = 1, 1, time.Hour, h.yardage, time.Hour, 0
	server := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	first := later(c.handler, context.Background(), "/v1/yardage", sound)
	<-h.working
	second := later(c.handler, context.Background(), "/v1/yardage", sound+" ")
	until(t, server, `bridletie_lane_queued{lane="heavy"} 1`)

	for range 5 {
		w := c.post(sound + "  ")
		seconds, err := strconv.Atoi(w.Header().Get("Retry-After"))
		if w.Code != 503 || err != nil || seconds < 1 || seconds > 30 || problemOf(t, w).Type != "/problems/unavailable" {
			t.Errorf("full: status %d, Retry-After %q", w.Code, w.Header().Get("Retry-After"))
		}
	}
	for path, name := range map[string]string{
		"/v1/repeat": "curtains-repeat.json", "/v1/foam": "settee-foam.json", "/v1/piping": "wing-chair-piping.json",
		"/v1/buttoning": "wing-chair-back.json", "/v1/pleats": "sofa-skirt-pleats.json", "/v1/fire-check": "banquette-fire.json",
	} {
		if w := c.do(http.MethodPost, path, job(t, name), "Content-Type", "application/json"); w.Code != 200 {
			t.Errorf("%s while plans wait: status %d: %.300s", path, w.Code, w.Body)
		}
	}
	for _, path := range []string{"/livez", "/v1/furniture", "/openapi.yaml"} {
		if w := c.do(http.MethodGet, path, ""); w.Code != 200 {
			t.Errorf("%s while plans wait: status %d", path, w.Code)
		}
	}
	for _, line := range []string{
		`bridletie_lane_slots{lane="heavy"} 1`, `bridletie_lane_busy{lane="heavy"} 1`, `bridletie_lane_queue_slots{lane="heavy"} 1`,
		`bridletie_sheds_total{lane="heavy",reason="full"} 5`, `bridletie_sheds_total{lane="light",reason="full"} 0`,
		`bridletie_lane_busy{lane="light"} 0`,
	} {
		until(t, server, line)
	}
	close(h.release)
	if a, b := <-first, <-second; a != 200 || b != 200 {
		t.Errorf("those who waited: %d and %d", a, b)
	}
	until(t, server, `bridletie_lane_busy{lane="heavy"} 0`)
	if w := c.post(sound + "   "); w.Code != 200 {
		t.Errorf("afterwards: status %d", w.Code)
	}
}

// A client that has gone is taken out of the queue, and out of its place.
func TestGoneClientsFreeTheirPlaces(t *testing.T) {
	opts, h := options(), newHeld()
	opts.Solves, opts.SolveQueue, opts.SolveWait, opts.Yardage, opts.Kept = 1, 1, time.Hour, h.yardage, 0
	server := newServer(t, opts)
	ctx, gone := context.WithCancel(context.Background())
	first := later(server.Handler(), ctx, "/v1/yardage", sound)
	<-h.working
	queued, goneToo := context.WithCancel(context.Background())
	second := later(server.Handler(), queued, "/v1/yardage", sound+" ")
	until(t, server, `bridletie_lane_queued{lane="heavy"} 1`)
	goneToo()
	<-second
	until(t, server, `bridletie_lane_queued{lane="heavy"} 0`)
	gone()
	<-first
	until(t, server, `bridletie_lane_busy{lane="heavy"} 0`)
	until(t, server, `bridletie_requests_total{class="4xx",operation="yardage"} 2`) // 499: not the service's failure
}

// A full light lane refuses before a body is read.
func TestLightLaneFull(t *testing.T) {
	opts := options()
	opts.Lights, opts.LightQueue, opts.LightTime = 1, 0, time.Hour
	server := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	release := make(chan bool)
	server.HoldLight(release)
	w := c.do(http.MethodPost, "/v1/repeat", "not even JSON", "Content-Type", "application/json")
	if w.Code != 503 || w.Header().Get("Retry-After") == "" {
		t.Errorf("full: status %d", w.Code)
	}
	close(release)
	until(t, server, `bridletie_lane_busy{lane="light"} 0`)
	if w := c.do(http.MethodPost, "/v1/repeat", "not even JSON", "Content-Type", "application/json"); w.Code != 400 {
		t.Errorf("free again: status %d", w.Code)
	}
}

// A short answer that turns out long moves over to the heavy lane and is the same
// as ever; where there is no place there it is refused.
func TestLongAnswersMoveOver(t *testing.T) {
	opts := httpapi.DefaultOptions()
	foam := strings.ReplaceAll(manyCushions(60, 2, 2, "75 mm"), "\n", "")
	want := newClient(t, opts).do(http.MethodPost, "/v1/foam", foam, "Content-Type", "application/json")
	opts.LightTime, opts.Solves, opts.SolveQueue, opts.Kept = 0, 1, 0, 0
	h := newHeld()
	opts.Yardage = h.yardage
	server := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	got := c.do(http.MethodPost, "/v1/foam", foam, "Content-Type", "application/json")
	if want.Code != 200 || got.Code != 200 || got.Body.String() != want.Body.String() {
		t.Fatalf("status %d and %d, or the answers differ", want.Code, got.Code)
	}
	if !strings.Contains(scrape(server.MetricsHandler()), `bridletie_lane_wait_seconds_count{lane="heavy"} 1`) {
		t.Error("the long answer did not move over")
	}
	first := later(c.handler, context.Background(), "/v1/yardage", sound)
	<-h.working
	if w := c.do(http.MethodPost, "/v1/foam", foam, "Content-Type", "application/json"); w.Code != 503 || w.Header().Get("Retry-After") == "" {
		t.Errorf("no place to move over to: status %d: %.200s", w.Code, w.Body)
	}
	close(h.release)
	<-first
	until(t, server, `bridletie_lane_busy{lane="heavy"} 0`)
	until(t, server, `bridletie_lane_busy{lane="light"} 0`)
}

// A real search ends soon after its client has gone.
func TestGoneClientStopsTheSearch(t *testing.T) {
	server := newServer(t, httpapi.DefaultOptions())
	web := httptest.NewServer(server.Handler())
	defer web.Close()
	body := strings.Replace(job(t, "wing-chair.json"), `"effort": "normal"`, `"effort": "thorough"`, 1)
	for range 3 {
		ctx, gone := context.WithCancel(context.Background())
		r, err := http.NewRequestWithContext(ctx, http.MethodPost, web.URL+"/v1/yardage", strings.NewReader(body))
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Content-Type", "application/json")
		go func() {
			if reply, err := web.Client().Do(r); err == nil {
				reply.Body.Close()
			}
		}()
		until(t, server, `bridletie_lane_busy{lane="heavy"} 1`)
		gone()
		begun := time.Now()
		until(t, server, `bridletie_lane_busy{lane="heavy"} 0`)
		t.Logf("free %v after the client had gone", time.Since(begun))
		if time.Since(begun) > 5*time.Second { // measured: about 10 ms; the machine may be busy
			t.Errorf("the search went on for %v", time.Since(begun))
		}
	}
}
