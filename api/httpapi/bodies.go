package httpapi

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/reuse"
	"github.com/bridletie/bridletie/service"
)

// answered is the last stage. It reads the body, if the operation has one, and responds.
// It decodes nothing before the whole body has arrived within its limit and the request
// has a slot in its lane.
func (s *Server) answered(x *exchange) error {
	switch {
	case x.row.stream != nil:
		return x.row.stream(s, x)
	case x.row.lane == laneFree:
		return s.answerFree(x)
	case s.light.Full():
		s.light.Refuse()
		return shed(admit.ErrFull, lightRetry)
	}
	body := &roomed{Reader: x.r.Body, room: &s.bodies}
	defer body.leave()
	raw, err := s.readBody(x, body)
	if err != nil {
		return err
	}
	name := s.nameOf(x, raw)
	if ans, ok := s.named(name); ok {
		return ans.send(x.w)
	}
	_, waited := step(x.r.Context(), "wait")
	t, err := s.begin(x.r.Context(), x.row)
	waited()
	if err != nil {
		return err
	}
	body.leave() // the room for bodies is limited
	x.found.turn = t
	if x.row.read == nil {
		return s.answerPlain(x, t)
	}
	return s.answer(x, raw, name, t)
}

// answerFree serves an operation that needs no slot in a lane.
func (s *Server) answerFree(x *exchange) error {
	if err := x.arrive(); err != nil {
		return err
	}
	r, err := x.row.reply(s, x)
	if err != nil {
		return err
	}
	return r.send(x.w)
}

// answerPlain serves a request without a body. It releases the slot before the response is
// sent.
func (s *Server) answerPlain(x *exchange, t *turn) error {
	defer t.end()
	if err := x.arrive(); err != nil {
		return err
	}
	r, err := s.record(x.r.Context(), x, func() (*reply, error) { return x.row.reply(s, x) })
	if err != nil {
		return err
	}
	t.end()
	return r.send(x.w)
}

// answer serves a request whose body has been read. It releases the slot before the
// response is sent, so that a slow reader holds none.
func (s *Server) answer(x *exchange, raw []byte, name string, t *turn) error {
	handed := false // whether the work owns the slot; the work may outlive this request
	defer func() {
		if !handed {
			t.end()
		}
	}()
	_, end := step(x.r.Context(), "read")
	q, p := s.read(x.row, raw)
	end()
	if p != nil {
		return p
	}
	if err := x.arrive(); err != nil {
		return err
	}
	if x.found.media == contract.Lines {
		return s.sendLines(x, q)
	}
	handed = true
	r, err := s.once(x, q, name, t)
	if err != nil {
		return err
	}
	if p := x.found.prefer; p.soFar && *p.hurried {
		x.w.Header().Set("Preference-Applied", bestSoFar)
	}
	return r.send(x.w)
}

// record runs work and returns its reply. A panic in work is returned as an error, so that
// it does not reach the goroutines that share the reply.
func (s *Server) record(ctx context.Context, x *exchange, work func() (*reply, error)) (r *reply, err error) {
	err = s.recovered(ctx, x.id, func() error {
		r, err = work()
		return err
	})
	switch {
	case errors.Is(err, http.ErrAbortHandler): // nothing has been sent yet
		return nil, errors.New("the answer was broken off")
	case err != nil:
		return nil, err
	}
	return r, nil
}

// sendLines streams a response line by line. Before the first line is sent, an error is
// returned as usual. After that it aborts the connection, so that the client cannot take a
// partial response for a whole one.
func (s *Server) sendLines(x *exchange, q question) error {
	var lost error // why a line was not sent
	lines := json.NewEncoder(x.w)
	err := q.lines(x.r.Context(), s, func(v any) {
		x.linesBegin()
		if err := errors.Join(lines.Encode(v), x.w.FlushError()); lost == nil { // a disconnected client also cancels the context
			lost = err
		}
	})
	if err == nil {
		err = lost
	}
	if err != nil && x.w.code != 0 {
		panic(http.ErrAbortHandler)
	}
	return err
}

// nameOf returns the cache name of a request with exactly these bytes, or "" when the
// response must not be cached. A response depends only on the operation, its query, the
// body, the media type and the engine.
func (s *Server) nameOf(x *exchange, raw []byte) string {
	if s.kept == nil || x.found.prefer.given() || x.found.media == contract.Lines || x.row.read == nil {
		return ""
	}
	sum := sha256.Sum256(raw)
	return x.key(string(sum[:]))
}

