package fire

import "slices"

// Ruling is what one rule says of one layer, or of the piece.
type Ruling struct {
	Rule    *Rule
	Layer   int // in the stack; -1 for the piece
	Verdict Verdict
	Doubt   bool   // it is not known whether the rule applies
	Say     string // the verdict in a sentence
	Steps   []Step
}

// Report is the answer to a job.
type Report struct {
	Set     *Set
	Job     Job
	Verdict Verdict // the worst
	Piece   []Ruling
	Layers  []LayerReport
	Changes []Change
	Notices []Notice

	// Possible are rules that were left out since what they need is not shown:
	// exemptions above all.
	Possible []*Rule
}

// LayerReport is what the rules say of one layer.
type LayerReport struct {
	Verdict Verdict
	Rulings []Ruling
}

// Check puts a job to the rules that are in force for its places on its day.
// Each rule that applies, or may apply, is in the report. The overall verdict is
// the worst; it is Exempt only when every rule that applies exempts. The error
// is ErrPlace for a place without rules.
func (s *Set) Check(job Job) (*Report, error) {
	if s.places[job.Place] == nil || job.Destination != "" && s.places[job.Destination] == nil {
		return nil, ErrPlace
	}
	r := &Report{Set: s, Job: job, Layers: make([]LayerReport, len(job.Layers))}
	run := s.rulesFor(&job)
	rulings := rulingsOf(run, &job, true)
	for _, one := range rulings {
		r.Verdict = max(r.Verdict, one.Verdict)
		if one.Layer < 0 {
			r.Piece = append(r.Piece, one)
			continue
		}
		l := &r.Layers[one.Layer]
		l.Rulings = append(l.Rulings, one)
		l.Verdict = max(l.Verdict, one.Verdict)
	}
	for i := range r.Layers {
		if len(r.Layers[i].Rulings) == 0 {
			r.Layers[i].Verdict = EvidenceWanted
			r.Verdict = max(r.Verdict, EvidenceWanted)
		}
	}
	r.Possible = possible(run, &job)
	r.Changes = changesOf(run, &job, rulings)
	r.Notices = s.notices(&job, rulings)
	return r, nil
}

// running is a rule that is put to a job.
type running struct {
	*Rule
	leaves bool // the piece leaves the rule's place
}

// rulingsOf are what the rules say, those about the piece first.
func rulingsOf(run []running, job *Job, explain bool) []Ruling {
	out := make([]Ruling, 0, 2*len(run))
	in := &seen{job: job, at: -1}
	for _, r := range run {
		if r.by[piece] {
			in.leaves = r.leaves
			if one, ok := ask(r.Rule, in, explain); ok {
				out = append(out, one)
			}
		}
	}
	for i := range job.Layers {
		in.layer, in.at = &job.Layers[i], i
		for _, r := range run {
			if !r.by[in.layer.Role] {
				continue
			}
			in.leaves = r.leaves
			if one, ok := ask(r.Rule, in, explain); ok {
				out = append(out, one)
			}
		}
	}
	return out
}

// possible are the rules that would apply if what is unknown were as they need.
func possible(run []running, job *Job) []*Rule {
	var out []*Rule
	for _, r := range run {
		might := func(in seen) bool {
			if in.clause(r.scope) != No {
				return false
			}
			in.loose = true
			return in.clause(r.scope) == Unknown
		}
		found := r.by[piece] && might(seen{job: job, at: -1, leaves: r.leaves})
		for i := range job.Layers {
			found = found || r.by[job.Layers[i].Role] && might(seen{job: job, layer: &job.Layers[i], at: i, leaves: r.leaves})
		}
		if found {
			out = append(out, r.Rule)
		}
	}
	return out
}

// rulesFor are the rules in force of the job's places, each once.
func (s *Set) rulesFor(job *Job) []running {
	out := make([]running, 0, 64)
	for _, r := range s.places[job.Place] {
		if r.inForce(job.AsOf) {
			out = append(out, running{r, job.Destination != "" && !slices.Contains(r.Places, job.Destination)})
		}
	}
	if job.Destination == "" || job.Destination == job.Place {
		return out
	}
	for _, r := range s.places[job.Destination] {
		if r.inForce(job.AsOf) && !slices.Contains(r.Places, job.Place) {
			out = append(out, running{r, false})
		}
	}
	return out
}

// ask puts one question to one rule; ok is false when the rule does not apply.
func ask(r *Rule, in *seen, explain bool) (Ruling, bool) {
	v, c, applies := in.outcome(r)
	if applies == No {
		return Ruling{}, false
	}
	one := Ruling{Rule: r, Layer: in.at, Verdict: v, Doubt: applies == Unknown}
	if explain {
		var steps []Step
		in.trace = &steps
		in.outcome(r)
		in.trace = nil
		one.Steps, one.Say = steps, saying(r, c, v, applies)
	}
	return one, true
}

// saying is the verdict in a sentence.
func saying(r *Rule, c *Case, v Verdict, applies Truth) string {
	switch {
	case applies == Unknown:
		return "It is not known whether this rule applies: answer what is unknown below. If it does: " + c.Say
	case v != c.Then && r.Verified == FromMemory:
		return "This rule is held from memory and decides nothing by itself: look it up before relying on it. " + c.Say
	case r.Verified == FromMemory && v == EvidenceHeld:
		return c.Say + " The rule is held from memory: look it up before relying on it."
	}
	return c.Say
}
