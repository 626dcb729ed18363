package httpapi

import (
	"context"
	"errors"
	"net/http"
	"time"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
	"github.com/bridletie/bridletie/service"
)

// tinyJob is one panel, centred on a motif of a straight pattern.
func tinyJob() service.YardageRequest {
	const cm = length.Centimetre
	return service.YardageRequest{
		Cloth: cloth.Cloth{
			Width:   140 * cm,
			Pattern: cloth.Pattern{LengthRepeat: 32 * cm, WidthRepeat: 35 * cm},
		},
		Panels: []panel.Panel{{
			ID:    "SEAT",
			Count: 1,
			Size:  panel.Size{Across: 50 * cm, Along: 48 * cm},
			Match: panel.Match{How: panel.Centred},
		}},
		Effort: plan.Quick,
	}
}

// readyFor is how long a success is believed, so that nobody keeps a core busy by
// asking.
const readyFor = time.Second

// ready looks at the contract, solves the tiny job and checks the plan, unless it has
// done so just now.
func (s *Server) ready(ctx context.Context) error {
	s.wasReady.Lock()
	defer s.wasReady.Unlock()
	if time.Now().Before(s.wasReady.until) {
		return nil
	}
	err := s.tryReady(ctx)
	if err == nil {
		s.wasReady.until = time.Now().Add(readyFor)
	}
	return err
}

func (s *Server) tryReady(ctx context.Context) error {
	if err := s.contract.Check(); err != nil {
		return err
	}
	req := tinyJob()
	ans, err := s.opts.Yardage(ctx, req)
	if err != nil {
		return err
	}
	if ans == nil || len(ans.Result.Cut) == 0 {
		return errors.New("the tiny job has no plan")
	}
	if flaws := verify.Check(plan.Job{Cloth: req.Cloth, Panels: req.Panels}, ans.Result.Cut...); len(flaws) > 0 {
		return errors.New("the plan of the tiny job: " + flaws[0].String())
	}
	return nil
}

// livez answers that the process runs.
func (s *Server) livez(*exchange) (*reply, error) { return healthy() }

// readyz answers whether the service can do its work.
func (s *Server) readyz(x *exchange) (*reply, error) {
	if s.draining.Load() {
		return nil, retry("the service is about to stop", heavyRetry)
	}
	ctx := x.r.Context()
	if err := s.ready(ctx); err != nil {
		s.opts.Log.ErrorContext(ctx, "not ready", "error", clipError(err))
		return nil, retry("the service does not pass its own check", heavyRetry)
	}
	return healthy()
}

func healthy() (*reply, error) {
	body, err := inJSON(gen.Health{Status: gen.HealthStatusOk})
	return &reply{http.StatusOK, http.Header{"Content-Type": {contract.JSON}}, body}, err
}
