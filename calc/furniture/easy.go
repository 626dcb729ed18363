package furniture

import (
	"slices"

	"github.com/bridletie/bridletie/calc/practice"
)

// easyChairs are the upholstered chairs for one.
func easyChairs() []Kind {
	return []Kind{
		{
			ID: "slipper-chair", class: armless, Name: "low slipper chair", About: "A low easy chair without arms.",
			Measures: []Measure{
				openSeatWidth(54, 35, 85), seatDepth(52, 35, 80), seatRise(20, 6), openBackWidth(50, 30, 85), backHeight(56, 30, 100), backEdge(5),
				outsideWidth(52, 30, 90), outsideHeight(70, 35, 120), sideLength(56, 35, 90), skirtHeight(),
			},
			Options: []Option{plainOrButtoned(), seatBorders(), skirts(), skirtMakes(), pipings(), outsides(), flies()},
			sided:   sides,
			build:   slipper,
		},
		{
			ID: "tub-chair", class: shaped, Name: "tub chair", About: "A chair whose back and arms are one curve.",
			Measures: append([]Measure{
				seatWidth(52, 35, 80), seatDepth(52, 35, 80), seatRise(22, 6), seatEdge(),
				tape("back-width", "inside curve", "Round the inside from arm front to arm front, along the top edge, where it is longest.", ShowLine, ShowLine, 130, 70, 220),
				tape("back-height", "inside height", "From the seat up the middle of the inside and over the top edge to where the cover is tacked.", Crease, TackLine, 46, 20, 90),
				tape("outside-width", "outside curve", "Round the outside from arm front to arm front.", ShowLine, ShowLine, 170, 90, 280),
				outsideHeight(66, 30, 110),
				tape("middle-curve", "middle curve", "Made in three only: along the top edge inside, from bend to bend.", SeamLine, SeamLine, 56, 20, 150),
				tape("outside-middle", "outside middle", "Made in three only: round the outside back, from bend to bend.", ShowLine, ShowLine, 74, 20, 200),
				tape("arm-curve", "arm curve", "Made in three only: from the front of an arm along its top edge inside to the bend.", ShowLine, SeamLine, 40, 15, 90),
				tape("outside-curve", "outside arm curve", "Made in three only: from the front of an arm along its outside to the bend.", ShowLine, SeamLine, 50, 15, 110),
				outsideArm(56, 20, 100), armEdge(3), armThickness(9, 3, 30), facingHeight(54, 20, 90), cushion(10, 4, 25), skirtHeight(),
			}, apart(52, 52)...),
			Options: []Option{
				cushions(loose(), fixed()), makes(), undersides(), plainOrButtoned(),
				{"made", "inside and outside", []Choice{{"one", "each in one"}, {"three", "each in three, sewn at the bends"}}},
				{"fronts", "fronts of the arms", []Choice{{"facings", "with facings"}, {"round", "covered round"}}}, facingMakes(), borders(), platforms(),
				skirts(), skirtMakes(), pipings(), outsides(), flies(),
			},
			build: tub,
		},
		{
			ID: "wing-chair", class: armchairs, Name: "wing chair", About: "A high-backed easy chair with wings above its arms.",
			Measures: slices.Concat(armchair(56, 56, 20, 56, 78), []Measure{
				backEdge(4), wingWidth("Across the inside wing at its widest, from the inside back to its front edge.", 26, 8, 50), wingHeight("F", 50), wingRoll("F", 4),
			}, outsideWing("A", 28, 54), ears(), apart(56, 56), []Measure{skirtHeight()}),
			Options: easyOptions(),
			build:   wingChair,
		},
		{
			ID: "club-chair", class: armchairs, Name: "club armchair", About: "A deep easy chair with full arms and no wings.",
			Measures: slices.Concat(armchair(58, 60, 22, 62, 56), []Measure{topWidth(78, 40, 140), backEdge(6)}, ears(), apart(58, 60), []Measure{skirtHeight()}),
			Options:  append(easyOptions(), aboveArms()),
			build:    clubChair,
		},
		{
			ID: "fireside-chair", Name: "fireside chair", About: "A show-wood frame with an upholstered back or loose cushions.",
			Measures: []Measure{
				openSeatWidth(54, 35, 80), seatDepth(54, 35, 80), openBackWidth(52, 30, 80), backHeight(66, 30, 100), backEdge(4), cushion(10, 4, 25),
				outsideWidth(52, 30, 80), outsideHeight(70, 30, 110),
			},
			Options: []Option{{"back", "back", []Choice{{"cushions", "a loose cushion"}, {"plain", "upholstered, inside and outside"}, {"buttoned", "upholstered, deep-buttoned in diamonds"}}}, makes(), undersides(), pipings(), outsides(), flies()},
			build:   fireside,
		},
	}
}

