package service

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/piping"
)

// because says what of a way is not as wished.
func (req PipingRequest) because(p piping.Plan) []note.Note {
	if !p.Possible {
		return []note.Note{note.New(note.PipingNoStrip)}
	}
	out := []note.Note{}
	switch {
	case p.Shape.Cut != req.Cut:
		out = append(out, note.New(note.PipingOtherCut, note.Name("cut", cutWord(p.Shape)), note.Count("angle", p.Shape.Angle),
			note.Name("wished", cutWord(piping.Shape{Cut: req.Cut, Angle: req.Angle})), note.Count("wishedAngle", req.Angle)))
	case p.Shape.Cut == piping.Bias && p.Shape.Angle != req.Angle:
		out = append(out, note.New(note.PipingOtherAngle, note.Count("angle", p.Shape.Angle), note.Count("wishedAngle", req.Angle)))
	}
	if p.Missing > 0 {
		out = append(out, note.New(note.PipingMissing, note.Count("runs", p.Missing)))
	}
	if p.Strays > 0 {
		out = append(out, note.New(note.PipingStrays, note.Count("runs", p.Strays)))
	}
	if p.Curves > 0 {
		out = append(out, note.New(note.PipingCurves, note.Count("runs", p.Curves)))
	}
	return out
}

// cutWord is how strips are cut, as notes have it.
func cutWord(s piping.Shape) string {
	switch {
	case s.Cut == piping.Across:
		return "across"
	case s.Cut == piping.Along:
		return "along"
	case s.Angle == piping.TrueBias:
		return "bias"
	}
	return "bias-at"
}

// pipingWarnings are what the caller should know about this answer.
func pipingWarnings(a *PipingAnswer) []note.Note {
	req, p := a.Request, a.Plan()
	var out []note.Note
	if p == nil {
		return append(out, note.New(note.PipingNoWay, note.Length("width", a.Job.Width, length.Up)))
	}
	if a.Job.Width < a.Exact {
		out = append(out, note.New(note.PipingNarrow, note.Length("width", a.Job.Width, length.Down), note.Length("exact", a.Exact, length.Up)))
	}
	if !p.Keeps {
		for _, why := range p.Because {
			out = append(out, note.New(note.PipingUnkept, note.Why("why", why)))
		}
	}
	if p.Way == piping.FromRects && p.Short > 0 {
		out = append(out, note.New(note.PipingOffcuts, note.Length("short", p.Short, length.Up)))
	}
	if p.Way != piping.Continuous && req.Cut == piping.Bias && req.Cloth.OneWay && !req.oneLean() && leansBothWays(p) {
		out = append(out, note.New(note.PipingLeans))
	}
	if bolt := req.sold().Bolt; bolt > 0 && p.Order > bolt {
		out = append(out, note.New(note.PipingOverBolt, note.Length("bolt", bolt, length.Down)))
	}
	return append(out, pipingCurves(a)...)
}

// pipingCurves name the runs whose curves are too tight for the way shown.
func pipingCurves(a *PipingAnswer) []note.Note {
	var out []note.Note
	least, cut := a.Job.RadiusStraight, "straight"
	if a.Plan().Shape.Cut == piping.Bias {
		least, cut = a.Job.RadiusBias, "bias"
	}
	for i, r := range a.Request.Runs {
		number := 0 // of a run without a name
		if r.Name == "" {
			number = i + 1
		}
		switch {
		case r.Radius > 0 && r.Radius < least:
			out = append(out, note.New(note.PipingCurveTight, note.Name("name", r.Name), note.Count("run", number), note.Name("cut", cut),
				note.Length("radius", r.Radius, length.Down), note.Length("least", least, length.Up)))
		case r.Curved && r.Radius == 0 && a.Plan().Shape.Cut != piping.Bias:
			out = append(out, note.New(note.PipingCurveOnBias, note.Name("name", r.Name), note.Count("run", number)))
		}
	}
	return out
}

func leansBothWays(p *PipingWay) bool {
	for _, s := range p.Strips {
		if s.Lean != p.Strips[0].Lean {
			return true
		}
	}
	return false
}

// pipingCautions are what to take care of before cutting.
func pipingCautions(a *PipingAnswer) []note.Note {
	out := []note.Note{note.New(note.PipingTrial)}
	corners := false
	for _, r := range a.Request.Runs {
		corners = corners || len(r.Corners) > 0
	}
	if corners {
		out = append(out, note.New(note.PipingSnip))
	}
	if a.Request.Cut == piping.Bias {
		out = append(out, note.New(note.PipingStretch))
	}
	return append(out, note.New(note.PipingMeasure), note.New(note.Blades), note.New(note.FireRules))
}
