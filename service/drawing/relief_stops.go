package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

// stopLabels number the stops at the end of a line, past it.
func (s *reliefSheet) stopLabels(c service.ReliefCut, _ int, line []panel.Point, number int, to func(Pt) Pt) []Shape {
	end := line[len(line)-1]
	for n, st := range c.Stops {
		if st.At != end {
			continue
		}
		a, b := to(ptOf(line[len(line)-2])), to(ptOf(end))
		d := geom.Hypot(b.X-a.X, b.Y-a.Y)
		if d == 0 {
			return nil
		}
		size := smallSize * s.k
		out := 32 * s.k / d
		at := Pt{b.X + float64(out*(b.X-a.X)), b.Y + float64(out*(b.Y-a.Y)) + size*0.36}
		return []Shape{Text{At: at, S: strconv.Itoa(number + n), Size: size, Anchor: AtMiddle, Class: tLabelBold}}
	}
	return nil
}

// stopDimension shows how far in from the cut edge the innermost stop lies; in a
// corner, of the first stop from both edges.
func (s *reliefSheet) stopDimension(i int, to func(Pt) Pt) []Shape {
	r, c, o, k := s.ans.Request, s.ans.Cuts[i], s.ans.Request.Obstacles[i], s.k
	if len(c.Stops) == 0 {
		return nil
	}
	cut := r.Cut()
	at := c.Stops[0].At
	if o.Corner == relief.NoCorner {
		at = c.Stops[len(c.Stops)/2].At
	}
	lo, hi := reliefBounds(reliefOutline(r, o))
	left, right, top, bottom := to(lo).X, to(hi).X, to(lo).Y, to(hi).Y
	p := to(ptOf(at))
	end := to(ptOf(panel.Point(cut)))
	begin := to(Pt{0, 0})
	atBottom := o.Corner == relief.BottomLeft || o.Corner == relief.BottomRight || o.Corner == relief.NoCorner && o.Edge == relief.BottomEdge
	atRight := o.Corner == relief.TopRight || o.Corner == relief.BottomRight || o.Corner == relief.NoCorner && o.Edge == relief.RightEdge
	var out []Shape
	if o.Corner != relief.NoCorner || o.Edge == relief.TopEdge || o.Edge == relief.BottomEdge {
		x := right + 52*k
		if atRight {
			x = left - 28*k
		}
		if atBottom {
			out = append(out, s.dimension(Pt{x, p.Y}, Pt{x, end.Y}, taped(cut.Along-at.Along, s.sys))...)
		} else {
			out = append(out, s.dimension(Pt{x, begin.Y}, Pt{x, p.Y}, taped(at.Along, s.sys))...)
		}
	}
	if o.Corner != relief.NoCorner || o.Edge == relief.LeftEdge || o.Edge == relief.RightEdge {
		y := bottom + 52*k
		if atBottom {
			y = top - 28*k
		}
		if atRight {
			out = append(out, s.dimension(Pt{p.X, y}, Pt{end.X, y}, taped(cut.Across-at.Across, s.sys))...)
		} else {
			out = append(out, s.dimension(Pt{begin.X, y}, Pt{p.X, y}, taped(at.Across, s.sys))...)
		}
	}
	return out
}
