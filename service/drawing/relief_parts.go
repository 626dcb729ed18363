package drawing

import (
	"math"
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

func (s *reliefSheet) legend() {
	k := s.k
	bar := func(c Class) func(Pt) []Shape {
		return func(p Pt) []Shape { return []Shape{Line{Pt{p.X - 26*k, p.Y}, Pt{p.X + 26*k, p.Y}, c}} }
	}
	s.gap(20)
	s.explain([]sign{
		{"cut edge", bar(cPanel)}, {"finished edge", bar(cFinished)}, {"cut", bar(cReliefCut)},
		{"stop here", func(p Pt) []Shape { return []Shape{Circle{p, 11 * k, cReliefStop}} }},
		{"obstacle", func(p Pt) []Shape {
			box := []Pt{{p.X - 24*k, p.Y - 16*k}, {p.X + 24*k, p.Y - 16*k}, {p.X + 24*k, p.Y + 16*k}, {p.X - 24*k, p.Y + 16*k}}
			return []Shape{Path{hatchedPolygon(box, 14*k), cObstacleHatch}, Path{[]Polyline{{box, true}}, cObstacle}}
		}},
		{"middle, fixed first", func(p Pt) []Shape { return reliefCross(p, 18*k) }},
	})
}

func reliefCross(p Pt, r float64) []Shape {
	return []Shape{Line{Pt{p.X - r, p.Y}, Pt{p.X + r, p.Y}, cArrow}, Line{Pt{p.X, p.Y - r}, Pt{p.X, p.Y + r}, cArrow}}
}

// dimension is a line with a bar at each end and its text in the middle.
func (s *reliefSheet) dimension(a, b Pt, text string) []Shape {
	k := s.k
	dx, dy := 0.0, 12*k
	turn, at := 0, Pt{(a.X + b.X) / 2, (a.Y+b.Y)/2 - 12*k}
	if a.X == b.X {
		dx, dy = 12*k, 0
		turn, at = -90, Pt{a.X - 12*k, (a.Y + b.Y) / 2}
	}
	return []Shape{
		Line{a, b, cTick},
		Line{Pt{a.X - dx, a.Y - dy}, Pt{a.X + dx, a.Y + dy}, cTick},
		Line{Pt{b.X - dx, b.Y - dy}, Pt{b.X + dx, b.Y + dy}, cTick},
		Text{At: at, S: text, Size: smallSize * k, Anchor: AtMiddle, Turn: turn, Class: tLabel},
	}
}

// panel draws the whole panel to scale.
func (s *reliefSheet) panel() {
	r, k := s.ans.Request, s.k
	cut := r.Cut()
	w, h := cut.Across.MM(), cut.Along.MM()
	s.gap(90)
	var items []Shape
	items = append(items,
		Rect{0, 0, w, h, cPanelFill},
		Rect{r.Allow.Left.MM(), r.Allow.Top.MM(), r.Size.Across.MM(), r.Size.Along.MM(), cFinished})
	for _, o := range r.Obstacles {
		pts := reliefOutline(r, o)
		items = append(items, Path{hatchedPolygon(pts, 16*k), cObstacleHatch}, Path{[]Polyline{{pts, true}}, cObstacle})
	}
	items = append(items, Rect{0, 0, w, h, cPanel})
	items = append(items, reliefCross(ptOf(r.Centre()), 30*k)...)
	for i, c := range s.ans.Cuts {
		items = append(items, cutShapes(c, func(p Pt) Pt { return p }, 9*k)...)
		items = append(items, s.idLabel(r.Obstacles[i], reliefOutline(r, r.Obstacles[i])))
	}
	items = append(items, s.dimension(Pt{0, -36 * k}, Pt{w, -36 * k}, near(cut.Across, s.sys))...)
	items = append(items, s.dimension(Pt{-36 * k, 0}, Pt{-36 * k, h}, near(cut.Along, s.sys))...)
	s.add(Group{Title: ReliefTitle(s.ans), Dx: (s.page - w) / 2, Dy: s.y, Items: items})
	s.y += h
	s.gap(30)
}

// idLabel names an obstacle beside it, on the side of the panel's middle.
func (s *reliefSheet) idLabel(o relief.Obstacle, pts []Pt) Shape {
	mid := ptOf(s.ans.Request.Centre())
	lo, hi := reliefBounds(pts)
	size := smallSize * s.k
	text := clean(o.ID)
	half := breadth(text) * size * boldAddition / 2
	at := Pt{(lo.X + hi.X) / 2, (lo.Y + hi.Y) / 2}
	sideways := o.Corner == relief.NoCorner && (o.Edge == relief.LeftEdge || o.Edge == relief.RightEdge)
	switch {
	case sideways && at.X < mid.X:
		at = Pt{hi.X + 16*s.k + half, at.Y}
	case sideways:
		at = Pt{lo.X - 16*s.k - half, at.Y}
	case at.Y < mid.Y:
		at.Y = hi.Y + 14*s.k + size
	default:
		at.Y = lo.Y - 20*s.k - size*0.2
	}
	w := s.ans.Request.Cut().Across.MM()
	at.X = max(min(at.X, w-half-8*s.k), half+8*s.k)
	return Text{At: at, S: text, Size: size, Anchor: AtMiddle, Class: tLabelBold}
}

func reliefBounds(pts []Pt) (lo, hi Pt) {
	lo, hi = Pt{math.Inf(1), math.Inf(1)}, Pt{math.Inf(-1), math.Inf(-1)}
	for _, p := range pts {
		lo, hi = Pt{min(lo.X, p.X), min(lo.Y, p.Y)}, Pt{max(hi.X, p.X), max(hi.Y, p.Y)}
	}
	return lo, hi
}

// cutShapes are the lines of a cut and the rings at its stops.
func cutShapes(c service.ReliefCut, to func(Pt) Pt, ring float64) []Shape {
	var path Path
	path.Class = cReliefCut
	for _, line := range c.Lines {
		var pts []Pt
		for _, p := range line {
			pts = append(pts, to(ptOf(p)))
		}
		path.Lines = append(path.Lines, Polyline{Pts: pts})
	}
	out := []Shape{path}
	for _, st := range c.Stops {
		out = append(out, Circle{to(ptOf(st.At)), ring, cReliefStop})
	}
	return out
}

// maxDetails is how many cuts are drawn larger.
const maxDetails = 40

// details draws each cut larger, two beside each other.
func (s *reliefSheet) details() {
	k := s.k
	gap := 50 * k
	w := (s.right() - s.left() - gap) / 2
	h := w * 0.72
	number, column, lowest := 1, 0, 0.0
	from := s.y
	for i, c := range s.ans.Cuts {
		if i == maxDetails {
			break
		}
		if len(c.Lines) == 0 {
			continue
		}
		x := s.left() + float64(column)*(w+gap)
		lowest = max(lowest, s.detail(i, number, box{x, s.y + 20*k, w, h}))
		number += len(c.Stops)
		if column = 1 - column; column == 0 {
			s.y, lowest = lowest, 0
			s.keep(from, 0)
			from = s.y
		}
	}
	if column == 1 {
		s.y = lowest
		s.keep(from, 0)
	}
	s.gap(10)
}

// detail draws one cut in a frame, and says below where its stops lie. It
// returns how far down it reaches.
func (s *reliefSheet) detail(i, number int, b box) float64 {
	r, c, o, k := s.ans.Request, s.ans.Cuts[i], s.ans.Request.Obstacles[i], s.k
	cut := r.Cut()
	pts := reliefOutline(r, o)
	all := append([]Pt{}, pts...)
	for _, line := range c.Lines {
		for _, p := range line {
			all = append(all, ptOf(p))
		}
	}
	lo, hi := reliefBounds(all)
	pad := 0.28 * max(hi.X-lo.X, hi.Y-lo.Y)
	scale := min(b.w/(hi.X-lo.X+2*pad), b.h/(hi.Y-lo.Y+2*pad))
	mid := Pt{(lo.X + hi.X) / 2, (lo.Y + hi.Y) / 2}
	to := func(p Pt) Pt {
		return Pt{b.x + b.w/2 + float64((p.X-mid.X)*scale), b.y + b.h/2 + float64((p.Y-mid.Y)*scale)}
	}
	items := []Shape{Rect{b.x, b.y, b.w, b.h, cCloth}}
	inside := func(p Pt) Pt { return Pt{min(max(p.X, b.x), b.x+b.w), min(max(p.Y, b.y), b.y+b.h)} }
	p, q := inside(to(Pt{0, 0})), inside(to(Pt{cut.Across.MM(), cut.Along.MM()}))
	items = append(items, Rect{p.X, p.Y, q.X - p.X, q.Y - p.Y, cPanelFill})
	items = append(items, clippedRect(b, to(Pt{r.Allow.Left.MM(), r.Allow.Top.MM()}), to(Pt{r.Allow.Left.MM() + r.Size.Across.MM(), r.Allow.Top.MM() + r.Size.Along.MM()}), cFinished)...)
	big := make([]Pt, len(pts))
	for n, p := range pts {
		big[n] = to(p)
	}
	items = append(items, Path{hatchedPolygon(big, 22*k), cObstacleHatch}, Path{[]Polyline{{big, true}}, cObstacle})
	items = append(items, clippedRect(b, to(Pt{0, 0}), to(Pt{cut.Across.MM(), cut.Along.MM()}), cPanel)...)
	items = append(items, cutShapes(c, to, 11*k)...)
	for n, line := range c.Lines {
		items = append(items, s.stopLabels(c, n, line, number, to)...)
	}
	items = append(items, s.stopDimension(i, to)...)
	items = append(items, Rect{b.x, b.y, b.w, b.h, cRule})
	s.add(Group{Title: clean(o.ID) + ", " + cutName(c.Kind), Items: items})
	y := b.y + b.h
	write := func(class Class, size float64, text string) {
		room := b.w / (size * k)
		if class == tBold {
			room /= boldAddition
		}
		for _, t := range wrap(text, room) {
			y += size * 1.3 * k
			s.text(b.x, y, size, class, t)
		}
	}
	write(tBold, 30, clean(o.ID)+": "+cutName(c.Kind)+", "+c.Margin().Text(s.sys, length.Down)+" kept")
	for n, st := range c.Stops {
		if n == 2 && len(c.Stops) > 3 {
			write(tQuiet, smallSize, "The others are in the list of stops.")
			break
		}
		write(tPlain, smallSize, strconv.Itoa(number+n)+": "+taped(st.At.Across, s.sys)+" from left, "+taped(st.At.Along, s.sys)+" from top")
	}
	return y + 20*k
}

// clippedRect are the sides of a rectangle as far as they lie in a box.
func clippedRect(b box, p, q Pt, c Class) []Shape {
	var out []Shape
	x0, x1 := max(p.X, b.x), min(q.X, b.x+b.w)
	y0, y1 := max(p.Y, b.y), min(q.Y, b.y+b.h)
	for _, y := range []float64{p.Y, q.Y} {
		if y >= b.y && y <= b.y+b.h && x0 < x1 {
			out = append(out, Line{Pt{x0, y}, Pt{x1, y}, c})
		}
	}
	for _, x := range []float64{p.X, q.X} {
		if x >= b.x && x <= b.x+b.w && y0 < y1 {
			out = append(out, Line{Pt{x, y0}, Pt{x, y1}, c})
		}
	}
	return out
}
