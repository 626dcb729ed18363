package httpapi

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/service"
)

// fireFromWire translates a request whose strings are of their formats.
func fireFromWire(w *gen.FireCheckRequest) (service.FireRequest, fault.List) {
	var t translator
	job := fire.Job{
		AsOf: dayFrom(w.AsOf), Place: string(w.Place), Destination: string(value(w.Destination)),
		Use: string(value(w.Use)), Platform: string(value(w.Platform)), Item: string(value(w.Item)),
		Transaction: string(value(w.Transaction)), Occupancy: string(value(w.Occupancy)), Hazard: string(value(w.Hazard)),
		FillingAdded: knownFrom(w.FillingAdded), LooseCushions: knownFrom(w.LooseCushions),
		SmoothSurface: knownFrom(w.SmoothSurface), SeatMeetsBack: knownFrom(w.SeatMeetsBack), Prescribed: knownFrom(w.Prescribed),
		PermanentLabel: knownFrom(w.PermanentLabel), DisplayLabel: knownFrom(w.DisplayLabel),
		FederalLabel: knownFrom(w.FederalLabel), ChemicalLabel: knownFrom(w.ChemicalLabel),
	}
	job.Made, _ = calendar.ParseSpan(value(w.Made))
	root := fault.Path{}
	if w.Size != nil {
		at := root.Field("size")
		job.Long, job.Wide = t.positive(&w.Size.Long, at.Field("long")), t.positive(&w.Size.Wide, at.Field("wide"))
	}
	req := service.FireRequest{Name: value(w.Name)}
	for i := range w.Layers {
		job.Layers = append(job.Layers, t.fireLayer(&w.Layers[i], root.Field("layers").Index(i)))
		req.Names = append(req.Names, value(w.Layers[i].Name))
	}
	for _, p := range value(w.Papers) {
		job.Papers = append(job.Papers, paperFrom(&p))
	}
	req.Job = job
	return req, t.shape
}

func dayFrom(s string) calendar.Day {
	d, _ := calendar.Parse(s)
	return d
}

// knownFrom is yes or no; left out and unknown are the same.
func knownFrom(k *gen.FireKnown) fire.Answer {
	switch value(k) {
	case gen.FireKnownYes:
		return "yes"
	case gen.FireKnownNo:
		return "no"
	}
	return ""
}

func (t *translator) fireLayer(w *gen.FireLayer, at fault.Path) fire.Layer {
	l := fire.Layer{
		ID: w.Id, Role: string(w.Role), Material: string(value(w.Material)), Form: string(value(w.Form)),
		Supplier: string(value(w.Supplier)), Coating: string(value(w.Coating)),
		Thickness: t.positive(w.Thickness, at.Field("thickness")),
		Treated:   knownFrom(w.Treated), CombustionModified: knownFrom(w.CombustionModified),
	}
	for _, f := range value(w.Fibres) {
		share, _ := parseShare(f.Share)
		l.Fibres = append(l.Fibres, fire.Fibre{Name: string(f.Fibre), Share: int64(share)})
	}
	if c := w.FlameRetardant; c != nil {
		l.FlameRetardant, l.FlameRetardantKind = knownFrom(c.Added), string(value(c.Kind))
		l.FlameRetardantPPM = mapped(c.Ppm, func(ppm int) int64 { return int64(ppm) })
	}
	return l
}

func paperFrom(w *gen.FirePaper) fire.Paper {
	p := fire.Paper{
		Kind: string(w.Kind), Layer: value(w.Layer), Test: string(value(w.Test)), Result: string(value(w.Result)),
		Date: dayFrom(value(w.Date)), Reference: value(w.Reference), Composite: value(w.Composite), Soaked: knownFrom(w.Soaked),
	}
	for _, s := range value(w.Specimens) {
		p.Specimens = append(p.Specimens, fire.Specimen{Char: lengthFrom(s.Char), Minutes: s.Minutes, Flamed: s.Flamed})
	}
	return p
}
