package service

import (
	"fmt"
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/pleat"
	"github.com/bridletie/bridletie/calc/practice"
)

// PleatsRequest asks how the fullness of an edge is laid away.
type PleatsRequest struct {
	Units length.System
	Name  string
	pleat.Job
}

// PleatsAnswer is how the fullness is laid away.
type PleatsAnswer struct {
	Request   PleatsRequest
	Result    pleat.Result
	Remainder string
	Notes     []string
	Warnings  []string
	Cautions  []string
}

// Kind is what is made: none, pleats, darts or snips.
func (a *PleatsAnswer) Kind() string {
	switch a.Result.Style {
	case pleat.NoStyle, pleat.Darts, pleat.Snips:
		return string(a.Result.Style)
	}
	return "pleats"
}

// pleatStep is the step in which shares are taken, as marks are read off a tape.
func pleatStep(sys length.System, shop practice.Set) length.Length {
	if sys == length.Imperial {
		return shop.Length(practice.PleatStepInch)
	}
	return shop.Length(practice.PleatStep)
}

// Pleats answers a request that has no faults.
func Pleats(req PleatsRequest) *PleatsAnswer {
	req.Step = pleatStep(req.Units, req.Shop)
	r := pleat.Plan(req.Job)
	a := &PleatsAnswer{Request: req, Result: r, Warnings: []string{}, Cautions: pleatsCautions(r)}
	a.Remainder = remainderText(r, req.Units)
	a.Notes = pleatsNotes(req, r)
	a.Warnings = append(a.Warnings, pleatsWarnings(req, r)...)
	return a
}

// remainderText says how what does not share evenly is spread.
func remainderText(r pleat.Result, sys length.System) string {
	switch {
	case len(r.Marks) == 0:
		return "There is nothing to share out."
	case r.Rest == 0:
		return "All take the same."
	case r.Step == length.Nanometre:
		return "All take the same, but for " + r.Rest.String() + " in all, which no tape shows."
	}
	out := r.Rest.String() + " is left over from equal shares in whole steps of " + pleatStepText(r.Step, sys) + ": "
	if r.Pairs > 0 {
		out += fmt.Sprintf("one step more to each of the %d nearest the centre line on both sides, ", r.Pairs)
	}
	if len(r.Marks)%2 == 1 {
		return out + "what is still left to the one on the centre line."
	}
	out += "what is still left to the two beside the centre line."
	if r.Rest%2 == 1 {
		out += " One nanometre that cannot be halved goes to the left."
	}
	return out
}

func pleatStepText(step length.Length, sys length.System) string {
	if step < length.Millimetre {
		return step.String()
	}
	return step.Text(sys, length.Nearest)
}

func pleatsNotes(req PleatsRequest, r pleat.Result) []string {
	var out []string
	switch r.Style {
	case pleat.NoStyle:
		return []string{"Cloth and edge are of one length: nothing is folded or cut."}
	case pleat.Snips:
		out = append(out, "Mark the centre line and the snips; snip square to the edge, the middle first, and stop short of the edge line.")
	case pleat.Darts:
		out = append(out, "Sew each dart from its two marks at the edge of the cloth to nothing at the edge line.")
	case pleat.Box:
		out = append(out, "Fold outwards on both sides of each face, so that the folds lie towards each other at the back.")
	case pleat.Inverted:
		out = append(out, "Bring the outer marks of each together on its middle mark.")
	case pleat.Pairs:
		out = append(out, "Bring the outer mark of each over to its inner mark, so that the folds point to the centre line, where the middle two meet.")
	default:
		out = append(out, "Bring one mark of each over to the other, so that the folds point as the arrows show.")
		if len(r.Marks)%2 == 1 {
			out = append(out, "The one on the centre line is laid as a box pleat, so that both sides match.")
		}
	}
	out = append(out, "Find the centre line first and fix it, then work to both sides by turns.")
	if r.Closed {
		out = append(out, "The edge comes back to itself: the centre line is at the back of the seat, where the marks begin and end half a spacing from each other.")
	}
	if req.How == pleat.Corner && req.Radius == 0 && req.Angle != 0 {
		out = append(out, "At a sharp corner the cloth is taken to be trimmed round to the turn-over; a square corner of cloth has more to lose at its tip, which lies inside the fold.")
	}
	return out
}

