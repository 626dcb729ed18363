package furniture

import "github.com/bridletie/bridletie/calc/practice"

// others are what is not a chair.
func others() []Kind {
	top := tape("top-rise", "rise", "From the top edge down to the underside of the rail.", ShowLine, ShowLine, 22, 4, 60)
	return []Kind{
		{
			ID: "footstool", Name: "footstool or ottoman", About: "An upholstered box to sit on or put feet on.",
			Measures: []Measure{openSeatWidth(60, 25, 160), padDepth(45, 25, 160), top, skirtHeight()},
			Options:  []Option{tops(), overOrBoxed(boxedEdge(), overEdge()), skirts(), skirtMakes(), pipings()},
			build:    footstool,
		},
		{
			ID: "headboard", Name: "headboard", About: "A padded board behind a bed.",
			Measures: []Measure{
				openBackWidth(150, 70, 260), tape("back-height", "height", "From the top edge to where the mattress hides it.", ShowLine, ShowLine, 70, 30, 200),
				tape("pad-thickness", "board and pad", "From the front of the pad over its edge to the back of the board.", ShowLine, TackLine, 8, 2, 25),
				wingWidth("With wings only: from the front of the board to the front edge of the wing at its side.", 20, 8, 60),
			},
			Options: []Option{
				{"back", "front", []Choice{{"plain", "plain"}, {"buttoned", "deep-buttoned in diamonds"}}},
				overOrBoxed(overEdge(), Choice{"yes", "with a border at the top and sides"}),
				{"wings", "wings", []Choice{{"no", "none"}, {"yes", "with a padded wing at each side"}}},
				{"piping", "piping", []Choice{{"none", "none"}, {"all", "round the front and the wings"}}},
			},
			build: headboard,
		},
		{
			ID: "banquette", Name: "banquette", About: "A long fixed bench with a back, against a wall.",
			Measures: []Measure{
				openSeatWidth(240, 80, 600), seatDepth(48, 35, 80), seatRise(14, 5), openBackWidth(240, 80, 600), backHeight(50, 25, 120), backEdge(5),
			},
			Options: []Option{plainOrButtoned(), borders(), pipings(), flies()},
			build:   banquette,
		},
	}
}

func footstool(w *work) {
	across, along, rise := w.take("seat-width"), w.take("seat-depth"), w.take("top-rise")
	if w.is("border", "none") {
		w.buttoned(w.shows(w.cut("TOP", "top", across, along, all(wrapped(rise, w.tackedUnder())))))
	} else {
		w.buttoned(w.box("TOP", "top", across, along, rise, w.under()))
	}
	w.frame("SEAT", across, along, SeatPlace)
	w.pad("SP", "top pad", across, along, w.set.Length(practice.FootstoolPad), SeatPlace)
	w.skirtOf([]skirtSide{{"KF", "skirt front", across, 1}, {"KS", "skirt side", along, 2}, {"KB", "skirt back", across, 1}})
}

// headboard covers the front over the edge, or has a border there; its back is
// lined. Wings are covered inside, outside and over their edges.
func headboard(w *work) {
	across, along, thick := w.take("back-width"), w.take("back-height"), w.take("pad-thickness")
	var front *Panel
	if w.is("border", "yes") {
		front = w.shows(w.cut("FRONT", "front", across, along, edges{w.seam(), w.under(), w.seam(), w.seam()}))
		e := edges{w.seam(), w.under(), w.seam(), w.seam()}
		w.cut("TB", "top border", across, thick, e)
		w.cut("SB", "side border", along, thick, e).copies(2)
	} else {
		e := wrapped(thick, w.tackedUnder())
		front = w.shows(w.cut("FRONT", "front", across, along, edges{e, w.tackedUnder(), e, e}))
	}
	w.buttoned(front)
	if w.pipesEdges() {
		w.run("round the front", 2*along.l+across.l, false, 2, 1)
	}
	hide(w.cut("LB", "back lining", across, along, all(w.seam())))
	w.pad("BP", "pad", across, along, w.set.Length(practice.HeadboardPad), BackPlace)
	if !w.is("wings", "yes") {
		return
	}
	wide := w.take("wing-width")
	l, r := w.pair("IW", "inside wing", wide, along.plus(thick), edges{w.pull(), w.under(), w.pull(), w.seam()})
	matched(l)
	matched(r)
	w.cut("OW", "outside wing", wide, along.plus(thick), edges{w.seam(), w.under(), w.seam(), w.seam()}).copies(2)
	w.thinPads("WP", "wing pad", wide, along)
	if w.pipesEdges() {
		w.run("edge of a wing", wide.l+along.l, false, 1, 2)
	}
}

// banquette has its back against a wall: nothing covers it outside.
func banquette(w *work) {
	across, along := w.take("back-width"), w.take("back-height")
	edge := w.over("back-edge")
	ib := w.shows(w.cut("IB", "inside back", across, along, edges{edge, w.tucked("B", "inside back", across, 1), edge, edge}))
	w.buttoned(ib)
	w.frame("BACK", across, along, BackPlace)
	w.pad("BP", "back pad", across, along, w.set.Length(practice.BackPad), BackPlace)
	w.seat(ib, 1, nothing)
}
