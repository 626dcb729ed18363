package drawing

import "math"

// glyphs are the marks by which kinds of motif are told apart: by shape, so
// that they can be in grey print as well. Sixteen kinds can be on one cloth:
// the second eight are the first eight with a bar beneath.
const glyphs = 8

// glyph is the mark of a kind about c, r from the centre to its tips.
func glyph(kind int, c Pt, r float64) []Polyline {
	var lines []Polyline
	switch kind % glyphs {
	case 0:
		lines = []Polyline{ring(c, r, 4, 0)} // diamond
	case 1:
		lines = []Polyline{ring(c, r, 3, 0)} // triangle
	case 2:
		lines = []Polyline{ring(c, r, 4, math.Pi/4)} // square
	case 3:
		lines = strokes(c, r, 0, 2) // upright cross
	case 4:
		lines = strokes(c, r, math.Pi/4, 2) // slanting cross
	case 5:
		lines = []Polyline{ring(c, r, 3, math.Pi)} // triangle upside down
	case 6:
		lines = []Polyline{ring(c, r, 12, 0)} // round
	default:
		lines = strokes(c, r, 0, 3) // star
	}
	if kind/glyphs%2 == 1 {
		y := c.Y + r*1.3
		lines = append(lines, Polyline{Pts: []Pt{{c.X - r, y}, {c.X + r, y}}})
	}
	return lines
}

// ring is a regular polygon of n corners, the first at the top, turned by a.
func ring(c Pt, r float64, n int, a float64) Polyline {
	pts := make([]Pt, n)
	for i := range pts {
		sin, cos := math.Sincos(a + 2*math.Pi*float64(i)/float64(n))
		pts[i] = Pt{c.X + r*sin, c.Y - r*cos}
	}
	return Polyline{Pts: pts, Closed: true}
}

// strokes are n lines through c.
func strokes(c Pt, r, a float64, n int) []Polyline {
	lines := make([]Polyline, n)
	for i := range lines {
		sin, cos := math.Sincos(a + math.Pi*float64(i)/float64(n))
		lines[i].Pts = []Pt{{c.X + r*sin, c.Y - r*cos}, {c.X - r*sin, c.Y + r*cos}}
	}
	return lines
}

// arrow points from the middle of its length towards a panel's top: up for
// dir 0, then clockwise by quarters.
func arrow(c Pt, size float64, dir int) []Polyline {
	turn := func(x, y float64) Pt {
		for range dir % 4 {
			x, y = -y, x
		}
		return Pt{c.X + x*size, c.Y + y*size}
	}
	return []Polyline{
		{Pts: []Pt{turn(0, 0.5), turn(0, -0.4)}},
		{Pts: []Pt{turn(-0.2, -0.2), turn(0, -0.5), turn(0.2, -0.2)}},
	}
}