func pleatsWarnings(req PleatsRequest, r pleat.Result) []string {
	var out []string
	text := func(l length.Length) string { return l.Text(req.Units, length.Up) }
	if len(r.Marks) == 0 {
		return nil
	}
	deepest, wide := deepestFold(r), length.Length(0)
	for _, m := range r.Marks {
		wide = max(wide, m.Take)
	}
	shallow := req.Shop.Length(practice.PleatShallow)
	if text := tooDeep(req, r, deepest); text != "" {
		out = append(out, text)
	}
	switch r.Style {
	case pleat.Snips:
		if wide > req.Shop.Length(practice.SnipOpening) {
			out = append(out, "each snip opens by "+text(wide)+": more snips would open less and show less")
		}
		return out
	case pleat.Darts:
		return out
	case pleat.Box:
		face := req.Face
		if face == 0 {
			face = wide / 2
		}
		if r.Spaced && face > r.Spacing {
			out = append(out, "the faces of the pleats are "+text(face)+" wide and only "+text(r.Spacing)+" apart: they overlap")
		}
	}
	if r.Spaced && deepest > r.Spacing {
		out = append(out, fmt.Sprintf("the folds are %s deep and only %s apart, so that they lie over one another: spread them further or make them more and shallower", text(deepest), text(r.Spacing)))
	}
	if deepest < shallow {
		out = append(out, "the folds are less than "+shallow.String()+" deep: so little may be eased in without a fold, by pull or by steam where the cloth bears it")
	}
	return out
}

func deepestFold(r pleat.Result) length.Length {
	var deepest length.Length
	for _, m := range r.Marks {
		deepest = max(deepest, m.Depth)
	}
	return deepest
}

// tooDeep says that folds lie deeper than they may, or would when they are marked
// off a tape; "" when they do not.
func tooDeep(req PleatsRequest, r pleat.Result, deepest length.Length) string {
	limit := req.Limit()
	if limit == 0 || r.Style == pleat.Snips {
		return ""
	}
	if deepest > limit {
		out := "the folds are " + deepest.Text(req.Units, length.Up) + " deep, deeper than the " + limit.Text(req.Units, length.Down) + " that they may be: "
		if req.How == pleat.Buttons {
			return out + "one runs from each button, and takes in what lies between two of them"
		}
		free := req.Job
		free.MaxDepth, free.Count = limit, 0
		most := pleat.Plan(free)
		if deepestFold(most) > limit {
			return out + "an edge has at most " + strconv.Itoa(pleat.MaxCount)
		}
		return out + strconv.Itoa(len(most.Marks)) + " would lie less deep"
	}
	step := pleatStep(req.Units, req.Shop)
	if read := deepestRead(r, step); req.MaxDepth > 0 && read > limit {
		return "marked off a tape in whole steps of " + pleatStepText(step, req.Units) + " a fold is " + read.Text(req.Units, length.Nearest) +
			" deep, deeper than the " + limit.String() + " that it may be: mark it by the millimetres of the answer"
	}
	return ""
}

// deepestRead is the deepest fold as it reads off a tape in such steps, by its depth
// and by its marks.
func deepestRead(r pleat.Result, step length.Length) length.Length {
	read := func(l length.Length) length.Length { return l.Round(step, length.Nearest) }
	var deepest length.Length
	for _, m := range r.Marks {
		deepest = max(deepest, read(m.Depth))
		for i := 1; i < len(m.On); i++ {
			if len(m.On) == 6 && i == 3 { // across the face of a box pleat nothing is folded
				continue
			}
			deepest = max(deepest, read(m.On[i])-read(m.On[i-1]))
		}
	}
	return deepest
}

func pleatsCautions(r pleat.Result) []string {
	out := []string{"Pin and look at it from where it will be seen before anything is sewn, tacked or cut."}
	if r.Style == pleat.Snips || r.Style == pleat.Darts {
		out = append(out, "A cut cannot be taken back: snip half of the depth, lay it over the edge, and cut on.")
	}
	return append(out,
		"Scissors, needles, pins and tacks wound: cut away from yourself, and hold tacks on the hammer and not in the mouth.",
		"Steam and irons burn, and some foams and piles do not bear heat: try a scrap.")
}
