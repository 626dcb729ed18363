package httpapi

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// wireFireAnswer is the answer as the contract has it. Lists are never null.
func wireFireAnswer(ans *service.FireAnswer, digest string) gen.FireCheckAnswer {
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

// wireFireRules is the rule set as the contract has it.
func wireFireRules(s *fire.Set) gen.FireRuleSet {
	g := gen.FireRuleSet{RuleSet: wireFireName(s), Rules: make([]gen.FireRule, len(s.Rules))}
	for _, p := range s.Places() {
		g.Places = append(g.Places, gen.FirePlace(p))
	}
	for _, t := range s.Tests {
		composite := t.Composite
		if composite == "" {
			composite = "none"
		}
		g.Tests = append(g.Tests, struct {
			Composite gen.FireRuleSetTestsComposite `json:"composite"`
			Id        gen.FireTestId                `json:"id"`
			Soak      bool                          `json:"soak"`
			Title     string                        `json:"title"`
		}{gen.FireRuleSetTestsComposite(composite), gen.FireTestId(t.ID), t.Soak, t.Title})
	}
	for _, c := range s.Scopes {
		g.Scopes = append(g.Scopes, struct {
			Jurisdiction string   `json:"jurisdiction"`
			Name         string   `json:"name"`
			When         []string `json:"when"`
		}{c.Jurisdiction, c.Name, c.When})
	}
	for i := range s.Rules {
		g.Rules[i] = wireRule(&s.Rules[i])
	}
	return g
}

func wireRule(r *fire.Rule) gen.FireRule {
	g := gen.FireRule{
		Id: r.ID, Jurisdiction: r.Jurisdiction, Title: r.Title, Instrument: r.Instrument, From: r.From.String(),
		Layers: r.Layers, Scope: append([]string{}, r.Scope...), Wants: append([]string{}, r.Wants...),
		Cautions: wireNotes(length.Metric, service.RuleCautions(r)), Source: r.Source, Verified: gen.FireVerified(r.Verified),
	}
	if to := r.To.String(); to != "" {
		g.To = &to
	}
	for _, p := range r.Places {
		g.Places = append(g.Places, gen.FirePlace(p))
	}
	for _, c := range r.Cases {
		g.Cases = append(g.Cases, struct {
			Say  string          `json:"say"`
			Then gen.FireVerdict `json:"then"`
			When []string        `json:"when"`
		}{c.Say, gen.FireVerdict(c.Then.String()), append([]string{}, c.When...)})
	}
	g.Papers = []struct {
		Keep  string `json:"keep"`
		Paper string `json:"paper"`
	}{}
	for _, k := range r.Papers {
		g.Papers = append(g.Papers, struct {
			Keep  string `json:"keep"`
			Paper string `json:"paper"`
		}{k.Keep, k.Paper})
	}
	return g
}
