package httpapi

import (
	"context"
	"errors"
	"net/http"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// handlers answer the operations; the pipeline has checked the requests.
type handlers struct{ *Server }

var _ gen.StrictServerInterface = handlers{}

// contextKey is the type of this package's keys in a context.
type contextKey int

const (
	mediaKey     contextKey = iota // the media type negotiated
	conditionKey                   // If-None-Match
	encodingKey                    // Accept-Encoding
	inputKey                       // the body, read
	turnKey                        // the *turn of the request
	preferKey                      // the prefers of the request
	accountKey                     // the *admit.Account that pays for the work
	callerKey                      // the caller
	insideKey                      // the *insideAnswer of a line's request
)

// AnswerYardage reads a request body and answers it: all that the operation
// does, short of writing the answer down.
func (s *Server) AnswerYardage(ctx context.Context, body []byte) (*service.YardageAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/yardage", body, s.yardage)
}

// AnswerCheck reads a request to check a plan and answers it, as AnswerYardage
// does.
func (s *Server) AnswerCheck(ctx context.Context, body []byte) (*service.CheckAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/yardage/check", body, s.check)
}

// answerTo reads a body and answers it.
func answerTo[R, A any](ctx context.Context, s *Server, operation string, body []byte, answer func(context.Context, R) (*A, error)) (*A, *Problem) {
	got, p := s.read(s.contract.Find(http.MethodPost, strings.TrimPrefix(operation, "POST ")), body)
	if p != nil {
		return nil, p
	}
	in, ok := got.(*input[R])
	if !ok {
		return nil, problem(internal, "")
	}
	ans, err := answer(ctx, in.request)
	if err != nil {
		if !errors.As(err, &p) {
			p = problem(internal, "")
		}
		return nil, p
	}
	return ans, nil
}

// read is the body of a request for a handler, as the pipeline left it.
func read[R any](ctx context.Context) (*input[R], error) {
	in, ok := ctx.Value(inputKey).(*input[R])
	if !ok {
		return nil, errors.New("the body was not read")
	}
	return in, nil
}

// yardage plans a job when its turn has come.
func (s *Server) yardage(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
	ans, err := inTurn(ctx, s, func(ctx context.Context) (*service.YardageAnswer, error) { return s.plan(ctx, req) })
	if err == nil {
		s.metrics.solved(ans)
	}
	return ans, err
}

// check checks a plan when its turn has come.
func (s *Server) check(ctx context.Context, req service.CheckRequest) (*service.CheckAnswer, error) {
	ans, err := inTurn(ctx, s, func(ctx context.Context) (*service.CheckAnswer, error) {
		return service.Check(ctx, req, s.opts.Yardage)
	})
	if err == nil {
		s.metrics.solved(ans.Engine)
	}
	return ans, err
}

// Yardage answers POST /v1/yardage.
func (h handlers) Yardage(ctx context.Context, _ gen.YardageRequestObject) (gen.YardageResponseObject, error) {
	return answered(ctx, h.yardage, wire.YardageOut, drawing.PlanPicture)
}

// VisitYardageResponse sends the answer.
func (r reply) VisitYardageResponse(w http.ResponseWriter) error { return r.write(w) }

// YardageCheck answers POST /v1/yardage/check.
func (h handlers) YardageCheck(ctx context.Context, _ gen.YardageCheckRequestObject) (gen.YardageCheckResponseObject, error) {
	return answered(ctx, h.check, wire.CheckOut, drawing.CheckPicture)
}

// VisitYardageCheckResponse sends the answer.
func (r reply) VisitYardageCheckResponse(w http.ResponseWriter) error { return r.write(w) }

// Livez answers GET /livez.
func (h handlers) Livez(context.Context, gen.LivezRequestObject) (gen.LivezResponseObject, error) {
	return gen.Livez200JSONResponse{Status: gen.HealthStatusOk}, nil
}

// Readyz answers GET /readyz.
func (h handlers) Readyz(ctx context.Context, _ gen.ReadyzRequestObject) (gen.ReadyzResponseObject, error) {
	if h.draining.Load() {
		return nil, retry("the service is about to stop", heavyRetry)
	}
	if err := h.ready(ctx); err != nil {
		h.opts.Log.ErrorContext(ctx, "not ready", "error", clipError(err))
		return nil, retry("the service does not pass its own check", heavyRetry)
	}
	return gen.Readyz200JSONResponse{Status: gen.HealthStatusOk}, nil
}

// Problem answers GET /problems/{name}.
func (h handlers) Problem(_ context.Context, r gen.ProblemRequestObject) (gen.ProblemResponseObject, error) {
	k, ok := kindOf(r.Name)
	if !ok {
		return nil, problem(notFound, "")
	}
	return gen.Problem200TextResponse(k.title + "\n\nStatus " + strconv.Itoa(k.status) + ". " + k.help + "\n"), nil
}
