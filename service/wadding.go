package service

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/wadding"
)

// WaddingRequest asks what it takes to wrap and to fill.
type WaddingRequest struct {
	Units length.System
	wadding.Job
}

// WaddingRoll is one sheet material and the plan by which it is cut off the
// roll. The panels of the plan are the sheet's pieces, in their order.
type WaddingRoll struct {
	Sheet wadding.Sheet
	Plan  *YardageAnswer
	Rolls int64 // to buy, when whole rolls are bought
}

// WaddingAnswer is the work, and each sheet material in one plan.
type WaddingAnswer struct {
	Request  WaddingRequest
	Work     wadding.Work
	Rolls    []WaddingRoll
	Warnings []note.Note
	Cautions []note.Note
}

// Wadding answers a request; what is wrong with it is the error.
func Wadding(ctx context.Context, req WaddingRequest) (*WaddingAnswer, error) {
	return unless(PrepareWadding(req))(ctx)
}

// PrepareWadding works out what is cut, and says what is wrong with the request.
func PrepareWadding(req WaddingRequest) (Ready[WaddingAnswer], fault.List) {
	if l := req.Faults(fault.Path{}); l.Len() > 0 {
		return nil, l
	}
	a := &WaddingAnswer{Request: req, Work: wadding.Plan(req.Job)}
	var cuts plainCloths
	for _, s := range a.Work.Sheets {
		c := waddingCloth(s, req.Practice())
		cuts.prepare(&c, req.Units, fault.At("items"))
	}
	return func(ctx context.Context) (*WaddingAnswer, error) {
		err := cuts.each(ctx, func(i int, cut *YardageAnswer) {
			s := a.Work.Sheets[i]
			a.Rolls = append(a.Rolls, WaddingRoll{Sheet: s, Plan: cut, Rolls: rollsOf(cut, s.Roll)})
		})
		if err != nil {
			return nil, err
		}
		a.Warnings = note.Listed(waddingWarnings(a), note.Most)
		a.Cautions = note.Listed(waddingCautions(req), note.Most)
		return a, ctx.Err()
	}, cuts.wrong
}

// waddingCloth gathers what is cut from one sheet material.
func waddingCloth(s wadding.Sheet, u practice.Set) plainCloth {
	c := plainCloth{name: s.Material.String(), width: s.Width, bolt: s.Roll, step: u.Length(practice.WaddingStep)}
	for _, p := range s.Pieces {
		c.add(p.Item, p.Panel)
	}
	return c
}

// rollsOf is how many rolls the lengths of a plan come off: the longest first,
// each from the first roll that still has it.
func rollsOf(cut *YardageAnswer, roll length.Length) int64 {
	var lengths, left []length.Length
	for _, l := range cut.Lengths {
		lengths = append(lengths, l.Needed)
	}
	slices.SortFunc(lengths, func(a, b length.Length) int { return cmp.Compare(b, a) })
	for _, l := range lengths {
		k := slices.IndexFunc(left, func(rest length.Length) bool { return rest >= l })
		if k < 0 {
			left = append(left, roll)
			k = len(left) - 1
		}
		left[k] -= l
	}
	return int64(len(left))
}

// WaddingFieldFaults are what is wrong with the fields. It may be asked of a
// request of which a part could not be read.
func WaddingFieldFaults(req WaddingRequest) fault.List { return req.FieldFaults(fault.Path{}) }

func waddingWarnings(a *WaddingAnswer) []note.Note {
	var out []note.Note
	for _, r := range a.Rolls {
		if n := len(r.Plan.Joins); n > 0 {
			out = append(out, note.New(note.WaddingJoined, note.Count("count", n), note.Name("material", strings.ReplaceAll(r.Sheet.Material.String(), "-", " "))))
		}
	}
	return out
}

func waddingCautions(req WaddingRequest) []note.Note {
	out := []note.Note{note.New(note.WeighRoll), note.New(note.FillingDust)}
	if slices.ContainsFunc(req.Items, func(it wadding.Item) bool { return it.Material.Loose() }) {
		out = append(out, note.New(note.OldStuffing), note.New(note.WashOldHair))
	}
	if slices.ContainsFunc(req.Items, func(it wadding.Item) bool { return it.Material == wadding.Polyester }) {
		out = append(out, note.New(note.SprayAdhesive))
	}
	return append(out, note.New(note.FireRules))
}
