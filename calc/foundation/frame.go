// Package foundation works out what lies under the stuffing: webbing, springs
// and their lashing, hessian, scrim, calico and bottoming cloth, twine, stuffing
// by mass, tacks or staples, gimp pins and gimp.
//
// A [Frame] is seen from above (a back or an arm: from its outside, its bottom
// rail as the front), x to the right from the left of the rectangle around it, y
// from the back rail to the front. Lengths are exact, or rounded up to the
// micrometre where a root or a circle comes in; counts are rounded up once.
// Every constant is a setting of [Book].
package foundation

import (
	"math"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// Part is what the frame is of.
type Part int

// The parts; the zero value is Seat.
const (
	Seat Part = iota
	Back
	Arm
)

// String is the name that the settings of the part have in theirs.
func (p Part) String() string { return [...]string{"seat", "back", "arm"}[p] }

// Shape is the outline of a frame.
type Shape int

// The shapes; the zero value is Rectangle. A DShape is straight at the back and
// at the sides, and half round at the front.
const (
	Rectangle Shape = iota
	Trapezoid
	DShape
	Circle
)

// Build is how the frame is built up.
type Build int

// The builds; the zero value is Traditional: woven webs both ways, springs,
// stuffing and a stitched edge. Modern is elastic webs one way, for foam.
const (
	Traditional Build = iota
	Modern
)

// Fixing is what holds the cloths.
type Fixing int

// The fixings; the zero value is Tacks.
const (
	Tacks Fixing = iota
	Staples
)

// Place is what kind of seat the frame is for: it decides whether it is sprung,
// and with which springs.
type Place int

// The places; the zero value is EasyChair.
const (
	EasyChair Place = iota
	SmallChair
	DropIn
	Divan
)

// The limits of what is believed of a frame.
const (
	MinSize  = 10 * length.Centimetre
	MaxSize  = 4 * length.Metre
	MaxCount = 50                   // of one frame
	MaxWebs  = 40                   // each way
	MaxRows  = 12                   // of springs, and springs in a row
	MaxEdge  = practice.MaxEdgeRows // rows of stitches
)

// Frame is one frame, measured outside over the rails.
type Frame struct {
	ID, Name string
	Part     Part
	Place    Place
	Count    int // >= 1
	Shape    Shape
	Front    length.Length // width at the front; the diameter of a circle
	Back     length.Length // width at the back of a trapezoid
	Depth    length.Length // front to back, or bottom to top; of no use for a circle
	Rail     length.Length // height of the rail; 0 when not given

	WebsAcross, WebsAlong int   // 0: by the gap
	UnderSprings          bool  // webs lie under the springs, not evenly
	Springs               []int // in each row from the back; nil: by the size
	Sprung                Sprung
	EdgeRows              int // of stitches round the edge; -1: as the setting says
	ShowWood              bool
}

// Sprung says whether there are springs.
type Sprung int

// The zero value leaves it to the place.
const (
	ByPlace Sprung = iota
	Yes
	No
)

// depth is the extent from back to front.
func (f Frame) depth() length.Length {
	if f.Shape == Circle {
		return f.Front
	}
	return f.Depth
}

// around is the rectangle around the frame.
func (f Frame) around() (across, along length.Length) {
	return max(f.Front, f.backWidth()), f.depth()
}

func (f Frame) backWidth() length.Length {
	switch f.Shape {
	case Trapezoid:
		return f.Back
	case Circle:
		return 0
	}
	return f.Front
}

// isSprung reports whether the frame is to have springs.
func (f Frame) isSprung(b Build) bool {
	switch {
	case b == Modern || f.Sprung == No:
		return false
	case f.Sprung == Yes:
		return true
	}
	switch f.Place {
	case DropIn:
		return false
	case SmallChair, Divan:
		return f.Part == Seat
	}
	return f.Part != Arm
}

// up is a figure in millimetres as a length, rounded up to the micrometre.
func up(mm float64) length.Length { return length.RoundMM(mm, length.Micrometre, length.Up) }

// widthAt is how wide the frame is at y from the back, in millimetres.
func (f Frame) widthAt(y float64) float64 {
	front := f.Front.MM()
	switch f.Shape {
	case Trapezoid:
		back := f.Back.MM()
		return back + float64((front-back)*y)/f.Depth.MM()
	case DShape:
		r := front / 2
		return chord(r, max(y-(f.Depth.MM()-r), 0))
	case Circle:
		return chord(front/2, y-front/2)
	}
	return front
}

// chord is the chord of a circle at a distance from its middle.
func chord(r, off float64) float64 {
	return 2 * math.Sqrt(max(float64(r*r)-float64(off*off), 0))
}

// spanAt is from where to where the frame reaches at x, counted from its middle,
// for frames whose webs front to back do not fan.
func (f Frame) spanAt(x float64) (from, to float64) {
	r := f.Front.MM() / 2
	switch f.Shape {
	case DShape:
		return 0, f.Depth.MM() - r + chord(r, x)/2
	case Circle:
		half := chord(r, x) / 2
		return r - half, r + half
	}
	return 0, f.Depth.MM()
}

// slant is the length of a side rail of a trapezoid.
func (f Frame) slant() float64 {
	d, off := f.Depth.MM(), (f.Front-f.Back).MM()/2
	return geom.Hypot(d, off)
}

// Perimeter is the length of the outline, rounded up to the micrometre where it
// is no whole number.
//
//	rectangle  2 (front + depth)
//	trapezoid  front + back + 2 √(depth² + ((front − back) / 2)²)
//	D          front + 2 (depth − r) + π r, r = front / 2
//	circle     π front
func (f Frame) Perimeter() length.Length {
	front := f.Front.MM()
	switch f.Shape {
	case Trapezoid:
		return up(front + f.Back.MM() + 2*f.slant())
	case DShape:
		return up(2*f.Depth.MM() + float64(math.Pi*front/2))
	case Circle:
		return up(math.Pi * front)
	}
	return 2 * (f.Front + f.Depth)
}

// Area is the area within the outline, in square millimetres.
func (f Frame) Area() float64 {
	front, depth := f.Front.MM(), f.Depth.MM()
	switch f.Shape {
	case Trapezoid:
		return (front + f.Back.MM()) / 2 * depth
	case DShape:
		r := front / 2
		return float64(front*(depth-r)) + float64(math.Pi*r*r/2)
	case Circle:
		return float64(math.Pi * front * front / 4)
	}
	return front * depth
}

// corners are the places where gimp is mitred.
func (f Frame) corners() int64 {
	switch f.Shape {
	case DShape:
		return 2
	case Circle:
		return 0
	}
	return 4
}

// showWood is the run along which gimp covers the edge.
func (f Frame) showWood() length.Length {
	if !f.ShowWood {
		return 0
	}
	return f.Perimeter()
}
