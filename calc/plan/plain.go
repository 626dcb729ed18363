package plan

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

// runPlain improves the best plan of a job on which every panel may lie
// anywhere. A search in decision form asks whether all panels fit in a shorter
// length, and an exact search tries to show that none does; they take turns,
// with shares of the work that double.
func (s *searcher) runPlain() {
	p := newPlain(s)
	p.run()
}

// shape is one way for a panel to lie, in the reduced units of a plain problem.
type shape struct{ w, h int64 }

// rect is a panel of a plain problem: one way to lie, or two.
type rect struct {
	way  [2]shape
	lay  [2]int8 // index in item.lay
	ways int
}

// area is the area of the panel.
func (r *rect) area() int64 { return r.way[0].w * r.way[0].h }

// place is where a panel of a plain problem lies.
type place struct {
	x, y int64
	way  int8
}

// plain is a searcher's problem reduced further: across and along are counted
// in units of their own, the width is cut down to what panels can fill, and the
// length that is aimed at runs over sums of panel lengths only.
type plain struct {
	s      *searcher
	items  []int32 // of the model, by index in rects
	rects  []rect
	W      int64 // usable width
	unitX  int64
	unitY  int64
	area   int64
	turns  bool // some panel may lie two ways
	sums   *sums
	bad    bool // numbers too large to search
	lanes  []*lane
	proofs []proof
}

// newPlain reduces a searcher's problem.
func newPlain(s *searcher) *plain {
	p := &plain{s: s, items: s.best.genes.order}
	p.items = slices.Clone(p.items)
	slices.Sort(p.items)
	var total int64
	for _, k := range p.items {
		r := rect{}
		for o := range s.m.items[k].lay {
			l := &s.m.items[k].lay[o]
			if l.w > s.m.W || r.ways == 2 || r.ways == 1 && r.way[0] == (shape{l.w, l.h}) {
				continue
			}
			r.way[r.ways], r.lay[r.ways] = shape{l.w, l.h}, int8(o)
			r.ways++
		}
		if r.ways == 0 {
			p.bad = true
			return p
		}
		p.turns = p.turns || r.ways > 1
		p.rects = append(p.rects, r)
	}
	for k := range p.rects {
		for o := range p.rects[k].ways {
			p.unitX = gcd(p.unitX, p.rects[k].way[o].w)
			p.unitY = gcd(p.unitY, p.rects[k].way[o].h)
		}
	}
	p.W = s.m.W / p.unitX
	for k := range p.rects {
		r := &p.rects[k]
		for o := range r.ways {
			r.way[o].w /= p.unitX
			r.way[o].h /= p.unitY
			total += max(r.way[o].w, r.way[o].h)
		}
		p.area += r.area()
	}
	// Areas are counted in int64: no product of a width and a length may pass it.
	p.bad = total > 1<<40 || p.W > 1<<40 || total > (1<<62)/max(p.W, 1)
	if p.bad {
		return p
	}
	if across := newSums(p.W); across != nil {
		for k := range p.rects {
			p.charge(across.add(&p.rects[k], false))
		}
		p.W = across.floor(p.W)
	}
	if p.sums = newSums(p.best()); p.sums != nil {
		for k := range p.rects {
			p.charge(p.sums.add(&p.rects[k], true))
		}
	}
	return p
}

// charge counts work in steps of about a nanosecond.
func (p *plain) charge(steps int64) { p.s.d.work += steps/plainSteps + 1 }

// plainSteps is how many elementary steps of the plain search make a unit.
const plainSteps = 6

// best is the length of the best plan, in reduced units.
func (p *plain) best() int64 { return length.CeilDiv(p.s.best.top, p.unitY) }

// low is the least length that is not ruled out, in reduced units.
func (p *plain) low() int64 {
	t := max(length.CeilDiv(p.s.bound.length, p.unitY), length.CeilDiv(p.area, p.W))
	if p.sums != nil {
		t = p.sums.ceil(t)
	}
	return t
}

// below is the greatest attainable length under t.
func (p *plain) below(t int64) int64 {
	if p.sums == nil {
		return t - 1
	}
	return p.sums.floor(t - 1)
}

// above is the least attainable length over t.
func (p *plain) above(t int64) int64 {
	if p.sums == nil {
		return t + 1
	}
	return p.sums.ceil(t + 1)
}

// raise takes note that no plan is shorter than t.
func (p *plain) raise(t int64, by note.Code) {
	if v := min(t*p.unitY, p.s.best.top); v > p.s.bound.length {
		p.s.bound = bound{v, by}
	}
}

// take keeps a plan of length top. The places are by index in rects.
func (p *plain) take(top int64, at []place) {
	b := p.s.best
	if top*p.unitY >= b.top {
		return
	}
	b.top, b.area = top*p.unitY, 0
	for k, q := range at {
		r := &p.rects[k]
		b.spots[p.items[k]] = spot{x: q.x * p.unitX, y: q.y * p.unitY, lay: r.lay[q.way], hole: -1, found: true}
	}
}

// run shares the work between improvement and proof.
func (p *plain) run() {
	if p.bad {
		for !p.s.done() {
			p.s.climb()
		}
		return
	}
	p.raise(p.low(), p.lowBy())
	if p.s.done() {
		return
	}
	p.makeLanes()
	p.makeProofs()
	share := int64(8 * len(p.rects))
	for !p.s.done() {
		for _, l := range p.lanes {
			p.improve(l, share)
			if p.s.done() {
				return
			}
		}
		all := share * int64(len(p.lanes))
		switch {
		case len(p.rects) > fewRects:
			all /= 8
		case p.area < p.W*p.low():
			all *= 4
		}
		p.prove(all)
		share *= 2
	}
}

// fewRects is how many panels can be expected to be searched exhaustively.
const fewRects = 32

// lowBy names the argument for low.
func (p *plain) lowBy() note.Code {
	if p.low()*p.unitY > p.s.bound.length && p.low() > length.CeilDiv(p.s.bound.length, p.unitY) {
		return note.BoundSums
	}
	return p.s.bound.by
}
