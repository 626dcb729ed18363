package job

import (
	"context"

	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/service"
)

// Run works the job sheet out, so many parts at a time. The request must have no
// faults of its own. The answer does not depend on how many parts are worked on at
// a time. It returns the context's error when the context ends before the answer
// is complete.
func Run(ctx context.Context, rules *fire.Set, req Request, workers int) (*Answer, error) {
	j := newJobber(req)
	ans := &Answer{Request: req, Cloths: j.cloths, Lists: j.lists}
	founded := [2]*Founded{}
	parts := []func() error{
		func() (err error) { ans.Foam, err = j.foam(ctx); return err },
		func() (err error) { founded[0], err = j.foundation(ctx, Traditional); return err },
		func() (err error) { founded[1], err = j.foundation(ctx, Modern); return err },
		func() (err error) { ans.Wadding, err = j.wadding(ctx); return err },
		func() (err error) { ans.Fire, err = j.fires(rules); return err },
	}
	cut := make([]*clothJob, len(j.cloths))
	efforts := j.efforts()
	for c := range j.cloths {
		if len(j.work[c].panels)+len(j.work[c].runs) > 0 {
			parts = append(parts, func() (err error) { cut[c], err = j.cloth(ctx, c, efforts[c]); return err })
		}
	}
	failed := make([]error, len(parts))
	last := len(parts) - 1
	service.SideBySide(workers, len(parts), func(i int) { failed[i] = parts[last-i]() }, nil) // the plans first
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	for _, err := range failed {
		if err != nil {
			return nil, err
		}
	}
	for _, f := range founded {
		if f != nil {
			ans.Foundation = append(ans.Foundation, *f)
		}
	}
	for _, c := range cut {
		if c != nil {
			ans.take(c)
		}
	}
	if err := j.money(ans); err != nil {
		return nil, err
	}
	ans.Warnings, ans.Cautions = notesOf(j, ans)
	return ans, nil
}

// take adds what is cut from a cloth.
func (a *Answer) take(c *clothJob) {
	a.Plans = append(a.Plans, c.plan)
	a.Piping = append(a.Piping, c.piped...)
	a.Buttoning = append(a.Buttoning, c.charts...)
	if p := c.plan.Plan.Answer; p != nil {
		a.Work.Used += p.Result.Work.Used
		a.Work.Budget += p.Result.Work.Budget
	}
}
