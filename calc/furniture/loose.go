package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// looseOnes lie on something else, or on the floor.
func looseOnes() []Kind {
	return []Kind{
		{
			ID: "bench-cushion", Name: "window-seat or bench cushion", About: "A boxed cushion that lies on a bench or a window seat.",
			Measures: []Measure{cushionWidth(), cushionDepth(), cushion(8, 3, 25)},
			Options:  []Option{makes(), undersides(), pipings()},
			build: func(w *work) {
				w.cushions("C", "cushion", 1, w.take("seat-width"), w.take("seat-depth"), SeatPlace)
			},
		},
		{
			ID: "bay-cushion", Name: "window-seat cushion with cut corners", About: "A boxed cushion for a bay window, with both corners at the back cut off.",
			Measures: []Measure{
				cushionWidth(), cushionDepth(), cushion(8, 3, 25),
				tape("corner-width", "corner width", "Along the back, from where a corner would be to where the cut begins.", SeamLine, SeamLine, 18, 3, 60),
				tape("corner-depth", "corner depth", "Along the side, from where a corner would be to where the cut begins.", SeamLine, SeamLine, 18, 3, 60),
			},
			Options: []Option{undersides(), pipings()},
			build:   bayCushion,
		},
		{
			ID: "pouffe", Name: "pouffe", About: "A stuffed drum or cube on the floor, without a frame.",
			Measures: []Measure{
				openSeatWidth(50, 25, 120), tape("seat-depth", "depth", "Across the top from back to front; of a round one, the same as its width.", SeamLine, SeamLine, 50, 25, 120),
				tape("top-rise", "height", "Down the side, from the seam of the top to the seam of the base.", SeamLine, SeamLine, 38, 15, 70),
			},
			Options: []Option{
				{"seat", "shape", []Choice{{"round", "round"}, {"square", "square"}}}, tops(),
				{"base", "base", []Choice{{"lining", "of lining"}, {"cover", "of the cover"}}}, pipings(),
			},
			build: pouffe,
		},
	}
}

func cushionWidth() Measure {
	return tape("seat-width", "seat width", "Across the finished cushion at its widest.", SeamLine, SeamLine, 120, 40, 300)
}

func cushionDepth() Measure {
	return tape("seat-depth", "seat depth", "From the back of the finished cushion to its front.", SeamLine, SeamLine, 45, 25, 90)
}

// bayCushion is cut as a rectangle and its corners taken off; its borders and its
// piping follow the shape.
func bayCushion(w *work) {
	across, along, thick := w.take("seat-width"), w.take("seat-depth"), w.take("cushion-thickness")
	wide, deep := shorter(w.take("corner-width"), w.part(across, 3)), shorter(w.take("corner-depth"), w.part(along, 2))
	slant := w.named("slant", slantOf(wide.l, deep.l))
	l := lot{id: "C", name: "cushion", n: 1, front: across, back: across.less(wide.twice(), cm), along: along}
	seam, side := all(w.seam()), along.less(deep, cm)
	top := w.shows(w.cut("CT", "cushion top", across, along, seam))
	w.cut("CF", "cushion front border", across, thick, seam).runsOn(top)
	w.underside(w.cut("CU", "cushion underside", across, along, seam))
	w.cut("CS", "cushion side border", side, thick, seam).copies(2)
	w.cut("CK", "cushion border at a cut corner", slant, thick, seam).copies(2)
	w.backBorder(l, thick)
	f := w.filling(l, thick.l, SeatPlace)
	f.Corner = panel.Size{Across: wide.l, Along: deep.l}
	w.list.Fillings = append(w.list.Fillings, f)
	if w.pipesCushions() {
		w.run("cushion, top and underside", across.l+l.back.l+2*(side.l+slant.l), true, 6, 2)
	}
}

// pouffe has a top, a base, and borders between them that are turned under the base.
func pouffe(w *work) {
	across, along, high := w.take("seat-width"), w.take("seat-depth"), w.take("top-rise")
	round := w.is("seat", "round")
	if round {
		across = longer(across, along)
		along = across
	}
	seam, border := all(w.seam()), edges{w.seam(), w.under(), w.seam(), w.seam()}
	top := w.shows(w.cut("TOP", "top", across, along, seam))
	w.buttoned(top)
	girth := 2 * (across.l + along.l)
	if round {
		girth = perimeterOf(across.l)
		w.cut("FB", "half of the border", w.part(w.named("way round", girth), 2), high, border).copies(2)
	} else {
		w.cut("FB", "front border", across, high, border).runsOn(top)
		w.cut("BB", "back border", across, high, border)
		w.cut("SB", "side border", along, high, border).copies(2)
	}
	if base := w.cut("BASE", "base", across, along, seam); w.is("base", "lining") {
		hide(base)
	}
	w.list.Fillings = append(w.list.Fillings, Filling{
		ID: "SP", Name: "filling", Count: 1, Size: panel.Size{Across: across.l, Along: along.l}, Thickness: high.l, Place: SeatPlace, Round: round,
	})
	if w.pipesCushions() {
		w.run("top and base", girth, true, map[bool]int{true: 0, false: 4}[round], 2)
	}
}

// slantOf is the side that closes a corner of those legs, up to the next millimetre.
func slantOf(wide, deep length.Length) length.Length {
	a, b := int64(wide.Round(length.Millimetre, length.Up)/length.Millimetre), int64(deep.Round(length.Millimetre, length.Up)/length.Millimetre)
	n := max(a, b)
	for n*n < a*a+b*b {
		n++
	}
	return length.Length(n) * length.Millimetre
}
