package service

import (
	"context"
	"fmt"
	"slices"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/sheet"
)

// FoamRequest asks how cushions are cut from foam.
type FoamRequest struct {
	Units length.System
	foam.Job
}

// FoamAnswer is how they are cut, and what to buy for it.
type FoamAnswer struct {
	Request  FoamRequest
	Result   *foam.Result
	Offcuts  [][][]sheet.Offcut // by group and sheet, the largest first
	Defaults []string           // what was not asked for, and where it comes from
	Warnings []note.Note
	Cautions []note.Note
}

// PrepareFoam says everything that is wrong with the request.
func PrepareFoam(req FoamRequest) (Ready[FoamAnswer], fault.List) {
	return req.nested, foam.Faults(&req.Job)
}

// FoamFieldFaults are what is wrong with the fields alone.
func FoamFieldFaults(req FoamRequest) fault.List { return foam.FieldFaults(&req.Job) }

// Foam answers a request; what is wrong with it is the error.
func Foam(ctx context.Context, req FoamRequest) (*FoamAnswer, error) {
	return unless(PrepareFoam(req))(ctx)
}

// nested cuts the items from the sheets.
func (req FoamRequest) nested(ctx context.Context) (*FoamAnswer, error) {
	res, err := foam.Solve(&req.Job, func() bool { return ctx.Err() != nil })
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, err
	}
	a := &FoamAnswer{Request: req, Result: res}
	kerf := req.Shop.Length(practice.FoamKerf)
	for _, g := range res.Groups {
		if flaws := sheet.Check(g.Sizes, g.Kinds, kerf, g.Nest.Sheets); flaws != nil {
			return nil, fmt.Errorf("%w: foam: %s", ErrUnsound, flaws[0])
		}
		left := make([][]sheet.Offcut, len(g.Nest.Sheets))
		for i, s := range g.Nest.Sheets {
			left[i] = sheet.Offcuts(s, g.Kinds[s.Kind], kerf, req.Shop.Length(practice.FoamOffcut))
		}
		a.Offcuts = append(a.Offcuts, left)
	}
	a.Defaults = foamDefaults(req)
	a.Warnings = note.Listed(foamWarnings(a), note.Most)
	a.Cautions = note.Listed(foamCautions(), note.Most)
	return a, ctx.Err()
}

// foamDefaults names the defaults that the answer rests on.
func foamDefaults(req FoamRequest) []string {
	byPlace, tight := false, false
	for _, it := range req.Items {
		byPlace = byPlace || it.Over == nil && it.Fit == foam.ByPlace
		tight = tight || it.Over == nil && it.Fit == foam.Tight
	}
	over, soft := req.Shop.Length(practice.FoamOverTight).String(), req.Shop.Length(practice.FoamOverSoft).String()
	out := []string{}
	if byPlace {
		out = append(out, "Over-cut by place: a seat "+over+" over the finished width and depth, a back or scatter cushion "+soft+", an arm or a pad nothing ("+req.Shop.Basis(practice.FoamOverTight.Setting, practice.FoamOverSoft.Setting)+").")
	}
	if tight {
		out = append(out, "Over-cut of a tight cushion: "+over+" over the finished width and depth ("+req.Shop.Basis(practice.FoamOverTight.Setting)+").")
	}
	return out
}

// namedItems is how many items one note names; it counts the others.
const namedItems = 4

// foamWarnings say the same of several items once.
func foamWarnings(a *FoamAnswer) []note.Note {
	var said []note.Note // of no item yet
	var of [][]string    // which items each is about
	for i := range a.Request.Items {
		it := &a.Request.Items[i]
		for _, n := range foamItemWarnings(it, &a.Result.Cuts[i], &a.Request) {
			k := slices.IndexFunc(said, n.Same)
			if k < 0 {
				k = len(said)
				said, of = append(said, n), append(of, nil)
			}
			of[k] = append(of[k], it.ID)
		}
	}
	for k, ids := range of {
		some := ids[:min(len(ids), namedItems)]
		said[k] = said[k].With(note.Names("items", some...)).With(note.Count("more", len(ids)-len(some)))
	}
	if n := a.Request.NoRoomForSaw(a.Result); n > 0 {
		saw := note.New(note.FoamWithoutKerf, note.Count("sheets", n), note.Length("saw", a.Request.Shop.Length(practice.FoamSaw), length.Nearest),
			note.Name("source", a.Request.Shop.Basis(practice.FoamSaw.Setting)))
		said = slices.Insert(said, 0, saw)
	}
	return said
}

