package drawing

import (
	"cmp"
	"slices"
	"sort"
)

// slab is the part of a picture on one page: a range of heights in the picture.
type slab struct{ from, to float64 }

// overlap is the share of a page that is repeated on the next, where a page break cuts
// through something.
const overlap = 0.06

// The limits for a strip longer than a page, in millimetres of paper or as shares of a
// page. They bound the room for the join texts above and below, the height of the key,
// and the empty part that a break may leave.
const (
	joinRoom     = 6.0
	keyLeast     = 75.0
	keyMost      = 200.0
	stripFill    = 0.8
	ordinaryFill = 2.0 / 3
)

// pdfSheet is a page and the part of the picture on it.
type pdfSheet struct {
	picture *Picture
	slab
	scale float64 // millimetres of the picture per millimetre of paper
	page  int     // page number in the document

	strip      *Strip    // the long strip that this page shows a part of; or nil
	last, next *pdfSheet // the pages with the previous and the next part

	key   *Strip // the strip whose key is below the slab; or nil
	keyed []*pdfSheet

	closing string // the picture's last line, if it is in the footer
}

// paginator divides one picture into pages.
type paginator struct {
	p      *Picture
	scale  float64
	high   float64 // height of a page, in the picture
	drawn  float64 // the lowest point drawn
	shapes shapeEdges
	whole  shapeEdges
	long   []*Strip // the strips longer than a page
	pages  []*pdfSheet
}

// paginate divides a picture into pages of that height on paper.
func paginate(p *Picture, scale, height float64) []*pdfSheet {
	g := &paginator{p: p, scale: scale, high: height * scale}
	marks := extents(p.Items, 0)
	for _, m := range marks {
		g.drawn = max(g.drawn, m.to)
	}
	g.drawn = min(g.drawn, p.Height) // parts outside the picture are not printed
	g.shapes = edgesOf(marks)
	whole := groupsOf(p.Items)
	for _, s := range p.Whole {
		whole = append(whole, slab{s.From, s.To})
	}
	for i := range p.Strips {
		s := &p.Strips[i]
		if s.Above+s.H+s.Below <= g.high {
			whole = append(whole, slab{s.Y - s.Above, s.Y + s.H + s.Below})
			continue
		}
		g.long = append(g.long, s)
		whole = append(whole, slab{s.Y - s.Above - 1, s.Y - s.Above + keyLeast*scale})
	}
	g.whole = edgesOf(slices.DeleteFunc(whole, func(s slab) bool { return s.to-s.from > g.high }))
	slices.SortStableFunc(g.long, func(a, b *Strip) int { return cmp.Compare(a.Y, b.Y) })
	g.flow()
	return g.pages
}

// put adds a page.
func (g *paginator) put(from, to float64) *pdfSheet {
	s := &pdfSheet{picture: g.p, slab: slab{from, to}, scale: g.scale}
	g.pages = append(g.pages, s)
	return s
}

// flow fills the pages from the top of the picture down. A strip longer than a page begins
// on a new page, after its key.
func (g *paginator) flow() {
	from := 0.0
	for {
		end := from + g.high
		if len(g.long) > 0 {
			if s := g.long[0]; s.Y-s.Above+keyLeast*g.scale <= end {
				page := g.put(from, max(from, s.Y-s.Above))
				page.key, from = s, g.broken(s)
				page.keyed = g.pages[slices.Index(g.pages, page)+1:]
				g.long = g.long[1:]
				continue
			}
		} else if g.drawn <= end {
			g.finish(from, end)
			return
		}
		to, cut := g.between(from, end)
		if len(g.long) > 0 && to > g.long[0].Y-g.long[0].Above {
			to, cut = g.long[0].Y-g.long[0].Above, false
		}
		g.put(from, to)
		from = to
		if cut {
			from -= g.high * overlap
		}
	}
}

// finish adds the rest of the picture, for a page that is full at end. A closing line that
// would be alone goes into the footer of the page before. The bottom margin never needs a
// page.
func (g *paginator) finish(from, end float64) {
	left := g.shapes.bottoms[sort.SearchFloat64s(g.shapes.bottoms, from+1e-6):]
	switch c := g.p.Closing; {
	case len(g.pages) > 0 && from >= g.drawn-1e-6:
	case len(g.pages) > 0 && c.Text != "" && len(left) > 0 && left[0] > c.From:
		g.pages[len(g.pages)-1].closing = c.Text
	default:
		g.put(from, min(g.p.Height, end))
	}
}

