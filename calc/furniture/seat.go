package furniture

import "github.com/bridletie/bridletie/calc/practice"

// seat cuts the seat of the main leg.
func (w *work) seat(ib *Panel, n int, by beside) {
	w.frame("SEAT", w.take("seat-width"), w.take("seat-depth"), SeatPlace)
	w.seatOf(leg{across: w.take("seat-width"), along: w.take("seat-depth"), n: n, beside: by}, ib)
}

// bordered reports whether a border closes the front of the seat.
func (w *work) bordered() bool { return !w.is("border", "none") }

// seatOf cuts a tight seat, or a platform with n loose cushions on it, and the
// front border. The pattern runs down from the back over a single seat to the
// border; with a boxed cushion, by way of its front.
func (w *work) seatOf(g leg, ib *Panel) {
	var above *Panel
	front := w.acrossFront(g.across, g.n)
	border := front
	if g.id == "" {
		border = w.takeOr("border-width", front)
	}
	if w.is("cushion", "loose") {
		w.platform(g, front)
		name := "seat cushion"
		if g.id != "" {
			name = "return seat cushion"
		}
		above = w.cushions(g.id+"C", name, g.n, g.across, g.along, SeatPlace)
		if g.n > 1 {
			above = nil
		}
	} else {
		above = w.tightSeat(g, ib)
	}
	if w.bordered() {
		fb := w.cut(g.id+"FB", "front border"+g.of, border, w.take("seat-rise"), edges{w.seam(), w.under(), w.borderEnd(), w.borderEnd()})
		if above != nil {
			fb.runsOn(above)
		} else {
			matched(fb)
		}
	}
	if w.pipesEdges() {
		w.run("front border"+g.of, border.l, false, 0, 1)
	}
}

// tightSeat is fixed to the frame; without a border it goes on down over the
// front and under the rail.
func (w *work) tightSeat(g leg, ib *Panel) *Panel {
	sides := w.seatSides(g)
	along, below := g.along, w.seam()
	if !w.bordered() {
		along, below = along.plus(w.take("seat-rise")), w.under()
	}
	e := edges{w.tucked(g.id+"S", "seat"+g.of, g.across, 1), below, sides, sides}
	if w.is("long-back", "roll") {
		e.right = w.tucked(g.id+"SL", "seat, beside the long back", g.along, 1)
	}
	seat := w.cut(g.id+"SEAT", "seat"+g.of, g.across, along, e)
	if ib != nil && !w.is("back", "cushions") {
		seat.runsOn(ib)
	} else {
		w.shows(seat)
	}
	w.pad(g.id+"SP", "seat pad"+g.of, g.across, g.along, w.set.Length(practice.SeatPad), SeatPlace)
	return seat
}

// seatSides is what is added at the sides of a tight seat: tucked in beside arms,
// sewn to side borders, or else in one with its sides, down and under the rail.
func (w *work) seatSides(g leg) edge {
	switch {
	case g.beside != nothing:
		return w.tucked(g.id+"SS", "seat"+g.of+", sides", g.along, 2)
	case w.sideBorders() && w.workroom():
		return w.seam()
	case w.sideBorders() || !w.workroom() && w.kind.sided == noSides:
		return w.pull()
	}
	return wrapped(w.take("seat-rise"), w.under())
}

// sided is whether a kind without arms has borders at the sides of its seat.
type sided int

const (
	noSides sided = iota
	sides         // where it has one at the front
)

func (w *work) sideBorders() bool { return w.kind.sided == sides && w.bordered() }

// sidesOf cuts the side borders of a seat without arms, where it has them.
func (w *work) sidesOf() {
	if w.sideBorders() {
		w.cut("SB", "side border", w.take("outside-depth"), w.take("seat-rise"), edges{w.seam(), w.under(), w.outEdge(), w.outEdge()}).copies(2)
	}
}

// platform lies under loose cushions: a lip of the top cover at the front, which
// goes over the edge to the border, or on down over the front where there is none;
// and lining or the cover behind it.
func (w *work) platform(g leg, front span) {
	lipSides, sides := w.joint(), w.tuck()
	if g.beside == nothing {
		lipSides = w.over("seat-edge")
		sides = w.pull()
	}
	lip := w.named("platform lip", w.set.Length(practice.PlatformLip))
	deep, below := lip, w.seam()
	switch {
	case !w.bordered():
		deep, below = deep.plus(w.take("seat-rise")), w.under()
	case w.workroom():
		deep = deep.plus(w.take("seat-edge"))
	}
	pf := w.cut(g.id+"PF", "platform front"+g.of, front, deep, edges{w.seam(), below, lipSides, lipSides})
	if !w.bordered() {
		matched(pf)
	}
	rest := g.along.less(w.named("the platform lip", lip.l), cm)
	pl := w.cut(g.id+"PL", "platform"+g.of, g.across, rest, edges{w.tuck(), w.seam(), sides, sides})
	if !w.is("platform", "cover") {
		hide(pl)
	}
}

// box covers a pad that stands proud on a frame: a top, and borders at its four
// sides of which the front one runs on.
func (w *work) box(id, name string, across, along, rise span, foot edge) *Panel {
	top := w.shows(w.cut(id, name, across, along, all(w.seam())))
	e := edges{w.seam(), foot, w.seam(), w.seam()}
	w.cut("FB", "front border", across, rise, e).runsOn(top)
	w.cut("BB", "back border", across, rise, e)
	w.cut("SB", "side border", along, rise, e).copies(2)
	if w.pipesCushions() {
		w.run(name, 2*(across.l+along.l), true, 4, 1)
	}
	return top
}