// foamItemWarnings are those of one item, before they are put together with those
// of others.
func foamItemWarnings(it *foam.Item, c *foam.Cut, req *FoamRequest) []note.Note {
	core := req.Foams[it.Foam]
	var out []note.Note
	if c.Off != 0 {
		way := "thicker"
		if c.Off < 0 {
			way = "thinner"
		}
		out = append(out, note.New(note.FoamOff, note.Names("items"), note.Count("more", 0), note.Length("thickness", c.Thickness, length.Nearest),
			note.Length("off", max(c.Off, -c.Off), length.Nearest), note.Name("way", way)))
	}
	for _, w := range foam.Concerns(it.Place, c.Thickness, core, req.Shop) {
		out = append(out, foamConcern(w, it.Place, core, req.Shop))
	}
	return out
}

// foamConcern says why a foam may not suit, of no item yet.
func foamConcern(c foam.Concern, p foam.Place, f foam.Foam, shop practice.Set) note.Note {
	switch c {
	case foam.TooThin:
		return note.New(note.FoamTooThin, note.Names("items"), note.Count("more", 0), note.Exact("seat", shop.Length(foam.Thin(foam.Seat))),
			note.Exact("back", shop.Length(foam.Thin(foam.Back))), note.Exact("pad", shop.Length(foam.Thin(foam.Pad))), note.Exact("arm", shop.Length(foam.Thin(foam.Arm))),
			note.Name("source", shop.Basis(practice.FoamThinSeat.Setting, practice.FoamThinBack.Setting, practice.FoamThinPad.Setting, practice.FoamThinArm.Setting)))
	case foam.TooSoft:
		return note.New(note.FoamTooSoft, note.Names("items"), note.Count("more", 0), note.Count("hardness", f.Hardness), note.Count("at", f.At),
			note.Count("least", shop.Count(practice.FoamSoftSeat)), note.Count("most", shop.Count(practice.FoamHardSeat)),
			note.Name("source", shop.Basis(practice.FoamSoftSeat.Setting, practice.FoamHardSeat.Setting)))
	case foam.TooHard:
		return note.New(note.FoamTooHard, note.Names("items"), note.Count("more", 0), note.Count("hardness", f.Hardness), note.Count("at", f.At),
			note.Count("most", shop.Count(practice.FoamHardestBack)), note.Name("source", shop.Basis(practice.FoamHardestBack.Setting)))
	}
	than, among, least, most := "light", "seat", practice.FoamLightSeat, practice.FoamDenseSeat
	source := shop.Basis(least.Setting, most.Setting)
	if c == foam.TooDense {
		than = "dense"
	}
	if c == foam.TooDense && f.Density > shop.Density(practice.FoamDensest) || c == foam.TooLight && p != foam.Seat && p != foam.Pad {
		among, least, most, source = "any", practice.FoamLightest, practice.FoamDensest, shop.Source(*practice.FoamDensest.Setting)
	}
	return note.New(note.FoamTooDense, note.Names("items"), note.Count("more", 0), note.Name("than", than), note.Name("among", among),
		note.Decimal("least", shop.Number(least)), note.Decimal("most", shop.Number(most)), note.Name("source", source))
}

func foamCautions() []note.Note {
	return []note.Note{
		note.New(note.FoamBurns), note.New(note.AskFireCheck), note.New(note.SprayAdhesive), note.New(note.Blades), note.New(note.FoamDust), note.New(note.MeasureFoam),
	}
}
