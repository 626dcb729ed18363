package httpapi

import (
	"context"
	"encoding/json"
	"net/http"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// AnswerButtoning reads a request body and answers it, as AnswerYardage does.
func (s *Server) AnswerButtoning(ctx context.Context, body []byte) (*service.ButtoningAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/buttoning", body, s.buttoning)
}

// buttoning answers when its turn has come, since it may search.
func (s *Server) buttoning(ctx context.Context, req service.ButtoningRequest) (*service.ButtoningAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.ButtoningAnswer, error) { return service.Buttoning(ctx, req) })
}

// Buttoning answers POST /v1/buttoning.
func (h handlers) Buttoning(ctx context.Context, _ gen.ButtoningRequestObject) (gen.ButtoningResponseObject, error) {
	return answered(ctx, h.buttoning, wire.ButtoningOut, drawing.ButtoningPicture)
}

// VisitButtoningResponse sends the answer.
func (r reply) VisitButtoningResponse(w http.ResponseWriter) error { return r.write(w) }

// AnswerCompare reads a request body and answers it, as AnswerYardage does.
func (s *Server) AnswerCompare(ctx context.Context, body []byte) (*service.CompareAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/yardage/compare", body, func(ctx context.Context, req service.CompareRequest) (*service.CompareAnswer, error) {
		return s.compare(ctx, req, nil)
	})
}

// compare compares cloths when its turn has come.
func (s *Server) compare(ctx context.Context, req service.CompareRequest, each func(service.ComparedCloth)) (*service.CompareAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.CompareAnswer, error) {
		n, back := s.workers()
		defer back()
		return service.Compare(ctx, req, n, each)
	})
}

// YardageCompare answers POST /v1/yardage/compare.
func (h handlers) YardageCompare(ctx context.Context, _ gen.YardageCompareRequestObject) (gen.YardageCompareResponseObject, error) {
	if ctx.Value(mediaKey) != contract.Lines {
		all := func(ctx context.Context, req service.CompareRequest) (*service.CompareAnswer, error) {
			return h.compare(ctx, req, nil)
		}
		return answered(ctx, all, wire.CompareOut, drawing.ComparePicture)
	}
	in, err := read[service.CompareRequest](ctx)
	if err != nil {
		return nil, err
	}
	return &comparison{h: h, ctx: ctx, in: in}, nil
}

// VisitYardageCompareResponse sends the answer.
func (r reply) VisitYardageCompareResponse(w http.ResponseWriter) error { return r.write(w) }

// comparison is an answer that is sent line by line while it is made.
type comparison struct {
	h   handlers
	ctx context.Context //nolint:containedctx // of the request that it answers
	in  *input[service.CompareRequest]
}

// VisitYardageCompareResponse makes the answer and sends each cloth as soon as it
// is done. When the first line is not sent yet, a failure is a problem like any
// other; later it breaks the answer off, so that nobody takes it for whole.
func (c *comparison) VisitYardageCompareResponse(w http.ResponseWriter) error {
	begun := false
	lines := json.NewEncoder(w)
	send := func(v any) {
		if !begun {
			begun = true
			w.Header().Set("Content-Type", contract.Lines)
			w.Header().Set("Cache-Control", "no-store")
			w.Header().Set("Vary", "Accept")
			w.WriteHeader(http.StatusOK)
		}
		_ = lines.Encode(v) // a client that has gone ends the context
		if f, ok := w.(http.Flusher); ok {
			f.Flush()
		}
	}
	ans, err := c.h.compare(c.ctx, c.in.request, func(one service.ComparedCloth) { send(wire.ComparedOut(c.in.request, one)) })
	switch {
	case err != nil && begun:
		panic(http.ErrAbortHandler)
	case err != nil:
		return err
	}
	send(wire.CompareEndOut(ans, c.in.digest))
	return nil
}

// AnswerEstimate reads a request body and answers it, as AnswerYardage does.
func (s *Server) AnswerEstimate(ctx context.Context, body []byte) (*service.EstimateAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/estimate", body, s.estimate)
}

// estimate estimates when its turn has come.
func (s *Server) estimate(ctx context.Context, req service.EstimateRequest) (*service.EstimateAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.EstimateAnswer, error) {
		n, back := s.workers()
		defer back()
		return service.Estimate(ctx, req, n)
	})
}

// Estimate answers POST /v1/estimate.
func (h handlers) Estimate(ctx context.Context, _ gen.EstimateRequestObject) (gen.EstimateResponseObject, error) {
	in, err := read[service.EstimateRequest](ctx)
	if err != nil {
		return nil, err
	}
	ans, err := h.estimate(ctx, in.request)
	if err != nil {
		return nil, err
	}
	vary, store := "Accept", "no-store"
	return gen.Estimate200JSONResponse{
		Body: wire.EstimateOut(ans, in.digest), Headers: gen.Estimate200ResponseHeaders{CacheControl: &store, Vary: &vary},
	}, nil
}

// AnswerFoam reads a request for foam and answers it, as AnswerYardage does.
func (s *Server) AnswerFoam(ctx context.Context, body []byte) (*service.FoamAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/foam", body, s.foam)
}

// foam answers when its turn has come: it searches.
func (s *Server) foam(ctx context.Context, req service.FoamRequest) (*service.FoamAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.FoamAnswer, error) { return service.Foam(ctx, req) })
}

