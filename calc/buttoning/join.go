package buttoning

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
)

// Part is one width of cloth of a cover that is joined along its diamonds. Its
// places are from the upright centre line and include the seams.
type Part struct {
	From, To length.Length
	Selvedge length.Length // where its left edge lies on the cloth, from the left selvedge
	Fits     bool          // the pattern allows it there; Selvedge is 0 otherwise
}

// Join is a vandyked join: a zigzag along the pleats, between place K and K+1
// across, from a button at one of them in one row to a button at the other in
// the next. Above the first and below the last row it follows the pleat to the
// edge.
type Join struct {
	K    int
	Line []Place // on the cloth, from the top to the bottom
}

// Joined is how a cover wider than the cloth is made up: a middle part, and as
// many on either side as it takes.
type Joined struct {
	Parts []Part // from left to right; one for a cover in one width
	Joins []Join // between them
}

// Joined makes up the cover from a cloth of that width: in one, or with as wide
// a middle as can be and as few parts at the sides. Every part has a seam added
// along its joins. With a pattern, each part must find a place between the
// selvedges where the motifs go on; a part that finds none is made narrower, and
// when that does not help either, the pattern is let go and Fits says so. False
// when the cover cannot be made up at all: a diamond and two seams are wider
// than the cloth.
func (w Work) Joined(width, seam length.Length, p cloth.Pattern, s Shift) (Joined, bool) {
	left, right := w.half().Across+w.Allow.Left, w.half().Across+w.Allow.Right
	f := fitter{w: w, width: width, seam: seam, pattern: p, shift: s}
	whole := Joined{Parts: []Part{f.part(-left, right)}}
	if whole.Parts[0].Fits {
		return whole, true
	}
	for _, strict := range []bool{true, false} {
		if strict && p.WidthRepeat == 0 {
			continue
		}
		if !strict && left+right <= width {
			return whole, true
		}
		f.strict = strict
		for k := w.last() - 1; k >= 0; k-- {
			if j, ok := f.from(k, left, right); ok {
				return j, true
			}
		}
	}
	return Joined{}, false
}

// InOne is the cover in one width; false when it is wider than the cloth.
func (w Work) InOne(width length.Length, p cloth.Pattern, s Shift) (Joined, bool) {
	f := fitter{w: w, width: width, pattern: p, shift: s}
	cut := f.part(-w.half().Across-w.Allow.Left, w.half().Across+w.Allow.Right)
	return Joined{Parts: []Part{cut}}, cut.To-cut.From <= width
}

// fitter makes up covers.
type fitter struct {
	w           Work
	width, seam length.Length
	pattern     cloth.Pattern
	shift       Shift
	strict      bool
}

// from makes up a cover whose middle part has joins between k and k+1 on both
// sides.
func (f *fitter) from(k int, left, right length.Length) (Joined, bool) {
	reach := f.w.ClothAcross(k+1) + f.seam
	mid := f.part(-reach, reach)
	if !f.ok(mid) {
		return Joined{}, false
	}
	var rights, lefts []Part
	var ks []int
	for last := false; !last; {
		ks = append(ks, k)
		var l, r Part
		if l, r, k, last = f.outward(k, left, right); !f.ok(l) || !f.ok(r) {
			return Joined{}, false
		}
		lefts, rights = append(lefts, l), append(rights, r)
	}
	var j Joined
	for i := len(lefts) - 1; i >= 0; i-- {
		j.Parts = append(j.Parts, lefts[i])
		j.Joins = append(j.Joins, f.w.zigzag(-ks[i]-1))
	}
	j.Parts = append(j.Parts, mid)
	for i, p := range rights {
		j.Joins = append(j.Joins, f.w.zigzag(ks[i]))
		j.Parts = append(j.Parts, p)
	}
	return j, true
}

// outward are the parts outside the joins at k: to the edges when that fits, which
// is the last then, else as far as can be, with the next joins at next.
func (f *fitter) outward(k int, left, right length.Length) (l, r Part, next int, last bool) {
	inner := f.w.ClothAcross(k) - f.seam
	l, r = f.part(-left, -inner), f.part(inner, right)
	if f.ok(l) && f.ok(r) {
		return l, r, k, true
	}
	for next = f.w.last() - 1; next > k; next-- {
		outer := f.w.ClothAcross(next+1) + f.seam
		l, r = f.part(-outer, -inner), f.part(inner, outer)
		if f.ok(l) && f.ok(r) {
			return l, r, next, false
		}
	}
	return Part{}, Part{}, k, true
}

func (f *fitter) ok(p Part) bool {
	return p.To > p.From && p.To-p.From <= f.width && (p.Fits || !f.strict)
}

// part is a part and the leftmost place for it between the selvedges.
func (f *fitter) part(from, to length.Length) Part {
	p := Part{From: from, To: to, Fits: to-from <= f.width}
	if h := f.pattern.WidthRepeat; h > 0 && p.Fits {
		// The first motif is woven at Across from the selvedge, and lies at shift.X.
		p.Selvedge = length.Mod(f.pattern.Principal()[0].Across+from-f.shift.X, h)
		if p.Fits = p.Selvedge+to-from <= f.width; !p.Fits {
			p.Selvedge = 0
		}
	}
	return p
}

// zigzag is the join between place k and k+1.
func (w Work) zigzag(k int) Join {
	j := Join{K: k}
	bottom, top := w.half().Along+w.Allow.Bottom, w.fieldCloth().Along/2+w.Runs.Top+w.Allow.Top
	for r := range w.Rows {
		at := k
		if (k+w.InRow(r)-1)%2 != 0 {
			at = k + 1
		}
		x := w.ClothAcross(at)
		if r == 0 {
			j.Line = append(j.Line, Place{x, -top})
		}
		j.Line = append(j.Line, Place{x, w.ClothAlong(r)})
		if r == w.Rows-1 {
			j.Line = append(j.Line, Place{x, bottom})
		}
	}
	return j
}
