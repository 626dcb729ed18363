package sheet

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// Nest puts all pieces on sheets of the kinds at little cost, and then on few
// sheets. Budget bounds the work for each choice of kinds; below some hundred
// places a piece the first construction alone is made. Halt, when it is not nil,
// is asked now and then and ends the search early; the answer is then a whole
// nesting still, but not the same on every machine.
//
// Sheets of one kind, and of every two kinds, are searched by themselves, and the
// cheapest nesting is the answer. So another kind never makes it dearer: what was
// searched without it is searched with it too, with the same budget.
//
// It returns ErrTooLarge when a piece fits nowhere.
func Nest(pieces []Piece, kinds []Kind, kerf length.Length, budget int64, halt func() bool) (Result, error) {
	for _, p := range pieces {
		if !Fits(p, kinds) {
			return Result{}, ErrTooLarge
		}
	}
	var best Result
	if len(pieces) == 0 {
		best.Proven = true
		return best, nil
	}
	found := false
	for i := range kinds {
		for j := i; j < len(kinds); j++ {
			use := []int{i}
			if j > i {
				use = append(use, j)
			}
			got, ok := nestOn(pieces, kinds, use, kerf, budget, halt)
			got.Work += best.Work
			if ok && (!found || got.Cost < best.Cost || got.Cost == best.Cost && len(got.Sheets) < len(best.Sheets)) {
				best, found = got, true
			} else {
				best.Work = got.Work
			}
		}
	}
	if !found { // the pieces need three kinds or more
		all := make([]int, len(kinds))
		for i := range all {
			all[i] = i
		}
		best, _ = nestOn(pieces, kinds, all, kerf, budget, halt)
	}
	best.Bound, best.CostBound = Bounds(pieces, kinds, kerf)
	best.Proven = best.Cost == best.CostBound
	return best, nil
}

// searcher nests on some of the kinds.
type searcher struct {
	pieces []Piece
	kinds  []Kind
	use    []int // those that may be used, the one to be opened first in front
	kerf   length.Length
	work   int64
	budget int64
	halt   func() bool
	least  int    // sheets; no nesting uses fewer
	flip   []bool // the pieces that are tried turned first
}

// nestOn searches with those kinds alone. It fails when a piece fits on none.
func nestOn(pieces []Piece, kinds []Kind, use []int, kerf length.Length, budget int64, halt func() bool) (Result, bool) {
	some := make([]Kind, len(use))
	for i, k := range use {
		some[i] = kinds[k]
	}
	for _, p := range pieces {
		if !Fits(p, some) {
			return Result{}, false
		}
	}
	s := &searcher{pieces: pieces, kinds: kinds, kerf: kerf, budget: budget, halt: halt, flip: make([]bool, len(pieces))}
	s.least, _ = Bounds(pieces, some, kerf)
	var best []*open
	for first := range use {
		s.use = append([]int{use[first]}, slices.Concat(use[:first], use[first+1:])...)
		for _, order := range s.orders() {
			for by := range rules {
				if best != nil && (s.work > s.budget/2 || s.done(best)) {
					continue
				}
				got := s.swapped(s.lay(nil, order, by))
				if best == nil || s.better(got, best) {
					best = got
				}
			}
		}
	}
	best = s.improved(best)
	r := Result{Work: s.work}
	for _, o := range best {
		r.Cost += kinds[o.kind].Cost
		r.Sheets = append(r.Sheets, o.sheet(kinds[o.kind], kerf))
	}
	return r, true
}

