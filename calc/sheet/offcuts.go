package sheet

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// Offcut is a rectangle that is left of a sheet.
type Offcut struct{ X, Y, Across, Along length.Length }

// Offcuts are rectangles left of a sheet, apart from one another and a kerf away
// from every piece, with no side below least; the largest first.
func Offcuts(s Sheet, k Kind, kerf, least length.Length) []Offcut {
	o := newOpen(s.Kind, k, kerf, least+kerf)
	for _, p := range s.Pieces {
		o.put(p.Piece, spot{at: rect{p.X - k.Trim, p.Y - k.Trim, p.Across + kerf, p.Along + kerf}})
	}
	var out []Offcut
	for {
		big := -1
		for i, f := range o.free {
			if min(f.w, f.h)-kerf >= least && (big < 0 || cmp.Compare(area(f.w, f.h), area(o.free[big].w, o.free[big].h)) > 0) {
				big = i
			}
		}
		if big < 0 {
			break
		}
		f := o.free[big]
		out = append(out, Offcut{k.Trim + f.x, k.Trim + f.y, f.w - kerf, f.h - kerf})
		o.put(0, spot{at: f})
	}
	slices.SortStableFunc(out, func(a, b Offcut) int { return cmp.Compare(area(b.Across, b.Along), area(a.Across, a.Along)) })
	return out
}
