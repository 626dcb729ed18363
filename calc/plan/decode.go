package plan

import "github.com/bridletie/bridletie/calc/length"

// genes are what the search varies: the order in which items are laid, the way
// in which each group lies, and how waste counts against height.
type genes struct {
	order []int32
	lay   []int8 // by group; -1 lets a lone item choose as it is laid
	rule  int8   // index in wasteWeights
}

// wasteWeights are how much a buried area counts against height.
var wasteWeights = [...]float64{0, 0.5, 1, 2}

// spot is where an item lies.
type spot struct {
	x, y  int64
	bin   int16
	lay   int8
	alt   int16
	hole  int16 // hole that takes it; -1 for the skyline
	cost  float64
	found bool
}

// groupState is the phase that the first item laid has settled for its group.
type groupState struct {
	set     bool
	lay     int8
	alt     int16 // the alternative that was taken
	settled phase
}

// decoder turns genes into a plan. It is used over and over.
type decoder struct {
	m      *model
	bins   []strip
	states []groupState
	spots  []spot
	preset []groupState // phases settled elsewhere; nil for none
	// many says that there are several bins, or phases settled elsewhere: then
	// every phase is in pattern coordinates, and the first item bound to the
	// rows of the cloth settles where its bin begins.
	many   bool
	weight float64 // of the rule in use, per width
	work   int64
}

// newDecoder has one open-ended strip that counts.
func newDecoder(m *model) *decoder {
	return &decoder{m: m, bins: []strip{{W: m.W, limit: noEnd, paid: true}},
		states: make([]groupState, len(m.groups)), spots: make([]spot, len(m.items))}
}

// start empties the decoder.
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

// fixedBin is the bin that begins where the cloth is known to begin: the first
// that is paid for.
func (d *decoder) fixedBin() int {
	for b := range d.bins {
		if d.bins[b].paid {
			return b
		}
	}
	return -1
}

// decodeAt lays everything in one strip that begins at sigma.
func (d *decoder) decodeAt(g *genes, sigma int64, upper int64) (int64, bool) {
	d.start()
	d.bins[0].sigma, d.bins[0].sigmaSet = sigma, true
	return d.layAll(g, upper)
}

// decode lays all items in order; the first item bound to the rows of the cloth
// settles where a strip begins. It answers the length that counts, and false
// when that would pass upper or an item has no place.
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

// layNext lays one more item; false when it has no place or that passes upper.
func (d *decoder) layNext(k int, lay []int8, upper int64) bool {
	sp := d.find(k, lay[d.m.items[k].group])
	if !sp.found {
		return false
	}
	d.commit(k, sp)
	b := &d.bins[sp.bin]
	return !b.paid || b.top <= upper
}

// leastLimit is the limit of the shortest length that counts: what fits it fits each
// of them.
func (d *decoder) leastLimit() int64 {
	least := noEnd
	for b := range d.bins {
		if d.bins[b].paid {
			least = min(least, d.bins[b].limit)
		}
	}
	return least
}

// total is the length that counts.
func (d *decoder) total() int64 {
	total := int64(0)
	for b := range d.bins {
		if d.bins[b].paid {
			total += d.bins[b].top
		}
	}
	return total
}

// area is a measure of how full the bins that count are, for comparing only.
func (d *decoder) area() float64 {
	sum := 0.0
	for b := range d.bins {
		if d.bins[b].paid {
			sum += d.bins[b].area()
		}
	}
	return sum
}

// find is the best place for item k; choice is the way to lie, or -1 for any.
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

// commit lays item k at sp and settles what follows from it.
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

// beginStrip settles where in the repeat a strip begins, when the item just laid
// in it is the first to need it.
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

// patternY is where, in pattern coordinates, an item's top lies for the phase
// when its left edge lies at x. While the phase across is not known, x itself
// settles it, and no column is crossed.
func (m *model) patternY(l *lay, ph phase, x int64, knowX bool) int64 {
	y := l.sy*ph.y - l.cy
	if g := m.grid; knowX && l.consX && g.D != 0 {
		y += columnOf(x, l.sx*ph.x-l.cx, g.H) * g.D
	}
	return y
}

// columnOf is the column i for which x is nearest to origin + i*H.
func columnOf(x, origin, h int64) int64 { return length.FloorDiv(x-origin+h/2, h) }

// settleSigma fixes where in the repeat a strip begins. With a single strip the
// phases settled before were counted from its start.
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

// settleGroup fixes the phase of a group from its first item laid.
func (d *decoder) settleGroup(st *groupState, l *lay, gl *groupLay, sp spot, sigma int64) {
	st.set, st.lay, st.alt = true, sp.lay, sp.alt
	st.settled = d.m.settle(l, gl, gl.alts[sp.alt], sp.x, sp.y+sigma)
}

// settle is the phase of a group one of whose items lies at x and, in pattern
// coordinates, y: what ph leaves open follows from the place.
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
