package httpapi_test

import (
	"context"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/service"
)

// goes is a client that goes when the first line has come.
type goes struct {
	*httptest.ResponseRecorder
	gone context.CancelFunc
}

func (g goes) Write(b []byte) (int, error) {
	g.gone()
	return g.ResponseRecorder.Write(b)
}

// An answer in lines that cannot be ended is broken off, so that nobody takes it for
// whole.
func TestBrokenAnswersLookBroken(t *testing.T) {
	server := newServer(t, httpapi.DefaultOptions())
	ctx, gone := context.WithCancel(context.Background())
	r := httptest.NewRequest(http.MethodPost, "/v1/yardage/compare", strings.NewReader(job(t, "wing-chair-cloths.json"))).WithContext(ctx)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Accept", "application/x-ndjson")
	w := goes{httptest.NewRecorder(), gone}
	func() {
		defer func() {
			if err, ok := recover().(error); !ok || !errors.Is(err, http.ErrAbortHandler) {
				t.Errorf("the answer ends as if it were whole: %.200s", w.Body)
			}
		}()
		server.Handler().ServeHTTP(w, r)
	}()
	until(t, server, `bridletie_requests_total{class="4xx",operation="yardageCompare"} 1`)
	until(t, server, `bridletie_lane_busy{lane="heavy"} 0`)
	until(t, server, `bridletie_requests_in_flight 0`)
}

// falters panics when the second line is sent.
type falters struct {
	*httptest.ResponseRecorder
	lines int
}

func (f *falters) Write(b []byte) (int, error) {
	if f.lines++; f.lines == 2 {
		panic("a fault of ours")
	}
	return f.ResponseRecorder.Write(b)
}

// A panic in the middle of an answer in lines breaks it off too.
func TestPanicInTheMiddleLooksBroken(t *testing.T) {
	server := newServer(t, httpapi.DefaultOptions())
	r := httptest.NewRequest(http.MethodPost, "/v1/yardage/compare", strings.NewReader(job(t, "wing-chair-cloths.json")))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Accept", "application/x-ndjson")
	w := &falters{httptest.NewRecorder(), 0}
	func() {
		defer func() {
			if err, ok := recover().(error); !ok || !errors.Is(err, http.ErrAbortHandler) {
				t.Errorf("the answer ends as if it were whole: %.200s", w.Body)
			}
		}()
		server.Handler().ServeHTTP(w, r)
	}()
	until(t, server, `bridletie_panics_total 1`)
	until(t, server, `bridletie_lane_busy{lane="heavy"} 0`)
	until(t, server, `bridletie_lane_busy{lane="light"} 0`)
}

// Where others wait for the same answer, one that is broken off is a failure like
// any other, and the process lives.
func TestBrokenWork(t *testing.T) {
	opts := options()
	opts.Yardage = func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) {
		panic(http.ErrAbortHandler)
	}
	c := newClient(t, opts)
	for range 2 {
		if w := c.post(sound); w.Code != 500 {
			t.Errorf("status %d", w.Code)
		}
	}
}

// Who sends slowly holds no place.
func TestSlowSenderHoldsNoPlace(t *testing.T) {
	opts := options()
	opts.Lights = 1
	server := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	body, sender := io.Pipe()
	done := make(chan int)
	go func() {
		r := httptest.NewRequest(http.MethodPost, "/v1/repeat", body)
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		c.handler.ServeHTTP(w, r)
		done <- w.Code
	}()
	if _, err := sender.Write([]byte("{")); err != nil {
		t.Fatal(err)
	}
	if w := c.do(http.MethodPost, "/v1/repeat", job(t, "curtains-repeat.json"), "Content-Type", "application/json"); w.Code != 200 {
		t.Errorf("while another sends: status %d", w.Code)
	}
	sender.Close()
	if code := <-done; code != 400 {
		t.Errorf("the slow sender: status %d", code)
	}
}

// A server that is not used any more leaves nothing running.
func TestServersLeaveNothing(t *testing.T) {
	before := runtime.NumGoroutine()
	for range 5 {
		newClient(t, options()).post(sound)
	}
	for range 200 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	t.Errorf("%d goroutines more", runtime.NumGoroutine()-before)
}
