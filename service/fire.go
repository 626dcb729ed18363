package service

import (
	"slices"

	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/note"
)

// FireRequest asks what the fire rules say of a stack of materials.
type FireRequest struct {
	Name  string // of the piece
	Job   fire.Job
	Names []string // of the layers, in their order; "" for one without
}

// FireAnswer is what the rules say.
type FireAnswer struct {
	Request  FireRequest
	Report   *fire.Report
	Papers   []FireKeep
	Warnings []note.Note
	Cautions []note.Note
}

// FireKeep is a paper to keep, with the rules that want it.
type FireKeep struct {
	fire.Keep
	Rules []string
}

// FireNotAdvice stands in every answer.
const FireNotAdvice = "This compares the papers that are said to be held with the rules as they are understood here; it is no legal advice and no test. " +
	"The enforcing authority, the local codes and the courts decide. Where a test is asked for, use an accredited laboratory; where law is in doubt, ask a qualified person."

// FireCheck answers a request that has no faults.
func FireCheck(rules *fire.Set, req FireRequest) (*FireAnswer, error) {
	report, err := rules.Check(req.Job)
	if err != nil {
		return nil, err
	}
	a := &FireAnswer{Request: req, Report: report, Papers: papersToKeep(report)}
	a.Warnings = note.Listed(fireWarnings(a), note.Most)
	a.Cautions = note.Listed(fireCautions(report), note.Most)
	return a, nil
}

// rulings are those about the piece and then those of the layers.
func rulings(r *fire.Report) []fire.Ruling {
	all := slices.Clone(r.Piece)
	for _, l := range r.Layers {
		all = append(all, l.Rulings...)
	}
	return all
}

// papersToKeep gathers what the rules want kept, each paper once.
func papersToKeep(r *fire.Report) []FireKeep {
	var out []FireKeep
	for _, one := range rulings(r) {
		for _, k := range one.Rule.Papers {
			at := slices.IndexFunc(out, func(o FireKeep) bool { return o.Keep == k })
			if at < 0 {
				at = len(out)
				out = append(out, FireKeep{Keep: k})
			}
			if !slices.Contains(out[at].Rules, one.Rule.ID) {
				out[at].Rules = append(out[at].Rules, one.Rule.ID)
			}
		}
	}
	return out
}

// fireWarnings are what the caller should know about this answer.
func fireWarnings(a *FireAnswer) []note.Note {
	r := a.Report
	var out []note.Note
	if r.Job.AsOf > r.Set.AsAt {
		out = append(out, note.New(note.FireLater, note.Name("asAt", r.Set.AsAt.String())))
	}
	if slices.ContainsFunc(rulings(r), func(o fire.Ruling) bool { return o.Rule.Verified == fire.FromMemory }) {
		out = append(out, note.New(note.FireFromMemory))
	}
	if slices.ContainsFunc(rulings(r), func(o fire.Ruling) bool { return o.Rule.Verified == fire.Inferred }) {
		out = append(out, note.New(note.FireInferred))
	}
	for i := range r.Layers {
		if len(r.Layers[i].Rulings) == 0 {
			out = append(out, note.New(note.FireNoRule, note.Name("layer", r.Job.Layers[i].ID)))
		}
	}
	for _, p := range r.Possible {
		out = append(out, note.New(note.FireNotCounted, note.Name("title", p.Title), note.Name("instrument", p.Instrument), note.Name("rule", p.ID)))
	}
	switch r.Job.Place {
	case "united-states":
		out = append(out, note.New(note.FireFederal))
	case "maine", "new-hampshire", "massachusetts", "rhode-island", "washington", "nevada", "new-york":
		out = append(out, note.New(note.FireStateOnly))
	}
	return out
}

// fireCautions are those of the rules, each once, and those that always hold.
func fireCautions(r *fire.Report) []note.Note {
	var out []note.Note
	for _, one := range rulings(r) {
		for _, c := range RuleCautions(one.Rule) {
			if !slices.ContainsFunc(out, c.Same) {
				out = append(out, c)
			}
		}
	}
	return append(out, note.New(note.OldStuffing), note.New(note.FoamBurns), note.New(note.FireVerdict))
}

// RuleCautions are the cautions that a rule has of its own.
func RuleCautions(r *fire.Rule) []note.Note {
	out := []note.Note{}
	for _, c := range r.Cautions {
		out = append(out, note.New(note.FireRuleSays, note.Name("says", c)))
	}
	return out
}
