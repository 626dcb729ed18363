package httpapi

import (
	"context"

	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
	"github.com/bridletie/bridletie/service/glance"
	"github.com/bridletie/bridletie/service/job"
)

// always adapts a calculation that needs only the request and cannot fail.
func always[R, A any](work func(R) *A) func(*Server, context.Context, R) (*A, error) {
	return func(_ *Server, _ context.Context, req R) (*A, error) { return work(req), nil }
}

// atOnce adapts a calculation that needs only the request and ignores the context.
func atOnce[R, A any](work func(R) (*A, error)) func(*Server, context.Context, R) (*A, error) {
	return func(_ *Server, _ context.Context, req R) (*A, error) { return work(req) }
}

// shared adapts work that runs in several goroutines. It passes the number of goroutines
// that the heavy lane has room for, and gives them back afterwards.
func shared[R, A any](work func(context.Context, R, int) (*A, error)) func(*Server, context.Context, R) (*A, error) {
	return func(s *Server, ctx context.Context, req R) (*A, error) {
		n, back := s.workers()
		defer back()
		return work(ctx, req, n)
	}
}

// solved counts a plan in the metrics. It never fails.
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

func (s *Server) compare(ctx context.Context, req glance.CompareRequest) (*glance.CompareAnswer, error) {
	return comparing(nil)(s, ctx, req)
}

// comparing passes each cloth to the function, in order, as soon as it and those before
// it are done. The function may be nil.
func comparing(each func(glance.Compared)) func(*Server, context.Context, glance.CompareRequest) (*glance.CompareAnswer, error) {
	return shared(func(ctx context.Context, req glance.CompareRequest, n int) (*glance.CompareAnswer, error) {
		return glance.Compare(ctx, req, n, each)
	})
}

// compareLines sends each cloth as soon as it is done, and then the rest of the response.
func (s *Server) compareLines(ctx context.Context, req glance.CompareRequest, digest string, send func(any)) error {
	ans, err := inTurn(ctx, s, func(ctx context.Context) (*glance.CompareAnswer, error) {
		return comparing(func(one glance.Compared) { send(wire.ComparedOut(req, one)) })(s, ctx, req)
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

// jobUnanswered returns a problem when none of the parts requested of a job could be
// worked out; the request is then at fault. Otherwise it returns nil.
func (s *Server) jobUnanswered(ans *job.Answer) error {
	if l := job.Unanswered(ans); l.Len() > 0 {
		return invalid(l.Faults())
	}
	return nil
}

// jobDrawings returns every drawing of a job sheet, each named after its subject, and the
// whole sheet as PDF.
func jobDrawings(ans *job.Answer) ([]Drawing, error) {
	var list []Drawing
	for _, d := range drawing.JobDrawings(ans) {
		list = append(list, Drawing{d.Name + ".svg", d.Picture.SVG()})
	}
	pdf, err := drawing.JobPDF(ans)
	return append(list, Drawing{"job-sheet.pdf", pdf}), err
}
