package fire

import (
	"slices"
	"strings"

	"github.com/bridletie/bridletie/calc/calendar"
)

// seen is the job as a rule sees it, with the layer that it is asked about.
type seen struct {
	job    *Job
	layer  *Layer // nil for the piece
	at     int    // of the layer in the stack
	leaves bool   // the rule is of a place that the piece leaves
	loose  bool   // what must be shown is taken as it is
	trace  *[]Step
}

// Step is one condition of a rule, and how it was met.
type Step struct {
	Condition string
	Holds     Truth
	Found     string // what is known of what it asks
}

// clause is met when all its groups are. With a trace, all are looked at and
// noted; without, it stops at the first that is not met.
func (s *seen) clause(c clause) Truth {
	got := Yes
	for i := range c {
		if a := c[i].atoms; s.trace != nil && len(a) == 1 && a[0].op == opScope && !a[0].negate && a[0].sure == asItIs {
			got = got.and(s.clause(a[0].scope)) // its conditions are noted, and not its name
			continue
		}
		t := s.group(&c[i])
		got = got.and(t)
		if s.trace != nil {
			*s.trace = append(*s.trace, Step{Condition: c[i].text, Holds: t, Found: s.found(&c[i])})
		} else if got == No {
			return No
		}
	}
	return got
}

// quietly is clause without notes.
func (s *seen) quietly(c clause) Truth {
	trace := s.trace
	s.trace = nil
	defer func() { s.trace = trace }()
	return s.clause(c)
}

func (s *seen) group(g *group) Truth {
	got := No
	for i := range g.atoms {
		if got = got.or(s.atom(&g.atoms[i])); got == Yes {
			return Yes
		}
	}
	return got
}

func (s *seen) atom(a *atom) Truth {
	t := s.plain(a)
	switch {
	case a.sure == unless && t == Unknown && !s.loose, a.sure == unless && t == No:
		return Yes
	case a.sure == unless:
		return t.not()
	case a.sure == shown && t == Unknown && !s.loose:
		t = No
	}
	if a.negate {
		return t.not()
	}
	return t
}

func (s *seen) plain(a *atom) Truth {
	switch a.op {
	case opScope:
		return s.quietly(a.scope)
	case opPaper:
		return s.holds(a.words[0])
	case opTestPasses:
		return s.result(s.at, a.test)
	case opTestFails:
		return s.result(s.at, a.test).not()
	case opBarrierBeneath, opBarrierAbove:
		return s.barrier(s.at, a)
	case opWithin:
		return s.within(s.at, a.test)
	}
	v := a.fact.get(s)
	if !v.known {
		return Unknown
	}
	switch a.op {
	case opIs:
		return truth(slices.Contains(a.words, v.word))
	case opBefore, opBelow:
		return v.compare(func(n int64) bool { return n < a.limit })
	case opFrom, opAtLeast:
		return v.compare(func(n int64) bool { return n >= a.limit })
	case opAbove:
		return v.compare(func(n int64) bool { return n > a.limit })
	default: // opAtMost
		return v.compare(func(n int64) bool { return n <= a.limit })
	}
}

// compare asks of the least and of the most that something may be.
func (v value) compare(ok func(int64) bool) Truth {
	switch lo, hi := ok(v.lo), ok(v.hi); {
	case lo && hi:
		return Yes
	case !lo && !hi:
		return No
	}
	return Unknown
}

// found is what is known of what a condition asks, in words.
func (s *seen) found(g *group) string {
	var all []string
	for i := range g.atoms {
		if text := s.foundOf(&g.atoms[i]); !slices.Contains(all, text) {
			all = append(all, text)
		}
	}
	return strings.Join(all, "; ")
}

func (s *seen) foundOf(a *atom) string {
	if a.op <= opBelow {
		return a.fact.name + " " + a.fact.get(s).text(a.fact.kind)
	}
	t := s.plain(a)
	switch a.op {
	case opTestPasses, opTestFails:
		if a.op == opTestFails {
			t = t.not()
		}
		return map[Truth]string{Yes: "a report that it passes is held", No: "a report says that it fails", Unknown: "no report that counts"}[t]
	case opBarrierBeneath, opBarrierAbove:
		return map[Truth]string{Yes: "a barrier with a report that it passes", No: "no barrier that may pass", Unknown: "a barrier without a report that counts"}[t]
	case opWithin:
		return map[Truth]string{Yes: "part of a composite that passed", No: "part of a composite that failed", Unknown: "in no composite that counts"}[t]
	case opPaper:
		return map[Truth]string{Yes: "held", Unknown: "not among the papers, or without its date"}[t]
	}
	return map[Truth]string{Yes: "it holds", No: "it does not hold", Unknown: "not known"}[t]
}

// outcome is what a rule says. Where a condition is unknown, all cases that may
// be the right one are gathered; unless they agree, evidence is wanted.
func (s *seen) outcome(r *Rule) (v Verdict, c *Case, applies Truth) {
	applies = s.clause(r.scope)
	if applies == No {
		return 0, nil, No
	}
	first, mixed := -1, false
	for i := range r.Cases {
		t := s.clause(r.Cases[i].when)
		if t == No {
			continue
		}
		if first < 0 {
			first = i
		} else if r.Cases[i].Then != r.Cases[first].Then {
			mixed = true
		}
		if t == Yes {
			if !mixed {
				c = &r.Cases[i]
			} else {
				c = wantedCase(r)
			}
			break
		}
	}
	v = EvidenceWanted
	if !mixed {
		v = c.Then
	}
	if applies == Unknown || r.Verified == FromMemory && (v == NotAllowed || v == Exempt) {
		return EvidenceWanted, c, applies
	}
	return v, c, applies
}

// wantedCase is the case of a rule that says what evidence is wanted: the last
// that does, or the last of all.
func wantedCase(r *Rule) *Case {
	for i := len(r.Cases) - 1; i >= 0; i-- {
		if r.Cases[i].Then == EvidenceWanted {
			return &r.Cases[i]
		}
	}
	return &r.Cases[len(r.Cases)-1]
}

// inForce reports whether a rule is in force on a day.
func (r *Rule) inForce(d calendar.Day) bool { return r.From <= d && (r.To == 0 || d <= r.To) }
