package drawing

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// cutStrips draws what is to be cut.
func (s *sheet) cutStrips() {
	cut := s.ans.Result.Cut
	for i, l := range cut {
		from := s.below()
		name := ""
		if len(cut) > 1 {
			name = "length " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(cut))
			title := "Length " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(cut)) + ": " + near(l.Length, s.sys)
			if i < len(s.ans.Lengths) {
				title += ", to buy " + near(s.ans.Lengths[i].Order, s.sys)
			}
			s.heading(title)
			s.body(tPlain, beginText(s.ans.Request.Cloth, l, s.sys))
			s.keep(from, 300)
		}
		s.strip(service.PieceUse{Length: l.Length, Layout: l}, name, s.offcutsOf(i), "cut here", s.faultsOn(i))
	}
}

// pieceStrips draws what is to be cut from the pieces in hand.
func (s *sheet) pieceStrips() {
	if s.ans.Pieces == nil {
		return
	}
	s.heading("With the pieces in hand")
	s.body(tPlain, enoughText(s.ans.Pieces, s.sys))
	for i, u := range s.ans.Pieces.Uses {
		if i == 0 && u.Length <= 0 && len(u.Layout.Placements) == 0 {
			continue
		}
		from := s.below()
		s.heading(useTitle(i, s.ans) + near(u.Length, s.sys))
		if len(u.Layout.Placements) == 0 {
			s.body(tPlain, "Not needed.")
			continue
		}
		s.body(tPlain, useText(s.ans, u))
		s.keep(from, 300)
		name, _, _ := strings.Cut(useTitle(i, s.ans), ":")
		s.strip(u, name, nil, "used to here", nil)
	}
}

func useTitle(i int, ans *service.YardageAnswer) string {
	if i == 0 || i > len(ans.Request.Pieces) {
		return "Cloth still to buy: "
	}
	return "Piece " + strconv.Itoa(i) + " in hand: "
}

func useText(ans *service.YardageAnswer, u service.PieceUse) string {
	if u.AnyStart && ans.Request.Cloth.Pattern.LengthRepeat > 0 {
		return beginText(ans.Request.Cloth, u.Layout, ans.Request.Units) +
			" The same panels can be cut from it wherever in the repeat it begins."
	}
	return beginText(ans.Request.Cloth, u.Layout, ans.Request.Units)
}

// faultsOn are the numbers of the faults on one length, by placement.
func (s *sheet) faultsOn(layout int) map[int]string {
	if layout >= len(s.faulty) {
		return nil
	}
	return s.faulty[layout]
}

// strip draws one length of cloth with all that lies on it. Where there are
// several it has a name.
func (s *sheet) strip(u service.PieceUse, name string, left []leftover, end string, faulty map[int]string) {
	long := stripLength(u)
	s.gap(150)
	placements := inOrder(u.Layout.Placements)
	items := []Shape{Rect{0, 0, s.wide, long, cCloth}}
	hatches, names := s.offcutShapes(left)
	items = append(items, hatches...)
	items = append(items, s.panelFill(u.Layout))
	hatched, framed := s.faultShapes(u.Layout, faulty)
	items = append(items, hatched...)
	items = append(items, s.latticeShapes(u.Layout, long)...)
	items = append(items, s.selvedges(long)...)
	items = append(items, s.rulerAcross()...)
	items = append(items, s.rulerAlong(long)...)
	for _, pl := range placements {
		items = append(items, s.placed(pl))
	}
	items = append(items, framed...)
	items = append(items, names...)
	items = append(items, s.cutEnd(u, end)...)
	s.add(Group{Dx: marginLeft * s.k, Dy: s.y, Items: items})
	s.strips = append(s.strips, Strip{
		Name: name, X: marginLeft * s.k, Y: s.y, W: s.wide, H: long,
		Above: 110 * s.k, Below: 50 * s.k, Parts: s.partsOf(placements),
	})
	s.y += long
	s.gap(60)
}

// inOrder are placements as they are met from the start, and from the left
// selvedge: that is how they are read.
func inOrder(all []plan.Placement) []plan.Placement {
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b plan.Placement) int {
		return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
	})
	return all
}

