package drawing

import (
	"slices"

	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// sign is one entry of the legend: a picture in a square of 50 about its
// middle, and what it means.
type sign struct {
	means string
	draw  func(c Pt) []Shape
}

func (s *sheet) legend() {
	s.gap(30)
	s.explain(s.signs())
}

// explain prints a legend: the signs beside one another, in as many lines as they
// take.
func (s *paper) explain(signs []sign) {
	x, line := s.left(), 54*s.k
	for i, g := range signs {
		need := (72 + breadth(g.means)*smallSize + 26) * s.k
		if i > 0 && x+need > s.right() {
			x = s.left()
			s.y += line
		}
		s.add(g.draw(Pt{x + 28*s.k, s.y + 20*s.k})...)
		room := (s.right() - x - 66*s.k) / (smallSize * s.k)
		for n, t := range wrap(g.means, room) {
			if n > 0 {
				s.y += line * 0.7
			}
			s.text(x+66*s.k, s.y+30*s.k, smallSize, tPlain, t)
		}
		x += need
	}
	s.y += line
}

func (s *sheet) signs() []sign {
	k := s.k
	var out []sign
	if s.marks {
		for kind := range s.ans.Request.Cloth.Pattern.Principal() {
			out = append(out, sign{motifName(s.ans.Request.Cloth.Pattern, kind), func(c Pt) []Shape {
				return []Shape{Path{glyph(kind, c, 14*k), cMarker}}
			}})
		}
		out = append(out, sign{"edge of a repeat", func(c Pt) []Shape {
			return []Shape{Line{Pt{c.X - 26*k, c.Y}, Pt{c.X + 26*k, c.Y}, cRepeat}}
		}})
	}
	if s.any(func(_ panel.Panel, pl plan.Placement) bool { return pl.Motif != nil }) {
		out = append(out, sign{"the motif that was asked for", func(c Pt) []Shape {
			return []Shape{Circle{c, 20 * k, cMark}}
		}})
	}
	out = append(out,
		sign{"cut edge", func(c Pt) []Shape {
			return []Shape{Line{Pt{c.X - 26*k, c.Y}, Pt{c.X + 26*k, c.Y}, cPanel}}
		}},
		sign{"finished edge", func(c Pt) []Shape {
			return []Shape{Line{Pt{c.X - 26*k, c.Y}, Pt{c.X + 26*k, c.Y}, cFinished}}
		}},
		sign{"towards the panel's top", func(c Pt) []Shape {
			return []Shape{Path{arrow(c, 46*k, 0), cArrow}}
		}})
	if s.any(func(p panel.Panel, pl plan.Placement) bool { return len(s.notches(frameOf(pl), p, pl)) > 0 }) {
		out = append(out, sign{"notch at the middle of a finished edge", func(c Pt) []Shape {
			return []Shape{
				Line{Pt{c.X - 26*k, c.Y - 10*k}, Pt{c.X + 26*k, c.Y - 10*k}, cPanel},
				Path{[]Polyline{{Closed: true, Pts: []Pt{{c.X - 9*k, c.Y - 10*k}, {c.X, c.Y + 6*k}, {c.X + 9*k, c.Y - 10*k}}}}, cNotch},
			}
		}})
	}
	if s.any(func(p panel.Panel, pl plan.Placement) bool { return p.Match.How == panel.RunsOn || pl.Parts > 1 }) {
		out = append(out, sign{"pattern runs on across this edge", func(c Pt) []Shape {
			return []Shape{doubleLine(Pt{c.X - 26*k, c.Y - 5*k}, Pt{c.X + 26*k, c.Y - 5*k}, Pt{0, 10 * k})}
		}})
	}
	if s.any(func(_ panel.Panel, pl plan.Placement) bool { return len(s.ans.Request.Obstacles[pl.Panel]) > 0 }) {
		out = append(out, sign{"relief cut, and where it stops: snip last, on the piece", func(c Pt) []Shape {
			return []Shape{Line{Pt{c.X - 26*k, c.Y}, Pt{c.X + 18*k, c.Y}, cCutEnd}, Circle{Pt{c.X + 18*k, c.Y}, 8 * k, cArrow}}
		}})
	}
	if s.marked() {
		out = append(out, sign{"a panel with a fault", func(c Pt) []Shape {
			return []Shape{Hatch{c.X - 24*k, c.Y - 16*k, 48 * k, 32 * k, 14 * k, cFaultHatch}, Rect{c.X - 24*k, c.Y - 16*k, 48 * k, 32 * k, cFault}}
		}})
	}
	if len(s.ans.Offcuts) > 0 {
		out = append(out, sign{"offcut", func(c Pt) []Shape {
			return []Shape{Hatch{c.X - 24*k, c.Y - 16*k, 48 * k, 32 * k, 10 * k, cHatch}}
		}})
	}
	return out
}

// marked reports whether some panel has a fault.
func (s *sheet) marked() bool {
	return slices.ContainsFunc(s.faulty, func(on map[int]string) bool { return len(on) > 0 })
}

// any reports whether something holds of a placement.
func (s *sheet) any(f func(panel.Panel, plan.Placement) bool) bool {
	for _, l := range s.layouts() {
		for _, pl := range l.Layout.Placements {
			if p, ok := panelOf(s.ans.Request.Panels, pl); ok && f(p, pl) {
				return true
			}
		}
	}
	return false
}

// doubleLine is a line and its shadow, moved by off.
func doubleLine(a, b, off Pt) Path {
	return Path{[]Polyline{
		{Pts: []Pt{a, b}},
		{Pts: []Pt{{a.X + off.X, a.Y + off.Y}, {b.X + off.X, b.Y + off.Y}}},
	}, cSeam}
}
