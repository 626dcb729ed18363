package httpapi

import (
	"context"
	"errors"
	"net/http"
	"strings"
)

// exchange is a request and its response in the pipeline.
type exchange struct {
	r *http.Request
	w *sending

	id, trace string
	address   string // of the client
	caller    caller
	found     *found

	row    *row              // the operation that the contract has for the path; nil before the route stage
	route  func()            // runs the router, which sets routed and params
	routed *row              // the operation that the router found; nil for none
	params map[string]string // the path parameters
}

// handler serves an exchange, or returns an error to be sent as a problem.
type handler func(*exchange) error

// operation returns the id of the operation, "" before it is known.
func (x *exchange) operation() string {
	if x.row == nil {
		return ""
	}
	return x.row.id
}

// path returns the contract's path with the parameters filled in.
func (x *exchange) path() string {
	at := x.row.path
	for name, value := range x.params {
		at = strings.ReplaceAll(at, "{"+name+"}", value)
	}
	return at
}

// arrive runs the router. It returns a problem when the router and the contract disagree
// on the path, because the router sees the path undecoded.
func (x *exchange) arrive() error {
	x.route()
	if x.routed != x.row {
		return problem(notFound, "")
	}
	return nil
}

// sending is a ResponseWriter that records what was sent.
type sending struct {
	http.ResponseWriter
	code   int         // 0 until the header is sent
	size   int64       // bytes of the body
	before http.Header // added to the header just before it is sent
}

// status returns the status of the response; 200 before anything is sent.
func (w *sending) status() int {
	if w.code == 0 {
		return http.StatusOK
	}
	return w.code
}

// WriteHeader sends the header; later calls have no effect.
func (w *sending) WriteHeader(code int) {
	if w.code != 0 {
		return
	}
	h := w.Header()
	for name, values := range w.before {
		h[name] = append(h[name][:len(h[name]):len(h[name])], values...)
	}
	w.code = code
	w.ResponseWriter.WriteHeader(code)
}

// Write sends a part of the body.
func (w *sending) Write(b []byte) (int, error) {
	w.WriteHeader(http.StatusOK)
	n, err := w.ResponseWriter.Write(b)
	w.size += int64(n)
	return n, err
}

// FlushError hands what was written on to the connection, where it can.
func (w *sending) FlushError() error {
	if err := http.NewResponseController(w.ResponseWriter).Flush(); !errors.Is(err, http.ErrNotSupported) {
		return err
	}
	return nil
}

// handedOn hands all of an answer on to the connection, and reports whether that took
// it. An answer whose length was not said is left alone: it would be sent in chunks.
func (w *sending) handedOn() bool {
	return w.Header().Get("Content-Length") == "" || w.FlushError() == nil
}

// Unwrap returns the underlying writer, for http.ResponseController.
func (w *sending) Unwrap() http.ResponseWriter { return w.ResponseWriter }

// contextKey is the type of this package's keys in a context.
type contextKey int

const (
	turnKey    contextKey = iota // the *turn of the request
	preferKey                    // the prefers of the request
	accountKey                   // the *admit.Account that the work is charged to
	callerKey                    // the caller
	lineKey                      // the *lineWork of a line's request
)

// found is a context that carries everything the pipeline has determined about a request.
// One context for all values costs less than one for each.
type found struct {
	context.Context //nolint:containedctx // it is a context

	media  string
	caller caller
	turn   *turn
	prefer prefers
}

// Value returns the pipeline's value for this package's keys, otherwise that of the
// context.
func (f *found) Value(key any) any {
	name, ours := key.(contextKey)
	if !ours {
		return f.Context.Value(key)
	}
	switch name {
	case turnKey:
		return f.turn
	case preferKey:
		return f.prefer
	case callerKey:
		return f.caller
	case accountKey:
		return f.caller.account
	}
	return f.Context.Value(key)
}
