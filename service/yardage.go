package service

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/calc/verify"
)

// YardageRequest asks how much of one cloth to order for a cutting list.
type YardageRequest struct {
	Units  length.System
	Cloth  cloth.Cloth
	Sold   cloth.Sold
	Pieces []length.Length // of the same cloth, in hand
	Panels []panel.Panel
	Effort plan.Effort
	Shop   practice.Set // what the workroom goes by
	// Obstacles are what each panel must pass, by its index; for the drawing only.
	Obstacles map[int][]relief.Obstacle
}

// ReliefCuts are the cuts by which a panel, by its index, passes what is in its
// way, on cloth that is not pulled.
func (r YardageRequest) ReliefCuts(i int) []relief.Cut {
	if len(r.Obstacles[i]) == 0 {
		return nil
	}
	p := r.Panels[i]
	return relief.Cuts(relief.Job{Size: p.Size, Allow: p.Allow, Obstacles: r.Obstacles[i], Shop: r.Shop})
}

// Job is what is planned.
func (r YardageRequest) Job() plan.Job {
	return plan.Job{Cloth: r.Cloth, Panels: r.Panels, Bolt: r.Sold.Bolt}
}

// YardageAnswer is the order, the plan and the proof. Lengths are exact; they
// are rounded for people only where they are printed.
type YardageAnswer struct {
	Request  YardageRequest
	Order    length.Length // as sold, enough for any start
	AnyStart length.Length // enough for any start, before flaws, shrinkage and rounding
	Lengths  []CutLength   // one unless the bolt is too short; Lengths[k] is Result.Cut[k]
	Result   plan.Result
	Offcuts  []Offcut
	Joins    []Joined
	Pieces   *PiecesAnswer // nil when no pieces are in hand
	// Hurried says that the search was ended by the clock: another machine, or
	// another moment, may find another plan for the same request.
	Hurried  bool
	Warnings []note.Note
	Cautions []note.Note
}

// CutLength is one length to cut from.
type CutLength struct{ Needed, Start, Order length.Length }

// Offcut is a rectangle left over in Result.Cut[Piece].
type Offcut struct {
	Piece     int
	Rect      plan.Rect
	WouldMake []note.Note
}

// Joined is a panel made up of parts, with its seams from the left edge of the
// cut panel.
type Joined struct {
	Panel int // index in Request.Panels
	Copy  int
	Seams []length.Length
}

// Enough says whether the pieces in hand do.
type Enough int

// The answers.
const (
	EnoughNo      Enough = iota // cloth must be bought
	EnoughIfBegun               // when each piece begins at its start
	EnoughYes                   // wherever in the repeat the pieces begin
)

// PiecesAnswer is the plan for the pieces in hand. Uses[0] is the cloth still
// to buy (zero when nothing is, and when it begins where it serves for nothing),
// Uses[k] the k-th piece in hand; further lengths to buy, when a bolt is too short,
// come last.
type PiecesAnswer struct {
	Enough Enough
	Short  length.Length // wanting, for any start of the new cloth
	Least  length.Length // new cloth without which no plan can do
	Order  length.Length // Short as the cloth is sold
	Uses   []PieceUse
}

// PieceUse is what is cut from one piece.
type PieceUse struct {
	Length   length.Length // of the piece; for the cloth to buy, its order
	Need     length.Length // of the cloth to buy, before flaws, shrinkage and rounding
	Layout   plan.Layout
	AnyStart bool
}

// ErrUnsound says that a plan did not stand up to verify.Check. It is a fault of
// the engine, never of the request, and no such plan is answered.
var ErrUnsound = errors.New("service: the plan failed its check")

// ErrHurried says that there was no plan yet when the search was hurried.
var ErrHurried = errors.New("service: hurried before there was a plan")

// Yardage answers a request; what is wrong with it is the error. Every plan is put
// to verify.Check before it is answered. It returns the context's error when the
// context ends before the answer is complete.
func Yardage(ctx context.Context, req YardageRequest) (*YardageAnswer, error) {
	return YardageBy(ctx, req, func() bool { return false })
}

// YardageBy is Yardage with a search that ends when hurry reports true, with the
// best plan that was found so far. That plan is checked like any other, and the
// answer says that it was hurried. Once true, hurry stays so.
func YardageBy(ctx context.Context, req YardageRequest, hurry func() bool) (*YardageAnswer, error) {
	ready, wrong := PrepareYardage(req)
	if wrong.Len() > 0 {
		return nil, wrong
	}
	return ready.AnswerBy(ctx, hurry)
}

// YardageReady is a request without faults, ready to be planned once.
type YardageReady struct {
	req      YardageRequest
	prepared *plan.Prepared
}

// PrepareYardage makes a request ready, or says everything wrong with it; pointers
// are those of the wire form. Whether the pattern lets the wishes be kept at all is
// asked only when nothing else is wrong.
func PrepareYardage(req YardageRequest) (*YardageReady, fault.List) {
	if l := YardageFieldFaults(req); l.Len() > 0 {
		return nil, l
	}
	prepared, wrong := plan.Prepare(req.Job())
	return &YardageReady{req, prepared}, wrong
}