// Foam answers POST /v1/foam.
func (h handlers) Foam(ctx context.Context, _ gen.FoamRequestObject) (gen.FoamResponseObject, error) {
	return answered(ctx, h.foam, wire.FoamOut, drawing.FoamPicture)
}

// VisitFoamResponse sends the answer.
func (r reply) VisitFoamResponse(w http.ResponseWriter) error { return r.write(w) }

// AnswerFoundation reads a request for the foundation of some frames and answers
// it, as AnswerYardage does.
func (s *Server) AnswerFoundation(ctx context.Context, body []byte) (*service.FoundationAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/foundation", body, s.foundation)
}

// foundation works out a job when its turn has come.
func (s *Server) foundation(ctx context.Context, req service.FoundationRequest) (*service.FoundationAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.FoundationAnswer, error) { return service.Foundation(ctx, req) })
}

// Foundation answers POST /v1/foundation.
func (h handlers) Foundation(ctx context.Context, _ gen.FoundationRequestObject) (gen.FoundationResponseObject, error) {
	return answered(ctx, h.foundation, wire.FoundationOut, drawing.FoundationPicture)
}

// VisitFoundationResponse sends the answer.
func (r reply) VisitFoundationResponse(w http.ResponseWriter) error { return r.write(w) }

// AnswerPiping reads a request for piping and answers it, as AnswerYardage does.
func (s *Server) AnswerPiping(ctx context.Context, body []byte) (*service.PipingAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/piping", body, s.piping)
}

// piping lays out strips and runs when its turn has come.
func (s *Server) piping(ctx context.Context, req service.PipingRequest) (*service.PipingAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.PipingAnswer, error) { return service.Piping(ctx, req) })
}

// Piping answers POST /v1/piping.
func (h handlers) Piping(ctx context.Context, _ gen.PipingRequestObject) (gen.PipingResponseObject, error) {
	return answered(ctx, h.piping, wire.PipingOut, drawing.PipingPicture)
}

// VisitPipingResponse sends the answer.
func (r reply) VisitPipingResponse(w http.ResponseWriter) error { return r.write(w) }

// AnswerPleats reads a request for pleats and answers it, as AnswerYardage does.
func (s *Server) AnswerPleats(ctx context.Context, body []byte) (*service.PleatsAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/pleats", body, s.pleats)
}

func (s *Server) pleats(_ context.Context, req service.PleatsRequest) (*service.PleatsAnswer, error) {
	return service.Pleats(req), nil
}

// Pleats answers POST /v1/pleats.
func (h handlers) Pleats(ctx context.Context, _ gen.PleatsRequestObject) (gen.PleatsResponseObject, error) {
	return answered(ctx, h.pleats, wire.PleatsOut, drawing.PleatsPicture)
}

// VisitPleatsResponse sends the answer.
func (r reply) VisitPleatsResponse(w http.ResponseWriter) error { return r.write(w) }

// AnswerRelief reads a request for relief cuts and answers it, as AnswerYardage
// does.
func (s *Server) AnswerRelief(ctx context.Context, body []byte) (*service.ReliefAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/relief-cuts", body, s.relief)
}

func (s *Server) relief(_ context.Context, req service.ReliefRequest) (*service.ReliefAnswer, error) {
	return service.Relief(req), nil
}

// ReliefCuts answers POST /v1/relief-cuts.
func (h handlers) ReliefCuts(ctx context.Context, _ gen.ReliefCutsRequestObject) (gen.ReliefCutsResponseObject, error) {
	return answered(ctx, h.relief, wire.ReliefOut, drawing.ReliefPicture)
}

// VisitReliefCutsResponse sends the answer.
func (r reply) VisitReliefCutsResponse(w http.ResponseWriter) error { return r.write(w) }

// AnswerRepeat reads a request about drops and answers it, as AnswerYardage does.
func (s *Server) AnswerRepeat(ctx context.Context, body []byte) (*service.RepeatAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/repeat", body, s.repeat)
}

func (s *Server) repeat(_ context.Context, req service.RepeatRequest) (*service.RepeatAnswer, error) {
	return service.Repeat(req)
}

// Repeat answers POST /v1/repeat.
func (h handlers) Repeat(ctx context.Context, _ gen.RepeatRequestObject) (gen.RepeatResponseObject, error) {
	return answered(ctx, h.repeat, wire.RepeatOut, drawing.RepeatPicture)
}

// VisitRepeatResponse sends the answer.
func (r reply) VisitRepeatResponse(w http.ResponseWriter) error { return r.write(w) }

// AnswerWadding reads a request for wadding and answers it, as AnswerYardage
// does.
func (s *Server) AnswerWadding(ctx context.Context, body []byte) (*service.WaddingAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/wadding", body, s.wadding)
}

// wadding works out a job when its turn has come.
func (s *Server) wadding(ctx context.Context, req service.WaddingRequest) (*service.WaddingAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.WaddingAnswer, error) { return service.Wadding(ctx, req) })
}

// Wadding answers POST /v1/wadding.
func (h handlers) Wadding(ctx context.Context, _ gen.WaddingRequestObject) (gen.WaddingResponseObject, error) {
	return answered(ctx, h.wadding, wire.WaddingOut, drawing.WaddingPicture)
}

// VisitWaddingResponse sends the answer.
func (r reply) VisitWaddingResponse(w http.ResponseWriter) error { return r.write(w) }
