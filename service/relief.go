package service

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/length"
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
	Warnings []string
	Cautions []string
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
	a := &ReliefAnswer{Request: req, Warnings: []string{}, Cautions: reliefCautions()}
	for i, c := range relief.Cuts(req.Job) {
		o := req.Obstacles[i]
		a.Cuts = append(a.Cuts, ReliefCut{c, reliefSteps(o, c, req.Units)})
		a.Warnings = append(a.Warnings, reliefWarnings(req, o, c)...)
	}
	for _, pair := range relief.Crossing(cutsOf(a)) {
		if len(a.Warnings) == maxReliefWarnings {
			break
		}
		a.Warnings = append(a.Warnings, fmt.Sprintf("the cuts for %s and %s cross: make one of them and look again before the other", req.Obstacles[pair[0]].ID, req.Obstacles[pair[1]].ID))
	}
	return a
}

// maxReliefWarnings is how many warnings the contract lets an answer have.
const maxReliefWarnings = 200

func cutsOf(a *ReliefAnswer) []relief.Cut {
	out := make([]relief.Cut, len(a.Cuts))
	for i, c := range a.Cuts {
		out[i] = c.Cut
	}
	return out
}

// reliefWarnings say what is wrong with one cut.
func reliefWarnings(req ReliefRequest, o relief.Obstacle, c relief.Cut) []string {
	text := func(l length.Length) string { return l.Text(req.Units, length.Up) }
	var out []string
	switch {
	case c.Whole:
	case c.Allowance > 0:
		out = append(out, fmt.Sprintf("%s: no cut can keep the show side whole: the cloth ends before there is room for one. An allowance of %s at this edge would do", o.ID, text(c.Allowance)))
	case c.NarrowTo >= 0:
		out = append(out, fmt.Sprintf("%s: no cut can keep the show side whole over this range of pull; no allowance helps. Pull the cloth first and cut it under tension, so that the most is %s or less", o.ID, reliefPercent(int64(c.NarrowTo))))
	default:
		out = append(out, fmt.Sprintf("%s: no cut can keep the show side whole: it is too thin for what must stay covered on both sides of it; no allowance helps", o.ID))
	}
	for _, f := range c.Flaps {
		if f.Reaches() {
			continue
		}
		say := fmt.Sprintf("%s: the %s is %s short of the %s it needs", o.ID, f.Name, text(f.Needed-f.Width), text(f.Needed))
		if c.Allowance > 0 && f.Needed == o.Stuffing+o.EdgeThickness {
			say += fmt.Sprintf("; an allowance of %s at this edge would do, or sew a strip to it before the cut", text(c.Allowance))
		} else {
			say += "; sew a strip to it before the cut"
		}
		out = append(out, say)
	}
	thin := req.Shop.Length(practice.ReliefPatch)
	if c.Whole && c.Margin() < thin {
		out = append(out, fmt.Sprintf("%s: at the wrong pull only %s is kept beside the end of the cut: stiffen the place behind with a patch before cutting", o.ID, c.Margin().Text(req.Units, length.Down)))
	}
	return out
}

// reliefPercent is a share in millionths.
func reliefPercent(millionths int64) string {
	return fmt.Sprintf("%d.%d %%", millionths/10_000, millionths%10_000/1000)
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

func reliefCautions() []string {
	return []string{
		"Measure over the stuffing as it will be when covered, and once more before the first cut: a cut cannot be taken back.",
		"Try the cuts on the undercover or on a piece of calico first; there a poor cut is hidden.",
		"Shears, seam rippers and trimming knives cut hands: cut away from yourself, with nobody's hand under the cloth.",
		"Where old stuffing is opened, wear a mask and bag what comes out; foam and its dust burn, so no flame and no smoking.",
	}
}
