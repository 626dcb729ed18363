package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// FireRulesOut is the rule set as the contract has it.
func FireRulesOut(s *fire.Set) gen.FireRuleSet {
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
