package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/pleat"
	"github.com/bridletie/bridletie/service"
)

// PleatsIn translates a request for pleats, as YardageIn does.
func PleatsIn(w *gen.PleatsRequest) (service.PleatsRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.PleatsRequest{Units: unitsFrom(value(w.Units)), Name: value(w.Name)}
	req.Job = pleat.Job{
		From: t.edgeFrom(&w.From, root.Field("from")), Style: pleat.Style(value(w.Style)), Count: value(w.Count),
		MaxDepth: t.positive(w.MaxDepth, root.Field("maxDepth")), Away: value(w.Lie) == gen.PleatsRequestLieAway,
		Over: t.positive(w.Over, root.Field("over")), Face: t.positive(w.Face, root.Field("face")),
		Margin: t.positive(w.Margin, root.Field("margin")), Shop: t.shop,
	}
	return req, t.shape
}

// edgeFrom reads the geometry, and says which of its fields do not belong to
// what it is worked out from, or are left out.
func (t *translator) edgeFrom(w *gen.PleatsFrom, at fault.Path) pleat.From {
	f := pleat.From{
		Radius: lengthFrom(value(w.Radius)), Angle: value(w.Angle), Concave: value(w.Concave),
		TurnOver: t.positive(w.TurnOver, at.Field("turnOver")),
		Cloth:    lengthFrom(value(w.Cloth)), Finished: lengthFrom(value(w.Finished)), Buttons: value(w.Buttons),
	}
	how := string(w.How)
	arc := true
	switch w.How {
	case gen.PleatsFromHowScrollArm:
		f.How = pleat.ScrollArm
	case gen.PleatsFromHowRoundSeat:
		f.How = pleat.RoundSeat
	case gen.PleatsFromHowLengths:
		f.How, arc = pleat.Lengths, false
	case gen.PleatsFromHowButtons:
		f.How, arc = pleat.Buttons, false
	}
	if w.Angle == nil {
		f.Angle = map[pleat.How]int{pleat.Corner: 90, pleat.ScrollArm: 180, pleat.RoundSeat: 360}[f.How]
	}
	const arcs, lengths = "corner, scroll-arm and round-seat", "lengths and buttons"
	t.suits(at, "radius", w.Radius != nil, arc, true, arcs, how)
	t.suits(at, "angle", w.Angle != nil, arc, false, arcs, how)
	t.suits(at, "concave", w.Concave != nil, arc, false, arcs, how)
	t.suits(at, "turnOver", w.TurnOver != nil, arc || f.How == pleat.Lengths, arc, arcs+" and lengths", how)
	t.suits(at, "cloth", w.Cloth != nil, !arc, true, lengths, how)
	t.suits(at, "finished", w.Finished != nil, !arc, true, lengths, how)
	t.suits(at, "buttons", w.Buttons != nil, f.How == pleat.Buttons, true, "buttons", how)
	return f
}

// suits records a field that what is given needs and lacks, or has and may not.
func (t *translator) suits(at fault.Path, field string, given, may, must bool, owners, how string) {
	switch {
	case given && !may:
		t.shape.Add(at.Field(field), fault.NotAllowed, "", field+" belongs to "+owners, "leave "+field+" out, or change how")
	case !given && may && must:
		t.shape.Add(at.Field(field), fault.Missing, "", how+" needs "+field, "give "+field)
	}
}

// PleatsOut is the answer as the contract has it.
func PleatsOut(ans *service.PleatsAnswer, digest string) gen.PleatsAnswer {
	w, r := answerWriter{units: ans.Request.Units}, ans.Result
	g := gen.PleatsAnswer{
		Kind: gen.PleatsAnswerKind(ans.Kind()), Style: gen.PleatsAnswerStyle(r.Style), Closed: r.Closed,
		Excess: w.quantity(r.Excess, length.Nearest), Absorbed: w.quantity(r.Absorbed(), length.Nearest),
		Cloth: w.quantity(r.Cloth, length.Up), Finished: w.quantity(r.Finished, length.Nearest),
		Count: len(r.Marks), Remainder: ans.Remainder,
		Marks: make([]gen.PleatsMark, len(r.Marks)),
		Notes: wireNotes(w.units, ans.Notes), Warnings: wireNotes(w.units, ans.Warnings), Cautions: wireNotes(w.units, ans.Cautions),
		Engine: service.EngineVersion, InputDigest: digest,
	}
	if r.Spaced {
		d := w.quantity(r.Spacing, length.Nearest)
		g.Spacing = &d
	}
	if r.SnipDepth > 0 {
		d := w.quantity(r.SnipDepth, length.Down)
		g.SnipDepth = &d
	}
	if r.DartLength > 0 {
		d := w.quantity(r.DartLength, length.Nearest)
		g.DartLength = &d
	}
	for i, m := range r.Marks {
		on := make([]float64, len(m.On))
		for k, l := range m.On {
			on[k] = l.MM()
		}
		g.Marks[i] = gen.PleatsMark{
			Number: i + 1, Lie: gen.PleatsMarkLie(m.Lie), Take: w.quantity(m.Take, length.Nearest), Depth: w.quantity(m.Depth, length.Nearest),
			FinishedMm: m.Finished.MM(), MarksMm: on,
		}
	}
	return g
}
