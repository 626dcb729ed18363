package service

import (
	"context"
	"math"
	"slices"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// ButtoningRequest asks how a panel is buttoned in diamonds.
type ButtoningRequest struct {
	Units   length.System
	Name    string // of the panel
	Panel   buttoning.Panel
	Grid    buttoning.Wish
	Vary    length.Length  // how far the diamond's width and height may be changed for the aim
	Depth   length.Length  // of the wells
	Groove  *length.Length // of the pleats midway; nil: the usual part of the depth
	Model   buttoning.Model
	Eased   bool // the edge is eased, not pleated
	Cloth   cloth.Cloth
	Sizes   []MotifSize
	Lies    buttoning.Shift // where the first motif lies when nothing is aimed at
	Aim     *ButtoningAim
	Join    bool // vandyked joins are allowed
	Buttons ButtonWish
	Shop    practice.Set // what the workroom goes by: the rule of thumb, the seam of a join, the twine
}

// MotifSize is how large a motif is on the cloth.
type MotifSize struct {
	Motif string
	Size  panel.Size
}

// ButtoningAimHow is what the shift is chosen for.
type ButtoningAimHow int

// The aims.
const (
	AimDiamonds ButtoningAimHow = iota // motifs in the middles of the diamonds
	AimButtons                         // motifs on the buttons
	AimPlaces                          // named motifs at named places
)

// ButtoningAim is what the shift of the cloth is chosen for.
type ButtoningAim struct {
	How     ButtoningAimHow
	Motifs  []string // any of these; none: any
	Places  []MotifPlace
	OneSide bool // left and right need not agree
}

// MotifPlace is a motif wanted at a place.
type MotifPlace struct {
	Motif    string
	OnButton bool // else in a diamond
	Spot     buttoning.Spot
}

// ButtonWish is what the buttons are to be.
type ButtonWish struct {
	Lines   int     // the size of their moulds
	Motif   *string // the motif that every button carries; nil for none
	Offcuts []panel.Size
	Tufts   bool // tufts behind, not washers
}

// Button is the button that the request asks for.
func (req ButtoningRequest) Button() buttoning.Button {
	return buttoning.Button{Lines: req.Buttons.Lines, Cloth: req.Shop.Length(practice.ButtonCloth)}
}

// ButtoningAnswer is how the panel is buttoned.
type ButtoningAnswer struct {
	Request ButtoningRequest
	Work    buttoning.Work
	Shift   buttoning.Shift  // of the cloth, as mapped
	Found   *buttoning.Found // nil without an aim
	Begun   float64          // the objective at the shift given
	Wants   int              // places that the aim counts
	Varied  bool             // the spacing was changed for the aim
	Sizes   []panel.Size     // of the motifs, as they were taken
	Motifs  []buttoning.Mapped
	Skew    length.Length // left-right error of the pattern
	Joined  buttoning.Joined
	Buttons ButtonsAnswer

	Warnings []note.Note
	Cautions []note.Note
}

// ButtonsAnswer is what the buttons take.
type ButtonsAnswer struct {
	Count   int
	Circle  length.Length
	Strip   *buttoning.Nest // of the full width; nil when motif-centred, or wider than the cloth
	Offcuts []buttoning.Nest
	InHand  int // circles that the offcuts hold
	Centred *buttoning.Centred
	Twine   length.Length // each
}

// Buttoning answers a request; what is wrong with it is the error. It returns the
// context's error when the context ends first.
func Buttoning(ctx context.Context, req ButtoningRequest) (*ButtoningAnswer, error) {
	return unless(PrepareButtoning(req))(ctx)
}

// PrepareButtoning lays the grid out, and says everything wrong with the request;
// pointers are those of the wire form.
func PrepareButtoning(req ButtoningRequest) (Ready[ButtoningAnswer], fault.List) {
	l := ButtoningFieldFaults(req)
	if l.Len() > 0 {
		return nil, l
	}
	if req.Groove != nil {
		l.Between(fault.At("groove"), "the groove", *req.Groove, 0, req.Depth)
	}
	grid, ok := buttoning.GridFor(req.Panel, req.Grid)
	if !ok {
		l.Add(fault.At("grid"), fault.NoPlace, "", "no such diamonds fit on the panel between its margins, or they would be smaller than 2 cm or larger than 2 m",
			"other diamonds, fewer or more rows and columns, or smaller margins")
		return nil, l
	}
	a := &ButtoningAnswer{Request: req, Work: req.work(grid), Shift: req.Lies}
	req.gridFaults(&l, a.Work)
	return a.complete, l
}

// complete aims and maps the pattern and makes the cover up.
func (a ButtoningAnswer) complete(ctx context.Context) (*ButtoningAnswer, error) {
	req := a.Request
	if req.Aim != nil {
		if err := a.search(ctx); err != nil {
			return nil, err
		}
	}
	p := req.Cloth.Pattern
	a.Sizes = motifSizes(req)
	a.Motifs = a.Work.Map(p, a.Shift, a.Sizes, buttoning.Cover{Button: req.Button().Covered() / 2})
	if p.WidthRepeat > 0 {
		a.Skew = buttoning.Skew(p, a.Shift, req.aimed())
	}
	var ok bool
	if a.Joined, ok = req.madeUp(a.Work, a.Shift); !ok {
		return nil, ErrUnsound
	}
	a.buttons()
	a.Warnings = note.Listed(buttoningWarnings(&a), note.Most)
	a.Cautions = note.Listed(buttoningCautions(req), note.Most)
	return &a, ctx.Err()
}

// spread is how a model allows for the wells.
func (req ButtoningRequest) spread(m buttoning.Model) buttoning.Spread {
	return buttoning.Spread{Model: m, Depth: req.Depth, Amount: req.Shop.Length(practice.ButtoningAmount)}
}

// work spreads a grid out as the request wants it.
func (req ButtoningRequest) work(g buttoning.Grid) buttoning.Work {
	w := buttoning.NewWork(g, req.spread(req.Model), req.Shop)
	w.Allow, w.Eased = req.Panel.Allow, req.Eased
	if req.Groove != nil {
		w.Groove = *req.Groove
	}
	return w
}

// aimed are the numbers of the motifs that the request is about: those of the
// aim, or else all.
func (req ButtoningRequest) aimed() []int {
	var out []int
	motifs := req.Cloth.Pattern.Principal()
	named := map[string]bool{}
	if req.Aim != nil {
		for _, m := range req.Aim.Motifs {
			named[m] = true
		}
		for _, pl := range req.Aim.Places {
			named[pl.Motif] = true
		}
	}
	for k, m := range motifs {
		if len(named) == 0 || named[m.Name] {
			out = append(out, k)
		}
	}
	return out
}

// aim is the aim on a work.
func (req ButtoningRequest) aim(w buttoning.Work) buttoning.Aim {
	a := buttoning.Aim{Cap: w.CapFor(), Symmetric: !req.Aim.OneSide}
	marks := w.Diamonds()
	switch req.Aim.How {
	case AimButtons:
		marks = w.Marks()
	case AimPlaces:
		a.Cap = 0
		for _, pl := range req.Aim.Places {
			m, _ := markOf(w, pl)
			k, _ := req.Cloth.Pattern.Find(pl.Motif)
			a.Wants = append(a.Wants, buttoning.Want{Mark: m, Motifs: []int{k}})
		}
		return a
	}
	for _, m := range marks {
		a.Wants = append(a.Wants, buttoning.Want{Mark: m, Motifs: req.aimed()})
	}
	return a
}

func markOf(w buttoning.Work, pl MotifPlace) (buttoning.Mark, bool) {
	if pl.OnButton {
		return w.ButtonAt(pl.Spot)
	}
	return w.DiamondAt(pl.Spot)
}

// varied are the sizes of diamonds to be tried, the one wished first: up to four
// steps either way across and along, each of a quarter of what is allowed, to
// the millimetre.
func (req ButtoningRequest) varied(d panel.Size) []panel.Size {
	out := []panel.Size{d}
	if req.Vary <= 0 {
		return out
	}
	step := (req.Vary / 4).Round(length.Millimetre, length.Nearest)
	if step < length.Millimetre {
		step = length.Millimetre
	}
	for i := range 9 {
		for j := range 9 {
			across, along := zigzag(i)*step, zigzag(j)*step
			if (i > 0 || j > 0) && max(across, -across, along, -along) <= req.Vary {
				out = append(out, panel.Size{Across: d.Across + across, Along: d.Along + along})
			}
		}
	}
	return out
}

// zigzag counts 0, 1, -1, 2, -2 and so on.
func zigzag(n int) length.Length {
	if n%2 == 1 {
		return length.Length(n+1) / 2
	}
	return -length.Length(n) / 2
}

// leastGain is by how much another spacing must serve the aim better to be worth
// the change.
const leastGain = 1e-9

// search finds the best shift, and with it the best spacing where that may be
// varied. The budget is shared between the spacings.
func (a *ButtoningAnswer) search(ctx context.Context) error {
	req, grid := a.Request, a.Work.Grid
	p := req.Cloth.Pattern
	sizes := req.varied(grid.Diamond())
	for n, size := range sizes {
		if err := ctx.Err(); err != nil {
			return err
		}
		w := a.Work
		if n > 0 {
			g, ok := grid.Spaced(size.Across, size.Along)
			if !ok || !req.within(g) {
				continue
			}
			if w = req.work(g); req.unfit(w) {
				continue
			}
		}
		aim := req.aim(w)
		had := math.Inf(-1)
		if a.Found == nil {
			a.Begun, a.Wants = aim.Score(p, req.Lies), len(aim.Wants)
		} else {
			had = a.Found.Score + leastGain
		}
		if found, ok := buttoning.Better(p, aim, buttoning.MaxWork/len(sizes), had); ok {
			a.Found, a.Work, a.Shift, a.Varied = &found, w, found.Shift, n > 0
		}
	}
	return nil
}

// within reports whether a grid keeps the least margins.
func (req ButtoningRequest) within(g buttoning.Grid) bool {
	e := req.Panel.Edges
	return g.Edges.Side >= e.Side && g.Edges.Top >= e.Top && g.Edges.Bottom >= e.Bottom
}

// unfit reports whether a work cannot be made from the cloth, or has more motifs
// than a map may have.
func (req ButtoningRequest) unfit(w buttoning.Work) bool {
	if w.MotifCount(req.Cloth.Pattern) > buttoning.MaxMotifs {
		return true
	}
	_, ok := req.madeUp(w, req.Lies)
	return !ok
}

// madeUp is how the cover is made up from the cloth; false when it cannot be, or
// not without the joins that are not wanted. Whether it can does not depend on
// how the pattern lies.
func (req ButtoningRequest) madeUp(w buttoning.Work, s buttoning.Shift) (buttoning.Joined, bool) {
	j, ok := w.Joined(req.Cloth.Width, req.Shop.Length(practice.PanelJoin), req.Cloth.Pattern, s)
	if ok && len(j.Joins) > 0 && !req.Join {
		j, ok = w.InOne(req.Cloth.Width, req.Cloth.Pattern, s)
	}
	return j, ok
}

// motifSizes are the extents of the motifs: those given, else the usual part of
// the repeats.
func motifSizes(req ButtoningRequest) []panel.Size {
	p := req.Cloth.Pattern
	motifs := p.Principal()
	sizes, share := make([]panel.Size, len(motifs)), req.Shop.Number(practice.MotifShare)
	for k := range motifs {
		sizes[k] = panel.Size{Across: practice.Part(p.WidthRepeat, share), Along: practice.Part(p.LengthRepeat, share)}
		for _, s := range req.Sizes {
			if s.Motif == motifs[k].Name {
				sizes[k] = s.Size
			}
		}
	}
	return sizes
}

// buttons works out what the buttons take.
func (a *ButtoningAnswer) buttons() {
	req, wish := a.Request, a.Request.Buttons
	b := ButtonsAnswer{Count: a.Work.Buttons(), Circle: req.Button().Circle(req.Shop)}
	b.Twine = buttoning.Twine(req.Depth, req.Shop)
	if wish.Motif != nil {
		k, _ := req.Cloth.Pattern.Find(*wish.Motif)
		if c, ok := buttoning.CentredFor(b.Count, k, b.Circle, req.Cloth.Width, req.Cloth.Pattern); ok {
			b.Centred = &c
		}
		a.Buttons = b
		return
	}
	for _, piece := range wish.Offcuts {
		n := buttoning.NestIn(piece, b.Circle)
		b.Offcuts, b.InHand = append(b.Offcuts, n), b.InHand+n.Count
	}
	if strip, ok := buttoning.StripFor(b.Count-b.InHand, b.Circle, req.Cloth.Width); ok {
		b.Strip = &strip
	}
	a.Buttons = b
}

// maxCircleOffcuts is how many offcuts the circles of one panel are cut from.
const maxCircleOffcuts = 50

// CoveredFrom is the chart with its buttons covered out of the offcuts, as many as
// it takes, and the offcuts that are left.
func (a ButtoningAnswer) CoveredFrom(free []panel.Size) (*ButtoningAnswer, []panel.Size) {
	held := 0
	for len(free) > 0 && held < a.Buttons.Count && a.Request.Buttons.Motif == nil && len(a.Request.Buttons.Offcuts) < maxCircleOffcuts {
		if n := buttoning.NestIn(free[0], a.Buttons.Circle).Count; n > 0 {
			a.Request.Buttons.Offcuts = append(slices.Clip(a.Request.Buttons.Offcuts), free[0])
			held += n
		}
		free = free[1:]
	}
	a.buttons()
	a.Warnings = note.Listed(buttoningWarnings(&a), note.Most)
	return &a, free
}
