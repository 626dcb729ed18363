package plan

import (
	"encoding/binary"
	"hash/fnv"
	"math/rand/v2"
	"sort"
)

// budgetOf is the work that an effort allows for a job; a unit is one place
// tried. Plain jobs, whose search is about the order alone, get more of it.
func budgetOf(e Effort, m *model) int64 {
	n, plain := int64(len(m.items)), m.isPlain()
	switch {
	case e == Glance:
		return 25_000
	case e == Quick && plain:
		return 100_000
	case e == Quick:
		return 60_000
	case e == Thorough:
		return 300_000_000
	case plain:
		return 3_000_000
	default:
		return min(240_000+19_000*n, 4_000_000)
	}
}

// searcher looks for a short plan in one strip under a budget of work.
type searcher struct {
	m      *model
	d      *decoder
	rng    *rand.Rand
	budget int64
	bound  bound // raised when a search shows that nothing shorter exists
	stop   func() bool
	best   *found
	only   []int32 // the items to lay; nil for all
	first  []genes // the constructions
	steps  []step
	trail  *trail
}

func newSearcher(m *model, budget int64, bound bound, stop func() bool) *searcher {
	lo, hi := m.seed()
	return &searcher{m: m, d: newDecoder(m), rng: rand.New(rand.NewPCG(lo, hi)), budget: budget, bound: bound, stop: stop}
}

// seed is drawn from the content of the job, so that equal jobs are searched in
// the same way.
func (m *model) seed() (uint64, uint64) {
	h := fnv.New128a()
	var buf [8]byte
	add := func(vs ...int64) {
		for _, v := range vs {
			binary.LittleEndian.PutUint64(buf[:], uint64(v))
			h.Write(buf[:])
		}
	}
	add(m.W, m.grid.H, m.grid.V, m.grid.D, int64(len(m.items)))
	for k := range m.items {
		add(int64(m.items[k].group))
		for _, l := range m.items[k].lay {
			add(l.w, l.h, l.cx, l.cy)
		}
	}
	if m.salt != 0 {
		add(m.salt)
	}
	sum := h.Sum(nil)
	return binary.LittleEndian.Uint64(sum[:8]), binary.LittleEndian.Uint64(sum[8:])
}

// run constructs and improves until the bound is met or the budget is used.
func (s *searcher) run() {
	if s.m.whole != nil && s.only == nil && !s.d.many {
		s.beginWhole()
	}
	s.first = s.constructions()
	for _, g := range s.first {
		s.try(g)
		if s.done() {
			return
		}
	}
	if s.best != nil && !s.d.many && s.m.isPlain() {
		s.runPlain()
		return
	}
	if s.best == nil {
		return
	}
	if s.d.many {
		s.improve(s.budget)
		return
	}
	first, share := s.budget/5, s.budget*2/5
	switch {
	case s.budget >= 20_000_000:
		s.improve(s.budget / 100)
		s.prove(s.budget / 50) // many jobs are closed with a small part of it
		if s.m.allHaveColumns() {
			// Such jobs have few plans, and the best is found early.
			first, share = s.budget/10, s.budget*4/5
		}
	case s.budget <= 100_000:
		share = s.budget * 3 / 5 // the bound of a quick search has most to gain
	}
	s.improve(first)
	s.prove(share)
	s.improve(s.budget)
}

// improve climbs until the work reaches upTo.
func (s *searcher) improve(upTo int64) {
	for !s.done() && s.d.work < upTo {
		s.climb()
	}
}

// isPlain reports whether every item may lie anywhere: no wish, no tie.
func (m *model) isPlain() bool {
	for g := range m.groups {
		if len(m.groups[g].items) > 1 && len(m.groups[g].lay) > 1 {
			return false
		}
	}
	for k := range m.items {
		for _, l := range m.items[k].lay {
			if l.consX || l.consY {
				return false
			}
		}
	}
	return true
}

// step is one change of the best plan or the bound.
type step struct{ work, top, bound int64 }

// note records where the search stands, when that has changed.
func (s *searcher) note() {
	if s.best == nil {
		return
	}
	now := step{s.d.work, s.best.top, s.bound.length}
	if n := len(s.steps); n > 0 && s.steps[n-1].top == now.top && s.steps[n-1].bound == now.bound {
		return
	}
	s.steps = append(s.steps, now)
}

func (s *searcher) done() bool {
	s.note()
	return s.best != nil && (s.best.top <= s.bound.length || s.d.work >= s.budget || s.stop())
}

// try decodes genes and keeps the plan when it is the best.
func (s *searcher) try(g genes) {
	if top, ok := s.d.decode(&g, 1<<62); ok {
		s.keep(g, top, s.d.area())
	}
}

func (s *searcher) keep(g genes, top int64, area float64) {
	if s.best != nil && (top > s.best.top || top == s.best.top && area >= s.best.area) {
		return
	}
	if s.best == nil {
		s.best = &found{}
	}
	s.best.top, s.best.area, s.best.sigma = top, area, s.d.bins[0].sigma
	s.best.spots = append(s.best.spots[:0], s.d.spots...)
	s.best.genes = g.clone()
}

