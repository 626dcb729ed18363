package service

import (
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/length"
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

// The limits of what is believed of a stack.
const (
	FirstFireDay     calendar.Day = 1996_01_01 // before it the rules are not held
	MaxFireLayers                 = 16
	MaxFirePapers                 = 48
	MinFireThickness              = 10 * length.Micrometre
	MaxFireThickness              = length.Metre
	MinFireSize                   = 10 * length.Millimetre
	MaxFireSize                   = 10 * length.Metre
	MaxFireChar                   = 10 * length.Metre
)

// FireFaults are everything wrong with the request; pointers are those of the
// wire form.
func FireFaults(req FireRequest) fault.List {
	l := FireFieldFaults(req)
	at := fault.Path{}
	if d := req.Job.AsOf; d < FirstFireDay {
		l.Add(at.Field("asOf"), fault.TooSmall, d.String(), "the rules are held from "+FirstFireDay.String()+" on", FirstFireDay.String()+" or later")
	}
	return l
}

// FireFieldFaults are what is wrong with the fields and with one another. It may
// be asked of a request of which a part could not be read.
func FireFieldFaults(req FireRequest) fault.List {
	var l fault.List
	root, job := fault.Path{}, &req.Job
	layers := root.Field("layers")
	if len(job.Layers) == 0 {
		l.Add(layers, fault.TooFew, "", "the stack is empty", "one layer or more")
	}
	if job.Long != 0 || job.Wide != 0 {
		l.Between(root.Field("size").Field("long"), "the size", job.Long, MinFireSize, MaxFireSize)
		l.Between(root.Field("size").Field("wide"), "the size", job.Wide, MinFireSize, MaxFireSize)
	}
	if job.AsOf != 0 && job.Made.First > job.AsOf {
		l.Add(root.Field("made"), fault.TooLarge, job.Made.String(), "the piece was made after the day asked about", "at most "+job.AsOf.String())
	}
	if job.Destination != "" && job.Destination == job.Place {
		l.Add(root.Field("destination"), fault.NotAllowed, job.Destination, "the piece is not sent anywhere else", "leave destination out")
	}
	seen := make(map[string]bool, len(job.Layers))
	for i := range job.Layers {
		layerFaults(&l, &job.Layers[i], seen, layers.Index(i))
	}
	for i := range job.Papers {
		paperFaults(&l, &job.Papers[i], job, root.Field("papers").Index(i))
	}
	return l
}

func layerFaults(l *fault.List, one *fire.Layer, seen map[string]bool, at fault.Path) {
	if one.ID != "" && seen[one.ID] {
		l.Add(at.Field("id"), fault.Duplicate, one.ID, "this id stands twice", "an id of its own for each layer")
	}
	seen[one.ID] = true
	if one.Thickness != 0 {
		l.Between(at.Field("thickness"), "a thickness", one.Thickness, MinFireThickness, MaxFireThickness)
	}
	var sum int64
	for i, f := range one.Fibres {
		here := at.Field("fibres").Index(i)
		if f.Share <= 0 || f.Share > fire.Whole {
			code := fault.TooSmall
			if f.Share > 0 {
				code = fault.TooLarge
			}
			l.Add(here.Field("share"), code, "", "a share lies above 0 % and at most at 100 %", `for example "75 %"`)
			continue
		}
		sum += f.Share
		if slices.ContainsFunc(one.Fibres[:i], func(o fire.Fibre) bool { return o.Name != "" && o.Name == f.Name }) {
			l.Add(here.Field("fibre"), fault.Duplicate, f.Name, "this fibre stands twice", "one entry for each fibre")
		}
	}
	if sum > fire.Whole {
		l.Add(at.Field("fibres"), fault.TooLarge, "", "the shares come to more than 100 %", "shares that come to at most 100 %")
	}
	if one.FlameRetardant == "no" && (one.FlameRetardantPPM != nil && *one.FlameRetardantPPM > 0 || !slices.Contains([]string{"", "none"}, one.FlameRetardantKind)) {
		l.Add(at.Field("flameRetardant").Field("added"), fault.NotAllowed, "no", "a chemical is named, and none is said to be added", "added yes, or no kind and ppm")
	}
}

func paperFaults(l *fault.List, p *fire.Paper, job *fire.Job, at fault.Path) {
	known := slices.ContainsFunc(job.Layers, func(o fire.Layer) bool { return o.ID == p.Layer })
	if p.Layer != "" && !known {
		l.Add(at.Field("layer"), fault.UnknownLayer, p.Layer, "no layer of the stack has this id", "the id of a layer")
	}
	report := p.Kind == "report"
	if report && p.Layer == "" {
		l.Add(at.Field("layer"), fault.Missing, "", "a report is about a layer", "give layer")
	}
	if report && p.Test == "" {
		l.Add(at.Field("test"), fault.Missing, "", "a report is of a test", "give test")
	}
	if !report && p.Kind != "" {
		for _, field := range []struct {
			name  string
			given bool
		}{{"test", p.Test != ""}, {"composite", len(p.Composite) > 0}, {"specimens", len(p.Specimens) > 0}} {
			if field.given {
				l.Add(at.Field(field.name), fault.NotAllowed, "", field.name+" belongs to a report", "leave "+field.name+" out")
			}
		}
	}
	specimenFaults(l, p, at)
}

// specimenFaults looks at what was tested.
func specimenFaults(l *fault.List, p *fire.Paper, at fault.Path) {
	if p.Kind == "report" && p.Test != "" && p.Test != "tb117-2013-1" && len(p.Specimens) > 0 {
		l.Add(at.Field("specimens"), fault.NotAllowed, "", "specimens are read for section 1 of TB 117-2013 only", "give result")
	}
	for i, id := range p.Composite {
		if id != "" && slices.Contains(p.Composite[:i], id) {
			l.Add(at.Field("composite").Index(i), fault.Duplicate, id, "this layer stands twice", "each layer once")
		}
		if id != "" && id == p.Layer {
			l.Add(at.Field("composite").Index(i), fault.NotAllowed, id, "the layer itself is always in its specimen", "the other layers")
		}
	}
	for i, s := range p.Specimens {
		here := at.Field("specimens").Index(i)
		l.Between(here.Field("char"), "a char", s.Char, 0, MaxFireChar)
		if s.Minutes < 0 {
			l.Add(here.Field("minutes"), fault.TooSmall, strconv.Itoa(s.Minutes), "time does not run back", "0 or more")
		}
	}
}
