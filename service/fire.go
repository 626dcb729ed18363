package service

import (
	"slices"

	"github.com/bridletie/bridletie/calc/fire"
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
	Warnings []string
	Cautions []string
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
	a.Warnings = fireWarnings(a)
	a.Cautions = fireCautions(report)
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
func fireWarnings(a *FireAnswer) []string {
	r, out := a.Report, []string{}
	if r.Job.AsOf > r.Set.AsAt {
		out = append(out, "The day asked about is later than "+r.Set.AsAt.String()+", when the rules were last looked up: check what has changed since.")
	}
	memory := slices.ContainsFunc(rulings(r), func(o fire.Ruling) bool { return o.Rule.Verified == fire.FromMemory })
	if memory {
		out = append(out, "Some of these rules are held from memory; they neither forbid nor exempt, and must be looked up.")
	}
	if slices.ContainsFunc(rulings(r), func(o fire.Ruling) bool { return o.Rule.Verified == fire.Inferred }) {
		out = append(out, "Some of these rules are inferred from what was read; their source says from what.")
	}
	for i := range r.Layers {
		if len(r.Layers[i].Rulings) == 0 {
			out = append(out, "No rule held here speaks of the layer "+r.Job.Layers[i].ID+": ask the enforcing authority.")
		}
	}
	for _, p := range r.Possible {
		out = append(out, "Not counted, since what it needs is not shown: "+p.Title+" ("+p.Instrument+"; rule "+p.ID+").")
	}
	switch r.Job.Place {
	case "united-states":
		out = append(out, "Only the federal rules are run: some States and cities have rules of their own, on flame-retardant chemicals among others.")
	case "maine", "new-hampshire", "massachusetts", "rhode-island", "washington", "nevada", "new-york":
		out = append(out, "Of this State only its rule on flame-retardant chemicals is held; ask about others, and about city rules.")
	}
	return out
}

// fireCautions are those of the rules, each once, and those that always hold.
func fireCautions(r *fire.Report) []string {
	var out []string
	for _, one := range rulings(r) {
		for _, c := range one.Rule.Cautions {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return append(out,
		"Old stuffing can hold dust, mould, pests and, rarely, germs: wear a mask and gloves, bag it, and vacuum rather than sweep.",
		"Foam and its dust burn fast and give deadly smoke: no flame, no smoking, no heater near it, and store little.",
		"A verdict is about papers. It does not say how this piece will burn.",
	)
}
