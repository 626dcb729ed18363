package service

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
)

// because says what of a way is not as wished.
func (req PipingRequest) because(p piping.Plan) []string {
	out := []string{}
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if !p.Possible {
		add("no strip of this width and of use can be cut in this way")
		return out
	}
	switch {
	case p.Shape.Cut != req.Cut:
		add("it is cut %s, and %s is asked for", pipingCut(p.Shape), pipingCut(piping.Shape{Cut: req.Cut, Angle: req.Angle}))
	case p.Shape.Cut == piping.Bias && p.Shape.Angle != req.Angle:
		add("it is cut at %d degrees, and %d are asked for", p.Shape.Angle, req.Angle)
	}
	if p.Missing > 0 {
		add("not covered: %s", pipingCount(p.Missing, "run", "runs"))
	}
	if p.Strays > 0 {
		add("its joins fall where they fall: in %s they may be too many, or where no join may be", pipingCount(p.Strays, "run", "runs"))
	}
	if p.Curves > 0 {
		add("too tight a curve for this cut: %s", pipingCount(p.Curves, "run", "runs"))
	}
	return out
}

func pipingCut(s piping.Shape) string {
	switch s.Cut {
	case piping.Across:
		return "straight across"
	case piping.Along:
		return "straight along the selvedge"
	}
	if s.Angle == piping.TrueBias {
		return "on the bias"
	}
	return fmt.Sprintf("on the bias at %d degrees", s.Angle)
}

func pipingCount(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// maxPipingWarnings is how many runs are warned of by name.
const maxPipingWarnings = 40

// pipingWarnings are what the caller should know about this answer.
func pipingWarnings(a *PipingAnswer) []string {
	req, out, p := a.Request, []string{}, a.Plan()
	if p == nil {
		return append(out, "no way is possible: the cloth and the offcuts are too small for a strip of "+a.Job.Width.Text(req.Units, length.Up))
	}
	if a.Job.Width < a.Exact {
		out = append(out, "a strip of "+a.Job.Width.Text(req.Units, length.Down)+" is narrower than cord, cloth and seams need, "+a.Exact.Text(req.Units, length.Up))
	}
	if !p.Keeps {
		for _, why := range p.Because {
			out = append(out, "the way shown does not keep all wishes: "+why)
		}
	}
	if p.Way == piping.FromRects && p.Short > 0 {
		out = append(out, "the offcuts alone leave "+p.Short.Text(req.Units, length.Up)+" uncovered")
	}
	if p.Way != piping.Continuous && req.Cut == piping.Bias && req.Cloth.OneWay && !req.oneLean() && leansBothWays(p) {
		out = append(out, "the cloth has a way up and the strips lean to both sides: where they meet a nap or a stripe shows it. Ask again with sameWay")
	}
	if sold := req.sold(); sold.Bolt > 0 && p.Order > sold.Bolt {
		out = append(out, "the cloth to buy is longer than a bolt of "+sold.Bolt.Text(req.Units, length.Down)+": ask the supplier")
	}
	return append(out, pipingCurves(a)...)
}

// pipingCurves name the runs whose curves are too tight for the way shown.
func pipingCurves(a *PipingAnswer) []string {
	var out []string
	least, where := a.Job.RadiusStraight, "straight strips"
	if a.Plan().Shape.Cut == piping.Bias {
		least, where = a.Job.RadiusBias, "strips at this angle"
	}
	for i, r := range a.Request.Runs {
		if len(out) == maxPipingWarnings {
			break
		}
		switch {
		case r.Radius > 0 && r.Radius < least:
			out = append(out, fmt.Sprintf("%s: a curve of %s is tighter than %s take without puckering, %s. Take thinner cord, or try it on a remnant",
				pipedName(a.Request, i), r.Radius.Text(a.Request.Units, length.Down), where, least.Text(a.Request.Units, length.Up)))
		case r.Curved && r.Radius == 0 && a.Plan().Shape.Cut != piping.Bias:
			out = append(out, pipedName(a.Request, i)+": a curve wants strips on the bias (common practice)")
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

// pipedName is a run's name, or else its number.
func pipedName(req PipingRequest, i int) string {
	if name := req.Runs[i].Name; name != "" {
		return name
	}
	return fmt.Sprintf("run %d", i+1)
}

// pipingCautions are what to take care of before cutting.
func pipingCautions(a *PipingAnswer) []string {
	out := []string{
		"Cover a hand's length of the cord with a remnant and sew it in before cutting all: the width that this cloth wants round this cord is felt, not worked out.",
	}
	corners := false
	for _, r := range a.Request.Runs {
		corners = corners || len(r.Corners) > 0
	}
	if corners {
		out = append(out, "Snip the seam allowance of the piping at each corner, up to the stitching and not through it.")
	}
	if a.Request.Cut == piping.Bias {
		out = append(out, "Strips on the bias stretch while they are sewn: do not pull them, and cut each run a little long before it is closed.")
	}
	return append(out,
		"Measure every seam again on the stuffed piece before cutting.",
		"Shears, rotary cutters and needles cut and stab hands: cut away from yourself and keep them closed.",
		"Whether this cloth and cord may be used for this piece is a matter of the fire rules where it is supplied; local codes and the supplier's papers decide.",
	)
}
