package furniture

// others are what is not a chair.
func others() []Kind {
	top := tape("top-rise", "rise", "From the top edge down to the underside of the rail.", 22, 4, 60)
	return []Kind{
		{
			ID: "footstool", Name: "footstool or ottoman", About: "An upholstered box to sit on or put feet on.",
			Measures: []Measure{seatWidth(60, 25, 160), seatDepth(45, 25, 160), top},
			Options:  []Option{{"back", "top", []Choice{{"plain", "plain"}, {"buttoned", "deep-buttoned in diamonds"}}}, pipings()},
			build:    footstool,
		},
		{
			ID: "headboard", Name: "headboard", About: "A padded board behind a bed.",
			Measures: []Measure{
				backWidth(150, 70, 260), tape("back-height", "height", "From the top edge to where the mattress hides it.", 70, 30, 200),
				tape("pad-thickness", "board and pad", "From the front of the pad over its edge to the back of the board.", 8, 2, 25),
			},
			Options: []Option{{"back", "front", []Choice{{"plain", "plain"}, {"buttoned", "deep-buttoned in diamonds"}}}},
			build:   headboard,
		},
		{
			ID: "bench-cushion", Name: "window-seat or bench cushion", About: "A boxed cushion that lies on a bench or a window seat.",
			Measures: []Measure{seatWidth(120, 40, 300), seatDepth(45, 25, 90), cushion(8, 3, 25)},
			Options:  []Option{pipings()},
			build:    func(w *work) { w.cushions("C", "cushion", 1, w.take("seat-width"), w.take("seat-depth"), SeatPlace) },
		},
		{
			ID: "banquette", Name: "banquette", About: "A long fixed bench with a back, against a wall.",
			Measures: []Measure{
				seatWidth(240, 80, 600), seatDepth(48, 35, 80), seatRise(14, 5), backWidth(240, 80, 600), backHeight(50, 25, 120),
			},
			Options: []Option{backs2(), pipings(), flies()},
			build:   banquette,
		},
	}
}

func footstool(w *work) {
	across, along := w.take("seat-width"), w.take("seat-depth")
	w.box(across, along, w.take("top-rise"), "top")
	if w.is("back", "buttoned") {
		w.list.Buttons = append(w.list.Buttons, Buttons{Panel: "TOP", Size: w.panels[0].Size})
	}
	w.frame("SEAT", across, along, SeatPlace)
	w.pad("SP", "top pad", across, along, 8*cm, SeatPlace)
}

// headboard covers the front over the edge; its back is lined.
func headboard(w *work) {
	thick := w.take("pad-thickness")
	across, along := w.take("back-width").plus(thick.twice()), w.take("back-height").plus(thick)
	front := w.shows(w.cut("FRONT", "front", across, along, all(w.under())))
	w.cut("LB", "back lining", w.take("back-width"), w.take("back-height"), all(w.seam())).Cover = Lining
	if w.is("back", "buttoned") {
		w.list.Buttons = append(w.list.Buttons, Buttons{Panel: front.ID, Size: front.Size})
	}
	w.pad("BP", "pad", w.take("back-width"), w.take("back-height"), 5*cm, BackPlace)
}

// banquette has its back against a wall: nothing covers it outside.
func banquette(w *work) {
	across, along := w.take("back-width"), w.take("back-height")
	ib := w.shows(w.cut("IB", "inside back", across, along, edges{w.pull(), w.tucked("B", "inside back", across, 1), w.pull(), w.pull()}))
	if w.is("back", "buttoned") {
		w.list.Buttons = append(w.list.Buttons, Buttons{Panel: ib.ID, Size: ib.Size})
	}
	w.frame("BACK", across, along, BackPlace)
	w.pad("BP", "back pad", across, along, 6*cm, BackPlace)
	w.seat(ib, 1, false)
}
