package service

import (
	"cmp"
	"context"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/plan"
)

// clothJob is a cloth with all that is worked out for it.
type clothJob struct {
	plan   JobPlan
	piped  *JobPiped
	charts []JobButtoned
}

// cloth works out what is cut from one cloth: the charts of its buttoned panels,
// which say how large those are cut, then the plan, then the piping out of its
// offcuts, then the circles of the buttons out of what is left.
func (j *jobber) cloth(ctx context.Context, c int, effort plan.Effort) (*clothJob, error) {
	w := j.work[c]
	out := &clothJob{plan: JobPlan{Cloth: c, Effort: effort, Loosened: w.loosened}}
	if err := j.charts(ctx, c, out); err != nil {
		return nil, err
	}
	if err := j.plan(ctx, c, out); err != nil {
		return nil, err
	}
	if err := j.pipes(ctx, c, out); err != nil {
		return nil, err
	}
	j.circles(c, out)
	return out, j.order(c, out)
}

// plan plans the panels of a cloth.
func (j *jobber) plan(ctx context.Context, c int, out *clothJob) error {
	w, p := j.work[c], &out.plan
	if len(w.panels) == 0 {
		return nil
	}
	for _, b := range out.charts {
		p.Plan.Fault.Append(b.Chart.Fault)
	}
	if p.Plan.Fault.Len() > 0 {
		return nil
	}
	panels, places, obstacles, loosened := j.spread(c, out.charts)
	p.Loosened = append(p.Loosened, loosened...)
	k := j.cloths[c]
	req := YardageRequest{
		Units: j.req.Units, Cloth: k.Cloth, Sold: k.Sold, Pieces: k.Hand, Panels: panels, Effort: p.Effort, Obstacles: obstacles,
	}
	if l := jobPlanFaults(req); l.Len() > 0 {
		p.Plan.Fault = j.placed(l, c, panels, places)
		return nil
	}
	ans, err := Yardage(ctx, req)
	if err != nil {
		return err
	}
	p.Plan.Answer = ans
	return nil
}

// maxJobPanels is how many panels, each with its copies, are cut from one cloth.
const maxJobPanels = 500

func jobPlanFaults(req YardageRequest) fault.List {
	if n := len(req.Panels); n > maxJobPanels {
		var l fault.List
		l.Add(fault.Path("").Field("panels"), fault.TooMany, strconv.Itoa(n), "one cloth has "+strconv.Itoa(n)+" panels", "at most "+strconv.Itoa(maxJobPanels)+": fewer pieces at a time")
		return l
	}
	return YardageFaults(req)
}

// pipes cuts the piping of a cloth: out of the offcuts of its plan as far as they
// go, and the rest from new cloth. Where that keeps fewer wishes than new cloth
// alone would, all is cut from new cloth.
func (j *jobber) pipes(ctx context.Context, c int, out *clothJob) error {
	w := j.work[c]
	if len(w.runs) == 0 {
		return nil
	}
	req := j.req.Piping.PipingRequest
	req.Units, req.HasCloth, req.Cloth, req.Sold, req.Runs = j.req.Units, true, j.cloths[c].Cloth, j.cloths[c].Sold, w.runs
	if !j.req.Piping.LeanSaid {
		req.OneLean = req.Cloth.OneWay
	}
	if ans := out.plan.Plan.Answer; ans != nil && ans.Pieces == nil {
		for i, o := range ans.Offcuts {
			req.Offcuts = append(req.Offcuts, PipingOffcut{
				Name: "offcut " + strconv.Itoa(i+1), Piece: o.Piece, Placed: true,
				Rect: piping.Rect{X: o.Rect.X, Y: o.Rect.Y, Across: o.Rect.Across, Along: o.Rect.Along},
			})
		}
	}
	out.piped = &JobPiped{Cloth: c}
	l := PipingFaults(req)
	for len(req.Offcuts) > 0 && slices.ContainsFunc(l.Faults(), func(f fault.Fault) bool { return f.Pointer == "#/offcuts" }) {
		req.Offcuts = req.Offcuts[:len(req.Offcuts)/2] // the largest come first
		l = PipingFaults(req)
	}
	if l.Len() > 0 {
		out.piped.Piping.Fault = j.pipingPlaced(l, c)
		return nil
	}
	ans, err := j.piped(ctx, req)
	out.piped.Piping.Answer = ans
	return err
}

// piped prefers the offcuts.
func (j *jobber) piped(ctx context.Context, req PipingRequest) (*PipingAnswer, error) {
	if len(req.Offcuts) > 0 {
		way := piping.FromRects
		req.Way = &way
		ans, err := Piping(ctx, req)
		if err != nil {
			return nil, err
		}
		if w := ans.Plan(); w != nil && w.Missing == 0 && (w.Keeps || !slices.ContainsFunc(ans.Ways, func(o PipingWay) bool { return o.Keeps })) {
			return ans, nil
		}
		req.Way = nil
	}
	return Piping(ctx, req)
}

