package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// beside is what stands beside a seat and its back.
type beside int

const (
	nothing beside = iota // both are seen from the side
	theArms
	theWings // and arms beneath them
	oneArm   // and on the other side the corner of the piece
	curve    // the arms are one with the back
)

// leg is a stretch of seat and back that is covered in one: of most pieces the
// only one.
type leg struct {
	id, of        string // "R" and " of the return"; "" of the main leg
	across, along span
	n             int // loose cushions side by side
	beside        beside
}

// back cuts the inside back and the outside back of the main leg.
func (w *work) back(by beside) *Panel {
	ib := w.backOf(leg{across: w.take("back-width"), along: w.take("back-height"), beside: by}, "BACK")
	w.outsideBack(leg{across: w.take("outside-width")})
	return ib
}

// backOf cuts an inside back. With loose cushions against it, it hardly shows and
// its pattern is free.
func (w *work) backOf(g leg, frame string) *Panel {
	across, left, right := w.backSides(g)
	top := w.over("back-edge")
	ib := w.cut(g.id+"IB", "inside back"+g.of, across, g.along, edges{top, w.tucked(g.id+"B", "inside back"+g.of, g.across, 1), left, right})
	if !w.is("back", "cushions") {
		w.shows(ib)
	}
	w.buttoned(ib)
	w.frame(frame, g.across, g.along, BackPlace)
	if !w.is("back", "cushions") {
		w.pad(g.id+"BP", "back pad"+g.of, across, g.along, w.set.Length(practice.BackPad), BackPlace)
	}
	return ib
}

// backSides is how broad an inside back is, and what is added at its sides. It is
// tucked in where arms or wings stand beside it. One that rises above the arms is
// covered over both edges there: its flies end below the top of the arms, where they
// would be seen.
func (w *work) backSides(g leg) (across span, left, right edge) {
	name := "inside back" + g.of + ", sides"
	switch {
	case g.beside == nothing:
		e := w.over("back-edge")
		return g.across, e, e
	case g.beside == curve:
		e := w.over("arm-edge")
		return g.across, e, e
	case g.beside == theWings || !w.is("above", "yes"):
		e := w.tucked(g.id+"BS", name, g.along, 2)
		return g.across, e, e
	}
	low, free := w.tucked(g.id+"BS", name, shorter(w.take("arm-rise"), g.along), 2), w.over("back-edge")
	if g.beside == oneArm {
		return g.across.plus(w.take("arm-thickness")), free, low
	}
	if top := w.take("top-width"); top.l+2*free.l() > g.across.l+2*low.l() {
		return top, free, free
	}
	return g.across, low, low
}

// shorter is the shorter of two spans.
func shorter(a, b span) span {
	if b.l < a.l {
		return b
	}
	return a
}

// longer is the longer of two spans.
func longer(a, b span) span {
	if b.l > a.l {
		return b
	}
	return a
}

// outsideBack closes the back.
func (w *work) outsideBack(g leg) {
	high := w.take("outside-height")
	w.shows(w.outside(w.cut(g.id+"OB", "outside back"+g.of, g.across, high, w.closed(w.under()))))
	if w.pipesEdges() {
		w.run("outside back"+g.of, 2*high.l+g.across.l, false, 2, 1)
	}
}

// buttoned notes that a panel is buttoned, when the option says so. Buttons stand on
// what shows, not on what is pulled round the edge.
func (w *work) buttoned(p *Panel) {
	if w.is("back", "buttoned") {
		w.list.Buttons = append(w.list.Buttons, Buttons{Panel: p.ID, Size: p.Size, Diamond: w.diamond(p.Size)})
	}
}

// diamond is the usual one: as wide as can be, so that some fit either way.
func (w *work) diamond(s panel.Size) panel.Size {
	fit := length.Length(w.set.Count(practice.DiamondsFit))
	wide := min(w.set.Length(practice.DiamondWidest), s.Across/fit, s.Along/fit)
	wide -= wide % w.set.Length(practice.DiamondStep)
	wide = max(wide, w.set.Length(practice.DiamondLeast))
	return panel.Size{Across: wide, Along: practice.Times(wide, w.set.Number(practice.DiamondHeight))}
}
