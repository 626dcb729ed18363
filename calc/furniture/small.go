package furniture

import "github.com/bridletie/bridletie/calc/practice"

// smallChairs have wood that shows beside the cover.
func smallChairs() []Kind {
	return []Kind{
		{
			ID: "low-arm-chair", Name: "small chair with low arms", About: "A small chair with a seat over the rails, a back between open uprights, stuffed over its top rail, and low arms of wood with pads.",
			Measures: []Measure{
				openSeatWidth(56, 35, 80), seatDepth(52, 30, 80), seatRise(14, 4), rebatedWidth(46), backHeight(50, 15, 100), backEdge(4),
				tape("outside-width", "outside width", "Across the outside back, from the rebate of one upright to that of the other.", Rebate, Rebate, 46, 15, 80),
				outsideHeight(58, 15, 110), armPadLength(), armPadWidth(),
			},
			Options: []Option{buttonedOrPlain(), armPadOptions(Choice{"yes", "with pads"}, Choice{"no", "plain wood"}), pipings(), outsides(), flies()},
			build:   lowArmChair,
		},
		{
			ID: "show-wood-chair", Name: "show-wood chair", About: "A chair whose seat and back end at rebates in the wood, beneath gimp or nails.",
			Measures: []Measure{
				tape("seat-width", "seat width", "Over the stuffing of the seat, from rebate to rebate.", Rebate, Rebate, 54, 30, 80),
				tape("seat-depth", "seat depth", "Over the stuffing of the seat, from the rebate at the back to that at the front.", Rebate, Rebate, 52, 30, 80),
				rebatedWidth(44),
				tape("back-height", "back height", "Up the middle of the inside back over the stuffing, from rebate to rebate.", Rebate, Rebate, 44, 15, 100),
				armPadLength(), armPadWidth(),
			},
			Options: []Option{
				{"back", "back", []Choice{{"plain", "upholstered, inside and outside"}, {"buttoned", "upholstered, deep-buttoned in diamonds"}, {"none", "open"}}},
				armPadOptions(Choice{"no", "plain wood"}, Choice{"yes", "with pads"}), outsides(),
			},
			build: showWood,
		},
		{
			ID: "one-piece-chair", Name: "chair covered in one", About: "A low chair without arms whose seat and inside back are covered in one piece.",
			Measures: []Measure{
				openSeatWidth(54, 30, 85), seatDepth(52, 30, 80), seatRise(12, 4), openBackWidth(50, 30, 85), backHeight(50, 20, 100), backEdge(5),
				outsideWidth(52, 30, 90), outsideHeight(60, 20, 120),
			},
			Options: []Option{plainOrButtoned(), pipings(), outsides()},
			build:   onePiece,
		},
	}
}

func buttonedOrPlain() Option {
	return Option{"back", "inside back", []Choice{{"buttoned", "deep-buttoned in diamonds"}, {"plain", "plain"}}}
}

func rebatedWidth(typical int) Measure {
	return tape("back-width", "back width", "Across the inside back over the stuffing, from rebate to rebate.", Rebate, Rebate, typical, 15, 80)
}

// lowArmChair is stuffed over its seat rails and the top rail of its back. At the
// uprights its covers end in rebates, and are cut in round the bars of the arms: a
// fly would be seen there, and lies between the uprights only.
func lowArmChair(w *work) {
	bw, bh := w.take("back-width"), w.take("back-height")
	trim := w.rebate()
	ib := w.shows(w.cut("IB", "inside back", bw, bh, edges{w.over("back-edge"), w.tucked("B", "inside back", bw, 1), trim, trim}))
	w.buttoned(ib)
	w.shows(w.outside(w.cut("OB", "outside back", w.take("outside-width"), w.take("outside-height"), edges{w.backTack(), w.under(), trim, trim})))
	w.frame("BACK", bw, bh, BackPlace)
	w.pad("BP", "back pad", bw, bh, w.set.Length(practice.BackPad), BackPlace)
	across, along := w.take("seat-width"), w.take("seat-depth")
	over := wrapped(w.take("seat-rise"), w.tackedUnder())
	w.cut("SEAT", "seat", across, along, edges{w.tucked("S", "seat", bw, 1), over, over, over}).runsOn(ib)
	w.frame("SEAT", across, along, SeatPlace)
	w.pad("SP", "seat pad", across, along, w.set.Length(practice.SeatPad), SeatPlace)
	w.armPads(trim)
	if w.pipesEdges() {
		w.run("outside back", 2*bh.l+bw.l, false, 2, 1)
	}
}

// showWood ends at rebates everywhere.
func showWood(w *work) {
	trim := all(w.rebate())
	across, along := w.take("seat-width"), w.take("seat-depth")
	seat := w.shows(w.cut("SEAT", "seat", across, along, trim))
	w.frame("SEAT", across, along, SeatPlace)
	w.pad("SP", "seat pad", across, along, w.set.Length(practice.SeatPad), SeatPlace)
	if !w.is("back", "none") {
		bw, bh := w.take("back-width"), w.take("back-height")
		ib := w.shows(w.cut("IB", "inside back", bw, bh, trim))
		seat.runsOn(ib)
		w.buttoned(ib)
		w.shows(w.outside(w.cut("OB", "outside back", bw, bh, trim)))
		w.frame("BACK", bw, bh, BackPlace)
		w.pad("BP", "back pad", bw, bh, w.set.Length(practice.BackPad), BackPlace)
	}
	w.armPads(w.rebate())
}

// onePiece runs from behind the back over seat and front without a seam, as broad
// as the broader of the two wants it.
func onePiece(w *work) {
	sw, bw := w.take("seat-width"), w.take("back-width")
	deep, high, rise := w.take("seat-depth"), w.take("back-height"), w.take("seat-rise")
	foot, edge := wrapped(rise, w.tackedUnder()), w.over("back-edge")
	across, side := sw, foot
	if bw.l+2*edge.l() > sw.l+2*foot.l() {
		across, side = bw, edge
	}
	p := w.shows(w.cut("ONE", "seat and inside back", across, high.plus(deep), edges{edge, foot, side, side}))
	w.buttoned(p)
	w.outsideBack(leg{across: w.take("outside-width")})
	w.frame("SEAT", sw, deep, SeatPlace)
	w.frame("BACK", bw, high, BackPlace)
	w.pad("SP", "seat pad", sw, deep, w.set.Length(practice.SeatPad), SeatPlace)
	w.pad("BP", "back pad", bw, high, w.set.Length(practice.BackPad), BackPlace)
}