func (g genes) clone() genes {
	return genes{append([]int32(nil), g.order...), append([]int8(nil), g.lay...), g.rule}
}

// constructions are the first orders: tied and wished panels before free ones,
// by height, area, width or girth, each with every weight of waste.
func (s *searcher) constructions() []genes {
	m := s.m
	base := genes{order: append([]int32(nil), s.only...), lay: make([]int8, len(m.groups))}
	if s.only == nil {
		for k := range m.items {
			base.order = append(base.order, int32(k))
		}
	}
	limit := s.d.leastLimit()
	for g := range base.lay {
		switch gr := &m.groups[g]; {
		case len(gr.lay) == 1:
		case len(gr.items) == 1:
			base.lay[g] = -1
		default:
			base.lay[g] = int8(max(m.wayWithin(gr, limit), 0))
		}
	}
	bound := func(k int32) int64 {
		if l := m.items[k].lay[0]; l.consX || l.consY {
			return 1
		}
		return 0
	}
	keys := []func(k int32) [3]int64{
		func(k int32) [3]int64 { l := m.items[k].lay[0]; return [3]int64{bound(k), l.h, l.w} },
		func(k int32) [3]int64 { l := m.items[k].lay[0]; return [3]int64{l.h, l.w, 0} },
		func(k int32) [3]int64 { l := m.items[k].lay[0]; return [3]int64{bound(k), l.w, l.h} },
		func(k int32) [3]int64 { l := m.items[k].lay[0]; return [3]int64{bound(k), l.w + l.h, l.h} },
		func(k int32) [3]int64 { l := m.items[k].lay[0]; return [3]int64{l.w, l.h, 0} },
	}
	var out []genes
	for _, key := range keys {
		for rule := range wasteWeights {
			g := base.clone()
			g.rule = int8(rule)
			sort.SliceStable(g.order, func(a, b int) bool {
				ka, kb := key(g.order[a]), key(g.order[b])
				for j := range ka {
					if ka[j] != kb[j] {
						return ka[j] > kb[j]
					}
				}
				return false
			})
			out = append(out, g)
		}
	}
	return out
}

// climb improves from some starting point by small changes to the order,
// accepting whatever is not worse, until nothing has helped for a while.
func (s *searcher) climb() {
	cur := s.startingPoint()
	if s.trail == nil {
		s.trail = newTrail(s.d, len(cur.order))
	}
	top, ok := s.trail.try(&cur, 0, 1<<62)
	if !ok {
		return
	}
	s.trail.keep(&cur)
	area := s.d.area()
	s.keep(cur, top, area)
	patience := 20 * len(cur.order)
	next := cur.clone()
	for idle := 0; idle < patience && !s.done(); idle++ {
		next.copyFrom(&cur)
		from, ok := s.change(&next)
		if !ok {
			continue
		}
		t, ok := s.trail.try(&next, from, top)
		if !ok {
			continue
		}
		a := s.d.area()
		if t > top || t == top && a > area {
			continue
		}
		if t < top || a < area {
			idle = 0
		}
		s.trail.keep(&next)
		s.keep(next, t, a)
		cur, next = next, cur
		top, area = t, a
	}
}

// startingPoint is a construction, or a place beside the best plan.
func (s *searcher) startingPoint() genes {
	if s.rng.IntN(4) > 0 {
		return s.first[s.rng.IntN(len(s.first))].clone()
	}
	g := s.best.genes.clone()
	for range 1 + s.rng.IntN(4) {
		s.change(&g)
	}
	return g
}

func (g *genes) copyFrom(o *genes) {
	copy(g.order, o.order)
	copy(g.lay, o.lay)
	g.rule = o.rule
}

// change makes one random change and answers the first place in the order that it
// touches; false when it would change nothing.
func (s *searcher) change(g *genes) (int, bool) {
	n := len(g.order)
	r := s.rng
	switch p := r.IntN(20); {
	case p == 0:
		g.rule = int8(r.IntN(len(wasteWeights)))
		return 0, true
	case p == 1:
		k := r.IntN(len(g.lay))
		ways := len(s.m.groups[k].lay)
		if ways < 2 {
			return 0, false
		}
		g.lay[k] = int8(r.IntN(ways))
		return 0, true
	case n < 2:
		return 0, false
	case p < 11:
		a, b := r.IntN(n), r.IntN(n)
		if s.m.items[g.order[a]].class == s.m.items[g.order[b]].class {
			return 0, false
		}
		g.order[a], g.order[b] = g.order[b], g.order[a]
		return min(a, b), true
	default:
		a, b := r.IntN(n), r.IntN(n)
		if a == b {
			return 0, false
		}
		v := g.order[a]
		if a < b {
			copy(g.order[a:b], g.order[a+1:b+1])
		} else {
			copy(g.order[b+1:a+1], g.order[b:a])
		}
		g.order[b] = v
		return min(a, b), true
	}
}