// Answer is what Yardage returns.
func (r *YardageReady) Answer(ctx context.Context) (*YardageAnswer, error) {
	return r.AnswerBy(ctx, func() bool { return false })
}

// AnswerBy is what YardageBy returns.
func (r *YardageReady) AnswerBy(ctx context.Context, hurry func() bool) (*YardageAnswer, error) {
	a, err := r.answerBy(ctx, hurry)
	if errors.Is(err, ErrUnsound) && hurry() { // it was ended before everything had its place
		return nil, ErrHurried
	}
	return a, err
}

func (ready *YardageReady) answerBy(ctx context.Context, hurry func() bool) (*YardageAnswer, error) {
	req, job := ready.req, ready.req.Job()
	stop := func() bool { return ctx.Err() != nil || hurry() }
	r := ready.prepared.Solve(req.Effort, stop)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if err := sound(job, r.Cut...); err != nil {
		return nil, err
	}
	a := &YardageAnswer{Request: req, Result: r, Joins: joinsOf(req.Panels, r.Cut)}
	for k, l := range r.Cut {
		order, err := req.Sold.Order(r.AnyStart[k])
		if err != nil {
			return nil, err
		}
		a.Lengths = append(a.Lengths, CutLength{Needed: l.Length, Start: l.Start, Order: order})
		a.Order += order
		a.AnyStart += r.AnyStart[k]
		a.Offcuts = append(a.Offcuts, offcutsOf(req, k, l)...)
	}
	a.Offcuts = a.Offcuts[:min(len(a.Offcuts), maxOffcutsInAll)]
	if len(req.Pieces) > 0 {
		var err error
		if a.Pieces, err = inHand(ctx, job, req, stop); err != nil {
			return nil, err
		}
	}
	a.Hurried = hurry()
	a.Warnings = note.Listed(yardageWarnings(a), note.Most)
	a.Cautions = note.Listed(yardageCautions(req), note.Most)
	return a, ctx.Err()
}

// sound puts a whole plan to the independent check.
func sound(job plan.Job, layouts ...plan.Layout) error {
	if flaws := verify.Check(job, layouts...); len(flaws) > 0 {
		return fmt.Errorf("%w: %s", ErrUnsound, flaws[0])
	}
	return nil
}

// inHand plans the pieces in hand and what is still to buy.
func inHand(ctx context.Context, job plan.Job, req YardageRequest, stop func() bool) (*PiecesAnswer, error) {
	h, err := plan.SolvePieces(job, req.Pieces, req.Effort, stop)
	if err != nil {
		return nil, err
	}
	out := &PiecesAnswer{Enough: EnoughYes, Short: h.Short, Least: h.Least}
	var bought []PieceUse
	for _, b := range h.Buy {
		order, err := req.Sold.Order(b.Need)
		if err != nil {
			return nil, err
		}
		out.Order += order
		bought = append(bought, PieceUse{Length: order, Need: b.Need, Layout: b.Layout, AnyStart: true})
	}
	if len(bought) == 0 {
		bought = []PieceUse{{Layout: plan.Layout{Start: req.Cloth.Start()}, AnyStart: true}}
	} else {
		out.Enough = EnoughNo
	}
	out.Uses = append(out.Uses, bought[0])
	for k, u := range h.Uses {
		out.Uses = append(out.Uses, PieceUse{Length: req.Pieces[k], Layout: u.Layout, AnyStart: u.AnyStart})
		if !u.AnyStart && out.Enough == EnoughYes {
			out.Enough = EnoughIfBegun
		}
	}
	out.Uses = append(out.Uses, bought[1:]...)
	if ctx.Err() != nil {
		return out, nil // the caller sees that the context has ended
	}
	var layouts []plan.Layout
	for k, u := range out.Uses {
		layouts = append(layouts, u.Layout)
		if k > 0 && k <= len(req.Pieces) && u.Layout.Length > u.Length {
			return nil, fmt.Errorf("%w: %s is cut from a piece of %s", ErrUnsound, u.Layout.Length, u.Length)
		}
	}
	job.Bolt = 0 // a piece in hand may be longer than a bolt
	return out, sound(job, layouts...)
}

// joinsOf lists the joined panels with their seams.
func joinsOf(panels []panel.Panel, cut []plan.Layout) []Joined {
	seams := make(map[[2]int][]length.Length)
	for _, l := range cut {
		for _, p := range l.Placements {
			if p.Parts > 1 && p.From > 0 {
				key := [2]int{p.Panel, p.Copy}
				seams[key] = append(seams[key], p.From+panels[p.Panel].JoinSeam)
			}
		}
	}
	out := make([]Joined, 0, len(seams))
	for k, at := range seams {
		slices.Sort(at)
		out = append(out, Joined{Panel: k[0], Copy: k[1], Seams: at})
	}
	slices.SortFunc(out, func(a, b Joined) int {
		return cmp.Or(cmp.Compare(a.Panel, b.Panel), cmp.Compare(a.Copy, b.Copy))
	})
	return out
}
