package piping

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// Solve works out every way of getting the strips, in the order of the
// constants; the first is there only when there are rectangles in hand, the others
// when there is new cloth. Every job within the limits is answered in a bounded
// number of steps.
//
// Strips are chosen by construction, not by a search of all choices: the runs
// that leave least choice come first, each takes the shortest strip that covers
// it, or else joins the longest. A few orders, both slopes and, where strips may
// lean either way, the better lean in each rectangle are tried and the best is
// kept, so that another plan may exist that takes less.
func Solve(j Job) []Plan {
	s := newSolver(&j)
	var out []Plan
	if len(j.Rects) > 0 {
		out = append(out, *s.fromRects())
	}
	if j.Cloth <= 0 {
		return out
	}
	bias, across, along := j.Shape, j.Shape, j.Shape
	bias.Cut, across.Cut, along.Cut = Bias, Across, Along
	full := s.best(FullBias, bias, nil, true)
	return append(out,
		*full,
		*s.fromPiece(BiasPiece, nil, full),
		*s.tube(),
		*s.best(StraightCuts, across, nil, true),
		*s.best(LongCuts, along, nil, true))
}

// solver holds what all ways of one job share.
type solver struct {
	job   *Job
	kept  [][]Kept
	order [][]int // orders in which the runs are laid
}

// manyRuns is from how many runs on one order has to do.
const manyRuns = 400

func newSolver(j *Job) *solver {
	s := &solver{job: j, kept: make([][]Kept, len(j.Runs))}
	hard, long := make([]int, len(j.Runs)), make([]int, len(j.Runs))
	for i, r := range j.Runs {
		if i > 0 && alike(&r, &j.Runs[i-1]) {
			s.kept[i] = s.kept[i-1]
		} else {
			s.kept[i] = KeepClear(r, j.Margin)
		}
		hard[i], long[i] = i, i
	}
	each := func(i int) length.Length { return j.Runs[i].Length / length.Length(min(j.Runs[i].MaxJoins, 1000)+1) }
	slices.SortStableFunc(hard, func(a, b int) int {
		return cmp.Or(cmp.Compare(each(b), each(a)), cmp.Compare(j.Runs[b].Length, j.Runs[a].Length))
	})
	s.order = [][]int{hard}
	if len(j.Runs) < manyRuns {
		slices.SortStableFunc(long, func(a, b int) int { return cmp.Compare(j.Runs[b].Length, j.Runs[a].Length) })
		short := slices.Clone(long)
		slices.Reverse(short)
		s.order = append(s.order, long, short)
	}
	return s
}

// alike reports whether two runs are surely kept clear at the same places: copies
// of one run share their lists.
func alike(a, b *Run) bool {
	return a.Length == b.Length && a.Closed == b.Closed && len(a.Corners) == len(b.Corners) && len(a.NoJoin) == len(b.NoJoin) &&
		(len(a.Corners) == 0 || &a.Corners[0] == &b.Corners[0]) && (len(a.NoJoin) == 0 || &a.NoJoin[0] == &b.NoJoin[0])
}

// orders are those to be tried; only the first where a length is looked for by
// many attempts.
func (s *solver) orders(searched bool) [][]int {
	if searched {
		return s.order[:1]
	}
	return s.order
}

// policies are those to be tried; of many runs only one where that will do.
func (s *solver) policies(one bool) []policy {
	if one && len(s.job.Runs) >= manyRuns {
		return []policy{thrifty}
	}
	return []policy{fewJoins, thrifty}
}

// fromRects cuts what it can out of the rectangles, and the rest from new cloth.
func (s *solver) fromRects() *Plan {
	alone := s.best(FromRects, s.job.Shape, s.job.Rects, false)
	for i := range alone.Runs {
		if len(alone.Runs[i].Pieces) == 0 {
			alone.Short += s.job.Need(s.job.Runs[i], alone.Shape.Cut)
		}
	}
	if alone.Missing == 0 || s.job.Cloth <= 0 {
		return alone
	}
	mixed := s.best(FromRects, s.job.Shape, s.job.Rects, true)
	if s.job.Cut == Bias && len(s.job.Runs) < manyRuns {
		if p := s.fromPiece(FromRects, s.job.Rects, mixed); p.Possible && p.betterThan(mixed) {
			mixed = p
		}
	}
	mixed.Short = alone.Short
	if mixed.Missing > alone.Missing {
		return alone
	}
	return mixed
}

// fell is one way for the strips to lie.
type fell struct {
	lean Lean // Upright: each rectangle's better
	ends slant
}

// falls are the ways worth trying. The mirrored one gives the same lengths, so that
// one slope will do where strips may lean either way, and one lean where not.
func (s *solver) falls(cut Cut, rects int) []fell {
	if cut == Bias && s.job.OneLean {
		if rects == 0 {
			return []fell{{ToRight, falling}} // the ends lie on the selvedges
		}
		return []fell{{ToRight, falling}, {ToRight, rising}}
	}
	return []fell{{Upright, falling}}
}

// best is the best plan of a way over the leans, slopes, orders and policies.
func (s *solver) best(way Way, shape Shape, rects []Rect, cloth bool) *Plan {
	least := s.job.Runs[0]
	for _, r := range s.job.Runs {
		if s.job.Need(r, shape.Cut) < s.job.Need(least, shape.Cut) {
			least = r
		}
	}
	shape.Least = min(s.job.Least, s.job.Need(least, shape.Cut))
	var best *Plan
	for _, f := range s.falls(shape.Cut, len(rects)) {
		strips := stripsOf(rects, shape, f)
		for _, order := range s.orders(shape.Cut == Along && cloth) {
			for _, how := range s.policies(shape.Cut != Across || !cloth) {
				t := trial{s: s, way: way, shape: shape, fell: f, strips: strips, order: order, how: how, cloth: cloth}
				if p := t.plan(); best == nil || p.betterThan(best) {
					best = p
				}
			}
		}
	}
	s.job.tight(best)
	return best
}

// betterThan prefers what covers more, then takes less cloth, then has fewer
// joins, then fewer strips.
func (p *Plan) betterThan(q *Plan) bool {
	if p.Possible != q.Possible {
		return p.Possible
	}
	return cmp.Or(cmp.Compare(p.Missing, q.Missing), cmp.Compare(p.Cloth, q.Cloth),
		cmp.Compare(p.Joins, q.Joins), cmp.Compare(len(p.Strips), len(q.Strips))) < 0
}

// stripsOf are all strips of the rectangles.
func stripsOf(rects []Rect, s Shape, f fell) []Strip {
	var out []Strip
	for i, r := range rects {
		var here []Strip
		switch {
		case s.Cut != Bias:
			here = straightStrips(r, s)
		case f.lean != Upright:
			here = biasStrips(r, s, f.lean, f.ends)
		default:
			here = biasStrips(r, s, ToRight, f.ends)
			if other := biasStrips(r, s, ToLeft, f.ends); total(other) > total(here) {
				here = other
			}
		}
		for k := range here {
			here[k].Rect = i
		}
		out = append(out, here...)
	}
	return out
}
