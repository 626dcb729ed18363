package furniture

import "github.com/bridletie/bridletie/calc/practice"

// seats are the dining chairs and what they have in common: a pad on a frame.
func seats() []Kind {
	return []Kind{
		{
			ID: "drop-in-seat", Name: "drop-in seat", About: "A webbed pad that lifts out of a dining chair's frame.",
			Measures: []Measure{openSeatWidth(48, 25, 75), padDepth(42, 25, 70), padThickness(4, 1, 12)},
			build:    dropIn,
		},
		{
			ID: "stuff-over-chair", Name: "stuff-over dining chair", About: "A dining chair whose seat is covered over the rails; the back may be upholstered too.",
			Measures: []Measure{
				openSeatWidth(50, 30, 75), padDepth(46, 30, 70), padThickness(9, 3, 20),
				openBackWidth(44, 20, 70), paddedHeight(40, 15, 90), backEdge(3),
			},
			Options: []Option{
				{"back", "back", []Choice{{"none", "open, show-wood"}, {"pad", "upholstered, inside and outside"}, {"buttoned", "upholstered, deep-buttoned in diamonds"}}},
				backFoot(), overOrBoxed(overEdge(), boxedEdge()), pipings(), outsides(), flies(),
			},
			build: stuffOver,
		},
		{
			ID: "carver", Name: "carver", About: "A dining chair with open arms, with pads on them or without.",
			Measures: []Measure{
				openSeatWidth(54, 35, 80), padDepth(48, 30, 70), padThickness(9, 3, 20),
				openBackWidth(46, 20, 70), paddedHeight(42, 15, 90), backEdge(3),
				armPadLength(), armPadWidth(),
			},
			Options: []Option{
				{"back", "back", []Choice{{"pad", "upholstered, inside and outside"}, {"none", "open, show-wood"}, {"buttoned", "upholstered, deep-buttoned in diamonds"}}},
				armPadOptions(Choice{"yes", "with pads"}, Choice{"no", "plain wood"}),
				backFoot(), overOrBoxed(overEdge(), boxedEdge()), pipings(), outsides(), flies(),
			},
			build: carver,
		},
		{
			ID: "bar-stool", Name: "bar stool", About: "A tall stool with a square or a round seat.",
			Measures: []Measure{openSeatWidth(38, 20, 60), padDepth(38, 20, 60), padThickness(8, 3, 20)},
			Options:  []Option{{"seat", "seat", []Choice{{"round", "round"}, {"square", "square"}}}, overOrBoxed(boxedEdge(), overEdge()), tops(), pipings()},
			build:    stool,
		},
		{
			ID: "piano-stool", Name: "piano stool", About: "A stool with a boxed top, often with a lid or a screw.",
			Measures: []Measure{openSeatWidth(56, 25, 130), padDepth(36, 25, 60), padThickness(8, 3, 20)},
			Options:  []Option{{"seat", "seat", []Choice{{"square", "rectangular"}, {"round", "round"}}}, overOrBoxed(boxedEdge(), overEdge()), tops(), pipings()},
			build:    stool,
		},
	}
}

// dropIn covers the pad over its edge and pulls the cloth beneath.
func dropIn(w *work) {
	thick := w.take("pad-thickness")
	across, along := w.take("seat-width").plus(thick.twice()), w.take("seat-depth").plus(thick.twice())
	w.shows(w.cut("SEAT", "seat", across, along, all(w.beneath())))
	w.frame("SEAT", w.take("seat-width"), w.take("seat-depth"), SeatPlace)
	w.pad("SP", "seat pad", w.take("seat-width"), w.take("seat-depth"), thick.l, SeatPlace)
}

// backFoot is where an upholstered back ends below.
func backFoot() Option {
	return Option{"foot", "foot of the back", []Choice{{"clear", "stands clear of the seat"}, {"down", "comes down to the seat"}}}
}

