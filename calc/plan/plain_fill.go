package plan

// filler fills a box of a given width and length with panels by best fit: the
// lowest niche of the skyline takes the panel that fits it best, the first in
// the order among equals (E. K. Burke, G. Kendall and G. Whitwell, Operations
// Research 52 (2004); the degrees of fit after L. Wei, Q. Hu, S. C. H. Leung
// and N. Zhang, Computers & Operations Research 80 (2017), from memory). A niche that nothing fits is raised to its lower
// neighbour, and what that buries is waste.
type filler struct {
	W, T  int64
	segs  []seg
	rest  []cand
	steps []fillStep // one for each panel laid or niche raised
	waste int64
	work  int64
}

// cand is a panel that waits.
type cand struct {
	way  [2]shape // the second is empty when the panel lies one way only
	item int32
}

// niche is the lowest, leftmost stretch of the skyline. Its walls are how far
// its neighbours, or the end of the box, stand above it.
type niche struct {
	at          int
	x, y, w     int64
	left, right int64
}

// fillStep is what was done with a niche.
type fillStep struct {
	niche
	choice
}

// choice is the panel that a niche takes: of those that fit it best, the first
// in the order.
type choice struct {
	item int32 // noPanel raises the niche
	way  int8
	fit  int8
	tie  bool // others may fit as well
}

const noPanel = -1

// reset empties the box.
func (f *filler) reset() {
	f.segs = append(f.segs[:0], seg{})
	f.steps = f.steps[:0]
	f.waste = 0
}

// lowest finds the niche to fill next; false when the box is full.
func (f *filler) lowest() (niche, bool) {
	a := 0
	for j := 1; j < len(f.segs); j++ {
		if f.segs[j].y < f.segs[a].y {
			a = j
		}
	}
	f.work += int64(len(f.segs)) + 4
	n := niche{at: a, x: f.segs[a].x, y: f.segs[a].y}
	room := f.T - n.y
	n.left, n.right = room, room
	if a > 0 {
		n.left = f.segs[a-1].y - n.y
	}
	end := f.W
	if a+1 < len(f.segs) {
		end = f.segs[a+1].x
		n.right = f.segs[a+1].y - n.y
	}
	n.w = end - n.x
	return n, room > 0
}

// fitOf is how well a panel fits a niche, 0 to 7; -1 when it does not fit.
func fitOf(s shape, n *niche, high, low, room int64) int8 {
	if s.w > n.w || s.h > room {
		return -1
	}
	if s.w == n.w {
		switch {
		case s.h == high:
			return 7
		case s.h == low:
			return 6
		case s.h > high:
			return 5
		case s.h > low:
			return 3
		default:
			return 2
		}
	}
	switch s.h {
	case high:
		return 4
	case low:
		return 1
	}
	return 0
}

// pick is the panel that fits a niche best, and where it waits.
func (f *filler) pick(n *niche) (best choice, at int) {
	high, low, room := max(n.left, n.right), min(n.left, n.right), f.T-n.y
	best = choice{item: noPanel, fit: -1}
	k := 0
	for ; k < len(f.rest); k++ {
		c := &f.rest[k]
		fit, way := fitOf(c.way[0], n, high, low, room), int8(0)
		if c.way[1].w > 0 {
			if g := fitOf(c.way[1], n, high, low, room); g > fit {
				fit, way = g, 1
			}
		}
		if fit < best.fit || fit < 0 {
			continue
		}
		if fit == best.fit {
			best.tie = true
			continue
		}
		best = choice{item: c.item, way: way, fit: fit}
		at = k
		if fit == 7 {
			best.tie = true
			break
		}
	}
	f.work += int64(k) + 4
	return best, at
}

// side is where across a panel of a degree of fit lies in its niche: beside the
// higher wall, except that it joins a lower wall of its own height.
func (n *niche) side(s shape, fit int8) int64 {
	atLeft := n.left >= n.right
	if fit == 1 {
		atLeft = !atLeft
	}
	if atLeft {
		return n.x
	}
	return n.x + n.w - s.w
}

// apply lays a panel in its niche, or raises the niche when item is noPanel.
func (f *filler) apply(st *fillStep, s shape) {
	n := &st.niche
	if st.item == noPanel {
		up := min(n.left, n.right)
		f.waste += n.w * up
		f.setTop(n, n.x, n.w, n.y+up)
	} else {
		f.setTop(n, n.side(s, st.fit), s.w, n.y+s.h)
	}
	f.steps = append(f.steps, *st)
}

// setTop raises [x, x+w), one end or the whole of a niche, to y.
func (f *filler) setTop(n *niche, x, w, y int64) {
	a := n.at
	joinLeft := a > 0 && x == n.x && f.segs[a-1].y == y
	joinRight := a+1 < len(f.segs) && x+w == n.x+n.w && f.segs[a+1].y == y
	switch {
	case w == n.w && joinLeft && joinRight:
		f.segs = append(f.segs[:a], f.segs[a+2:]...)
	case w == n.w && joinLeft:
		f.segs = append(f.segs[:a], f.segs[a+1:]...)
	case w == n.w && joinRight:
		f.segs[a].y = y
		f.segs = append(f.segs[:a+1], f.segs[a+2:]...)
	case w == n.w:
		f.segs[a].y = y
	case joinLeft:
		f.segs[a].x += w
	case joinRight:
		f.segs[a+1].x -= w
	case x == n.x:
		f.segs = append(f.segs, seg{})
		copy(f.segs[a+1:], f.segs[a:])
		f.segs[a] = seg{x, y}
		f.segs[a+1].x = x + w
	default:
		f.segs = append(f.segs, seg{})
		copy(f.segs[a+1:], f.segs[a:])
		f.segs[a+1] = seg{x, y}
	}
	f.work += 4
}

// finish fills the box on from where it stands, and gives up once the waste
// passes most. It answers whether it came to an end, with the waste, which
// counts what is empty at the end.
func (f *filler) finish(most int64) bool {
	for len(f.rest) > 0 {
		n, ok := f.lowest()
		if !ok {
			return true
		}
		c, at := f.pick(&n)
		st := fillStep{n, c}
		var s shape
		if st.item == noPanel {
			if f.waste+n.w*min(n.left, n.right) > most {
				return false
			}
		} else {
			s = f.rest[at].way[c.way]
			f.work += int64(len(f.rest)-at) / 4
			f.rest = append(f.rest[:at], f.rest[at+1:]...)
		}
		f.apply(&st, s)
	}
	return true
}
