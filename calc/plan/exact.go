package plan

import (
	"math/bits"
)

// exact decides by branching whether a small job has a plan no longer than a target.
//
// Among all plans within the target, over all permitted starts of the cloth, take one with
// the least sum of all y, and among those the least sum of all x. Nothing in it can slide
// towards the start or the left selvedge by an admissible step. So every panel lies at the
// least admissible y above those below it. Where its x is free, it lies against the
// selvedge or another panel.
//
// Placed in the order of their y, then of their x, the panels of this plan each lie on the
// skyline of those before them. So it is enough to branch on the next panel in that order
// and its x; its y follows. (Branching in non-decreasing y: the staircase idea of M.
// Kenmochi et al., European Journal of Operational Research 198 (2009) 73-83, from memory;
// the lattice form is derived here.)
//
// A panel whose least admissible y on the skyline comes before the last panel placed is
// not tried. Higher up it could slide down: nothing already placed is in the way, and
// later panels begin no lower.
//
// A phase that no wish fixes is a whole number of model units in some normal form, since
// all data are. It is tried at every residue where these are few, and otherwise at every
// place of contact. Where there are too many, newExact returns nil, and nothing is
// proved.
type exact struct {
	m      *model
	target int64
	sigma  int64
	budget int64 // work left
	stop   func() bool
	dead   bool // the budget was used
	halted bool // stop has reported true: nothing more is to be tried
	// partial says that not every plan is tried, so that nothing is proved.
	partial bool
	// accept, when set, may turn a plan down; then the search goes on.
	accept func([]spot) bool

	skies   [][]seg // skylines by how many items are laid
	last    []seg   // where the last item laid begins, by how many items are laid
	states  []groupState
	spots   []spot
	xs      []int64       // places across for items that may lie anywhere
	rows    [][]*openRows // by item and way of lying; nil for every residue
	slack   []bool        // by group: its phase was open, and no item of it rests yet
	area    []int64       // by item, the least over its lays, in coarse units
	coarse  uint
	lines   []*stack
	two     *twoLines
	worth   []int64 // of each item on a line across the cloth; nil for unknown
	most    int64   // that any line across can be worth
	memo    memo
	key     []uint64
	small   bool     // places fit into 32 bits
	low     []int64  // by item, the least height
	ofGroup []uint64 // by group, its items
}

// Limits of what the exact search takes on.
const (
	maxExactItems = 40
	maxResidues   = 160 // of an unknown phase along
	maxPlaces     = 400 // across, for an item that may lie anywhere
	maxLines      = 2   // lines that items must cross
)

// newExact prepares the exact search, with tables of at most limit entries for a line. It
// returns nil when the job is too large.
func newExact(m *model, limit int, stop func() bool) *exact {
	if len(m.items) > maxExactItems {
		return nil
	}
	e := &exact{m: m, stop: stop, states: make([]groupState, len(m.groups)), spots: make([]spot, len(m.items)),
		skies: make([][]seg, len(m.items)+1), last: make([]seg, len(m.items)+1)}
	if !e.findPlaces() || !e.findRows() {
		return nil
	}
	for _, g := range m.groups {
		if len(g.items) == 1 {
			continue
		}
		for o, gl := range g.lay {
			l := &m.items[g.items[0]].lay[o]
			if l.consX && !gl.xFixed && m.W > maxPlaces {
				return nil
			}
			e.partial = e.partial || !m.halved && m.mirrorsFree(&g, o)
		}
	}
	e.measure()
	e.findLines(limit)
	e.two = newTwoLines(m, limit)
	e.weigh()
	return e
}

// mirrorsFree reports whether a group has a mirrored item while the mirrored phase is
// open. If one twin slides left the other slides right, so the shortest plan may lie
// between whole units.
func (m *model) mirrorsFree(g *group, o int) bool {
	for _, k := range g.items {
		l := &m.items[k].lay[o]
		if l.sx < 0 && l.consX && !g.lay[o].xFixed || l.sy < 0 && l.consY && !g.lay[o].yFixed {
			return true
		}
	}
	return false
}

// findPlaces lists the places across of the normal form: sums of widths from the left
// selvedge or from the right edge of an item in its column. Where units are few, or a
// phase across is open, it lists every place. It returns false when there are too many.
func (e *exact) findPlaces() bool {
	m := e.m
	free, open, set := m.edges()
	if !free {
		return true
	}
	if m.W <= maxPlaces && (open || !m.touching) {
		for x := range m.W {
			e.xs = append(e.xs, x)
		}
		return true
	}
	for k := range m.items {
		add := []int64{}
		for o := range m.items[k].lay {
			l := &m.items[k].lay[o]
			if l.consX && m.groups[m.items[k].group].lay[o].xFixed && l.tol == 0 {
				continue
			}
			for _, x := range set {
				if x+l.w < m.W {
					add = append(add, x+l.w)
				}
			}
		}
		if set = sortedUnique(append(set, add...)); len(set) > maxPlaces {
			return false
		}
	}
	e.xs = set
	return true
}

// edges returns the left selvedge and the right edges of items in their columns. free
// reports whether some item is not bound to columns, open whether one is bound to unknown
// columns.
func (m *model) edges() (free, open bool, set []int64) {
	set = []int64{0}
	for k := range m.items {
		for o := range m.items[k].lay {
			l := &m.items[k].lay[o]
			gl := &m.groups[m.items[k].group].lay[o]
			free = free || !l.consX || !gl.xFixed || l.tol > 0
			open = open || l.consX && !gl.xFixed
			if !l.consX || !gl.xFixed {
				continue
			}
			for _, a := range gl.alts {
				l.columns(m.grid.H, a, 0, m.W-l.w, func(from, to int64) {
					set = append(set, from+l.w, to+l.w)
				})
			}
		}
	}
	return free, open, sortedUnique(set)
}

