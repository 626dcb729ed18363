package httpapi_test

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/httpapi"
)

// A line that cannot even be read for a fault of ours is a problem of its own, and
// the process lives.
func TestBatchLivesThroughAnyPanic(t *testing.T) {
	s := newServer(t, options())
	s.BreakLines()
	var out strings.Builder
	tally, err := s.AnswerLines(context.Background(), strings.NewReader(pleatLine+"\n"+pleatLine), httpapi.LineRun{
		Emit: func(line []byte) error { out.Write(line); return nil },
	})
	got := repliedLines(t, out.String())
	if err != nil || tally.Failed != 2 || len(got) != 2 || got[0].Status != 500 || got[1].Line != 2 {
		t.Errorf("%v, %+v: %s", err, tally, &out)
	}
}

// One client does not have all places for batches, however long he keeps them.
func TestBatchesOfOneClientLeaveAPlace(t *testing.T) {
	opts := options()
	opts.Batch.AtOnce = 3
	s := newServer(t, opts)
	ask := func(from string, body io.Reader) int {
		r := httptest.NewRequest(http.MethodPost, "/v1/batch", body)
		r.RemoteAddr = from
		r.Header.Set("Content-Type", ndjson)
		w := httptest.NewRecorder()
		s.Handler().ServeHTTP(w, r)
		return w.Code
	}
	done := make(chan int)
	var senders []*io.PipeWriter
	for range 2 {
		body, sender := io.Pipe()
		senders = append(senders, sender)
		go func() { done <- ask("192.0.2.1:1", body) }()
		if _, err := io.WriteString(sender, pleatLine+"\n"); err != nil { // it is read, so the place is taken
			t.Fatal(err)
		}
	}
	if code := ask("192.0.2.1:2", strings.NewReader(pleatLine)); code != 503 {
		t.Errorf("a third of one client: status %d", code)
	}
	if code := ask("192.0.2.2:1", strings.NewReader(pleatLine)); code != 200 {
		t.Errorf("another client: status %d", code)
	}
	for _, sender := range senders {
		sender.Close()
		if code := <-done; code != 200 {
			t.Errorf("status %d", code)
		}
	}
	if code := ask("192.0.2.1:2", strings.NewReader(pleatLine)); code != 200 {
		t.Errorf("with places again: status %d", code)
	}
}

// Every line is paid for, also one that takes no turn.
func TestBatchLinesArePaidFor(t *testing.T) {
	opts := options()
	opts.Rate = admit.Rate{Work: 1}
	c := newClient(t, opts)
	w := c.do(http.MethodPost, "/v1/batch", strings.Repeat(pleatLine+"\n", 5), "Content-Type", ndjson)
	got := repliedLines(t, w.Body.String())
	if len(got) != 5 || got[0].Status != 200 || got[4].Status != 429 {
		t.Errorf("%s", w.Body)
	}
}

// What the pipeline went by stands in Vary, whatever the handler adds.
func TestVaryIsWhole(t *testing.T) {
	c := newClient(t, options())
	for path, want := range map[string]string{
		"/openapi.json":            "Accept, Accept-Encoding",
		"/v1/furniture":            "Accept, Accept-Encoding",
		"/v1/furniture/wing-chair": "Accept",
	} {
		got := map[string]bool{}
		w := c.do(http.MethodGet, path, "")
		for _, name := range w.Header().Values("Vary") {
			got[name] = true
		}
		names := strings.Split(want, ", ")
		for _, name := range names {
			if !got[name] || len(got) != len(names) || w.Code != 200 {
				t.Errorf("%s: status %d, Vary %q, want %s", path, w.Code, w.Header().Values("Vary"), want)
			}
		}
	}
}
