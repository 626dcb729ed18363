package drawing

import (
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service/glance"
)

// plot is the field of the curves: what is needed over the length repeat.
type plot struct {
	x, y, w, h float64
	repeat     length.Length // the largest
	needed     length.Length
}

func (p plot) at(t glance.Tried) Pt {
	return Pt{p.x + p.w*(t.Repeat.MM()/max(p.repeat.MM(), 1)), p.y + p.h*(1-t.Needed.MM()/max(p.needed.MM(), 1))}
}

// curve is one width of the first cloth.
type curve struct {
	width length.Length
	tried []glance.Tried
}

// curves draws what the first cloth needs over the length repeat, a line for
// each width. The widths are told apart by a number at each point.
func (s *cloths) curves() {
	var list []curve
	p := plot{w: s.right() - s.left() - 330, h: 460, x: s.left() + 150}
	for _, t := range s.ans.Sensitivity {
		if !t.Usable {
			continue
		}
		if len(list) == 0 || list[len(list)-1].width != t.Width {
			list = append(list, curve{width: t.Width})
		}
		last := &list[len(list)-1]
		last.tried = append(last.tried, t)
		p.repeat, p.needed = max(p.repeat, t.Repeat), max(p.needed, t.Needed)
	}
	if len(list) == 0 {
		return
	}
	p.needed = rounded(p.needed, s.sys)
	s.heading("The first cloth at other widths and repeats")
	s.gap(30)
	p.y = s.y
	s.axes(p)
	for n, c := range list {
		s.curve(p, n, c)
	}
	s.keys(p, list)
	s.gap(p.h + 90)
}

// rounded is a length a quarter of which is a round figure, and not less.
func rounded(l length.Length, sys length.System) length.Length {
	step := 40 * length.Centimetre
	if sys == length.Imperial {
		step = 4 * length.Foot
	}
	return l.Round(step, length.Up)
}

// axes are the two edges of the field, with the needed lengths and the repeats
// that were tried written to them.
func (s *cloths) axes(p plot) {
	s.add(Line{Pt{p.x, p.y}, Pt{p.x, p.y + p.h}, cArrow}, Line{Pt{p.x, p.y + p.h}, Pt{p.x + p.w, p.y + p.h}, cArrow})
	for n := range 5 {
		part := length.Length(n) * p.needed / 4
		y := p.y + p.h*(1-float64(n)/4)
		s.add(Line{Pt{p.x, y}, Pt{p.x + p.w, y}, cRule},
			Text{At: Pt{p.x - 16, y + 9}, S: near(part, s.sys), Size: smallSize, Anchor: AtEnd, Class: tQuiet})
	}
	free := p.x - 1000.0
	for _, v := range s.repeats() {
		x := p.at(glance.Tried{Repeat: v}).X
		s.add(Line{Pt{x, p.y + p.h}, Pt{x, p.y + p.h + 12}, cTick})
		text := repeatName(v, s.sys)
		if half := breadth(text) * smallSize / 2; x-half > free {
			s.add(Text{At: Pt{x, p.y + p.h + 44}, S: text, Size: smallSize, Anchor: AtMiddle, Class: tQuiet})
			free = x + half + 10
		}
	}
	s.add(Text{At: Pt{p.x + p.w, p.y + p.h + 80}, S: "length repeat", Size: smallSize, Anchor: AtEnd, Class: tQuiet})
}

// repeats are those that were tried, each once.
func (s *cloths) repeats() []length.Length {
	var list []length.Length
	for _, t := range s.ans.Sensitivity {
		list = append(list, t.Repeat)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func (s *cloths) curve(p plot, n int, c curve) {
	pts := make([]Pt, len(c.tried))
	for i, t := range c.tried {
		pts[i] = p.at(t)
	}
	s.add(Path{Lines: []Polyline{{Pts: pts}}, Class: cPanel})
	for _, at := range pts {
		s.add(Circle{at, 17, cPanelFill}, Circle{at, 17, cArrow},
			Text{At: Pt{at.X, at.Y + 9}, S: strconv.Itoa(n + 1), Size: 26, Anchor: AtMiddle, Class: tBold})
	}
}

// keys say which number is which width.
func (s *cloths) keys(p plot, list []curve) {
	for n, c := range list {
		s.add(Text{At: Pt{p.x + p.w + 40, p.y + 30 + float64(n)*44}, S: strconv.Itoa(n+1) + "  " + near(c.width, s.sys) + " wide", Size: smallSize, Class: tPlain})
	}
}
