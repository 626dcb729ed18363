package plan

import "github.com/bridletie/bridletie/calc/length"

// openRows are the rows at which the first item of a group with an open phase may lie when
// it lies on nothing. They are residues modulo the repeat, counted in the pattern or from
// the start of the cloth.
//
// Why these are enough (derived here): among the plans within a target take one with the
// least sum of all y. An item is held when it lies on the start of the cloth, is bound to
// rows of the cloth, or lies on a held item. An item is also held when its group has an
// open phase and another of its items is held.
//
// All items that are not held could slide by one unit towards the start together. They
// rest on no held item, and a group with an open phase slides as a whole. So all items are
// held.
//
// In each such group, the item held first lies on the end of a chain of loose items and
// other such groups, each used once. The chain begins at the start of the cloth or at an
// item bound to rows. The row of that item determines the row of every other item of the
// group. Some item of the group lies on an item outside the group. So when all others lie
// on nothing, the last to be placed must lie on something.
type openRows struct{ pattern, start []int64 }

// openRowsOf returns the rows for item k in orientation o as the first of its group; nil
// when nothing is known, or when there are as many as the repeat has units.
func (m *model) openRowsOf(k, o int) *openRows {
	g := m.items[k].group
	for _, j := range m.groups[g].items {
		if m.items[j].lay[o].sy < 0 {
			return nil
		}
	}
	chains := m.heldTops(g, 2*maxResidues)
	if chains == nil {
		return nil
	}
	var steps []int64
	for _, j := range m.groups[g].items {
		if j != k {
			steps = m.stepsBetween(steps, &m.items[j].lay[o], &m.items[k].lay[o], 0)
		}
	}
	r := &openRows{m.sumsOf(chains.pattern, steps), m.sumsOf(chains.start, steps)}
	if int64(len(r.pattern)+len(r.start)) >= m.grid.V {
		return nil
	}
	return r
}

// stepsBetween appends the distances, modulo the repeat, from the first of two items of a
// group to the second, over all columns, plus more.
func (m *model) stepsBetween(out []int64, a, b *lay, more int64) []int64 {
	for j := int64(0); j < m.grid.V; j += m.grid.rowStep() {
		out = append(out, length.Mod(a.cy-b.cy+j+more, m.grid.V))
	}
	return sortedUnique(out)
}

// sumsOf returns all sums of one number from each set, modulo the repeat.
func (m *model) sumsOf(a, b []int64) []int64 {
	out := make([]int64, 0, len(a)*len(b))
	for _, x := range a {
		for _, y := range b {
			out = append(out, length.Mod(x+y, m.grid.V))
		}
	}
	return sortedUnique(out)
}

// heldTops returns the ends of all chains without group g; nil when some row is not known
// or there are more than most.
func (m *model) heldTops(g, most int) *openRows {
	r := &openRows{start: []int64{0}}
	var links [][]int64
	for h := range m.groups {
		if h == g {
			continue
		}
		tops, steps, ok := m.linksOf(h)
		if !ok {
			return nil
		}
		r.pattern = append(r.pattern, tops...)
		links = append(links, steps...)
	}
	r.pattern = sortedUnique(r.pattern)
	for _, steps := range links {
		if len(steps) == 0 {
			continue
		}
		r.pattern = sortedUnique(append(r.pattern, m.sumsOf(r.pattern, steps)...))
		r.start = sortedUnique(append(r.start, m.sumsOf(r.start, steps)...))
		if len(r.pattern)+len(r.start) > most {
			return nil
		}
	}
	return r
}

// linksOf returns what a group contributes to chains. tops are the ends of its items bound
// to rows. steps are the lengths by which each other item, or the whole of a group with an
// open phase, can extend a chain.
func (m *model) linksOf(g int) (tops []int64, steps [][]int64, ok bool) {
	gr := &m.groups[g]
	var whole []int64
	for _, k := range gr.items {
		var own []int64
		for o := range m.items[k].lay {
			l, gl := &m.items[k].lay[o], &gr.lay[o]
			switch {
			case l.tol > 0 || l.sy < 0:
				return nil, nil, false
			case !l.consY:
				own = append(own, length.Mod(l.h, m.grid.V))
			case !gl.yFixed:
				for _, j := range gr.items {
					whole = m.stepsBetween(whole, &m.items[j].lay[o], l, l.h)
				}
			case l.consX && !gl.xFixed && m.grid.D != 0:
				return nil, nil, false
			default:
				for _, row := range m.rowsOf(l, gl) {
					tops = append(tops, length.Mod(row+l.h, m.grid.V))
				}
			}
		}
		steps = append(steps, sortedUnique(own))
	}
	return tops, append(steps, whole), true
}

// hasOpenRows reports whether some group has an open phase along.
func (m *model) hasOpenRows() bool {
	for g := range m.groups {
		for o := range m.groups[g].lay {
			if m.items[m.groups[g].items[0]].lay[o].consY && !m.groups[g].lay[o].yFixed {
				return true
			}
		}
	}
	return false
}

// findRows prepares the rows of groups with an open phase. It returns false when some
// group has too many.
func (e *exact) findRows() bool {
	m := e.m
	e.rows, e.slack = make([][]*openRows, len(m.items)), make([]bool, len(m.groups))
	for k := range m.items {
		it := &m.items[k]
		gr := &m.groups[it.group]
		e.rows[k] = make([]*openRows, len(it.lay))
		if len(gr.items) == 1 {
			continue
		}
		for o := range it.lay {
			if !it.lay[o].consY || gr.lay[o].yFixed {
				continue
			}
			r := m.openRowsOf(k, o)
			if r == nil && m.grid.V > maxResidues || r != nil && len(r.pattern)+len(r.start) > maxResidues {
				return false
			}
			e.rows[k][o] = r
		}
	}
	return true
}

// openYs appends the places along, from base on, that the first item of a group with an
// open phase may take.
func (e *exact) openYs(out []int64, k, o int, base int64) []int64 {
	out = append(out, base)
	v, r := e.m.grid.V, e.rows[k][o]
	if r == nil {
		for y := base + 1; y < base+v; y++ {
			out = append(out, y)
		}
		return out
	}
	for _, t := range r.pattern {
		out = append(out, base+length.Mod(t-e.sigma-base, v))
	}
	for _, t := range r.start {
		out = append(out, base+length.Mod(t-base, v))
	}
	return sortedUnique(out)
}

// rests reports whether item k may lie at y, given that some item of its group must lie on
// something. It records whether none has so far.
func (e *exact) rests(k, o int, y, base int64, rest uint64) bool {
	g := e.m.items[k].group
	if e.rows[k][o] == nil {
		return true
	}
	if !e.states[g].set {
		e.slack[g] = y > base
		return true
	}
	if !e.slack[g] || y == base {
		e.slack[g] = false
		return true
	}
	return e.open(g, rest&^(1<<k))
}
