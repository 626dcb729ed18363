package sheet

import (
	"cmp"
	"math"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// Bounds are the fewest sheets and the least cost of any nesting.
//
// Both come from dual feasible functions (S. Fekete and J. Schepers, New classes
// of fast lower bounds for bin packing problems, 2001, which hold the bound L2 of
// S. Martello and D. Vigo, 1998, among them). Such a function u takes a share of
// a side, 0 to 1, to 0 to 1, so that shares that together are at most 1 still are
// at most 1. With u for the widths and v for the heights, the products
// u(w/W)·v(h/H) of what lies on one sheet sum to at most 1: the sum over all pieces
// is a bound on the sheets. A piece that may be turned lies one way or the other in
// any nesting, so that it counts for at least the lesser of its two products (of
// those ways in which it fits): the bound holds whatever is turned.
//
// Where there are several kinds, each fits into one sheet as wide as the widest
// and as long as the longest, laid with their longer sides alike; fewer sheets
// than of that one are never enough. The cost is at least that of so many sheets
// of the cheapest kind, and at least the area of the pieces at the least cost of
// area. Sums are floating point and rounded down by a millionth of a sheet, many
// times their error.
func Bounds(pieces []Piece, kinds []Kind, kerf length.Length) (sheets int, cost int64) {
	if len(pieces) == 0 || len(kinds) == 0 {
		return 0, 0
	}
	var w, h length.Length
	cheapest, total := int64(math.MaxInt64), 0.0
	perArea := math.Inf(1)
	for _, k := range kinds {
		a, b := k.Across-2*k.Trim+kerf, k.Along-2*k.Trim+kerf
		w, h = max(w, min(a, b)), max(h, max(a, b))
		cheapest = min(cheapest, k.Cost)
		perArea = min(perArea, float64(k.Cost)/area(a, b))
	}
	types := typesOf(pieces, kerf)
	for _, t := range types {
		total += float64(area(t.w, t.h) * float64(t.count))
	}
	sheets = boundOn(types, w, h)
	cost = max(int64(sheets)*cheapest, int64(math.Ceil(total*perArea-total*perArea*1e-9-1e-6)))
	return sheets, cost
}

// kindOfPiece is so many pieces of one enlarged size, w at most h.
type kindOfPiece struct {
	w, h  length.Length
	count int
}

func typesOf(pieces []Piece, kerf length.Length) []kindOfPiece {
	list := make([]kindOfPiece, len(pieces))
	for i, p := range pieces {
		list[i] = kindOfPiece{min(p.Across, p.Along) + kerf, max(p.Across, p.Along) + kerf, 1}
	}
	slices.SortFunc(list, func(a, b kindOfPiece) int { return cmp.Or(cmp.Compare(a.w, b.w), cmp.Compare(a.h, b.h)) })
	out := list[:0]
	for _, t := range list {
		if n := len(out); n > 0 && out[n-1].w == t.w && out[n-1].h == t.h {
			out[n-1].count++
			continue
		}
		out = append(out, t)
	}
	return out
}

// dual is a dual feasible function of a side: of the family u^(k) where k is
// set, of the family U^(e) where cut is; the identity where neither is.
type dual struct {
	k   length.Length
	cut length.Length
}

// of is u(x/side), x at most side.
func (d dual) of(x, side length.Length) float64 {
	switch {
	case d.k > 0: // x where (k+1)x is whole, else the whole part of (k+1)x over k
		if n := (d.k + 1) * x; n%side != 0 {
			return float64(n/side) / float64(d.k)
		}
	case d.cut > 0: // 1 above 1-e, 0 below e, x between
		if x > side-d.cut {
			return 1
		}
		if x < d.cut {
			return 0
		}
	}
	return float64(x) / float64(side)
}

// The functions that are tried on each side, and how many values they may take
// in all for one bound.
const (
	mostCuts  = 24
	mostDuals = 600_000
)

// duals are those that the pieces make worth a try: e is a side of a piece.
func duals(types []kindOfPiece, side length.Length) []dual {
	out := []dual{{}, {k: 1}, {k: 2}, {k: 3}, {k: 4}}
	var cuts []length.Length
	for _, t := range types {
		for _, x := range []length.Length{t.w, t.h} {
			if 2*x <= side {
				cuts = append(cuts, x)
			}
			if y := side - x + 1; x <= side && 2*y <= side { // above side-y: x counts as whole
				cuts = append(cuts, y)
			}
		}
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	most := mostCuts
	for most > 2 && (most+5)*(most+5)*len(types) > mostDuals {
		most--
	}
	for i := range min(len(cuts), most) {
		out = append(out, dual{cut: cuts[i*len(cuts)/min(len(cuts), most)]})
	}
	return out
}

// boundOn is the best bound of all pairs of functions on sheets of w by h.
func boundOn(types []kindOfPiece, w, h length.Length) int {
	across, along := duals(types, w), duals(types, h)
	table := func(list []dual, side length.Length) [][2]float64 {
		out := make([][2]float64, 0, len(list)*len(types))
		for _, d := range list {
			for _, t := range types {
				v := [2]float64{-1, -1} // -1: does not fit
				if t.w <= side {
					v[0] = d.of(t.w, side)
				}
				if t.h <= side {
					v[1] = d.of(t.h, side)
				}
				out = append(out, v)
			}
		}
		return out
	}
	us, vs := table(across, w), table(along, h)
	best := 1
	n := len(types)
	for i := range across {
		for j := range along {
			sum := 0.0
			for k, t := range types {
				u, v := us[i*n+k], vs[j*n+k]
				least := math.Inf(1)
				if u[0] >= 0 && v[1] >= 0 {
					least = u[0] * v[1]
				}
				if u[1] >= 0 && v[0] >= 0 {
					least = min(least, u[1]*v[0])
				}
				if !math.IsInf(least, 1) {
					sum += float64(least * float64(t.count))
				}
			}
			best = max(best, int(math.Ceil(sum-1e-6)))
		}
	}
	return best
}
