package job

import (
	"slices"

	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/service/buying"
)

// The examples that hours begin from where the terms name none.
const (
	presetKeep    = "re-cover"
	presetRebuild = "rebuild"
)

// money works out what is bought, what it costs, and by which days it is done.
func (j *jobber) money(ans *Answer) error {
	var currency money.Currency
	terms := buying.Terms{Shop: j.req.Shop}
	if j.req.Terms != nil {
		terms = *j.req.Terms
		currency = terms.Currency
	}
	terms.Preset = j.preset()
	list, err := buying.OrderList(buying.Request{Units: j.req.Units, Parts: []buying.Part{j.orderPart(ans)}, Prices: j.req.Prices, Currency: currency, Shop: j.req.Shop})
	if err != nil {
		return err
	}
	ans.Orders = list
	for i := range ans.Plans {
		p := &ans.Plans[i]
		article := "cloth/" + ans.Cloths[p.Cloth].ID
		if n := slices.IndexFunc(list, func(l buying.Line) bool { return l.Article == article }); n >= 0 {
			p.Order = length.Length(list[n].Order)
		}
	}
	work := j.costed(ans)
	if j.req.Terms != nil {
		ans.Cost = buying.CostOf(list, j.req.Prices, work, terms, ans.unpriced()...)
	}
	ans.Days = buying.PlanDays(terms.Operations(work), j.req.Days)
	return nil
}

// preset is the example for what is done: a rebuild where any piece is rebuilt.
func (j *jobber) preset() string {
	for i := range j.req.Pieces {
		if j.req.Pieces[i].Build != Keep {
			return presetRebuild
		}
	}
	return presetKeep
}

// orderPart is all that is worked out, as the order list takes it.
func (j *jobber) orderPart(ans *Answer) buying.Part {
	var part buying.Part
	for _, p := range ans.Plans {
		if p.Plan.OK() {
			part.Cloths = append(part.Cloths, buying.Cloth{Article: ans.Cloths[p.Cloth].ID, For: "panels", Answer: p.Plan.Answer})
		}
	}
	for _, p := range ans.Piping {
		if p.Piping.OK() {
			part.Piping = append(part.Piping, buying.Piping{Cloth: ans.Cloths[p.Cloth].ID, Answer: p.Piping.Answer})
		}
	}
	for _, b := range ans.Buttoning {
		for _, one := range b.Copies {
			part.Buttoning = append(part.Buttoning, buying.Buttoning{Count: 1, Cloth: ans.Cloths[b.Cloth].ID, Answer: one})
		}
	}
	if ans.Foam != nil && ans.Foam.OK() {
		part.Foam = append(part.Foam, ans.Foam.Answer)
	}
	if ans.Wadding != nil && ans.Wadding.OK() {
		part.Wadding = append(part.Wadding, ans.Wadding.Answer)
	}
	for _, f := range ans.Foundation {
		if f.Foundation.OK() {
			part.Foundation = append(part.Foundation, f.Foundation.Answer)
		}
	}
	return part
}

// costed counts what hours are reckoned by. A frame that is kept takes none.
func (j *jobber) costed(ans *Answer) costing.Work {
	w := costing.Work{}
	piping := length.Length(0)
	for i := range j.req.Pieces {
		p := &j.req.Pieces[i]
		w.Pieces += max(p.Piece.Count, 1)
		if p.Build == Keep || !p.byHand() && len(ans.Lists[i].List.Frames) == 0 {
			w.Sound += max(p.Piece.Count, 1)
		}
		for _, panels := range ans.Lists[i].Covers {
			for _, q := range panels {
				w.Panels += q.Count
			}
		}
		list := ans.Lists[i].List
		w.Cushions += looseOf(list)
		if p.Build != Keep {
			for _, f := range list.Frames {
				w.Frames += f.Count
			}
		}
		for _, b := range ans.Buttoning {
			switch {
			case b.Piece != i:
			case b.Chart.OK():
				w.Buttons += b.Count * b.Chart.Answer.Buttons.Count
			}
		}
	}
	for c := range j.work {
		for _, r := range j.work[c].runs {
			piping += r.Length * length.Length(r.Count)
		}
	}
	w.Piping = buying.Length.Amount(int64(piping))
	return w
}

func looseOf(list furniture.List) int {
	n := 0
	for _, f := range list.Fillings {
		if f.Loose {
			n += f.Count
		}
	}
	return n
}

// unpriced are the parts of which nothing is ordered, or not all, with the article
// that they would be bought as, or the family of it.
func (a *Answer) unpriced() []buying.Unpriced {
	var out []buying.Unpriced
	for _, s := range a.sections() {
		if s.faults.Len() == 0 {
			continue
		}
		why := note.New(note.PartFaulted, note.Name("fault", s.faults.Faults()[0].Detail))
		out = append(out, buying.Unpriced{Article: s.article, Name: s.from, Why: why, Part: true})
	}
	for i := range a.Piping {
		p := &a.Piping[i]
		id := a.Cloths[p.Cloth].ID
		switch w := p.plan(); {
		case !p.Piping.OK():
		case w == nil:
			out = append(out, buying.Unpriced{Article: "piping/" + id, Name: "piping " + id, Why: note.New(note.PartNoStrips), Part: true})
		case w.Missing > 0:
			out = append(out, buying.Unpriced{Article: "piping/" + id, Name: "piping " + id, Why: note.New(note.PipingMissing, note.Count("runs", w.Missing)), Part: true})
		}
	}
	return out
}

// Without are the parts that could not be worked out, so that nothing is ordered
// for them, whether they are shown or not.
func (a *Answer) Without() []string {
	var out []string
	for _, s := range a.sections() {
		if s.faults.Len() > 0 {
			out = append(out, s.from)
		}
	}
	return out
}
