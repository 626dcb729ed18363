package plan

import (
	"cmp"
	"slices"
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
	p      *plain
	W, T   int64
	turned bool
	kinds  []plainKind
	pinned int // a panel that lies in the quarter by the origin, by symmetry; -1 for none
	nodes  []stairNode
	rest   int
	across []uint64 // what the widths and the lengths that wait can add up to
	along  []uint64
	old    []uint64
	memo   stairMemo
	until  int64 // work at which to give up
	cut    bool  // it gave up
	steps  int64
	polled int64
	found  []place // by index in rects
	failed bool    // exhausted: nothing fits
	round  int     // counts the runs, each of which tries the panels in another order
}

// plainKind is a set of equal panels.
type plainKind struct {
	way   [2]shape
	ways  int
	rects []int32
	left  int    // how many wait
	bit   uint64 // in the mask of what waits, the lowest of the kind's bits
	area  int64
}

// stairNode is one panel laid, and the skyline before.
type stairNode struct {
	segs []seg
	kind int
	way  int8
	x, y int64
}

// maxStairs is the greatest number of panels that is searched exhaustively: a
// bit of a word for each.
const maxStairs = 64

// maxStairWords bounds the tables of what panels can add up to.
const maxStairWords = 32

// exhaustive is a search that ends by itself, given enough work.
type exhaustive interface {
	length() int64   // what begin was called with, or 0
	begin(t int64)   // sets up for a length of cloth
	run(until int64) // searches until the work reaches until
	shown() (none bool, found []place)
	useless() bool // it can show nothing for this length
}

// proof is an exhaustive search, and whether it aims at the length next below
// the best plan rather than at the least that is not ruled out.
type proof struct {
	exhaustive
	high bool
}

// makeProofs prepares the exhaustive searches: each goes through the box from
// its start and from its side.
func (p *plain) makeProofs() {
	if len(p.rects) > maxStairs {
		return
	}
	for _, turned := range [...]bool{false, true} {
		p.proofs = append(p.proofs,
			proof{&sweep{p: p, turned: turned}, true},
			proof{&sweep{p: p, turned: turned}, false},
			proof{&stairs{p: p, turned: turned}, false})
	}
}

// prove gives the exhaustive searches a share of the work.
func (p *plain) prove(share int64) {
	end := min(p.s.d.work+share, p.s.budget)
	each := max(share/int64(max(len(p.proofs), 1)), 1)
	for k := 0; k < len(p.proofs) && p.s.d.work < end && !p.s.done(); k++ {
		low, high := p.low(), p.below(p.best())
		if low > high {
			p.raise(p.best(), byExhaustion)
			return
		}
		e, t := &p.proofs[k], low
		if e.high {
			if t = high; t == low {
				continue
			}
		}
		if e.length() != t {
			e.begin(t)
		}
		if e.useless() {
			continue
		}
		e.run(min(end, p.s.d.work+each))
		switch none, found := e.shown(); {
		case found != nil:
			p.take(t, found)
		case none:
			p.raise(p.above(t), byExhaustion)
			k = -1
		}
	}
}

// byExhaustion names the argument of an exhaustive search.
const byExhaustion = "exhausted search"

func (e *stairs) shown() (bool, []place) { return e.failed, e.found }

func (e *stairs) useless() bool { return false }

// length is the length of cloth that the box stands for.
func (e *stairs) length() int64 {
	if e.turned {
		return e.W
	}
	return e.T
}

// begin sets the search up for a length.
func (e *stairs) begin(t int64) {
	p := e.p
	e.W, e.T = p.W, t
	if e.turned {
		e.W, e.T = t, p.W
	}
	e.failed, e.found = false, nil
	e.memo.clear()
	var steps int64
	e.kinds, steps = p.kindsFor(e.kinds[:0], e.W, e.T, e.turned)
	e.steps += steps
	e.across, e.along = nil, nil
	if e.W < 64*maxStairWords {
		e.across = make([]uint64, e.W/64+1)
	}
	if e.T < 64*maxStairWords {
		e.along = make([]uint64, e.T/64+1)
	}
	e.old = make([]uint64, max(len(e.across), len(e.along)))
}

