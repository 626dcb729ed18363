package service

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
)

// ReliefRequest asks for the cuts by which a panel passes what is in its way.
type ReliefRequest struct {
	Units length.System
	ID    string
	Name  string
	relief.Job
}

// Cut is the cut size of the panel.
func (r ReliefRequest) Cut() panel.Size { return r.panel().Cut() }

// Centre is the middle of what shows, on the cloth.
func (r ReliefRequest) Centre() panel.Point { return r.panel().VisualCentre() }

func (r ReliefRequest) panel() panel.Panel { return panel.Panel{Size: r.Size, Allow: r.Allow} }

// ReliefAnswer are the cuts, one for each obstacle of the request, in its order.
type ReliefAnswer struct {
	Request  ReliefRequest
	Cuts     []ReliefCut
	Warnings []note.Note
	Cautions []note.Note
}

// ReliefCut is a cut with how to make it.
type ReliefCut struct {
	relief.Cut
	Steps []string
}

// Whole reports whether the show side can be kept whole at every obstacle.
func (a *ReliefAnswer) Whole() bool {
	for _, c := range a.Cuts {
		if !c.Whole {
			return false
		}
	}
	return true
}

// Relief answers a request that has no faults.
func Relief(req ReliefRequest) *ReliefAnswer {
	a := &ReliefAnswer{Request: req, Cautions: note.Listed(reliefCautions(), note.Most)}
	var warnings []note.Note
	for i, c := range relief.Cuts(req.Job) {
		o := req.Obstacles[i]
		a.Cuts = append(a.Cuts, ReliefCut{c, reliefSteps(o, c, req.Units)})
		warnings = append(warnings, reliefWarnings(req, o, c)...)
	}
	for _, pair := range relief.Crossing(cutsOf(a)) {
		warnings = append(warnings, note.New(note.ReliefCrossing, note.Name("first", req.Obstacles[pair[0]].ID), note.Name("second", req.Obstacles[pair[1]].ID)))
	}
	a.Warnings = note.Listed(warnings, note.Most)
	return a
}

func cutsOf(a *ReliefAnswer) []relief.Cut {
	out := make([]relief.Cut, len(a.Cuts))
	for i, c := range a.Cuts {
		out[i] = c.Cut
	}
	return out
}

// reliefWarnings say what is wrong with one cut.
func reliefWarnings(req ReliefRequest, o relief.Obstacle, c relief.Cut) []note.Note {
	var out []note.Note
	switch {
	case c.Whole:
	case c.Allowance > 0:
		out = append(out, note.New(note.ReliefAllow, note.Name("obstacle", o.ID), note.Length("allowance", c.Allowance, length.Up)))
	case c.NarrowTo >= 0:
		out = append(out, note.New(note.ReliefPull, note.Name("obstacle", o.ID), note.Percent("most", c.NarrowTo)))
	default:
		out = append(out, note.New(note.ReliefThin, note.Name("obstacle", o.ID)))
	}
	for _, f := range c.Flaps {
		if f.Reaches() {
			continue
		}
		allowance := length.Length(0)
		if f.Needed == o.Stuffing+o.EdgeThickness {
			allowance = max(c.Allowance, 0)
		}
		out = append(out, note.New(note.ReliefShort, note.Name("obstacle", o.ID), note.Name("flap", f.Name),
			note.Length("short", f.Needed-f.Width, length.Up), note.Length("needed", f.Needed, length.Up), note.Length("allowance", allowance, length.Up)))
	}
	thin := req.Shop.Length(practice.ReliefPatch)
	if c.Whole && c.Margin() < thin {
		out = append(out, note.New(note.ReliefMargin, note.Name("obstacle", o.ID), note.Length("margin", c.Margin(), length.Down)))
	}
	return out
}

// reliefSteps say how to make a cut.
func reliefSteps(o relief.Obstacle, c relief.Cut, sys length.System) []string {
	if c.Kind == relief.None {
		return []string{"Do not cut."}
	}
	out := []string{"Fix the middle of the panel, pull outwards, feel for it through the cloth and mark the stop on the wrong side before cutting."}
	switch c.Kind {
	case relief.Straight:
		out = append(out, "One straight cut from the edge to the stop; turn both sides under.")
	case relief.Y:
		out = append(out, "One cut from the edge to the fork, then an arm to each stop; fold the tongue down the innermost face and the sides under.")
	case relief.V:
		out = append(out, "Two cuts from one point of the edge, one to each stop; fold the tongue down the innermost face and the sides under.")
	case relief.Diagonal:
		out = append(out, diagonalStep(o))
	case relief.Triangle:
		out = append(out, "Two cuts slanting in from the edges to where the leg meets them; turn the piece between up inside and fold the sides in.")
	case relief.Fan:
		out = append(out, "Cut to the middle of the fan, then snip towards the round, the middle snips first; fold each tongue down.")
	}
	return append(out, "Cut half of the way, pull, look, and cut on; never past a stop: "+c.Margin().Text(sys, length.Down)+" is kept there at the worst pull.")
}

func diagonalStep(o relief.Obstacle) string {
	if o.Corner != relief.NoCorner {
		return "One cut from the corner of the cloth towards the inner corner of the post; fold a flap down each face."
	}
	return "Cut along the slant at which the upright stands, then the arms to their stops where it is wide enough to have them; fold the cloth down each face."
}

func reliefCautions() []note.Note {
	return []note.Note{
		note.New(note.ReliefMeasure), note.New(note.ReliefTry), note.New(note.HandUnderCloth), note.New(note.OldStuffing), note.New(note.FoamBurns),
	}
}
