package plan

// maxSigmas bounds the starts of the repeat that a proof tries one by one.
const maxSigmas = 6000

// prove looks for shorter plans of a small job until it has found the shortest
// or used its share of the work. When nothing shorter exists, it raises the
// bound to the best plan.
func (s *searcher) prove(share int64) {
	if s.done() {
		return
	}
	e := newExact(s.m, s.stop)
	if e == nil {
		return
	}
	starts := s.m.startsToTry(s.best.sigma)
	if starts == nil {
		return
	}
	for share > 0 && s.best.top > s.bound.length {
		target, better := s.best.top-1, false
		for _, sigma := range starts {
			found, sure, used := e.solve(sigma, target, share)
			share -= used
			s.d.work += used
			if found {
				s.adopt(e.spots, sigma)
				better = true
				break
			}
			if !sure {
				return
			}
		}
		if !better {
			s.bound = bound{s.best.top, "every plan tried"}
			return
		}
	}
}

// adopt takes over a plan that is better than the best, keeping the genes.
func (s *searcher) adopt(spots []spot, sigma int64) {
	top := int64(0)
	for k := range spots {
		top = max(top, spots[k].y+s.m.items[k].lay[spots[k].lay].h)
	}
	s.best.top, s.best.area, s.best.sigma = top, 0, sigma
	s.best.spots = append(s.best.spots[:0], spots...)
}

// startsToTry are starts of the repeat among which, for some shortest plan, is
// the one that it begins at: every residue where they are few, or else those
// that lay some item bound to the rows of the cloth on the start of the cloth
// or on a stack of items that are not bound, with nothing between. (Otherwise
// all bound items could slide towards the start together.) An item with a
// tolerance can lie in such a stack, and stops the slide at the end of its
// tolerance. Nil when there are too many. first is tried first.
func (m *model) startsToTry(first int64) []int64 {
	switch {
	case m.fixed:
		return []int64{m.sigma}
	case !m.anyAbs:
		return []int64{0}
	}
	v := m.grid.V
	out := []int64{mod(first, v)}
	if v <= maxResidues {
		for s := range v {
			out = append(out, s)
		}
		return out
	}
	sums := m.looseStacks()
	var set []int64
	for k := range m.items {
		for o := range m.items[k].lay {
			l := &m.items[k].lay[o]
			gl := &m.groups[m.items[k].group].lay[o]
			if !l.consY {
				continue
			}
			if !gl.yFixed || l.consX && !gl.xFixed && m.grid.D != 0 {
				return nil
			}
			for _, r := range m.rowsOf(l, gl) {
				for _, y := range sums {
					set = append(set, mod(r+l.tol-y, v))
				}
			}
			if set = sortedUnique(set); len(set) > maxSigmas {
				return nil
			}
		}
	}
	return append(out, set...)
}

// rowsOf are the pattern coordinates, modulo the repeat, at which an item may
// lie, over all its columns.
func (m *model) rowsOf(l *lay, gl *groupLay) []int64 {
	var out []int64
	for _, a := range gl.alts {
		if !l.consX || !gl.xFixed {
			out = append(out, mod(m.patternY(l, a, 0, false), m.grid.V))
			continue
		}
		l.columns(m.grid.H, a, 0, m.W-l.w, func(from, _ int64) {
			out = append(out, mod(m.patternY(l, a, from, true), m.grid.V))
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
