package httpapi_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/labstack/echo/v4"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/service"
)

// shortAnswers are those that are held against a bare handler: operation and the
// demo request.
var shortAnswers = []struct {
	path, job string
	bare      func(answer []byte) echo.HandlerFunc
	calc      echo.HandlerFunc
}{
	{"/v1/piping", "wing-chair-piping.json", bare[gen.PipingRequest, gen.PipingAnswer], calc(wire.PipingIn, func(req service.PipingRequest) fault.List { return service.Faults(service.PreparePiping(req)) },
		func(req service.PipingRequest) (*service.PipingAnswer, error) {
			return service.Piping(context.Background(), req)
		}, wire.PipingOut)},
	{"/v1/repeat", "curtains-repeat.json", bare[gen.RepeatRequest, gen.RepeatAnswer], calc(wire.RepeatIn, service.RepeatFaults,
		service.Repeat, wire.RepeatOut)},
	{"/v1/foam", "settee-foam.json", bare[gen.FoamRequest, gen.FoamAnswer], calc(wire.FoamIn, func(req service.FoamRequest) fault.List { return service.Faults(service.PrepareFoam(req)) },
		func(req service.FoamRequest) (*service.FoamAnswer, error) {
			return service.Foam(context.Background(), req)
		}, wire.FoamOut)},
}

// calc is a bare handler that also calculates: it decodes the body, has the service
// look for faults and answer, and encodes the answer. What a service does on top of
// it is its pipeline.
func calc[W, R, A, O any](from func(*W) (R, fault.List), faults func(R) fault.List, answer func(R) (*A, error), to func(*A, string) O) echo.HandlerFunc {
	return func(c echo.Context) error {
		var body W
		if err := c.Bind(&body); err != nil {
			return err
		}
		req, _ := from(&body)
		if list := faults(req); list.Len() > 0 {
			return echo.ErrBadRequest
		}
		ans, err := answer(req)
		if err != nil {
			return err
		}
		return c.JSON(http.StatusOK, to(ans, "sha256:"))
	}
}

// bare is the least that a service of JSON does: it decodes the same body and
// encodes the same answer, and looks at neither.
func bare[R, A any](answer []byte) echo.HandlerFunc {
	var ready A
	if err := json.Unmarshal(answer, &ready); err != nil {
		panic(err)
	}
	return func(c echo.Context) error {
		var req R
		if err := c.Bind(&req); err != nil {
			return err
		}
		return c.JSON(http.StatusOK, &ready)
	}
}

// pair is the service and a bare handler that answer one request alike.
func pair(t testing.TB, i int, kept int64) (ours, bare http.Handler, path string, body []byte) {
	t.Helper()
	one := shortAnswers[i]
	opts := httpapi.DefaultOptions()
	opts.Kept = kept
	ours = newServer(t, opts).Handler()
	body = []byte(job(t, one.job))
	e := echo.New()
	e.POST(one.path, one.bare(bodyOf(t, ours, one.path, body)))
	return ours, e, one.path, body
}

// bodyOf is the body of the answer.
func bodyOf(t testing.TB, h http.Handler, path string, body []byte) []byte {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, jsonRequest(path, body))
	if w.Code != http.StatusOK {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	return w.Body.Bytes()
}

func jsonRequest(path string, body []byte) *http.Request {
	r := httptest.NewRequest(http.MethodPost, path, bytes.NewReader(body))
	r.Header.Set("Content-Type", "application/json")
	return r
}

// The bare handler answers what the service answers.
func TestBareAnswersAlike(t *testing.T) {
	for i := range shortAnswers {
		ours, bare, path, body := pair(t, i, 0)
		a, b := httptest.NewRecorder(), httptest.NewRecorder()
		ours.ServeHTTP(a, jsonRequest(path, body))
		bare.ServeHTTP(b, jsonRequest(path, body))
		var x, y any
		if json.Unmarshal(a.Body.Bytes(), &x) != nil || json.Unmarshal(b.Body.Bytes(), &y) != nil || a.Body.String() != b.Body.String() {
			t.Errorf("%s: the bare handler answers something else", path)
		}
	}
}

// sink is a writer of answers that keeps nothing.
type sink struct{ header http.Header }

func (s *sink) Header() http.Header         { return s.header }
func (s *sink) Write(b []byte) (int, error) { return len(b), nil }
func (s *sink) WriteHeader(int)             {}

// BenchmarkShort is the service, every answer made anew, against the bare handler.
func BenchmarkShort(b *testing.B) {
	for i, one := range shortAnswers {
		ours, bare, path, body := pair(b, i, 0)
		for name, h := range map[string]http.Handler{"bare": bare, "ours": ours} {
			b.Run(one.path[4:]+"/"+name, func(b *testing.B) {
				r := jsonRequest(path, body)
				for b.Loop() {
					r.Body = io.NopCloser(bytes.NewReader(body))
					h.ServeHTTP(&sink{http.Header{}}, r)
				}
			})
		}
	}
}
