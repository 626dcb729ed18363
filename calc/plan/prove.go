package plan

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

// maxSigmas bounds the starts of the repeat that a proof tries one by one.
const maxSigmas = 6000

// prove looks for shorter plans of a small job until it has found the shortest
// or used its share of the work. When nothing shorter exists, it raises the
// bound to the best plan. It begins with the core of the job, whose shortest
// plan is a bound for the whole. Where ties with an open phase put the whole
// beyond the search, they are left out, which leaves a bound.
func (s *searcher) prove(share int64) {
	if s.done() || s.m.manyColumns() {
		return
	}
	for _, tied := range []bool{false, true} {
		if c := s.m.core(tied); c != nil {
			part := share / 2
			if tied {
				part = share / 3
			}
			share -= s.proveCore(c, part)
			if s.done() {
				return
			}
		}
	}
	whole, better, by := s.m, s.adopt, note.BoundAllPlans
	if l := s.m.loosened(); l != nil && newExact(s.m, 200, s.stop) == nil {
		whole, better, by = l, nil, note.BoundLoosened
	}
	low, used := whole.shortest(s.bound.length, s.best.top, s.best.sigma, share, s.stop, better)
	s.d.work += used
	s.raise(min(low, s.best.top), by)
}

// fillTries is how many orders of the remaining panels are tried around one plan
// of the core.
const fillTries = 24

// proveCore raises the bound to the shortest plan of the core, as far as the
// share of work goes, and completes the plans of the core that it comes by. With
// work left, it looks for plans of the core that can be completed to something
// shorter than the best.
func (s *searcher) proveCore(c *model, share int64) int64 {
	h := c.halve(s.bound.length, s.best.top, s.best.sigma, share, s.stop)
	if h == nil {
		return 0
	}
	f := &completion{m: s.m, rng: s.rng, states: make([]groupState, len(s.m.groups))}
	complete := s.completer(c, f)
	h.better = func(spots []spot, sigma int64) { complete(spots, sigma) }
	s.raise(min(h.narrow(share), s.best.top), note.BoundColumns)
	h.e.accept = func(spots []spot) bool {
		before := f.work
		done := complete(spots, h.e.sigma)
		h.e.spend((f.work - before) * 2)
		return done
	}
	for try := max(share/64, 1); !h.completing(s, try); try = min(try*4, share) {
	}
	s.d.work += share - h.left
	return share - h.left
}

// completing gives every start of the cloth at most try work to come by a plan of
// the core that can be completed; it reports that there is nothing left to do.
func (h *halving) completing(s *searcher, try int64) bool {
	all := true
	for k := range h.starts {
		if !h.goesOn() || s.best.top <= s.bound.length {
			return true
		}
		if h.starts[k].low >= s.best.top {
			continue
		}
		_, sure, used := h.e.solve(h.starts[k].sigma, s.best.top-1, min(try, h.left))
		h.left -= used
		all = all && sure
	}
	return all
}

// completer answers how a plan of the core is completed: the plan of the whole,
// when it is shorter than the best, is adopted.
func (s *searcher) completer(c *model, f *completion) func([]spot, int64) bool {
	index := make(map[[3]int]int, len(s.m.items))
	for k := range s.m.items {
		it := &s.m.items[k]
		index[[3]int{it.panel, it.copy, it.part}] = k
	}
	fixed := make([]spot, len(s.m.items))
	return func(spots []spot, sigma int64) bool {
		clear(fixed)
		for k := range c.items {
			it := &c.items[k]
			fixed[index[[3]int{it.panel, it.copy, it.part}]] = spots[k]
		}
		if !f.complete(fixed, sigma, s.best.top-1, fillTries) {
			return false
		}
		s.adopt(f.spots, sigma)
		return true
	}
}

// raise raises the bound.
func (s *searcher) raise(to int64, by note.Code) {
	if to > s.bound.length {
		s.bound = bound{to, by}
	}
}

