package drawing

import (
	"slices"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
)

// Measuring guides: a piece from the front and from the side, in its usual
// proportions, with a letter where each measure is taken.

// guide is a measuring guide while it is drawn.
type guide struct {
	paper
	kind   furniture.Kind
	usual  map[string]float64 // of each measure, in millimetres
	placed []dimension
}

// dimension is where a measure is taken: from a to b, in a view whose floor is at
// y = 0, upwards. Out is how far beside the piece its line lies.
type dimension struct {
	measure string
	view    view
	a, b    Pt
	out     float64
}

// view is a side from which the piece is seen.
type view int

const (
	front view = iota
	fromSide
)

// MeasuringTitle names the guide of a kind: "What to measure: wing chair".
func MeasuringTitle(k furniture.Kind) string { return "What to measure: " + k.Name }

// MeasuringSVG is the measuring guide of a kind, as SVG.
func MeasuringSVG(k furniture.Kind, sys length.System) []byte {
	return MeasuringPicture(k, sys).SVG()
}

// MeasuringPicture is the measuring guide of a kind: the piece from the front and
// from the side with a letter at each measure, and what the letters mean.
func MeasuringPicture(k furniture.Kind, sys length.System) *Picture {
	g := &guide{paper: paper{sys: sys, k: 1, page: usualWidth + marginLeft + marginRight}, kind: k, usual: make(map[string]float64)}
	for _, m := range k.Measures {
		g.usual[m.ID] = m.Typical.MM()
	}
	g.title(MeasuringTitle(k), k.About)
	g.gap(30)
	g.views()
	g.measures()
	g.gap(24)
	g.body(tQuiet, "A show line is where a part is last seen. A crease is where two parts meet: do not push the tape in. A tack line is where the cover is tacked, behind an edge or under a roll.")
	g.body(tQuiet, "Measure over the stuffing, at the widest places. The drawing shows usual proportions and no piece of yours.")
	return g.picture(MeasuringTitle(k), g.words(), planStyles(1))
}

// words are the guide for who cannot see it.
func (g *guide) words() string {
	text := ""
	for i, m := range g.kind.Measures {
		text += measureMark(i) + ", " + m.Name + " (" + m.ID + "), from " + m.From.Name() + " to " + m.To.Name() + ": " + m.How + " "
	}
	return text
}

// measureMark is the mark of the nth measure: A to Z, then AA.
func measureMark(n int) string {
	const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	if n < len(alphabet) {
		return alphabet[n : n+1]
	}
	return "A" + measureMark(n-len(alphabet))
}

// measures lists what the letters mean.
func (g *guide) measures() {
	rows := make([][]string, len(g.kind.Measures))
	for i, m := range g.kind.Measures {
		where := "From " + m.From.Name() + " to " + m.To.Name() + ". " + m.How
		rows[i] = []string{measureMark(i), m.Name, m.ID, taped(m.Typical, g.sys), tape(m.Least, g.sys) + " to " + taped(m.Most, g.sys), where}
	}
	g.table("Measures", []float64{0, 60, 365, 675, 785, 970, 1490}, 0, []string{"", "Measure", "Key", "Usual", "Plausible", "Where the tape goes"}, rows)
}

// views draws both views side by side at one scale.
func (g *guide) views() {
	f, s := g.front(), g.side()
	wide := f.w + s.w + 3*dimensionRoom*2
	high := max(f.h, s.h)
	scale := min((g.right()-g.left())/wide, 760/high)
	floor := g.y + high*scale + dimensionRoom*scale
	at := g.left() + dimensionRoom*scale
	g.view(f, at, floor, scale, front)
	g.view(s, at+(f.w+2*dimensionRoom)*scale+40, floor, scale, fromSide)
	g.y = floor + dimensionRoom*scale + 40
}

// dimensionRoom is kept beside a view for the lines of the measures, in
// millimetres of the piece.
const dimensionRoom = 330.0

// elevation is a view: boxes from the floor up, x from its left edge.
type elevation struct {
	boxes []box
	w, h  float64
}

// get is the usual figure of a measure, or what stands in for it.
func (g *guide) get(id string, or float64) float64 {
	if v, ok := g.usual[id]; ok {
		return v
	}
	return or
}

// has reports whether the kind has a measure.
func (g *guide) has(id string) bool { _, ok := g.usual[id]; return ok }

// mark notes where a measure is taken, when the kind has it.
func (g *guide) mark(id string, v view, a, b Pt, out float64) {
	if g.has(id) {
		g.placed = append(g.placed, dimension{id, v, a, b, out})
	}
}

// view draws one view with its measures.
func (g *guide) view(e elevation, left, floor, scale float64, v view) {
	at := func(p Pt) Pt { return Pt{left + p.X*scale, floor - p.Y*scale} }
	for _, b := range e.boxes {
		p := at(Pt{b.x, b.y + b.h})
		g.add(Rect{p.X, p.Y, b.w * scale, b.h * scale, cPanelFill}, Rect{p.X, p.Y, b.w * scale, b.h * scale, cPanel})
	}
	g.add(Line{at(Pt{-60, 0}), at(Pt{e.w + 60, 0}), cRule})
	name := [...]string{"from the front", "from the side"}[v]
	middle := at(Pt{e.w / 2, 0})
	g.add(Text{At: Pt{middle.X, middle.Y + dimensionRoom*scale + 20}, S: name, Size: smallSize, Anchor: AtMiddle, Class: tQuiet})
	for _, d := range g.placed {
		if d.view == v {
			g.dimension(d, at, scale)
		}
	}
}

// dimension draws the line of a measure, its ends, and its letter.
func (g *guide) dimension(d dimension, at func(Pt) Pt, scale float64) {
	a, b := at(d.a), at(d.b)
	if d.a.Y == d.b.Y { // across: the line lies above or below
		a.Y, b.Y = a.Y-d.out*scale, b.Y-d.out*scale
	} else {
		a.X, b.X = a.X+d.out*scale, b.X+d.out*scale
	}
	const end = 14
	tick := func(p Pt) Line {
		if d.a.Y == d.b.Y {
			return Line{Pt{p.X, p.Y - end}, Pt{p.X, p.Y + end}, cMark}
		}
		return Line{Pt{p.X - end, p.Y}, Pt{p.X + end, p.Y}, cMark}
	}
	middle := Pt{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
	n := slices.IndexFunc(g.kind.Measures, func(m furniture.Measure) bool { return m.ID == d.measure })
	g.add(Line{a, b, cMark}, tick(a), tick(b), Circle{middle, 19, cPanelFill}, Circle{middle, 19, cMark},
		Text{At: Pt{middle.X, middle.Y + 10}, S: measureMark(n), Size: 28, Anchor: AtMiddle, Class: tBold})
}
