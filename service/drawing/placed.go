package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// placed draws one panel, or one part of a joined panel, where it lies.
func (s *sheet) placed(pl plan.Placement) Group {
	f := frameOf(pl)
	g := Group{Title: s.tellOf(pl), Items: []Shape{Rect{f.x, f.y, f.w, f.h, cPanel}}}
	p, known := panelOf(s.ans.Request.Panels, pl)
	room, clear := f.box, f.box
	if known {
		if fin, ok := f.finished(p, pl); ok {
			if fin != f.box {
				g.Items = append(g.Items, Rect{fin.x, fin.y, fin.w, fin.h, cFinished})
			}
			room = fin
		}
		var shapes []Shape
		shapes, room, clear = s.seams(f, p, pl, room)
		g.Items = append(g.Items, shapes...)
		if notches := s.notches(f, p, pl); len(notches) > 0 {
			g.Items = append(g.Items, Path{notches, cNotch})
		}
	}
	g.Items = append(g.Items, s.reliefShapes(f, pl)...)
	if pl.Motif != nil {
		g.Items = append(g.Items, s.motifShapes(f, *pl.Motif)...)
	}
	g.Items = append(g.Items, s.nameShapes(f, pl, room, clear)...)
	return g
}

// reliefShapes are the relief cuts on a panel that is cut in one, with a ring
// where each must stop.
func (s *sheet) reliefShapes(f frame, pl plan.Placement) []Shape {
	if pl.Parts > 1 {
		return nil
	}
	var out []Shape
	for _, c := range s.ans.Request.ReliefCuts(pl.Panel) {
		cut := Path{Class: cCutEnd}
		for _, l := range c.Lines {
			var line Polyline
			for _, p := range l {
				line.Pts = append(line.Pts, f.at(p.Across.MM(), p.Along.MM()))
			}
			cut.Lines = append(cut.Lines, line)
		}
		out = append(out, cut)
		for _, stop := range c.Stops {
			out = append(out, Circle{f.at(stop.At.Across.MM(), stop.At.Along.MM()), 8 * s.k, cArrow})
		}
	}
	return out
}

// tellOf is what a placement is in words, for who points at it.
func (s *sheet) tellOf(pl plan.Placement) string {
	across, along := cutSize(pl)
	text := placedName(s.ans.Request.Panels, pl)
	if part := partText(pl); part != "" {
		text += ", " + part
	}
	text += ": " + sizeText(across, along, s.sys) + ", " + turnText(pl.Turn) + ", " +
		fromStart(pl.Y, s.sys) + ", " + fromLeft(pl.X, s.sys)
	if p, ok := panelOf(s.ans.Request.Panels, pl); ok && p.Match.How != panel.Free {
		text += "; " + wishText(p, s.sys)
	}
	return text
}

// markRadius is that of the ring about the motif that was asked for.
func (s *sheet) markRadius(f frame) float64 {
	return min(24*s.k, max(min(f.w, f.h)/5, 6*s.k))
}

func (s *sheet) motifShapes(f frame, m plan.MotifAt) []Shape {
	c, r := Pt{m.X.MM(), m.Y.MM()}, s.markRadius(f)
	return []Shape{
		Circle{c, r, cMark},
		Path{[]Polyline{
			{Pts: []Pt{{c.X - r*1.5, c.Y}, {c.X - r, c.Y}}}, {Pts: []Pt{{c.X + r, c.Y}, {c.X + r*1.5, c.Y}}},
			{Pts: []Pt{{c.X, c.Y - r*1.5}, {c.X, c.Y - r}}}, {Pts: []Pt{{c.X, c.Y + r}, {c.X, c.Y + r*1.5}}},
		}, cMark},
		Path{glyph(max(m.Motif, 0), c, r*0.5), cMarkFill},
	}
}

// nameShapes are the arrow to the panel's top and the label, beside each other
// and beside the motif: in room, the finished size, when all of it can be said
// there, or else in what is clear of the whole panel.
func (s *sheet) nameShapes(f frame, pl plan.Placement, room, clear box) []Shape {
	a := min(70*s.k, 0.3*min(f.w, f.h))
	whole := clear.inset(min(9*s.k, 0.08*min(f.w, f.h)))
	levels := s.levels(pl)
	for n, b := range []box{room.inset(8 * s.k), whole} {
		tip, rest := besideArrow(b, a)
		boxes := []box{rest}
		if pl.Motif != nil {
			boxes = around(rest, Pt{pl.Motif.X.MM(), pl.Motif.Y.MM()}, s.markRadius(f)*1.6)
		}
		try := levels
		if n == 0 {
			try = levels[:min(1, len(levels))]
		}
		if lb, ok := s.fit(try, boxes); ok {
			return append(s.labelShapes(lb), Path{arrow(tip, a, quarters(pl.Turn)), cArrow})
		}
	}
	tip, rest := besideArrow(whole, a)
	lb := s.number(strconv.Itoa(pl.Panel+1), rest)
	return append(s.labelShapes(lb), Path{arrow(tip, a, quarters(pl.Turn)), cArrow})
}

// levels are the ways to name a placement, the fullest first.
func (s *sheet) levels(pl plan.Placement) []level {
	across, along := cutSize(pl)
	p, known := panelOf(s.ans.Request.Panels, pl)
	if !known {
		return nil
	}
	copies := bound(copyText(p, pl))
	id := []string{clean(p.ID) + copies}
	name := clean(p.ID) + " " + apart(p.Name)
	if copies != "" {
		name += " " + copies[len(bound(" ")):]
	}
	full := []string{name, bound(sizeText(across, along, s.sys))}
	short := full[:1:1]
	if part := partText(pl); part != "" {
		full = append(full, part)
		short = append(short, part)
		id = append(id, part)
	}
	return []level{{full, 44, 24}, {short, 32, 22}, {id, 30, 18}}
}

// quarters is how far clockwise a panel's top is turned.
func quarters(t panel.Turn) int {
	switch t {
	case panel.Half:
		return 2
	case panel.Quarter:
		return 1
	}
	return 0
}

// besideArrow puts an arrow of size a in the lower right corner of a box and
// says what is left for the label.
func besideArrow(b box, a float64) (tip Pt, rest box) {
	tip = Pt{b.x + b.w - a/2, b.y + b.h - a/2}
	if b.w >= b.h {
		return tip, box{b.x, b.y, b.w - a, b.h}
	}
	return tip, box{b.x, b.y, b.w, b.h - a}
}
