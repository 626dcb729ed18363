package httpapi_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/note"
)

func (c *client) prefer(path, body string, prefer ...string) *httptest.ResponseRecorder {
	c.t.Helper()
	header := []string{"Content-Type", "application/json"}
	for _, p := range prefer {
		header = append(header, "Prefer", p)
	}
	return c.do(http.MethodPost, path, body, header...)
}

// A search that takes too long is dropped, unless the request would rather have
// what was found by then; that answer says so in three places and is not kept.
func TestBestSoFar(t *testing.T) {
	opts := httpapi.DefaultOptions()
	opts.SolveTime = 150 * time.Millisecond
	server := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	long := strings.Replace(job(t, "wing-chair.json"), `"effort": "normal"`, `"effort": "thorough"`, 1)
	for _, prefer := range [][]string{nil, {"wait=3600"}, {"respond-async"}, {"best-so-far-not"}, {"best"}} {
		w := c.prefer("/v1/yardage", long, prefer...)
		if w.Code != 503 || problemOf(t, w).Type != "/problems/took-too-long" || w.Header().Get("Retry-After") == "" {
			t.Errorf("%q: status %d: %.300s", prefer, w.Code, w.Body)
		}
	}
	for _, prefer := range [][]string{{"best-so-far"}, {"wait=3600; foo", " Best-So-Far;x=1"}, {"respond-async, best-so-far"}} {
		w := c.prefer("/v1/yardage", long, prefer...)
		var ans gen.YardageAnswer
		if err := json.Unmarshal(w.Body.Bytes(), &ans); err != nil || w.Code != 200 {
			t.Fatalf("%q: status %d: %.300s", prefer, w.Code, w.Body)
		}
		warned := slices.ContainsFunc(ans.Warnings, func(n gen.Note) bool { return n.Code == string(note.HurriedSearch) })
		if ans.Ended != "time-used" || !warned || w.Header().Get("Preference-Applied") != "best-so-far" || len(ans.Placements) == 0 {
			t.Errorf("%q: ended %q, warned %v, %v", prefer, ans.Ended, warned, w.Header())
		}
	}
	if w := c.prefer("/v1/yardage", long); w.Code != 503 {
		t.Errorf("the plan that the clock ended was kept: status %d", w.Code)
	}
	if strings.Contains(scrape(server.MetricsHandler()), "bridletie_deadlines_total 0") {
		t.Error("the deadlines are not counted")
	}
}

// A search that ends in time is the same with and without the preference.
func TestBestSoFarInTime(t *testing.T) {
	opts := httpapi.DefaultOptions()
	opts.Kept = 0
	c := newClient(t, opts)
	body := job(t, "carver-pair.json")
	want, got := c.prefer("/v1/yardage", body), c.prefer("/v1/yardage", body, "best-so-far, wait=40")
	if want.Code != 200 || got.Body.String() != want.Body.String() || got.Header().Get("Preference-Applied") != "" {
		t.Errorf("status %d, %d, or they differ; %v", want.Code, got.Code, got.Header())
	}
	pipes := job(t, "settee-foam.json")
	if got, want := c.prefer("/v1/foam", pipes, "best-so-far"), c.prefer("/v1/foam", pipes); got.Body.String() != want.Body.String() {
		t.Error("a preference that means nothing changes an answer")
	}
}

// However early a search is hurried, its plan is right or there is none: with
// pieces in hand, with bolts that are too short, with panels that are joined.
func TestHurriedPlansAreRight(t *testing.T) {
	for _, name := range []string{"wing-chair.json", "carver-pair.json", "settee.json", "banquette.json"} {
		answered := 0
		for _, after := range []time.Duration{1, time.Millisecond, 3 * time.Millisecond, 10 * time.Millisecond, 30 * time.Millisecond} {
			opts := httpapi.DefaultOptions()
			opts.SolveTime = after
			w := newClient(t, opts).prefer("/v1/yardage", job(t, name), "best-so-far")
			switch {
			case w.Code == 200:
				answered++
			case w.Code != 503:
				t.Errorf("%s after %v: status %d: %.300s", name, after, w.Code, w.Body)
			}
		}
		t.Logf("%s: %d of 5 hurried searches had a plan", name, answered)
	}
}

// wait shortens the time.
func TestPreferWait(t *testing.T) {
	opts, h := options(), newHeld()
	opts.Yardage = h.yardage
	c := newClient(t, opts)
	begun := time.Now()
	w := c.prefer("/v1/yardage", sound, "wait=1")
	if took := time.Since(begun); w.Code != 503 || took > 30*time.Second {
		t.Errorf("status %d after %v", w.Code, took)
	}
	close(h.release)
	for _, wait := range []string{"wait=", "wait=0", "wait=-1", "wait=1e9", "wait=99999999999999999999", "wait", "wait=soon"} {
		if w := c.prefer("/v1/yardage", sound, wait); w.Code != 200 {
			t.Errorf("%q: status %d", wait, w.Code)
		}
	}
}
