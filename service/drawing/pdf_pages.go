package drawing

import (
	"slices"
	"sort"
)

// slab is the part of a picture that is on a page, from one height to another.
type slab struct{ from, to float64 }

// overlap is how much of the end of a page stands again on the next where a page
// had to break through something, as a share of the page.
const overlap = 0.06

// slabs divide a picture into pages of that height. A page ends where the fewest
// shapes are cut, if need be a third before its end.
func slabs(p *Picture, height float64) []slab {
	marks := extents(p.Items, 0)
	e := edgesOf(marks)
	var list []slab
	for from := 0.0; ; {
		if p.Height-from <= height {
			return append(list, slab{from, p.Height})
		}
		to, cut := e.between(from+height*2/3, from+height)
		list = append(list, slab{from, to})
		from = to
		if cut {
			from -= height * overlap
		}
	}
}

// shapeEdges are the upper and the lower edges of shapes, each in order.
type shapeEdges struct{ tops, bottoms []float64 }

func edgesOf(marks []slab) shapeEdges {
	var e shapeEdges
	for _, m := range marks {
		e.tops, e.bottoms = append(e.tops, m.from), append(e.bottoms, m.to)
	}
	slices.Sort(e.tops)
	slices.Sort(e.bottoms)
	return e
}

// cut is how many shapes a line at that height cuts.
func (e shapeEdges) cut(y float64) int {
	above, _ := slices.BinarySearch(e.tops, y)
	ended := sort.Search(len(e.bottoms), func(i int) bool { return e.bottoms[i] > y })
	return above - ended
}

// between is the lowest height between two at which the fewest shapes are cut,
// and whether any is.
func (e shapeEdges) between(least, most float64) (at float64, cut bool) {
	at = most
	best := e.cut(most)
	for _, edges := range [][]float64{e.tops, e.bottoms} {
		i, _ := slices.BinarySearch(edges, least)
		for ; i < len(edges) && edges[i] < most; i++ {
			if n := e.cut(edges[i]); n < best || n == best && edges[i] > at {
				best, at = n, edges[i]
			}
		}
	}
	return at, best > 0
}

// extents are from what to what height the texts and the shapes lie.
func extents(items []Shape, dy float64) []slab {
	var list []slab
	add := func(top, bottom float64) { list = append(list, slab{top + dy, bottom + dy}) }
	for _, it := range items {
		switch s := it.(type) {
		case Rect:
			add(s.Y, s.Y+s.H)
		case Line:
			add(span([]Pt{s.A, s.B}))
		case Path:
			for _, l := range s.Lines {
				if len(l.Pts) > 0 {
					add(span(l.Pts))
				}
			}
		case Circle:
			add(s.C.Y-s.R, s.C.Y+s.R)
		case Text:
			if s.Turn == 0 {
				add(s.At.Y-s.Size, s.At.Y+s.Size*.3)
			}
		case Group:
			list = append(list, extents(s.Items, dy+s.Dy)...)
		}
	}
	return list
}
