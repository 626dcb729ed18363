package plan

import (
	"math/bits"

	"github.com/bridletie/bridletie/calc/note"
)

// bound is a length below which no plan can go, and the argument for it.
type bound struct {
	length int64
	by     note.Code
}

// lowerBound is the best of the bounds on the end of any plan of all items in
// one strip, valid for every start of the repeat, or for the start of the cloth
// when it is known, and for every way in which the groups may lie. Floats choose
// what to try; every bound is proved in integers. The work is counted in steps,
// so the answer does not depend on the machine.
func lowerBound(m *model, effort Effort) bound {
	best := bound{areaBound(m), note.BoundArea}
	if t := tallestBound(m); t > best.length {
		best = bound{t, note.BoundTallest}
	}
	if m.manyColumns() {
		return best
	}
	if c := cliqueBound(m, cliqueTables(effort)); c > best.length {
		best = bound{c, note.BoundStack}
	}
	return newLines(m, effort).improve(m, best)
}

// lengthsBound is a bound on the total of several lengths from which the job is
// cut, each begun where it likes: only what holds line by line across the cloth.
// (Two lengths can be shorter together than one, since the gaps that the rows
// force within one may fall between two.)
func lengthsBound(m *model, effort Effort) bound {
	best := bound{areaBound(m), note.BoundArea}
	if t := tallestBound(m); t > best.length {
		best = bound{t, note.BoundTallest}
	}
	if m.manyColumns() {
		return best
	}
	l := newLines(m, effort)
	if c := l.solve(newBars(l.r, l.r.heights(), l.kinds)); c.length > best.length {
		best = bound{c.length, note.BoundBeside}
	}
	return best
}

// cliqueTables bounds the tables of cliqueBound.
func cliqueTables(e Effort) int {
	switch e {
	case Quick, Glance:
		return 2_000
	case Thorough:
		return 20_000_000
	default:
		return 800_000
	}
}

// areaBound is the area of all items over the width, rounded up: the items do
// not overlap and lie inside the strip. Exact in 128 bits.
func areaBound(m *model) int64 {
	var hi, lo uint64
	for k := range m.items {
		l := m.items[k].lay[0]
		h, w := bits.Mul64(uint64(l.w), uint64(l.h))
		var carry uint64
		lo, carry = bits.Add64(lo, w, 0)
		hi, _ = bits.Add64(hi, h, carry)
	}
	if hi >= uint64(m.W) {
		return 0 // cannot happen within the limits of a request
	}
	q, r := bits.Div64(hi, lo, uint64(m.W))
	if r > 0 {
		q++
	}
	return int64(q)
}

// tallestBound is the greatest extent along the roll of any item, each lying
// the way in which it is shortest.
func tallestBound(m *model) int64 {
	tallest := int64(0)
	for k := range m.items {
		least := m.items[k].lay[0].h
		for _, l := range m.items[k].lay {
			least = min(least, l.h)
		}
		tallest = max(tallest, least)
	}
	return tallest
}
