package service

import (
	"context"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
)

// FoundationRequest asks what lies under the stuffing of some frames.
type FoundationRequest struct {
	Units length.System
	foundation.Job
}

// FoundationCloth is one cloth and the plan by which it is cut. The panels of
// the plan are those of Work.Panels with that use, in their order.
type FoundationCloth struct {
	Use  foundation.Use
	Plan *YardageAnswer
}

// FoundationAnswer is the work, and each cloth in one plan.
type FoundationAnswer struct {
	Request  FoundationRequest
	Work     foundation.Work
	Cloths   []FoundationCloth
	Warnings []note.Note
	Cautions []note.Note
}

// Foundation answers a request; what is wrong with it is the error.
func Foundation(ctx context.Context, req FoundationRequest) (*FoundationAnswer, error) {
	return unless(PrepareFoundation(req))(ctx)
}

// PrepareFoundation works out what is cut, and says what is wrong with the request.
func PrepareFoundation(req FoundationRequest) (Ready[FoundationAnswer], fault.List) {
	if l := req.Faults(fault.Path{}); l.Len() > 0 {
		return nil, l
	}
	a := &FoundationAnswer{Request: req, Work: foundation.Plan(req.Job)}
	var cuts plainCloths
	for _, use := range foundation.Uses() {
		if c := foundationCloth(use, a.Work, req.Practice()); len(c.panels) > 0 {
			cuts.prepare(&c, req.Units, fault.At("frames"))
			a.Cloths = append(a.Cloths, FoundationCloth{Use: use})
		}
	}
	return func(ctx context.Context) (*FoundationAnswer, error) {
		if err := cuts.each(ctx, func(i int, cut *YardageAnswer) { a.Cloths[i].Plan = cut }); err != nil {
			return nil, err
		}
		a.Warnings = note.Listed(foundationWarnings(a), note.Most)
		a.Cautions = note.Listed(foundationCautions(req), note.Most)
		return a, ctx.Err()
	}, cuts.wrong
}

// foundationCloth gathers what is cut from one cloth.
func foundationCloth(use foundation.Use, w foundation.Work, u practice.Set) plainCloth {
	name := use.String()
	if use == foundation.Bottoming {
		name = "bottoming cloth"
	}
	c := plainCloth{name: name, width: u.Length(use.Width()), bolt: u.Length(practice.ClothBolt), step: u.Length(practice.ClothStep)}
	for _, p := range w.Panels {
		if p.Use == use {
			c.add(p.Frame, p.Panel)
		}
	}
	return c
}

// FoundationFieldFaults are what is wrong with the fields. It may be asked of a
// request of which a part could not be read.
func FoundationFieldFaults(req FoundationRequest) fault.List { return req.FieldFaults(fault.Path{}) }

func foundationWarnings(a *FoundationAnswer) []note.Note {
	u := a.Request.Practice()
	low, high := u.Length(practice.SpringLowest), u.Length(practice.SpringHighest)
	var out []note.Note
	for k, b := range a.Work.Built {
		f := a.Request.Frames[k]
		if b.Webbing.TooManyAtTheBackRail {
			out = append(out, note.New(note.WebsOverlap, note.Name("frame", f.ID), note.Count("webs", b.Webbing.Along)))
		}
		if f.UnderSprings && !b.Webbing.WebsUnderSprings {
			out = append(out, note.New(note.WebsEven, note.Name("frame", f.ID)))
		}
		if h := b.Spring.Height; len(b.Grid.Centres) > 0 && (h < low || h > high) {
			out = append(out, note.New(note.SpringsNotMade, note.Name("frame", f.ID), note.Length("height", h, length.Nearest),
				note.Name("least", practice.Inches(low)), note.Name("most", practice.Inches(high))))
		}
		if b.Grid.Over {
			out = append(out, note.New(note.SpringsOver, note.Name("frame", f.ID)))
		}
		if n := len(b.Grid.Rows); n > 0 && b.Webbing.Across < n {
			out = append(out, note.New(note.WebsFew, note.Name("frame", f.ID)))
		}
	}
	return out
}

func foundationCautions(req FoundationRequest) []note.Note {
	out := []note.Note{note.New(note.FrameSound), note.New(note.OldStuffing), note.New(note.ToolsSlip)}
	if req.Build == foundation.Traditional {
		out = append(out, note.New(note.SpringFlies))
	} else {
		out = append(out, note.New(note.SprayAdhesive), note.New(note.FoamBurns))
	}
	if req.Fixing == foundation.Staples {
		out = append(out, note.New(note.StapleGun))
	}
	return append(out, note.New(note.FireRules))
}
