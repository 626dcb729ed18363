package service

import (
	"context"
	"fmt"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
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
	Warnings []string
	Cautions []string
}

// Foundation answers a request; what is wrong with it is the error.
func Foundation(ctx context.Context, req FoundationRequest) (*FoundationAnswer, error) {
	return unless(PrepareFoundation(req))(ctx)
}

// FoundationFaults are everything wrong with the request; pointers are those of
// the wire form.
func FoundationFaults(req FoundationRequest) fault.List {
	_, wrong := PrepareFoundation(req)
	return wrong
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
		a.Warnings = foundationWarnings(a)
		a.Cautions = foundationCautions(req)
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

func foundationWarnings(a *FoundationAnswer) []string {
	out := []string{}
	u := a.Request.Practice()
	low, high := u.Length(practice.SpringLowest), u.Length(practice.SpringHighest)
	for k, b := range a.Work.Built {
		f := a.Request.Frames[k]
		id := f.ID
		if b.Webbing.TooManyAtTheBackRail {
			out = append(out, fmt.Sprintf("%s: on the back rail its %d webs would overlap; bring the outer ones to the side rails, or take fewer", id, b.Webbing.Along))
		}
		if f.UnderSprings && !b.Webbing.WebsUnderSprings {
			out = append(out, id+": its springs do not stand in columns, so that the webs are laid evenly")
		}
		if h := b.Spring.Height; len(b.Grid.Centres) > 0 && (h < low || h > high) {
			out = append(out, id+": springs of "+h.Text(a.Request.Units, length.Nearest)+" by the height of the rail are not made; they come from "+practice.Inches(low)+" to "+practice.Inches(high)+" in high")
		}
		if b.Grid.Over {
			out = append(out, id+": the springs stand into one another or over the edge: take fewer or narrower ones")
		}
		if n := len(b.Grid.Rows); n > 0 && b.Webbing.Across < n {
			out = append(out, id+": there are fewer webs across than rows of springs; every spring stands on a crossing of webs")
		}
	}
	return firstWarnings(out)
}

// maxWarnings is how many warnings an answer holds.
const maxWarnings = 100

func firstWarnings(all []string) []string { return all[:min(len(all), maxWarnings)] }

func foundationCautions(req FoundationRequest) []string {
	out := []string{
		"Measure the frame again and see that its joints are sound before it is webbed: strained webs pull a weak frame apart.",
		"Old stuffing can hold dust, mould and pests: wear a mask, bag it and vacuum; old finishes can hold lead.",
		"A tack lifter, a regulator and a web strainer slip and cut: work away from yourself, and hold tacks on a magnetic hammer, never in the mouth.",
	}
	if req.Build == foundation.Traditional {
		out = append(out, "A compressed spring flies: hold it down by the cord until it is tied, and keep the face away.")
	} else {
		out = append(out, "Spray adhesive needs air and no flame; foam and its dust burn.")
	}
	if req.Fixing == foundation.Staples {
		out = append(out, "A staple gun drives through a finger: keep hands from the line of fire and wear eye protection; disconnect it before clearing a jam.")
	}
	return append(out, "Whether these fillings may be used for this piece is a matter of the fire rules where it is supplied; local codes and the supplier's papers decide.")
}
