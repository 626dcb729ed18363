package httpapi

import (
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"sync"
	"sync/atomic"
	"time"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/reuse"
	"github.com/bridletie/bridletie/api/web"
	"github.com/bridletie/bridletie/calc/fire"
)

// Server serves the operations of the contract.
type Server struct {
	opts      Options
	contract  *contract.Contract
	table     table
	rules     *fire.Set
	documents documents
	contracts map[string]*contracts // by the operation
	pages     *web.Site
	metrics   *metrics
	gate      *gateMetrics
	light     *admit.Lane // reads bodies and runs short operations
	heavy     *admit.Lane // runs plans and other searches
	bodies    room
	callers   *callers
	kept      *reuse.Store[*reply] // the cache; nil for none
	draining  atomic.Bool
	wasReady  struct {
		sync.Mutex
		until time.Time
	}
	pipeline handler
	handler  http.Handler
	batches  batches
}

// New creates a server. It fails on invalid options, and when the table of operations
// differs from the contract. Errors in the contract itself are reported by readyz.
func New(opts Options) (*Server, error) {
	if err := opts.validate(); err != nil {
		return nil, err
	}
	c, err := contract.Load(opts.Limits.Limits, int(opts.SolveTime.Seconds()))
	if err != nil {
		return nil, err
	}
	all, err := newTable(operations(), c, opts.Limits.Limits)
	if err != nil {
		return nil, err
	}
	if err := opts.Access.validate(c.Operations()); err != nil {
		return nil, err
	}
	rules, err := fire.Load()
	if err != nil {
		return nil, fmt.Errorf("httpapi: %w", err)
	}
	pages, err := loadPages()
	if err != nil {
		return nil, err
	}
	if opts.Log == nil {
		opts.Log = slog.New(slog.DiscardHandler)
	}
	s := &Server{
		opts:      opts,
		contract:  c,
		table:     all,
		rules:     rules,
		documents: newDocuments(rules),
		contracts: newContracts(c),
		pages:     pages,
		metrics:   newMetrics(),
		callers:   newCallers(opts.Access),
		batches:   newBatches(opts),
	}
	s.rooms()
	s.pipeline = s.stages()
	s.handler = s.router()
	return s, nil
}

// rooms creates the limited resources: lanes, room for bodies, cache.
func (s *Server) rooms() {
	opts, registry := s.opts, s.metrics.registry
	s.bodies.most = int64(opts.BodyRoom)
	s.gate = newGateMetrics(registry)
	s.light = s.gate.lane(registry, "light", opts.Lights, opts.LightQueue, opts.LightWait)
	s.heavy = s.gate.lane(registry, "heavy", opts.Solves, opts.SolveQueue, opts.SolveWait)
	if opts.Kept > 0 {
		s.kept = reuse.New(opts.Kept, (*reply).size)
		s.gate.room(registry, opts.Kept, s.kept.Bytes)
	}
}

// stages returns the pipeline. The order of the stages matters:
//   - observe is first, so that every response is counted and logged;
//   - headers comes before anything can respond;
//   - cors comes before any problem, so that a page of another origin can read it;
//   - route comes before the body, so that a wrong path costs nothing;
//   - admitted follows as soon as the operation is known, so that refusing a caller
//     is cheap;
//   - negotiate comes before the body, so that no work starts for an unacceptable
//     media type;
//   - answered is last. It limits the body before reading it, and waits for a slot only
//     when the whole body has arrived, so that a slow sender holds no slot.
func (s *Server) stages() handler {
	h := s.answered
	for _, stage := range []func(handler) handler{s.negotiate, s.admitted, s.route, s.sizes, s.cors, s.headers, s.observe, s.traced} {
		h = stage(h)
	}
	return h
}

// Handler returns the HTTP handler of the service. HEAD is served as GET without the body.
func (s *Server) Handler() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodHead {
			get := r.Clone(r.Context())
			get.Method = http.MethodGet
			s.handler.ServeHTTP(bodiless{w}, get)
			return
		}
		s.handler.ServeHTTP(w, r)
	})
}

// bodiless is a ResponseWriter that discards the body.
type bodiless struct{ http.ResponseWriter }

func (bodiless) Write(b []byte) (int, error) { return len(b), nil }

// MetricsHandler returns the handler of the metrics, for a separate listener.
func (s *Server) MetricsHandler() http.Handler { return s.metrics.handler() }

// Drain makes readyz return 503 from now on, and closes connections after their next
// response. Requests are still served.
func (s *Server) Drain() { s.draining.Store(true) }

// answerError sends err as a problem. An error that is not a problem gives a plain 500,
// with its text only in the log. It returns whether the problem was sent and is a response
// to the request, not to the end of the request.
func (s *Server) answerError(x *exchange, err error) bool {
	if x.w.code != 0 {
		return false
	}
	var p *Problem
	if !errors.As(err, &p) {
		s.opts.Log.ErrorContext(x.r.Context(), "failed", "request", x.id, "error", clipError(err))
		p = problem(internal, "request "+x.id)
	}
	if err := p.write(x.w); err != nil {
		s.opts.Log.WarnContext(x.r.Context(), "answer not sent", "request", x.id, "error", clipError(err))
		return false
	}
	return !p.left
}

// clipError returns the text of an error, cut to a limit, because it may contain input.
func clipError(err error) string {
	const most = 400
	s := fmt.Sprint(err)
	return s[:min(len(s), most)]
}
