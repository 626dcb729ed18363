package service

import (
	"cmp"
	"context"
	"fmt"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/practice"
)

// PipingRequest asks for the strips of the piping of a piece.
type PipingRequest struct {
	Units   length.System
	Cord    length.Length
	Double  bool
	Width   length.Length // of the strips; 0: worked out
	Cut     piping.Cut
	Angle   int
	OneLean *bool        // all strips lean the same way; nil: as the cloth wants it
	Stretch int          // in thousandths; 0: the usual, by the angle
	Shop    practice.Set // what the workroom goes by: seams, the least piece, overlaps

	Cloth   cloth.Cloth
	Sold    *cloth.Sold // nil: nothing is cut from new cloth
	Offcuts []PipingOffcut
	Runs    []PipingRun
	Way     *piping.Way // to be shown; nil: the cheapest
}

// PipingOffcut is a rectangle in hand.
type PipingOffcut struct {
	Name string
	On   *int // the piece on whose plan it has its place; nil where it has none
	Rect piping.Rect
}

// PipingRun is one or more runs alike.
type PipingRun struct {
	piping.Run
	Name  string
	Count int
}

// PipingAnswer is what the piping takes and how it is cut.
type PipingAnswer struct {
	Request PipingRequest
	Job     piping.Job
	Of      []PipingCopy // of each run of the job
	Exact   length.Length
	Cord    length.Length
	Total   length.Length
	Ways    []PipingWay
	Shown   int // which of Ways; -1: none is possible
	Yields  []PipingYield

	Warnings []note.Note
	Cautions []note.Note
}

// PipingCopy says which run of the request a run of the job is, and which copy.
type PipingCopy struct{ Run, Copy int }

// PipingYield is what one offcut gives by itself with strips of one lean.
type PipingYield struct {
	Offcut                   int
	Lean                     piping.Lean
	Strips                   int
	Total, Shortest, Longest length.Length
}

// pipingYields are those of all offcuts, on the bias for each lean.
func pipingYields(j piping.Job) []PipingYield {
	leans := []piping.Lean{piping.Upright}
	if j.Cut == piping.Bias {
		leans = []piping.Lean{piping.ToRight, piping.ToLeft}
	}
	var out []PipingYield
	for i, r := range j.Rects {
		for _, lean := range leans {
			y := PipingYield{Offcut: i, Lean: lean}
			for k, s := range piping.InRect(r, j.Shape, lean) {
				y.Strips++
				y.Total += s.Long
				y.Longest = max(y.Longest, s.Long)
				if k == 0 || s.Long < y.Shortest {
					y.Shortest = s.Long
				}
			}
			out = append(out, y)
		}
	}
	return out
}

// PipingWay is one way, and what of it is not as wished.
type PipingWay struct {
	piping.Plan
	Keeps   bool
	Order   length.Length
	Square  length.Length // of the continuous way: the side of the smallest square
	Because []note.Note
}

// Plan is the way that is shown; nil when there is none.
func (a *PipingAnswer) Plan() *PipingWay {
	if a.Shown < 0 {
		return nil
	}
	return &a.Ways[a.Shown]
}

// Piping answers a request; what is wrong with it is the error. Every plan is put to
// piping.Check before it is answered.
func Piping(ctx context.Context, req PipingRequest) (*PipingAnswer, error) {
	return unless(PreparePiping(req))(ctx)
}

// PreparePiping lists the runs one by one, and says everything wrong with the
// request; pointers are those of the wire form.
func PreparePiping(req PipingRequest) (Ready[PipingAnswer], fault.List) {
	l := PipingFieldFaults(req)
	if l.Len() > 0 {
		return nil, l
	}
	a := &PipingAnswer{Request: req, Exact: req.exactWidth()}
	a.Job, a.Of = req.job()
	req.placeFaults(&l, a.Job)
	return a.complete, l
}

// complete cuts the runs in every way.
func (a PipingAnswer) complete(ctx context.Context) (*PipingAnswer, error) {
	req := a.Request
	a.Cord = a.Job.CordLength()
	if req.Double {
		a.Cord *= 2
	}
	for _, r := range a.Job.Runs {
		a.Total += a.Job.Need(r, req.Cut)
	}
	for _, p := range piping.Solve(a.Job) {
		if flaws := piping.Check(a.Job, p); len(flaws) > 0 {
			return nil, fmt.Errorf("%w: piping: %s", ErrUnsound, flaws[0])
		}
		order, err := req.sold().Order(p.Cloth)
		if err != nil {
			return nil, err
		}
		w := PipingWay{Plan: p, Order: order, Because: req.because(p)}
		w.Keeps = p.Possible && len(w.Because) == 0
		if p.Tube != nil {
			w.Square = piping.SquareTube(a.Total, a.Job.Width, a.Job.JoinSeam).Across
		}
		a.Ways = append(a.Ways, w)
	}
	a.Shown, a.Yields = a.choose(), pipingYields(a.Job)
	a.Warnings, a.Cautions = note.Listed(pipingWarnings(&a), note.Most), note.Listed(pipingCautions(&a), note.Most)
	return &a, ctx.Err()
}

