package drawing

import (
	"cmp"
	"slices"
	"sort"
)

// slab is the part of a picture that is on a page, from one height to another.
type slab struct{ from, to float64 }

// overlap is how much of the end of a page stands again on the next where a page
// had to break through something, as a share of the page.
const overlap = 0.06

// Of a strip that is longer than a page: the room for the lines above and below
// it that say how its pages overlap, the least and the most room for its key,
// and how much of a page a break may leave empty, in millimetres of paper and as
// a share of a page.
const (
	joinRoom     = 6.0
	keyLeast     = 75.0
	keyMost      = 200.0
	stripFill    = 0.8
	ordinaryFill = 2.0 / 3
)

// pdfSheet is a page and the part of the picture that is on it.
type pdfSheet struct {
	picture *Picture
	slab
	scale float64 // millimetres of the picture for one of the paper
	page  int     // its number in the document

	strip      *Strip    // that this page has a part of
	last, next *pdfSheet // with the other parts

	key   *Strip // whose key stands below the slab
	keyed []*pdfSheet

	closing string // the picture's last line, where it stands in the foot
}

// paginator divides one picture into pages.
type paginator struct {
	p      *Picture
	scale  float64
	high   float64 // of a page, in the picture
	drawn  float64 // nothing is drawn below
	shapes shapeEdges
	whole  shapeEdges
	long   []*Strip // those that no page holds
	pages  []*pdfSheet
}

// paginate divides a picture into pages of that height on paper.
func paginate(p *Picture, scale, height float64) []*pdfSheet {
	g := &paginator{p: p, scale: scale, high: height * scale}
	marks := extents(p.Items, 0)
	for _, m := range marks {
		g.drawn = max(g.drawn, m.to)
	}
	g.drawn = min(g.drawn, p.Height) // what is drawn off the picture is on no page
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

// flow fills page after page from the top of the picture down. A strip that no
// page holds begins on a page of its own, behind its key.
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

// finish puts what is left, which a page that is full at end holds. The closing
// line alone goes to the foot of the page before, and the margin at the bottom
// takes no page.
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

// broken puts the pages of a long strip, of which the last goes on with as much of
// what follows as it holds, and is where the next page begins.
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

// stripEnd is where a page ends that has a part of a long strip and is full at
// end: where the fewest panels are in two, as late as may be.
func (g *paginator) stripEnd(from, end float64, parts shapeEdges) float64 {
	at, best := end, -1
	for _, edges := range [][]float64{parts.tops, parts.bottoms, g.shapes.tops, g.shapes.bottoms, {end}} {
		i, _ := slices.BinarySearch(edges, from+(end-from)*stripFill)
		for ; i < len(edges) && edges[i] <= end; i++ {
			// A panel in two is worse than a word in two; at the line where the next
			// page begins nothing is in two, but a word is hard to read.
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

// between is where a page that begins at from and is full at end should end: as
// late as it can without cutting anything, and by no more than a third of a page
// too early unless something would be taken apart that should stay whole. It
// says whether a shape is cut.
func (g *paginator) between(from, end float64) (at float64, cut bool) {
	late := max(from, end-g.high*(1-ordinaryFill))
	early := from + (end-from)/20
	if at, ok := g.latest(late, end, from, 0); ok {
		return at, false
	}
	for apart := range 4 { // nothing, or as little as can be, is taken apart
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

// latest is the last height between two at which no shape is cut and no more than
// so many things are taken apart that should stay whole.
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

// shapeEdges are the upper and the lower edges of shapes, each in order.
type shapeEdges struct{ tops, bottoms []float64 }

func edgesOf(marks []slab) shapeEdges {
	e := shapeEdges{make([]float64, 0, len(marks)), make([]float64, 0, len(marks))}
	for _, m := range marks {
		if m.to > m.from { // a level line cannot be cut
			e.tops, e.bottoms = append(e.tops, m.from), append(e.bottoms, m.to)
		}
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

// groupsOf are the heights of the groups of a picture: a drawing in it stays
// whole where it can.
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
