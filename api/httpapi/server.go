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

// Server answers the operations of the contract.
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
	light     *admit.Lane // for reading bodies and for short answers
	heavy     *admit.Lane // for plans and other searches
	bodies    room
	callers   *callers
	kept      *reuse.Store[*reply] // nil when every answer is made anew
	draining  atomic.Bool
	wasReady  struct {
		sync.Mutex
		until time.Time
	}
	pipeline handler
	handler  http.Handler
	batches  batches
}

// New makes a server. It fails on options that make no sense, and on a table of
// operations that is not the contract's. What is wrong with the contract itself readyz
// says.
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

// rooms makes what there is only so much of: lanes, bytes of bodies, kept answers.
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

// stages are what a request goes through. The order matters:
//   - observe first, so that every answer is counted and logged, whatever gave it;
//   - headers before anything answers;
//   - cors before any problem, so that a page of another origin can read it;
//   - route before the body is touched, so that a wrong path costs nothing;
//   - admitted as soon as the operation is known, so that who may not call costs
//     next to nothing;
//   - negotiate before the body, so that work whose answer nobody takes is not begun;
//   - answered last: the body's limit is set before the first byte is read, and it
//     waits for its turn only when all of it is there, so that a slow sender holds
//     nobody up.
func (s *Server) stages() handler {
	h := s.answered
	for _, stage := range []func(handler) handler{s.negotiate, s.admitted, s.route, s.sizes, s.cors, s.headers, s.observe, s.traced} {
		h = stage(h)
	}
	return h
}

// Handler answers requests. HEAD is answered as GET without its body.
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

// bodiless drops the body of an answer.
type bodiless struct{ http.ResponseWriter }

func (bodiless) Write(b []byte) (int, error) { return len(b), nil }

// MetricsHandler answers with the metrics, for a listener of its own.
func (s *Server) MetricsHandler() http.Handler { return s.metrics.handler() }

// Drain makes readyz answer 503 from now on, and connections close after their
// next answer. Requests are answered as before.
func (s *Server) Drain() { s.draining.Store(true) }

// answerError sends the problem that err is; any other error is the service's
// fault, and only the log says what it was. It reports whether the problem was sent,
// and is the answer to the request rather than to its end.
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

// clipError is the text of an error, cut: an error may hold the input.
func clipError(err error) string {
	const most = 400
	s := fmt.Sprint(err)
	return s[:min(len(s), most)]
}
