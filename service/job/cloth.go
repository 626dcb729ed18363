package job

import (
	"cmp"
	"context"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// clothJob is a cloth with all that is worked out for it.
type clothJob struct {
	plan   Plan
	piped  []Piped // one, or two where some runs come out of the offcuts and some off the roll
	charts []Buttoned

	offcuts []int // of the plan, in the order in which the piping has them
}

// cloth works out what is cut from one cloth: the charts of its buttoned panels,
// which say how large those are cut, then the plan, then the piping out of its
// offcuts, then the circles of the buttons out of what is left.
func (j *jobber) cloth(ctx context.Context, c int, effort plan.Effort) (*clothJob, error) {
	w := j.work[c]
	out := &clothJob{plan: Plan{Cloth: c, Effort: effort, Loosened: w.loosened}}
	if err := j.charts(ctx, c, out); err != nil {
		return nil, err
	}
	if err := j.plan(ctx, c, out); err != nil {
		return nil, err
	}
	if err := j.pipes(ctx, c, out); err != nil {
		return nil, err
	}
	j.circles(out)
	out.counts()
	return out, nil
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
	req := service.YardageRequest{
		Units: j.req.Units, Cloth: k.Cloth, Sold: k.Sold, Pieces: k.Hand, Panels: panels, Effort: p.Effort, Obstacles: obstacles, Shop: j.req.Shop,
	}
	ready, wrong := j.prepare(req, c, places)
	return p.Plan.answer(ctx, ready, wrong)
}

// maxPanels is how many panels, each with its copies, are cut from one cloth at
// most.
const maxPanels = 500

// prepare makes a plan ready, or says what is wrong with it.
func (j *jobber) prepare(req service.YardageRequest, c int, places []place) (service.Ready[service.YardageAnswer], fault.List) {
	most := maxPanels
	if j.req.MostPanels > 0 {
		most = min(most, j.req.MostPanels)
	}
	if n := len(req.Panels); n > most {
		var l fault.List
		l.Add(fault.At("pieces"), fault.TooMany, strconv.Itoa(n), "one cloth has "+strconv.Itoa(n)+" panels", "at most "+strconv.Itoa(most)+": fewer pieces at a time")
		return nil, l
	}
	if l := service.YardageFieldFaults(req); l.Len() > 0 {
		return nil, j.placed(l, c, req.Panels, places, false)
	}
	ready, l := service.PrepareYardage(req)
	return ready.Answer, j.placed(l, c, req.Panels, places, true)
}

// counts says what of a cloth is for what.
func (out *clothJob) counts() {
	p := &out.plan
	for _, one := range out.piped {
		if w := one.plan(); w != nil {
			p.ForPiping += w.Cloth
		}
	}
	switch ans := p.Plan.Answer; {
	case ans == nil:
	case ans.Pieces != nil:
		p.ForPanels = ans.Pieces.Short
	default:
		p.ForPanels = ans.AnyStart
	}
}

// circles gives the buttons what the piping has left of the offcuts, panel by
// panel, and adds up how much new cloth the others take.
func (j *jobber) circles(out *clothJob) {
	free := j.leftOver(out)
	for i := range out.charts {
		b := &out.charts[i]
		if b.Chart.Answer == nil {
			continue
		}
		for range b.Count {
			var one *service.ButtoningAnswer
			one, free = b.Chart.Answer.CoveredFrom(free)
			b.Copies = append(b.Copies, one)
			switch c := one.Buttons; {
			case c.Centred != nil:
				// From any start it is at most a repeat more than from the best.
				out.plan.ForButtons += c.Centred.Length + one.Request.Cloth.Pattern.LengthRepeat
			case c.Strip != nil:
				out.plan.ForButtons += c.Strip.Piece.Along
			}
		}
		b.Chart.Answer = b.Copies[0]
	}
}

// leftOver are the offcuts that no strip of piping is cut from.
func (j *jobber) leftOver(out *clothJob) []panel.Size {
	ans := out.plan.Plan.Answer
	if ans == nil || ans.Pieces != nil {
		return nil
	}
	used := make(map[int]bool)
	for _, one := range out.piped {
		if w := one.plan(); w != nil {
			for _, s := range w.Strips {
				if s.Rect >= 0 {
					used[out.offcuts[s.Rect]] = true
				}
			}
		}
	}
	var free []panel.Size
	for i, o := range ans.Offcuts {
		if !used[i] && min(o.Rect.Across, o.Rect.Along) >= service.MinOffcut {
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
