package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// arms cuts two arms: inside, outside, and what closes their fronts.
func (w *work) arms() (left, right *Panel) {
	return w.armsFrom(w.take("arm-length"), w.take("arm-rise"))
}

// armsFrom cuts them with insides of that length and rise.
func (w *work) armsFrom(long, rise span) (left, right *Panel) {
	front, top := w.over("arm-edge"), w.pull()
	if w.workroom() && w.is("arms", "square") {
		top = w.seam() // to the arm top
	}
	left, right = w.pair("IA", "inside arm", long, rise, edges{
		top: top, bottom: w.tucked("A", "inside arm", long, 2), left: front, right: w.tucked("AB", "inside arm, back edge", rise, 2),
	})
	w.shows(left)
	w.shows(right)
	depth, high := w.take("outside-depth"), w.take("outside-arm")
	l, r := w.pair("OA", "outside arm", depth, high, w.closed(w.under()))
	matched(w.outside(l))
	matched(w.outside(r))
	w.facings(2)
	thick := w.take("arm-thickness")
	if w.is("arms", "square") {
		w.cut("AT", "arm top", thick, long, edges{w.joint(), w.seam(), w.seam(), w.seam()}).copies(2)
	}
	if w.pipesEdges() {
		w.run("arm facing", 2*w.take("facing-height").l+thick.l, false, 2, 2)
	}
	if w.is("collars", "sewn") {
		w.cut("CO", "collar", w.named("collar", w.set.Length(practice.CollarWidth)), rise, all(w.seam())).copies(2)
	}
	w.thinPads("AP", "arm pad", long, rise)
	return left, right
}

// facings close the fronts of arms.
func (w *work) facings(n int) {
	af := matched(w.cut("AF", "arm facing", w.take("arm-thickness"), w.take("facing-height"), all(w.facing())).copies(n))
	if n > 1 {
		af.Pair = af.ID
	}
}

// thinPads are a pad for the left and one for the right.
func (w *work) thinPads(id, name string, across, along span) { w.thinPad(id, name, across, along, 2) }

func (w *work) thinPad(id, name string, across, along span, n int) {
	w.list.Fillings = append(w.list.Fillings, Filling{
		ID: id, Name: name, Count: n, Size: panel.Size{Across: across.l, Along: along.l}, Thickness: w.set.Length(practice.ThinPad), Place: ArmPlace,
	})
}

// wings cuts two wings, inside and outside.
func (w *work) wings() {
	wide, high := w.take("wing-width"), w.take("wing-height")
	roll := w.over("wing-roll")
	l, r := w.pair("IW", "inside wing", wide, high, edges{roll, w.joint(), roll, w.tucked("W", "inside wing", high, 2)})
	matched(l)
	matched(r)
	outWide, outHigh := wide, high
	if w.workroom() {
		outWide, outHigh = w.take("outer-wing-width"), w.take("outer-wing-height")
	}
	l, r = w.pair("OW", "outside wing", outWide, outHigh, w.closed(w.outEdge()))
	l.Pair = ""
	w.outside(l)
	w.outside(r)
	if w.pipesEdges() {
		w.run("front of a wing", wide.l+high.l, false, 1, 2)
	}
	w.thinPads("WP", "wing pad", wide, high)
}

// armPads are the pads on show-wood arms.
func (w *work) armPads(side edge) {
	if w.is("arm-pads", "yes") {
		wide, long := w.take("arm-pad-width"), w.take("arm-pad-length")
		w.cut("PAD", "arm pad", wide, long, all(side)).copies(2)
		w.thinPads("AP", "arm pad", long, wide)
	}
}

// perimeterOf is the way round a circle of that breadth, as 22/7 of it: over by
// less than a half in a thousand, so never short.
func perimeterOf(d length.Length) length.Length { return d/7*22 + 22*length.Nanometre }
