package sheet

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// improved empties the weakest sheet and a few others and lays their pieces anew, in
// another order, and keeps what is not worse, until the budget is used: first each
// piece as it lies the tightest, and in the second half of the work in other ways too.
func (s *searcher) improved(best []*open) []*open {
	r := rand.New(rand.NewPCG(uint64(len(s.pieces)), uint64(len(best))))
	noise := make([]float64, len(s.pieces))
	half := s.work + (s.budget-s.work)/2
	for len(best) > 1 && s.work < s.budget && !s.done(best) {
		if s.halt != nil && s.halt() {
			break
		}
		keep, loose := s.emptied(best, r)
		s.work += int64(len(loose))
		how := tightest
		if s.work > half {
			how = manner(r.IntN(int(manners)))
		}
		s.shaken(loose, how, noise, r)
		s.use[0], s.use[len(s.use)-1] = s.use[len(s.use)-1], s.use[0]
		var got []*open
		if how == inBlocks {
			got = s.inBlocks(keep, loose)
		} else {
			got = s.lay(keep, loose, rule(r.IntN(int(rules))))
		}
		if got = s.swapped(got); !s.better(best, got) {
			best = got
		}
	}
	return best
}

// emptied takes the weakest sheet and a few others out of a nesting: what is kept,
// and the pieces of the others.
func (s *searcher) emptied(best []*open, r *rand.Rand) (keep []*open, loose []int) {
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
	for n, o := range best {
		if !out[n] {
			keep = append(keep, o.copied())
			continue
		}
		for _, l := range o.laid {
			loose = append(loose, l.piece)
		}
	}
	return keep, loose
}

// manner is how loose pieces are laid anew.
type manner int

const (
	tightest manner = iota // each as it lies the tightest
	bySize                 // those of a size in one way
	byPiece                // each in a way of its own
	inBlocks               // those of a size together
	manners
)

// shaken puts loose pieces into a new order, the large ones mostly first, and draws
// the ways in which they are laid. Noise has room for every piece.
func (s *searcher) shaken(loose []int, how manner, noise []float64, r *rand.Rand) {
	first := make(map[int]int) // by size
	for _, i := range loose {
		n := ways
		if how == tightest {
			n = standing
		}
		s.ways[i] = way(r.IntN(int(n)))
		p := s.pieces[i]
		noise[i] = area(p.Across, p.Along) * (0.7 + float64(0.6*r.Float64()))
		f, ok := first[s.alike[i]]
		switch {
		case !ok:
			first[s.alike[i]] = i
		case how == bySize:
			s.ways[i] = s.ways[f]
		case how == inBlocks:
			noise[i] = noise[f]
		}
	}
	slices.SortFunc(loose, func(a, b int) int {
		c := cmp.Compare(noise[b], noise[a])
		if how == inBlocks {
			c = cmp.Or(c, cmp.Compare(s.alike[a], s.alike[b]))
		}
		return cmp.Or(c, cmp.Compare(a, b))
	})
}
