package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// lot is some cushions alike. One with ears is broader at its front than at its
// back.
type lot struct {
	id, name           string
	n                  int
	front, back, along span
	ear                span // how broad an ear is
	left, right        bool // which ears it has
}

// shaped reports whether the seat cushions have ears in front of the arms.
func (w *work) shaped() bool {
	return w.is("cushion", "loose") && w.has("cushion-shape") && !w.is("cushion-shape", "square")
}

// ear is how far the seat goes on in front of an arm.
func (w *work) ear() span { return w.take("ear-width") }

// acrossFront is how broad the front of a seat is, with what lies in front of the
// arms.
func (w *work) acrossFront(across span, n int) span {
	switch {
	case n == 0 || !w.shaped():
		return across
	case w.is("cushion-shape", "t"):
		return across.plus(w.ear().twice())
	}
	return across.plus(w.ear())
}

// lots are n cushions side by side. Ears are on those that lie beside an arm.
func (w *work) lots(id, name string, n int, across, along span, place Place) []lot {
	each := w.part(across, n)
	if place == SeatPlace {
		each, along = w.takeOr("cushion-width", each), w.takeOr("cushion-depth", along)
	}
	plain := lot{id: id, name: name, n: n, front: each, back: each, along: along}
	if place != SeatPlace || !w.shaped() {
		return []lot{plain}
	}
	both := w.is("cushion-shape", "t")
	with := func(l lot, left, right bool) lot {
		l.ear, l.left, l.right = w.ear(), left, right
		l.front = l.back.plus(l.ear.times(l.ears()))
		return l
	}
	if n == 1 {
		return []lot{with(plain, true, both)}
	}
	end := plain
	end.n = 1
	left, right := end, end
	left.id, left.name = id+"L", name+", left"
	right.id, right.name = id+"R", name+", right"
	if !both {
		plain.n = n - 1
		return []lot{with(left, true, false), plain}
	}
	out := []lot{with(left, true, false), with(right, false, true)}
	if plain.n = n - 2; plain.n > 0 {
		out = append(out, plain)
	}
	return out
}

// cushions cuts n cushions side by side. It returns the panel from whose lower
// edge the pattern runs on to what stands below, nil when none does.
func (w *work) cushions(id, name string, n int, across, along span, place Place) *Panel {
	thick := w.take("cushion-thickness")
	var lowest *Panel
	for _, l := range w.lots(id, name, n, across, along, place) {
		seams := 2
		switch {
		case w.is("cushion-make", "knife"):
			seams = 1
			w.knifeEdged(l, thick)
		case w.is("cushion-make", "bull-nose") && place == SeatPlace:
			w.bullNosed(l, thick)
		default:
			lowest = w.boxed(l, thick)
		}
		if w.pipesCushions() {
			w.run(l.name+", "+[...]string{"", "seam", "top and underside"}[seams], 2*(l.front.l+l.along.l), true, 4+2*l.ears(), seams*l.n)
		}
		w.list.Fillings = append(w.list.Fillings, w.filling(l, thick.l, place))
	}
	return lowest
}

// ears is how many ears each has.
func (l lot) ears() int {
	n := 0
	for _, has := range []bool{l.left, l.right} {
		if has {
			n++
		}
	}
	return n
}

// filling is what is in the cushions.
func (w *work) filling(l lot, thick length.Length, place Place) Filling {
	f := Filling{
		ID: l.id, Name: l.name, Count: l.n, Size: panel.Size{Across: l.front.l, Along: l.along.l},
		Thickness: thick, Place: place, Loose: true,
	}
	if l.left || l.right {
		f.Ear = panel.Size{Across: l.ear.l, Along: min(w.take("ear-depth").l, l.along.l-cm)}
		f.Ears = BothEars
		if !l.right {
			f.Ears = LeftEar
		}
		if !l.left {
			f.Ears = RightEar
		}
	}
	return f
}

// boxed cuts tops with the motif, undersides, and borders, of which the front one
// runs on from the top.
func (w *work) boxed(l lot, thick span) *Panel {
	seam := all(w.seam())
	top := w.shows(w.cut(l.id+"T", l.name+" top", l.front, l.along, seam).copies(l.n))
	front := w.cut(l.id+"F", l.name+" front border", l.front, thick, seam).copies(l.n)
	front.runsOn(top)
	w.underside(w.cut(l.id+"U", l.name+" underside", l.front, l.along, seam).copies(l.n))
	w.sideBorder(l, thick)
	w.backBorder(l, thick)
	return front
}

// underside shows too where the cushions are turned.
func (w *work) underside(p *Panel) {
	if w.is("reversible", "yes") {
		w.shows(p)
	}
}

// sideBorder goes round the ears, from the front corner to the back one.
func (w *work) sideBorder(l lot, thick span) {
	seam, n := all(w.seam()), l.ears()
	if n < 2 {
		w.cut(l.id+"S", l.name+" side border", l.along, thick, seam).copies((2 - n) * l.n)
	}
	if n > 0 {
		w.cut(l.id+"SE", l.name+" side border round an ear", l.along.plus(l.ear), thick, seam).copies(n * l.n)
	}
}

// backBorder has the zip: a border cut wider for it, or in the workroom's way two
// strips that go on round the corners.
func (w *work) backBorder(l lot, thick span) {
	if !w.workroom() {
		w.cut(l.id+"B", l.name+" back border", l.back, thick.plus(w.named("zip", w.set.Length(practice.CushionZip))), all(w.seam())).copies(l.n)
		return
	}
	deep := w.named("half of the border with its seams", (thick.l+2*w.seam().l())/2).plus(w.named("half of what the zip takes", w.set.Length(practice.ZipStrip)/2))
	w.cut(l.id+"Z", l.name+" zip strip", l.back.plus(w.named("round the corners", w.set.Length(practice.ZipRound))), deep, edges{}).copies(2 * l.n)
}

// knifeEdged cuts tops and undersides that meet halfway down the edge: on every
// side half the thickness is added to either.
func (w *work) knifeEdged(l lot, thick span) {
	seam := all(w.seam())
	crown := thick.plus(span{})
	crown.terms[0].note = " for both edges"
	w.shows(w.cut(l.id+"T", l.name+" top", l.front.plus(crown), l.along.plus(crown), seam).copies(l.n))
	w.underside(w.cut(l.id+"U", l.name+" underside", l.front.plus(crown), l.along.plus(crown), seam).copies(l.n))
}

// bullNosed cuts tops that go on round the front to the underside. What shows
// from above is the finished size; the rest is allowed at the front.
func (w *work) bullNosed(l lot, thick span) {
	round := edge{add: part{"front, underside and seam", thick.l + l.along.l + w.seam().l()}}
	w.shows(w.cut(l.id+"T", l.name+" top, front and underside", l.front, l.along, edges{w.seam(), round, w.seam(), w.seam()}).copies(l.n))
	w.sideBorder(l, thick)
	w.backBorder(l, thick)
}

// backCushions leans n cushions against the back.
func (w *work) backCushions(n int) {
	if w.is("back", "cushions") {
		w.cushions("B", "back cushion", n, w.take("back-width"), w.take("back-height"), BackPlace)
	}
}
