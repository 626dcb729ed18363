package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// class is a class of pieces that take alike of cloth for their size.
type class int

const (
	unclassed class = iota // whose box says too little of their cloth
	armchairs
	sofas
	shaped // one curve, or tight
	armless
)

// Box is the surface of the box round a piece, floor to top, in square millimetres,
// and the least cloth that is believed for its class, in millionths of the surface.
// ok is false for kinds that take too differently. The piece must have no faults.
func (p Piece) Box() (surface, least int64, ok bool) {
	k, found := Find(p.Kind)
	if !found || k.class == unclassed {
		return 0, 0, false
	}
	w := &work{piece: p, kind: k, set: p.goesBy(), taken: make(map[string]bool)}
	wide, deep := w.take("outside-width").l, w.take("outside-depth").l
	if deep == 0 { // a tub, whose outside is measured round its curve
		wide, deep = w.take("seat-width").l+2*w.take("arm-thickness").l, w.take("seat-depth").l+2*w.take("arm-thickness").l
	}
	high := w.take("outside-height").l + w.set.Length(practice.GuardLegs)
	mm := func(l length.Length) int64 { return int64(l / length.Millimetre) }
	surface = 2 * (mm(wide)*mm(high) + mm(deep)*mm(high) + mm(wide)*mm(deep))
	return surface, w.set.Number(w.guard()), true
}

// guard is the row of the piece.
func (w *work) guard() practice.NumberKey {
	switch {
	case w.kind.class == armless:
		return practice.GuardArmless
	case w.kind.class == armchairs && w.is("cushion", "loose"):
		return practice.GuardArmchair
	case w.kind.class == sofas && w.is("cushion", "loose") && w.is("back", "cushions"):
		return practice.GuardSofa
	}
	return practice.GuardTight
}
