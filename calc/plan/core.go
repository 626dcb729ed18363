package plan

import "slices"

// core is the sub-job of the items whose column is known: those whose wish, or
// tie to one with a wish, fixes the phase across. Ties along whose phase is
// open are dropped unless tied is set. A plan of the whole job contains a plan
// of the core, so no plan of the whole is shorter than the shortest of the core.
// Nil when the core is empty or is the whole job, or when there are no open ties
// to be kept.
func (m *model) core(tied bool) *model {
	c := *m
	c.items, c.groups, c.anyAbs = nil, nil, false
	kept := false
	for g := range m.groups {
		gr := &m.groups[g]
		if !gr.hasColumn() {
			continue
		}
		open := slices.ContainsFunc(gr.lay, func(gl groupLay) bool { return !gl.yFixed })
		kept = kept || open && len(gr.items) > 1
		c.addGroup(m, gr, open && !tied)
	}
	if tied && !kept {
		return nil
	}
	if len(c.items) == 0 || len(c.items) == len(m.items) && len(c.groups) == len(m.groups) {
		return nil
	}
	c.classify()
	return &c
}

// hasColumn reports whether the group's phase across is known in every way of
// lying.
func (g *group) hasColumn() bool {
	for _, gl := range g.lay {
		if !gl.xFixed {
			return false
		}
	}
	return true
}

// allHaveColumns reports whether the phase across of every group is known.
func (m *model) allHaveColumns() bool {
	for g := range m.groups {
		if !m.groups[g].hasColumn() {
			return false
		}
	}
	return true
}

// addGroup copies a group; when its phase is open its ties are dropped, which it
// reports.
func (c *model) addGroup(m *model, g *group, open bool) bool {
	if !open || len(g.items) == 1 {
		c.addCore(m, g.items, g.lay, false)
		return false
	}
	for _, k := range g.items {
		c.addCore(m, []int{k}, g.lay, true)
	}
	return true
}

// addCore copies items into the core as one group; loose drops what binds them
// by a phase that is not known.
func (c *model) addCore(m *model, items []int, lays []groupLay, loose bool) {
	var g group
	g.lay = append(g.lay, lays...)
	for _, k := range items {
		it := m.items[k]
		it.lay = append([]lay(nil), it.lay...)
		it.group = len(c.groups)
		for o := range it.lay {
			l := &it.lay[o]
			if loose {
				l.consX, l.consY = l.consX && g.lay[o].xFixed, l.consY && g.lay[o].yFixed
			}
			c.anyAbs = c.anyAbs || l.consY && g.lay[o].yFixed
		}
		g.items = append(g.items, len(c.items))
		c.items = append(c.items, it)
	}
	c.groups = append(c.groups, g)
}

// loosened is the job with every tie dropped whose phase is not known from the
// start. A plan of the job is one of the loosened job, so no plan is shorter
// than the shortest of that. Nil when there is no such tie.
func (m *model) loosened() *model {
	c := *m
	c.items, c.groups, c.anyAbs = nil, nil, false
	dropped := false
	for g := range m.groups {
		gr := &m.groups[g]
		open := false
		for o, gl := range gr.lay {
			for _, k := range gr.items {
				l := &m.items[k].lay[o]
				open = open || l.consX && !gl.xFixed || l.consY && !gl.yFixed
			}
		}
		dropped = c.addGroup(m, gr, open) || dropped
	}
	if !dropped {
		return nil
	}
	c.classify()
	return &c
}
