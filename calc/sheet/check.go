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
		for i, p := range s.Pieces {
			if p.Piece < 0 || p.Piece >= len(pieces) {
				say("sheet %d: no such piece", n)
				continue
			}
			seen[p.Piece]++
			for _, what := range misplaced(p, pieces[p.Piece], kinds[s.Kind]) {
				say("sheet %d: piece %d %s", n, p.Piece, what)
			}
			for _, q := range s.Pieces[:i] {
				if p.X < q.X+q.Across+kerf && q.X < p.X+p.Across+kerf && p.Y < q.Y+q.Along+kerf && q.Y < p.Y+p.Along+kerf {
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

// misplaced says what is wrong with how a piece lies on its sheet by itself.
func misplaced(p Placed, want Piece, k Kind) (wrong []string) {
	if p.Turned {
		want.Across, want.Along = want.Along, want.Across
	}
	if p.Across != want.Across || p.Along != want.Along {
		wrong = append(wrong, "has the wrong size")
	}
	if p.X < k.Trim || p.Y < k.Trim || p.X+p.Across > k.Across-k.Trim || p.Y+p.Along > k.Along-k.Trim {
		wrong = append(wrong, "lies off the sheet")
	}
	return wrong
}
