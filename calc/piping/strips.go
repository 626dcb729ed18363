package piping

import (
	"math"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// Cut is the way strips lie on the cloth.
type Cut uint8

// The ways.
const (
	Bias   Cut = iota // at an angle to the selvedge
	Across            // from selvedge to selvedge
	Along             // along the selvedge
)

// Lean says to which side a bias strip goes as it runs along the roll, the cloth
// face up. Straight strips lean to neither.
type Lean uint8

// The leans.
const (
	Upright Lean = iota
	ToRight
	ToLeft
)

// Rect is a rectangle of cloth with its sides on the threads. X and Y are where
// its corner nearest the beginning of the plan lies, at the left.
type Rect struct{ X, Y, Across, Along length.Length }

// Strip is one strip as it is cut.
type Strip struct {
	Rect    int // which rectangle it is cut from; -1 for new cloth
	Lean    Lean
	Long    length.Length // usable, between the slanted or square ends
	Corners [4]geom.Point // in order round it, the first two at its beginning
}

// Shape is how strips are cut.
type Shape struct {
	Cut   Cut
	Angle int           // of bias strips, in degrees from the selvedge
	Width length.Length // more than 0
	Least length.Length // shorter strips are waste
}

// slant says which way the ends of bias strips slope when the strip is looked at
// lengthwise, face up: all ends of one job slope alike.
type slant float64

const (
	rising  slant = 1
	falling slant = -1
)

// field is the strips that lie side by side in a rectangle, before one is chosen.
// With normal offset c of a strip's first edge its length is the least of a flat
// top and two lines, one that rises and one that falls with the slope g:
//
//	min(top, rise + g*c, fall - g*c),  g = tan(a) + cot(a)
type field struct {
	sin, cos, slope float64 // slope is that of the ends, in the mirrored rectangle
	width           float64
	top, rise, fall float64
	gradient        float64
	across, along   float64
	least           float64
	mirrored        bool
	at              Rect
}

// newField is the field of a rectangle. A strip that leans to the left is one
// that leans to the right in the mirrored rectangle, with the other slope.
func newField(r Rect, s Shape, lean Lean, ends slant) field {
	sin, cos := sinCos(s.Angle)
	f := field{sin: sin, cos: cos, slope: float64(ends), width: float64(s.Width), least: float64(s.Least),
		across: float64(r.Across), along: float64(r.Along), mirrored: lean == ToLeft, at: r}
	if f.mirrored {
		f.slope = -f.slope
	}
	cot, tan := cos/sin, sin/cos
	left, top := float64(f.width*(cot+f.slope)), float64(f.width*(tan-f.slope))
	f.gradient = tan + cot
	f.top = min(f.across/sin-math.Abs(left), f.along/cos-math.Abs(top))
	f.rise = f.along/cos + min(0, top) - max(0, -left)
	f.fall = f.across/sin + min(0, -left) - max(0, top)
	return f
}

func (f *field) long(c float64) float64 {
	g := float64(f.gradient * c)
	return min(f.top, f.rise+g, f.fall-g)
}

// offsets are where the strips lie whose lengths add up to most. The sum is a
// line in the offset of the first strip between the places where one of its
// strips comes to a corner of the lengths' graph, so it is greatest at one of these.
func (f *field) offsets() (first float64, n int) {
	if f.top < f.least || f.top <= 0 {
		return 0, 0
	}
	lo, hi := (f.least-f.rise)/f.gradient, (f.fall-f.least)/f.gradient
	if hi < lo {
		return 0, 0
	}
	best := -1.0
	for _, at := range [4]float64{lo, (f.top - f.rise) / f.gradient, (f.fall - f.top) / f.gradient, hi} {
		from := at - float64(math.Floor((at-lo+slack)/f.width)*f.width)
		count := int(math.Floor((hi-from+slack)/f.width)) + 1
		sum := 0.0
		for k := range count {
			sum += float64(down(f.long(from + float64(float64(k)*f.width))))
		}
		if sum > best {
			first, n, best = from, count, sum
		}
	}
	return first, n
}

// strip is the strip at an offset, of that length.
func (f *field) strip(c float64, long length.Length, lean Lean) Strip {
	cot, tan := f.cos/f.sin, f.sin/f.cos
	begin := max(-float64(c*cot)+max(0, -float64(f.width*(cot+f.slope))), float64(c*tan)+max(0, float64(f.width*(tan-f.slope))))
	s := Strip{Lean: lean, Long: long}
	end := begin + float64(s.Long)
	far := float64(f.slope * f.width)
	s.Corners = [4]geom.Point{f.point(c, begin), f.point(c+f.width, begin+far), f.point(c+f.width, end+far), f.point(c, end)}
	return s
}

// point is the place at an offset across the strips and a way along them.
func (f *field) point(t, u float64) geom.Point {
	x := float64(t*f.cos) + float64(u*f.sin)
	y := float64(u*f.cos) - float64(t*f.sin)
	p := geom.Point{Across: length.RoundNM(x, length.Nanometre, length.Nearest), Along: length.RoundNM(y, length.Nanometre, length.Nearest)}
	p.Across, p.Along = min(max(p.Across, 0), f.at.Across), min(max(p.Along, 0), f.at.Along)
	if f.mirrored {
		p.Across = f.at.Across - p.Across
	}
	return geom.Point{Across: p.Across + f.at.X, Along: p.Along + f.at.Y}
}

// biasStrips are the strips of a rectangle that lean one way.
func biasStrips(r Rect, s Shape, lean Lean, ends slant) []Strip {
	f := newField(r, s, lean, ends)
	first, n := f.offsets()
	out := make([]Strip, n)
	for k := range out {
		c := first + float64(float64(k)*f.width)
		out[k] = f.strip(c, down(f.long(c)), lean)
	}
	return out
}

// straightStrips are those that lie along or across a rectangle.
func straightStrips(r Rect, s Shape) []Strip {
	long, far := r.Along, r.Across
	if s.Cut == Across {
		long, far = far, long
	}
	if long < s.Least || long <= 0 {
		return nil
	}
	place := func(beside, on length.Length) geom.Point {
		if s.Cut == Across {
			beside, on = on, beside
		}
		return geom.Point{Across: r.X + beside, Along: r.Y + on}
	}
	out := make([]Strip, far/s.Width)
	for k := range out {
		at := length.Length(k) * s.Width
		out[k] = Strip{Long: long, Corners: [4]geom.Point{
			place(at, 0), place(at+s.Width, 0), place(at+s.Width, long), place(at, long),
		}}
	}
	return out
}

// InRect are the strips side by side in a rectangle whose lengths add up to
// most: how many there are, how long each is and where it lies. Bias strips lean
// as told; of the two slopes that their ends can have, the better is taken. The
// rectangle and the shape must have no faults.
func InRect(r Rect, s Shape, lean Lean) []Strip {
	if s.Cut != Bias {
		return straightStrips(r, s)
	}
	a, b := biasStrips(r, s, lean, rising), biasStrips(r, s, lean, falling)
	if total(b) > total(a) {
		return b
	}
	return a
}

func total(strips []Strip) (sum length.Length) {
	for _, s := range strips {
		sum += s.Long
	}
	return sum
}

// MostIn is a bound on how many strips lie in a rectangle.
func (s Shape) MostIn(r Rect) length.Length {
	switch s.Cut {
	case Across:
		return r.Along / s.Width
	case Along:
		return r.Across / s.Width
	}
	return (r.Across+r.Along)/s.Width + 1
}
