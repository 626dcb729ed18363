package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// The parts of a piece that kinds are put together from.

// back cuts the inside back and the outside back. With loose cushions against
// it, the inside back hardly shows and its pattern is free. The sides are tucked
// in where arms or wings stand beside it, or else pulled round.
func (w *work) back(between bool) *Panel {
	across, along := w.take("back-width"), w.take("back-height")
	sides := w.pull()
	if between {
		sides = w.tucked("BS", "inside back, sides", along, 2)
	}
	ib := w.cut("IB", "inside back", across, along, edges{w.pull(), w.tucked("B", "inside back", across, 1), sides, sides})
	if !w.is("back", "cushions") {
		w.shows(ib)
	}
	if w.is("back", "buttoned") {
		w.list.Buttons = append(w.list.Buttons, Buttons{Panel: ib.ID, Size: ib.Size})
	}
	w.frame("BACK", across, along, BackPlace)
	if !w.is("back", "cushions") {
		w.pad("BP", "back pad", across, along, 6*cm, BackPlace)
	}
	w.outsideBack()
	return ib
}

// outsideBack closes the back: seams at the top and sides, turned under below.
func (w *work) outsideBack() {
	ow, oh := w.take("outside-width"), w.take("outside-height")
	ob := w.outside(w.cut("OB", "outside back", ow, oh, edges{w.seam(), w.under(), w.seam(), w.seam()}))
	w.shows(ob)
	if w.pipesEdges() {
		w.run("outside back", 2*oh.l+ow.l, false, 2, 1)
	}
}

// seat cuts a tight seat, or a platform with n loose cushions on it, and the
// front border. The pattern runs down from the back over a single seat to the
// border. Between says that the seat is tucked in beside arms.
func (w *work) seat(ib *Panel, n int, between bool) {
	across, along, rise := w.take("seat-width"), w.take("seat-depth"), w.take("seat-rise")
	w.frame("SEAT", across, along, SeatPlace)
	var above *Panel
	if w.is("cushion", "loose") {
		w.platform("", "", across, along, between)
		above = w.cushions("C", "seat cushion", n, across, along, SeatPlace)
		if n > 1 {
			above = nil
		}
	} else {
		sides := w.pull()
		if between {
			sides = w.tucked("SS", "seat, sides", along, 2)
		}
		above = w.cut("SEAT", "seat", across, along, edges{w.tucked("S", "seat", across, 1), w.seam(), sides, sides})
		if ib != nil && !w.is("back", "cushions") {
			above.runsOn(ib)
		} else {
			w.shows(above)
		}
		w.pad("SP", "seat pad", across, along, 10*cm, SeatPlace)
	}
	fb := w.cut("FB", "front border", across, rise, edges{w.seam(), w.under(), w.pull(), w.pull()})
	if above != nil {
		fb.runsOn(above)
	} else {
		matched(fb)
	}
	if w.pipesEdges() {
		w.run("front border", across.l, false, 0, 1)
	}
}

// lip is how far the top cover reaches back from the front of a platform.
const lip = 15 * cm

// platform lies under loose cushions: a lip of the top cover at the front, and
// lining behind it.
func (w *work) platform(id, of string, across, along span, between bool) {
	sides := w.pull()
	if between {
		sides = w.tuck()
	}
	w.cut(id+"PF", "platform front"+of, across, w.named("platform lip", lip), edges{w.seam(), w.seam(), sides, sides})
	rest := span{max(along.l-lip, cm), along.words + " less the platform lip " + w.text(lip)}
	w.cut(id+"PL", "platform"+of, across, rest, edges{w.tuck(), w.seam(), sides, sides}).Cover = Lining
}

// cushions cuts n cushions side by side: tops with the motif, undersides, and
// borders, of which the front one runs on from the top. It returns the top.
func (w *work) cushions(id, name string, n int, across, along span, place Place) *Panel {
	each, thick := across.part(n), w.take("cushion-thickness")
	seam := all(w.seam())
	top := w.shows(w.cut(id+"T", name+" top", each, along, seam).copies(n))
	front := w.cut(id+"F", name+" front border", each, thick, seam).copies(n)
	front.runsOn(top)
	w.cut(id+"U", name+" underside", each, along, seam).copies(n)
	w.cut(id+"S", name+" side border", along, thick, seam).copies(2 * n)
	// The back border is cut wider, for a zip.
	w.cut(id+"B", name+" back border", each, thick.plus(w.named("zip", 2*cm)), seam).copies(n)
	if w.pipesCushions() {
		w.run(name+", top and underside", 2*(each.l+along.l), true, 4, 2*n)
	}
	w.list.Fillings = append(w.list.Fillings, Filling{
		ID: id, Name: name, Count: n, Size: panel.Size{Across: each.l, Along: along.l},
		Thickness: thick.l, Place: place, Loose: true,
	})
	return top
}

// backCushions leans n cushions against the back.
func (w *work) backCushions(n int) {
	if w.is("back", "cushions") {
		w.cushions("B", "back cushion", n, w.take("back-width"), w.take("back-height"), BackPlace)
	}
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
	w.list.Fillings = append(w.list.Fillings, Filling{
		ID: "AP", Name: "arm pad", Count: 2, Size: panel.Size{Across: long.l, Along: rise.l}, Thickness: 3 * cm, Place: ArmPlace,
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
}

// skirt hangs four panels from the rail, joined at the corners. A plain one has
// a pleat of 10 cm depth at each corner, half of it on either panel; box pleats
// that touch take twice the run.
func (w *work) skirt() {
	if w.is("skirt", "none") {
		return
	}
	wide, deep, high := w.take("outside-width"), w.take("outside-depth"), w.take("skirt-height")
	full := func(s span) span {
		if w.is("skirt", "box") {
			return s.twice()
		}
		return s.plus(w.named("half a corner pleat", 10*cm).twice())
	}
	e := edges{w.seam(), w.under(), w.seam(), w.seam()}
	matched(w.cut("KF", "skirt front", full(wide), high, e))
	w.cut("KS", "skirt side", full(deep), high, e).copies(2)
	w.cut("KB", "skirt back", full(wide), high, e)
}

// box covers a pad that stands proud on a frame: a top, and borders at its four
// sides of which the front one runs on.
func (w *work) box(across, along, rise span, closed string) {
	top := w.shows(w.cut("TOP", "top", across, along, all(w.seam())))
	front := w.cut("FB", "front border", across, rise, edges{w.seam(), w.under(), w.seam(), w.seam()})
	front.runsOn(top)
	w.cut("BB", "back border", across, rise, edges{w.seam(), w.under(), w.seam(), w.seam()})
	w.cut("SB", "side border", along, rise, edges{w.seam(), w.under(), w.seam(), w.seam()}).copies(2)
	if w.pipesCushions() {
		w.run(closed, 2*(across.l+along.l), true, 4, 1)
	}
}

// perimeterOf is the way round a circle of that breadth, as 22/7 of it: over by
// less than a half in a thousand, so never short.
func perimeterOf(d length.Length) length.Length { return d/7*22 + 22*length.Nanometre }