// shortest closes in on the length of the shortest plan of a small job, known to
// lie in [low, high]: it answers a length that no plan goes below, and the work
// used. better is told of every plan found that is shorter than high.
func (m *model) shortest(low, high, sigma, share int64, stop func() bool, better func([]spot, int64)) (int64, int64) {
	h := m.halve(low, high, sigma, share, stop)
	if h == nil {
		return low, 0
	}
	h.better = better
	low = h.narrow(share)
	return low, share - h.left
}

// topOf is the length that a plan takes.
func (m *model) topOf(spots []spot) int64 {
	top := int64(0)
	for k := range spots {
		top = max(top, spots[k].y+m.items[k].lay[spots[k].lay].h)
	}
	return top
}

// adopt takes over a plan that is better than the best, keeping the genes.
func (s *searcher) adopt(spots []spot, sigma int64) {
	s.best.top, s.best.area, s.best.sigma = s.m.topOf(spots), 0, sigma
	s.best.spots = append(s.best.spots[:0], spots...)
}

// startsToTry are starts of the repeat among which, for some shortest plan, is
// the one that it begins at: every residue where they are few, or else those
// that lay some item bound to the rows of the cloth on the start of the cloth
// or on a stack of items that are not bound, with nothing between. (Otherwise
// all bound items could slide towards the start together.) An item with a
// tolerance can lie in such a stack, and stops the slide at the end of its
// tolerance. With open phases the stack is a chain as in openRows. Nil when there
// are too many. first is tried first.
func (m *model) startsToTry(first int64) []int64 {
	switch {
	case m.fixed:
		return []int64{m.sigma}
	case !m.anyAbs:
		return []int64{0}
	}
	v := m.grid.V
	if m.turnsOver() {
		v /= 2
	}
	out := []int64{length.Mod(first, v)}
	if v <= maxResidues {
		for s := range v {
			if s != out[0] {
				out = append(out, s)
			}
		}
		return out
	}
	if set := m.restingStarts(); set != nil {
		return append(out, set...)
	}
	return nil
}

// restingStarts are those starts that lay an item bound to rows on a stack; nil
// when there are too many, or rows are not known.
func (m *model) restingStarts() []int64 {
	v := m.grid.V
	sums := m.looseStacks()
	open := m.hasOpenRows()
	if open {
		chains := m.heldTops(-1, maxSigmas)
		if chains == nil {
			return nil
		}
		sums = chains.start
	}
	var set []int64
	for k := range m.items {
		for o := range m.items[k].lay {
			l := &m.items[k].lay[o]
			gl := &m.groups[m.items[k].group].lay[o]
			if !l.consY {
				continue
			}
			if open && !gl.yFixed {
				continue
			}
			if !gl.yFixed || l.consX && !gl.xFixed && m.grid.D != 0 {
				return nil
			}
			for _, r := range m.rowsOf(l, gl) {
				for _, y := range sums {
					set = append(set, length.Mod(r+l.tol-y, v))
				}
			}
			if set = sortedUnique(set); len(set) > maxSigmas {
				return nil
			}
		}
	}
	return set
}

// rowsOf are the pattern coordinates, modulo the repeat, at which an item may
// lie, over all its columns.
func (m *model) rowsOf(l *lay, gl *groupLay) []int64 {
	var out []int64
	for _, a := range gl.alts {
		if !l.consX || !gl.xFixed {
			out = append(out, length.Mod(m.patternY(l, a, 0, false), m.grid.V))
			continue
		}
		l.columns(m.grid.H, a, 0, m.W-l.w, func(from, _ int64) {
			out = append(out, length.Mod(m.patternY(l, a, from, true), m.grid.V))
		})
	}
	return sortedUnique(out)
}

// looseStacks are the heights of all stacks of items that are not bound to the
// rows of the cloth, or only within a tolerance; the empty stack first.
func (m *model) looseStacks() []int64 {
	set := []int64{0}
	for k := range m.items {
		it := &m.items[k]
		var add []int64
		for o := range it.lay {
			if l := &it.lay[o]; !l.consY || l.tol > 0 {
				for _, y := range set {
					add = append(add, y+l.h)
				}
			}
		}
		if set = sortedUnique(append(set, add...)); len(set) > maxSigmas {
			return set
		}
	}
	return set
}
