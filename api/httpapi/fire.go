package httpapi

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// fireRules are the rules, and the document that shows them.
type fireRules struct {
	set      *fire.Set
	document document
}

// loadFireRules fails on rules that are not right: the service must not start
// with them.
func loadFireRules() (*fireRules, error) {
	set, err := fire.Load()
	if err != nil {
		return nil, fmt.Errorf("httpapi: %w", err)
	}
	body, err := json.Marshal(wire.FireRulesOut(set))
	if err != nil {
		return nil, fmt.Errorf("httpapi: fire rules: %w", err)
	}
	return &fireRules{set, newPacked(append(body, '\n'))}, nil
}

// AnswerFireCheck reads a request and answers it, as AnswerYardage does.
func (s *Server) AnswerFireCheck(ctx context.Context, body []byte) (*service.FireAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/fire-check", body, s.fireCheck)
}

func (s *Server) fireCheck(_ context.Context, req service.FireRequest) (*service.FireAnswer, error) {
	return service.FireCheck(s.fire.set, req)
}

// FireCheck answers POST /v1/fire-check.
func (h handlers) FireCheck(ctx context.Context, _ gen.FireCheckRequestObject) (gen.FireCheckResponseObject, error) {
	return answered(ctx, h.fireCheck, wire.FireOut, drawing.FirePicture)
}

// VisitFireCheckResponse sends the answer.
func (r reply) VisitFireCheckResponse(w http.ResponseWriter) error { return r.write(w) }

// FireRules answers GET /v1/fire-rules.
func (h handlers) FireRules(ctx context.Context, _ gen.FireRulesRequestObject) (gen.FireRulesResponseObject, error) {
	return serve(ctx, h.fire.document, "application/json"), nil
}

// VisitFireRulesResponse writes the answer.
func (s served) VisitFireRulesResponse(w http.ResponseWriter) error { return s.write(w) }