// paddedHeight is the height of a back that stands clear of the seat.
func paddedHeight(typical, least, most int) Measure {
	return tape("back-height", "back height", "Up the middle of the inside back, from its lower edge over the stuffing to the top edge.", ShowLine, ShowLine, typical, least, most)
}

func armPadLength() Measure {
	return tape("arm-pad-length", "arm pad length", "Along the pad on top of an arm, from wood to wood.", Rebate, Rebate, 24, 10, 60)
}

func armPadWidth() Measure {
	return tape("arm-pad-width", "arm pad width", "Over the pad, from the wood at one side to the wood at the other.", Rebate, Rebate, 10, 4, 25)
}

func stuffOver(w *work) { w.diningChair() }

func carver(w *work) {
	w.diningChair()
	w.armPads(w.pull())
}

// diningChair is a seat over the rails and perhaps a back. A seat in one with its
// sides has the depth of the pad added all round; else it has borders.
func (w *work) diningChair() {
	seat := w.padSeat()
	if w.is("back", "none") {
		return
	}
	bw, bh := w.take("back-width"), w.take("back-height")
	e := all(w.over("back-edge"))
	if w.is("foot", "down") {
		e.bottom = w.tucked("B", "inside back", bw, 1)
	}
	ib := w.shows(w.cut("IB", "inside back", bw, bh, e))
	seat.runsOn(ib)
	w.buttoned(ib)
	foot := w.outEdge()
	if w.is("foot", "down") || w.workroom() {
		foot = w.under()
	}
	w.shows(w.outside(w.cut("OB", "outside back", bw, bh, w.closed(foot))))
	if w.pipesEdges() {
		w.run("outside back", 2*bh.l+bw.l, false, 2, 1)
	}
	w.frame("BACK", bw, bh, BackPlace)
	w.pad("BP", "back pad", bw, bh, w.set.Length(practice.DiningBack), BackPlace)
}

// padSeat is a seat on rails.
func (w *work) padSeat() *Panel {
	across, along, thick := w.take("seat-width"), w.take("seat-depth"), w.take("pad-thickness")
	w.frame("SEAT", across, along, SeatPlace)
	w.pad("SP", "seat pad", across, along, thick.l, SeatPlace)
	if w.is("border", "yes") {
		return w.box("SEAT", "seat", across, along, thick, w.under())
	}
	e := all(w.tackedUnder())
	if w.is("foot", "down") {
		e.top = w.tucked("S", "seat", across, 1)
		return w.shows(w.cut("SEAT", "seat", across.plus(thick.twice()), along.plus(thick), e))
	}
	return w.shows(w.cut("SEAT", "seat", across.plus(thick.twice()), along.plus(thick.twice()), e))
}

// tops are how the top of a stool is worked.
func tops() Option {
	return Option{"back", "top", []Choice{{"plain", "plain"}, {"buttoned", "deep-buttoned in diamonds"}}}
}

// stool is a boxed seat, or one in a piece over the edge. A round one has a
// border all round.
func stool(w *work) {
	across, along, thick := w.take("seat-width"), w.take("seat-depth"), w.take("pad-thickness")
	w.frame("SEAT", across, along, SeatPlace)
	w.pad("SP", "seat pad", across, along, thick.l, SeatPlace)
	round := w.is("seat", "round")
	w.list.Frames[0].Round, w.list.Fillings[0].Round = round, round
	switch {
	case w.is("border", "none"):
		w.buttoned(w.shows(w.cut("TOP", "top", across, along, all(wrapped(thick, w.tackedUnder())))))
		return
	case !round:
		w.buttoned(w.box("TOP", "top", across, along, thick, w.under()))
		return
	}
	w.buttoned(w.shows(w.cut("TOP", "top", across, along, all(w.seam()))))
	girth := perimeterOf(max(across.l, along.l))
	w.cut("FB", "border", w.named("way round the seat", girth), thick, edges{w.seam(), w.under(), w.seam(), w.seam()})
	if w.pipesCushions() {
		w.run("top", girth, true, 0, 1)
	}
}
