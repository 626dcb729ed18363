package service

import (
	"context"
	"fmt"
	"strings"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/length"
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
	Warnings []string
	Cautions []string
}

// FoamFaults are everything wrong with the request.
func FoamFaults(req FoamRequest) fault.List { return foam.Faults(&req.Job) }

// FoamFieldFaults are what is wrong with the fields alone.
func FoamFieldFaults(req FoamRequest) fault.List { return foam.FieldFaults(&req.Job) }

// Foam answers a request that has no faults. It returns the context's error when
// the context ends before the answer is complete.
func Foam(ctx context.Context, req FoamRequest) (*FoamAnswer, error) {
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
	a.Warnings = foamWarnings(a)
	a.Cautions = foamCautions()
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

// foamWarnings say the same of several items once.
func foamWarnings(a *FoamAnswer) []string {
	req := a.Request
	var texts []string
	of := make(map[string][]string)
	say := func(id, text string) {
		if of[text] == nil {
			texts = append(texts, text)
		}
		of[text] = append(of[text], id)
	}
	for i := range req.Items {
		it, c := &req.Items[i], &a.Result.Cuts[i]
		if c.Off != 0 {
			way, off := "thicker", c.Off
			if off < 0 {
				way, off = "thinner", -off
			}
			say(it.ID, fmt.Sprintf("the stock makes %s, %s %s than wanted",
				c.Thickness.Text(req.Units, length.Nearest), off.Text(req.Units, length.Nearest), way))
		}
		for _, w := range foam.Concerns(it.Place, c.Thickness, req.Foams[it.Foam], req.Shop) {
			say(it.ID, fmt.Sprintf("the foam is %s for its place: %s", w, concernText(w, it.Place, req.Foams[it.Foam], req.Shop)))
		}
	}
	const most, named = 100, 4
	out := []string{}
	for i, text := range texts {
		if i == most-1 && len(texts) > most {
			return append(out, fmt.Sprintf("and %d more of the like", len(texts)-i))
		}
		ids := of[text]
		who := strings.Join(ids[:min(len(ids), named)], ", ")
		if more := len(ids) - named; more > 0 {
			who += fmt.Sprintf(" and %d more", more)
		}
		out = append(out, who+": "+text)
	}
	return out
}

// concernText is the figure behind a concern.
func concernText(c foam.Concern, p foam.Place, f foam.Foam, shop practice.Set) string {
	thick := func(p foam.Place) string { return shop.Length(foam.Thin(p)).String() }
	dense := func(least, most practice.NumberKey) string {
		return practice.Decimal(shop.Number(least)) + " to " + practice.Decimal(shop.Number(most)) + " kg/m³"
	}
	ofAny := "polyurethane foam has " + dense(practice.FoamLightest, practice.FoamDensest) + " (" + shop.Source(*practice.FoamDensest.Setting) + ")"
	ofSeat := "a seat has " + dense(practice.FoamLightSeat, practice.FoamDenseSeat) + " (" + shop.Basis(practice.FoamLightSeat.Setting, practice.FoamDenseSeat.Setting) + ")"
	switch c {
	case foam.TooThin:
		return "a seat is " + thick(foam.Seat) + " or more, a back or scatter cushion " + thick(foam.Back) + ", a pad " + thick(foam.Pad) +
			", an arm " + thick(foam.Arm) + " (" + shop.Basis(practice.FoamThinSeat.Setting, practice.FoamThinBack.Setting, practice.FoamThinPad.Setting, practice.FoamThinArm.Setting) + ")"
	case foam.TooSoft:
		return fmt.Sprintf("%d N at %d %%, where a seat has %d to %d N at 25 %% (%s)",
			f.Hardness, f.At, shop.Count(practice.FoamSoftSeat), shop.Count(practice.FoamHardSeat), shop.Basis(practice.FoamSoftSeat.Setting, practice.FoamHardSeat.Setting))
	case foam.TooHard:
		return fmt.Sprintf("%d N at 25 %%, where a back has %d N or less (%s)", f.Hardness, shop.Count(practice.FoamHardestBack), shop.Basis(practice.FoamHardestBack.Setting))
	case foam.TooDense:
		if f.Density > shop.Density(practice.FoamDensest) {
			return ofAny
		}
		return ofSeat
	}
	if p != foam.Seat && p != foam.Pad {
		return ofAny
	}
	return ofSeat
}

func foamCautions() []string {
	return []string{
		"Foam burns fast and its smoke kills. Ask /v1/fire-check which rules hold for this piece, and keep the supplier's papers; local codes and the enforcing authority decide.",
		"Foam and its dust burn: no flame, no smoking, no sparks near it; store little, and sweep up.",
		"Spray adhesive needs fresh air and no flame; follow its label.",
		"Foam saws and knives cut hands: cut away from yourself, and wear a mask against the dust.",
		"Measure the sheets before the first cut: foam is sold with a tolerance on its size, its thickness and its hardness.",
	}
}
