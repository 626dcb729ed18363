package furniture

// settees seat several.
func settees() []Kind {
	skirt := tape("skirt-height", "skirt height", "From the rail to a finger above the floor.", 16, 5, 40)
	return []Kind{
		{
			ID: "two-seat-settee", Name: "two-seat settee", About: "A settee for two, with arms.",
			Measures: append(settee(118, 90, 160), skirt), Options: easyOptions(), build: func(w *work) { setteeOf(w, 2) },
		},
		{
			ID: "three-seat-settee", Name: "three-seat settee", About: "A settee for three, with arms.",
			Measures: append(settee(174, 130, 240), skirt), Options: easyOptions(), build: func(w *work) { setteeOf(w, 3) },
		},
		{
			ID: "corner-settee", Name: "L-shaped settee", About: "Two settees that meet in a corner, with one arm at each open end.",
			Measures: append(settee(220, 120, 360),
				tape("return-width", "return width", "Across the seat of the shorter leg, from the corner seat to its arm.", 100, 50, 260), skirt),
			Options: easyOptions(), build: corner,
		},
		{
			ID: "chaise", Name: "chaise", About: "A long seat with a raised head end and an open foot.",
			Measures: []Measure{
				seatWidth(66, 45, 100), tape("seat-depth", "seat length", "Along the middle of the seat, from the foot of the head end to the end of the seat.", 150, 90, 210),
				seatRise(20, 6), backWidth(64, 40, 100), tape("back-height", "head height", "Up the middle of the head end, from the seat over the stuffing to the top edge.", 58, 25, 100),
				outsideWidth(68, 40, 110), outsideHeight(74, 30, 120),
				tape("outside-depth", "side length", "Along the side, from the foot to the outside of the head end.", 160, 90, 230), skirt,
			},
			Options: []Option{backs2(), skirts(), pipings(), outsides(), flies()},
			build:   slipper,
		},
	}
}

// settee are the measures of a settee of that usual seat width; least and most
// are of the seat width too.
func settee(width, least, most int) []Measure {
	list := armchair(58, 58, 22, 58, 54)
	for i, m := range list {
		switch m.ID {
		case "seat-width":
			list[i] = seatWidth(width, least, most)
		case "back-width":
			list[i] = backWidth(width, least, most)
		case "outside-width":
			list[i] = outsideWidth(width+26, least, most+80)
		}
	}
	return list
}

func setteeOf(w *work, n int) {
	ib := w.back(true)
	w.seat(ib, n, true)
	w.backCushions(n)
	w.arms()
	w.skirt()
}

// corner is a settee with a second leg at its end. The long leg takes in the
// corner seat; the return has a back, a seat and a border of its own.
func corner(w *work) {
	setteeOf(w, 3)
	across, along := w.take("return-width"), w.take("seat-depth")
	high := w.take("back-height")
	ib := w.cut("RIB", "inside back of the return", across, high, edges{w.pull(), w.tucked("R", "inside back of the return", across, 1), w.tuck(), w.tuck()})
	if !w.is("back", "cushions") {
		w.shows(ib)
	} else {
		w.cushions("RB", "return back cushion", 1, across, high, BackPlace)
	}
	w.shows(w.outside(w.cut("ROB", "outside back of the return", across, w.take("outside-height"), edges{w.seam(), w.under(), w.seam(), w.seam()})))
	if w.is("cushion", "loose") {
		w.platform("R", " of the return", across, along, true)
		w.cushions("RC", "return seat cushion", 1, across, along, SeatPlace)
	} else {
		w.shows(w.cut("RSEAT", "seat of the return", across, along, edges{w.tuck(), w.seam(), w.tuck(), w.tuck()}))
	}
	matched(w.cut("RFB", "front border of the return", across, w.take("seat-rise"), edges{w.seam(), w.under(), w.pull(), w.pull()}))
	w.frame("RETURN", across, along, SeatPlace)
}
