package furniture

// settees seat several.
func settees() []Kind {
	return []Kind{
		{
			ID: "two-seat-settee", Name: "two-seat settee", About: "A settee for two, with arms.",
			Measures: append(settee(118, 90, 160), append(setteeWings(), skirtHeight())...),
			Options:  append(easyOptions(), settingWings()), build: func(w *work) { setteeOf(w, 2) },
		},
		{
			ID: "three-seat-settee", Name: "three-seat settee", About: "A settee for three, with arms.",
			Measures: append(settee(174, 130, 240), append(setteeWings(), skirtHeight())...),
			Options:  append(easyOptions(), settingWings()), build: func(w *work) { setteeOf(w, 3) },
		},
		{
			ID: "corner-settee", Name: "L-shaped settee", About: "Two settees that meet in a corner, with one arm at each open end.",
			Measures: append(settee(220, 120, 360),
				tape("return-width", "return width", "Across the seat of the shorter leg, from the corner seat to its arm.", 100, 50, 260), skirtHeight()),
			Options: easyOptions(), build: corner,
		},
		{
			ID: "chaise", Name: "chaise", About: "A long seat with a raised head end and an open foot.",
			Measures: []Measure{
				seatWidth(66, 45, 100), tape("seat-depth", "seat length", "Along the middle of the seat, from the foot of the head end to the end of the seat.", 150, 90, 210),
				seatRise(20, 6), backWidth(64, 40, 100), tape("back-height", "head height", "Up the middle of the head end, from the seat over the stuffing to the top edge.", 58, 25, 100),
				outsideWidth(68, 40, 110), outsideHeight(74, 30, 120),
				tape("outside-depth", "side length", "Along the side, from the foot to the outside of the head end.", 160, 90, 230), cushion(12, 4, 25), skirtHeight(),
			},
			Options: []Option{plainOrButtoned(), cushions(fixed(), loose()), platforms(), borders(), skirts(), skirtMakes(), pipings(), outsides(), flies()},
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

// setteeWings are the measures of wings, where a settee has them.
func setteeWings() []Measure {
	return []Measure{
		wingWidth("With wings only: across the inside wing at its widest, from the inside back to its front edge.", 22, 8, 50),
		wingHeight("With wings only: f", 30),
	}
}

func setteeOf(w *work, n int) {
	w.legOf(n)
	if w.is("wings", "yes") {
		w.wings()
	}
	w.skirt()
}

// legOf is a settee without its skirt.
func (w *work) legOf(n int) {
	ib := w.back(true)
	w.seat(ib, n, true)
	w.backCushions(n)
	w.arms()
}

// corner is a settee with a second leg at its end. The long leg takes in the
// corner seat; the return has a back, a seat and a border of its own.
func corner(w *work) {
	w.legOf(3)
	wide, deep := w.take("return-width"), w.take("seat-depth")
	g := leg{id: "R", of: " of the return", across: wide, along: w.take("back-height"), n: 1, between: true}
	ib := w.backOf(g, "RETURN-BACK")
	w.outsideBack(g)
	if w.is("back", "cushions") {
		w.cushions("RB", "return back cushion", 1, wide, g.along, BackPlace)
	}
	g.along = deep
	w.frame("RETURN", wide, deep, SeatPlace)
	w.seatOf(g, ib)
	front, side := w.take("outside-width"), w.take("outside-depth")
	w.skirtOf([]skirtSide{
		{"KF", "skirt front", front, 1}, {"KS", "skirt side", side, 2}, {"KB", "skirt back", front, 1},
		{"KR", "skirt of the return, inside and outside", wide, 2},
	})
}
