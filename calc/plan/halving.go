package plan

// halving narrows down the length of the shortest plan: no plan is shorter than
// low, and one of length high is known.
type halving struct {
	e         *exact
	ends      *openRows // where plans can end; nil for anywhere
	starts    []start
	left      int64
	low, high int64
	better    func([]spot, int64)
}

// start is where in the repeat the cloth may begin, and a length that no plan
// that begins there goes below.
type start struct{ sigma, low int64 }

// maxEnds is how many ends of plans, modulo the repeat, are told apart.
const maxEnds = 400

// halve prepares to close in on the shortest plan; nil when the job is beyond
// the exact search.
func (m *model) halve(low, high, sigma, share int64, stop func() bool) *halving {
	e := newExact(m, int(min(max(share/6, 200), 400_000)), stop)
	sigmas := m.startsToTry(sigma)
	if e == nil || sigmas == nil {
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
		h.starts = append(h.starts, start{sigma, low})
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
		ahead = min(ahead, mod(t-sigma-from, v))
	}
	for _, t := range h.ends.start {
		ahead = min(ahead, mod(t-from, v))
	}
	return from + ahead
}

// rise raises low to that of the lowest start.
func (h *halving) rise() {
	least := h.high
	for k := range h.starts {
		least = min(least, h.starts[k].low)
	}
	h.low = max(h.low, least)
}

// narrow works in rounds, each with more work for a target, and answers a length
// that no plan goes below: the low that it began with when the exact search does
// not try every plan.
func (h *halving) narrow(share int64) int64 {
	low := h.low
	for try := max(share/32, 1); h.low < h.high && h.goesOn(); try = min(try*4, share) {
		h.round(try)
	}
	if h.e.partial {
		return low
	}
	return h.low
}

// goesOn reports whether there is work left, and nobody has called a halt.
func (h *halving) goesOn() bool { return h.left > 0 && !h.e.halted }

// round halves the range again and again, giving each target at most try work;
// targets that stay open are passed over downwards. It begins at the top.
func (h *halving) round(try int64) {
	lo, hi := h.low, h.high-1
	for first := true; lo <= hi && h.goesOn(); first = false {
		target, work := lo+(hi-lo)/2, try
		if first { // a plan just shorter than the best, or the proof that there is none
			target, work = hi, try/4+1
		}
		found, sure := h.decide(target, min(work, h.left))
		switch {
		case found:
			hi = h.high - 1
		case sure:
			h.rise()
			lo = max(target+1, h.low)
		default:
			hi = target - 1
		}
	}
}

// decide looks for a plan no longer than target, over all starts that are not
// known to have none.
func (h *halving) decide(target, work int64) (found, sure bool) {
	for k := range h.starts {
		s := &h.starts[k]
		if s.low > target {
			continue
		}
		ok, sure, used := h.e.solve(s.sigma, target, work)
		h.left -= used
		work -= used
		if ok {
			h.high = h.e.m.topOf(h.e.spots)
			if h.better != nil {
				h.better(h.e.spots, s.sigma)
			}
			return true, true
		}
		if !sure {
			return false, false
		}
		s.low = h.nextEnd(s.sigma, target+1)
	}
	return false, true
}