// broken adds the pages of a long strip. The last one also takes as much of the rest as
// fits. It returns the height at which the next page begins.
func (g *paginator) broken(s *Strip) float64 {
	from, bottom := s.Y-s.Above, s.Y+s.H+s.Below
	room := g.high - 2*joinRoom*g.scale
	parts := edgesOf(partSpans(s))
	var last *pdfSheet
	link := func(page *pdfSheet) {
		if page.strip, page.last = s, last; last != nil {
			last.next = page
		}
		last = page
	}
	for bottom-from > room {
		at := g.stripEnd(from, from+room, parts)
		link(g.put(from, at))
		from = at - g.high*overlap
	}
	end := from + g.high - joinRoom*g.scale
	to := min(g.p.Height, end)
	if len(g.long) > 1 || g.drawn > end {
		to, _ = g.latest(bottom, end, bottom, 0)
	}
	if len(g.long) > 1 {
		to = min(to, g.long[1].Y-g.long[1].Above)
	}
	to = max(to, bottom)
	link(g.put(from, to))
	return to
}

// stripEnd returns the end of a page of a long strip that is full at end. It cuts as few
// panels as possible, and among such ends is the latest.
func (g *paginator) stripEnd(from, end float64, parts shapeEdges) float64 {
	at, best := end, -1
	for _, edges := range [][]float64{parts.tops, parts.bottoms, g.shapes.tops, g.shapes.bottoms, {end}} {
		i, _ := slices.BinarySearch(edges, from+(end-from)*stripFill)
		for ; i < len(edges) && edges[i] <= end; i++ {
			// A cut panel is worse than a cut word. The join line of the next page cuts
			// nothing, but a word under it is hard to read.
			n := 100*parts.cut(edges[i]) + g.shapes.cut(edges[i]) + g.shapes.cut(edges[i]-g.high*overlap)
			if best < 0 || n < best || n == best && edges[i] > at {
				at, best = edges[i], n
			}
		}
	}
	return at
}

func partSpans(s *Strip) []slab {
	spans := make([]slab, len(s.Parts))
	for i, p := range s.Parts {
		spans[i] = slab{s.Y + p.Y, s.Y + p.Y + p.H}
	}
	return spans
}

// between returns the end of a page that begins at from and is full at end. It is the
// latest height that cuts no shape. It splits a group only if the page would otherwise be
// over a third empty. cut reports whether a shape is cut.
func (g *paginator) between(from, end float64) (at float64, cut bool) {
	late := max(from, end-g.high*(1-ordinaryFill))
	early := from + (end-from)/20
	if at, ok := g.latest(late, end, from, 0); ok {
		return at, false
	}
	for apart := range 4 { // split as few groups as possible
		if at, ok := g.latest(early, end, from, apart); ok {
			return at, false
		}
	}
	at = end
	best := g.shapes.cut(end)
	for _, edges := range [][]float64{g.shapes.tops, g.shapes.bottoms} {
		i, _ := slices.BinarySearch(edges, late)
		for ; i < len(edges) && edges[i] < end; i++ {
			if n := g.shapes.cut(edges[i]); edges[i] > from && (n < best || n == best && edges[i] > at) {
				best, at = n, edges[i]
			}
		}
	}
	return at, best > 0
}

// latest returns the last height between least and most at which no shape is cut and at
// most `apart` groups are split; ok is false when there is none.
func (g *paginator) latest(least, most, above float64, apart int) (at float64, ok bool) {
	for _, edges := range [][]float64{g.shapes.tops, g.shapes.bottoms, g.whole.tops, g.whole.bottoms} {
		i := sort.Search(len(edges), func(i int) bool { return edges[i] > most })
		for i--; i >= 0 && edges[i] >= least && edges[i] > above; i-- {
			if ok && edges[i] <= at {
				break
			}
			if g.shapes.cut(edges[i]) == 0 && g.whole.cut(edges[i]) <= apart {
				at, ok = edges[i], true
				break
			}
		}
	}
	return at, ok
}

// shapeEdges are the top and bottom edges of shapes, each sorted.
type shapeEdges struct{ tops, bottoms []float64 }

func edgesOf(marks []slab) shapeEdges {
	e := shapeEdges{make([]float64, 0, len(marks)), make([]float64, 0, len(marks))}
	for _, m := range marks {
		if m.to > m.from { // a horizontal line cannot be cut
			e.tops, e.bottoms = append(e.tops, m.from), append(e.bottoms, m.to)
		}
	}
	slices.Sort(e.tops)
	slices.Sort(e.bottoms)
	return e
}

// cut returns how many shapes a horizontal line at that height cuts.
func (e shapeEdges) cut(y float64) int {
	above, _ := slices.BinarySearch(e.tops, y)
	ended := sort.Search(len(e.bottoms), func(i int) bool { return e.bottoms[i] > y })
	return above - ended
}

// groupsOf returns the extents of the groups of a picture, which are kept whole where
// possible.
func groupsOf(items []Shape) []slab {
	var list []slab
	for _, it := range items {
		g, ok := it.(Group)
		if !ok {
			continue
		}
		var whole slab
		for i, s := range extents(g.Items, g.Dy) {
			if i == 0 {
				whole = s
			}
			whole = slab{min(whole.from, s.from), max(whole.to, s.to)}
		}
		list = append(list, whole)
	}
	return list
}

// extents returns the extents in height of texts and shapes.
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
