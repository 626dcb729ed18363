package foam

import (
	"math"
	"math/big"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// Form is the outline of a cushion, seen from above with the front below.
type Form int

// The forms.
const (
	NoForm Form = iota - 1 // one that could not be read
	Rectangle
	Trapezoid // Back is the width at the back, Across that at the front
	TShape    // ears of EarAcross by EarAlong at the front, on one side or both
	LShape    // a corner of EarAcross by EarAlong is cut away at the back on the right
	Rounded   // corners of Radius
	Circle    // Across is the diameter
	DShape    // straight at the back, half a circle at the front
	Outline   // a polygon
)

// Ears is on which sides a T has ears.
type Ears int

// The ears.
const (
	EarsBoth Ears = iota
	EarLeft
	EarRight
)

// Shape is a form with its measures; which of them count depends on the form.
type Shape struct {
	Form          Form
	Across, Along length.Length
	Back          length.Length
	EarAcross     length.Length
	EarAlong      length.Length
	Ears          Ears
	Radius        length.Length
	Points        []geom.Point // corners of an outline, along towards the front
}

// Grown is the shape with every edge moved outwards by d, with sharp corners kept
// sharp. Measures that need a root are rounded up to the next micrometre.
func (s Shape) Grown(d length.Length) Shape {
	if s.Form == Outline {
		s.Points = grownPoints(s.Points, d)
		return s
	}
	g := s
	g.Across, g.Along = s.Across+2*d, s.Along+2*d
	switch s.Form {
	case Circle:
		g.Along = g.Across
	case Rounded:
		g.Radius = s.Radius + d
	case TShape:
		g.EarAlong = s.EarAlong + 2*d
	case Trapezoid:
		// A side of run r over h has the length l: moved out by d it meets the
		// front, itself d further, at d(l+r)/h from where it was.
		h, r := s.Along.MM(), (s.Across-s.Back).MM()/2
		l := geom.Hypot(h, r)
		g.Across = s.Across + 2*length.RoundMM(d.MM()*(l+r)/h, length.Micrometre, length.Up)
		g.Back = s.Back + 2*length.RoundMM(d.MM()*(l-r)/h, length.Micrometre, length.Up)
	}
	return g
}

// Bounds is the rectangle around the shape.
func (s Shape) Bounds() (across, along length.Length) {
	switch s.Form {
	case Circle:
		return s.Across, s.Across
	case Trapezoid:
		return max(s.Across, s.Back), s.Along
	case Outline:
		lo, hi := corners(s.Points)
		return hi.Across - lo.Across, hi.Along - lo.Along
	}
	return s.Across, s.Along
}

func corners(pts []geom.Point) (lo, hi geom.Point) {
	if len(pts) == 0 {
		return
	}
	lo, hi = pts[0], pts[0]
	for _, p := range pts {
		lo = geom.Point{Across: min(lo.Across, p.Across), Along: min(lo.Along, p.Along)}
		hi = geom.Point{Across: max(hi.Across, p.Across), Along: max(hi.Along, p.Along)}
	}
	return lo, hi
}

// Area is the exact area of a shape: Plain + Pi·π, in eighths of a square
// micrometre.
type Area struct{ Plain, Pi int64 }

// micro is a length in micrometres, rounded up.
func micro(l length.Length) int64 { return int64(length.CeilDiv(l, length.Micrometre)) }

// Area is the area of the shape, its measures taken up to whole micrometres. A
// rounded corner lacks (4-π)/4·r²; a D is a rectangle and half a circle.
func (s Shape) Area() Area {
	w, h := micro(s.Across), micro(s.Along)
	e, f := micro(s.EarAcross), micro(s.EarAlong)
	switch s.Form {
	case Trapezoid:
		return Area{Plain: 4 * (w + micro(s.Back)) * h}
	case TShape:
		n := int64(1)
		if s.Ears == EarsBoth {
			n = 2
		}
		return Area{Plain: 8 * (w*h - n*e*(h-f))}
	case LShape:
		return Area{Plain: 8 * (w*h - e*f)}
	case Rounded:
		r := micro(s.Radius)
		return Area{Plain: 8 * (w*h - 4*r*r), Pi: 8 * r * r}
	case Circle:
		return Area{Pi: 2 * w * w}
	case DShape:
		return Area{Plain: 8*w*h - 4*w*w, Pi: w * w}
	case Outline:
		twice := int64(0)
		for i, p := range s.Points {
			q := s.Points[(i+1)%len(s.Points)]
			twice += micro(p.Across)*micro(q.Along) - micro(q.Across)*micro(p.Along)
		}
		return Area{Plain: 4 * max(twice, -twice)}
	}
	return Area{Plain: 8 * w * h}
}

// piScale and piScaled are π in whole numbers, to 18 decimals.
const (
	piScale  = 1_000_000_000_000_000_000
	piScaled = 3_141_592_653_589_793_238
)

// scaled is the area in eighths of a square micrometre, times piScale.
func (a Area) scaled() *big.Int {
	v := new(big.Int).Mul(big.NewInt(a.Plain), big.NewInt(piScale))
	return v.Add(v, new(big.Int).Mul(big.NewInt(a.Pi), big.NewInt(piScaled)))
}

// MM2 is the area in square millimetres, for people.
func (a Area) MM2() float64 {
	return (float64(a.Plain) + float64(float64(a.Pi)*math.Pi)) / 8e6
}

// arcSteps is into how many straight lines a quarter circle is drawn.
const arcSteps = 12

// Path is the outline in millimetres from the corner of its bounds, closed, for
// drawing and marking out; arcs are drawn as straight lines between points on them.
func (s Shape) Path() [][2]float64 {
	w, h := s.Across.MM(), s.Along.MM()
	e, f := s.EarAcross.MM(), s.EarAlong.MM()
	var p [][2]float64
	arc := func(cx, cy, r, from float64, quarters int) {
		for i := range quarters*arcSteps + 1 {
			sin, cos := math.Sincos(from + math.Pi/2*float64(i)/arcSteps)
			p = append(p, [2]float64{round6(cx + float64(r*cos)), round6(cy + float64(r*sin))})
		}
	}
	switch s.Form {
	case Trapezoid:
		b := s.Back.MM()
		m := max(w, b) / 2
		return [][2]float64{{m - b/2, 0}, {m + b/2, 0}, {m + w/2, h}, {m - w/2, h}}
	case TShape:
		l, r := 0.0, w
		if s.Ears != EarRight {
			l = e
		}
		if s.Ears != EarLeft {
			r = w - e
		}
		p = append(p, [2]float64{l, 0}, [2]float64{r, 0})
		if r < w {
			p = append(p, [2]float64{r, h - f}, [2]float64{w, h - f})
		}
		p = append(p, [2]float64{w, h}, [2]float64{0, h})
		if l > 0 {
			p = append(p, [2]float64{0, h - f}, [2]float64{l, h - f})
		}
		return p
	case LShape:
		return [][2]float64{{0, 0}, {w - e, 0}, {w - e, f}, {w, f}, {w, h}, {0, h}}
	case Rounded:
		r := s.Radius.MM()
		arc(r, r, r, math.Pi, 1)
		arc(w-r, r, r, 1.5*math.Pi, 1)
		arc(w-r, h-r, r, 0, 1)
		arc(r, h-r, r, math.Pi/2, 1)
		return p
	case Circle:
		arc(w/2, w/2, w/2, 0, 4)
		return p[:len(p)-1]
	case DShape:
		p = append(p, [2]float64{0, 0}, [2]float64{w, 0})
		arc(w/2, h-w/2, w/2, 0, 2)
		return p
	case Outline:
		lo, _ := corners(s.Points)
		for _, q := range s.Points {
			p = append(p, [2]float64{(q.Across - lo.Across).MM(), (q.Along - lo.Along).MM()})
		}
		return p
	}
	return [][2]float64{{0, 0}, {w, 0}, {w, h}, {0, h}}
}

// round6 keeps an arc's points to the nanometre, the same on every machine.
func round6(mm float64) float64 { return length.RoundMM(mm, length.Nanometre, length.Nearest).MM() }
