package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// The parts of a piece that kinds are put together from.

// back cuts the inside back and the outside back of the main leg.
func (w *work) back(between bool) *Panel {
	ib := w.backOf(leg{across: w.take("back-width"), along: w.take("back-height"), between: between}, "BACK")
	w.outsideBack(leg{across: w.take("outside-width")})
	return ib
}

// backOf cuts an inside back. With loose cushions against it, it hardly shows and
// its pattern is free. The sides are tucked in where arms or wings stand beside
// it, or else pulled round.
func (w *work) backOf(g leg, frame string) *Panel {
	sides := w.pull()
	if g.between {
		sides = w.tucked(g.id+"BS", "inside back"+g.of+", sides", g.along, 2)
	}
	ib := w.cut(g.id+"IB", "inside back"+g.of, g.across, g.along, edges{w.pull(), w.tucked(g.id+"B", "inside back"+g.of, g.across, 1), sides, sides})
	if !w.is("back", "cushions") {
		w.shows(ib)
	}
	w.buttoned(ib)
	w.frame(frame, g.across, g.along, BackPlace)
	if !w.is("back", "cushions") {
		w.pad(g.id+"BP", "back pad"+g.of, g.across, g.along, w.set.Length(practice.BackPad), BackPlace)
	}
	return ib
}

// buttoned notes that a panel is buttoned, when the option says so.
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

// outsideBack closes the back: seams at the top and sides, turned under below.
func (w *work) outsideBack(g leg) {
	high := w.take("outside-height")
	w.shows(w.outside(w.cut(g.id+"OB", "outside back"+g.of, g.across, high, edges{w.seam(), w.under(), w.seam(), w.seam()})))
	if w.pipesEdges() {
		w.run("outside back"+g.of, 2*high.l+g.across.l, false, 2, 1)
	}
}

// leg is a stretch of seat and back that is covered in one: of most pieces the
// only one.
type leg struct {
	id, of        string // "R" and " of the return"; "" of the main leg
	across, along span
	n             int  // loose cushions side by side
	between       bool // arms beside the seat
}

// seat cuts the seat of the main leg.
func (w *work) seat(ib *Panel, n int, between bool) {
	w.frame("SEAT", w.take("seat-width"), w.take("seat-depth"), SeatPlace)
	w.seatOf(leg{across: w.take("seat-width"), along: w.take("seat-depth"), n: n, between: between}, ib)
}

// bordered reports whether a border closes the front of the seat.
func (w *work) bordered() bool { return !w.is("border", "none") }

// seatOf cuts a tight seat, or a platform with n loose cushions on it, and the
// front border. The pattern runs down from the back over a single seat to the
// border; with a boxed cushion, by way of its front.
func (w *work) seatOf(g leg, ib *Panel) {
	var above *Panel
	if w.is("cushion", "loose") {
		w.platform(g)
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
		fb := w.cut(g.id+"FB", "front border"+g.of, g.across, w.take("seat-rise"), edges{w.seam(), w.under(), w.pull(), w.pull()})
		if above != nil {
			fb.runsOn(above)
		} else {
			matched(fb)
		}
	}
	if w.pipesEdges() {
		w.run("front border"+g.of, g.across.l, false, 0, 1)
	}
}

// tightSeat is fixed to the frame; without a border it goes on down over the
// front and under the rail.
func (w *work) tightSeat(g leg, ib *Panel) *Panel {
	sides := w.pull()
	if g.between {
		sides = w.tucked(g.id+"SS", "seat"+g.of+", sides", g.along, 2)
	}
	along, below := g.along, w.seam()
	if !w.bordered() {
		along, below = along.plus(w.take("seat-rise")), w.under()
	}
	seat := w.cut(g.id+"SEAT", "seat"+g.of, g.across, along, edges{w.tucked(g.id+"S", "seat"+g.of, g.across, 1), below, sides, sides})
	if ib != nil && !w.is("back", "cushions") {
		seat.runsOn(ib)
	} else {
		w.shows(seat)
	}
	w.pad(g.id+"SP", "seat pad"+g.of, g.across, g.along, w.set.Length(practice.SeatPad), SeatPlace)
	return seat
}

// arms cuts two arms: inside, outside, and what closes their fronts.
func (w *work) arms() {
	long, rise := w.take("arm-length"), w.take("arm-rise")
	inside := edges{top: w.pull(), bottom: w.tucked("A", "inside arm", long, 2), left: w.pull(), right: w.tucked("AB", "inside arm, back edge", rise, 2)}
	l, r := w.pair("IA", "inside arm", long, rise, inside)
	w.shows(l)
	w.shows(r)
	depth, high := w.take("outside-depth"), w.take("outside-arm")
	l, r = w.pair("OA", "outside arm", depth, high, edges{w.seam(), w.under(), w.seam(), w.seam()})
	matched(w.outside(l))
	matched(w.outside(r))
	thick, front := w.take("arm-thickness"), w.take("facing-height")
	af := matched(w.cut("AF", "arm facing", thick, front, all(w.seam())).copies(2))
	af.Pair = af.ID
	if w.is("arms", "square") {
		w.cut("AT", "arm top", thick, long, edges{w.tuck(), w.seam(), w.seam(), w.seam()}).copies(2)
	}
	if w.pipesEdges() {
		w.run("arm facing", 2*front.l+thick.l, false, 2, 2)
	}
	if w.is("collars", "sewn") {
		w.cut("CO", "collar", w.named("collar", w.set.Length(practice.CollarWidth)), rise, all(w.seam())).copies(2)
	}
	w.thinPads("AP", "arm pad", long, rise)
}

// thinPads are a pad for the left and one for the right.
func (w *work) thinPads(id, name string, across, along span) {
	w.list.Fillings = append(w.list.Fillings, Filling{
		ID: id, Name: name, Count: 2, Size: panel.Size{Across: across.l, Along: along.l}, Thickness: w.set.Length(practice.ThinPad), Place: ArmPlace,
	})
}

// wings cuts two wings, inside and outside.
func (w *work) wings() {
	wide, high := w.take("wing-width"), w.take("wing-height")
	l, r := w.pair("IW", "inside wing", wide, high, edges{w.pull(), w.tuck(), w.pull(), w.tucked("W", "inside wing", high, 2)})
	matched(l)
	matched(r)
	l, r = w.pair("OW", "outside wing", wide, high, all(w.seam()))
	l.Pair = ""
	w.outside(l)
	w.outside(r)
	if w.pipesEdges() {
		w.run("front of a wing", wide.l+high.l, false, 1, 2)
	}
	w.thinPads("WP", "wing pad", wide, high)
}

// box covers a pad that stands proud on a frame: a top, and borders at its four
// sides of which the front one runs on.
func (w *work) box(id, name string, across, along, rise span) *Panel {
	top := w.shows(w.cut(id, name, across, along, all(w.seam())))
	e := edges{w.seam(), w.under(), w.seam(), w.seam()}
	w.cut("FB", "front border", across, rise, e).runsOn(top)
	w.cut("BB", "back border", across, rise, e)
	w.cut("SB", "side border", along, rise, e).copies(2)
	if w.pipesCushions() {
		w.run(name, 2*(across.l+along.l), true, 4, 1)
	}
	return top
}

// perimeterOf is the way round a circle of that breadth, as 22/7 of it: over by
// less than a half in a thousand, so never short.
func perimeterOf(d length.Length) length.Length { return d/7*22 + 22*length.Nanometre }
