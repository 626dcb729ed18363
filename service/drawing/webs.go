package drawing

import (
	"math"
	"strconv"

	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// The classes of a frame, after those of a cutting plan.
const (
	cRail Class = iota + tSeam + 1
	cAcross
	cAlong
	cAcrossFill
	cWebEdge
	cCoil
	cCoilInner
	foundationClasses
)

func foundationStyles(k float64) []Style {
	out := make([]Style, foundationClasses)
	copy(out, planStyles(k))
	ink := RGB(0x1b2430)
	out[cRail] = Style{Stroke: ink, Width: 7 * k}
	out[cAcross] = Style{Stroke: ink, Width: 2.6 * k, Fill: RGB(0xd9d2c2)}
	out[cAlong] = Style{Stroke: ink, Width: 2.6 * k, Fill: RGB(0xffffff)}
	out[cAcrossFill] = Style{Fill: RGB(0xd9d2c2)}
	out[cWebEdge] = Style{Stroke: ink, Width: 2.6 * k}
	out[cCoil] = Style{Stroke: ink, Width: 6 * k}
	out[cCoilInner] = Style{Stroke: ink, Width: 3 * k}
	return out
}

// frameSheet is a sheet with frames.
type frameSheet struct {
	paper
	ans *service.FoundationAnswer
}

// The room around a frame, for its title, its figures and its measures.
const (
	frameTop    = 190.0
	frameBottom = 120.0
	frameLeft   = 110.0
	frameRight  = 90.0
	leastCell   = 480.0 // so that there is room for a name
)

// frames draws the frames beside one another, as many in a row as there is room
// for.
func (s *frameSheet) frames() {
	x, high := s.left(), 0.0
	for k := range s.ans.Work.Built {
		f := &s.ans.Request.Frames[k]
		wide, deep := extent(f)
		w := max(wide+(frameLeft+frameRight)*s.k, leastCell*s.k)
		if x > s.left() && x+w > s.right() {
			s.y += high
			x, high = s.left(), 0
		}
		s.add(Group{
			Title: repeated(f.ID, f.Name, f.Count), Dx: x + frameLeft*s.k, Dy: s.y + frameTop*s.k,
			Items: s.frame(f, &s.ans.Work.Built[k], x),
		})
		x += w
		high = max(high, deep+(frameTop+frameBottom)*s.k)
	}
	s.y += high
}

// extent is the rectangle around a frame, in millimetres.
func extent(f *foundation.Frame) (wide, deep float64) {
	if f.Shape == foundation.Circle {
		return f.Front.MM(), f.Front.MM()
	}
	return max(f.Front, f.Back).MM(), f.Depth.MM()
}

// frame draws one frame with its origin at the top left of the rectangle around
// it, which stands at x on the sheet.
func (s *frameSheet) frame(f *foundation.Frame, b *foundation.Built, x float64) []Shape {
	k := s.k
	wide, deep := extent(f)
	var items []Shape
	web := b.Webbing.Width.MM()
	for _, way := range []foundation.Way{foundation.Across, foundation.Along} {
		class := cAcross
		if way == foundation.Along {
			class = cAlong
		}
		for _, w := range b.Webbing.Webs {
			if w.Way == way {
				items = append(items, Path{[]Polyline{strap(ptOf(w.From), ptOf(w.To), web)}, class})
			}
		}
	}
	items = append(items, crossings(&b.Webbing, web, 2*k)...)
	items = append(items, outline(f, cRail))
	items = append(items, s.coils(b)...)
	items = append(items, s.webNumbers(&b.Webbing, wide)...)
	room := min(s.right()-x-frameLeft*k, max(wide+frameRight*k, (leastCell-frameLeft)*k))
	name := repeated(f.ID, f.Name, f.Count)
	items = append(items, Text{At: Pt{0, titleAt(f) * k}, S: name, Size: s.shrunk(name, bodySize, room) * k, Class: tBold})
	items = append(items, s.measures(f, wide, deep)...)
	return items
}

// titleAt is how far above a frame its title stands: over the measure of its
// back, where it has one.
func titleAt(f *foundation.Frame) float64 {
	if f.Shape == foundation.Trapezoid {
		return -140
	}
	return -64
}

// strap is a web of that width between its ends.
func strap(a, b Pt, web float64) Polyline {
	dx, dy := b.X-a.X, b.Y-a.Y
	long := geom.Hypot(dx, dy)
	if long == 0 {
		return Polyline{}
	}
	nx, ny := -dy/long*web/2, dx/long*web/2
	return Polyline{Closed: true, Pts: []Pt{{a.X + nx, a.Y + ny}, {b.X + nx, b.Y + ny}, {b.X - nx, b.Y - ny}, {a.X - nx, a.Y - ny}}}
}

// crossings bring a web across to the top where it passes over one along. Webs
// across are level, so that where they meet follows from y alone. Line
// covers the edges of the web beneath.
func crossings(w *foundation.Webbing, web, line float64) []Shape {
	var fill, edges []Polyline
	for _, across := range w.Webs {
		if across.Way != foundation.Across {
			continue
		}
		left, right := ptOf(across.From), ptOf(across.To)
		y := left.Y
		for _, along := range w.Webs {
			if along.Way != foundation.Along || !foundation.Over(across.Number, along.Number) {
				continue
			}
			top, bottom := ptOf(along.From), ptOf(along.To)
			dx, dy := bottom.X-top.X, bottom.Y-top.Y
			if dy <= 0 || y+web/2 < top.Y || y-web/2 > bottom.Y {
				continue
			}
			slope := math.Abs(dx / dy)
			half := web / 2 * (math.Sqrt(1+float64(slope*slope)) + slope)
			x := top.X + float64(dx/dy*(y-top.Y))
			from, to := max(x-half-line, left.X), min(x+half+line, right.X)
			if from >= to {
				continue
			}
			fill = append(fill, Polyline{Closed: true, Pts: []Pt{{from, y - web/2}, {to, y - web/2}, {to, y + web/2}, {from, y + web/2}}})
			edges = append(edges, Polyline{Pts: []Pt{{from, y - web/2}, {to, y - web/2}}}, Polyline{Pts: []Pt{{from, y + web/2}, {to, y + web/2}}})
			for _, end := range []float64{from, to} {
				if end == left.X || end == right.X {
					edges = append(edges, Polyline{Pts: []Pt{{end, y - web/2}, {end, y + web/2}}})
				}
			}
		}
	}
	if len(fill) == 0 {
		return nil
	}
	return []Shape{Path{fill, cAcrossFill}, Path{edges, cWebEdge}}
}

// outline is the frame itself.
func outline(f *foundation.Frame, c Class) Shape {
	wide, deep := extent(f)
	front := f.Front.MM()
	switch f.Shape {
	case foundation.Circle:
		return Circle{Pt{front / 2, front / 2}, front / 2, c}
	case foundation.Trapezoid:
		l, r, m := f.Back.MM()/2, front/2, wide/2
		return Path{[]Polyline{{Closed: true, Pts: []Pt{{m - l, 0}, {m + l, 0}, {m + r, deep}, {m - r, deep}}}}, c}
	case foundation.DShape:
		r := front / 2
		pts := []Pt{{0, 0}, {front, 0}}
		const n = 48
		for i := range n + 1 {
			a := math.Pi * float64(i) / n
			pts = append(pts, Pt{r + float64(r*math.Cos(a)), deep - r + float64(r*math.Sin(a))})
		}
		return Path{[]Polyline{{Closed: true, Pts: pts}}, c}
	}
	return Path{[]Polyline{{Closed: true, Pts: []Pt{{0, 0}, {wide, 0}, {wide, deep}, {0, deep}}}}, c}
}

// coils are the springs: the top coil and the waist.
func (s *frameSheet) coils(b *foundation.Built) []Shape {
	if len(b.Grid.Centres) == 0 {
		return nil
	}
	r := s.coil() / 2
	var out []Shape
	for _, p := range b.Grid.Centres {
		c := ptOf(p)
		out = append(out, Circle{c, r, cCoil}, Circle{c, r * 0.55, cCoilInner})
	}
	return out
}

// coil is the width of the top coil that the answer goes by.
func (s *frameSheet) coil() float64 {
	for _, v := range s.ans.Work.Settings {
		if v.Name == "spring-width" {
			return length.Length(v.Value).MM()
		}
	}
	return 0
}

// webNumbers stand at the back ends and at the right ends of the webs.
func (s *frameSheet) webNumbers(w *foundation.Webbing, wide float64) []Shape {
	k := s.k
	size := min(smallSize*k, 0.8*w.Width.MM())
	var out []Shape
	for _, one := range w.Webs {
		text := strconv.Itoa(one.Number)
		if one.Way == foundation.Across {
			out = append(out, Text{At: Pt{wide + 16*k, one.To.Along.MM() + size*0.35}, S: text, Size: size, Class: tQuiet})
			continue
		}
		out = append(out, Text{At: Pt{one.From.Across.MM(), -18 * k}, S: text, Size: size, Anchor: AtMiddle, Class: tQuiet})
	}
	return out
}

// measures are the widths at the front and the back and the depth.
func (s *frameSheet) measures(f *foundation.Frame, wide, deep float64) []Shape {
	k := s.k
	level := func(from, to, y float64, l length.Length) []Shape {
		text := taped(l, s.sys)
		return []Shape{
			Path{[]Polyline{{Pts: []Pt{{from, y}, {to, y}}}, {Pts: []Pt{{from, y - 12*k}, {from, y + 12*k}}}, {Pts: []Pt{{to, y - 12*k}, {to, y + 12*k}}}}, cTick},
			Text{At: Pt{(from + to) / 2, y + 38*k}, S: text, Size: s.shrunk(text, smallSize, to-from+60*k) * k, Anchor: AtMiddle, Class: tLabel},
		}
	}
	m := wide / 2
	out := level(m-f.Front.MM()/2, m+f.Front.MM()/2, deep+36*k, f.Front)
	if f.Shape == foundation.Trapezoid {
		half := f.Back.MM() / 2
		out = append(out, level(m-half, m+half, -104*k, f.Back)...)
	}
	if f.Shape == foundation.Circle {
		return out
	}
	x := -36 * k
	text := taped(f.Depth, s.sys)
	return append(out,
		Path{[]Polyline{{Pts: []Pt{{x, 0}, {x, deep}}}, {Pts: []Pt{{x - 12*k, 0}, {x + 12*k, 0}}}, {Pts: []Pt{{x - 12*k, deep}, {x + 12*k, deep}}}}, cTick},
		Text{At: Pt{x - 16*k, deep / 2}, S: text, Size: s.shrunk(text, smallSize, deep) * k, Anchor: AtMiddle, Turn: -90, Class: tLabel})
}
