package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// skirtSide is one side of a skirt.
type skirtSide struct {
	id, name string
	run      span
	count    int
}

// corners are those of a skirt.
const corners = 4

// skirt hangs from the rail of a piece with four sides.
func (w *work) skirt() {
	wide, deep := w.take("outside-width"), w.take("outside-depth")
	w.skirtOf([]skirtSide{{"KF", "skirt front", wide, 1}, {"KS", "skirt side", deep, 2}, {"KB", "skirt back", wide, 1}})
}

// skirtOf hangs a skirt of these sides, joined at the corners.
func (w *work) skirtOf(sides []skirtSide) {
	if w.is("skirt", "none") {
		return
	}
	high, e := w.take("skirt-height"), edges{w.seam(), w.under(), w.seam(), w.seam()}
	self, lined := w.is("skirt-make", "self"), w.is("skirt-make", "lined")
	if self {
		high, e = high.times(2), all(w.seam())
	}
	if lined {
		e = all(w.seam())
	}
	var run span
	for i, s := range sides {
		p := w.cut(s.id, s.name, w.fullness(s.run), high, e).copies(s.count)
		if i == 0 {
			matched(p)
		}
		if lined {
			w.line(w.make(s.id+"L", s.name+", lining", w.fullness(s.run), high, all(w.seam())).copies(s.count))
		}
		run.l += s.run.l * length.Length(s.count)
	}
	if w.is("skirt", "tailored") {
		const name = "piece behind the slit of the skirt"
		under := w.named("underlay", w.set.Length(practice.SkirtUnder))
		w.cut("KU", name, under, high, e).copies(corners)
		if lined {
			w.line(w.make("KUL", name+", lining", under, high, e).copies(corners))
		}
	}
	if w.pipesEdges() {
		w.run("top of the skirt", run.l, true, corners, 1)
	}
}

// fullness is what a side of the skirt is cut to for its run.
func (w *work) fullness(run span) span {
	switch {
	case w.is("skirt", "box"):
		return run.grown(w.set.Number(practice.SkirtBox))
	case w.is("skirt", "knife"):
		return run.grown(w.set.Number(practice.SkirtKnife))
	case w.is("skirt", "gathered"):
		return run.grown(w.set.Number(practice.SkirtGathers))
	case w.is("skirt", "tailored"):
		return run
	}
	return run.plus(w.named("half a corner pleat", w.set.Length(practice.SkirtCorner)).twice())
}
