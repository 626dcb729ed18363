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

// The limits of a batch, as the contract says them.
const (
	MaxBatchLines = 10000
	MaxBatchLine  = MaxCheckBody + 4096 // bytes: the largest request, and what stands around it
	MaxBatchBody  = 64 << 20
)

// BatchOptions are the settings for answering lines.
type BatchOptions struct {
	Flight int           // lines read and not yet answered, of one batch
	AtOnce int           // batches answered at the same time; more are told to come back
	Time   time.Duration // after which a batch reads no more lines
	Idle   time.Duration // how long the next bytes may take to come, or to be taken
	Linger time.Duration // for which lines are still read once the service is to stop
}

// DefaultBatchOptions are the settings of a server in use.
func DefaultBatchOptions() BatchOptions {
	return BatchOptions{Flight: 2 * runtime.GOMAXPROCS(0), AtOnce: 4, Time: 30 * time.Minute, Idle: 30 * time.Second, Linger: 15 * time.Second}
}

// validate names the setting that makes no sense.
func (o BatchOptions) validate() error {
	if o.Flight < 1 || o.AtOnce < 1 || o.Time <= 0 || o.Idle <= 0 || o.Linger < 0 {
		return fmt.Errorf("httpapi: Options.Batch: all but Linger must be positive")
	}
	return nil
}

// batches is what the server keeps for answering lines.
type batches struct {
	most  int           // at the same time
	lines chan struct{} // one for each line worked on, whatever its batch; taken in the order of the lines

	mu    *sync.Mutex
	under map[*admit.Account]int // way, of each client
}

func newBatches(o Options) batches {
	return batches{most: o.Batch.AtOnce, mu: new(sync.Mutex), under: make(map[*admit.Account]int), lines: make(chan struct{}, o.Solves)}
}

// enter takes a place for a batch. A client alone may not have them all: who sends
// slowly keeps his for long.
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

// linesProblem refuses a body that is not lines of JSON in UTF-8, or is said to be
// too large.
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

// batch reads lines and sends answers until there are no more.
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
	_ = control.EnableFullDuplex() // where it cannot be had, the whole body is read first
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
	case err != nil: // what was sent must not be taken for all
		s.opts.Log.InfoContext(x.r.Context(), "batch broken off", "lines", tally.Answered+tally.Refused, "error", clipError(err))
		panic(http.ErrAbortHandler)
	case tally.Answered+tally.Refused == 0:
		return problem(invalidRequest, "there are no lines")
	}
	return nil
}

// emit sends a line within that time.
func (x *exchange) emit(line []byte, control *http.ResponseController, within time.Duration) error {
	_ = control.SetWriteDeadline(time.Now().Add(within))
	x.linesBegin()
	if _, err := x.w.Write(line); err != nil {
		return err
	}
	return x.w.FlushError()
}

// linesBegin sends the header of an answer in lines, unless it has been sent.
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

// orderOf is the order in which the answers are wanted.
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

// lingers says when a batch reads no more because the service is to stop.
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

// errBatchTime is why a batch that goes on for too long ends.
var errBatchTime = errors.New("the batch took too long")

// patientBody is a body whose next bytes have their own time to come, whatever
// the server allows a whole body.
type patientBody struct {
	from    io.Reader
	control *http.ResponseController
	idle    time.Duration

	mu    sync.Mutex
	ended bool // nothing is read any more
}

// Read reads what comes within the time.
func (b *patientBody) Read(p []byte) (int, error) {
	b.mu.Lock()
	if b.ended {
		b.mu.Unlock()
		return 0, io.ErrUnexpectedEOF
	}
	_ = b.control.SetReadDeadline(time.Now().Add(b.idle)) // a recorder in a test has none
	b.mu.Unlock()
	n, err := b.from.Read(p)
	if err != nil {
		b.mu.Lock()
		b.ended = true
		b.mu.Unlock()
	}
	return n, err
}

// stop wakes a Read. The connection is left alone when the body has been read to
// its end: its deadline is then that of the next request.
func (b *patientBody) stop() {
	b.mu.Lock()
	defer b.mu.Unlock()
	if !b.ended {
		b.ended = true
		_ = b.control.SetReadDeadline(time.Unix(1, 0))
	}
}
