package plan

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// completion lays items into what is free around others, between the start of the
// cloth and a target: maximal free rectangles, the item where it fits most
// closely.
type completion struct {
	m      *model
	rng    *rand.Rand
	sigma  int64
	free   []hole
	states []groupState
	spots  []spot
	work   int64
}

// complete lays the whole job no longer than target around the items whose
// spots are given as found, trying several orders of the others. Items that
// contradict the ties of their group are laid anew.
func (f *completion) complete(fixed []spot, sigma, target int64, tries int) bool {
	f.sigma = sigma
	f.spots = append(f.spots[:0], fixed...)
	f.free = append(f.free[:0], hole{0, 0, f.m.W, target})
	clear(f.states)
	var rest []int
	for k := range f.m.items {
		if !fixed[k].found || !f.agrees(k) {
			f.spots[k].found = false
			rest = append(rest, k)
			continue
		}
		l := &f.m.items[k].lay[f.spots[k].lay]
		f.cut(f.spots[k].x, f.spots[k].y, l.w, l.h)
	}
	free, states := slices.Clone(f.free), slices.Clone(f.states)
	size := func(k int) int64 { l := &f.m.items[k].lay[0]; return min(l.w, l.h)*4 + max(l.w, l.h) }
	slices.SortStableFunc(rest, func(a, b int) int { return cmp.Compare(size(b), size(a)) })
	order := slices.Clone(rest)
	for try := range tries {
		failed := f.layRest(order)
		if failed < 0 {
			return true
		}
		f.free = append(f.free[:0], free...)
		copy(f.states, states)
		if len(order) < 2 {
			return false
		}
		// The item that found no place goes to the front.
		k := order[failed]
		copy(order[1:failed+1], order[:failed])
		order[0] = k
		if try%3 == 2 {
			a, b := f.rng.IntN(len(order)), f.rng.IntN(len(order))
			order[a], order[b] = order[b], order[a]
		}
	}
	return false
}

// layRest lays items in order; it answers the index of the first that has no
// place, or -1.
func (f *completion) layRest(order []int) int {
	for j, k := range order {
		if !f.lay(k) {
			return j
		}
	}
	return -1
}

// agrees settles the phase of an item's group from its spot, or reports whether
// the spot keeps the phase that is settled.
func (f *completion) agrees(k int) bool {
	it, sp := &f.m.items[k], f.spots[k]
	l, gl := &it.lay[sp.lay], &f.m.groups[it.group].lay[sp.lay]
	st := &f.states[it.group]
	if !st.set {
		if len(f.m.groups[it.group].items) > 1 {
			*st = groupState{true, sp.lay, sp.alt, f.m.settle(l, gl, gl.alts[sp.alt], sp.x, sp.y+f.sigma)}
		}
		return true
	}
	if st.lay != sp.lay || l.consX && length.Mod(sp.x+l.cx-l.sx*st.settled.x, f.m.grid.H) != 0 {
		return false
	}
	return !l.consY || length.Mod(f.m.patternY(l, st.settled, sp.x, true)-f.sigma-sp.y, f.m.grid.V) == 0
}

// lay finds the closest fit for item k.
func (f *completion) lay(k int) bool {
	it := &f.m.items[k]
	st := f.states[it.group]
	best := spot{cost: 1e300}
	for o := range it.lay {
		l, gl := &it.lay[o], &f.m.groups[it.group].lay[o]
		switch {
		case st.set && int(st.lay) == o:
			f.fit(&best, l, st.settled, o, int(st.alt), true, true)
		case !st.set:
			for a, ph := range gl.alts {
				f.fit(&best, l, ph, o, a, gl.xFixed, gl.yFixed)
			}
		}
	}
	if !best.found {
		return false
	}
	f.spots[k] = best
	l := &it.lay[best.lay]
	if !st.set && len(f.m.groups[it.group].items) > 1 {
		gl := &f.m.groups[it.group].lay[best.lay]
		f.states[it.group] = groupState{true, best.lay, best.alt, f.m.settle(l, gl, gl.alts[best.alt], best.x, best.y+f.sigma)}
	}
	f.cut(best.x, best.y, l.w, l.h)
	return true
}

// fit tries every free rectangle for an item lying one way, with one phase.
func (f *completion) fit(best *spot, l *lay, ph phase, o, alt int, knowX, knowY bool) {
	for _, r := range f.free {
		if l.w > r.w || l.h > r.h {
			continue
		}
		f.work++
		try := func(x int64) {
			y := r.y
			if l.consY && knowY {
				y = upTo(y, f.m.patternY(l, ph, x, knowX)-f.sigma, f.m.grid.V, l.tol)
			}
			if y+l.h > r.y+r.h {
				return
			}
			left, right, below, above := x-r.x, r.x+r.w-x-l.w, y-r.y, r.y+r.h-y-l.h
			cost := float64(min(left+right, below+above)) + float64(left+right+below+above)*0.01
			if cost < best.cost {
				*best = spot{x: x, y: y, lay: int8(o), alt: int16(alt), hole: -1, cost: cost, found: true}
			}
		}
		if l.consX && knowX {
			l.columns(f.m.grid.H, ph, r.x, r.x+r.w-l.w, func(from, to int64) {
				try(from)
				if to > from {
					try(to)
				}
			})
			continue
		}
		try(r.x)
		if r.w > l.w {
			try(r.x + r.w - l.w)
		}
	}
}

// cut takes a rectangle out of the free ones, which stay maximal.
func (f *completion) cut(x, y, w, h int64) {
	var parts []hole
	kept := f.free[:0]
	for _, r := range f.free {
		if x >= r.x+r.w || r.x >= x+w || y >= r.y+r.h || r.y >= y+h {
			kept = append(kept, r)
			continue
		}
		for _, p := range [...]hole{
			{r.x, r.y, x - r.x, r.h}, {x + w, r.y, r.x + r.w - x - w, r.h},
			{r.x, r.y, r.w, y - r.y}, {r.x, y + h, r.w, r.y + r.h - y - h},
		} {
			if p.w >= f.m.minW && p.h >= f.m.minH {
				parts = append(parts, p)
			}
		}
	}
	f.free = kept
	for k, p := range parts {
		inside := func(o hole) bool {
			return p.x >= o.x && p.y >= o.y && p.x+p.w <= o.x+o.w && p.y+p.h <= o.y+o.h
		}
		if !slices.ContainsFunc(f.free, inside) &&
			!slices.ContainsFunc(parts[k+1:], func(o hole) bool { return o != p && inside(o) }) {
			f.free = append(f.free, p)
		}
	}
}
