package fire

import (
	"slices"
	"strings"
	"testing"
)

// check is a job with what rules must say of it.
type check struct {
	name string
	job  Job
	want string
}

// line is one thing that must be said.
type line struct{ rule, layer, verdict string }

func (c *check) lines(t testing.TB) []line {
	t.Helper()
	var out []line
	for one := range strings.SplitSeq(c.want, "; ") {
		f := strings.Fields(one)
		switch {
		case len(f) == 2 && f[0] == "overall":
			out = append(out, line{"", "", f[1]})
		case len(f) == 3:
			out = append(out, line{f[0], f[1], f[2]})
		default:
			t.Fatalf("%s: %q", c.name, one)
		}
	}
	return out
}

// said is what a rule says of a layer of the job.
func said(t testing.TB, s *Set, j *Job, l line) string {
	t.Helper()
	i := slices.IndexFunc(s.Rules, func(r Rule) bool { return r.ID == l.rule })
	if i < 0 {
		t.Fatalf("no rule %q", l.rule)
	}
	r := &s.Rules[i]
	held := slices.Contains(r.Places, j.Place) || j.Destination != "" && slices.Contains(r.Places, j.Destination)
	if !held || !r.inForce(j.AsOf) {
		return "none"
	}
	q := seen{job: j, at: -1, leaves: j.Destination != "" && !slices.Contains(r.Places, j.Destination)}
	role := piece
	if l.layer != "-" {
		q.at = slices.IndexFunc(j.Layers, func(o Layer) bool { return o.ID == l.layer })
		if q.at < 0 {
			t.Fatalf("no layer %q", l.layer)
		}
		q.layer = &j.Layers[q.at]
		role = q.layer.Role
	}
	if !r.by[role] {
		return "none"
	}
	one, ok := ask(r, &q, false)
	if !ok {
		return "none"
	}
	return one.Verdict.String()
}

func allChecks() []check { return slices.Concat(published, directed) }

// Every case says what it must, by itself and in the report.
func TestCases(t *testing.T) {
	s := rules(t)
	for _, c := range allChecks() {
		t.Run(c.name, func(t *testing.T) {
			r, err := s.Check(c.job)
			if err != nil {
				t.Fatal(err)
			}
			for _, l := range c.lines(t) {
				if l.rule == "" {
					if got := r.Verdict.String(); got != l.verdict {
						t.Errorf("overall %s, want %s", got, l.verdict)
					}
					continue
				}
				if got := said(t, s, &c.job, l); got != l.verdict || inReport(r, l) != l.verdict {
					t.Errorf("%s says %s of %s, in the report %s, want %s", l.rule, got, l.layer, inReport(r, l), l.verdict)
				}
			}
		})
	}
}

func inReport(r *Report, l line) string {
	list := r.Piece
	if l.layer != "-" {
		i := slices.IndexFunc(r.Job.Layers, func(o Layer) bool { return o.ID == l.layer })
		list = r.Layers[i].Rulings
	}
	for _, one := range list {
		if one.Rule.ID == l.rule {
			return one.Verdict.String()
		}
	}
	return "none"
}

// Every rule is reached: by a case for each verdict that it can give, and by
// one in which it does not apply.
func TestEveryRuleIsReached(t *testing.T) {
	s := rules(t)
	got := make(map[string]map[string]bool)
	for _, c := range allChecks() {
		for _, l := range c.lines(t) {
			if got[l.rule] == nil {
				got[l.rule] = make(map[string]bool)
			}
			got[l.rule][l.verdict] = true
		}
	}
	for i := range s.Rules {
		r := &s.Rules[i]
		want := []string{"none"}
		for _, c := range r.Cases {
			v := c.Then
			if r.Verified == FromMemory && (v == Exempt || v == NotAllowed) {
				v = EvidenceWanted
			}
			want = append(want, v.String())
		}
		for _, w := range slices.Compact(want) {
			if !got[r.ID][w] {
				t.Errorf("%s: no case in which it says %s", r.ID, w)
			}
		}
	}
}

// mutant is one condition of the rules, turned round or moved.
type mutant struct {
	name   string
	change func() (undo func())
}

func mutantsOf(where string, c clause, seen map[*atom]bool) []mutant {
	var out []mutant
	for i := range c {
		for k := range c[i].atoms {
			a := &c[i].atoms[k]
			if seen[a] {
				continue
			}
			seen[a] = true
			name := where + ": " + c[i].text
			out = append(out, mutant{name + " (turned round)", func() func() {
				was := *a
				switch a.sure {
				case shown:
					a.sure = unless
				case unless:
					a.sure = shown
				default:
					a.negate = !a.negate
				}
				return func() { *a = was }
			}})
			if a.op >= opBefore && a.op <= opBelow {
				for _, by := range []int64{-1, 1} {
					if a.fact.kind == factDay && a.limit%100 == 1 && by < 0 {
						by = -8870 // the last of December before
						if a.limit%10000 != 101 {
							by = -70 // some day of the month before
						}
					}
					out = append(out, mutant{name + " (moved)", func() func() {
						a.limit += by
						return func() { a.limit -= by }
					}})
				}
			}
			if a.op == opScope {
				out = append(out, mutantsOf(where+", in a scope", a.scope, seen)...)
			}
		}
	}
	return out
}

// Whatever condition of the rules is turned round, or its limit moved by the
// least step, some case comes out differently.
func TestTurnedConditions(t *testing.T) {
	s, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	all := allChecks()
	type asked struct {
		job *Job
		line
	}
	byRule := make(map[string][]asked)
	var every []asked
	for i := range all {
		for _, l := range all[i].lines(t) {
			if l.rule != "" {
				byRule[l.rule] = append(byRule[l.rule], asked{&all[i].job, l})
				every = append(every, asked{&all[i].job, l})
			}
		}
	}
	seen := make(map[*atom]bool)
	tried, survived := 0, 0
	for i := range s.Rules {
		r := &s.Rules[i]
		mutants := mutantsOf(r.ID, r.scope, seen)
		for k := range r.Cases {
			mutants = append(mutants, mutantsOf(r.ID, r.Cases[k].when, seen)...)
		}
		for _, m := range mutants {
			tried++
			look := byRule[r.ID]
			if strings.Contains(m.name, "in a scope") {
				look = every
			}
			undo := m.change()
			if !slices.ContainsFunc(look, func(a asked) bool { return said(t, s, a.job, a.line) != a.verdict }) {
				survived++
				t.Errorf("no case turns on %s", m.name)
			}
			undo()
		}
	}
	t.Logf("%d conditions turned or moved, %d without a case", tried, survived)
	if tried < 400 {
		t.Errorf("only %d were tried", tried)
	}
}
