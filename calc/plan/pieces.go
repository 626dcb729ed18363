package plan

import (
	"github.com/bridletie/bridletie/calc/length"
)

// InHand is the answer for pieces in hand.
type InHand struct {
	Uses []Use // one for each piece, in the order given
	// Buy is the cloth to buy: none when the pieces are enough, several lengths when
	// a bolt is too short. Cloth that begins at a known place comes first, with
	// nothing on it when other lengths are bought and it serves for none.
	Buy   []Bought
	Short length.Length // what is to be bought in all, wherever in the repeat it begins
	// Least is a length of new cloth below which no plan can go, wherever the
	// pieces begin. When it is not 0, the pieces are proved not to be enough.
	Least length.Length
	Work  Work
}

// Bought is one length of new cloth: what is cut from it, and the length that is
// enough wherever in the repeat it begins.
type Bought struct {
	Layout Layout
	Need   length.Length
}

// Use is what is cut from one piece in hand.
type Use struct {
	Layout   Layout
	AnyStart bool // the same panels can be cut wherever in the repeat the piece begins
}

// SolvePieces cuts as much of the job as it can from the pieces and the rest
// from new cloth, so that little new cloth is needed. stop and the error are as for
// Solve.
func SolvePieces(job Job, pieces []length.Length, effort Effort, stop func() bool) (InHand, error) {
	if stop == nil {
		stop = func() bool { return false }
	}
	p, wrong := Prepare(job)
	if wrong.Len() > 0 {
		return InHand{}, wrong
	}
	var best *InHand
	for _, m := range p.models {
		for _, smallFirst := range []bool{false, true} {
			h := piecesIn(job, m, orderOf(pieces, smallFirst), pieces, effort, stop)
			if best != nil {
				h.Work.Used += best.Work.Used
				h.Work.Budget += best.Work.Budget
				best.Work = h.Work
				h.Least = min(h.Least, best.Least)
				best.Least = h.Least
			}
			if best == nil || h.lessThan(best) {
				best = &h
			}
		}
	}
	return *best, nil
}

// lessThan prefers little new cloth, then pieces that serve wherever they begin.
func (h *InHand) lessThan(o *InHand) bool {
	if h.Short != o.Short {
		return h.Short < o.Short
	}
	return h.sure() > o.sure()
}

func (h *InHand) sure() int {
	n := 0
	for _, u := range h.Uses {
		if u.AnyStart {
			n++
		}
	}
	return n
}

// orderOf are the indices of the pieces by length.
func orderOf(pieces []length.Length, smallFirst bool) []int {
	order := make([]int, len(pieces))
	for k := range order {
		order[k] = k
		for j := k; j > 0; j-- {
			a, b := pieces[order[j-1]], pieces[order[j]]
			if a == b || a < b == smallFirst {
				break
			}
			order[j-1], order[j] = order[j], order[j-1]
		}
	}
	return order
}

// piecesIn packs one model into the pieces, in the order given, and new cloth.
func piecesIn(job Job, m *model, order []int, pieces []length.Length, effort Effort, stop func() bool) InHand {
	limits := make([]int64, 0, len(pieces)+1)
	for _, k := range order {
		limits = append(limits, m.floorUnits(pieces[k]))
	}
	h := InHand{Uses: make([]Use, len(pieces)), Least: m.floorLength(m.leastToBuy(limits))}
	bins := h.pack(job, m, limits, effort, stop)
	if bins == nil {
		return h
	}
	for b, o := range bins[:len(pieces)] {
		u := Use{AnyStart: o.need <= limits[b]}
		if len(o.items) > 0 {
			u.Layout = layoutOf(job, m, o.plan.sigma, o.plan.spots, o.items)
		}
		h.Uses[order[b]] = u
	}
	h.Buy = boughtFrom(job, m, bins[len(pieces):])
	for _, b := range h.Buy {
		h.Short += b.Need
	}
	return h
}

// pack lays the items over the pieces and new cloth: one length without an end,
// or as many bolts as it takes.
func (h *InHand) pack(job Job, m *model, pieces []int64, effort Effort, stop func() bool) []bin {
	for fresh := 1; ; {
		var lengths []strip
		for _, p := range pieces {
			lengths = append(lengths, strip{W: m.W, limit: p})
		}
		bins, work := packBins(m, append(lengths, m.newCloth(job.Bolt, fresh)...), effort, stop)
		h.Work.Used += work
		h.Work.Budget += binBudget(effort, m)
		if bins != nil || fresh >= m.mostLengths() {
			return bins
		}
		fresh = min(fresh+fresh/4+1, m.mostLengths())
	}
}

// leastToBuy is a length of new cloth that is needed beside pieces of the given
// lengths: for the area that the pieces lack, and for the items that are longer
// than every piece.
func (m *model) leastToBuy(pieces []int64) int64 {
	together, longest := int64(0), int64(0)
	for _, p := range pieces {
		together, longest = together+p, max(longest, p)
	}
	least := max(areaBound(m)-together, 0)
	if long := m.only(func(k int) bool { return m.leastHeight(k) > longest }); len(long.items) > 0 {
		least = max(least, lowerBound(long, Quick).length)
	}
	return least
}

// only is the sub-job of the items chosen. Ties among them stay; a plan of the
// job contains one of the sub-job.
func (m *model) only(chosen func(k int) bool) *model {
	c := *m
	c.items, c.groups, c.anyAbs = nil, nil, false
	for g := range m.groups {
		var items []int
		for _, k := range m.groups[g].items {
			if chosen(k) {
				items = append(items, k)
			}
		}
		if len(items) > 0 {
			c.addCore(m, items, m.groups[g].lay, false)
		}
	}
	c.classify()
	return &c
}
