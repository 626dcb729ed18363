package httpapi

import (
	"bytes"
	"context"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// The limits of a request for a job, which may list several pieces.
const (
	MaxJobBody   = 262144
	maxJobValues = 40000
)

// AnswerJob reads a request for a job and answers it, as AnswerYardage does.
func (s *Server) AnswerJob(ctx context.Context, body []byte) (*service.JobAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/job", body, s.job)
}

// job works a job out when its turn has come. A job of which no part that was
// asked for can be answered is a request with faults.
func (s *Server) job(ctx context.Context, req service.JobRequest) (*service.JobAnswer, error) {
	req.MostPanels = s.opts.Panels
	ans, err := inTurn(ctx, s, func(ctx context.Context) (*service.JobAnswer, error) {
		return service.Job(ctx, s.fire.set, req, s.opts.Solves)
	})
	if err != nil {
		return nil, err
	}
	if l := service.JobUnanswered(ans); l.Len() > 0 {
		return nil, invalid(l.Faults())
	}
	return ans, nil
}

// Job answers POST /v1/job.
func (h handlers) Job(ctx context.Context, _ gen.JobRequestObject) (gen.JobResponseObject, error) {
	in, err := read[service.JobRequest](ctx)
	if err != nil {
		return nil, err
	}
	ans, err := h.job(ctx, in.request)
	if err != nil {
		return nil, err
	}
	vary, store := "Accept", "no-store"
	headers := gen.Job200ResponseHeaders{CacheControl: &store, Vary: &vary}
	switch ctx.Value(mediaKey) {
	case mediaSVG:
		svg := drawing.JobSVG(ans)
		return gen.Job200ImagesvgXmlResponse{Body: bytes.NewReader(svg), Headers: headers, ContentLength: int64(len(svg))}, nil
	case mediaPDF:
		pdf, err := drawing.JobPDF(ans)
		if err != nil {
			return nil, err
		}
		return gen.Job200ApplicationpdfResponse{Body: bytes.NewReader(pdf), Headers: headers, ContentLength: int64(len(pdf))}, nil
	}
	return gen.Job200JSONResponse{Body: wireJob(ans, in.digest), Headers: headers}, nil
}
