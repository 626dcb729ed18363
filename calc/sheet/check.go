package sheet

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/length"
)

// Check names everything that is wrong with sheets that are said to hold the
// pieces: a piece that is missing or there twice, off the usable part of its
// sheet, of the wrong size, or less than a kerf from another; nil when nothing is.
func Check(pieces []Piece, kinds []Kind, kerf length.Length, sheets []Sheet) []string {
	var flaws []string
	say := func(format string, args ...any) { flaws = append(flaws, fmt.Sprintf(format, args...)) }
	seen := make([]int, len(pieces))
	for n, s := range sheets {
		if s.Kind < 0 || s.Kind >= len(kinds) {
			say("sheet %d: no such kind", n)
			continue
		}
		k := kinds[s.Kind]
		for i, p := range s.Pieces {
			if p.Piece < 0 || p.Piece >= len(pieces) {
				say("sheet %d: no such piece", n)
				continue
			}
			seen[p.Piece]++
			want := pieces[p.Piece]
			if p.Turned {
				want.Across, want.Along = want.Along, want.Across
			}
			if p.Across != want.Across || p.Along != want.Along {
				say("sheet %d: piece %d has the wrong size", n, p.Piece)
			}
			if !k.holds(p) {
				say("sheet %d: piece %d lies off the sheet", n, p.Piece)
			}
			for _, q := range s.Pieces[:i] {
				if nearer(p, q, kerf) {
					say("sheet %d: pieces %d and %d are less than a kerf apart", n, q.Piece, p.Piece)
				}
			}
		}
	}
	for i, n := range seen {
		if n != 1 {
			say("piece %d is there %d times", i, n)
		}
	}
	return flaws
}

// holds reports whether a piece lies on the usable part of a sheet.
func (k Kind) holds(p Placed) bool {
	return p.X >= k.Trim && p.Y >= k.Trim && p.X+p.Across <= k.Across-k.Trim && p.Y+p.Along <= k.Along-k.Trim
}

// nearer reports whether two pieces are less than a kerf apart.
func nearer(p, q Placed, kerf length.Length) bool {
	return p.X < q.X+q.Across+kerf && q.X < p.X+p.Across+kerf && p.Y < q.Y+q.Along+kerf && q.Y < p.Y+p.Along+kerf
}
