package httpapi

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"net/http"
	"runtime/debug"
	"strings"
	"time"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/formats"
)

// headerRequestID carries the id of a request both ways.
const headerRequestID = "X-Request-Id"

// observe gives the request its id, turns what goes wrong into an answer, and
// counts and logs it.
func (s *Server) observe(next handler) handler {
	return func(x *exchange) error {
		begun := time.Now()
		r := x.r
		id := r.Header.Get(headerRequestID)
		if !formats.IsToken(id, 64) {
			id = rand.Text()
		}
		x.id, x.trace = id, traceOf(r.Header.Values("Traceparent"))
		x.w.Header().Set(headerRequestID, id)
		s.metrics.inFlight.Inc()
		whole := false
		defer func() { s.observed(x, begun, whole) }()
		err := s.recovered(x.r.Context(), x.id, func() error { return next(x) })
		switch {
		case errors.Is(err, http.ErrAbortHandler):
			panic(http.ErrAbortHandler) // an answer that was begun must not look whole
		case err != nil && x.w.code != 0:
			panic(http.ErrAbortHandler)
		case err != nil:
			whole = s.answerError(x, err) && x.w.handedOn()
		default:
			whole = x.w.handedOn()
		}
		return nil
	}
}

// observed counts and logs an answer, whether it was sent whole or broken off. A
// client may leave as soon as it has read the answer, so that the end of its request
// by itself says nothing.
func (s *Server) observed(x *exchange, begun time.Time, whole bool) {
	s.metrics.inFlight.Dec()
	name := x.operation()
	if name == "" {
		name = "none"
	}
	r, took, status := x.r, time.Since(begun), x.w.status()
	if !whole && r.Context().Err() != nil {
		status = statusGone
	}
	s.metrics.answered(name, status, took)
	s.opts.Log.InfoContext(r.Context(), "request", "request", x.id, "trace", x.trace, "method", r.Method, "operation", name,
		"status", status, "bytes", x.w.size, "ms", float64(took.Microseconds())/1e3,
		"caller", x.caller.class(), "client", x.caller.key, "from", cut(x.address))
}

// statusGone stands in the log and the metrics for an answer that could not be sent
// whole, since the client had left or did not take it: it is not the service that
// failed.
const statusGone = 499

// recovered works, and turns a panic into an error: that of an answer that is to
// be broken off into http.ErrAbortHandler.
func (s *Server) recovered(ctx context.Context, request string, work func() error) (err error) {
	defer func() {
		v := recover()
		if broken, ok := v.(error); ok && errors.Is(broken, http.ErrAbortHandler) {
			err = http.ErrAbortHandler
		} else if v != nil {
			s.metrics.panics.Inc()
			s.opts.Log.ErrorContext(ctx, "panic", "request", request,
				"error", clipError(fmt.Errorf("%v", v)), "stack", string(debug.Stack()))
			err = errors.New("panic")
		}
	}()
	return work()
}

// headers sets what every answer carries.
func (s *Server) headers(next handler) handler {
	return func(x *exchange) error {
		h := x.w.Header()
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'")
		h.Set("Referrer-Policy", "no-referrer")
		if x.r.Method == http.MethodPost {
			h.Set("Cache-Control", "no-store")
		}
		if s.draining.Load() {
			h.Set("Connection", "close")
		}
		return next(x)
	}
}

// sizes refuses an address or a header that is longer than any honest one. What
// is longer still, net/http has refused by itself.
func (s *Server) sizes(next handler) handler {
	return func(x *exchange) error {
		r := x.r
		if most := s.opts.AddressBytes; len(r.RequestURI) > most {
			return problem(addressTooLong, fmt.Sprintf("at most %d bytes are read", most))
		}
		fields := 0
		for _, values := range r.Header {
			fields += len(values)
		}
		if most := s.opts.HeaderFields; fields > most {
			return problem(headersTooLarge, fmt.Sprintf("at most %d are read", most))
		}
		return next(x)
	}
}

// route finds the operation, or says that there is none.
func (s *Server) route(next handler) handler {
	rows := make(map[*contract.Operation]*row)
	for _, r := range s.table {
		rows[r.says] = r
	}
	return func(x *exchange) error {
		template, ok := s.contract.Template(x.r.URL.Path)
		if !ok {
			return problem(notFound, "")
		}
		op := s.contract.Find(x.r.Method, template)
		if op == nil {
			allow := strings.Join(s.contract.Methods(template), ", ")
			return problem(methodNotAllowed, "allowed are "+allow).with("Allow", allow)
		}
		x.row = rows[op]
		return next(x)
	}
}

// negotiate picks the form of the answer and notes it in the context.
func (s *Server) negotiate(next handler) handler {
	return func(x *exchange) error {
		x.w.Header().Set("Vary", "Accept")
		offers := x.row.says.Offers
		media, ok := contract.Negotiate(x.r.Header.Values("Accept"), offers)
		if !ok {
			return problem(notAcceptable, "on offer are "+strings.Join(offers, ", "))
		}
		x.found = &found{Context: x.r.Context(), media: media, caller: x.caller, prefer: readPrefer(x.row, x.r.Header.Values("Prefer"))}
		x.r = x.r.WithContext(x.found)
		return next(x)
	}
}
