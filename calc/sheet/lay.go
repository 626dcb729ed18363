package sheet

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// orders are those in which pieces are laid: the largest first, by area, by the
// longer side, by the shorter one and by the girth.
func (s *searcher) orders() [][]int {
	long := func(p Piece) length.Length { return max(p.Across, p.Along) }
	short := func(p Piece) length.Length { return min(p.Across, p.Along) }
	keys := []func(a, b Piece) int{
		func(a, b Piece) int { return cmp.Compare(area(b.Across, b.Along), area(a.Across, a.Along)) },
		func(a, b Piece) int { return cmp.Compare(long(b), long(a)) },
		func(a, b Piece) int { return cmp.Compare(short(b), short(a)) },
		func(a, b Piece) int { return cmp.Compare(b.Across+b.Along, a.Across+a.Along) },
	}
	out := make([][]int, len(keys))
	for i, key := range keys {
		order := make([]int, len(s.pieces))
		for j := range order {
			order[j] = j
		}
		slices.SortStableFunc(order, func(a, b int) int {
			p, q := s.pieces[a], s.pieces[b]
			return cmp.Or(key(p, q), cmp.Compare(long(q), long(p)), cmp.Compare(short(q), short(p)))
		})
		out[i] = order
	}
	return out
}

// lay adds pieces in an order, each at the best place on any sheet that is open,
// or else on a new one of the first kind on which it fits. A piece that is to stand
// or to lie does so, unless it then fits on no open sheet but fits the other way.
func (s *searcher) lay(on []*open, order []int, by rule) []*open {
	on = slices.Clone(on)
	for _, i := range order {
		p := s.pieces[i]
		w, h := p.Across+s.kerf, p.Along+s.kerf
		way := s.ways[i]
		if way == turnedFirst || way == standing && w > h || way == lying && w < h {
			w, h = h, w
		}
		either := way == eitherWay || way == turnedFirst
		at, to := s.place(on, w, h, either, by)
		if to < 0 && !either {
			at, to = s.place(on, h, w, false, by)
		}
		if to < 0 {
			on = append(on, s.another(p))
			to = len(on) - 1
			if at = on[to].best(w, h, either, by, &s.work); !at.found {
				at = on[to].best(h, w, false, by, &s.work)
			}
		}
		s.work += int64(len(on[to].free))
		on[to].put(i, at)
	}
	return on
}

// place is the best place for a piece of that enlarged size, and on which of the
// sheets; -1 where there is none.
func (s *searcher) place(on []*open, w, h length.Length, either bool, by rule) (at spot, to int) {
	to = -1
	for n, o := range on {
		if got := o.best(w, h, either, by, &s.work); got.found && (to < 0 || got.first < at.first || got.first == at.first && got.then < at.then) {
			at, to = got, n
			if got.first == 0 && by != nearest {
				break
			}
		}
		if to >= 0 && by == nearest {
			break
		}
	}
	return at, to
}

// another is a new sheet of the first kind on which a piece fits.
func (s *searcher) another(p Piece) *open {
	for _, k := range s.use {
		if s.kinds[k].fits(p) {
			return newOpen(k, s.kinds[k], s.kerf, s.short)
		}
	}
	return nil // search has seen to it that every piece fits
}

// inBlocks adds pieces in an order that has like ones together: as many as will go
// into each free place of each open sheet, in blocks, and the others on new sheets.
// One without its like is laid as lay does.
func (s *searcher) inBlocks(on []*open, order []int) []*open {
	on = slices.Clone(on)
	for len(order) > 0 {
		n := 1
		for n < len(order) && s.alike[order[n]] == s.alike[order[0]] {
			n++
		}
		run := order[:n]
		order = order[n:]
		if n == 1 {
			on = s.lay(on, run, shortSide)
			continue
		}
		l := s.like(run[0])
		for _, o := range on {
			for len(run) > 0 {
				n := s.fillPlace(o, l, run)
				if n == 0 {
					break
				}
				run = run[n:]
			}
		}
		for len(run) > 0 {
			o := s.another(s.pieces[run[0]])
			run = run[s.fillPlace(o, l, run):]
			on = append(on, o)
		}
	}
	return on
}

// fillPlace puts like pieces into the free place of a sheet that takes the most of
// them, and of such places into the smallest. It returns how many.
func (s *searcher) fillPlace(o *open, l *likes, run []int) int {
	best, at, most := []block(nil), rect{}, 0
	if area(l.w, l.h) > o.room {
		return 0
	}
	for _, f := range o.free {
		s.work++
		if l.most(f.w, f.h) < min(max(most, 1), len(run)) {
			continue
		}
		steps := s.steps
		list := l.full(f.w, f.h)
		s.work += int64(steps - s.steps)
		if n := min(countOf(list), len(run)); n > most || n > 0 && n == most && area(f.w, f.h) < area(at.w, at.h) {
			best, at, most = list, f, n
		}
	}
	if most == 0 {
		return 0
	}
	if countOf(best) > len(run) {
		best = l.some(at.w, at.h, len(run), best)
	}
	o.putBlocks(best, at, run)
	s.work += int64(len(o.free))
	return most
}

// like is what is known of layouts of pieces of that size.
func (s *searcher) like(piece int) *likes {
	l := s.likes[s.alike[piece]]
	if l == nil {
		p := s.pieces[piece]
		l = newLikes(p.Across+s.kerf, p.Along+s.kerf, &s.steps)
		s.likes[s.alike[piece]] = l
	}
	return l
}

// swapped puts what lies on each sheet on one of another kind where that costs
// less and takes it all.
func (s *searcher) swapped(list []*open) []*open {
	if len(s.use) < 2 {
		return list
	}
	for n, o := range list {
		for _, k := range s.use {
			if s.kinds[k].Cost >= s.kinds[list[n].kind].Cost {
				continue
			}
			for by := range rules {
				if other := s.refilled(o, k, by); other != nil {
					list[n] = other
					break
				}
			}
		}
	}
	return list
}

// refilled is a sheet of another kind with the same pieces, or nil.
func (s *searcher) refilled(o *open, kind int, by rule) *open {
	out := newOpen(kind, s.kinds[kind], s.kerf, s.short)
	for _, l := range o.laid {
		p := s.pieces[l.piece]
		at := out.best(p.Across+s.kerf, p.Along+s.kerf, true, by, &s.work)
		if !at.found {
			return nil
		}
		out.put(l.piece, at)
	}
	return out
}
