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

// headerRequestID carries the id of a request, in requests and responses.
const headerRequestID = "X-Request-Id"

// observe gives the request its id, sends errors as problems, and counts and logs the
// response.
func (s *Server) observe(next handler) handler {
	return func(x *exchange) error {
		begun := time.Now()
		r := x.r
		id := r.Header.Get(headerRequestID)
		if !formats.IsToken(id, 64) {
			id = rand.Text()
		}
		x.id, x.trace = id, traceOf(r)
		x.w.Header().Set(headerRequestID, id)
		s.metrics.inFlight.Inc()
		whole := false
		defer func() { s.observed(x, begun, whole) }()
		err := s.recovered(x.r.Context(), x.id, func() error { return next(x) })
		switch {
		case errors.Is(err, http.ErrAbortHandler):
			panic(http.ErrAbortHandler) // a partial response must not look complete
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

// observed counts and logs a response, complete or aborted. A client may disconnect as soon
// as it has read the response, so the end of its context alone does not mean a failure.
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

// statusGone is the status in the log and the metrics of a response that could not be sent
// completely, because the client disconnected or stopped reading. It is not a failure of
// the service.
const statusGone = 499

// recovered runs work and returns a panic as an error. A panic with http.ErrAbortHandler
// is returned as that error.
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

// headers sets the headers common to all responses.
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

// sizes refuses an address or a header over its limit. net/http itself refuses much longer
// ones.
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

// route finds the operation, or returns 404 or 405.
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

// negotiate picks the media type of the response and stores it in the context.
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