func plainOrButtoned() Option {
	o := backs()
	o.Choices = o.Choices[:2]
	return o
}

func easyOptions() []Option {
	return []Option{
		cushions(loose(), fixed()), makes(), cushionShapes(), undersides(), backs(), arms(), facingMakes(), collars(), borders(), platforms(),
		skirts(), skirtMakes(), pipings(), outsides(), flies(),
	}
}

// armchair are the measures of a chair with arms: the usual seat width and
// depth, rise of the seat, back width and height, in centimetres.
func armchair(width, depth, rise, back, high int) []Measure {
	return []Measure{
		seatWidth(width, 35, 90), seatDepth(depth, 35, 90), seatRise(rise, 6), seatEdge(),
		backWidth(back, 35, 95), backHeight(high, 25, 130), cushion(12, 4, 30),
		armLength(58, 30, 100), armEdge(3), armRise(42, 12, 80), outsideArm(36, 10, 80), armThickness(12, 3, 35), facingHeight(52, 15, 90),
		tape("outside-depth", "outside arm length", "Along the outside arm, from its front to the edge of the outside back.", ShowLine, ShowLine, 66, 30, 110),
		outsideWidth(width+20, 35, 140), outsideHeight(high+16, 30, 140),
	}
}

func slipper(w *work) {
	ib := w.back(nothing)
	w.seat(ib, 1, nothing)
	w.sidesOf()
	w.skirt()
}

func tub(w *work) {
	ib := w.tubBack()
	w.seat(ib, 1, curve)
	if w.is("fronts", "facings") {
		w.facings(2)
	}
	if w.pipesEdges() && w.is("fronts", "facings") {
		w.run("arm facing", 2*w.take("facing-height").l+w.take("arm-thickness").l, false, 2, 2)
	}
	front, round := w.take("seat-width").plus(w.take("arm-thickness").twice()), w.take("outside-width")
	if w.is("made", "three") {
		round = w.take("outside-middle").plus(w.take("outside-curve").twice())
	}
	w.skirtOf([]skirtSide{{"KF", "skirt front", front, 1}, {"KR", "skirt round the back", round, 1}})
}

// tubBack is back and arms in one curve, or in three parts that are sewn together
// where the arms begin.
func (w *work) tubBack() *Panel {
	if w.is("made", "one") {
		return w.back(curve)
	}
	arm, out, high := w.take("arm-curve"), w.take("outside-curve"), w.take("back-height")
	middle := w.take("middle-curve")
	ib := w.shows(w.cut("IB", "inside back", middle, high, edges{w.pull(), w.tucked("B", "inside back", middle, 1), w.seam(), w.seam()}))
	w.buttoned(ib)
	l, r := w.pair("IA", "inside arm", arm, high, edges{w.pull(), w.tucked("A", "inside arm", arm, 2), w.over("arm-edge"), w.seam()})
	w.shows(l)
	w.shows(r)
	w.frame("BACK", middle.plus(arm.twice()), high, BackPlace)
	w.pad("BP", "back pad", middle.plus(arm.twice()), high, w.set.Length(practice.BackPad), BackPlace)
	w.outsideBack(leg{across: w.take("outside-middle")})
	l, r = w.pair("OA", "outside arm", out, w.take("outside-arm"), w.closed(w.under()))
	matched(w.outside(l))
	matched(w.outside(r))
	return ib
}

func wingChair(w *work) {
	w.armchair(theWings)
	w.wings()
}

func clubChair(w *work) { w.armchair(theArms) }

func (w *work) armchair(by beside) {
	ib := w.back(by)
	w.seat(ib, 1, by)
	w.backCushions(1)
	w.arms()
	w.skirt()
}

func fireside(w *work) {
	w.cushions("C", "seat cushion", 1, w.take("seat-width"), w.take("seat-depth"), SeatPlace)
	w.frame("SEAT", w.take("seat-width"), w.take("seat-depth"), SeatPlace)
	if w.is("back", "cushions") {
		w.backCushions(1)
		return
	}
	w.back(nothing)
}
