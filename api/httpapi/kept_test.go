package httpapi_test

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/service"
)

// exampleBody is an example of the contract as a body.
func exampleBody(t *testing.T, value any) string {
	t.Helper()
	raw, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return string(raw)
}

// The bytes are the same whether answers are kept or made anew, in every form of
// every operation that has an example, headers and all.
func TestKeptAnswersAreTheSame(t *testing.T) {
	opts := httpapi.DefaultOptions()
	keeps := newClient(t, opts)
	opts.Kept = 0
	anew := newClient(t, opts)
	n := 0
	for path, item := range spec(t).Paths.Map() {
		if item.Post == nil || item.Post.RequestBody.Value.Content["application/json"] == nil {
			continue
		}
		bodies := item.Post.RequestBody.Value.Content["application/json"].Examples
		for _, name := range slices.Sorted(maps.Keys(bodies)) {
			body := exampleBody(t, bodies[name].Value.Value)
			for media := range item.Post.Responses.Value("200").Value.Content {
				ask := func(c *client, body string) *httptest.ResponseRecorder {
					return c.do(http.MethodPost, path, body, "Content-Type", "application/json", "Accept", media, "X-Request-Id", "r")
				}
				want, made, same, kept := ask(anew, body), ask(keeps, body), ask(keeps, body), ask(keeps, " "+body)
				for how, got := range map[string]*httptest.ResponseRecorder{"made": made, "kept": kept, "the same bytes": same} {
					if got.Code != 200 || got.Body.String() != want.Body.String() || fmt.Sprint(got.Header()) != fmt.Sprint(want.Header()) {
						t.Errorf("%s %s as %s, %s: status %d, or it differs: %v, %v", path, name, media, how, got.Code, got.Header(), want.Header())
					}
				}
				n++
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d were compared", n)
	}
}

// Asked by many at once, a plan is made once. A client that goes does not take it
// away from the others, who are counted and answered alike.
func TestPlansAreMadeOnce(t *testing.T) {
	opts, h := options(), newHeld()
	var made atomic.Int64
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		made.Add(1)
		return h.yardage(ctx, req)
	}
	server := newServer(t, opts)
	ctx, gone := context.WithCancel(context.Background())
	first := later(server.Handler(), ctx, "/v1/yardage", sound)
	<-h.working
	var others []chan int
	for i := range 8 {
		others = append(others, later(server.Handler(), context.Background(), "/v1/yardage", sound+strings.Repeat(" ", i)))
	}
	until(t, server, `bridletie_lane_busy{lane="light"} 0`)
	until(t, server, `bridletie_requests_in_flight 9`)
	time.Sleep(20 * time.Millisecond)
	gone()
	<-first
	close(h.release)
	for _, status := range others {
		if got := <-status; got != 200 {
			t.Errorf("status %d", got)
		}
	}
	if made.Load() != 1 {
		t.Errorf("made %d times", made.Load())
	}
	for _, line := range []string{
		`bridletie_answers_total{how="made"} 1`, `bridletie_answers_total{how="joined"} 8`, `bridletie_plans_total{proven="false"} 1`,
		`bridletie_lane_busy{lane="heavy"} 0`, `bridletie_lane_busy{lane="light"} 0`,
	} {
		until(t, server, line)
	}
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	if w := c.post(sound); w.Code != 200 || made.Load() != 1 {
		t.Errorf("later: status %d, made %d times", w.Code, made.Load())
	}
	until(t, server, `bridletie_answers_total{how="kept"} 1`)
}

// When all who asked have gone, the work ends; failures are not kept, and another
// form of the answer is another answer.
func TestWhatIsNotKept(t *testing.T) {
	opts, h := options(), newHeld()
	opts.Yardage = h.yardage
	server := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	ctx, gone := context.WithCancel(context.Background())
	a := later(c.handler, ctx, "/v1/yardage", sound)
	<-h.working
	b := later(c.handler, ctx, "/v1/yardage", sound)
	until(t, server, `bridletie_requests_in_flight 2`)
	time.Sleep(20 * time.Millisecond)
	gone()
	<-a
	<-b
	until(t, server, `bridletie_lane_busy{lane="heavy"} 0`)

	var calls atomic.Int64
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		if calls.Add(1) == 1 {
			panic("once")
		}
		return stacked(ctx, req)
	}
	server = newServer(t, opts)
	c.handler = server.Handler()
	if one, two := c.post(sound), c.post(sound); one.Code != 500 || two.Code != 200 {
		t.Errorf("status %d, then %d", one.Code, two.Code)
	}
	svg := c.do(http.MethodPost, "/v1/yardage", sound, "Content-Type", "application/json", "Accept", "image/svg+xml")
	other := c.post(spoil(t, "Heron and sedge", "Reed"))
	if calls.Load() != 4 || svg.Header().Get("Content-Type") != "image/svg+xml" || other.Code != 200 {
		t.Errorf("%d calls, %v", calls.Load(), svg.Header())
	}
}

// Under many equal and unequal requests at once every answer is the right one.
func TestKeptUnderLoad(t *testing.T) {
	opts := httpapi.DefaultOptions()
	opts.Kept, opts.LightQueue, opts.LightWait = 4096, 1<<16, time.Hour // room for few, so that they are made anew and thrown out all the time
	h := newServer(t, opts).Handler()
	ask := func(n int) string {
		r := httptest.NewRequest(http.MethodPost, "/v1/pleats", strings.NewReader(
			strings.Replace(job(t, "arm-front-pleats.json"), "{", fmt.Sprintf(`{"units":%q,`, []string{"metric", "imperial"}[n%2]), 1)))
		r.Header.Set("Content-Type", "application/json")
		r.Header.Set("Accept", []string{"application/json", "image/svg+xml"}[n/2%2])
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		return fmt.Sprint(w.Code, w.Body)
	}
	want := []string{ask(0), ask(1), ask(2), ask(3)}
	var all sync.WaitGroup
	for i := range 400 {
		all.Go(func() {
			if got := ask(i); got != want[i%4] || !strings.HasPrefix(got, "200") {
				t.Errorf("%d: %.200s", i, got)
			}
		})
	}
	all.Wait()
}
