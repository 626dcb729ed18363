package plan

import "slices"

// plainBox is a box that panels are to fit in, reduced for an exhaustive
// search: panels are widened by what can never be used beside them, and those
// that then take the whole width or the whole length are laid against its end.
type plainBox struct {
	aim    int64 // the length of cloth that the box stands for
	W, T   int64 // what is left of the box
	kinds  []plainKind
	slabs  []slab
	rest   int    // how many panels wait
	mask   uint64 // a bit for each of them
	spare  int64  // area that they leave empty; negative when they cannot fit
	pinBit uint64 // the panel that lies in the quarter by the origin, by symmetry; 0 for none
	pinned int    // its kind; -1 for none

	across []uint64 // what the widths and the lengths that wait can add up to
	along  []uint64
	old    []uint64

	kept    []uint64
	keptFor []keptSums
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

// slab is a panel that lies against the end of the box.
type slab struct {
	rect int32
	x, y int64
}

// maxStairs is the greatest number of panels that is searched exhaustively: a
// bit of a word for each.
const maxStairs = 64

// maxStairWords bounds the tables of what panels can add up to.
const maxStairWords = 32

// boxFor is the box for a length of cloth, as it is or turned.
func (p *plain) boxFor(aim int64, turned bool) plainBox {
	b := plainBox{aim: aim, W: p.W, T: aim}
	if turned {
		b.W, b.T = aim, p.W
	}
	shapes := make([][2]shape, len(p.rects))
	wait := make([]int32, len(p.rects))
	for k := range p.rects {
		shapes[k] = candOf(&p.rects[k], turned, 0).way
		wait[k] = int32(k)
	}
	for more := !p.turns; more; {
		p.charge(widen(shapes, wait, b.W, func(s *shape) *int64 { return &s.w }))
		p.charge(widen(shapes, wait, b.T, func(s *shape) *int64 { return &s.h }))
		wait, more = b.layAside(shapes, wait)
	}
	b.rest = len(wait)
	for _, k := range wait {
		way := shapes[k]
		j := slices.IndexFunc(b.kinds, func(o plainKind) bool { return o.way == way })
		if j < 0 {
			j = len(b.kinds)
			b.kinds = append(b.kinds, plainKind{way: way, ways: p.rects[k].ways, area: way[0].w * way[0].h})
		}
		b.kinds[j].rects = append(b.kinds[j].rects, k)
	}
	b.count()
	return b
}

// layAside lays a panel that takes the whole width, or the whole length, of
// what is left against the end of it: the parts of a plan before and after such
// a panel can change places with it.
func (b *plainBox) layAside(shapes [][2]shape, wait []int32) ([]int32, bool) {
	for j, k := range wait {
		s := shapes[k][0]
		switch {
		case b.W <= 0 || b.T <= 0 || s.w > b.W || s.h > b.T:
			return wait, false // they do not fit
		case s.w == b.W:
			b.T -= s.h
			b.slabs = append(b.slabs, slab{k, 0, b.T})
		case s.h == b.T:
			b.W -= s.w
			b.slabs = append(b.slabs, slab{k, b.W, 0})
		default:
			continue
		}
		return slices.Delete(wait, j, j+1), true
	}
	return wait, false
}

// count numbers the panels that wait, chooses the one to pin, and sums up.
func (b *plainBox) count() {
	bit, most := uint(0), int64(0)
	b.spare = max(b.W, 0) * max(b.T, 0)
	for k := range b.kinds {
		q := &b.kinds[k]
		q.left = len(q.rects)
		q.bit = 1 << bit
		bit += uint(q.left)
		b.spare -= q.area * int64(q.left)
		if q.left == 1 && q.area > most {
			most, b.pinBit = q.area, q.bit
		}
	}
	b.mask = 1<<bit - 1 // all bits when bit is 64
}

// sorted puts the kinds in an order and lets every panel wait.
func (b *plainBox) sorted(order func(x, y plainKind) int) {
	slices.SortStableFunc(b.kinds, order)
	b.pinned = slices.IndexFunc(b.kinds, func(q plainKind) bool { return q.bit == b.pinBit })
	b.rest = 0
	for k := range b.kinds {
		b.kinds[k].left = len(b.kinds[k].rects)
		b.rest += b.kinds[k].left
	}
}

// length is the length of cloth that the box stands for.
func (b *plainBox) length() int64 { return b.aim }

// widen enlarges panels in one direction by what can never be used beside them:
// all others together can fill no more of the box than what a panel leaves (J.
// Carlier, F. Clautiaux and A. Moukrim, Computers & Operations Research 34
// (2007), from memory). It answers the steps that this took.
func widen(shapes [][2]shape, wait []int32, size int64, of func(*shape) *int64) int64 {
	if size <= 0 || size >= 64*maxStairWords {
		return 0
	}
	word := make([]uint64, size/64+1)
	for _, k := range wait {
		clear(word)
		word[0] = 1
		for _, j := range wait {
			if v := *of(&shapes[j][0]); j != k && v <= size {
				shiftIn(word, word, v)
			}
		}
		if v := of(&shapes[k][0]); *v <= size {
			*v = size - floorIn(word, size-*v)
		}
	}
	return int64(len(wait)*len(wait)) * int64(len(word)+2)
}

// sumTable is a table for sums up to size; nil when that is not worth while.
func sumTable(size int64) []uint64 {
	if size < 0 || size >= 64*maxStairWords {
		return nil
	}
	return make([]uint64, size/64+1)
}

// makeSums makes the tables of sums.
func (b *plainBox) makeSums() {
	b.along, b.across = sumTable(b.T), sumTable(b.W)
	size := len(b.across) + len(b.along)
	b.old = make([]uint64, max(len(b.across), len(b.along)))
	b.kept, b.keptFor = make([]uint64, maxKept*size), make([]keptSums, maxKept)
}

// keptSums says whose sums are kept, with their least length.
type keptSums struct {
	mask  uint64
	least int64
}

// maxKept is how many sets of sums are kept.
const maxKept = 1 << 10

// sums sets across and along to what the panels that wait, by their mask, can
// add up to. It answers the least length of any, and the steps that it took.
func (b *plainBox) sums(mask uint64) (least, steps int64) {
	n, m := len(b.across), len(b.along)
	slot := int(mix(mask) % maxKept)
	kept := b.kept[slot*(n+m) : (slot+1)*(n+m)]
	if b.keptFor[slot].mask == mask {
		copy(b.across, kept)
		copy(b.along, kept[n:])
		return b.keptFor[slot].least, int64(n+m)/4 + 4
	}
	least = b.sumUp()
	b.keptFor[slot] = keptSums{mask, least}
	copy(kept, b.across)
	copy(kept[n:], b.along)
	return least, int64(b.rest * (n + m + 4))
}

// sumUp computes sums.
func (b *plainBox) sumUp() int64 {
	clear(b.across)
	clear(b.along)
	if b.across != nil {
		b.across[0] = 1
	}
	if b.along != nil {
		b.along[0] = 1
	}
	least := b.T
	for k := range b.kinds {
		q := &b.kinds[k]
		if q.left == 0 {
			continue
		}
		for o := range q.ways {
			least = min(least, q.way[o].h)
		}
		for range q.left {
			addWays(b.across, b.old, q, false)
			addWays(b.along, b.old, q, true)
		}
	}
	return least
}

// addWays lets one panel of a kind join a table of sums; old is for its use.
func addWays(word, old []uint64, q *plainKind, along bool) {
	if len(word) == 0 {
		return
	}
	from := word
	if q.ways > 1 {
		from = old[:len(word)]
		copy(from, word)
	}
	for o := range q.ways {
		v := q.way[o].w
		if along {
			v = q.way[o].h
		}
		if v < int64(64*len(word)) {
			shiftIn(word, from, v)
		}
	}
}

// fitting reports whether a panel that waits would fit in a space. The pinned
// panel counts only when told to.
func (b *plainBox) fitting(w, h int64, pinned bool) bool {
	for k := range b.kinds {
		q := &b.kinds[k]
		if q.left == 0 || k == b.pinned && !pinned {
			continue
		}
		for _, s := range q.way[:q.ways] {
			if s.w <= w && s.h <= h {
				return true
			}
		}
	}
	return false
}
