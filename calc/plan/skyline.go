package plan

// seg is a stretch of the skyline: from x to the next segment's x, everything
// below y is used or given up.
type seg struct{ x, y int64 }

// hole is a free rectangle below the skyline.
type hole struct{ x, y, w, h int64 }

// noEnd is the limit of a strip as long as it takes.
const noEnd = int64(1) << 62

// maxHoles bounds the list of holes; the smallest are forgotten first.
const maxHoles = 160

// strip is one length of cloth being filled from its start.
type strip struct {
	W        int64
	limit    int64 // its length, or noEnd
	paid     bool  // its used length counts
	segs     []seg
	holes    []hole
	sigma    int64 // where in the repeat it begins
	sigmaSet bool
	top      int64 // greatest used y
}

// reset empties the strip.
func (s *strip) reset() {
	s.segs = append(s.segs[:0], seg{})
	s.holes = s.holes[:0]
	s.top = 0
}

// end is where segment j ends.
func (s *strip) end(j int) int64 {
	if j+1 < len(s.segs) {
		return s.segs[j+1].x
	}
	return s.W
}

// at is the segment over x.
func (s *strip) at(x int64) int {
	lo, hi := 0, len(s.segs)
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if s.segs[mid].x <= x {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// base is the greatest y of the skyline over [x, x+w), given the segment j over
// x. It gives up, returning cap, once the height reaches cap.
func (s *strip) base(j int, x, w, upper int64) int64 {
	y := int64(0)
	for ; j < len(s.segs) && s.segs[j].x < x+w; j++ {
		if s.segs[j].y > y {
			if y = s.segs[j].y; y >= upper {
				return upper
			}
		}
	}
	return y
}

// waste is the area under y over [x, x+w) that would be buried, as a measure
// for choosing only.
func (s *strip) waste(j int, x, w, y int64) float64 {
	sum := 0.0
	for ; j < len(s.segs) && s.segs[j].x < x+w; j++ {
		width := min(s.end(j), x+w) - max(s.segs[j].x, x)
		sum += float64(float64(width) * float64(y-s.segs[j].y))
	}
	return sum
}

// put lays a rectangle on the skyline and turns what it buries into holes.
func (s *strip) put(x, y, w, h, minW, minH int64) {
	a := s.at(x)
	floor := s.base(a, x, w, 1<<62)
	if y-floor >= minH {
		s.addHole(hole{x, floor, w, y - floor}, minW, minH)
	}
	b := a
	for ; b < len(s.segs) && s.segs[b].x < x+w; b++ {
		from, to := max(s.segs[b].x, x), min(s.end(b), x+w)
		s.addHole(hole{from, s.segs[b].y, to - from, floor - s.segs[b].y}, minW, minH)
	}
	s.raise(a, b, x, w, y+h)
	s.top = max(s.top, y+h)
}

// raise sets the skyline over [x, x+w), which segments [a, b) cover, to y.
func (s *strip) raise(a, b int, x, w, y int64) {
	lastEnd, lastY := s.end(b-1), s.segs[b-1].y
	var fresh [3]seg
	n := 0
	if s.segs[a].x < x {
		fresh[n] = s.segs[a]
		n++
	}
	fresh[n] = seg{x, y}
	n++
	if x+w < lastEnd {
		fresh[n] = seg{x + w, lastY}
		n++
	}
	grow := n - (b - a)
	switch {
	case grow > 0:
		old := len(s.segs)
		for range grow {
			s.segs = append(s.segs, seg{})
		}
		copy(s.segs[b+grow:], s.segs[b:old])
	case grow < 0:
		s.segs = append(s.segs[:b+grow], s.segs[b:]...)
	}
	copy(s.segs[a:], fresh[:n])
	s.level(a, a+n)
}

// level joins neighbours of equal height around segments [a, b).
func (s *strip) level(a, b int) {
	out := max(a, 1)
	for j := out; j < len(s.segs); j++ {
		if s.segs[j].y == s.segs[out-1].y {
			continue
		}
		if j > b && out == j {
			return
		}
		s.segs[out] = s.segs[j]
		out++
	}
	s.segs = s.segs[:out]
}

// addHole keeps a hole that some item might fit.
func (s *strip) addHole(h hole, minW, minH int64) {
	if h.w < minW || h.h < minH {
		return
	}
	if len(s.holes) < maxHoles {
		s.holes = append(s.holes, h)
		return
	}
	least := 0
	for k := range s.holes {
		if min(s.holes[k].w, s.holes[k].h) < min(s.holes[least].w, s.holes[least].h) {
			least = k
		}
	}
	if min(h.w, h.h) > min(s.holes[least].w, s.holes[least].h) {
		s.holes[least] = h
	}
}

// fill lays a rectangle into hole k and keeps what is left of it.
func (s *strip) fill(k int, x, y, w, h, minW, minH int64) {
	o := s.holes[k]
	s.holes[k] = s.holes[len(s.holes)-1]
	s.holes = s.holes[:len(s.holes)-1]
	right, above := o.x+o.w-x-w, o.y+o.h-y-h
	if max(x-o.x, right) >= max(y-o.y, above) { // wide remains: full height at the sides
		s.addHole(hole{o.x, o.y, x - o.x, o.h}, minW, minH)
		s.addHole(hole{x + w, o.y, right, o.h}, minW, minH)
		s.addHole(hole{x, o.y, w, y - o.y}, minW, minH)
		s.addHole(hole{x, y + h, w, above}, minW, minH)
	} else {
		s.addHole(hole{o.x, o.y, o.w, y - o.y}, minW, minH)
		s.addHole(hole{o.x, y + h, o.w, above}, minW, minH)
		s.addHole(hole{o.x, y, x - o.x, h}, minW, minH)
		s.addHole(hole{x + w, y, right, h}, minW, minH)
	}
	s.top = max(s.top, y+h)
}

// area is the area under the skyline, a measure for comparing only.
func (s *strip) area() float64 {
	sum := 0.0
	for j := range s.segs {
		sum += float64(float64(s.end(j)-s.segs[j].x) * float64(s.segs[j].y))
	}
	return sum
}
