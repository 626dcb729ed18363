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

// answered is the last stage: it reads the body of an operation that has one, and
// answers. Nothing is decoded before all of it is there and within the limit, and the
// request has its turn.
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
	body.leave() // there are only so many places
	x.found.turn = t
	if x.row.read == nil {
		return s.answerPlain(x, t)
	}
	return s.answer(x, raw, name, t)
}

// answerFree answers what needs no turn.
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

// answerPlain answers a request without a body, and gives its turn back before the
// answer is sent.
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

// answer answers a request whose body is there, and gives its turn back before the
// answer is sent: no place is held for a slow reader.
func (s *Server) answer(x *exchange, raw []byte, name string, t *turn) error {
	handed := false // to the work on the answer, which may go on when this request is over
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

// record is what work answers, which does not go through when it panics.
func (s *Server) record(ctx context.Context, x *exchange, work func() (*reply, error)) (r *reply, err error) {
	err = s.recovered(ctx, x.id, func() error {
		r, err = work()
		return err
	})
	switch {
	case errors.Is(err, http.ErrAbortHandler): // of which nothing was sent
		return nil, errors.New("the answer was broken off")
	case err != nil:
		return nil, err
	}
	return r, nil
}

// sendLines sends an answer line by line while it is made. When the first line is not
// sent yet, a failure is a problem like any other; later it breaks the answer off, so
// that nobody takes it for whole.
func (s *Server) sendLines(x *exchange, q question) error {
	var lost error // why a line was not sent
	lines := json.NewEncoder(x.w)
	err := q.lines(x.r.Context(), s, func(v any) {
		x.linesBegin()
		if err := errors.Join(lines.Encode(v), x.w.FlushError()); lost == nil { // a client that has gone ends the context too
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

// nameOf is the name of a question as it was sent, "" for one whose answer is made
// anew. An answer depends on nothing but the operation, its query, the body, the
// media type and the engine.
func (s *Server) nameOf(x *exchange, raw []byte) string {
	if s.kept == nil || x.found.prefer.given() || x.found.media == contract.Lines || x.row.read == nil {
		return ""
	}
	sum := sha256.Sum256(raw)
	return x.key(string(sum[:]))
}

// key names a question with that body.
func (x *exchange) key(body string) string {
	return strings.Join([]string{x.row.id, x.found.media, service.EngineVersion, x.r.URL.RawQuery, body}, "\x00")
}

// named is the answer to the very same bytes, which need not be read again.
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

// once is the answer to a question, made now or come by in another way.
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

// readBody is the body of an operation that has one.
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

// readWhole reads a body to its end.
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
	if n := r.ContentLength; n > 0 { // what is said, but not much for what has not come yet
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

// mediaProblem refuses a body that is not plain JSON in UTF-8.
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
