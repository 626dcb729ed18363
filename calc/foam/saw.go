package foam

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/sheet"
)

// NoRoomForSaw is on how many sheets pieces that were nested without a kerf lie so
// close, in a row from edge to edge, that a saw would not get them all out.
func (j *Job) NoRoomForSaw(r *Result) (n int) {
	if j.Shop.Length(practice.FoamKerf) > 0 {
		return 0
	}
	saw := j.Shop.Length(practice.FoamSaw)
	for i := range r.Groups {
		g := &r.Groups[i]
		for _, s := range g.Nest.Sheets {
			k := g.Kinds[s.Kind]
			if sawnRow(s.Pieces, saw) > k.Across-2*k.Trim || sawnRow(turned(s.Pieces), saw) > k.Along-2*k.Trim {
				n++
			}
		}
	}
	return n
}

// sawnRow is how long the longest row across of pieces, each beside the one before
// it, would be with a saw's cut between every two.
func sawnRow(pieces []sheet.Placed, saw length.Length) (most length.Length) {
	pieces = slices.Clone(pieces)
	slices.SortFunc(pieces, func(a, b sheet.Placed) int { return cmp.Compare(a.X, b.X) })
	rows := make([]length.Length, len(pieces)) // the longest that ends with each
	for i, p := range pieces {
		rows[i] = p.Across
		for n, q := range pieces[:i] {
			if q.X+q.Across <= p.X && q.Y < p.Y+p.Along && p.Y < q.Y+q.Along {
				rows[i] = max(rows[i], rows[n]+saw+p.Across)
			}
		}
		most = max(most, rows[i])
	}
	return most
}

// turned are pieces with across and along exchanged.
func turned(pieces []sheet.Placed) []sheet.Placed {
	out := slices.Clone(pieces)
	for i, p := range pieces {
		out[i].X, out[i].Y, out[i].Across, out[i].Along = p.Y, p.X, p.Along, p.Across
	}
	return out
}
