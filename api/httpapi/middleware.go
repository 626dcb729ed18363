package httpapi

import (
	"bytes"
	"context"
	"crypto/rand"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"runtime/debug"
	"strings"
	"time"

	"github.com/labstack/echo/v4"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/reuse"
	"github.com/bridletie/bridletie/service"
)

// The keys under which the pipeline keeps what it found in echo's context.
const (
	keyRequestID = "bridletie.request"
	keyOperation = "bridletie.operation"
	keyCaller    = "bridletie.caller"
	keyTrace     = "bridletie.trace"
	keyFound     = "bridletie.found"
)

// headerRequestID carries the id of a request both ways.
const headerRequestID = "X-Request-Id"

func requestID(c echo.Context) string {
	id, _ := c.Get(keyRequestID).(string)
	return id
}

// operationOf is the operation that the route found; its zero value before.
func operationOf(c echo.Context) *contract.Operation {
	if op, ok := c.Get(keyOperation).(*contract.Operation); ok {
		return op
	}
	return &contract.Operation{}
}

// observe gives the request its id, turns what goes wrong into an answer, and
// counts and logs it.
func (s *Server) observe(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		begun := time.Now()
		r := c.Request()
		id := r.Header.Get(headerRequestID)
		if !formats.IsToken(id, 64) {
			id = rand.Text()
		}
		c.Set(keyRequestID, id)
		c.Set(keyTrace, traceOf(r.Header.Values("Traceparent")))
		c.Response().Header().Set(headerRequestID, id)
		s.metrics.inFlight.Inc()
		defer s.observed(c, begun)
		err := s.recovered(c, next)
		switch {
		case errors.Is(err, http.ErrAbortHandler):
			panic(http.ErrAbortHandler) // an answer that was begun must not look whole
		case err != nil && c.Response().Committed:
			panic(http.ErrAbortHandler)
		case err != nil:
			s.answerError(c, err)
		}
		return nil
	}
}

// observed counts and logs an answer, whether it was sent whole or broken off.
func (s *Server) observed(c echo.Context, begun time.Time) {
	s.metrics.inFlight.Dec()
	name := operationOf(c).ID
	if name == "" {
		name = "none"
	}
	r, took, status := c.Request(), time.Since(begun), c.Response().Status
	if r.Context().Err() != nil {
		status = statusGone
	}
	s.metrics.answered(name, status, took)
	who, _ := c.Get(keyCaller).(caller)
	s.opts.Log.InfoContext(r.Context(), "request", "request", requestID(c), "trace", c.Get(keyTrace), "method", r.Method, "operation", name,
		"status", status, "bytes", c.Response().Size, "ms", float64(took.Microseconds())/1e3,
		"caller", who.class(), "client", who.key, "from", cut(c.RealIP()))
}

// statusGone stands in the log and the metrics for an answer that nobody waited
// for: it is not the service that failed.
const statusGone = 499

// recovered runs next, and turns a panic into an error: that of an answer that is to
// be broken off into http.ErrAbortHandler.
func (s *Server) recovered(c echo.Context, next echo.HandlerFunc) (err error) {
	defer func() {
		v := recover()
		if broken, ok := v.(error); ok && errors.Is(broken, http.ErrAbortHandler) {
			err = http.ErrAbortHandler
		} else if v != nil {
			s.metrics.panics.Inc()
			s.opts.Log.ErrorContext(c.Request().Context(), "panic", "request", requestID(c),
				"error", clipError(fmt.Errorf("%v", v)), "stack", string(debug.Stack()))
			err = errors.New("panic")
		}
	}()
	return next(c)
}

// headers sets what every answer carries.
func (s *Server) headers(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		h := c.Response().Header()
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'")
		h.Set("Referrer-Policy", "no-referrer")
		if c.Request().Method == http.MethodPost {
			h.Set("Cache-Control", "no-store")
		}
		if s.draining.Load() {
			h.Set("Connection", "close")
		}
		return next(c)
	}
}

// sizes refuses an address or a header that is longer than any honest one. What
// is longer still, net/http has refused by itself.
func (s *Server) sizes(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		r := c.Request()
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
		return next(c)
	}
}

// route finds the operation, or says that there is none.
func (s *Server) route(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		template, ok := s.contract.Template(c.Request().URL.Path)
		if !ok {
			return problem(notFound, "")
		}
		op := s.contract.Find(c.Request().Method, template)
		if op == nil {
			allow := strings.Join(s.contract.Methods(template), ", ")
			return problem(methodNotAllowed, "allowed are "+allow).with("Allow", allow)
		}
		c.Set(keyOperation, op)
		return next(c)
	}
}

// negotiate picks the form of the answer and notes it in the context.
func (s *Server) negotiate(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		op := operationOf(c)
		c.Response().Header().Set("Vary", "Accept")
		media, ok := contract.Negotiate(c.Request().Header.Values("Accept"), op.Offers)
		if !ok {
			return problem(notAcceptable, "on offer are "+strings.Join(op.Offers, ", "))
		}
		r := c.Request()
		who, _ := c.Get(keyCaller).(caller)
		about := &found{
			Context: r.Context(), media: media, condition: strings.Join(r.Header.Values("If-None-Match"), ","),
			encoding: strings.Join(r.Header.Values("Accept-Encoding"), ","), caller: who, prefer: readPrefer(op, r.Header.Values("Prefer")),
		}
		c.Set(keyFound, about)
		c.SetRequest(r.WithContext(about))
		return next(c)
	}
}

