package plan

// cliqueBound returns the least length of a stack of items of which no two can lie side by
// side. Every horizontal line crosses at most one of them, so they follow each other along
// the roll, with the gaps that the rows of the pattern force (derived here). Items not
// bound to rows may fill those gaps.
//
// tables limits the work. Items beyond it are left out, which only lowers the bound.
func cliqueBound(m *model, tables int) int64 {
	if len(m.items) > 64 {
		return 0
	}
	items := m.heaviestClique()
	if len(items) < 2 {
		return 0
	}
	s := newStack(-1, m.kindsOf(items, -1, tables/8, func(int) int64 { return 0 }))
	sub := m.only(func(k int) bool { return s.mask&(1<<k) != 0 })
	starts := sub.startsToTry(0)
	if starts == nil || len(starts)*s.sets*len(s.kinds) > 16*tables {
		return 0
	}
	least := int64(1) << 60
	for _, sigma := range starts {
		least = min(least, s.earliest(m, sigma))
	}
	return least
}

// reach is how far an item can move to either side: the least right edge and the greatest
// left edge that it can have.
type reach struct{ leftEnd, rightStart int64 }

func (m *model) reachOf(k int) reach {
	it := &m.items[k]
	r := reach{leftEnd: m.W, rightStart: 0}
	for o := range it.lay {
		l, gl := &it.lay[o], &m.groups[it.group].lay[o]
		if !l.consX || !gl.xFixed {
			r.leftEnd, r.rightStart = min(r.leftEnd, l.w), max(r.rightStart, m.W-l.w)
			continue
		}
		for _, a := range gl.alts {
			l.columns(m.grid.H, a, 0, m.W-l.w, func(from, to int64) {
				r.leftEnd, r.rightStart = min(r.leftEnd, from+l.w), max(r.rightStart, to)
			})
		}
	}
	return r
}

// apart reports whether two items cannot lie side by side, in either order, for want of
// width.
func (a reach) apart(b reach) bool { return a.leftEnd > b.rightStart && b.leftEnd > a.rightStart }

// heaviestClique returns a set of items of which no two can lie side by side, with a large
// total height. It is greedy: from each item in turn, it adds the tallest compatible
// items.
func (m *model) heaviestClique() []int {
	reaches := make([]reach, len(m.items))
	order := make([]int, len(m.items))
	for k := range m.items {
		reaches[k], order[k] = m.reachOf(k), k
	}
	for i := 1; i < len(order); i++ {
		for j := i; j > 0 && m.leastHeight(order[j]) > m.leastHeight(order[j-1]); j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	var best []int
	most := int64(0)
	for _, first := range order {
		set, height := []int{first}, m.leastHeight(first)
		for _, k := range order {
			fits := k != first
			for _, j := range set {
				fits = fits && reaches[k].apart(reaches[j])
			}
			if fits {
				set, height = append(set, k), height+m.leastHeight(k)
			}
		}
		if height > most {
			best, most = set, height
		}
	}
	return best
}
