package httpapi

import (
	"context"
	"errors"
	"net/http"
	"strings"
)

// exchange is a request and its answer on their way through the pipeline.
type exchange struct {
	r *http.Request
	w *sending

	id, trace string
	address   string // of the client
	caller    caller
	found     *found

	row    *row              // the operation, as the contract has its path; nil before it is known
	route  func()            // has the router find routed and params
	routed *row              // the operation that the router found; nil for none
	params map[string]string // what stands in its path
}

// handler answers an exchange, or says why not.
type handler func(*exchange) error

// operation is the id of the operation, "" when there is none yet.
func (x *exchange) operation() string {
	if x.row == nil {
		return ""
	}
	return x.row.id
}

// path is the path of the contract with what stands in its place.
func (x *exchange) path() string {
	at := x.row.path
	for name, value := range x.params {
		at = strings.ReplaceAll(at, "{"+name+"}", value)
	}
	return at
}

// arrive finds the route, and is the problem of a path that the router does not know
// as the contract does: it sees the path undecoded.
func (x *exchange) arrive() error {
	x.route()
	if x.routed != x.row {
		return problem(notFound, "")
	}
	return nil
}

// sending is the sending of an answer: it knows what was sent.
type sending struct {
	http.ResponseWriter
	code   int         // 0 until the header is sent
	size   int64       // bytes of the body
	before http.Header // is added to the header before it is sent
}

// status is that of the answer; 200 as long as nothing was sent.
func (w *sending) status() int {
	if w.code == 0 {
		return http.StatusOK
	}
	return w.code
}

// WriteHeader sends the header, once.
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

// Unwrap is what http.ResponseController looks into.
func (w *sending) Unwrap() http.ResponseWriter { return w.ResponseWriter }

// contextKey is the type of this package's keys in a context.
type contextKey int

const (
	turnKey    contextKey = iota // the *turn of the request
	preferKey                    // the prefers of the request
	accountKey                   // the *admit.Account that pays for the work
	callerKey                    // the caller
	lineKey                      // the *lineWork of a line's request
)

// found is the context of a request with what the pipeline found out about it: one
// for all, since a context for each thing costs more than the thing.
type found struct {
	context.Context //nolint:containedctx // it is one

	media  string
	caller caller
	turn   *turn
	prefer prefers
}

// Value is what was found, by this package's keys, or a value of the context.
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
