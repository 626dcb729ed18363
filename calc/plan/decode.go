package plan

import "github.com/bridletie/bridletie/calc/length"

// genes are the variables of the search: the order of the items, the orientation of each
// group, and the weight of waste against height.
type genes struct {
	order []int32
	lay   []int8 // by group; -1 lets the decoder choose for a lone item
	rule  int8   // index in wasteWeights
}

// wasteWeights are the weights of buried area against height.
var wasteWeights = [...]float64{0, 0.5, 1, 2}

// spot is the position of an item.
type spot struct {
	x, y  int64
	bin   int16
	lay   int8
	alt   int16
	hole  int16 // hole that takes it; -1 for the skyline
	cost  float64
	found bool
}

// groupState is the phase of a group, fixed by the first of its items that is placed.
type groupState struct {
	set     bool
	lay     int8
	alt     int16 // the alternative chosen
	settled phase
}

// decoder turns genes into a plan. It is reused for many genes.
type decoder struct {
	m      *model
	bins   []strip
	states []groupState
	spots  []spot
	preset []groupState // phases fixed in advance; nil for none
	// many is set when there are several bins, or phases fixed in advance. Every phase is
	// then in pattern coordinates, and the first item bound to the rows of the cloth fixes
	// where its bin begins.
	many   bool
	weight float64 // of the rule in use, per width
	work   int64
}

// newDecoder returns a decoder with one open-ended strip that counts.
func newDecoder(m *model) *decoder {
	return &decoder{m: m, bins: []strip{{W: m.W, limit: noEnd, paid: true}},
		states: make([]groupState, len(m.groups)), spots: make([]spot, len(m.items))}
}

// start resets the decoder.
func (d *decoder) start() {
	for b := range d.bins {
		s := &d.bins[b]
		s.reset()
		s.sigma, s.sigmaSet = 0, !d.many && !d.m.anyAbs
		if d.m.fixed && b == d.fixedBin() {
			s.sigma, s.sigmaSet = d.m.sigma, true
		}
	}
	if d.preset != nil {
		copy(d.states, d.preset)
	} else {
		clear(d.states)
	}
}

// fixedBin returns the bin that begins at the known start of the cloth: the first that
// counts towards the length.
func (d *decoder) fixedBin() int {
	for b := range d.bins {
		if d.bins[b].paid {
			return b
		}
	}
	return -1
}

// decodeAt places all items in one strip that begins at sigma.
func (d *decoder) decodeAt(g *genes, sigma int64, upper int64) (int64, bool) {
	d.start()
	d.bins[0].sigma, d.bins[0].sigmaSet = sigma, true
	return d.layAll(g, upper)
}

// decode places all items in order. The first item bound to the rows of the cloth fixes
// where a strip begins. It returns the length that counts, and false when that would
// exceed upper or an item has no place.
func (d *decoder) decode(g *genes, upper int64) (int64, bool) {
	d.start()
	return d.layAll(g, upper)
}

func (d *decoder) layAll(g *genes, upper int64) (int64, bool) {
	d.weight = float64(wasteWeights[g.rule] / float64(d.m.W))
	for _, k := range g.order {
		if !d.layNext(int(k), g.lay, upper) {
			return 0, false
		}
	}
	total := d.total()
	return total, total <= upper
}

// layNext places one more item. It returns false when the item has no place or the length
// would exceed upper.
func (d *decoder) layNext(k int, lay []int8, upper int64) bool {
	sp := d.find(k, lay[d.m.items[k].group])
	if !sp.found {
		return false
	}
	d.commit(k, sp)
	b := &d.bins[sp.bin]
	return !b.paid || b.top <= upper
}

// leastLimit returns the length limit of the shortest bin that counts; an item that fits
// it fits each of them.
func (d *decoder) leastLimit() int64 {
	least := noEnd
	for b := range d.bins {
		if d.bins[b].paid {
			least = min(least, d.bins[b].limit)
		}
	}
	return least
}

// total returns the length that counts.
func (d *decoder) total() int64 {
	total := int64(0)
	for b := range d.bins {
		if d.bins[b].paid {
			total += d.bins[b].top
		}
	}
	return total
}

// area returns a measure of how full the bins that count are, for comparison only.
func (d *decoder) area() float64 {
	sum := 0.0
	for b := range d.bins {
		if d.bins[b].paid {
			sum += d.bins[b].area()
		}
	}
	return sum
}

