package plan

import "math/bits"

// search explores what can follow the first d decisions: mask says which panels
// wait, spare how much more area may stay empty. It answers whether a plan was
// found.
func (e *stairs) search(d int, mask uint64, spare int64) bool {
	if e.rest == 0 {
		e.record(d)
		return true
	}
	if e.tired() {
		return false
	}
	n, low := e.niche(d)
	if low == e.T || e.pinned >= 0 && e.kinds[e.pinned].left > 0 && !e.pinnable(low) {
		return false
	}
	key := skyHash(e.nodes[d].segs)
	if e.memo.has(mask, key) || e.mustWaste(d, mask, spare) {
		return false
	}
	if e.panels(d, &n, 0, 0, mask, spare) || e.gaps(d, &n, mask, spare) || e.closes(d, &n, mask, spare) {
		return true
	}
	if !e.cut {
		e.memo.put(mask, key)
	}
	return false
}

// niche is the narrowest niche of the skyline at depth d, a stretch between
// higher walls, and the least height of the skyline.
func (e *stairs) niche(d int) (best niche, low int64) {
	segs := e.nodes[d].segs
	low = e.T
	best.w = e.W + 1
	for j := range segs {
		low = min(low, segs[j].y)
		if n := nicheAt(segs, j, e.W, e.T); n.left > 0 && n.right > 0 && n.w < best.w {
			best = n
		}
	}
	e.steps += int64(2*len(segs)) + 8
	return best, low
}

// nicheAt describes stretch a of a skyline.
func nicheAt(segs []seg, a int, width, length int64) niche {
	n := niche{at: a, x: segs[a].x, y: segs[a].y}
	n.left, n.right = length-n.y, length-n.y
	end := width
	if a > 0 {
		n.left = segs[a-1].y - n.y
	}
	if a+1 < len(segs) {
		end, n.right = segs[a+1].x, segs[a+1].y-n.y
	}
	n.w = end - n.x
	return n
}

// pinnable reports whether the pinned panel still fits in its quarter from y on.
func (e *stairs) pinnable(y int64) bool {
	q := &e.kinds[e.pinned]
	for o := range q.ways {
		if 2*y+q.way[o].h <= e.T {
			return true
		}
	}
	return false
}

// panels tries every panel on the floor of the niche after a gap, those that
// touch both walls or end with one first. Only panels higher than over.
func (e *stairs) panels(d int, n *niche, gap, over int64, mask uint64, spare int64) bool {
	for _, snug := range [...]bool{true, false} {
		for k := range e.kinds {
			q := &e.kinds[k]
			if q.left == 0 {
				continue
			}
			for o := range q.ways {
				s := q.way[o]
				if s.w > n.w-gap || s.h > e.T-n.y || s.h <= over {
					continue
				}
				if (s.w == n.w || s.h == n.left || s.h == n.right && gap+s.w == n.w) != snug {
					continue
				}
				if k == e.pinned && (2*(n.x+gap)+s.w > e.W || 2*n.y+s.h > e.T) {
					continue
				}
				if e.spoils(d, n, gap, s, spare) {
					continue
				}
				if e.lay(d, n, gap, k, int8(o), mask, spare) {
					return true
				}
				if e.cut {
					return false
				}
			}
		}
	}
	e.steps += int64(2 * len(e.kinds))
	return false
}

// spoils reports whether a panel laid after a gap would leave floor beside it,
// or length above it, that no panels fill.
func (e *stairs) spoils(d int, n *niche, gap int64, s shape, spare int64) bool {
	at := &e.nodes[d]
	if len(at.across) > 0 {
		left := n.w - gap - s.w
		if (left-floorIn(at.across, left))*min(s.h, n.right, at.least) > spare {
			return true
		}
	}
	if len(at.along) > 0 {
		left := e.T - n.y - s.h
		return s.w*(left-floorIn(at.along, left)) > spare
	}
	return false
}

// lay puts a panel of kind k on the floor after a gap and searches on.
func (e *stairs) lay(d int, n *niche, gap int64, k int, o int8, mask uint64, spare int64) bool {
	q := &e.kinds[k]
	s := q.way[o]
	at, next := &e.nodes[d], &e.nodes[d+1]
	at.kind, at.way, at.x, at.y = k, o, n.x+gap, n.y
	next.segs = next.segs[:0]
	for j := range n.at {
		next.segs = append(next.segs, at.segs[j])
	}
	next.segs = joined(next.segs, at.x, n.y+s.h) // a gap goes to the wall before it
	if end := at.x + s.w; end < n.x+n.w {
		next.segs = append(next.segs, seg{end, n.y})
	}
	for j := n.at + 1; j < len(at.segs); j++ {
		next.segs = joined(next.segs, at.segs[j].x, at.segs[j].y)
	}
	e.steps += int64(len(at.segs)) + 4
	q.left--
	e.rest--
	ok := e.search(d+1, mask&^(q.bit<<uint(q.left)), spare)
	q.left++
	e.rest++
	return ok
}

