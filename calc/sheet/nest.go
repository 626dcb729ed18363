package sheet

import (
	"cmp"
	"math"
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
	bound []bound
}

// bound is what is known of a choice of kinds.
type bound struct {
	kinds  []Kind
	sheets int
	cost   int64
}

// Bounds are the fewest sheets and the least cost of any nesting, as [Bounds] has them.
func (n *Nester) Bounds(kinds []Kind) (sheets int, cost int64) {
	for _, b := range n.bound {
		if slices.Equal(b.kinds, kinds) {
			return b.sheets, b.cost
		}
	}
	sheets, cost = Bounds(n.Pieces, kinds, n.Kerf)
	n.bound = append(n.bound, bound{slices.Clone(kinds), sheets, cost})
	return sheets, cost
}

// Nest puts all pieces on sheets of the kinds at little cost, and then on few
// sheets. Halted, it still answers with a whole nesting, but not with the same on
// every machine.
//
// Sheets of one kind, and of every two kinds, are searched by themselves, and the
// cheapest nesting is the answer. So another kind never makes it dearer: what was
// searched without it is searched with it too, with the same budget. Pieces of one
// size are first put on the cheapest mixture of all kinds. The bounds are those of
// all kinds in any mixture.
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
	least := Result{}
	if len(kinds) > 1 {
		least.Bound, least.CostBound = n.Bounds(kinds)
	}
	best, found := n.mixed(kinds)
	work := best.Work
	for i := range kinds {
		for j := i; j < len(kinds); j++ {
			if found && best.Cost == least.CostBound && len(best.Sheets) == least.Bound {
				continue
			}
			got := n.pair(kinds[i], kinds[j])
			work += got.Work
			if len(kinds) == 1 {
				least = got
			}
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
	best.Work, best.Bound, best.CostBound = work, least.Bound, least.CostBound
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
	cheap  int64         // no nesting costs less
	short  length.Length // the shortest side of a piece, and the kerf
	ways   []way         // of each piece
	alike  []int         // of each piece: the same number for those of one size
	likes  []*likes      // by that number
	steps  int           // left for full layouts of like pieces
}

// way is how a piece may be laid.
type way int

const (
	eitherWay   way = iota
	turnedFirst     // either way, and of two places alike the one where it lies turned
	standing        // the short side across the sheet, where there is room
	lying           // the long side across
	ways
)

// search nests on all of those kinds. There are no sheets when a piece fits on none.
func (n *Nester) search(kinds []Kind) Result {
	least := length.Length(math.MaxInt64)
	for _, p := range n.Pieces {
		if !Fits(p, kinds) {
			return Result{}
		}
		least = min(least, p.Across, p.Along)
	}
	s := &searcher{pieces: n.Pieces, kinds: kinds, kerf: n.Kerf, budget: n.Budget, halt: n.Halt, short: least + n.Kerf, steps: int(min(likeSteps, n.Budget/4))}
	s.sort()
	s.least, s.cheap = n.Bounds(kinds)
	best := s.improved(s.constructed())
	r := Result{Work: s.work, Bound: s.least, CostBound: s.cheap}
	for _, o := range best {
		r.Cost += kinds[o.kind].Cost
		r.Sheets = append(r.Sheets, o.sheet(kinds[o.kind], n.Kerf, n.Pieces))
	}
	return r
}

// sort numbers the sizes of the pieces.
func (s *searcher) sort() {
	numbers := make(map[Piece]int)
	s.ways = make([]way, len(s.pieces))
	s.alike = make([]int, len(s.pieces))
	for i, p := range s.pieces {
		size := short(p)
		n, ok := numbers[size]
		if !ok {
			n = len(numbers)
			numbers[size] = n
		}
		s.alike[i] = n
	}
	s.likes = make([]*likes, len(numbers))
	s.use = make([]int, len(s.kinds))
	for i := range s.use {
		s.use[i] = i
	}
}

// fewSizes is how many sizes of pieces are few.
const fewSizes = 8

// constructed is the best nesting of those that are made straight away: piece by
// piece, each as it lies the tightest; in blocks of like pieces; and piece by piece,
// all of them standing or all lying.
func (s *searcher) constructed() (best []*open) {
	one := func(got []*open) {
		if got = s.swapped(got); best == nil || s.better(got, best) {
			best = got
		}
	}
	most := s.budget / 2
	left := func() bool { return best == nil || s.work <= most && !s.done(best) }
	orders := s.orders()
	each := func(make func(order []int)) {
		for first := range s.kinds {
			s.openFirst(first)
			for _, order := range orders {
				make(order)
			}
		}
	}
	piecewise := func(order []int) {
		for by := range rules {
			if left() {
				one(s.lay(nil, order, by))
			}
		}
	}
	each(piecewise)
	// A few sizes are few blocks, of which one nesting is made at any budget.
	some, few := len(s.likes) < len(s.pieces), len(s.likes) <= fewSizes
	each(func(order []int) {
		if some && left() || few && !s.done(best) {
			one(s.inBlocks(nil, order))
		}
		few = false
	})
	most = s.budget / 4
	for _, w := range [...]way{standing, lying} {
		if left() {
			s.lieAll(w)
			each(piecewise)
		}
	}
	return best
}

// openFirst puts a kind in front of those that may be used.
func (s *searcher) openFirst(k int) {
	slices.Sort(s.use)
	copy(s.use[1:k+1], s.use[:k])
	s.use[0] = k
}

// lieAll has all pieces laid in one way.
func (s *searcher) lieAll(w way) {
	for i := range s.ways {
		s.ways[i] = w
	}
}

// done reports whether no nesting is better for certain.
func (s *searcher) done(list []*open) bool {
	return len(list) == s.least && (len(s.use) == 1 || s.cost(list) == s.cheap)
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

func (o *open) copied() *open {
	c := *o
	c.free, c.laid = slices.Clone(o.free), slices.Clone(o.laid)
	return &c
}

// sheet is the sheet in the true measure, its pieces in cutting order.
func (o *open) sheet(k Kind, kerf length.Length, pieces []Piece) Sheet {
	out := Sheet{Kind: o.kind}
	for _, l := range o.laid {
		w, h := l.at.w-kerf, l.at.h-kerf
		out.Pieces = append(out.Pieces, Placed{l.piece, k.Trim + l.at.x, k.Trim + l.at.y, w, h, w != pieces[l.piece].Across})
	}
	slices.SortFunc(out.Pieces, func(a, b Placed) int { return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X)) })
	return out
}