// find returns the best place for item k. choice is its orientation, or -1 for any.
func (d *decoder) find(k int, choice int8) spot {
	it := &d.m.items[k]
	st := &d.states[it.group]
	gr := &d.m.groups[it.group]
	best := spot{cost: 1e300}
	for b := range d.bins {
		for o := range it.lay {
			if st.set && int(st.lay) != o || !st.set && choice >= 0 && int(choice) != o {
				continue
			}
			q := query{d: d, bin: int16(b), s: &d.bins[b], l: &it.lay[o], gl: &gr.lay[o]}
			if st.set {
				q.ph, q.knowX, q.knowY = st.settled, true, true
				q.list(it, o, int(st.alt))
				q.search(&best)
				continue
			}
			q.knowX, q.knowY = q.gl.xFixed, q.gl.yFixed
			for a := range q.gl.alts {
				q.ph = q.gl.alts[a]
				q.list(it, o, a)
				q.search(&best)
			}
		}
		if best.found {
			return best // the first bin that takes it
		}
	}
	return best
}

// commit places item k at sp and fixes what follows from it.
func (d *decoder) commit(k int, sp spot) {
	it := &d.m.items[k]
	l, gl := &it.lay[sp.lay], &d.m.groups[it.group].lay[sp.lay]
	s := &d.bins[sp.bin]
	if sp.hole >= 0 {
		s.fill(int(sp.hole), sp.x, sp.y, l.w, l.h, d.m.minW, d.m.minH)
	} else {
		s.put(sp.x, sp.y, l.w, l.h, d.m.minW, d.m.minH)
	}
	d.spots[k] = sp
	st := &d.states[it.group]
	if !s.sigmaSet && l.consY {
		d.beginStrip(s, st, l, gl, sp)
	}
	if !st.set && len(d.m.groups[it.group].items) > 1 {
		d.settleGroup(st, l, gl, sp, s.sigma)
	}
}

// beginStrip fixes where in the repeat a strip begins, when the item just placed is the
// first in it to depend on this.
func (d *decoder) beginStrip(s *strip, st *groupState, l *lay, gl *groupLay, sp spot) {
	switch {
	case st.set && (d.many || gl.yFixed):
		d.settleSigma(s, d.m.patternY(l, st.settled, sp.x, true)-sp.y)
	case !st.set && gl.yFixed:
		d.settleSigma(s, d.m.patternY(l, gl.alts[sp.alt], sp.x, gl.xFixed)-sp.y)
	case gl.mirrorsRows || d.many:
		d.settleSigma(s, 0) // a mirror along the roll stands at a row of the cloth
	}
}

// patternY returns the top of an item in pattern coordinates, for the phase and the left
// edge x. While the phase across is not known, x itself fixes it, and no column is
// crossed.
func (m *model) patternY(l *lay, ph phase, x int64, knowX bool) int64 {
	y := l.sy*ph.y - l.cy
	if g := m.grid; knowX && l.consX && g.D != 0 {
		y += columnOf(x, l.sx*ph.x-l.cx, g.H) * g.D
	}
	return y
}

// columnOf returns the column i for which x is nearest to origin + i*h.
func columnOf(x, origin, h int64) int64 { return length.FloorDiv(x-origin+h/2, h) }

// settleSigma fixes where in the repeat a strip begins. With a single strip, the phases
// fixed so far were counted from its start.
func (d *decoder) settleSigma(s *strip, sigma int64) {
	s.sigma, s.sigmaSet = length.Mod(sigma, d.m.grid.V), true
	if d.many {
		return
	}
	for g := range d.states {
		if st := &d.states[g]; st.set && !d.m.groups[g].lay[st.lay].yFixed {
			st.settled.y += s.sigma
		}
	}
}

// settleGroup fixes the phase of a group from its first item.
func (d *decoder) settleGroup(st *groupState, l *lay, gl *groupLay, sp spot, sigma int64) {
	st.set, st.lay, st.alt = true, sp.lay, sp.alt
	st.settled = d.m.settle(l, gl, gl.alts[sp.alt], sp.x, sp.y+sigma)
}

// settle returns the phase of a group one of whose items lies at x and, in pattern
// coordinates, y. The place determines what ph leaves open.
func (m *model) settle(l *lay, gl *groupLay, ph phase, x, y int64) phase {
	if l.consX && !gl.xFixed {
		ph.x = l.sx * (x + l.cx)
	}
	if l.consY && !gl.yFixed {
		y += l.cy
		if m.grid.D != 0 && l.consX {
			y -= columnOf(x, l.sx*ph.x-l.cx, m.grid.H) * m.grid.D
		}
		ph.y = l.sy * y
	}
	return ph
}