// partsOf are placements for the key to the pages.
func (s *sheet) partsOf(all []plan.Placement) []Part {
	parts := make([]Part, len(all))
	for i, pl := range all {
		name := placedName(s.ans.Request.Panels, pl)
		if part := partText(pl); part != "" {
			name += ", " + part
		}
		f := frameOf(pl)
		parts[i] = Part{Name: name, X: f.x, Y: f.y, W: f.w, H: f.h}
		if p, ok := panelOf(s.ans.Request.Panels, pl); ok {
			parts[i].Mark = clean(p.ID)
		}
	}
	return parts
}

// selvedges are the woven edges and, at the top, the cut that begins the length.
func (s *sheet) selvedges(long float64) []Shape {
	k := s.k
	name := func(x float64, a Anchor, t string) Text {
		return Text{At: Pt{x, -84 * k}, S: t, Size: 24 * k, Anchor: a, Class: tQuiet}
	}
	return []Shape{
		Line{Pt{-6 * k, 0}, Pt{-6 * k, long}, cSelvedge},
		Line{Pt{s.wide + 6*k, 0}, Pt{s.wide + 6*k, long}, cSelvedge},
		Line{Pt{-12 * k, 0}, Pt{s.wide + 12*k, 0}, cCutEnd},
		name(0, AtStart, "left selvedge"),
		name(s.wide/2, AtMiddle, "start"),
		name(s.wide, AtEnd, "right selvedge"),
	}
}

// cutEnd marks how far the layout goes.
func (s *sheet) cutEnd(u service.PieceUse, words string) []Shape {
	k, y := s.k, u.Layout.Length.MM()
	text := near(u.Layout.Length, s.sys) + ", " + words
	return []Shape{
		Line{Pt{-12 * k, y}, Pt{s.wide + 12*k, y}, cCutEnd},
		Text{At: Pt{s.wide, y + 38*k}, S: text, Size: smallSize * k, Anchor: AtEnd, Class: tLabelBold},
	}
}

// panelFill lays white under all panels, so that lattice and motifs can still
// be drawn over it.
func (s *sheet) panelFill(l plan.Layout) Path {
	lines := make([]Polyline, 0, len(l.Placements))
	for _, pl := range l.Placements {
		lines = append(lines, frameOf(pl).outline())
	}
	return Path{lines, cPanelFill}
}

func (b box) outline() Polyline {
	return Polyline{Closed: true, Pts: []Pt{{b.x, b.y}, {b.x + b.w, b.y}, {b.x + b.w, b.y + b.h}, {b.x, b.y + b.h}}}
}

func (s *sheet) latticeShapes(l plan.Layout, long float64) []Shape {
	if !s.marks {
		return nil
	}
	c := s.ans.Request.Cloth
	g := gridOf(c, l, long)
	shapes := []Shape{Path{g.lines(), cRepeat}}
	for kind, m := range c.Pattern.Principal() {
		var lines []Polyline
		for _, p := range g.motifs(m) {
			lines = append(lines, glyph(kind, p, 14*s.k)...)
		}
		shapes = append(shapes, Path{lines, cMarker})
	}
	return shapes
}

// offcutShapes are the hatchings of offcuts, and the names that lie on them.
func (s *sheet) offcutShapes(left []leftover) (shapes, names []Shape) {
	for _, r := range left {
		x, y, w, h := r.X.MM(), r.Y.MM(), max(r.Across.MM(), 0), max(r.Along.MM(), 0)
		shapes = append(shapes,
			Hatch{x, y, w, h, 26 * s.k, cHatch},
			Rect{x, y, w, h, cOffcut})
		text := []string{bound("offcut " + strconv.Itoa(r.number)), bound(sizeText(r.Across, r.Along, s.sys))}
		in := box{x, y, w, h}.inset(8 * s.k)
		if lb, ok := s.fit([]level{{text, 32, 20}, {text[:1], 28, 16}}, []box{in}); ok {
			names = append(names, s.labelShapes(lb)...)
		}
	}
	return shapes, names
}
