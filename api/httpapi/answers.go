package httpapi

import (
	"context"

	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
	"github.com/bridletie/bridletie/service/job"
)

// always is a calculation that needs nothing but the request, and cannot fail.
func always[R, A any](work func(R) *A) func(*Server, context.Context, R) (*A, error) {
	return func(_ *Server, _ context.Context, req R) (*A, error) { return work(req), nil }
}

// atOnce is a calculation that needs nothing but the request.
func atOnce[R, A any](work func(R) (*A, error)) func(*Server, context.Context, R) (*A, error) {
	return func(_ *Server, _ context.Context, req R) (*A, error) { return work(req) }
}

// shared is work on several parts at the same time, on as many as there is room for.
func shared[R, A any](work func(context.Context, R, int) (*A, error)) func(*Server, context.Context, R) (*A, error) {
	return func(s *Server, ctx context.Context, req R) (*A, error) {
		n, back := s.workers()
		defer back()
		return work(ctx, req, n)
	}
}

// solved counts a plan.
func (s *Server) solved(ans *service.YardageAnswer) error {
	s.metrics.solved(ans)
	return nil
}

func (s *Server) check(ctx context.Context, req service.CheckRequest) (*service.CheckAnswer, error) {
	return service.Check(ctx, req, s.opts.Yardage)
}

func (s *Server) fireCheck(_ context.Context, req service.FireRequest) (*service.FireAnswer, error) {
	return service.FireCheck(s.rules, req)
}

func (s *Server) compare(ctx context.Context, req service.CompareRequest) (*service.CompareAnswer, error) {
	return comparing(nil)(s, ctx, req)
}

// comparing hands over each cloth as soon as it and those before it are done.
func comparing(each func(service.ComparedCloth)) func(*Server, context.Context, service.CompareRequest) (*service.CompareAnswer, error) {
	return shared(func(ctx context.Context, req service.CompareRequest, n int) (*service.CompareAnswer, error) {
		return service.Compare(ctx, req, n, each)
	})
}

// compareLines sends each cloth as soon as it is done, and then everything else.
func (s *Server) compareLines(ctx context.Context, req service.CompareRequest, digest string, send func(any)) error {
	ans, err := inTurn(ctx, s, func(ctx context.Context) (*service.CompareAnswer, error) {
		return comparing(func(one service.ComparedCloth) { send(wire.ComparedOut(req, one)) })(s, ctx, req)
	})
	if err == nil {
		send(wire.CompareEndOut(ans, digest))
	}
	return err
}

func (s *Server) job(ctx context.Context, req job.Request) (*job.Answer, error) {
	req.MostPanels = s.opts.Panels
	return shared(func(ctx context.Context, req job.Request, n int) (*job.Answer, error) {
		return job.Run(ctx, s.rules, req, n)
	})(s, ctx, req)
}

// jobUnanswered refuses a job of which no part that was asked for can be answered: it
// is a request with faults.
func (s *Server) jobUnanswered(ans *job.Answer) error {
	if l := job.Unanswered(ans); l.Len() > 0 {
		return invalid(l.Faults())
	}
	return nil
}

// jobDrawings are every drawing of a job sheet, named after what it shows, and the
// whole sheet.
func jobDrawings(ans *job.Answer) ([]Drawing, error) {
	var list []Drawing
	for _, d := range drawing.JobDrawings(ans) {
		list = append(list, Drawing{d.Name + ".svg", d.Picture.SVG()})
	}
	pdf, err := drawing.JobPDF(ans)
	return append(list, Drawing{"job-sheet.pdf", pdf}), err
}
