package httpapi

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/job"
)

// wireJob is the answer as the contract has it. A section that is not shown is
// left out.
func wireJob(ans *job.Answer, digest string) gen.JobAnswer {
	h := ans.Request.Hide
	g := gen.JobAnswer{
		Title: ans.Title(), Warnings: wireJobNotes(ans.Warnings), Cautions: wireJobNotes(ans.Cautions),
		Work:   gen.Work{Used: ans.Work.Used, Budget: ans.Work.Budget},
		Engine: service.EngineVersion, InputDigest: digest,
	}
	wireJobMoney(&g, ans)
	if !h.CuttingLists {
		list := []gen.JobPieceAnswer{}
		for i, l := range ans.Lists {
			p := &ans.Request.Pieces[i]
			list = append(list, gen.JobPieceAnswer{Piece: p.ID, Title: p.Title(), List: wireCuttingList(l, digest)})
		}
		g.CuttingLists = &list
	}
	if !h.Cloths {
		list := make([]gen.JobClothAnswer, len(ans.Plans))
		for i := range ans.Plans {
			list[i] = wireJobCloth(ans, &ans.Plans[i], digest)
		}
		g.Cloths = &list
	}
	if !h.Piping {
		list := make([]gen.JobPipingAnswer, len(ans.Piping))
		for i, p := range ans.Piping {
			list[i].Cloth = ans.Cloths[p.Cloth].ID
			list[i].Piping, list[i].Fault = wireJobPart(p.Piping, digest, wirePiping)
		}
		g.Piping = &list
	}
	if !h.Buttoning {
		list := make([]gen.JobButtoningAnswer, len(ans.Buttoning))
		for i, b := range ans.Buttoning {
			list[i] = gen.JobButtoningAnswer{Piece: ans.Request.Pieces[b.Piece].ID, Panel: b.Panel, Count: b.Count}
			list[i].Chart, list[i].Fault = wireJobPart(b.Chart, digest, wireButtoning)
		}
		g.Buttoning = &list
	}
	wireJobBench(&g, ans, digest)
	return g
}

// wireJobMoney is what is bought, what it costs and when it is done.
func wireJobMoney(g *gen.JobAnswer, ans *job.Answer) {
	h := ans.Request.Hide
	if !h.OrderList {
		g.OrderList = &gen.JobOrderList{Lines: wireOrderLines(ans.Orders, ans.Request.Units), Without: append([]string{}, ans.Without()...)}
	}
	if !h.Cost && ans.Cost != nil {
		g.Cost = wireJobCost(ans.Cost, ans.Request.Units)
	}
	if !h.DayPlan {
		g.DayPlan = wireJobDays(ans.Days)
	}
}

// wireJobBench are the parts beneath the cover, and the fire check.
func wireJobBench(g *gen.JobAnswer, ans *job.Answer, digest string) {
	h := ans.Request.Hide
	if !h.Foam && ans.Foam != nil {
		g.Foam = &gen.JobFoamAnswer{}
		g.Foam.Foam, g.Foam.Fault = wireJobPart(*ans.Foam, digest, wireFoam)
	}
	if !h.Wadding && ans.Wadding != nil {
		g.Wadding = &gen.JobWaddingAnswer{}
		g.Wadding.Wadding, g.Wadding.Fault = wireJobPart(*ans.Wadding, digest, wireWadding)
	}
	if !h.Foundation {
		list := make([]gen.JobFoundationAnswer, len(ans.Foundation))
		for i, f := range ans.Foundation {
			list[i].Build = gen.JobFoundationAnswerBuild(f.Build.String())
			list[i].Foundation, list[i].Fault = wireJobPart(f.Foundation, digest, wireFoundation)
		}
		g.Foundation = &list
	}
	if !h.Fire && ans.Request.Fire != nil {
		list := make([]gen.JobFireAnswer, len(ans.Fire))
		for i, f := range ans.Fire {
			for _, p := range f.Pieces {
				list[i].Pieces = append(list[i].Pieces, ans.Request.Pieces[p].ID)
			}
			list[i].Check, list[i].Fault = wireJobPart(f.Check, digest, wireFireAnswer)
		}
		g.Fire = &list
	}
}

// wireJobPart is the answer of a part, or what keeps it from being answered.
func wireJobPart[A, G any](p job.Part[A], digest string, wire func(*A, string) G) (*G, *gen.JobFault) {
	if p.Answer != nil {
		g := wire(p.Answer, digest)
		return &g, nil
	}
	return nil, wireJobFault(p.Fault)
}

func wireJobFault(l fault.List) *gen.JobFault {
	if l.Len() == 0 {
		return nil
	}
	w := invalid(l.Faults()).wire()
	return &gen.JobFault{Count: *w.Count, Errors: *w.Errors}
}

func wireJobCloth(ans *job.Answer, p *job.Plan, digest string) gen.JobClothAnswer {
	w := answerWriter{units: ans.Request.Units}
	c := ans.Cloths[p.Cloth]
	effort := [...]gen.JobClothAnswerEffort{
		plan.Normal: gen.JobClothAnswerEffortNormal, plan.Quick: gen.JobClothAnswerEffortQuick,
		plan.Thorough: gen.JobClothAnswerEffortThorough, plan.Glance: gen.JobClothAnswerEffortGlance,
	}[p.Effort]
	g := gen.JobClothAnswer{Cloth: c.ID, Effort: &effort}
	set(&g.Name, c.Cloth.Name)
	g.Plan, g.Fault = wireJobPart(p.Plan, digest, wireAnswer)
	if p.Plan.Fault.Len() == 0 {
		order, panels, piping, buttons := w.quantity(p.Order, length.Up), w.quantity(p.ForPanels, length.Up), w.quantity(p.ForPiping, length.Up), w.quantity(p.ForButtons, length.Up)
		why := ans.Why(p)
		g.Order, g.ForPanels, g.ForPiping, g.ForButtons, g.Why = &order, &panels, &piping, &buttons, &why
	}
	loosened := w.loosened(p.Loosened)
	g.Loosened = &loosened
	if y := p.Plan.Answer; y != nil {
		list := make([]gen.Panel, len(y.Request.Panels))
		for i := range y.Request.Panels {
			list[i] = wirePanel(&y.Request.Panels[i])
		}
		g.Panels = &list
	}
	return g
}

func wireJobNotes(notes []job.Note) []gen.JobNote {
	list := make([]gen.JobNote, len(notes))
	for i, n := range notes {
		list[i] = gen.JobNote{Text: n.Text, From: n.From}
	}
	return list
}