// joined appends a stretch from x at height y, unless the last has that height.
func joined(segs []seg, x, y int64) []seg {
	if len(segs) > 0 && segs[len(segs)-1].y == y {
		return segs
	}
	return append(segs, seg{x, y})
}

// gaps tries to leave floor empty at the left wall, before a panel that another,
// which reaches over the wall, holds off it.
func (e *stairs) gaps(d int, n *niche, mask uint64, spare int64) bool {
	if n.at == 0 || e.rest < 2 {
		return false
	}
	for gap := int64(1); gap < n.w && gap*n.left <= spare && !e.hides(gap, n.left); gap++ {
		if !e.reaches(gap, e.T-n.y-n.left) {
			return false
		}
		if e.panels(d, n, gap, n.left, mask, spare-gap*n.left) {
			return true
		}
		if e.cut {
			return false
		}
	}
	return false
}

// reaches reports whether a panel that waits is wider than gap and at most so
// long.
func (e *stairs) reaches(gap, room int64) bool {
	e.steps += int64(len(e.kinds))
	for k := range e.kinds {
		q := &e.kinds[k]
		for o := range q.ways {
			if q.left > 0 && q.way[o].w > gap && q.way[o].h <= room {
				return true
			}
		}
	}
	return false
}

// hides reports whether a panel that waits would fit in an empty stretch. The
// pinned panel does not count: it may not be moved there.
func (e *stairs) hides(w, h int64) bool {
	e.steps += int64(len(e.kinds))
	return e.fitting(w, h, false)
}

// closes tries to leave the rest of the floor empty.
func (e *stairs) closes(d int, n *niche, mask uint64, spare int64) bool {
	up := min(n.left, n.right)
	at, next := &e.nodes[d], &e.nodes[d+1]
	if len(at.segs) == 1 || n.w*up > spare || e.hides(n.w, up) {
		return false
	}
	at.kind = -1
	next.segs = next.segs[:0]
	for j := range at.segs {
		y := at.segs[j].y
		if j == n.at {
			y += up
		}
		next.segs = joined(next.segs, at.segs[j].x, y)
	}
	return e.search(d+1, mask, spare-n.w*up)
}

// record keeps the plan that the decisions up to depth d make.
func (e *stairs) record(d int) {
	e.found = make([]place, len(e.p.rects))
	for _, o := range e.slabs {
		e.found[o.rect] = place{o.x, o.y, 0}
	}
	used := make([]int, len(e.kinds))
	for j := range d {
		at := &e.nodes[j]
		if at.kind < 0 {
			continue
		}
		e.found[e.kinds[at.kind].rects[used[at.kind]]] = place{at.x, at.y, at.way}
		used[at.kind]++
	}
	for k := range e.found {
		if q := &e.found[k]; e.turned {
			q.x, q.y = q.y, q.x
		}
	}
}

// mustWaste reports whether more area must stay empty than may: on the floors
// of niches that no panels fill exactly, or above stretches over which no
// panels add up to the length.
func (e *stairs) mustWaste(d int, mask uint64, spare int64) bool {
	segs := e.nodes[d].segs
	least, steps := e.sums(mask)
	e.steps += steps
	at := &e.nodes[d]
	at.across, at.along, at.least = append(at.across[:0], e.across...), append(at.along[:0], e.along...), least
	var floor, above int64
	for j := range segs {
		n := nicheAt(segs, j, e.W, e.T)
		if e.along != nil {
			room := e.T - n.y
			above += n.w * (room - floorIn(e.along, room))
		}
		if e.across != nil && n.left > 0 && n.right > 0 {
			floor += (n.w - floorIn(e.across, n.w)) * min(n.left, n.right, least)
		}
	}
	e.steps += int64(4 * len(segs))
	return max(floor, above) > spare
}

// skyHash mixes a skyline into a word.
func skyHash(segs []seg) uint64 {
	h := uint64(len(segs))
	for _, s := range segs {
		h = mix(h ^ uint64(s.x))
		h = mix(h ^ uint64(s.y))
	}
	return h
}

// mix spreads a word over another, by multiplication in 128 bits.
func mix(v uint64) uint64 {
	hi, lo := bits.Mul64(v^0x9e3779b97f4a7c15, 0xbf58476d1ce4e5b9)
	return hi ^ lo
}
