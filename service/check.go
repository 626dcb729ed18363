package service

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// CheckRequest asks what is wrong with a plan made by hand. Pieces of the job
// are not looked at.
type CheckRequest struct {
	YardageRequest
	Placements []HandPlacement
	Lengths    []HandLength
}

// HandPlacement is where one panel, or one part of a joined panel, is said to
// lie. What is nil is taken from the panel as it is turned.
type HandPlacement struct {
	Panel       string // its id
	Copy        int    // from 1
	Piece       int    // which length it is cut from, from 0
	Part, Parts int    // 1 and 1 for a whole panel
	From        length.Length
	X, Y        length.Length
	Across      *length.Length // given for every part of a joined panel
	Along       *length.Length
	Turn        panel.Turn
	Motif       *HandMotif // nil when none is named
}

// HandMotif is the motif that is said to keep a panel's wish.
type HandMotif struct {
	Name string
	X, Y length.Length
}

// HandLength is what is known of one length of a plan made by hand.
type HandLength struct {
	Piece  int
	Start  *length.Length // in the repeat; nil: where the cloth is known to begin, or 0
	Length length.Length  // 0: as far as the placements reach
}

// CheckAnswer is what is wrong with a plan made by hand, and how it compares
// with the engine's.
type CheckAnswer struct {
	Request CheckRequest
	Hand    []plan.Layout // by number of the length; those that nothing is cut from are empty
	Faults  []PlanFault   // in cutting order, those about the whole first; none when the plan is right
	Orders  []length.Length
	Engine  *YardageAnswer

	Warnings []note.Note
	Cautions []note.Note
}

// PlanFault is a flaw of the plan, with the places of its two parties in the
// request's placements, -1 for none.
type PlanFault struct {
	verify.Flaw
	At, With int
}

// Right reports whether nothing is wrong with the plan.
func (a *CheckAnswer) Right() bool { return len(a.Faults) == 0 }

// Length is what the plan takes, over all its lengths.
func (a *CheckAnswer) Length() length.Length {
	var sum length.Length
	for _, l := range a.Hand {
		sum += l.Length
	}
	return sum
}

// Order is what to buy for the plan as it stands.
func (a *CheckAnswer) Order() length.Length {
	var sum length.Length
	for _, o := range a.Orders {
		sum += o
	}
	return sum
}

// WouldSave is how much shorter the engine's plan is; negative when it is the
// longer.
func (a *CheckAnswer) WouldSave() length.Length { return a.Length() - a.Engine.Result.Needed() }

// Check answers a request that has no faults. The plan made by hand is put to
// verify.Check; engine, which is Yardage where the service is in use, plans the
// same job. It returns the context's error when the context ends before the
// answer is complete.
func Check(ctx context.Context, req CheckRequest, engine func(context.Context, YardageRequest) (*YardageAnswer, error)) (*CheckAnswer, error) {
	req.Pieces = nil
	hand := layoutsOf(req)
	a := &CheckAnswer{Request: req, Hand: hand.layouts}
	for _, l := range hand.layouts {
		order, err := req.Sold.Order(l.Length)
		if err != nil {
			return nil, err
		}
		a.Orders = append(a.Orders, order)
	}
	var err error
	if a.Faults, err = hand.faults(req); err != nil {
		return nil, err
	}
	if a.Engine, err = engine(ctx, req.YardageRequest); err != nil {
		return nil, err
	}
	if a.Engine == nil {
		return nil, errors.New("service: no answer and no error")
	}
	if err := a.boundHolds(); err != nil {
		return nil, err
	}
	a.Warnings = note.Listed(checkWarnings(a), note.Most)
	a.Cautions = note.Listed(yardageCautions(req.YardageRequest), note.Most)
	return a, ctx.Err()
}

// boundSlack is how much the roundings that verify.Check lets pass may add up to.
const boundSlack = length.Micrometre

// boundHolds holds the engine's bound against a right plan of one length. No
// answer says that less is impossible and shows it done.
func (a *CheckAnswer) boundHolds() error {
	cut := 0
	for _, l := range a.Hand {
		if len(l.Placements) > 0 {
			cut++
		}
	}
	if a.Right() && cut == 1 && a.Length()+boundSlack < a.Engine.Result.Bound {
		return fmt.Errorf("%w: a right plan of %s is shorter than the bound %s", ErrUnsound, a.Length(), a.Engine.Result.Bound)
	}
	return nil
}

