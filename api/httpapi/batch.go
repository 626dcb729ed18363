package httpapi

import (
	"context"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"net/url"
	"runtime"
	"strings"
	"sync"
	"time"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/gen"
)

// The limits of a batch. They equal those in the contract.
const (
	MaxBatchLines = 10000
	MaxBatchLine  = MaxCheckBody + 4096 // bytes: the largest request and its envelope
	MaxBatchBody  = 64 << 20
)

// BatchOptions are the settings of batches.
type BatchOptions struct {
	Flight int           // lines of one batch read but not yet answered
	AtOnce int           // concurrent batches; further ones get 503
	Time   time.Duration // after which a batch reads no more lines
	Idle   time.Duration // timeout of a single read or write
	Linger time.Duration // how long lines are still read after Drain
}

// DefaultBatchOptions returns the settings for production.
func DefaultBatchOptions() BatchOptions {
	return BatchOptions{Flight: 2 * runtime.GOMAXPROCS(0), AtOnce: 4, Time: 30 * time.Minute, Idle: 30 * time.Second, Linger: 15 * time.Second}
}

// validate returns an error that names the invalid setting.
func (o BatchOptions) validate() error {
	if o.Flight < 1 || o.AtOnce < 1 || o.Time <= 0 || o.Idle <= 0 || o.Linger < 0 {
		return fmt.Errorf("httpapi: Options.Batch: all but Linger must be positive")
	}
	return nil
}

// batches limits the work on all batches.
type batches struct {
	most  int           // limit on concurrent batches
	lines chan struct{} // slots for lines in progress, shared by all batches; each batch takes them in line order

	mu    *sync.Mutex
	under map[*admit.Account]int // way: the number of batches in progress of each client
}

func newBatches(o Options) batches {
	return batches{most: o.Batch.AtOnce, mu: new(sync.Mutex), under: make(map[*admit.Account]int), lines: make(chan struct{}, o.Solves)}
}

// enter takes a slot for a batch and reports whether there was one. One client cannot hold
// all slots, because a slow sender keeps its slot for a long time.
func (b batches) enter(who *admit.Account) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	all := 0
	for _, n := range b.under {
		all += n
	}
	if all >= b.most || b.under[who] >= max(b.most-1, 1) {
		return false
	}
	b.under[who]++
	return true
}

func (b batches) leave(who *admit.Account) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.under[who]--; b.under[who] == 0 {
		delete(b.under, who)
	}
}

// linesProblem returns a problem for a body that is not lines of JSON in UTF-8, or whose
// Content-Length is over the limit; otherwise nil.
func linesProblem(r *http.Request) *Problem {
	const send = "send Content-Type application/x-ndjson, in UTF-8 and without Content-Encoding"
	media, params, err := mime.ParseMediaType(strings.Join(r.Header.Values("Content-Type"), ","))
	charset, has := params["charset"]
	switch {
	case err != nil || media != contract.Lines || len(r.Header.Values("Content-Encoding")) > 0:
		return problem(unsupportedMediaType, send)
	case len(params) > 1 || len(params) == 1 && !has || has && !strings.EqualFold(charset, "utf-8"):
		return problem(unsupportedMediaType, send)
	case r.ContentLength > MaxBatchBody:
		return tooLarge(MaxBatchBody)
	}
	return nil
}

