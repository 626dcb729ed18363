package httpapi

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"io"
	"net/http"
	"sync"
	"time"
)

// LineRun holds the settings of one run of AnswerLines.
type LineRun struct {
	Emit     func([]byte) error  // receives each response line, with its line end; never called concurrently
	AnyOrder bool                // emit lines as soon as they are done, not in the order of the input
	Lines    int                 // limit on the lines read; 0 for none
	Mine     func(line int) bool // selects the lines to process; nil for all

	until    time.Time   // when to stop reading; zero for never
	draining func() bool // reports whether to stop reading; may be nil
}

// LineTally counts the outcomes of lines.
type LineTally struct {
	Answered int // with a result
	Refused  int // with a problem
	Failed   int // of those refused: problems of the service, not of the request
}

// lineReply is the response to a line. seq counts the lines processed, from the first.
type lineReply struct {
	seq    int
	text   []byte
	status int
}

// AnswerLines reads lines and emits a response for each. It stops reading while
// Options.Batch.Flight lines are in progress, and returns when the context ends or Emit
// fails. A fault in a line is reported in its response line, never as an error.
func (s *Server) AnswerLines(ctx context.Context, in io.Reader, run LineRun) (LineTally, error) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	l := &lines{s: s, run: run, ctx: ctx, replies: make(chan lineReply), window: make(chan struct{}, s.opts.Batch.Flight)}
	ahead := readAhead(ctx, in)
	go func() {
		l.read(bufio.NewReaderSize(ahead, 32<<10))
		l.working.Wait()
		close(l.replies)
	}()
	tally, err := l.write(stop)
	if err == nil {
		err = ctx.Err()
	}
	return tally, err
}

// lines is the state of one run of AnswerLines.
type lines struct {
	s       *Server
	run     LineRun
	ctx     context.Context //nolint:containedctx // of the run
	replies chan lineReply
	window  chan struct{} // a slot for each line read but not yet emitted
	working sync.WaitGroup
	seq     int
}

// write emits the responses, in order unless AnyOrder is set. The window limits how many
// wait for an earlier one.
func (l *lines) write(stop func()) (LineTally, error) {
	var tally LineTally
	var failed error
	held := make(map[int]lineReply)
	next := 0
	for r := range l.replies {
		if l.run.AnyOrder {
			r.seq = next
		}
		held[r.seq] = r
		for r, ok := held[next]; ok && failed == nil; r, ok = held[next] {
			delete(held, next)
			next++
			if failed = l.run.Emit(r.text); failed != nil {
				stop()
				break
			}
			tally.count(r.status)
			<-l.window
		}
	}
	return tally, failed
}

func (t *LineTally) count(status int) {
	if status == http.StatusOK {
		t.Answered++
		return
	}
	t.Refused++
	if status >= http.StatusInternalServerError {
		t.Failed++
	}
}

// read reads lines and starts the work on each.
func (l *lines) read(in *bufio.Reader) {
	for n := 1; ; n++ {
		select {
		case l.window <- struct{}{}:
		case <-l.ctx.Done():
			return
		}
		text, long, err := nextLine(in, MaxBatchLine)
		p := l.end(n, err)
		switch {
		case errors.Is(err, io.EOF) || l.ctx.Err() != nil:
			return
		case p == nil && (!l.mine(n) || !long && len(bytes.TrimSpace(text)) == 0):
			<-l.window
			continue
		case p == nil && long:
			l.send(lineText(n, "", tooLarge(MaxBatchLine), nil), http.StatusRequestEntityTooLarge)
			l.s.metrics.line("none", http.StatusRequestEntityTooLarge)
			continue
		case p != nil:
			l.send(lineText(n, "", p, nil), p.Status)
			return
		}
		select {
		case l.s.batches.lines <- struct{}{}:
		case <-l.ctx.Done():
			return
		}
		seq := l.seq
		l.seq++
		l.working.Go(func() {
			defer func() { <-l.s.batches.lines }()
			text, status := l.s.answerLine(l.ctx, n, text)
			l.reply(lineReply{seq, text, status})
		})
	}
}

func (l *lines) mine(n int) bool { return l.run.Mine == nil || l.run.Mine(n) }

// send queues a response that needs no work.
func (l *lines) send(text []byte, status int) {
	l.reply(lineReply{l.seq, text, status})
	l.seq++
}

func (l *lines) reply(r lineReply) {
	if l.ctx.Err() != nil { // the response may be a result of the cancellation
		return
	}
	select {
	case l.replies <- r:
	case <-l.ctx.Done():
	}
}

// end returns the problem for which line n and all after it are not read; nil when there
// is none.
func (l *lines) end(n int, err error) *Problem {
	var past *http.MaxBytesError
	switch {
	case errors.Is(err, io.EOF):
		return nil
	case errors.As(err, &past):
		return tooLarge(MaxBatchBody)
	case err != nil:
		return problem(malformedJSON, "the line did not arrive whole")
	case l.run.Lines > 0 && n > l.run.Lines:
		return problem(bodyTooLarge, "too many lines: this one and those after it were not read")
	case l.run.draining != nil && l.run.draining():
		return problem(unavailable, "the service is about to stop: this line and those after it were not read")
	case !l.run.until.IsZero() && time.Now().After(l.run.until):
		return problem(unavailable, "the batch took too long: this line and those after it were not read")
	}
	return nil
}

// nextLine returns the next line without its line end. A line over the limit is skipped to
// its end, and long is true.
func nextLine(in *bufio.Reader, most int) (line []byte, long bool, err error) {
	read := false
	for {
		part, err := in.ReadSlice('\n')
		read = read || len(part) > 0
		if long = long || len(line)+len(part) > most; long {
			line = nil
		} else {
			line = append(line, part...)
		}
		switch {
		case err == nil, errors.Is(err, io.EOF) && read:
			return bytes.TrimRight(line, "\r\n"), long, nil
		case !errors.Is(err, bufio.ErrBufferFull):
			return nil, long, err
		}
	}
}

// ahead reads in a goroutine, ahead of its consumer. Once the end of a body has been read,
// the server notices at once when the client disconnects; before that, only when it sends
// the next line.
type ahead struct {
	ctx    context.Context //nolint:containedctx // of the run
	chunks chan []byte
	rest   []byte
	err    error // valid once chunks is closed
}

// aheadChunks is the size of the read-ahead buffer, in chunks of 32 KiB.
const aheadChunks = 32

func readAhead(ctx context.Context, in io.Reader) *ahead {
	a := &ahead{ctx: ctx, chunks: make(chan []byte, aheadChunks)}
	go func() {
		defer close(a.chunks)
		for {
			chunk := make([]byte, 32<<10)
			n, err := in.Read(chunk)
			if n > 0 {
				select {
				case a.chunks <- chunk[:n]:
				case <-ctx.Done():
					a.err = ctx.Err()
					return
				}
			}
			if err != nil {
				a.err = err
				return
			}
		}
	}()
	return a
}

// Read returns the bytes that have been read ahead.
func (a *ahead) Read(p []byte) (int, error) {
	for len(a.rest) == 0 {
		select {
		case chunk, ok := <-a.chunks:
			if !ok {
				return 0, a.err
			}
			a.rest = chunk
		case <-a.ctx.Done():
			return 0, a.ctx.Err()
		}
	}
	n := copy(p, a.rest)
	a.rest = a.rest[n:]
	return n, nil
}
