package fire

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/calc/calendar"
)

// checker gathers what is wrong with the rules.
type checker struct{ wrong []string }

func (c *checker) add(format string, args ...any) {
	c.wrong = append(c.wrong, fmt.Sprintf(format, args...))
}

func (c *checker) day(what, text string, must bool) calendar.Day {
	d, ok := calendar.Parse(text)
	if !ok && (must || text != "") {
		c.add("%s: %q is not a day", what, text)
	}
	return d
}

var ruleID = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)+$`)

// promises are words that no text of a rule may use: nothing here shows them.
var promises = regexp.MustCompile(`(?i)\b(certified|safe|compliant)\b`)

func (c *checker) test(t *Test, twice bool) {
	if twice || !ruleID.MatchString(t.ID) || t.Title == "" {
		c.add("test %q: it stands twice, or lacks a right id or a title", t.ID)
	}
	if !slices.Contains([]string{"", "beneath", "fillings", "container", "stack"}, t.Composite) {
		c.add("test %s: composite %q", t.ID, t.Composite)
	}
}

// file reads the rules of one file into the set.
func (c *checker) file(s *Set, f *wireFile) {
	if f.Jurisdiction == "" || len(f.Places) == 0 {
		c.add("a file without a jurisdiction or places")
	}
	p := &parser{set: s, scopes: make(map[string]clause)}
	for _, w := range f.Scopes { // each may name those before it, so that there is no loop
		got, err := p.clause(w.When)
		if err != nil || w.Name == "" || p.scopes[w.Name] != nil {
			c.add("%s: scope %q: it stands twice, or %v", f.Jurisdiction, w.Name, err)
		}
		p.scopes[w.Name] = got
		s.Scopes = append(s.Scopes, Scope{f.Jurisdiction, w.Name, w.When})
	}
	for i := range f.Rules {
		w := &f.Rules[i]
		if slices.ContainsFunc(s.Rules, func(r Rule) bool { return r.ID == w.ID }) {
			c.add("rule %s stands twice", w.ID)
		}
		s.Rules = append(s.Rules, c.rule(p, f, w))
	}
}

func (c *checker) rule(p *parser, f *wireFile, w *wireRule) Rule {
	r := Rule{
		ID: w.ID, Jurisdiction: f.Jurisdiction, Places: f.Places, Title: w.Title, Instrument: w.Instrument,
		From: c.day(w.ID+": from", w.From, true), To: c.day(w.ID+": to", w.To, false),
		Layers: w.Layers, Scope: w.Scope, Wants: w.Wants, Papers: w.Papers, Cautions: w.Cautions,
		Source: w.Source, Verified: w.Verified, by: make(map[string]bool),
	}
	if len(w.Places) > 0 {
		r.Places = w.Places
	}
	c.texts(&r)
	for _, l := range w.Layers {
		if l == "any" {
			for _, role := range vocabulary["role"] {
				r.by[role] = true
			}
			continue
		}
		if l != piece && !slices.Contains(vocabulary["role"], l) {
			c.add("%s: no layer is called %q", w.ID, l)
		}
		r.by[l] = true
	}
	r.scope = c.clause(p, &r, w.Scope)
	for _, one := range w.Cases {
		then, ok := verdictOf(one.Then)
		if !ok || one.Say == "" {
			c.add("%s: a case with the verdict %q, or without its sentence", w.ID, one.Then)
		}
		c.promises(w.ID, one.Say)
		r.Cases = append(r.Cases, Case{When: one.When, Then: then, Say: one.Say, when: c.clause(p, &r, one.When)})
	}
	if n := len(w.Cases); n == 0 || len(w.Cases[n-1].When) > 0 {
		c.add("%s: the last case must hold whatever comes", w.ID)
	}
	return r
}

// clause reads conditions. A rule about the piece may not ask about a layer.
func (c *checker) clause(p *parser, r *Rule, lines []string) clause {
	got, err := p.clause(lines)
	if err != nil {
		c.add("%s: %v", r.ID, err)
		return nil
	}
	if r.by[piece] && got.asksLayer() {
		c.add("%s: it is about the piece and asks about a layer", r.ID)
	}
	return got
}

func (c clause) asksLayer() bool {
	for _, g := range c {
		for i := range g.atoms {
			switch a := &g.atoms[i]; {
			case a.op == opScope && a.scope.asksLayer(), a.op >= opTestPasses && a.op <= opWithin, a.op <= opBelow && a.fact.layer:
				return true
			}
		}
	}
	return false
}

// texts wants every text that a rule must have, and none that promises.
func (c *checker) texts(r *Rule) {
	if !ruleID.MatchString(r.ID) {
		c.add("rule %q: not an id", r.ID)
	}
	if r.Title == "" || r.Instrument == "" || r.Source == "" || len(r.Layers) == 0 {
		c.add("%s: title, instrument, source and layers must be there", r.ID)
	}
	if !slices.Contains([]string{Read, Inferred, FromMemory}, r.Verified) {
		c.add("%s: verified %q", r.ID, r.Verified)
	}
	if r.To != 0 && r.To < r.From {
		c.add("%s: ended before it began", r.ID)
	}
	all := append([]string{r.Title, r.Instrument, r.Source}, append(r.Wants, r.Cautions...)...)
	for _, k := range r.Papers {
		if k.Paper == "" || k.Keep == "" {
			c.add("%s: a paper without its name or its time", r.ID)
		}
		all = append(all, k.Paper, k.Keep)
	}
	c.promises(r.ID, strings.Join(all, "\n"))
}

func (c *checker) promises(id, text string) {
	if bad := promises.FindString(text); bad != "" {
		c.add("%s: says %q", id, bad)
	}
}
