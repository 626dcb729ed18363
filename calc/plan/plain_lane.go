package plan

import (
	"cmp"
	"slices"
)

// lane is one local search in decision form: an order of the panels, and how it
// fills a box of the width and the length that is aimed at. A turned lane fills
// the box from its side. Orders are changed by exchanges and moves; a change
// that leaves no more panels out is kept. Sharing the work between lanes that
// start from several orders, with shares that double, follows L. Wei,
// W.-C. Oon, W. Zhu and A. Lim, European Journal of Operational Research 215
// (2011) 337-346.
type lane struct {
	turned bool
	T      int64 // the length aimed at when it was last filled
	order  []int32
	cur    filler // as the order fills the box
	next   filler
	shapes []cand  // by panel
	slot   []int32 // place in the order by panel
	laidAt []int32 // step at which cur lays a panel, by panel
	out    int64   // area of the panels that cur leaves out
}

// makeLanes sorts the panels in several ways.
func (p *plain) makeLanes() {
	keys := []func(r *rect) int64{
		func(r *rect) int64 { return r.area() },
		func(r *rect) int64 { return r.way[0].h },
		func(r *rect) int64 { return r.way[0].w },
		func(r *rect) int64 { return r.way[0].w*p.unitX + r.way[0].h*p.unitY },
	}
	for _, turned := range [...]bool{false, true} {
		for _, key := range keys {
			l := &lane{turned: turned}
			for k := range p.rects {
				l.order = append(l.order, int32(k))
				l.shapes = append(l.shapes, candOf(&p.rects[k], turned, int32(k)))
			}
			slices.SortStableFunc(l.order, func(a, b int32) int {
				return cmp.Compare(key(&p.rects[b]), key(&p.rects[a]))
			})
			l.slot = make([]int32, len(l.order))
			l.laidAt = make([]int32, len(l.order))
			p.lanes = append(p.lanes, l)
		}
	}
}

// candOf is a panel as a lane sees it.
func candOf(r *rect, turned bool, item int32) cand {
	c := cand{item: item}
	for o := range r.ways {
		c.way[o] = r.way[o]
		if turned {
			c.way[o] = shape{r.way[o].h, r.way[o].w}
		}
	}
	return c
}

// improve gives a lane a share of the work.
func (p *plain) improve(l *lane, share int64) {
	end := min(p.s.d.work+share, p.s.budget)
	for count := 0; p.s.d.work < end && p.s.best.top > p.s.bound.length; count++ {
		if count%64 == 0 && p.s.done() {
			return
		}
		if t := p.below(p.best()); count == 0 || l.T != t {
			if p.fill(l, t) {
				continue
			}
		}
		p.exchange(l)
	}
}

// fill fills the box of length t in the lane's order; true when all fit.
func (p *plain) fill(l *lane, t int64) bool {
	l.T = t
	f := &l.cur
	f.W, f.T = p.W, t
	if l.turned {
		f.W, f.T = t, p.W
	}
	l.next.W, l.next.T = f.W, f.T
	f.reset()
	f.rest = f.rest[:0]
	for k, item := range l.order {
		l.slot[item] = int32(k)
		f.rest = append(f.rest, l.shapes[item])
	}
	f.finish(1 << 62)
	p.chargeFill(f)
	l.settle()
	return p.fits(l, f)
}

func (p *plain) chargeFill(f *filler) {
	p.charge(f.work)
	f.work = 0
}

// settle takes cur as the lane's state.
func (l *lane) settle() {
	l.out = 0
	for _, c := range l.cur.rest {
		l.out += c.way[0].w * c.way[0].h
	}
	for k := range l.laidAt {
		l.laidAt[k] = noStep
	}
	for k := range l.cur.steps {
		if st := &l.cur.steps[k]; st.item >= 0 {
			l.laidAt[st.item] = int32(k)
		}
	}
}

// fits keeps the plan when a filler has laid everything.
func (p *plain) fits(l *lane, f *filler) bool {
	if len(f.rest) > 0 {
		return false
	}
	at := make([]place, len(p.rects))
	top := int64(0)
	for k := range f.steps {
		st := &f.steps[k]
		if st.item < 0 {
			continue
		}
		s := l.shapes[st.item].way[st.way]
		q := place{st.side(s, st.fit), st.y, st.way}
		if l.turned {
			q.x, q.y, s = q.y, q.x, shape{s.h, s.w}
		}
		at[st.item] = q
		top = max(top, q.y+s.h)
	}
	p.take(top, at)
	return true
}

// exchange tries one change to the order.
func (p *plain) exchange(l *lane) {
	n := len(l.order)
	if n < 2 {
		p.charge(1 << 20) // nothing to exchange
		return
	}
	r := p.s.rng
	a, b := r.IntN(n), r.IntN(n)
	p.charge(8)
	if a > b {
		a, b = b, a
	}
	early, late := l.order[b], l.order[a]
	if l.shapes[early].way == l.shapes[late].way {
		return
	}
	from := p.firstChange(l, early, late, int32(a))
	l.set(a, early)
	l.set(b, late)
	if from == noStep || p.refill(l, from) {
		return
	}
	l.set(a, late)
	l.set(b, early)
}

// noStep is later than every step.
const noStep = 1<<31 - 1

// set puts a panel at a place in the order.
func (l *lane) set(k int, item int32) {
	l.order[k] = item
	l.slot[item] = int32(k)
}

// firstChange is the first step of cur at which another panel may be laid once
// early comes at place a of the order, where late is now, and late after it;
// noStep when none is. Until then the box is filled as before.
func (p *plain) firstChange(l *lane, early, late, a int32) int32 {
	f := &l.cur
	c := &l.shapes[early]
	end := max(l.laidAt[early], l.laidAt[late])
	from := int32(noStep)
	k := 0
	for ; k < len(f.steps) && int32(k) <= end; k++ {
		st := &f.steps[k]
		if st.item == late && st.tie {
			from = int32(k)
			break
		}
		if st.item < 0 || int32(k) >= l.laidAt[early] || l.slot[st.item] < a {
			continue
		}
		high, low, room := max(st.left, st.right), min(st.left, st.right), f.T-st.y
		if fitOf(c.way[0], &st.niche, high, low, room) == st.fit ||
			c.way[1].w > 0 && fitOf(c.way[1], &st.niche, high, low, room) == st.fit {
			from = int32(k)
			break
		}
	}
	p.charge(int64(2*k) + 8)
	return from
}

// refill fills the box in the changed order, which differs from step from on,
// and answers whether that is kept.
func (p *plain) refill(l *lane, from int32) bool {
	f := &l.next
	f.reset()
	f.rest = f.rest[:0]
	for k := range l.cur.steps[:from] {
		st := &l.cur.steps[k]
		var s shape
		if st.item >= 0 {
			s = l.shapes[st.item].way[st.way]
		}
		f.apply(st, s)
	}
	for _, item := range l.order {
		if l.laidAt[item] >= from {
			f.rest = append(f.rest, l.shapes[item])
		}
	}
	f.work += int64(len(l.order) + 2*int(from))
	ended := f.finish(l.out + f.W*f.T - p.area)
	p.chargeFill(f)
	if !ended {
		return false
	}
	out := int64(0)
	for k := range f.rest {
		out += f.rest[k].way[0].w * f.rest[k].way[0].h
	}
	if out > l.out {
		return false
	}
	l.cur, l.next = l.next, l.cur
	l.settle()
	p.fits(l, &l.cur)
	return true
}