// byHand is a plan made by hand as verify.Check takes it.
type byHand struct {
	layouts []plan.Layout
	from    [][]int // from[k][i] is where Placements[i] of layout k stands in the request
}

// layoutsOf sorts the placements by the lengths that they are cut from.
func layoutsOf(req CheckRequest) byHand {
	n := 0
	for _, p := range req.Placements {
		n = max(n, p.Piece+1)
	}
	for _, l := range req.Lengths {
		n = max(n, l.Piece+1)
	}
	h := byHand{make([]plan.Layout, n), make([][]int, n)}
	index := make(map[string]int, len(req.Panels))
	for i, q := range req.Panels {
		index[q.ID] = i
	}
	for i, p := range req.Placements {
		l := &h.layouts[p.Piece]
		pl := placementOf(req, p, index[p.Panel])
		l.Placements = append(l.Placements, pl)
		l.Length = max(l.Length, pl.Y+pl.Along)
		h.from[p.Piece] = append(h.from[p.Piece], i)
	}
	for k := range h.layouts {
		h.layouts[k].Start = req.Cloth.Start()
	}
	for _, l := range req.Lengths {
		if l.Start != nil {
			h.layouts[l.Piece].Start = *l.Start
		}
		if l.Length > 0 {
			h.layouts[l.Piece].Length = l.Length
		}
	}
	return h
}

// placementOf fills in what was left to the panel, which is the nth.
func placementOf(req CheckRequest, p HandPlacement, nth int) plan.Placement {
	cut := req.Panels[nth].Cut()
	if p.Turn == panel.Quarter {
		cut = panel.Size{Across: cut.Along, Along: cut.Across}
	}
	out := plan.Placement{
		Panel: nth, Copy: p.Copy, Part: p.Part, Parts: p.Parts, From: p.From,
		X: p.X, Y: p.Y, Across: cut.Across, Along: cut.Along, Turn: p.Turn,
	}
	if p.Across != nil {
		out.Across = *p.Across
	}
	if p.Along != nil {
		out.Along = *p.Along
	}
	if p.Motif != nil {
		k, _ := req.Cloth.Pattern.Find(p.Motif.Name)
		out.Motif = &plan.MotifAt{Motif: k, X: p.Motif.X, Y: p.Motif.Y}
	}
	return out
}

// faults are the flaws of the plan in cutting order. A kind of flaw that only a
// faulty request can have is an error: such a request is not answered.
func (h byHand) faults(req CheckRequest) ([]PlanFault, error) {
	flaws := verify.Check(req.Job(), h.layouts...)
	off := make(map[[2]int]bool)
	for _, f := range flaws {
		switch f.Kind {
		case verify.FlawBadJob, verify.FlawOutOfRange, verify.FlawUnknownPanel:
			return nil, fmt.Errorf("%w: by hand: %s", ErrUnsound, f)
		case verify.FlawMotifOff:
			off[[2]int{f.Layout, f.Placement}] = true
		}
	}
	var out []PlanFault
	for _, f := range flaws {
		if f.Kind == verify.FlawMotifMisreported &&
			(h.layouts[f.Layout].Placements[f.Placement].Motif == nil || off[[2]int{f.Layout, f.Placement}]) {
			continue // none was named, or the wish itself is not kept, which is said already
		}
		out = append(out, PlanFault{Flaw: f, At: h.place(f.Layout, f.Placement), With: h.place(f.OtherLayout, f.Other)})
	}
	slices.SortStableFunc(out, h.inCuttingOrder)
	return out, nil
}

// place is where a placement stands in the request; -1 for none.
func (h byHand) place(layout, placement int) int {
	if layout < 0 || placement < 0 {
		return -1
	}
	return h.from[layout][placement]
}

// inCuttingOrder puts what is about the whole first, and then what is met first
// from the start of each length.
func (h byHand) inCuttingOrder(a, b PlanFault) int {
	if a.At < 0 || b.At < 0 {
		return cmp.Or(min(a.At, 0)-min(b.At, 0), cmp.Compare(a.Layout, b.Layout))
	}
	p, q := h.layouts[a.Layout].Placements[a.Placement], h.layouts[b.Layout].Placements[b.Placement]
	return cmp.Or(cmp.Compare(a.Layout, b.Layout), cmp.Compare(p.Y, q.Y), cmp.Compare(p.X, q.X), cmp.Compare(a.At, b.At))
}
