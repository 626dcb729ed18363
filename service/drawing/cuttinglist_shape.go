package drawing

import "github.com/bridletie/bridletie/calc/panel"

// shape is a panel to scale: cut edge, finished edge, the arrow to its top and
// where its motif is wanted. It returns how high it is.
func (s *cutSheet) shape(p panel.Panel) (shapes []Shape, high float64) {
	cut := p.Cut()
	across, along := axisOf(cut.Across.MM(), s.scale), axisOf(cut.Along.MM(), s.scale)
	w, h := across.whole, along.whole
	shapes = []Shape{Rect{0, 0, w, h, cPanel}}
	left, right := across.at(p.Allow.Left.MM()), across.at((p.Allow.Left + p.Size.Across).MM())
	top, bottom := along.at(p.Allow.Top.MM()), along.at((p.Allow.Top + p.Size.Along).MM())
	shapes = append(shapes, Rect{left, top, right - left, bottom - top, cFinished})
	if across.broken {
		shapes = append(shapes, breakAt(Pt{w * breakShare, h / 2}, h, false)...)
	}
	if along.broken {
		shapes = append(shapes, breakAt(Pt{w / 2, h * breakShare}, w, true)...)
	}
	size := min(44, 0.45*min(w, h))
	if size > 5 {
		shapes = append(shapes, Path{arrow(Pt{min(w-size/2-4, w*0.9), min(h-size/2-4, h*0.86)}, size, 0), cArrow})
	}
	at := p.Reference()
	c := Pt{across.at(at.Across.MM()), along.at(at.Along.MM())}
	r := min(15, 0.3*min(w, h))
	switch p.Match.How {
	case panel.Centred, panel.Anchor:
		shapes = append(shapes, Circle{c, r, cMark}, Line{Pt{c.X - 1.5*r, c.Y}, Pt{c.X + 1.5*r, c.Y}, cMark}, Line{Pt{c.X, c.Y - 1.5*r}, Pt{c.X, c.Y + 1.5*r}, cMark})
	case panel.Across:
		shapes = append(shapes, Line{Pt{c.X, top}, Pt{c.X, bottom}, cRepeat})
	case panel.Along:
		shapes = append(shapes, Line{Pt{left, c.Y}, Pt{right, c.Y}, cRepeat})
	case panel.RunsOn:
		shapes = append(shapes, sewnEdge(p.Match.Edge, left, right, top, bottom))
	}
	return shapes, h
}

// sewnEdge is the double line at the edge that is sewn to the panel from which the
// pattern runs on.
func sewnEdge(from panel.Edge, left, right, top, bottom float64) Shape {
	switch from {
	case panel.TopEdge:
		return doubleLine(Pt{left, bottom}, Pt{right, bottom}, Pt{0, -8})
	case panel.LeftEdge:
		return doubleLine(Pt{right, top}, Pt{right, bottom}, Pt{-8, 0})
	case panel.RightEdge:
		return doubleLine(Pt{left, top}, Pt{left, bottom}, Pt{8, 0})
	}
	return doubleLine(Pt{left, top}, Pt{right, top}, Pt{0, 8})
}

// breakShare is where along its length a shortened panel is broken.
const breakShare = 0.32

// axis turns places across or along a panel into places on the sheet.
type axis struct {
	long, whole, scale float64 // of the panel in millimetres; on the sheet
	broken             bool
}

func axisOf(long, scale float64) axis {
	a := axis{long: long, scale: scale, broken: long > broken}
	a.whole = max(min(long, broken)*scale, leastSeen)
	return a
}

// at is a place on the sheet. Of a shortened panel, both ends are to scale and
// what lies between is drawn together.
func (a axis) at(mm float64) float64 {
	scale := max(a.scale, a.whole/max(a.long, 1e-6))
	if !a.broken {
		return min(mm*scale, a.whole)
	}
	const end = 200 // mm at either end that stay to scale
	switch {
	case mm <= end:
		return mm * a.scale
	case mm >= a.long-end:
		return a.whole - (a.long-mm)*a.scale
	}
	return end*a.scale + (mm-end)/(a.long-2*end)*(a.whole-2*end*a.scale)
}

// breakAt are two wavy lines across a panel that is drawn shortened, with the
// panel left out between them.
func breakAt(c Pt, long float64, level bool) []Shape {
	const gap, wave, steps = 9.0, 5.0, 8
	line := func(side float64) Polyline {
		var pts []Pt
		for n := range steps + 1 {
			d := (float64(n)/steps - 0.5) * (long + 14)
			off := side*gap/2 + wave*float64(1-2*(n%2))/2
			if level {
				pts = append(pts, Pt{c.X + d, c.Y + off})
			} else {
				pts = append(pts, Pt{c.X + off, c.Y + d})
			}
		}
		return Polyline{Pts: pts}
	}
	a, b := line(-1), line(1)
	return []Shape{Path{[]Polyline{{Pts: append(append([]Pt{}, a.Pts...), backwards(b.Pts)...), Closed: true}}, cPanelFill}, Path{[]Polyline{a, b}, cArrow}}
}

func backwards(pts []Pt) []Pt {
	out := make([]Pt, 0, len(pts))
	for i := range pts {
		out = append(out, pts[len(pts)-1-i])
	}
	return out
}

// cutSigns are the legend of the sheet.
func cutSigns() []sign {
	bar := func(c Class) func(Pt) []Shape {
		return func(p Pt) []Shape { return []Shape{Line{Pt{p.X - 26, p.Y}, Pt{p.X + 26, p.Y}, c}} }
	}
	return []sign{
		{"cut edge", bar(cPanel)}, {"finished edge", bar(cFinished)},
		{"towards the top", func(c Pt) []Shape { return []Shape{Path{arrow(c, 40, 0), cArrow}} }},
		{"motif here", func(c Pt) []Shape {
			return []Shape{Circle{c, 13, cMark}, Line{Pt{c.X - 20, c.Y}, Pt{c.X + 20, c.Y}, cMark}, Line{Pt{c.X, c.Y - 20}, Pt{c.X, c.Y + 20}, cMark}}
		}},
		{"motif on this line", bar(cRepeat)},
		{"pattern runs on across this edge", func(c Pt) []Shape {
			return []Shape{doubleLine(Pt{c.X - 26, c.Y - 4}, Pt{c.X + 26, c.Y - 4}, Pt{0, 8})}
		}},
	}
}
