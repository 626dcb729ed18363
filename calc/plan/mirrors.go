package plan

// forThorough is the model as the thorough effort searches it.
func (m *model) forThorough(job Job) *model {
	t := *m.inHalves(job)
	t.touching = true
	return &t
}

// inHalves is the model in units half as long, when twins are mirrored with an
// open phase and every place in such units can be tried; or else the model.
//
// Half units are enough: once it is settled which item lies beside and which
// below which, and on which rows and columns, what is left are conditions on at
// most two unknowns each, with coefficients of 1 and -1: places, phases, and where
// in the pattern the cloth begins and ends. Where they can be kept, the shortest
// plan is among the vertices, and those are whole multiples of a half.
// (D. S. Hochbaum, N. Megiddo, J. Naor and A. Tamir, Mathematical Programming 62
// (1993) 69-83, from memory.) For a given start and phases, every item can slide
// by itself from one place that it may take to the next, so that branching in
// the order of y tries every plan.
func (m *model) inHalves(job Job) *model {
	if !m.mayEndBetween() || 2*m.grid.V > maxResidues || 2*m.W > maxPlaces {
		return m
	}
	h, faults := buildModelIn(job, &model{cross: m.cross, halved: true})
	if faults != nil {
		return m
	}
	h.whole = m
	return h
}

// beginWhole begins a search in half units with the best plan in whole ones,
// which are fewer and so are gone through sooner.
func (s *searcher) beginWhole() {
	w := *s.m.whole
	w.touching = true
	low := bound{s.bound.length / 2, s.bound.by} // of the half, whole or not
	c := newSearcher(&w, s.budget/4, low, s.stop)
	c.run()
	s.d.work += c.d.work
	if c.best == nil {
		return
	}
	s.best = c.best
	s.best.top, s.best.sigma, s.best.area = 2*c.best.top, 2*c.best.sigma, 0
	for k := range s.best.spots {
		sp := &s.best.spots[k]
		sp.x, sp.y = 2*sp.x, 2*sp.y
	}
}

// mayEndBetween reports whether twins are mirrored with an open phase, so that
// the shortest plan may end between two units.
func (m *model) mayEndBetween() bool {
	for g := range m.groups {
		for o := range m.groups[g].lay {
			if m.mirrorsFree(&m.groups[g], o) {
				return true
			}
		}
	}
	return false
}

// turnsOver reports whether every plan is as good when its cloth begins half a
// repeat on: when no phase along is fixed, that of a group can move with it,
// and so can twins mirrored along, which move by half a repeat either way.
func (m *model) turnsOver() bool {
	if !m.halved || m.grid.V%2 != 0 {
		return false
	}
	for g := range m.groups {
		for o := range m.groups[g].lay {
			if m.groups[g].lay[o].yFixed {
				return false
			}
		}
	}
	return true
}
