package wire

import (
	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// FireIn translates a request whose strings are of their formats.
func FireIn(w *gen.FireCheckRequest) (service.FireRequest, fault.List) {
	var t translator
	job := fire.Job{
		AsOf: dayFrom(w.AsOf), Place: string(w.Place), Destination: string(value(w.Destination)),
		Use: string(value(w.Use)), Platform: string(value(w.Platform)), Item: string(value(w.Item)),
		Transaction: string(value(w.Transaction)), Occupancy: string(value(w.Occupancy)), Hazard: string(value(w.Hazard)),
		FillingAdded: knownFrom(w.FillingAdded), LooseCushions: knownFrom(w.LooseCushions),
		SmoothSurface: knownFrom(w.SmoothSurface), SeatMeetsBack: knownFrom(w.SeatMeetsBack), Prescribed: knownFrom(w.Prescribed),
		PermanentLabel: knownFrom(w.PermanentLabel), DisplayLabel: knownFrom(w.DisplayLabel),
		FederalLabel: knownFrom(w.FederalLabel), ChemicalLabel: knownFrom(w.ChemicalLabel),
	}
	job.Made, _ = calendar.ParseSpan(value(w.Made))
	root := fault.Path{}
	if w.Size != nil {
		at := root.Field("size")
		job.Long, job.Wide = t.positive(&w.Size.Long, at.Field("long")), t.positive(&w.Size.Wide, at.Field("wide"))
	}
	req := service.FireRequest{Name: value(w.Name)}
	for i := range w.Layers {
		job.Layers = append(job.Layers, t.fireLayer(&w.Layers[i], root.Field("layers").Index(i)))
		req.Names = append(req.Names, value(w.Layers[i].Name))
	}
	for _, p := range value(w.Papers) {
		job.Papers = append(job.Papers, paperFrom(&p))
	}
	req.Job = job
	return req, t.shape
}

// knownFrom is yes or no; left out and unknown are the same.
func knownFrom(k *gen.FireKnown) fire.Answer {
	switch value(k) {
	case gen.FireKnownYes:
		return "yes"
	case gen.FireKnownNo:
		return "no"
	}
	return ""
}

func (t *translator) fireLayer(w *gen.FireLayer, at fault.Path) fire.Layer {
	l := fire.Layer{
		ID: w.Id, Role: string(w.Role), Material: string(value(w.Material)), Form: string(value(w.Form)),
		Supplier: string(value(w.Supplier)), Coating: string(value(w.Coating)),
		Thickness: t.positive(w.Thickness, at.Field("thickness")),
		Treated:   knownFrom(w.Treated), CombustionModified: knownFrom(w.CombustionModified),
	}
	for _, f := range value(w.Fibres) {
		share, _ := formats.Share(f.Share)
		l.Fibres = append(l.Fibres, fire.Fibre{Name: string(f.Fibre), Share: int64(share)})
	}
	if c := w.FlameRetardant; c != nil {
		l.FlameRetardant, l.FlameRetardantKind = knownFrom(c.Added), string(value(c.Kind))
		l.FlameRetardantPPM = mapped(c.Ppm, func(ppm int) int64 { return int64(ppm) })
	}
	return l
}

func paperFrom(w *gen.FirePaper) fire.Paper {
	p := fire.Paper{
		Kind: string(w.Kind), Layer: value(w.Layer), Test: string(value(w.Test)), Result: string(value(w.Result)),
		Date: dayFrom(value(w.Date)), Reference: value(w.Reference), Composite: value(w.Composite), Soaked: knownFrom(w.Soaked),
	}
	for _, s := range value(w.Specimens) {
		p.Specimens = append(p.Specimens, fire.Specimen{Char: lengthFrom(s.Char), Minutes: s.Minutes, Flamed: s.Flamed})
	}
	return p
}

// FireOut is the answer as the contract has it. Lists are never null.
func FireOut(ans *service.FireAnswer, digest string) gen.FireCheckAnswer {
	r := ans.Report
	g := gen.FireCheckAnswer{
		Verdict:     gen.FireVerdict(r.Verdict.String()),
		RuleSet:     wireFireName(r.Set),
		AsOf:        r.Job.AsOf.String(),
		Place:       gen.FirePlace(r.Job.Place),
		Piece:       wireRulings(r.Piece),
		Layers:      make([]gen.FireLayerAnswer, len(r.Layers)),
		Changes:     []gen.FireChange{},
		Notices:     []gen.FireNotice{},
		Papers:      []gen.FireKeep{},
		NotAdvice:   service.FireNotAdvice,
		Warnings:    wireNotes(length.Metric, ans.Warnings),
		Cautions:    wireNotes(length.Metric, ans.Cautions),
		Engine:      service.EngineVersion + " fire-rules/" + r.Set.Version,
		InputDigest: digest,
	}
	if d := gen.FirePlace(r.Job.Destination); d != "" {
		g.Destination = &d
	}
	for i, l := range r.Layers {
		g.Layers[i] = gen.FireLayerAnswer{Id: r.Job.Layers[i].ID, Verdict: gen.FireVerdict(l.Verdict.String()), Rules: wireRulings(l.Rulings)}
		if i < len(ans.Request.Names) && ans.Request.Names[i] != "" {
			g.Layers[i].Name = &ans.Request.Names[i]
		}
	}
	for _, c := range r.Changes {
		g.Changes = append(g.Changes, wireChange(r, c))
	}
	for _, n := range r.Notices {
		g.Notices = append(g.Notices, gen.FireNotice{Paper: n.Paper, Kind: gen.FireNoticeKind(n.Kind), Detail: n.Detail})
	}
	for _, k := range ans.Papers {
		g.Papers = append(g.Papers, gen.FireKeep{Paper: k.Paper, Keep: k.Keep.Keep, Rules: k.Rules})
	}
	return g
}

func wireRulings(list []fire.Ruling) []gen.FireRuling {
	out := make([]gen.FireRuling, len(list))
	for i, one := range list {
		r := one.Rule
		out[i] = gen.FireRuling{
			Rule: r.ID, Title: r.Title, Jurisdiction: r.Jurisdiction, Instrument: r.Instrument,
			Verdict: gen.FireVerdict(one.Verdict.String()), Applies: gen.FireRulingAppliesYes, Say: one.Say,
			Steps: make([]gen.FireStep, len(one.Steps)), Wants: append([]string{}, r.Wants...),
			Source: r.Source, Verified: gen.FireVerified(r.Verified),
		}
		if one.Doubt {
			out[i].Applies = gen.FireRulingAppliesUnknown
		}
		for k, s := range one.Steps {
			out[i].Steps[k] = gen.FireStep{Condition: s.Condition, Holds: gen.FireStepHolds(s.Holds.String()), Found: s.Found}
		}
	}
	return out
}

func wireChange(r *fire.Report, c fire.Change) gen.FireChange {
	id := func(at int) *string {
		if at < 0 {
			return nil
		}
		return &r.Job.Layers[at].ID
	}
	g := gen.FireChange{Change: c.What, Layer: id(c.Layer), Verdict: gen.FireVerdict(c.Verdict.String())}
	for _, m := range c.Mends {
		g.Mends = append(g.Mends, struct {
			Layer *gen.PanelId `json:"layer,omitempty"`
			Rule  string       `json:"rule"`
		}{id(m.Layer), m.Rule})
	}
	return g
}

func wireFireName(s *fire.Set) gen.FireRuleSetName {
	return gen.FireRuleSetName{Version: s.Version, AsAt: s.AsAt.String()}
}
