package piping

import "github.com/bridletie/bridletie/calc/length"

// fromPiece looks for the shortest piece of new cloth, cut straight across, whose
// bias strips of all lengths do, beside those of the rectangles. It halves between
// what the area takes and what strips from selvedge to selvedge take; like covers
// as many runs by them.
func (s *solver) fromPiece(way Way, rects []Rect, like *Plan) *Plan {
	j, shape := s.job, like.Shape
	none := &Plan{Way: way, Shape: shape}
	var need length.Length
	for _, r := range j.Runs {
		need += j.Need(r, Bias)
	}
	const grid = 5 * length.Millimetre
	lo, hi := length.Length(0), (like.Cloth/grid+1)*grid
	if len(rects) == 0 {
		lo = length.Length(float64(need) / float64(j.Cloth) * float64(j.Width))
	}
	if !like.Possible || like.Cloth <= 0 || shape.MostIn(Rect{Across: j.Cloth, Along: hi}) > MaxStrips {
		return none
	}
	best := s.piece(way, shape, rects, hi)
	if best.Missing > like.Missing {
		return none
	}
	steps := 9
	if len(j.Runs) >= manyRuns {
		steps = 0 // what the first slant saves is little beside the whole
	}
	for n := 0; n < steps && hi-lo > grid; n++ {
		mid := ((lo+(hi-lo)/2)/grid + 1) * grid
		if mid >= hi {
			break
		}
		if p := s.piece(way, shape, rects, mid); p.Missing <= best.Missing {
			best, hi = p, mid
		} else {
			lo = mid
		}
	}
	j.tight(best)
	return best
}

// piece lays all runs out of a piece of new cloth of that length, beside the
// rectangles.
func (s *solver) piece(way Way, shape Shape, rects []Rect, long length.Length) *Plan {
	var best *Plan
	for _, f := range s.falls(Bias, 1) {
		strips := stripsOf(rects, shape, f)
		for _, one := range stripsOf([]Rect{{Across: s.job.Cloth, Along: long}}, shape, f) {
			one.Rect = -1
			strips = append(strips, one)
		}
		for _, how := range s.policies(true) {
			t := trial{s: s, way: way, shape: shape, fell: f, strips: strips, order: s.order[0], how: how}
			p := t.lay(source{})
			p.Cloth = long
			if best == nil || p.betterThan(best) {
				best = p
			}
		}
	}
	return best
}