// job is the request as calc takes it, each copy of a run by itself.
func (req PipingRequest) job() (piping.Job, []PipingCopy) {
	u := req.Shop
	j := piping.Job{
		Shape: req.Shape(), JoinSeam: u.Length(practice.PipingJoin), Overlap: u.Length(practice.PipingOverlap), Ends: u.Length(practice.PipingEnds),
		Margin: u.Length(practice.PipingCorner), OneLean: req.oneLean(),
	}
	j.RadiusBias, j.RadiusStraight = req.LeastRadius()
	if req.Sold != nil {
		j.Cloth = req.Cloth.Width
	}
	for _, o := range req.Offcuts {
		j.Rects = append(j.Rects, o.Rect)
	}
	var of []PipingCopy
	for i, r := range req.Runs {
		for n := range r.Count {
			j.Runs = append(j.Runs, r.Run)
			of = append(of, PipingCopy{i, n + 1})
		}
	}
	return j, of
}

// Shape is how the strips are cut.
func (req PipingRequest) Shape() piping.Shape {
	return piping.Shape{Cut: req.Cut, Angle: req.Angle, Width: req.StripWidth(), Least: req.Shop.Length(practice.PipingLeast)}
}

// oneLean reports whether all strips lean the same way.
func (req PipingRequest) oneLean() bool {
	if req.OneLean == nil {
		return req.Cloth.OneWay
	}
	return *req.OneLean
}

// sold is how new cloth is sold.
func (req PipingRequest) sold() cloth.Sold {
	if req.Sold == nil {
		return cloth.Sold{}
	}
	return *req.Sold
}

// StripWidth is how wide the strips are cut.
func (req PipingRequest) StripWidth() length.Length {
	if req.Width > 0 {
		return req.Width
	}
	return piping.PracticalWidth(req.exactWidth(), req.Shop.Length(PipingStep(req.Units)))
}

// exactWidth is what cord, cloth and seams take.
func (req PipingRequest) exactWidth() length.Length {
	return piping.StripWidth(req.Cord, req.Shop.Length(practice.PipingCloth), req.Shop.Length(practice.PipingSeam), req.Double)
}

// PipingStep is the setting of the multiples in which strips are cut wide.
func PipingStep(units length.System) practice.LengthKey {
	if units == length.Imperial {
		return practice.PipingStepInch
	}
	return practice.PipingStep
}

// LeastRadius is the tightest curve that the piping takes, cut at the angle of
// the request and cut straight. A stretch that is given is that of the cut asked
// for.
func (req PipingRequest) LeastRadius() (bias, straight length.Length) {
	give, stiff := piping.StretchAt(req.Angle, req.Shop), piping.StretchStraight(req.Shop)
	switch {
	case req.Stretch > 0 && req.Cut == piping.Bias:
		give = req.Stretch
	case req.Stretch > 0:
		stiff = req.Stretch
	}
	thick := req.Shop.Length(practice.PipingCloth)
	return piping.LeastRadius(req.Cord, thick, give), piping.LeastRadius(req.Cord, thick, stiff)
}

// choose is the way to be shown: the one asked for; or the first that keeps all
// wishes at the least cost in cloth, then in joins; or else the nearest to that.
func (a *PipingAnswer) choose() int {
	best := -1
	for i := range a.Ways {
		w := &a.Ways[i]
		switch {
		case !w.Possible:
		case a.Request.Way != nil:
			if w.Way == *a.Request.Way {
				return i
			}
		case best < 0 || a.Request.compare(w, &a.Ways[best]) < 0:
			best = i
		}
	}
	return best
}

// compare puts the way that is to be preferred first.
func (req PipingRequest) compare(v, w *PipingWay) int {
	return cmp.Or(
		behind(!v.Keeps)-behind(!w.Keeps),
		behind(v.Shape.Cut != req.Cut)-behind(w.Shape.Cut != req.Cut),
		cmp.Compare(v.Missing, w.Missing),
		cmp.Compare(v.Strays, w.Strays),
		cmp.Compare(v.Order, w.Order),
		cmp.Compare(v.Joins, w.Joins))
}

// ThriftyPiping answers as Piping does where new cloth is bought with that for the
// panels. It shows the way that needs the least new cloth of those that keep all
// wishes, or that cover all runs when none does; out of the offcuts before any
// other that needs no more.
func ThriftyPiping(ctx context.Context, ready Ready[PipingAnswer]) (*PipingAnswer, error) {
	ans, err := ready(ctx)
	if err != nil {
		return nil, err
	}
	best := -1
	for i := range ans.Ways {
		w := &ans.Ways[i]
		if w.Possible && (best < 0 || thriftier(w, &ans.Ways[best])) {
			best = i
		}
	}
	if best < 0 {
		return ans, nil
	}
	ans.Request.Way = &ans.Ways[best].Way
	ans.Shown = ans.choose()
	ans.Warnings = note.Listed(pipingWarnings(ans), note.Most)
	return ans, nil
}

// thriftier reports whether a way is to be preferred where new cloth is bought
// with that for the panels.
func thriftier(v, w *PipingWay) bool {
	return cmp.Or(
		behind(!v.Keeps)-behind(!w.Keeps),
		cmp.Compare(v.Missing, w.Missing),
		cmp.Compare(v.Cloth, w.Cloth),
		behind(v.Way != piping.FromRects)-behind(w.Way != piping.FromRects),
		cmp.Compare(v.Joins, w.Joins),
	) < 0
}

func behind(yes bool) int {
	if yes {
		return 1
	}
	return 0
}
