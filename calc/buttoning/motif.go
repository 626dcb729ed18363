package buttoning

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// MaxMotifs bounds the motifs of a map.
const MaxMotifs = 2000

// Fate is what becomes of a motif.
type Fate int

// The fates.
const (
	Shown     Fate = iota // all of it, to within 2 in 100
	Partly                // less than half is swallowed
	Swallowed             // half of it or more
)

// Mapped is one motif of the cloth on the work.
type Mapped struct {
	Motif  int // number in Pattern.Principal
	Cloth  Place
	Work   Place // of its middle, after the shortening
	Hidden int   // in 100 of its extent: in pleats, under buttons or past the edge
	Fate   Fate
}

// Place is from the centre lines.
type Place struct{ X, Y length.Length }

// Cover is what else hides cloth: the radius of the buttons.
type Cover struct{ Button length.Length }

// MotifCount is at most how many motifs a map of the work has, 0 without a
// pattern; capped well above MaxMotifs.
func (w Work) MotifCount(p cloth.Pattern) int {
	if p.IsPlain() {
		return 0
	}
	columns, rows := int64(1), int64(1)
	span := w.Span()
	if p.WidthRepeat > 0 {
		columns = int64(span.Across/p.WidthRepeat) + 2
	}
	if p.LengthRepeat > 0 {
		rows = int64(span.Along/p.LengthRepeat) + 2
	}
	return int(min(columns*rows*int64(len(p.Principal())), 1<<30))
}

// Map carries every motif whose middle lies between the finished edges to its
// place on the work, in reading order: by row on the work, from the left. The
// extent of motif k on the cloth is sizes[k]; what a repeat of 0 makes a stripe
// has the whole span as its extent in that direction and its middle on the
// centre line.
//
// A motif fills the oval in its extent, a stripe all of it. Hidden is counted on
// an even net of points, 15 each way over the extent and 60 along a stripe, to
// the nearest part in a hundred. A point is hidden
//
//   - when it lies within half of what a pleat takes up from the line of that
//     pleat: between two buttons on the cloth, or from a button to the edge;
//   - when it lies under a button;
//   - when it lies past a finished edge.
func (w Work) Map(p cloth.Pattern, s Shift, sizes []panel.Size, c Cover) []Mapped {
	if p.IsPlain() {
		return nil
	}
	l := latticeOf(p)
	h := w.hiding(c)
	var out []Mapped
	for k := range l.motifs {
		for _, x := range l.columns(k, s, h.half.Across) {
			for _, y := range l.along(k, s, x.i, h.top, h.half.Along) {
				m := Mapped{Motif: k, Cloth: Place{x.at, y}}
				m.Work.X, m.Work.Y = w.WorkAt(x.at, y)
				m.Hidden = h.share(m.Cloth, sizes[k], l.h == 0, l.v == 0)
				m.Fate = fateOf(m.Hidden)
				out = append(out, m)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Mapped) int {
		return cmp.Or(cmp.Compare(a.Work.Y, b.Work.Y), cmp.Compare(a.Work.X, b.Work.X), cmp.Compare(a.Motif, b.Motif))
	})
	return out
}

func fateOf(hidden int) Fate {
	switch {
	case hidden <= 2:
		return Shown
	case hidden < 50:
		return Partly
	}
	return Swallowed
}

// column is a column of motifs: which one, and where.
type column struct {
	i  int64
	at length.Length
}

// columns are those of motif k from -half to half.
func (l lattice) columns(k int, s Shift, half length.Length) []column {
	if l.h == 0 {
		return []column{{}}
	}
	x0 := s.X + l.dx[k]
	first := -half + length.Mod(x0+half, l.h)
	var out []column
	for x := first; x <= half; x += l.h {
		out = append(out, column{int64((x - x0) / l.h), x})
	}
	return out
}

// along are the places of motif k in column i from -top to bottom.
func (l lattice) along(k int, s Shift, i int64, top, bottom length.Length) []length.Length {
	if l.v == 0 {
		return []length.Length{0}
	}
	y0 := s.Y + l.dy[k] + l.dropped(i)
	var out []length.Length
	for y := -top + length.Mod(y0+top, l.v); y <= bottom; y += l.v {
		out = append(out, y)
	}
	return out
}

// Skew is the left-right symmetry error of the pattern on the cloth: the
// farthest that the mirror image of a motif lies from one of the same name.
func Skew(p cloth.Pattern, s Shift, motifs []int) length.Length {
	l := latticeOf(p)
	var worst length.Length
	for _, k := range motifs {
		worst = max(worst, l.skew(k, s))
	}
	return worst
}

// Middle is the motif, of those numbered, that lies nearest to the crossing of
// the centre lines, and its place.
func Middle(p cloth.Pattern, s Shift, motifs []int) (int, Place) {
	l := latticeOf(p)
	best, which := 0.0, -1
	var where Place
	for _, k := range motifs {
		ox, oy, q := l.offset(k, s, 0, 0)
		if which < 0 || q < best {
			best, which, where = q, k, Place{ox, oy}
		}
	}
	return which, where
}
