package httpapi

import (
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"sync"
	"sync/atomic"
	"time"

	"github.com/labstack/echo/v4"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/reuse"
	"github.com/bridletie/bridletie/api/web"
)

// Server answers the operations of the contract.
type Server struct {
	opts      Options
	contract  *contract.Contract
	furniture document
	pictures  map[string]func() document // by kind
	metrics   *metrics
	fire      *fireRules
	guides    map[guideForm]func() (document, error)
	pages     *web.Site
	gate      *gateMetrics
	light     *admit.Lane // for reading bodies and for short answers
	heavy     *admit.Lane // for plans and other searches
	bodies    room
	callers   *callers
	kept      *reuse.Store[*recorded] // nil when every answer is made anew
	draining  atomic.Bool
	wasReady  struct {
		sync.Mutex
		until time.Time
	}
	echo    *echo.Echo
	batches batches
}

// New makes a server. It fails on options that make no sense and on a contract
// that is not a right one.
func New(opts Options) (*Server, error) {
	if err := opts.validate(); err != nil {
		return nil, err
	}
	c, err := contract.Load(opts.Limits.Limits, int(opts.SolveTime.Seconds()))
	if err != nil {
		return nil, err
	}
	if err := opts.Access.validate(c.Operations()); err != nil {
		return nil, err
	}
	kinds, err := furnitureDocument()
	if err != nil {
		return nil, err
	}
	rules, err := loadFireRules()
	if err != nil {
		return nil, err
	}
	pages, err := loadPages()
	if err != nil {
		return nil, err
	}
	if opts.Log == nil {
		opts.Log = slog.New(slog.DiscardHandler)
	}
	s := &Server{
		opts:     opts,
		contract: c, furniture: kinds, pictures: furniturePictures(),
		metrics: newMetrics(),
		fire:    rules,
		guides:  measuringGuides(),
		pages:   pages,
		callers: newCallers(opts.Access),
	}
	s.bodies.most = int64(opts.BodyRoom)
	registry := s.metrics.registry
	s.gate = newGateMetrics(registry)
	s.light = s.gate.lane(registry, "light", opts.Lights, opts.LightQueue, opts.LightWait)
	s.heavy = s.gate.lane(registry, "heavy", opts.Solves, opts.SolveQueue, opts.SolveWait)
	if opts.Kept > 0 {
		s.kept = reuse.New(opts.Kept, (*recorded).size)
		s.gate.room(registry, opts.Kept, s.kept.Bytes)
	}
	s.echo = s.routes()
	s.batches = s.newBatches()
	return s, nil
}

// routes puts the pipeline before the generated routes. The order matters:
//   - observe first, so that every answer is counted and logged, whatever gave it;
//   - headers before anything answers;
//   - cors before any problem, so that a page of another origin can read it;
//   - route before the body is touched, so that a wrong path costs nothing;
//   - admitted as soon as the operation is known, so that who may not call costs
//     next to nothing;
//   - negotiate before the body, so that work whose answer nobody takes is not begun;
//   - body last: its limit is set before the first byte is read, and it waits for
//     its turn only when all of it is there, so that a slow sender holds nobody up.
func (s *Server) routes() *echo.Echo {
	e := echo.New()
	e.HideBanner, e.HidePort = true, true
	e.HTTPErrorHandler = func(err error, c echo.Context) { s.answerError(c, err) }
	e.Binder = boundBody{}
	e.IPExtractor = s.opts.extractor()
	e.Use(s.traced, s.observe, s.headers, s.cors, s.sizes, s.route, s.admitted, s.negotiate, s.body)
	gen.RegisterHandlers(e, gen.NewStrictHandler(handlers{s}, nil))
	return e
}

// Handler answers requests. HEAD is answered as GET without its body.
func (s *Server) Handler() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodHead {
			get := r.Clone(r.Context())
			get.Method = http.MethodGet
			s.echo.ServeHTTP(bodiless{w}, get)
			return
		}
		s.echo.ServeHTTP(w, r)
	})
}

// bodiless drops the body of an answer.
type bodiless struct{ http.ResponseWriter }

func (bodiless) Write(b []byte) (int, error) { return len(b), nil }

// MetricsHandler answers with the metrics, for a listener of its own.
func (s *Server) MetricsHandler() http.Handler { return s.metrics.handler() }

// Drain makes readyz answer 503 from now on, and connections close after their
// next answer. Requests are answered as before.
func (s *Server) Drain() { s.draining.Store(true) }

// answerError sends the problem that err is; any other error is the service's
// fault, and only the log says what it was.
func (s *Server) answerError(c echo.Context, err error) {
	if c.Response().Committed {
		return
	}
	var p *Problem
	if !errors.As(err, &p) {
		p = routeProblem(err)
	}
	if p == nil {
		s.opts.Log.ErrorContext(c.Request().Context(), "failed", "request", requestID(c), "error", clipError(err))
		p = problem(internal, "request "+requestID(c))
	}
	if err := p.write(c.Response()); err != nil {
		s.opts.Log.WarnContext(c.Request().Context(), "answer not sent", "request", requestID(c), "error", clipError(err))
	}
}

// routeProblem is the problem that the router's own error is; nil for any other
// error. The router sees the path undecoded, and may know none where the
// contract does.
func routeProblem(err error) *Problem {
	var he *echo.HTTPError
	if errors.As(err, &he) && he.Code == http.StatusBadRequest {
		return problem(invalidRequest, "a parameter of the query stands twice or cannot be read")
	}
	if errors.As(err, &he) && he.Code < http.StatusInternalServerError {
		return problem(notFound, "")
	}
	return nil
}

// clipError is the text of an error, cut: an error may hold the input.
func clipError(err error) string {
	const most = 400
	s := fmt.Sprint(err)
	return s[:min(len(s), most)]
}
