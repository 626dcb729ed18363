package repeat

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
)

// Seam is where two widths are joined, and what the pattern does there.
type Seam struct {
	Left, Right length.Length // of the sewing lines, from the left selvedge; Right is that of the seam to the next width
	Shows       length.Length // from one seam to the next: Right - Left
	Columns     int64         // whole width repeats that a width shows; 0 without a width repeat
	CanMeet     bool          // false when a width shows less than one width repeat
	Off         length.Length // across, at a seam sewn at the allowance alone: (W - 2s) against the nearest whole repeats; below 0 when cloth is wanting
	Trim        length.Length // turned in beyond the allowance, on the right, so that the pattern meets; 0 when it meets anyway
	LetOut      length.Length // the other way to meet: turned in less by this, both sides together; 0 when there is not so much allowance
	NextStart   length.Length // by how much less far in the repeat the next width begins, 0 to V, to the nearest nanometre
	Remaining   length.Length // across, at the seam as it is worked out here: 0 when it meets
}

// SeamOf is the seam of a cloth whose widths are joined with that allowance on
// either side, 0 <= 2*allowance < width. Where the width repeat goes into what a
// width shows, Off, Trim and Remaining are 0. Without a width repeat every seam
// meets across. When a width shows less than one repeat no turning in helps:
// CanMeet is false, and Remaining is what the pattern is out.
func SeamOf(c cloth.Cloth, allowance length.Length) Seam {
	shows, h := c.Width-2*allowance, c.Pattern.WidthRepeat
	s := Seam{Left: allowance, Right: c.Width - allowance, Shows: shows, CanMeet: true}
	if h <= 0 {
		return s
	}
	over := shows % h
	s.Off = nearest(over, h)
	s.Columns = int64(shows / h)
	if over > 0 && h-over <= 2*allowance {
		s.LetOut = h - over
	}
	if s.Columns == 0 {
		s.CanMeet, s.Remaining = false, s.Off
		return s
	}
	s.Trim = over
	s.Right -= over
	s.Shows -= over
	s.Remaining = nearest(s.Shows%h, h)
	den := c.Pattern.Drop.Reduced().Den
	s.NextStart = length.Length((int64(stepOf(c.Pattern, s)) + den/2) / den)
	return s
}

// stepOf is by how much less far in the repeat the next width begins, in parts
// of a nanometre: the drop's denominator to each.
func stepOf(p cloth.Pattern, s Seam) part {
	d := p.Drop.Reduced()
	return part(int64(p.LengthRepeat) * (s.Columns % d.Den * d.Num % d.Den))
}

// nearest is over, or over - whole where that is nearer to 0; half stays above 0.
func nearest(over, whole length.Length) length.Length {
	if 2*over > whole {
		return over - whole
	}
	return over
}
