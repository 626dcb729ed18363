package furniture

import (
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// cushions cuts n cushions side by side. It returns the panel from whose lower
// edge the pattern runs on to what stands below, nil when none does.
func (w *work) cushions(id, name string, n int, across, along span, place Place) *Panel {
	each, thick := w.part(across, n), w.take("cushion-thickness")
	var lowest *Panel
	seams := 2
	switch {
	case w.is("cushion-make", "knife"):
		seams = 1
		w.knifeEdged(id, name, n, each, along, thick)
	case w.is("cushion-make", "bull-nose") && place == SeatPlace:
		w.bullNosed(id, name, n, each, along, thick)
	default:
		lowest = w.boxed(id, name, n, each, along, thick)
	}
	if w.pipesCushions() {
		w.run(name+", "+[...]string{"", "seam", "top and underside"}[seams], 2*(each.l+along.l), true, 4, seams*n)
	}
	w.list.Fillings = append(w.list.Fillings, Filling{
		ID: id, Name: name, Count: n, Size: panel.Size{Across: each.l, Along: along.l},
		Thickness: thick.l, Place: place, Loose: true,
	})
	return lowest
}

// boxed cuts tops with the motif, undersides, and borders, of which the front one
// runs on from the top. The back border is cut wider, for a zip.
func (w *work) boxed(id, name string, n int, each, along, thick span) *Panel {
	seam := all(w.seam())
	top := w.shows(w.cut(id+"T", name+" top", each, along, seam).copies(n))
	front := w.cut(id+"F", name+" front border", each, thick, seam).copies(n)
	front.runsOn(top)
	w.cut(id+"U", name+" underside", each, along, seam).copies(n)
	w.cut(id+"S", name+" side border", along, thick, seam).copies(2 * n)
	w.backBorder(id, name, n, each, thick)
	return front
}

func (w *work) backBorder(id, name string, n int, each, thick span) {
	w.cut(id+"B", name+" back border", each, thick.plus(w.named("zip", w.set.Length(practice.CushionZip))), all(w.seam())).copies(n)
}

// knifeEdged cuts tops and undersides that meet halfway down the edge: on every
// side half the thickness is added to either.
func (w *work) knifeEdged(id, name string, n int, each, along, thick span) {
	seam := all(w.seam())
	crown := thick.plus(span{})
	crown.terms[0].note = " for both edges"
	w.shows(w.cut(id+"T", name+" top", each.plus(crown), along.plus(crown), seam).copies(n))
	w.cut(id+"U", name+" underside", each.plus(crown), along.plus(crown), seam).copies(n)
}

// bullNosed cuts tops that go on round the front to the underside. What shows
// from above is the finished size; the rest is allowed at the front.
func (w *work) bullNosed(id, name string, n int, each, along, thick span) {
	round := edge{"front, underside and seam", thick.l + along.l + w.seam().l}
	w.shows(w.cut(id+"T", name+" top, front and underside", each, along, edges{w.seam(), round, w.seam(), w.seam()}).copies(n))
	w.cut(id+"S", name+" side border", along, thick, all(w.seam())).copies(2 * n)
	w.backBorder(id, name, n, each, thick)
}

// backCushions leans n cushions against the back.
func (w *work) backCushions(n int) {
	if w.is("back", "cushions") {
		w.cushions("B", "back cushion", n, w.take("back-width"), w.take("back-height"), BackPlace)
	}
}

// platform lies under loose cushions: a lip of the top cover at the front, which
// goes on down over the front where there is no border, and lining or the cover
// behind it.
func (w *work) platform(g leg) {
	sides := w.pull()
	if g.between {
		sides = w.tuck()
	}
	lip := w.named("platform lip", w.set.Length(practice.PlatformLip))
	front, below := lip, w.seam()
	if !w.bordered() {
		front, below = front.plus(w.take("seat-rise")), w.under()
	}
	pf := w.cut(g.id+"PF", "platform front"+g.of, g.across, front, edges{w.seam(), below, sides, sides})
	if !w.bordered() {
		matched(pf)
	}
	rest := g.along.less(w.named("the platform lip", lip.l), cm)
	pl := w.cut(g.id+"PL", "platform"+g.of, g.across, rest, edges{w.tuck(), w.seam(), sides, sides})
	if !w.is("platform", "cover") {
		hide(pl)
	}
}
