package plan

import (
	"cmp"

	"github.com/bridletie/bridletie/calc/note"
)

// stairs is an exhaustive search for a plan in a box of a given width and
// length. It fills the lowest, leftmost niche of the skyline from its left end:
// by a panel, by leaving some of its floor empty before a panel, or by leaving
// the rest of its floor empty. That reaches a plan whenever there is one, for
// among all plans take one whose panels lie lowest in sum, and among those
// leftmost. Then every panel lies on another or on the start of the box, so
// what hangs over an empty stretch of floor reaches over one of the walls of
// that stretch, and the stretch is empty up to the lower wall, or up to the wall
// before it where a panel stands on the floor after it: that panel is held off
// the wall by one that reaches over the wall. No panel fits in what is left
// empty, or it would lie there.
//
// A branch is given up when the empty area that it has, or must have, is more
// than the box can spare, or when its skyline and its panels were exhausted
// before.
type stairs struct {
	plainBox
	p      *plain
	turned bool
	nodes  []stairNode
	memo   stairMemo
	until  int64 // work at which to give up
	cut    bool  // it gave up
	steps  int64
	found  []place // by index in rects
	failed bool    // exhausted: nothing fits
	round  int     // counts the runs, each of which tries the panels in another order
}

// stairNode is one panel laid, and the skyline before.
type stairNode struct {
	segs []seg
	kind int
	way  int8
	x, y int64

	across, along []uint64 // what the panels that wait can add up to
	least         int64    // the least length of any
}

// exhaustive is a search that ends by itself, given enough work.
type exhaustive interface {
	length() int64   // what begin was called with, or 0
	begin(t int64)   // sets up for a length of cloth
	run(until int64) // searches until the work reaches until
	shown() (none bool, found []place)
	useless() bool // it can show nothing for this length
}

// proof is an exhaustive search, its part of the work in the long run, and
// whether it aims at the length next below the best plan rather than at the
// least that is not ruled out.
type proof struct {
	exhaustive
	part int64
	high bool
}

// makeProofs prepares the exhaustive searches: each goes through the box from
// its start and from its side. Where no area can be spared a plan is looked
// for, otherwise a proof that there is none.
func (p *plain) makeProofs() {
	if len(p.rects) > maxStairs {
		return
	}
	none, some := int64(4), int64(2)
	if p.area == p.W*p.low() {
		none, some = 1, 4
	}
	for _, turned := range [...]bool{false, true} {
		p.proofs = append(p.proofs,
			proof{&sweep{p: p, turned: turned}, 1, true},
			proof{&sweep{p: p, turned: turned}, none, false},
			proof{&stairs{p: p, turned: turned}, some, false})
	}
}

// prove gives the exhaustive searches a share of the work.
func (p *plain) prove(share int64) {
	end := min(p.s.d.work+share, p.s.budget)
	for k := 0; k < len(p.proofs) && p.s.d.work < end && !p.s.done(); k++ {
		low, high := p.low(), p.below(p.best())
		if low > high {
			p.raise(p.best(), note.BoundSearched)
			return
		}
		e := &p.proofs[k]
		t := e.aimed(low, high)
		if !e.wanted(low, high) {
			continue
		}
		parts := int64(0)
		for j := range p.proofs[k:] {
			if o := &p.proofs[k+j]; o.wanted(low, high) {
				parts += o.part
			}
		}
		e.run(p.s.d.work + (end-p.s.d.work)*e.part/parts + 1)
		switch none, found := e.shown(); {
		case found != nil:
			p.take(t, found)
		case none:
			p.raise(p.above(t), note.BoundSearched)
			k = -1
		}
	}
}

// aimed is the length that a proof aims at.
func (e *proof) aimed(low, high int64) int64 {
	if e.high {
		return high
	}
	return low
}

// wanted sets a proof up for its aim; false when it has nothing to show.
func (e *proof) wanted(low, high int64) bool {
	if e.high && low == high {
		return false // another aims there
	}
	if t := e.aimed(low, high); e.length() != t {
		e.begin(t)
	}
	return !e.useless()
}

func (e *stairs) shown() (bool, []place) { return e.failed, e.found }

func (e *stairs) useless() bool { return false }

// begin sets the search up for a length.
func (e *stairs) begin(t int64) {
	e.plainBox = e.p.boxFor(t, e.turned)
	e.makeSums()
	e.failed, e.found = false, nil
	e.memo.clear()
}

// kindOrders are the orders in which panels are tried.
var kindOrders = [...]func(a, b plainKind) int{
	func(a, b plainKind) int { return cmp.Compare(b.area, a.area) },
	func(a, b plainKind) int { return cmp.Compare(b.way[0].w, a.way[0].w) },
	func(a, b plainKind) int { return cmp.Compare(b.way[0].h, a.way[0].h) },
}

// stairRuns is how many orders of the panels a share of the work is cut into.
// How soon a plan is met depends on the order far more than on the work; what
// one order has exhausted the next need not.
const stairRuns = 4

// run searches until the work reaches until.
func (e *stairs) run(until int64) {
	e.memo.grow(until - e.p.s.d.work)
	each := (until-e.p.s.d.work)/stairRuns + 1
	for range stairRuns {
		e.until, e.cut = e.p.s.d.work+each, false
		e.arrange()
		for len(e.nodes) <= 3*e.rest+2 {
			e.nodes = append(e.nodes, stairNode{})
		}
		e.nodes[0].segs = append(e.nodes[0].segs[:0], seg{})
		if e.spare < 0 || !e.search(0, e.mask, e.spare) && !e.cut {
			e.failed = e.found == nil
		}
		e.settleWork()
		if e.failed || e.found != nil || e.p.s.done() {
			return
		}
	}
}

// arrange puts the panels in the order in which they are tried: by area, width
// or length, and later with some chance.
func (e *stairs) arrange() {
	e.sorted(kindOrders[e.round%len(kindOrders)])
	if e.round >= len(kindOrders) {
		for k := range e.kinds {
			if j := k + e.p.s.rng.IntN(min(4, len(e.kinds)-k)); j != k {
				e.kinds[k], e.kinds[j] = e.kinds[j], e.kinds[k]
			}
		}
		e.sorted(func(plainKind, plainKind) int { return 0 })
	}
	e.round++
}

// settleWork charges the steps taken.
func (e *stairs) settleWork() {
	e.p.charge(e.steps)
	e.steps = 0
}

// tired polls, now and then, whether to give up.
func (e *stairs) tired() bool {
	if e.steps > 1<<14 {
		e.settleWork()
		e.cut = e.cut || e.p.s.d.work >= e.until || e.p.s.stop()
	}
	return e.cut
}
