package drawing

import (
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// seams marks the edges across which the pattern runs on, with the name of the
// panel on the other side, and the seams of joined panels, along the sides of
// the finished box. It returns what is left for the label of that box, and of
// the panel.
func (s *sheet) seams(f frame, p panel.Panel, pl plan.Placement, fin box) (shapes []Shape, room, clear box) {
	room, clear = fin, f.box
	mark := func(e panel.Edge, long, short string) {
		if !outer(e, pl) {
			return
		}
		sd := f.sideOf(e)
		shapes = append(shapes, s.seamLine(fin, sd))
		t, ok := s.seamText(fin, sd, long, short)
		if !ok {
			return
		}
		shapes = append(shapes, t)
		room = room.less(sd, 38*s.k)
		clear = clear.upTo(sd, room)
	}
	if p.Match.How == panel.RunsOn {
		from := clean(p.Match.From)
		mark(facing(p.Match.Edge), "runs on from "+from, "from "+from)
	}
	for _, e := range []panel.Edge{panel.LeftEdge, panel.RightEdge} {
		if !outer(e, pl) {
			shapes = append(shapes, s.seamLine(fin, f.sideOf(e)))
		}
	}
	for _, e := range []panel.Edge{panel.TopEdge, panel.BottomEdge, panel.LeftEdge, panel.RightEdge} {
		if names := s.runsTo(pl.Panel, e); names != "" {
			mark(e, "runs on to "+names, "to "+names)
		}
	}
	return shapes, room, clear
}

// runsTo are the panels to which the pattern runs on across an edge.
func (s *sheet) runsTo(k int, e panel.Edge) string {
	names := ""
	for _, r := range s.runs[k] {
		if r.edge != e {
			continue
		}
		if names != "" {
			names += ", "
		}
		names += r.to
	}
	return names
}

// outer reports whether an edge of the panel is an edge of this part of it.
func outer(e panel.Edge, pl plan.Placement) bool {
	switch {
	case pl.Parts <= 1:
		return true
	case e == panel.LeftEdge:
		return pl.Part == 1
	case e == panel.RightEdge:
		return pl.Part == pl.Parts
	}
	return true
}

// less is a box without a strip along one side.
func (b box) less(sd side, d float64) box {
	switch sd {
	case sideTop:
		return box{b.x, b.y + d, b.w, b.h - d}
	case sideRight:
		return box{b.x, b.y, b.w - d, b.h}
	case sideBottom:
		return box{b.x, b.y, b.w, b.h - d}
	}
	return box{b.x + d, b.y, b.w - d, b.h}
}

// upTo is a box with one side moved to that of another.
func (b box) upTo(sd side, to box) box {
	switch sd {
	case sideTop:
		return b.less(sd, to.y-b.y)
	case sideRight:
		return b.less(sd, b.x+b.w-to.x-to.w)
	case sideBottom:
		return b.less(sd, b.y+b.h-to.y-to.h)
	}
	return b.less(sd, to.x-b.x)
}

// seamLine is a double line along a side, the second line inside.
func (s *sheet) seamLine(b box, sd side) Shape {
	d := 9 * s.k
	switch sd {
	case sideTop:
		return doubleLine(Pt{b.x, b.y}, Pt{b.x + b.w, b.y}, Pt{0, d})
	case sideRight:
		return doubleLine(Pt{b.x + b.w, b.y}, Pt{b.x + b.w, b.y + b.h}, Pt{-d, 0})
	case sideBottom:
		return doubleLine(Pt{b.x, b.y + b.h}, Pt{b.x + b.w, b.y + b.h}, Pt{0, -d})
	}
	return doubleLine(Pt{b.x, b.y}, Pt{b.x, b.y + b.h}, Pt{d, 0})
}

// seamText is the name along a side, the longer words where they fit; ok is
// false when neither fits.
func (s *sheet) seamText(b box, sd side, long, short string) (t Text, ok bool) {
	const size = 24.0
	along, across := b.w, b.h
	if sd == sideLeft || sd == sideRight {
		along, across = b.h, b.w
	}
	words := long
	if breadth(words)*size*s.k > along-16*s.k {
		words = short
	}
	if breadth(words)*size*s.k > along-16*s.k || across < 3*size*s.k {
		return t, false
	}
	t = Text{S: words, Size: size * s.k, Anchor: AtMiddle, Class: tSeam}
	rise, hang := 14*s.k, (14+size*0.78)*s.k
	switch sd {
	case sideTop:
		t.At = Pt{b.x + b.w/2, b.y + hang}
	case sideBottom:
		t.At = Pt{b.x + b.w/2, b.y + b.h - rise}
	case sideLeft:
		t.At, t.Turn = Pt{b.x + hang, b.y + b.h/2}, -90
	default:
		t.At, t.Turn = Pt{b.x + b.w - rise, b.y + b.h/2}, -90
	}
	return t, true
}
