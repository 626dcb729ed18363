package job

import (
	"context"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/service"
)

// pipes cuts the piping of a cloth: out of the offcuts of its plan as far as they
// go, and the rest from new cloth. Where that keeps fewer wishes than new cloth
// alone would, all is cut from new cloth.
func (j *jobber) pipes(ctx context.Context, c int, out *clothJob) error {
	w := j.work[c]
	if len(w.runs) == 0 {
		return nil
	}
	req := j.req.Piping.PipingRequest
	req.Units, req.Cloth, req.Sold, req.Runs = j.req.Units, j.cloths[c].Cloth, &j.cloths[c].Sold, w.runs
	if ans := out.plan.Plan.Answer; ans != nil && ans.Pieces == nil {
		out.strips(&req, ans.Offcuts)
	}
	ready, l := service.PreparePiping(req)
	for len(req.Offcuts) > 0 && slices.ContainsFunc(l.Faults(), func(f fault.Fault) bool { return f.Path.Is(fault.At("offcuts")) }) {
		req.Offcuts = req.Offcuts[:len(req.Offcuts)/2] // the largest come first
		ready, l = service.PreparePiping(req)
	}
	if l.Len() > 0 {
		out.piped = []Piped{{Cloth: c, Piping: Part[service.PipingAnswer]{Fault: j.pipingPlaced(l, c)}}}
		return nil
	}
	all, err := service.ThriftyPiping(ctx, ready)
	if err != nil {
		return err
	}
	answers := []*service.PipingAnswer{all}
	if w := all.Plan(); w != nil && w.Cloth > 0 && len(req.Offcuts) > 0 {
		if answers, err = j.pipedApart(ctx, req, all, out.plan.Plan.Answer.AnyStart); err != nil {
			return err
		}
	}
	for _, a := range answers {
		out.piped = append(out.piped, Piped{Cloth: c, Piping: Part[service.PipingAnswer]{Answer: a}})
	}
	return nil
}

// pipedApart cuts as many runs as can be out of the offcuts alone, and the others
// from new cloth; all together where that makes the order of the cloth no less.
func (j *jobber) pipedApart(ctx context.Context, req service.PipingRequest, all *service.PipingAnswer, panels length.Length) ([]*service.PipingAnswer, error) {
	together := []*service.PipingAnswer{all}
	first, way := req, piping.FromRects
	first.Sold, first.Way = nil, &way
	tried, err := service.Piping(ctx, first)
	if err != nil || tried.Plan() == nil {
		return together, err
	}
	var rest service.PipingRequest
	if first, rest = runsApart(tried); len(first.Runs) == 0 || len(rest.Runs) == 0 {
		return together, nil
	}
	rest.Sold, rest.Way, rest.Offcuts = req.Sold, nil, nil
	fromOffcuts, err := service.Piping(ctx, first)
	if err != nil {
		return nil, err
	}
	fromCloth, err := service.ThriftyPiping(ctx, func(ctx context.Context) (*service.PipingAnswer, error) { return service.Piping(ctx, rest) })
	if err != nil {
		return nil, err
	}
	a, b, w := fromOffcuts.Plan(), fromCloth.Plan(), all.Plan()
	if a == nil || b == nil || a.Missing+b.Missing > 0 || w.Keeps && !(a.Keeps && b.Keeps) {
		return together, nil
	}
	less, err := req.Sold.Order(panels + a.Cloth + b.Cloth)
	if err != nil {
		return nil, err
	}
	if as, err := req.Sold.Order(panels + w.Cloth); err != nil || as <= less {
		return together, err
	}
	return []*service.PipingAnswer{fromOffcuts, fromCloth}, nil
}

// runsApart are the request for the runs that a plan covers, and that for those
// that it does not, copy by copy.
func runsApart(a *service.PipingAnswer) (covered, missing service.PipingRequest) {
	covered, missing = a.Request, a.Request
	covered.Runs, missing.Runs = nil, nil
	copies := make([]int, len(a.Request.Runs))
	for k, l := range a.Plan().Runs {
		if len(l.Pieces) > 0 {
			copies[a.Of[k].Run]++
		}
	}
	for i, r := range a.Request.Runs {
		n := r.Count
		if r.Count = copies[i]; r.Count > 0 {
			covered.Runs = append(covered.Runs, r)
		}
		if r.Count = n - copies[i]; r.Count > 0 {
			missing.Runs = append(missing.Runs, r)
		}
	}
	return covered, missing
}

// plan is the way in which the piping is cut; nil when there is none.
func (p *Piped) plan() *service.PipingWay {
	if !p.Piping.OK() {
		return nil
	}
	return p.Piping.Answer.Plan()
}

// strips names the offcuts that any strip can be cut from.
func (out *clothJob) strips(req *service.PipingRequest, offcuts []service.Offcut) {
	shape := req.Shape()
	for i, o := range offcuts {
		r := piping.Rect{X: o.Rect.X, Y: o.Rect.Y, Across: o.Rect.Across, Along: min(o.Rect.Along, service.MaxPipingOffcut)}
		gives := false
		for _, lean := range []piping.Lean{piping.Upright, piping.ToRight, piping.ToLeft} {
			if (lean == piping.Upright) != (shape.Cut == piping.Bias) {
				gives = gives || len(piping.InRect(r, shape, lean)) > 0
			}
		}
		if gives {
			req.Offcuts = append(req.Offcuts, service.PipingOffcut{Name: "offcut " + strconv.Itoa(i+1), On: &o.Piece, Rect: r})
			out.offcuts = append(out.offcuts, i)
		}
	}
}