// key returns a cache key for this operation, media type, engine version and query with
// the given body digest.
func (x *exchange) key(body string) string {
	return strings.Join([]string{x.row.id, x.found.media, service.EngineVersion, x.r.URL.RawQuery, body}, "\x00")
}

// named returns the cached reply for a cache name, so that an identical body need not be
// parsed again. It reports false when there is none.
func (s *Server) named(name string) (*reply, bool) {
	if name == "" {
		return nil, false
	}
	ans, ok := s.kept.Named(name)
	if ok {
		s.gate.reused.WithLabelValues(reuse.Kept.String()).Inc()
	}
	return ans, ok
}

// once returns the reply to a request from the cache, from a concurrent equal request, or
// by computing it. An unnamed request ("") is always computed.
func (s *Server) once(x *exchange, q question, name string, t *turn) (*reply, error) {
	ctx, media := x.r.Context(), x.found.media
	work := func(ctx context.Context) (*reply, error) {
		defer t.end()
		return s.record(ctx, x, func() (*reply, error) {
			body, err := q.answer(ctx, s, media)
			return replyOf(media, body), err
		})
	}
	if name == "" {
		return work(ctx)
	}
	key := x.key(q.digest())
	ans, how, err := s.kept.Do(ctx, key, work, t.end)
	s.gate.reused.WithLabelValues(how.String()).Inc()
	switch {
	case err != nil && ctx.Err() != nil:
		return nil, left("its answer came", lightRetry)
	case err == nil:
		s.kept.Name(name, key)
	}
	return ans, err
}

// readBody returns the body of an operation that has one, otherwise nil. It refuses the
// request when the room for bodies is used up.
func (s *Server) readBody(x *exchange, body io.Reader) ([]byte, error) {
	if x.row.read == nil {
		return nil, nil
	}
	raw, err := readWhole(x, body)
	if errors.Is(err, errNoRoom) {
		s.light.Refuse()
		return nil, retry("the service is full", lightRetry).with("Connection", "close")
	}
	return raw, err
}

// readWhole returns the whole body, or a problem: wrong media type, over the limit, or
// incomplete.
func readWhole(x *exchange, body io.Reader) ([]byte, error) {
	r := x.r
	if p := mediaProblem(r.Header); p != nil {
		return nil, p
	}
	most := x.row.says.BodyBytes
	if r.ContentLength > int64(most) {
		return nil, tooLarge(most)
	}
	var into bytes.Buffer
	if n := r.ContentLength; n > 0 { // allocate little before the bytes have arrived
		into.Grow(int(min(n, 16<<10)) + bytes.MinRead)
	}
	_, err := into.ReadFrom(http.MaxBytesReader(x.w.ResponseWriter, io.NopCloser(body), int64(most)))
	var past *http.MaxBytesError
	switch {
	case errors.As(err, &past):
		return nil, tooLarge(most)
	case errors.Is(err, errNoRoom):
		return nil, err
	case err != nil:
		return nil, problem(malformedJSON, "the body did not arrive whole")
	}
	return into.Bytes(), nil
}

func tooLarge(most int) *Problem {
	return problem(bodyTooLarge, fmt.Sprintf("at most %d bytes are read", most)).with("Connection", "close")
}

// mediaProblem returns a problem for a body that is not plain JSON in UTF-8, otherwise
// nil.
func mediaProblem(h http.Header) *Problem {
	if len(h.Values("Content-Encoding")) > 0 {
		return problem(unsupportedMediaType, "send the body without Content-Encoding")
	}
	types := h.Values("Content-Type")
	if len(types) != 1 {
		return problem(unsupportedMediaType, "send Content-Type application/json")
	}
	media, params, err := mime.ParseMediaType(types[0])
	if err != nil || media != "application/json" {
		return problem(unsupportedMediaType, "send Content-Type application/json")
	}
	for name, value := range params {
		if name != "charset" || !strings.EqualFold(value, "utf-8") {
			return problem(unsupportedMediaType, "the only charset is utf-8, and there is no other parameter")
		}
	}
	return nil
}
