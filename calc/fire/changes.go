package fire

import (
	"slices"
	"strconv"
	"strings"
)

// Change is a single change that was tried, and what it would do.
type Change struct {
	What    string // in words
	Layer   int    // that it is made at; -1 for the piece
	Mends   []Mend
	Verdict Verdict // of the whole afterwards
}

// Mend is a ruling that a change turns into one that lets the layer be used.
type Mend struct {
	Rule  string
	Layer int
}

// The most changes that are tried, and that are told.
const (
	maxTried = 96
	maxTold  = 20
)

// trial is a change before it is tried. It is made on a copy of the job.
type trial struct {
	what  string
	layer int
	make  func(*Job)
}

// changes tries single changes on what does not let the job pass: a report that
// is asked for, a barrier, another material, a paper, an answer. A change is told
// when it mends a ruling and spoils none.
func changesOf(run []running, job *Job, before []Ruling) []Change {
	var told []Change
	for _, t := range trials(run, job, before) {
		after := *job
		after.Layers = slices.Clone(job.Layers)
		after.Papers = slices.Clone(job.Papers)
		t.make(&after)
		if c, ok := judge(run, job, &after, before, t); ok {
			told = append(told, c)
		}
	}
	slices.SortStableFunc(told, func(a, b Change) int {
		if a.Verdict != b.Verdict {
			return int(a.Verdict) - int(b.Verdict)
		}
		return len(b.Mends) - len(a.Mends)
	})
	return told[:min(len(told), maxTold)]
}

// judge puts the changed job to the rules.
func judge(run []running, was, job *Job, before []Ruling, t trial) (Change, bool) {
	c := Change{What: t.what, Layer: t.layer}
	type key struct {
		rule  *Rule
		layer string
	}
	name := func(j *Job, layer int) string {
		if layer < 0 {
			return ""
		}
		return j.Layers[layer].ID
	}
	after := make(map[key]Verdict, len(before))
	told := make(map[string]bool, len(job.Layers)) // layers of which a rule speaks
	for _, r := range rulingsOf(run, job, false) {
		after[key{r.Rule, name(job, r.Layer)}] = r.Verdict
		told[name(job, r.Layer)] = true
		c.Verdict = max(c.Verdict, r.Verdict)
	}
	for i := range job.Layers {
		if !told[job.Layers[i].ID] {
			c.Verdict = max(c.Verdict, EvidenceWanted)
		}
	}
	for _, r := range before {
		k := key{r.Rule, name(was, r.Layer)}
		v, applies := after[k]
		switch {
		case applies && r.Verdict.Lets() && !v.Lets():
			return c, false
		case !r.Verdict.Lets() && (!applies && told[k.layer] || applies && v.Lets()):
			c.Mends = append(c.Mends, Mend{r.Rule.ID, r.Layer})
		}
		delete(after, k)
	}
	for _, v := range after { // rules that did not apply before
		if !v.Lets() {
			return c, false
		}
	}
	return c, len(c.Mends) > 0
}

// trials are the changes that the rulings call for, each once.
func trials(run []running, job *Job, before []Ruling) []trial {
	g := &gatherer{run: run, job: job, seen: make(map[string]bool)}
	for _, r := range before {
		if r.Verdict.Lets() {
			continue
		}
		g.at = r.Layer
		g.clause(r.Rule.scope, false)
		for i := range r.Rule.Cases {
			g.clause(r.Rule.Cases[i].when, false)
		}
		if r.Layer >= 0 {
			g.another(r.Layer)
		}
	}
	return g.list[:min(len(g.list), maxTried)]
}

type gatherer struct {
	run  []running
	job  *Job
	at   int
	list []trial
	seen map[string]bool
}

func (g *gatherer) add(what string, make func(*Job)) {
	if !g.seen[what] {
		g.seen[what] = true
		g.list = append(g.list, trial{what, g.at, make})
	}
}

