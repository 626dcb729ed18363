package sheet

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// Nester nests the same pieces, whichever sheets are on sale. It keeps what it has
// searched.
type Nester struct {
	Pieces []Piece
	Kerf   length.Length
	Budget int64       // places tried, for each choice of kinds; one whole nesting is always made
	Halt   func() bool // asked now and then, when it is not nil; true ends the search early

	known map[[2]Kind]Result
}

// Nest puts all pieces on sheets of the kinds at little cost, and then on few
// sheets. Halted, it still answers with a whole nesting, but not with the same on
// every machine.
//
// Sheets of one kind, and of every two kinds, are searched by themselves, and the
// cheapest nesting is the answer. So another kind never makes it dearer: what was
// searched without it is searched with it too, with the same budget.
//
// It returns ErrTooLarge when a piece fits nowhere.
func (n *Nester) Nest(kinds []Kind) (Result, error) {
	for _, p := range n.Pieces {
		if !Fits(p, kinds) {
			return Result{}, ErrTooLarge
		}
	}
	if len(n.Pieces) == 0 {
		return Result{Proven: true}, nil
	}
	var best Result
	found, work := false, int64(0)
	for i := range kinds {
		for j := i; j < len(kinds); j++ {
			got := n.pair(kinds[i], kinds[j])
			work += got.Work
			if len(got.Sheets) == 0 || found && (got.Cost > best.Cost || got.Cost == best.Cost && len(got.Sheets) >= len(best.Sheets)) {
				continue
			}
			best, found = renumbered(got, i, j), true
		}
	}
	if !found { // the pieces need three kinds or more
		best = n.search(kinds)
		work += best.Work
	}
	best.Work = work
	best.Bound, best.CostBound = Bounds(n.Pieces, kinds, n.Kerf)
	best.Proven = best.Cost == best.CostBound
	return best, nil
}

// Nest nests pieces once.
func Nest(pieces []Piece, kinds []Kind, kerf length.Length, budget int64, halt func() bool) (Result, error) {
	n := Nester{Pieces: pieces, Kerf: kerf, Budget: budget, Halt: halt}
	return n.Nest(kinds)
}

// pair is the nesting on sheets of two kinds, 0 and 1, or of one where they are
// the same; without sheets where the pieces do not fit.
func (n *Nester) pair(a, b Kind) Result {
	key := [2]Kind{a, b}
	r, ok := n.known[key]
	if !ok {
		if a == b {
			r = n.search(key[:1])
		} else {
			r = n.search(key[:])
		}
		if n.known == nil {
			n.known = make(map[[2]Kind]Result)
		}
		n.known[key] = r
	}
	return r
}

// renumbered is a nesting on two kinds with their numbers in a longer list.
func renumbered(r Result, i, j int) Result {
	r.Sheets = slices.Clone(r.Sheets)
	for k := range r.Sheets {
		r.Sheets[k].Kind = []int{i, j}[r.Sheets[k].Kind]
	}
	return r
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
	least  int           // sheets; no nesting uses fewer
	flip   []bool        // the pieces that are tried turned first
	short  length.Length // the shortest side of a piece, and the kerf
}

// search nests on all of those kinds. There are no sheets when a piece fits on none.
func (n *Nester) search(kinds []Kind) Result {
	short := length.Length(math.MaxInt64)
	for _, p := range n.Pieces {
		if !Fits(p, kinds) {
			return Result{}
		}
		short = min(short, p.Across, p.Along)
	}
	s := &searcher{pieces: n.Pieces, kinds: kinds, kerf: n.Kerf, budget: n.Budget, halt: n.Halt, flip: make([]bool, len(n.Pieces)), short: short + n.Kerf}
	s.least, _ = Bounds(n.Pieces, kinds, n.Kerf)
	use := make([]int, len(kinds))
	for i := range use {
		use[i] = i
	}
	orders := s.orders()
	var best []*open
	for first := range use {
		s.use = append([]int{use[first]}, slices.Concat(use[:first], use[first+1:])...)
		for _, order := range orders {
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
		r.Sheets = append(r.Sheets, o.sheet(kinds[o.kind], n.Kerf))
	}
	return r
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
					on = append(on, newOpen(k, s.kinds[k], s.kerf, s.short))
					break
				}
			}
			to = len(on) - 1
			at = on[to].best(w, h, by, &s.work)
		}
		at.turned = at.turned != s.flip[i]
		s.work += int64(len(on[to].free))
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
	out := newOpen(kind, s.kinds[kind], s.kerf, s.short)
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
