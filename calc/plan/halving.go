package plan

import "github.com/bridletie/bridletie/calc/length"

// halving narrows down the length of the shortest plan: no plan is shorter than
// low, and one of length high is known.
type halving struct {
	e         *exact
	ends      *openRows // where plans can end; nil for anywhere
	starts    []start
	left      int64
	low, high int64
	stepWork  int64 // of choosing a start and its next target
	better    func([]spot, int64)
}

// start is where in the repeat the cloth may begin, and a length that no plan
// that begins there goes below.
type start struct {
	sigma, low int64
	step       int64 // how much further the next target lies
	measured   bool  // low holds what the lines say
}

// maxEnds is how many ends of plans, modulo the repeat, are told apart.
const maxEnds = 400

// halve prepares to close in on the shortest plan; nil when the job is beyond
// the exact search.
func (m *model) halve(low, high, sigma, share int64, stop func() bool) *halving {
	e := newExact(m, int(min(max(share/6, 200), 400_000)), stop)
	if e == nil {
		return nil
	}
	sigmas := m.startsToTry(sigma)
	if sigmas == nil {
		return nil
	}
	var ends *openRows
	if m.grid.V > 0 && !e.partial {
		ends = m.heldTops(-1, maxEnds)
	}
	return newHalving(e, ends, sigmas, share, low, high)
}

func newHalving(e *exact, ends *openRows, sigmas []int64, share, low, high int64) *halving {
	h := &halving{e: e, ends: ends, left: share, low: low, high: high}
	for _, sigma := range sigmas {
		h.starts = append(h.starts, start{sigma: sigma, low: low, step: (high - low) / 4})
	}
	h.stepWork = int64(len(h.starts))/16 + 1
	if ends != nil {
		h.stepWork += int64(len(ends.pattern)+len(ends.start)) / 8
	}
	return h
}

// nextEnd is the least length that the shortest plan of this model can have when
// it begins at sigma and is known not to be shorter than from. (Among the
// shortest plans take one with the least sum of all y. Its last item ends a
// chain; see openRows. A bound that comes from a larger job is not enough: the
// shortest plan of a part may be shorter than that.)
func (h *halving) nextEnd(sigma, from int64) int64 {
	if h.ends == nil {
		return from
	}
	v := h.e.m.grid.V
	ahead := v
	for _, t := range h.ends.pattern {
		ahead = min(ahead, length.Mod(t-sigma-from, v))
	}
	for _, t := range h.ends.start {
		ahead = min(ahead, length.Mod(t-from, v))
	}
	return from + ahead
}

// narrow works in rounds, each with more work for a target, and answers a length
// that no plan goes below: the low that it began with when the exact search does
// not try every plan.
func (h *halving) narrow(share int64) int64 {
	low := h.low
	for try := max(share/32, 4*h.e.aimWork(), 1); h.low < h.high && h.goesOn(); try = min(try*4, share) {
		for h.decide(h.high-1, min(try/4+1, h.left)) && h.low < h.high {
		}
		h.round(try)
	}
	if h.e.partial {
		return low
	}
	return h.low
}

// goesOn reports whether there is work left, and nobody has called a halt.
func (h *halving) goesOn() bool { return h.left > 0 && !h.e.halted }

// round raises the lowest start again and again, giving each target at most try
// work, until one stays open that is the least that it can have.
func (h *halving) round(try int64) {
	for h.goesOn() {
		s := h.lowest()
		h.left -= h.stepWork
		if h.low = min(max(h.low, s.low), h.high); h.low == h.high {
			return
		}
		if !s.measured {
			h.measure(s)
			continue
		}
		target := min(s.low+s.step, h.high-1)
		found, sure := h.try(s, target, min(try, h.left))
		switch {
		case found:
		case sure:
			s.step = max(2*s.step, 1)
		case h.nextEnd(s.sigma, s.low+1) > target:
			return
		default:
			s.step /= 4
		}
	}
}

// lowest is the start that holds the bound down.
func (h *halving) lowest() *start {
	least := 0
	for k := range h.starts {
		if h.starts[k].low < h.starts[least].low {
			least = k
		}
	}
	return &h.starts[least]
}

// measure raises the low of a start to what the lines say.
func (h *halving) measure(s *start) {
	s.measured = true
	length, work := h.e.leastOnLines(s.sigma)
	h.left -= work
	if length > 0 {
		s.low = max(s.low, h.nextEnd(s.sigma, length))
	}
}

// decide looks for a plan no longer than target, over all starts that are not
// known to have none, until one stays open. Where nothing is to be proved, every
// start has its share of the work.
func (h *halving) decide(target, work int64) (found bool) {
	each := work
	if h.e.partial {
		each = work/int64(len(h.starts)) + 1
	}
	for k := range h.starts {
		s := &h.starts[k]
		if s.low > target {
			continue
		}
		before := h.left
		found, sure := h.try(s, target, min(each, work))
		if found || !sure && !h.e.partial {
			return found
		}
		work -= before - h.left
	}
	if !h.e.partial {
		h.low = h.high
	}
	return false
}

// try looks for a plan from one start that is no longer than target.
func (h *halving) try(s *start, target, work int64) (found, sure bool) {
	found, sure, used := h.e.solve(s.sigma, target, work)
	h.left -= used
	if found {
		h.high = h.e.m.topOf(h.e.spots)
		if h.better != nil {
			h.better(h.e.spots, s.sigma)
		}
		return true, true
	}
	if sure {
		s.low = max(s.low, h.nextEnd(s.sigma, target+1))
	}
	return false, sure
}
