package httpapi

import (
	"context"
	"crypto/rand"
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
	"github.com/bridletie/bridletie/service"
)

// The keys under which the pipeline keeps what it found in echo's context.
const (
	keyRequestID = "bridletie.request"
	keyOperation = "bridletie.operation"
	keyCaller    = "bridletie.caller"
	keyTrace     = "bridletie.trace"
)

// headerRequestID carries the id of a request both ways.
const headerRequestID = "X-Request-Id"

func requestID(c echo.Context) string {
	id, _ := c.Get(keyRequestID).(string)
	return id
}

// operationOf is the operation that the route found; its zero value before.
func operationOf(c echo.Context) operation {
	op, _ := c.Get(keyOperation).(operation)
	return op
}

// observe gives the request its id, turns what goes wrong into an answer, and
// counts and logs it.
func (s *Server) observe(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		begun := time.Now()
		r := c.Request()
		id := r.Header.Get(headerRequestID)
		if !isToken(id, 64) {
			id = rand.Text()
		}
		c.Set(keyRequestID, id)
		c.Set(keyTrace, traceOf(r.Header.Values("Traceparent")))
		c.Response().Header().Set(headerRequestID, id)
		s.metrics.inFlight.Inc()
		defer s.observed(c, begun)
		if err := s.recovered(c, next); err != nil {
			s.answerError(c, err)
		}
		return nil
	}
}

// observed counts and logs an answer, whether it was sent whole or broken off.
func (s *Server) observed(c echo.Context, begun time.Time) {
	s.metrics.inFlight.Dec()
	name := operationOf(c).id
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

// recovered runs next, and turns a panic into an error.
func (s *Server) recovered(c echo.Context, next echo.HandlerFunc) (err error) {
	defer func() {
		if v := recover(); v == http.ErrAbortHandler { //nolint:errorlint,err113 // the value itself, as net/http asks
			panic(v) // an answer that was begun must not look whole
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
		template, ok := s.contract.template(c.Request().URL.Path)
		if !ok {
			return problem(notFound, "")
		}
		op, ok := s.contract.operations[c.Request().Method+" "+template]
		if !ok {
			allow := strings.Join(s.contract.methods[template], ", ")
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
		media, ok := negotiate(c.Request().Header.Values("Accept"), op.offers)
		if !ok {
			return problem(notAcceptable, "on offer are "+strings.Join(op.offers, ", "))
		}
		r := c.Request()
		ctx := context.WithValue(r.Context(), mediaKey, media)
		ctx = context.WithValue(ctx, conditionKey, strings.Join(r.Header.Values("If-None-Match"), ","))
		ctx = context.WithValue(ctx, encodingKey, strings.Join(r.Header.Values("Accept-Encoding"), ","))
		c.SetRequest(r.WithContext(ctx))
		return next(c)
	}
}

// body reads the body of an operation that has one, and leaves its reading for
// the handler. Nothing is decoded before all of it is there and within the
// limit, and the request has its turn.
func (s *Server) body(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		op, r := operationOf(c), c.Request()
		if op.lines {
			if p := linesProblem(r); p != nil {
				return p
			}
			return next(c)
		}
		if op.body == nil && (r.Method != http.MethodGet || !strings.HasPrefix(r.URL.Path, "/v1/")) {
			return next(c)
		}
		if s.light.Full() {
			s.light.Refuse()
			return shed(admit.ErrFull, lightRetry)
		}
		raw, err := readBody(c, op)
		if err != nil {
			return err
		}
		_, waited := step(r.Context(), "wait")
		t, err := s.begin(r.Context(), op)
		waited()
		if err != nil {
			return err
		}
		return s.answer(c, raw, t, next)
	}
}

// answer answers a request whose body is there, and gives its turn back before the
// answer is sent: no place is held for a slow reader.
func (s *Server) answer(c echo.Context, raw []byte, t *turn, next echo.HandlerFunc) error {
	handed := false // to the work on the answer, which may go on when this request is over
	defer func() {
		if !handed {
			t.end()
		}
	}()
	op, r := operationOf(c), c.Request()
	ctx := context.WithValue(r.Context(), turnKey, t)
	ctx = withPreference(ctx, op, r.Header.Values("Prefer"))
	var question digested
	if op.body != nil {
		_, end := step(ctx, "read")
		input, p := s.contract.read(op, raw)
		end()
		if p != nil {
			return p
		}
		question, _ = input.(digested)
		ctx = context.WithValue(ctx, inputKey, input)
	}
	c.SetRequest(r.WithContext(ctx))
	if ctx.Value(mediaKey) == mediaLines { // sent while it is made
		return next(c)
	}
	var ans *recorded
	var err error
	if record := s.recording(c, next); s.kept == nil || question == nil || preferenceOf(ctx).given() {
		ans, err = record.record(ctx)
		t.end()
		if p := preferenceOf(ctx); p.soFar && *p.hurried {
			c.Response().Header().Set("Preference-Applied", bestSoFar)
		}
	} else {
		handed = true
		ans, err = s.once(c, question.digestOf(), t, record)
	}
	if err != nil {
		return err
	}
	return ans.send(c)
}

// digested is a request that is named by what it says.
type digested interface{ digestOf() string }

// once is the answer to a question, made now or come by in another way. An answer
// depends on nothing but the operation, its query, the body, the media type and
// the engine.
func (s *Server) once(c echo.Context, digest string, t *turn, record *recording) (*recorded, error) {
	ctx := c.Request().Context()
	media, _ := ctx.Value(mediaKey).(string)
	key := strings.Join([]string{operationOf(c).id, media, service.EngineVersion, digest, c.Request().URL.RawQuery}, "\x00")
	ans, how, err := s.kept.Do(ctx, key, func(ctx context.Context) (*recorded, error) {
		defer t.end()
		return record.record(ctx)
	}, t.end)
	s.gate.reused.WithLabelValues(how.String()).Inc()
	if err != nil && ctx.Err() != nil {
		return nil, retry("the request ended before its answer came", lightRetry)
	}
	return ans, err
}

// readBody is the body of an operation that has one.
func readBody(c echo.Context, op operation) ([]byte, error) {
	if op.body == nil {
		return nil, nil
	}
	r := c.Request()
	if p := mediaProblem(r.Header); p != nil {
		return nil, p
	}
	most := op.reader.most
	if r.ContentLength > int64(most) {
		return nil, tooLarge(most)
	}
	raw, err := io.ReadAll(http.MaxBytesReader(c.Response().Writer, r.Body, int64(most)))
	var past *http.MaxBytesError
	switch {
	case errors.As(err, &past):
		return nil, tooLarge(most)
	case err != nil:
		return nil, problem(malformedJSON, "the body did not arrive whole")
	}
	return raw, nil
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