// clause gathers what would change the answer to the conditions.
func (g *gatherer) clause(c clause, negated bool) {
	for i := range c {
		for k := range c[i].atoms {
			a := &c[i].atoms[k]
			g.atom(a, negated != a.negate)
		}
	}
}

func (g *gatherer) atom(a *atom, negated bool) {
	at := g.at
	switch a.op {
	case opScope:
		g.clause(a.scope, negated)
	case opTestPasses:
		g.report(at, a.test)
	case opBarrierBeneath, opBarrierAbove:
		g.barrier(a)
	case opPaper:
		kind := a.words[0]
		if !slices.Contains(ofLayers, kind) {
			at = -1
		}
		g.add("get and keep: "+strings.ReplaceAll(kind, "-", " ")+g.of(at), func(j *Job) {
			j.Papers = append(j.Papers, Paper{Kind: kind, Layer: idOf(j, at), Date: j.AsOf, Reference: "to come"})
		})
	case opIs:
		g.answer(a)
	}
}

// ofLayers are the papers that are about one layer; the others are about the
// piece.
var ofLayers = []string{"fibre-statement", "flame-retardant-statement", "supplier-statement", "treatment-record"}

func idOf(j *Job, at int) string {
	if at < 0 {
		return ""
	}
	return j.Layers[at].ID
}

// of names the layer that a change is made at.
func (g *gatherer) of(at int) string {
	if at < 0 {
		return ""
	}
	return " for " + g.job.Layers[at].ID
}

// passing is a report of that test that counts for the layer as it lies.
func passing(j *Job, at int, t *Test) Paper {
	p := Paper{Kind: "report", Layer: j.Layers[at].ID, Test: t.ID, Result: "pass", Date: j.AsOf, Reference: "to come", Soaked: "yes"}
	in := &seen{job: j, layer: &j.Layers[at], at: at}
	need, _ := in.compositeOf(at, t)
	for _, i := range need {
		p.Composite = append(p.Composite, j.Layers[i].ID)
	}
	return p
}

func (g *gatherer) report(at int, t *Test) {
	if at < 0 {
		return
	}
	g.add("have a report that counts"+g.of(at)+": "+t.Title, func(j *Job) {
		j.Papers = append(j.Papers, passing(j, at, t))
	})
}

// barrier lays one with its report beneath the layer, or above it.
func (g *gatherer) barrier(a *atom) {
	at, where := g.at, "beneath "
	if at < 0 || !slices.Contains(a.words, roleInterliner) {
		return
	}
	place := at + 1
	if a.op == opBarrierAbove {
		place, where = at, "above "
	}
	key := "barrier " + strconv.Itoa(place) + a.test.ID
	if g.seen[key] {
		return // the same place was tried from another layer
	}
	g.seen[key] = true
	g.add("lay an interliner "+where+g.job.Layers[at].ID+" that has a report ("+a.test.Title+"), and have composites tested with it", func(j *Job) {
		j.Layers = slices.Insert(j.Layers, place, Layer{
			ID: "an interliner", Role: roleInterliner, Material: "other-cloth", Supplier: "workroom",
			Coating: "none", Treated: "no", FlameRetardant: "no", FlameRetardantKind: "none",
		})
		for i := range j.Papers { // the composites are tested anew with it
			if len(j.Papers[i].Composite) > 0 {
				j.Papers[i].Composite = append(slices.Clone(j.Papers[i].Composite), "an interliner")
			}
		}
		j.Papers = append(j.Papers, passing(j, place, a.test),
			Paper{Kind: "flame-retardant-statement", Layer: "an interliner", Date: j.AsOf, Reference: "to come"})
	})
}

