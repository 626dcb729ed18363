package sheet

import (
	"cmp"
	"math"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// Bounds returns a lower bound on the number of sheets and one on the cost, for any
// nesting on sheets of those kinds in any mixture.
//
// Both come from rows. A row gives weights to the pieces, the total weight, and the most
// that a sheet of each kind can hold. The sheets bought must hold the total. The bounds
// are the fewest and the cheapest sheets that meet every row (see cover).
//
// Weights come from dual feasible functions (S. Fekete and J. Schepers, New classes of
// fast lower bounds for bin packing problems, 2001, which include the bound L2 of S.
// Martello and D. Vigo, 1998). Such a function u maps a fraction of a side to a fraction,
// so that fractions with a sum of at most a have images with a sum of at most u(a).
//
// Take u for the widths and v for the heights. The products u(w/W)·v(h/H) of the pieces on
// a part a·W by b·H of a sheet sum to at most u(a)·v(b). A piece that may be turned counts
// with the lesser of its two products, among the orientations that fit, so the row holds
// either way. The reference sheet is as wide as the widest kind and as long as the
// longest, with the longer sides aligned, so that each kind is a part of it.
//
// Further rows count the pieces that are at least as large as a given piece both ways: a
// sheet holds no more of them than of that piece.
func Bounds(pieces []Piece, kinds []Kind, kerf length.Length) (sheets int, cost int64) {
	if len(pieces) == 0 || len(kinds) == 0 {
		return 0, 0
	}
	types := typesOf(pieces, kerf)
	sides := make([]extent, len(kinds))
	costs, ones := make([]int64, len(kinds)), make([]int64, len(kinds))
	for i, k := range kinds {
		a, b := k.Across-2*k.Trim+kerf, k.Along-2*k.Trim+kerf
		sides[i] = extent{min(a, b), max(a, b)}
		costs[i], ones[i] = k.Cost, 1
	}
	few, cheap := newRows(ones), newRows(costs)
	rowsOf(types, sides, func(r row) { few.add(r); cheap.add(r) })
	return int(few.cover()), cheap.cover()
}

// extent are the sides of a rectangle, w at most h.
type extent struct{ w, h length.Length }

// rowsOf generates the rows and passes each to add. It reuses the memory of a row for the
// next.
func rowsOf(types []kindOfPiece, sides []extent, add func(row)) {
	var all extent
	for _, s := range sides {
		all = extent{max(all.w, s.w), max(all.h, s.h)}
	}
	r := row{holds: make([]float64, len(sides))}
	across, along := duals(types, all.w), duals(types, all.h)
	us, vs := table(across, types, all.w), table(along, types, all.h)
	for i, u := range across {
		for j, v := range along {
			r.want = 0
			for k, t := range types {
				r.want += float64(lesser(us[i*len(types)+k], vs[j*len(types)+k]) * float64(t.count))
			}
			for k, s := range sides {
				r.holds[k] = float64(u.of(s.w, all.w) * v.of(s.h, all.h))
			}
			add(r)
		}
	}
	if len(types) > mostCounted {
		return
	}
	for _, t := range types {
		n := 0
		for _, o := range types {
			if o.w >= t.w && o.h >= t.h {
				n += o.count
			}
		}
		r.want = float64(n)
		for k, s := range sides {
			r.holds[k] = float64(heldAtMost(t, s))
		}
		add(r)
	}
}

// lesser is the lesser product of a piece that lies one way or the other, as table
// has its values; 0 where it does not fit.
func lesser(u, v [2]float64) float64 {
	least := math.Inf(1)
	if u[0] >= 0 && v[1] >= 0 {
		least = u[0] * v[1]
	}
	if u[1] >= 0 && v[0] >= 0 {
		least = min(least, u[1]*v[0])
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// table are the values of functions for the shorter and the longer side of each
// type; -1 for one that is longer than the sheet's.
func table(list []dual, types []kindOfPiece, side length.Length) [][2]float64 {
	out := make([][2]float64, 0, len(list)*len(types))
	for _, d := range list {
		for _, t := range types {
			v := [2]float64{-1, -1}
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

// heldAtMost is more than which no sheet of those sides holds of a piece.
func heldAtMost(t kindOfPiece, s extent) int {
	if t.w > s.w || t.h > s.h {
		return 0
	}
	one := []kindOfPiece{t}
	across, along := likeDuals(t, s.w), likeDuals(t, s.h)
	us, vs := table(across, one, s.w), table(along, one, s.h)
	best := math.Inf(1)
	for _, u := range us {
		for _, v := range vs {
			if w := lesser(u, v); w > 0 {
				best = min(best, math.Floor(1/w+1e-9))
			}
		}
	}
	return int(best)
}

// likeDuals are the functions that are worth a try for one piece alone: with those
// of duals, such that as many shares of a side as fit make up one.
func likeDuals(t kindOfPiece, side length.Length) []dual {
	out := duals([]kindOfPiece{t}, side)
	for _, x := range [...]length.Length{t.w, t.h} {
		if k := side / x; k > 4 {
			out = append(out, dual{k: k})
		}
	}
	return out
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

// mostCounted is of how many sizes at most each is counted by itself.
const mostCounted = 40

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
