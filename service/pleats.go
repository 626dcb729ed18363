package service

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
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
	Notes     []note.Note
	Warnings  []note.Note
	Cautions  []note.Note
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
	a := &PleatsAnswer{Request: req, Result: r, Cautions: note.Listed(pleatsCautions(r), note.Most)}
	a.Remainder = remainderText(r, req.Units)
	a.Notes = pleatsNotes(req, r)
	a.Warnings = note.Listed(pleatsWarnings(req, r), note.Most)
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

// pleatsNotes say how it is done, in the order in which it is done.
func pleatsNotes(req PleatsRequest, r pleat.Result) []note.Note {
	var out []note.Note
	switch r.Style {
	case pleat.NoStyle:
		return []note.Note{note.New(note.PleatsNothing)}
	case pleat.Snips:
		out = append(out, note.New(note.PleatsSnip))
	case pleat.Darts:
		out = append(out, note.New(note.PleatsDart))
	case pleat.Box:
		out = append(out, note.New(note.PleatsBox))
	case pleat.Inverted:
		out = append(out, note.New(note.PleatsInverted))
	case pleat.Pairs:
		out = append(out, note.New(note.PleatsPairs))
	default:
		out = append(out, note.New(note.PleatsFold))
		if len(r.Marks)%2 == 1 {
			out = append(out, note.New(note.PleatsMiddle))
		}
	}
	out = append(out, note.New(note.PleatsFromCentre))
	if r.Closed {
		out = append(out, note.New(note.PleatsClosed))
	}
	if req.How == pleat.Corner && req.Radius == 0 && req.Angle != 0 {
		out = append(out, note.New(note.PleatsSharp))
	}
	return out
}

func pleatsWarnings(req PleatsRequest, r pleat.Result) []note.Note {
	if len(r.Marks) == 0 {
		return nil
	}
	var out []note.Note
	deepest, wide := deepestFold(r), length.Length(0)
	for _, m := range r.Marks {
		wide = max(wide, m.Take)
	}
	shallow := req.Shop.Length(practice.PleatShallow)
	if n := tooDeep(req, r, deepest); n.Said() {
		out = append(out, n)
	}
	switch r.Style {
	case pleat.Snips:
		if wide > req.Shop.Length(practice.SnipOpening) {
			out = append(out, note.New(note.PleatsWide, note.Length("opens", wide, length.Up)))
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
			out = append(out, note.New(note.PleatsFaces, note.Length("face", face, length.Up), note.Length("spacing", r.Spacing, length.Up)))
		}
	}
	if r.Spaced && deepest > r.Spacing {
		out = append(out, note.New(note.PleatsFolds, note.Length("deep", deepest, length.Up), note.Length("spacing", r.Spacing, length.Up)))
	}
	if deepest < shallow {
		out = append(out, note.New(note.PleatsShallow, note.Exact("shallow", shallow)))
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
// off a tape; nothing when they do not.
func tooDeep(req PleatsRequest, r pleat.Result, deepest length.Length) note.Note {
	limit := req.Limit()
	if limit == 0 || r.Style == pleat.Snips {
		return note.Note{}
	}
	if deepest > limit {
		why, count := "fewer", 0
		if req.How == pleat.Buttons {
			why = "buttons"
		} else {
			free := req.Job
			free.MaxDepth, free.Count = limit, 0
			most := pleat.Plan(free)
			if count = len(most.Marks); deepestFold(most) > limit {
				why, count = "most", pleat.MaxCount
			}
		}
		return note.New(note.PleatsTooDeep, note.Length("deep", deepest, length.Up), note.Length("limit", limit, length.Down), note.Name("why", why), note.Count("count", count))
	}
	step := pleatStep(req.Units, req.Shop)
	if read := deepestRead(r, step); req.MaxDepth > 0 && read > limit {
		return note.New(note.PleatsTapeDeep, note.Name("step", pleatStepText(step, req.Units)), note.Length("read", read, length.Nearest), note.Exact("limit", limit))
	}
	return note.Note{}
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

func pleatsCautions(r pleat.Result) []note.Note {
	out := []note.Note{note.New(note.PleatsPin)}
	if r.Style == pleat.Snips || r.Style == pleat.Darts {
		out = append(out, note.New(note.PleatsCut))
	}
	return append(out, note.New(note.PinsWound), note.New(note.SteamBurns))
}
