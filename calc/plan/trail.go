package plan

// trail lets a decoder go on from the middle of an order: it keeps what the
// decoder had before each item, or each stride-th, of the order that is being
// changed. A change leaves everything before the first item that it moves as it
// was.
type trail struct {
	d          *decoder
	stride     int
	kept, next []snapshot // before every stride-th item; next is written while trying
	spots      []spot     // of the order that is kept
	from       int        // where the last trial began
}

// maxSnapshots bounds the snapshots of a trail.
const maxSnapshots = 64

// snapshot is the state of a decoder between two items.
type snapshot struct {
	bins   []strip
	states []groupState // of the groups that are tied
}

func newTrail(d *decoder, items int) *trail {
	stride := max((items+maxSnapshots-1)/maxSnapshots, 1)
	return &trail{d: d, stride: stride, kept: make([]snapshot, maxSnapshots), next: make([]snapshot, maxSnapshots), spots: make([]spot, len(d.spots))}
}

// save takes over the state of the decoder.
func (s *snapshot) save(d *decoder) {
	if s.bins == nil {
		s.bins = make([]strip, len(d.bins))
	}
	for b := range d.bins {
		s.bins[b].copyFrom(&d.bins[b])
	}
	s.states = s.states[:0]
	for _, g := range d.m.tied {
		s.states = append(s.states, d.states[g])
	}
}

// restore puts the decoder back.
func (s *snapshot) restore(d *decoder) {
	for b := range d.bins {
		d.bins[b].copyFrom(&s.bins[b])
	}
	for j, g := range d.m.tied {
		d.states[g] = s.states[j]
	}
}

// copyFrom makes a strip equal to another, keeping its own memory.
func (s *strip) copyFrom(o *strip) {
	segs, holes := s.segs[:0], s.holes[:0]
	segs, holes = append(segs, o.segs...), append(holes, o.holes...)
	*s = *o
	s.segs, s.holes = segs, holes
}

// try decodes genes that are equal to those kept before item from; from 0 needs
// nothing kept. It answers like decode.
func (t *trail) try(g *genes, from int, upper int64) (int64, bool) {
	d := t.d
	from -= from % t.stride
	t.from = from
	if from == 0 {
		d.start()
	} else {
		t.kept[from/t.stride].restore(d)
	}
	d.weight = float64(wasteWeights[g.rule] / float64(d.m.W))
	for j := from; j < len(g.order); j++ {
		if j > from && j%t.stride == 0 {
			t.next[j/t.stride].save(d)
		}
		if !d.layNext(int(g.order[j]), g.lay, upper) {
			return 0, false
		}
	}
	total := d.total()
	return total, total <= upper
}

// keep makes the genes tried last those from which to go on, and gives the
// decoder the places of all items.
func (t *trail) keep(g *genes) {
	for j, k := range g.order {
		if j < t.from {
			t.d.spots[k] = t.spots[k]
			continue
		}
		t.spots[k] = t.d.spots[k]
		if n := j / t.stride; j > t.from && j%t.stride == 0 {
			t.kept[n], t.next[n] = t.next[n], t.kept[n]
		}
	}
}
