// Package sheet nests rectangles on sheets: which sheets to buy, and where each
// piece is cut from them.
//
// Pieces may lie turned by a quarter. Between two pieces at least one kerf is
// kept, and from the edges of a sheet its trim. The kerf is kept by making every
// piece and the usable part of every sheet larger by one kerf: what does not
// overlap then is a kerf apart in truth, and a piece may still end at the edge.
//
// The search is deterministic and works within a budget, counted in places that
// are tried. [Check] knows nothing of it and names what is wrong with a nesting.
package sheet

import (
	"errors"

	"github.com/bridletie/bridletie/calc/length"
)

// Piece is a rectangle that is wanted.
type Piece struct {
	Across, Along length.Length
}

// Kind is a sheet on sale.
type Kind struct {
	Across, Along length.Length
	Trim          length.Length // lost along each edge
	Cost          int64         // of one sheet, in any unit, not negative
}

// Placed is a piece on a sheet; X and Y are of its corner nearest the sheet's
// origin, trim included, Across and Along its extents as laid.
type Placed struct {
	Piece         int
	X, Y          length.Length
	Across, Along length.Length
	Turned        bool
}

// Sheet is one sheet with what is cut from it.
type Sheet struct {
	Kind   int
	Pieces []Placed
}

// Result is a nesting of all pieces.
type Result struct {
	Sheets    []Sheet
	Cost      int64
	Bound     int   // no nesting uses fewer sheets
	CostBound int64 // no nesting costs less
	Proven    bool  // Cost is CostBound: no nesting costs less than this one
	Work      int64 // places tried
}

// ErrTooLarge says that a piece fits on no kind of sheet.
var ErrTooLarge = errors.New("sheet: a piece is larger than every sheet")

// fits reports whether a piece fits on a kind of sheet, either way.
func (k Kind) fits(p Piece) bool {
	w, h := k.Across-2*k.Trim, k.Along-2*k.Trim
	return p.Across <= w && p.Along <= h || p.Along <= w && p.Across <= h
}

// Fits reports whether a piece fits on one of the kinds.
func Fits(p Piece, kinds []Kind) bool {
	for _, k := range kinds {
		if k.fits(p) {
			return true
		}
	}
	return false
}