// body reads the body of an operation that has one, and leaves its reading for
// the handler. Nothing is decoded before all of it is there and within the
// limit, and the request has its turn.
func (s *Server) body(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		op, r := operationOf(c), c.Request()
		if op.Lines {
			if p := linesProblem(r); p != nil {
				return p
			}
			return next(c)
		}
		if !op.TakesJSON() && (r.Method != http.MethodGet || !strings.HasPrefix(r.URL.Path, "/v1/")) {
			return next(c)
		}
		if s.light.Full() {
			s.light.Refuse()
			return shed(admit.ErrFull, lightRetry)
		}
		body := &roomed{Reader: r.Body, room: &s.bodies}
		defer body.leave()
		raw, err := readBody(c, op, body)
		if errors.Is(err, errNoRoom) {
			s.light.Refuse()
			return retry("the service is full", lightRetry).with("Connection", "close")
		}
		if err != nil {
			return err
		}
		name := s.nameOf(c, raw)
		if ans, ok := s.named(name); ok {
			return ans.send(c)
		}
		_, waited := step(r.Context(), "wait")
		t, err := s.begin(r.Context(), op)
		waited()
		if err != nil {
			return err
		}
		body.leave() // there are only so many places
		return s.answer(c, raw, name, t, next)
	}
}

// answer answers a request whose body is there, and gives its turn back before the
// answer is sent: no place is held for a slow reader.
func (s *Server) answer(c echo.Context, raw []byte, name string, t *turn, next echo.HandlerFunc) error {
	handed := false // to the work on the answer, which may go on when this request is over
	defer func() {
		if !handed {
			t.end()
		}
	}()
	op, about := operationOf(c), aboutOf(c)
	about.turn = t
	var question digested
	if op.TakesJSON() {
		_, end := step(c.Request().Context(), "read")
		input, p := s.read(op, raw)
		end()
		if p != nil {
			return p
		}
		question, _ = input.(digested)
		about.input = input
	}
	if about.media == contract.Lines { // sent while it is made
		return next(c)
	}
	record := s.recording(c, next)
	if name != "" && question != nil {
		handed = true
		ans, err := s.once(c, question.digestOf(), name, t, record)
		if err != nil {
			return err
		}
		return ans.send(c)
	}
	ans, err := record.record(c.Request().Context())
	t.end()
	if err != nil {
		return err
	}
	if p := about.prefer; p.soFar && *p.hurried {
		c.Response().Header().Set("Preference-Applied", bestSoFar)
	}
	return ans.send(c)
}

// aboutOf is what the pipeline found out about the request.
func aboutOf(c echo.Context) *found {
	about, _ := c.Get(keyFound).(*found)
	return about
}

// digested is a request that is named by what it says.
type digested interface{ digestOf() string }

// nameOf is the name of a question as it was sent, "" for one whose answer is made
// anew. An answer depends on nothing but the operation, its query, the body, the
// media type and the engine.
func (s *Server) nameOf(c echo.Context, raw []byte) string {
	about := aboutOf(c)
	if s.kept == nil || about.prefer.given() || about.media == contract.Lines || !operationOf(c).TakesJSON() {
		return ""
	}
	sum := sha256.Sum256(raw)
	return s.keyOf(c, string(sum[:]))
}

func (s *Server) keyOf(c echo.Context, body string) string {
	return strings.Join([]string{operationOf(c).ID, aboutOf(c).media, service.EngineVersion, c.Request().URL.RawQuery, body}, "\x00")
}

// named is the answer to the very same bytes, which need not be read again.
func (s *Server) named(name string) (*recorded, bool) {
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
func (s *Server) once(c echo.Context, digest, name string, t *turn, record *recording) (*recorded, error) {
	ctx, key := c.Request().Context(), s.keyOf(c, digest)
	ans, how, err := s.kept.Do(ctx, key, func(ctx context.Context) (*recorded, error) {
		defer t.end()
		return record.record(ctx)
	}, t.end)
	s.gate.reused.WithLabelValues(how.String()).Inc()
	switch {
	case err != nil && ctx.Err() != nil:
		return nil, retry("the request ended before its answer came", lightRetry)
	case err == nil:
		s.kept.Name(name, key)
	}
	return ans, err
}

// readBody is the body of an operation that has one.
func readBody(c echo.Context, op *contract.Operation, body io.Reader) ([]byte, error) {
	if !op.TakesJSON() {
		return nil, nil
	}
	r := c.Request()
	if p := mediaProblem(r.Header); p != nil {
		return nil, p
	}
	most := op.BodyBytes
	if r.ContentLength > int64(most) {
		return nil, tooLarge(most)
	}
	var into bytes.Buffer
	if n := r.ContentLength; n > 0 { // what is said, but not much for what has not come yet
		into.Grow(int(min(n, 16<<10)) + bytes.MinRead)
	}
	_, err := into.ReadFrom(http.MaxBytesReader(c.Response().Writer, io.NopCloser(body), int64(most)))
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

// boundBody is echo's binder. The pipeline has read the body; there is nothing
// left to decode.
type boundBody struct{}

// Bind leaves i alone: the handler takes what the pipeline has read and found
// right.
func (boundBody) Bind(any, echo.Context) error { return nil }
