package drawing

import (
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// Picture is a drawing in millimetres of the thing drawn, y downwards.
type Picture struct {
	Title, Desc   string
	Units         length.System // that it is lettered in
	Width, Height float64
	Scale         float64 // drawn at 1:Scale where it is printed; 0 means 1
	Classes       []Style
	Items         []Shape

	Whole  []Span  // parts that a page does not end in, where they fit on one
	Strips []Strip // the lengths of cloth on it, which a page may end in

	Closing Closing // the line that it ends with
}

// Closing is the last line of a picture, whose letters begin at that height.
// Printed, it goes to the foot of a page rather than have a page to itself.
type Closing struct {
	From float64
	Text string // "" for none
}

// Span is a part of a picture from one height to another.
type Span struct{ From, To float64 }

// Strip is a length of cloth on a picture. Printed, one that is longer than a
// page is broken over several that overlap, behind a key to them.
type Strip struct {
	Name         string // where there are several
	X, Y, W, H   float64
	Above, Below float64 // that its ruler and its letters take
	Parts        []Part
}

// Part is a rectangle of a strip, from the strip's corner: what is cut there.
type Part struct {
	Mark, Name string // in short, and in full
	X, Y, W, H float64
}

// Class is an index in Picture.Classes.
type Class int

// Style is how the shapes of one class are drawn. The fields that a shape has
// no use for are ignored.
type Style struct {
	Stroke  Ink
	Width   float64 // of the stroke
	Dash    []float64
	Fill    Ink
	Opacity float64 // of the fill; 0 means opaque
	Bold    bool    // of text
	Halo    float64 // white rim around text
}

// Ink is a colour, or nothing when zero. Make one with RGB.
type Ink uint32

const inkSet = 1 << 24

// RGB is the ink of that colour, 0xRRGGBB.
func RGB(hex uint32) Ink { return Ink(hex&0xffffff | inkSet) }

// Pt is a point.
type Pt struct{ X, Y float64 }

// ptOf is a place in millimetres.
func ptOf(p geom.Point) Pt { return Pt{p.Across.MM(), p.Along.MM()} }

// Shape is one of Rect, Line, Path, Circle, Text, Hatch and Group.
type Shape interface{ shape() }

// Rect is a rectangle.
type Rect struct {
	X, Y, W, H float64
	Class      Class
}

// Line is a straight line.
type Line struct {
	A, B  Pt
	Class Class
}

// Circle is a circle.
type Circle struct {
	C     Pt
	R     float64
	Class Class
}

// Path is any number of polylines that are drawn as one shape.
type Path struct {
	Lines []Polyline
	Class Class
}

// Polyline is a run of straight lines.
type Polyline struct {
	Pts    []Pt
	Closed bool
}

// Hatch fills a rectangle with parallel lines at 45 degrees.
type Hatch struct {
	X, Y, W, H float64
	Gap        float64 // between the lines, measured along an edge
	Class      Class
}

// Anchor says which place of a text lies at its point.
type Anchor int

// The anchors; the zero value is AtStart.
const (
	AtStart Anchor = iota
	AtMiddle
	AtEnd
)

// Text is one line of text. At is on its base line.
type Text struct {
	At     Pt
	S      string
	Size   float64
	Anchor Anchor
	Turn   int // degrees clockwise about At
	Class  Class
}

// Group moves its items by Dx, Dy and may name them for people who point at
// them or have them read aloud.
type Group struct {
	Title  string
	Dx, Dy float64
	Items  []Shape
}

func (Rect) shape()   {}
func (Line) shape()   {}
func (Circle) shape() {}
func (Path) shape()   {}
func (Hatch) shape()  {}
func (Text) shape()   {}
func (Group) shape()  {}

// maxHatch bounds the lines of one Hatch; beyond it the gap grows.
const maxHatch = 80

// Lines are the strokes that fill the hatch, from the top left corner on.
func (h Hatch) Lines() []Polyline {
	span := h.W + h.H
	if !(h.W > 0 && h.H > 0) || h.Gap <= 0 {
		return nil
	}
	gap := max(h.Gap, span/maxHatch)
	var lines []Polyline
	for n := 1; float64(n)*gap < span; n++ {
		d := float64(n) * gap
		a := Pt{h.X + min(d, h.W), h.Y + max(0, d-h.W)}
		b := Pt{h.X + max(0, d-h.H), h.Y + min(d, h.H)}
		lines = append(lines, Polyline{Pts: []Pt{a, b}})
	}
	return lines
}