// kindsFor appends the panels, equal ones together, for a box of a width and a
// length. It answers also the steps that this took.
func (p *plain) kindsFor(kinds []plainKind, width, length int64, turned bool) ([]plainKind, int64) {
	shapes := make([][2]shape, len(p.rects))
	for k := range p.rects {
		shapes[k] = candOf(&p.rects[k], turned, 0).way
	}
	steps := int64(len(shapes))
	if !p.turns {
		steps += widen(shapes, width, func(s *shape) *int64 { return &s.w })
		steps += widen(shapes, length, func(s *shape) *int64 { return &s.h })
	}
	for k, way := range shapes {
		j := slices.IndexFunc(kinds, func(o plainKind) bool { return o.way == way })
		if j < 0 {
			j = len(kinds)
			kinds = append(kinds, plainKind{way: way, ways: p.rects[k].ways, area: way[0].w * way[0].h})
		}
		kinds[j].rects = append(kinds[j].rects, int32(k))
	}
	return kinds, steps
}

// ready lets every panel wait. It answers the kind to pin, the mask of all
// panels, and what they leave empty of an area.
func ready(kinds []plainKind, area int64) (pinned int, mask uint64, spare int64) {
	pinned = -1
	bit := uint(0)
	for k := range kinds {
		q := &kinds[k]
		q.left = len(q.rects)
		area -= q.area * int64(q.left)
		if q.left == 1 && (pinned < 0 || q.area > kinds[pinned].area) {
			pinned = k
		}
		q.bit = 1 << bit
		bit += uint(q.left)
	}
	return pinned, 1<<bit - 1, area // all bits are set when bit is 64
}

// widen enlarges panels in one direction by what can never be used beside them:
// all others together can fill no more of the box than what a panel leaves (J.
// Carlier, F. Clautiaux and A. Moukrim, Computers & Operations Research 34
// (2007), from memory). It answers the steps that this took.
func widen(shapes [][2]shape, size int64, of func(*shape) *int64) int64 {
	if size >= 64*maxStairWords {
		return 0
	}
	word := make([]uint64, size/64+1)
	for k := range shapes {
		clear(word)
		word[0] = 1
		for j := range shapes {
			if v := *of(&shapes[j][0]); j != k && v <= size {
				shiftIn(word, word, v)
			}
		}
		v := of(&shapes[k][0])
		*v = size - floorIn(word, size-*v)
	}
	return int64(len(shapes)*len(shapes)) * int64(len(word)+2)
}

// kindOrders are the orders in which panels are tried.
var kindOrders = [...]func(a, b plainKind) int{
	func(a, b plainKind) int { return cmp.Compare(b.area, a.area) },
	func(a, b plainKind) int { return cmp.Compare(b.way[0].w, a.way[0].w) },
	func(a, b plainKind) int { return cmp.Compare(b.way[0].h, a.way[0].h) },
}

// run searches until the work reaches until.
func (e *stairs) run(until int64) {
	e.until, e.cut = until, false
	e.round++
	slices.SortStableFunc(e.kinds, kindOrders[e.round%len(kindOrders)])
	e.rest = len(e.p.rects)
	var mask uint64
	var spare int64
	e.pinned, mask, spare = ready(e.kinds, e.W*e.T)
	for len(e.nodes) <= 3*e.rest+2 {
		e.nodes = append(e.nodes, stairNode{})
	}
	e.nodes[0].segs = append(e.nodes[0].segs[:0], seg{})
	e.memo.grow(until - e.p.s.d.work)
	if spare < 0 || !e.search(0, mask, spare) && !e.cut {
		e.failed = e.found == nil
	}
	e.settleWork()
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