// another puts a material in the place of the layer that has every report and
// statement that the rules ask of it.
func (g *gatherer) another(at int) {
	l := &g.job.Layers[at]
	g.add("choose another "+strings.ReplaceAll(l.Role, "-", " ")+" in place of "+l.ID+" that has the reports asked for", func(j *Job) {
		was := j.Layers[at]
		j.Layers[at] = Layer{
			ID: was.ID, Role: was.Role, Material: was.Material, Form: was.Form, Supplier: was.Supplier, Thickness: was.Thickness,
			Coating: "none", Treated: "no", CombustionModified: "yes", FlameRetardant: "no", FlameRetardantKind: "none",
		}
		j.Papers = slices.DeleteFunc(j.Papers, func(p Paper) bool { return p.Layer == was.ID })
		for _, r := range g.run {
			if r.by[was.Role] {
				for _, t := range r.asks() {
					j.Papers = append(j.Papers, passing(j, at, t))
				}
			}
		}
		j.Papers = append(j.Papers, Paper{Kind: "flame-retardant-statement", Layer: was.ID, Date: j.AsOf, Reference: "to come"})
	})
}

// answer gives each of the words that a condition asks for to a fact that is
// not known.
func (g *gatherer) answer(a *atom) {
	in := &seen{job: g.job, at: g.at}
	if g.at >= 0 {
		in.layer = &g.job.Layers[g.at]
	}
	if a.fact.layer && in.layer == nil || settable[a.fact.name] == nil {
		return
	}
	if label, ok := strings.CutSuffix(a.fact.name, "-label"); ok {
		g.add("fix the "+label+" label", func(j *Job) { settable[a.fact.name](j, -1, "yes") })
		return
	}
	if a.fact.get(in).known {
		return
	}
	words := a.words
	if a.fact.words == "answer" {
		words = vocabulary["answer"]
	}
	at := g.at
	for _, w := range words {
		what := "find out " + strings.ReplaceAll(a.fact.name, "-", " ")
		if a.fact.layer {
			what += g.of(at)
		}
		g.add(what+", and it is "+w, func(j *Job) { settable[a.fact.name](j, at, w) })
	}
}

// settable are the facts that a person can find out and that are not a matter
// of choice.
var settable = map[string]func(*Job, int, string){
	"treated":             func(j *Job, at int, w string) { j.Layers[at].Treated = Answer(w) },
	"coating":             func(j *Job, at int, w string) { j.Layers[at].Coating = w },
	"form":                func(j *Job, at int, w string) { j.Layers[at].Form = w },
	"supplier":            func(j *Job, at int, w string) { j.Layers[at].Supplier = w },
	"fr-added":            func(j *Job, at int, w string) { j.Layers[at].FlameRetardant = Answer(w) },
	"filling-added":       func(j *Job, _ int, w string) { j.FillingAdded = Answer(w) },
	"loose-cushions":      func(j *Job, _ int, w string) { j.LooseCushions = Answer(w) },
	"permanent-label":     func(j *Job, _ int, w string) { j.PermanentLabel = Answer(w) },
	"display-label":       func(j *Job, _ int, w string) { j.DisplayLabel = Answer(w) },
	"federal-label":       func(j *Job, _ int, w string) { j.FederalLabel = Answer(w) },
	"chemical-label":      func(j *Job, _ int, w string) { j.ChemicalLabel = Answer(w) },
	"use":                 func(j *Job, _ int, w string) { j.Use = w },
	"transaction":         func(j *Job, _ int, w string) { j.Transaction = w },
	"hazard":              func(j *Job, _ int, w string) { j.Hazard = w },
	"combustion-modified": func(j *Job, at int, w string) { j.Layers[at].CombustionModified = Answer(w) },
}

// asks are the tests that a passing report would answer the rule by.
func (r *Rule) asks() []*Test {
	var out []*Test
	var walk func(clause)
	walk = func(c clause) {
		for i := range c {
			for k := range c[i].atoms {
				switch a := &c[i].atoms[k]; {
				case a.op == opScope:
					walk(a.scope)
				case a.op == opTestPasses && !slices.Contains(out, a.test):
					out = append(out, a.test)
				}
			}
		}
	}
	for i := range r.Cases {
		walk(r.Cases[i].when)
	}
	return out
}