// measure computes the areas in units coarse enough for 64 bits. Areas are rounded down
// and the room up.
func (e *exact) measure() {
	total := int64(0)
	for k := range e.m.items {
		total += e.m.items[k].lay[0].h + e.m.items[k].lay[0].w
	}
	if n := bits.Len64(uint64(e.m.W)) + bits.Len64(uint64(total)); n > 62 {
		e.coarse = uint(n-62)/2 + 1
	}
	e.ofGroup = make([]uint64, len(e.m.groups))
	for k := range e.m.items {
		e.low = append(e.low, e.m.leastHeight(k))
		e.ofGroup[e.m.items[k].group] |= 1 << k
		l := e.m.items[k].lay[0]
		e.area = append(e.area, (l.w>>e.coarse)*(l.h>>e.coarse))
	}
}

// solve searches for a plan that begins at sigma and is no longer than target. When found
// is false, sure reports whether there is none. used is the work.
func (e *exact) solve(sigma, target, budget int64) (found, sure bool, used int64) {
	e.small = e.m.W < 1<<31 && target < 1<<31
	e.sigma, e.target, e.budget, e.dead = sigma, target, budget, e.halted
	clear(e.states)
	clear(e.slack)
	e.memo.forget()
	e.aim()
	e.skies[0] = append(e.skies[0][:0], seg{})
	all := uint64(1)<<len(e.m.items) - 1
	found = e.branch(all, e.skies[0])
	return found, !found && !e.dead, budget - e.budget
}

// aim prepares the lines for the start and the target.
func (e *exact) aim() {
	for _, s := range e.lines {
		s.aim(e.m, e.sigma, e.target)
	}
	if t := e.two; t != nil {
		t.a.aim(e.m, e.sigma, e.target)
		t.b.aim(e.m, e.sigma, e.target)
	}
	e.budget -= e.aimWork()
}

// aimWork returns the work of aim.
func (e *exact) aimWork() int64 {
	work := int64(0)
	for _, s := range e.lines {
		work += s.work()
	}
	if e.two != nil {
		work += 2 * e.two.a.work()
	}
	return work
}

// leastOnLines returns a lower bound on plans that begin at sigma, from the items that
// must cross the lines, and its work.
func (e *exact) leastOnLines(sigma int64) (length, work int64) {
	for _, s := range e.lines {
		length = max(length, s.earliest(e.m, sigma))
	}
	work = e.aimWork()
	if t := e.two; t != nil {
		t.a.earliest(e.m, sigma)
		t.b.earliest(e.m, sigma)
		least, tried := t.least()
		length, work = max(length, least), work+tried/8
	}
	return length, work
}

// layCost is the work of trying one item in one place, including the checks that follow.
const layCost = 5

// spend deducts work from the budget, and returns true when none is left.
func (e *exact) spend(work int64) bool {
	before := e.budget
	e.budget -= work
	if before>>14 != e.budget>>14 && e.stop() {
		e.halted = true
	}
	e.dead = e.dead || e.halted || e.budget <= 0
	return e.dead
}

// branch places one more of the remaining items on the skyline.
func (e *exact) branch(rest uint64, segs []seg) bool {
	if rest == 0 {
		return e.accept == nil || e.accept(e.spots)
	}
	at := e.last[len(e.m.items)-bits.OnesCount64(rest)]
	if e.hopeless(rest, segs, at.y) || rest&(rest-1) != 0 && e.seen(rest, segs, at) {
		return false
	}
	for r := rest; r != 0; r &= r - 1 {
		k := bits.TrailingZeros64(r)
		if !e.firstOfClass(k, rest) {
			continue
		}
		if e.layItem(k, rest, segs) {
			return true
		}
		if e.dead {
			return false
		}
	}
	return false
}

// firstOfClass reports whether k is the first of its interchangeable items that are left.
func (e *exact) firstOfClass(k int, rest uint64) bool {
	for r := rest & (1<<k - 1); r != 0; r &= r - 1 {
		if e.m.items[bits.TrailingZeros64(r)].class == e.m.items[k].class {
			return false
		}
	}
	return true
}

// layDown places item k and continues with the others.
func (e *exact) layDown(k, o int, ph phase, alt int, x, y, base int64, rest uint64, segs []seg) bool {
	if e.spend(layCost) {
		return false
	}
	it := &e.m.items[k]
	l, gr := &it.lay[o], &e.m.groups[it.group]
	old, slack := e.states[it.group], e.slack[it.group]
	if !e.rests(k, o, y, base, rest) {
		return false
	}
	if !old.set && len(gr.items) > 1 {
		e.states[it.group] = groupState{set: true, lay: int8(o), alt: int16(alt), settled: e.m.settle(l, &gr.lay[o], ph, x, y+e.sigma)}
	}
	e.spots[k] = spot{x: x, y: y, lay: int8(o), alt: int16(alt), hole: -1, found: true}
	laid := len(e.m.items) - bits.OnesCount64(rest) + 1
	e.skies[laid], e.last[laid] = risen(e.skies[laid][:0], segs, e.m.W, x, l.w, y+l.h), seg{x, y}
	if e.branch(rest&^(1<<k), e.skies[laid]) {
		return true
	}
	e.states[it.group], e.slack[it.group] = old, slack
	return false
}