// batch reads lines and sends a response line for each, until the body ends or a limit is
// reached.
func (s *Server) batch(x *exchange) error {
	if p := linesProblem(x.r); p != nil {
		return p
	}
	if err := x.arrive(); err != nil {
		return err
	}
	order, p := orderOf(x.r.URL.Query())
	if p != nil {
		return p
	}
	if !s.batches.enter(x.caller.account) {
		return retry("enough batches are being answered", heavyRetry)
	}
	defer s.batches.leave(x.caller.account)
	ctx, stop := context.WithTimeoutCause(x.r.Context(), s.opts.Batch.Time+s.opts.SolveTime, errBatchTime)
	defer stop()
	control := http.NewResponseController(x.w)
	_ = control.EnableFullDuplex() // without full duplex the whole body is read first
	body := &patientBody{from: http.MaxBytesReader(x.w, io.NopCloser(x.r.Body), MaxBatchBody), control: control, idle: s.opts.Batch.Idle}
	wake := context.AfterFunc(ctx, body.stop)
	defer wake()
	tally, err := s.AnswerLines(ctx, body, LineRun{
		AnyOrder: order == gen.BatchParamsOrderAny, Lines: MaxBatchLines,
		until: time.Now().Add(s.opts.Batch.Time), draining: s.lingers(),
		Emit: func(line []byte) error { return x.emit(line, control, s.opts.Batch.Idle) },
	})
	body.stop()
	switch {
	case err != nil && x.w.code == 0:
		return left("it was read", lightRetry)
	case err != nil: // the client must not take a partial response for a whole one
		s.opts.Log.InfoContext(x.r.Context(), "batch broken off", "lines", tally.Answered+tally.Refused, "error", clipError(err))
		panic(http.ErrAbortHandler)
	case tally.Answered+tally.Refused == 0:
		return problem(invalidRequest, "there are no lines")
	}
	return nil
}

// emit sends a line, with a write timeout.
func (x *exchange) emit(line []byte, control *http.ResponseController, within time.Duration) error {
	_ = control.SetWriteDeadline(time.Now().Add(within))
	x.linesBegin()
	if _, err := x.w.Write(line); err != nil {
		return err
	}
	return x.w.FlushError()
}

// linesBegin sends the header of a response in lines, unless it has been sent already.
func (x *exchange) linesBegin() {
	if x.w.code != 0 {
		return
	}
	h := x.w.Header()
	h.Set("Content-Type", contract.Lines)
	h.Set("Cache-Control", "no-store")
	h.Set("Vary", "Accept")
	x.w.WriteHeader(http.StatusOK)
}

// orderOf returns the order of the response lines that the query asks for.
func orderOf(query url.Values) (gen.BatchParamsOrder, *Problem) {
	given := query["order"]
	if len(given) > 1 {
		return "", problem(invalidRequest, "a parameter of the query stands twice or cannot be read")
	}
	switch order := gen.BatchParamsOrder(strings.Join(given, "")); order {
	case "", gen.BatchParamsOrderKept, gen.BatchParamsOrderAny:
		return order, nil
	}
	return "", problem(invalidRequest, "order is kept or any")
}

// lingers returns a function that reports whether a batch must stop reading, because the
// service has been draining for longer than Linger. The function is for one goroutine.
func (s *Server) lingers() func() bool {
	var since time.Time
	return func() bool {
		switch {
		case !s.draining.Load():
			return false
		case since.IsZero():
			since = time.Now()
		}
		return time.Since(since) >= s.opts.Batch.Linger
	}
}

// errBatchTime is the cancellation cause of a batch that takes too long.
var errBatchTime = errors.New("the batch took too long")

// patientBody is a body with a timeout for each read, instead of the server's timeout for
// the whole body.
type patientBody struct {
	from    io.Reader
	control *http.ResponseController
	idle    time.Duration

	mu    sync.Mutex
	ended bool // further reads fail
}

// Read reads with the timeout, and fails after stop.
func (b *patientBody) Read(p []byte) (int, error) {
	b.mu.Lock()
	if b.ended {
		b.mu.Unlock()
		return 0, io.ErrUnexpectedEOF
	}
	_ = b.control.SetReadDeadline(time.Now().Add(b.idle)) // a test recorder does not support it
	b.mu.Unlock()
	n, err := b.from.Read(p)
	if err != nil {
		b.mu.Lock()
		b.ended = true
		b.mu.Unlock()
	}
	return n, err
}

// stop interrupts a Read in progress. It does not touch the connection of a body that was
// read to its end, whose deadline is then that of the next request.
func (b *patientBody) stop() {
	b.mu.Lock()
	defer b.mu.Unlock()
	if !b.ended {
		b.ended = true
		_ = b.control.SetReadDeadline(time.Unix(1, 0))
	}
}