// done reports whether no nesting is better for certain.
func (s *searcher) done(list []*open) bool { return len(s.use) == 1 && len(list) == s.least }

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
// or else on a new one of the first kind on which it fits.
func (s *searcher) lay(on []*open, order []int, by rule) []*open {
	on = slices.Clone(on)
	for _, i := range order {
		p := s.pieces[i]
		w, h := p.Across+s.kerf, p.Along+s.kerf
		if s.flip[i] {
			w, h = h, w
		}
		var at spot
		to := -1
		for n, o := range on {
			if got := o.best(w, h, by, &s.work); got.found && (to < 0 || got.first < at.first || got.first == at.first && got.then < at.then) {
				at, to = got, n
				if got.first == 0 && by != nearest {
					break
				}
			}
			if to >= 0 && by == nearest {
				break
			}
		}
		if to < 0 {
			for _, k := range s.use {
				if s.kinds[k].fits(p) {
					on = append(on, newOpen(k, s.kinds[k], s.kerf))
					break
				}
			}
			to = len(on) - 1
			at = on[to].best(w, h, by, &s.work)
		}
		at.turned = at.turned != s.flip[i]
		on[to].put(i, at)
	}
	return on
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
	out := newOpen(kind, s.kinds[kind], s.kerf)
	for _, l := range o.laid {
		p := s.pieces[l.piece]
		at := out.best(p.Across+s.kerf, p.Along+s.kerf, by, &s.work)
		if !at.found {
			return nil
		}
		out.put(l.piece, at)
	}
	return out
}

// better reports whether a costs less than b, or has fewer sheets, or has its
// room more together, so that a sheet is nearer to being empty.
func (s *searcher) better(a, b []*open) bool {
	return cmp.Or(cmp.Compare(s.cost(a), s.cost(b)), cmp.Compare(len(a), len(b)), cmp.Compare(together(b), together(a))) < 0
}

func (s *searcher) cost(list []*open) (sum int64) {
	for _, o := range list {
		sum += s.kinds[o.kind].Cost
	}
	return sum
}

// together grows as the room gathers on few sheets.
func together(list []*open) (sum float64) {
	for _, o := range list {
		r := o.room / o.whole
		sum += float64(r * r)
	}
	return sum
}

// improved empties the weakest sheet and a few others and lays their pieces anew,
// in another order, and keeps what is not worse, until the budget is used.
func (s *searcher) improved(best []*open) []*open {
	r := rand.New(rand.NewPCG(uint64(len(s.pieces)), uint64(len(best))))
	for round := 0; len(best) > 1 && s.work < s.budget && !s.done(best); round++ {
		if s.halt != nil && s.halt() {
			break
		}
		weakest := 0
		for n, o := range best {
			if o.room/o.whole > best[weakest].room/best[weakest].whole {
				weakest = n
			}
		}
		out := map[int]bool{weakest: true}
		for range 1 + r.IntN(4) {
			out[r.IntN(len(best))] = true
		}
		var keep []*open
		var loose []int
		for n, o := range best {
			if !out[n] {
				keep = append(keep, o)
				continue
			}
			for _, l := range o.laid {
				loose = append(loose, l.piece)
			}
		}
		noise := make([]float64, len(s.pieces))
		for _, i := range loose {
			p := s.pieces[i]
			s.flip[i] = r.IntN(2) == 1
			noise[i] = area(p.Across, p.Along) * (0.7 + float64(0.6*r.Float64()))
		}
		slices.SortFunc(loose, func(a, b int) int { return cmp.Or(cmp.Compare(noise[b], noise[a]), cmp.Compare(a, b)) })
		for n := range keep {
			keep[n] = keep[n].copied()
		}
		s.use[0], s.use[len(s.use)-1] = s.use[len(s.use)-1], s.use[0]
		got := s.swapped(s.lay(keep, loose, rule(r.IntN(int(rules)))))
		s.work += int64(len(loose))
		if !s.better(best, got) {
			best = got
		}
	}
	return best
}

func (o *open) copied() *open {
	c := *o
	c.free, c.laid = slices.Clone(o.free), slices.Clone(o.laid)
	return &c
}

// sheet is the sheet in the true measure, its pieces in cutting order.
func (o *open) sheet(k Kind, kerf length.Length) Sheet {
	out := Sheet{Kind: o.kind}
	for _, l := range o.laid {
		out.Pieces = append(out.Pieces, Placed{l.piece, k.Trim + l.at.x, k.Trim + l.at.y, l.at.w - kerf, l.at.h - kerf, l.turned})
	}
	slices.SortFunc(out.Pieces, func(a, b Placed) int { return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X)) })
	return out
}
