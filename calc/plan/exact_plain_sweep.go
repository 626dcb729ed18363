package plan

import "slices"

// sweep proves that no plan of a given width and length exists, by a relaxation: a panel
// is a stretch of its width across the box. Any stretches may run side by side if their
// lengths add up to at most the box's length. (The contiguous relaxation of S. Martello,
// M. Monaci and D. Vigo, INFORMS Journal on Computing 15 (2003), from memory.)
//
// It goes through the box from the left. Among all arrangements of the stretches, it
// suffices to consider one with the least sum of starts. In it, each stretch starts at the
// start of the box or where another ends.
type sweep struct {
	plainBox
	p      *plain
	turned bool
	active [][]running // by depth, by end: what runs on at an event
	chosen [][]running // by depth: the same with what starts there
	memo   stairMemo
	until  int64
	cut    bool
	steps  int64
	failed bool // no plan exists
	open   bool // the relaxation can be met: nothing is shown
}

// running is a panel under way.
type running struct{ end, h int64 }

// moment is a position at which panels may start. load is the total length of the panels
// in progress. A panel of a length up to over would have started before.
type moment struct{ x, load, over int64 }

// begin sets the sweep up for a length.
func (e *sweep) begin(t int64) {
	e.plainBox = e.p.boxFor(t, e.turned)
	e.makeSums()
	e.failed, e.open = false, false
	e.memo.clear()
}

func (e *sweep) shown() (bool, []place) { return e.failed, nil }

func (e *sweep) useless() bool { return e.open }

// run sweeps until the work reaches until.
func (e *sweep) run(until int64) {
	e.until, e.cut = until, false
	e.sorted(kindOrders[2])
	for len(e.active) <= e.rest+1 {
		e.active, e.chosen = append(e.active, nil), append(e.chosen, nil)
	}
	e.active[0] = e.active[0][:0]
	e.memo.grow(until - e.p.s.d.work)
	e.open = e.spare >= 0 && e.event(0, moment{}, e.mask, e.spare)
	e.failed = !e.open && !e.cut
	e.p.charge(e.steps)
	e.steps = 0
}

// event starts panels at a moment, where active[d] run on.
func (e *sweep) event(d int, at moment, mask uint64, spare int64) bool {
	if e.rest == 0 {
		return true
	}
	e.steps += int64(len(e.active[d])) + 16
	if e.steps > 1<<14 {
		e.p.charge(e.steps)
		e.steps = 0
		e.cut = e.cut || e.p.s.d.work >= e.until || e.p.s.stop()
	}
	if e.cut || e.pinned >= 0 && e.kinds[e.pinned].left > 0 && e.late(at.x) {
		return false
	}
	at.over = e.binding(at.over)
	key := mix(mix(uint64(at.x)) ^ uint64(at.over))
	for _, a := range e.active[d] {
		key = mix(key ^ uint64(a.end))
		key = mix(key ^ uint64(a.h))
	}
	if e.memo.has(mask, key) || e.mustWaste(d, at, mask, spare) {
		return false
	}
	e.chosen[d] = append(e.chosen[d][:0], e.active[d]...)
	if e.choose(d, 0, at, mask, spare) {
		return true
	}
	if !e.cut {
		e.memo.put(mask, key)
	}
	return false
}

// choose starts panels of kinds from k on at x, in every number, and goes on to
// the next event. The panels under way are in chosen[d].
func (e *sweep) choose(d, k int, at moment, mask uint64, spare int64) bool {
	for ; k < len(e.kinds); k++ {
		q := &e.kinds[k]
		e.steps += 3
		if q.left == 0 {
			continue
		}
		for _, s := range q.way[:q.ways] {
			if s.h > e.T-at.load || s.h <= at.over || at.x+s.w > e.W || k == e.pinned && 2*at.x+s.w > e.W {
				continue
			}
			e.chosen[d] = insert(e.chosen[d], running{at.x + s.w, s.h})
			e.steps += int64(len(e.chosen[d])) + 4
			q.left--
			e.rest--
			more := moment{at.x, at.load + s.h, at.over}
			ok := e.choose(d, k, more, mask&^(q.bit<<uint(q.left)), spare)
			q.left++
			e.rest++
			if ok || e.cut {
				return ok
			}
			e.chosen[d] = remove(e.chosen[d], running{at.x + s.w, s.h})
		}
	}
	return e.advance(d, at, mask, spare)
}

// advance goes to where the next panel ends.
func (e *sweep) advance(d int, at moment, mask uint64, spare int64) bool {
	if e.rest == 0 {
		return true
	}
	act := e.chosen[d]
	if len(act) == 0 {
		return false
	}
	to := act[0].end
	over := e.T - at.load
	spare -= (to - at.x) * over
	e.steps += int64(len(e.kinds))
	if spare < 0 || to >= e.W || e.fitting(to-at.x, over, true) { // it would have started and ended between
		return false
	}
	e.active[d+1] = append(e.active[d+1][:0], act[1:]...)
	e.steps += int64(len(act))
	return e.event(d+1, moment{to, at.load - act[0].h, over}, mask, spare)
}

// late reports whether the pinned panel can no longer start at x.
func (e *sweep) late(x int64) bool {
	q := &e.kinds[e.pinned]
	least := q.way[0].w
	if q.ways > 1 {
		least = min(least, q.way[1].w)
	}
	return 2*x+least > e.W
}

// binding is the greatest length of a panel that waits up to over; 0 when there
// is none.
func (e *sweep) binding(over int64) int64 {
	most := int64(0)
	for k := range e.kinds {
		q := &e.kinds[k]
		if q.left == 0 {
			continue
		}
		for _, s := range q.way[:q.ways] {
			if s.h <= over {
				most = max(most, s.h)
			}
		}
	}
	e.steps += int64(len(e.kinds))
	return most
}

// insert adds a stretch by end; those that end together count as one.
func insert(act []running, s running) []running {
	k := 0
	for k < len(act) && act[k].end < s.end {
		k++
	}
	if k < len(act) && act[k].end == s.end {
		act[k].h += s.h
		return act
	}
	return slices.Insert(act, k, s)
}

// remove takes a stretch out again.
func remove(act []running, s running) []running {
	k := 0
	for act[k].end < s.end {
		k++
	}
	if act[k].h -= s.h; act[k].h == 0 {
		return slices.Delete(act, k, k+1)
	}
	return act
}

// mustWaste reports whether more area must stay empty than the box can spare. Area is lost
// where panels in progress leave a length that no other panels add up to. It is also lost
// after each of them, where no others add up to the remaining width.
func (e *sweep) mustWaste(d int, now moment, mask uint64, spare int64) bool {
	_, steps := e.sums(mask)
	e.steps += steps
	at, load := now.x, now.load
	var beside, after int64
	if e.across != nil {
		room := e.W - at
		after = (e.T - load) * (room - floorIn(e.across, room))
	}
	for _, a := range e.active[d] {
		if e.along != nil {
			room := e.T - load
			beside += (a.end - at) * (room - floorIn(e.along, room))
		}
		if e.across != nil {
			room := e.W - a.end
			after += a.h * (room - floorIn(e.across, room))
		}
		load -= a.h
		at = a.end
	}
	if e.along != nil {
		beside += (e.W - at) * (e.T - floorIn(e.along, e.T))
	}
	e.steps += int64(4 * len(e.active[d]))
	return max(beside, after) > spare
}
