package httpapi

import (
	"context"
	"net/http"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/service/drawing"
	"github.com/bridletie/bridletie/service/job"
)

// The limits of a request for a job, which may list several pieces.
const (
	MaxJobBody   = 262144
	maxJobValues = 40000
)

// AnswerJob reads a request for a job and answers it, as AnswerYardage does.
func (s *Server) AnswerJob(ctx context.Context, body []byte) (*job.Answer, *Problem) {
	return answerTo(ctx, s, "POST /v1/job", body, s.job)
}

// job works a job out when its turn has come. A job of which no part that was
// asked for can be answered is a request with faults.
func (s *Server) job(ctx context.Context, req job.Request) (*job.Answer, error) {
	req.MostPanels = s.opts.Panels
	ans, err := inTurn(ctx, s, func(ctx context.Context) (*job.Answer, error) {
		n, back := s.workers()
		defer back()
		return job.Run(ctx, s.fire.set, req, n)
	})
	if err != nil {
		return nil, err
	}
	if l := job.Unanswered(ans); l.Len() > 0 {
		return nil, invalid(l.Faults())
	}
	return ans, nil
}

// Job answers POST /v1/job.
func (h handlers) Job(ctx context.Context, _ gen.JobRequestObject) (gen.JobResponseObject, error) {
	return answered(ctx, h.job, wireJob, drawing.JobSheetOf)
}

// VisitJobResponse sends the answer.
func (r reply) VisitJobResponse(w http.ResponseWriter) error { return r.write(w) }
