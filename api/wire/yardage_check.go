package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
)

// maxPlanFaults is how many faults of a plan are shown; count says how many
// there are.
const maxPlanFaults = 100

// CheckIn translates a request to check a plan, as YardageIn does.
func CheckIn(w *gen.YardageCheckRequest) (service.CheckRequest, fault.List) {
	job, shape := YardageIn(&gen.YardageRequest{Units: w.Units, Cloth: w.Cloth, Panels: w.Panels, Effort: w.Effort})
	t := translator{shape: shape}
	req := service.CheckRequest{YardageRequest: job, Placements: make([]service.HandPlacement, len(w.Placements))}
	for i := range w.Placements {
		req.Placements[i] = handFromWire(&w.Placements[i])
	}
	at := fault.At("lengths")
	for i, l := range value(w.Lengths) {
		one := service.HandLength{Piece: value(l.Piece), Length: t.positive(l.Length, at.Index(i).Field("length"))}
		if l.Start != nil {
			start := lengthFrom(*l.Start)
			one.Start = &start
		}
		req.Lengths = append(req.Lengths, one)
	}
	return req, t.shape
}

func handFromWire(w *gen.HandPlacement) service.HandPlacement {
	p := service.HandPlacement{
		Panel: w.Panel, Copy: w.Copy, Piece: value(w.Piece), Part: 1, Parts: 1,
		X: fromMM(w.XMm), Y: fromMM(w.YMm), Across: maybeMM(w.AcrossMm), Along: maybeMM(w.AlongMm),
	}
	switch value(w.Turn) {
	case gen.HandPlacementTurnHalf:
		p.Turn = panel.Half
	case gen.HandPlacementTurnQuarter:
		p.Turn = panel.Quarter
	}
	if w.Part != nil {
		p.Part, p.Parts, p.From = w.Part.Number, w.Part.Of, fromMM(w.Part.FromMm)
	}
	if w.Motif != nil {
		p.Motif = &service.HandMotif{Name: w.Motif.Name, X: fromMM(w.Motif.XMm), Y: fromMM(w.Motif.YMm)}
	}
	return p
}

// CheckOut is the answer to a check as the contract has it.
func CheckOut(ans *service.CheckAnswer, digest string) gen.YardageCheckAnswer {
	w := answerWriter{ans: ans.Engine, units: ans.Request.Units}
	g := gen.YardageCheckAnswer{
		Right:        ans.Right(),
		Count:        len(ans.Faults),
		Faults:       []gen.PlanFault{},
		Length:       w.quantity(ans.Length(), length.Up),
		Lengths:      make([]gen.CheckedLength, len(ans.Hand)),
		OrderByHand:  w.quantity(ans.Order(), length.Up),
		EngineNeeded: w.quantity(ans.Engine.Result.Needed(), length.Up),
		EngineOrder:  w.quantity(ans.Engine.Order, length.Up),
		Bound:        w.quantity(ans.Engine.Result.Bound, length.Down),
		WouldSave:    w.quantity(ans.WouldSave(), length.Down),
		Warnings:     wireNotes(w.units, ans.Warnings),
		Cautions:     wireNotes(w.units, ans.Cautions),
		Engine:       service.EngineVersion,
		InputDigest:  digest,
	}
	for i, l := range ans.Hand {
		g.Lengths[i] = gen.CheckedLength{
			Piece:  i,
			Length: w.quantity(l.Length, length.Up),
			Start:  w.quantity(l.Start, length.Nearest),
			Order:  w.quantity(ans.Orders[i], length.Up),
		}
	}
	for _, f := range ans.Faults[:min(len(ans.Faults), maxPlanFaults)] {
		g.Faults = append(g.Faults, w.planFault(ans, f))
	}
	return g
}

// planFault leaves out what a fault is not about.
func (w answerWriter) planFault(ans *service.CheckAnswer, f service.PlanFault) gen.PlanFault {
	g := gen.PlanFault{Kind: gen.PlanFaultKind(f.Kind), Detail: f.Detail}
	if f.Panel >= 0 {
		g.Panel = &ans.Request.Panels[f.Panel].ID
	}
	if f.Copy > 0 {
		g.Copy = &f.Copy
	}
	if f.At >= 0 {
		g.Placement = &f.At
	}
	if f.Layout >= 0 {
		g.Piece = &f.Layout
	}
	if f.By != 0 {
		out := w.quantity(f.By, length.Up)
		g.Out = &out
	}
	if f.With >= 0 {
		other := ans.Request.Placements[f.With]
		g.Other = &gen.OtherPlacement{Panel: other.Panel, Copy: other.Copy, Placement: f.With}
	}
	return g
}
