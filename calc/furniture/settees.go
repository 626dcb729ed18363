package furniture

import "slices"

// settees seat several.
func settees() []Kind {
	return []Kind{
		{
			ID: "two-seat-settee", class: sofas, Name: "two-seat settee", About: "A settee for two, with arms.",
			Measures: slices.Concat(settee(118, 90, 160), setteeWings(), outsideWing("With wings only: a", 24, 34), ears(), apart(58, 58), []Measure{skirtHeight()}),
			Options:  append(easyOptions(), aboveArms(), settingWings()), build: func(w *work) { setteeOf(w, 2) },
		},
		{
			ID: "three-seat-settee", class: sofas, Name: "three-seat settee", About: "A settee for three, with arms.",
			Measures: slices.Concat(settee(174, 130, 240), setteeWings(), outsideWing("With wings only: a", 24, 34), ears(), apart(58, 58), []Measure{skirtHeight()}),
			Options:  append(easyOptions(), aboveArms(), settingWings()), build: func(w *work) { setteeOf(w, 3) },
		},
		{
			ID: "corner-settee", Name: "L-shaped settee", About: "Two settees that meet in a corner, with one arm at each open end.",
			Measures: append(without(settee(220, 120, 360), "top-width"),
				tape("return-width", "return width", "Across the seat of the shorter leg, from the corner seat to its arm.", Crease, Crease, 100, 50, 260), skirtHeight()),
			Options: append(slices.DeleteFunc(easyOptions(), func(o Option) bool { return o.ID == "cushion-shape" }), aboveArms()), build: corner,
		},
		{
			ID: "chaise", Name: "chaise", About: "A long seat with a raised head end and an open foot.",
			Measures: []Measure{
				openSeatWidth(66, 45, 100), tape("seat-depth", "seat length", "Along the middle of the seat, from the foot of the head end to the end of the seat.", Crease, ShowLine, 150, 90, 210),
				seatRise(20, 6), seatEdge(), openBackWidth(64, 40, 100), tape("back-height", "head height", "Up the middle of the head end, from the seat over the stuffing to the top edge.", Crease, ShowLine, 58, 25, 100),
				backEdge(8), outsideWidth(68, 40, 110), outsideHeight(74, 30, 120),
				tape("outside-depth", "side length", "Along the side, from the foot to the outside of the head end.", ShowLine, ShowLine, 160, 90, 230),
				tape("long-length", "long back length", "With a back along one side only: along it, from the head end to its end.", Crease, ShowLine, 110, 40, 200),
				tape("long-height", "long back height", "With a back along one side only: from the seat up to the seam under its roll.", Crease, SeamLine, 28, 10, 70),
				tape("roll-girth", "roll", "With a back along one side only: from the seam over the roll to where its cover is tacked outside.", SeamLine, TackLine, 34, 10, 80),
				tape("long-outside", "outer long back", "With a back along one side only: from below the roll down to the underside of the rail.", ShowLine, ShowLine, 42, 10, 90),
				tape("roll-front", "roll front", "With a back along one side only: across the round front of its roll.", ShowLine, ShowLine, 11, 4, 35),
				tape("head-front", "head front", "With facings at the head only: across the front of the head's scroll at its widest.", ShowLine, ShowLine, 16, 4, 40), facingHeight(24, 10, 90), cushion(12, 4, 25), skirtHeight(),
			},
			Options: []Option{
				plainOrButtoned(), cushions(fixed(), loose()), undersides(), {"long-back", "back along one side", []Choice{{"none", "none"}, {"roll", "a low back that ends in a roll"}}},
				{"head", "sides of the head", []Choice{{"round", "covered round"}, {"facings", "with facings at its scroll"}}},
				platforms(), seatBorders(), skirts(), skirtMakes(), pipings(), outsides(), flies(),
			},
			sided: sides,
			build: chaise,
		},
	}
}

// settee are the measures of a settee of that usual seat width; least and most
// are of the seat width too.
func settee(width, least, most int) []Measure {
	list := append(armchair(58, 58, 22, 58, 54), topWidth(width+26, least, most+80), backEdge(6))
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
		wingHeight("With wings only: f", 30), wingRoll("With wings only: f", 4),
	}
}

// without are the measures but one.
func without(list []Measure, id string) []Measure {
	return slices.DeleteFunc(list, func(m Measure) bool { return m.ID == id })
}

func setteeOf(w *work, n int) {
	by := theArms
	if w.is("wings", "yes") {
		by = theWings
	}
	w.legOf(n, by)
	if by == theWings {
		w.wings()
	}
	w.skirt()
}

// legOf is a settee without its skirt.
func (w *work) legOf(n int, by beside) {
	ib := w.back(by)
	w.seat(ib, n, by)
	w.backCushions(n)
	w.arms()
}

// chaise is a long seat, perhaps with a low back along one side of it.
func chaise(w *work) {
	slipper(w)
	if w.is("head", "facings") {
		matched(w.cut("HF", "head facing", w.take("head-front"), w.take("facing-height"), all(w.facing())).copies(2))
	}
	if !w.is("long-back", "roll") {
		return
	}
	long, high, roll := w.take("long-length"), w.take("long-height"), w.take("roll-girth")
	w.shows(w.cut("LB", "inside long back", long, high, edges{w.seam(), w.tucked("L", "inside long back", long, 1), w.pull(), w.tucked("LH", "inside long back, at the head", high, 1)}))
	w.cut("LR", "roll", long, roll, edges{w.pull(), w.seam(), w.pull(), w.tucked("R", "roll, at the head", roll, 1)})
	matched(w.outside(w.cut("OL", "outside long back", w.take("outside-depth"), w.take("long-outside"), w.closed(w.under()))))
	front := w.take("roll-front")
	w.cut("RF", "roll facing", front, front, all(w.facing()))
	w.thinPad("AP", "pad of the long back", long, high.plus(roll), 1)
}

// corner is a settee with a second leg at its end. The long leg takes in the
// corner seat; the return has a back, a seat and a border of its own.
func corner(w *work) {
	w.legOf(3, oneArm)
	wide, deep := w.take("return-width"), w.take("seat-depth")
	g := leg{id: "R", of: " of the return", across: wide, along: w.take("back-height"), n: 1, beside: oneArm}
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