// order adds up what is bought of a cloth.
func (j *jobber) order(c int, out *clothJob) error {
	p, sold := &out.plan, j.cloths[c].Sold
	if out.piped != nil && out.piped.Piping.OK() {
		if w := out.piped.Piping.Answer.Plan(); w != nil {
			p.ForPiping = w.Cloth
		}
	}
	more := p.ForPiping + p.ForButtons
	ans := p.Plan.Answer
	switch {
	case ans == nil:
		return p.buy(sold, 0, more)
	case ans.Pieces != nil:
		p.ForPanels = ans.Pieces.Short
		if len(ans.Pieces.Uses)-len(ans.Request.Pieces) > 1 {
			return p.buy(sold, ans.Pieces.Order, more)
		}
		return p.buy(sold, 0, p.ForPanels+more)
	}
	p.ForPanels = ans.AnyStart
	if len(ans.Lengths) == 1 && (sold.Bolt == 0 || ans.AnyStart+more <= sold.Bolt) {
		return p.buy(sold, 0, ans.AnyStart+more)
	}
	return p.buy(sold, ans.Order, more)
}

// buy adds one more length to what is bought already.
func (p *JobPlan) buy(sold cloth.Sold, already, more length.Length) error {
	p.Order = already
	if more == 0 {
		return nil
	}
	l, err := sold.Order(more)
	p.Order += l
	return err
}

// circles gives the buttons what the piping has left of the offcuts, and works
// out how much new cloth the others take.
func (j *jobber) circles(c int, out *clothJob) {
	free := j.leftOver(out)
	for i := range out.charts {
		ch := out.charts[i].Chart.Answer
		if ch == nil {
			continue
		}
		total := ch.Buttons.Count * out.charts[i].Count
		if ch.Request.Buttons.Motif != nil {
			if k, ok := j.cloths[c].Cloth.Pattern.Find(*ch.Request.Buttons.Motif); ok {
				if cut, ok := buttoning.CentredFor(total, k, ch.Buttons.Circle, j.cloths[c].Cloth.Width, j.cloths[c].Cloth.Pattern); ok {
					out.plan.ForButtons += cut.Length
				}
			}
			continue
		}
		held := 0
		for len(free) > 0 && held < total && len(ch.Request.Buttons.Offcuts) < maxCircleOffcuts {
			if n := buttoning.NestIn(free[0], ch.Buttons.Circle).Count; n > 0 {
				ch.Request.Buttons.Offcuts = append(ch.Request.Buttons.Offcuts, free[0])
				held += n
			}
			free = free[1:]
		}
		ch.buttons()
		ch.Warnings = buttoningWarnings(ch)
		if strip, ok := buttoning.StripFor(total-held, ch.Buttons.Circle, j.cloths[c].Cloth.Width); ok {
			out.plan.ForButtons += strip.Piece.Along
		}
	}
}

const maxCircleOffcuts = 50

// leftOver are the offcuts that no strip of piping is cut from.
func (j *jobber) leftOver(out *clothJob) []panel.Size {
	ans := out.plan.Plan.Answer
	if ans == nil || ans.Pieces != nil {
		return nil
	}
	used := make(map[int]bool)
	if out.piped != nil && out.piped.Piping.OK() {
		if w := out.piped.Piping.Answer.Plan(); w != nil {
			for _, s := range w.Strips {
				used[s.Rect] = true
			}
		}
	}
	var free []panel.Size
	for i, o := range ans.Offcuts {
		if !used[i] && min(o.Rect.Across, o.Rect.Along) >= MinOffcut {
			free = append(free, panel.Size{Across: o.Rect.Across, Along: o.Rect.Along})
		}
	}
	return free
}

// efforts share the budget out: the two cloths with the most to cut have it, the
// next four are planned quickly, and any more at a glance.
func (j *jobber) efforts() []plan.Effort {
	area := make([]float64, len(j.cloths))
	rank := make([]int, len(j.cloths))
	for c := range j.cloths {
		rank[c] = c
		for _, p := range j.work[c].panels {
			cut := p.Cut()
			area[c] += float64(cut.Across.MM()*cut.Along.MM()) * float64(p.Count)
		}
	}
	slices.SortStableFunc(rank, func(a, b int) int { return cmp.Compare(area[b], area[a]) })
	out := make([]plan.Effort, len(j.cloths))
	for n, c := range rank {
		switch {
		case n < 2:
			out[c] = j.req.Effort
		case n < 6:
			out[c] = plan.Quick
		default:
			out[c] = plan.Glance
		}
	}
	return out
}
