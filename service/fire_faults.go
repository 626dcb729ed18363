package service

import (
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/length"
)

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
