package repeat

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
)

// Centring is a finished width with one thing in the middle of it.
type Centring struct {
	Middle  length.Length // from the left selvedge: of the cloth that lies in the middle
	Repeats int64         // whole width repeats shown, each with its motif in its middle
	Part    length.Length // of a repeat, left over at each side

	// Widths of cloth. Joined is false when one width covers it, which is then cut
	// from Middle - half the finished width.
	Joined                bool
	LeftWhole, RightWhole int64 // whole widths beside the middle one
	LeftPart, RightPart   length.Length
	Cut                   length.Length // left edge of what is cut when not joined, from the left selvedge
}

// Centre puts a motif, or the gap midway between two, into the middle of a
// finished width. The cloth has a width repeat H; of the motifs (or gaps) that a
// width shows, the one nearest to the middle is taken, the left one of two.
//
//	Repeats = the most that are odd (a motif) or even (a gap) and fit
//	Part    = (finished - Repeats*H) / 2
//
// A part is rounded down to a nanometre.
func Centre(c cloth.Cloth, s Seam, motif int, gap bool, finished length.Length) Centring {
	h := c.Pattern.WidthRepeat
	at := 2 * c.Pattern.Principal()[motif].Across // twice, so that halves are whole
	if gap {
		at += h
	}
	// The place nearest to the middle of what shows.
	want := 2*s.Left + s.Shows
	n := want - at
	k := n / (2 * h)
	if n%(2*h) < 0 {
		k--
	}
	if n-k*2*h > h { // nearer from the right
		k++
	}
	at += k * 2 * h
	out := Centring{Middle: at / 2}
	out.Repeats = int64(finished / h)
	odd := int64(1)
	if gap {
		odd = 0
	}
	if out.Repeats%2 != odd {
		out.Repeats--
	}
	out.Repeats = max(out.Repeats, 0)
	out.Part = (finished - length.Length(out.Repeats)*h) / 2
	left, right := finished-(at-2*s.Left), finished-(2*(s.Left+s.Shows)-at)
	// One width is cut from the whole breadth between the selvedges.
	if at >= finished && 2*c.Width-at >= finished {
		out.Cut = (at - finished) / 2
		return out
	}
	out.Joined = true
	out.LeftWhole, out.LeftPart = beside(left, s.Shows)
	out.RightWhole, out.RightPart = beside(right, s.Shows)
	return out
}

// beside splits twice the breadth beside the middle width into whole widths and
// a part.
func beside(twice, shows length.Length) (whole int64, rest length.Length) {
	if twice <= 0 || shows <= 0 {
		return 0, 0
	}
	return int64(twice / (2 * shows)), twice % (2 * shows) / 2
}

// Window is where a panel may begin so that a motif is whole inside its finished
// edges: a rectangle of places for the panel's finished top left corner, and its
// copies by (WidthRepeat, Drop*LengthRepeat) and (0, LengthRepeat). Both ends
// count. Without a repeat in a direction there is nothing to keep to in it.
type Window struct {
	Fits        bool          // the panel is large enough for the motif
	AcrossFrom  length.Length // from the left selvedge, 0 to less than H
	AcrossRange length.Length // AcrossFrom + AcrossRange is the last place
	AlongFrom   length.Length // in the length repeat, 0 to less than V, in the column of AcrossFrom
	AlongRange  length.Length
	Always      bool // wherever the panel begins some motif is whole
}

// Extent is how far something reaches across and along.
type Extent struct{ Across, Along length.Length }

// WindowOf is the window of a panel with that finished size, for a motif that
// reaches half its extent to every side of its centre.
//
//	across: from x - A + a/2 to x - a/2, and so along
//
// Halves are rounded so that the window is never too large.
func WindowOf(c cloth.Cloth, motif int, size, finished Extent) Window {
	p := c.Pattern
	m := p.Principal()[motif]
	w := Window{Fits: size.Across <= finished.Across && size.Along <= finished.Along}
	if !w.Fits {
		return w
	}
	w.AcrossRange, w.AlongRange = rangeOf(finished.Across, size.Across), rangeOf(finished.Along, size.Along)
	from := m.Along - finished.Along + (size.Along+1)/2
	x := m.Across - finished.Across + (size.Across+1)/2
	columns := int64(0)
	if h := p.WidthRepeat; h > 0 {
		w.AcrossFrom = ((x % h) + h) % h
		columns = int64((w.AcrossFrom - x) / h)
	}
	if v := p.LengthRepeat; v > 0 {
		d := p.Drop.Reduced()
		den := d.Den
		shifted := length.Mod(part(int64(from)*den)+part(int64(v)*(length.Mod(columns, den)*d.Num%den)), part(int64(v)*den))
		w.AlongFrom = up(shifted, den)
		if int64(shifted)%den != 0 && w.AlongRange > 0 {
			w.AlongRange--
		}
		w.AlongFrom %= v
	}
	w.Always = always(p, w)
	return w
}

// rangeOf is how far a motif may be moved inside a finished edge.
func rangeOf(finished, size length.Length) length.Length {
	r := finished - size
	if size%2 != 0 && r > 0 {
		r--
	}
	return r
}

// always reports whether the copies of the window cover every place: at any place
// across at least n columns of the pattern are whole, n*H <= AcrossRange, and the
// widest gap between their starts along is no more than AlongRange.
func always(p cloth.Pattern, w Window) bool {
	h, v, d := p.WidthRepeat, p.LengthRepeat, p.Drop.Reduced()
	n := int64(1)
	if h > 0 {
		n = int64(w.AcrossRange / h)
	}
	if n == 0 {
		return false
	}
	if v <= 0 {
		return true
	}
	// The starts of n columns are i*Num/Den of a repeat for i < n.
	var seen [cloth.MaxDropDen]bool
	for i := range min(n, d.Den) {
		seen[i*d.Num%d.Den] = true
	}
	widest, run := int64(0), int64(0)
	for i := range 2 * d.Den {
		run++
		if seen[(i+1)%d.Den] {
			widest, run = max(widest, run), 0
		}
	}
	return int64(w.AlongRange)*d.Den >= widest*int64(v)
}
