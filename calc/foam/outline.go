package foam

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
)

// grownPoints moves every edge of a polygon outwards by d; corners stay sharp and
// are rounded to the micrometre.
func grownPoints(pts []Point, d length.Length) []Point {
	n := len(pts)
	if n < 3 || d == 0 {
		return pts
	}
	twice := 0.0
	for i, p := range pts {
		q := pts[(i+1)%n]
		twice += float64(p.X.MM()*q.Y.MM()) - float64(q.X.MM()*p.Y.MM())
	}
	side := d.MM()
	if twice < 0 {
		side = -side
	}
	out := make([]Point, n)
	for i, p := range pts {
		ax, ay := unit(pts[(i+n-1)%n], p)
		bx, by := unit(p, pts[(i+1)%n])
		// The corner lies at the meeting of both moved edges: along the sum of
		// the normals, over one plus the cosine between them.
		cos := float64(ax*bx) + float64(ay*by)
		t := side / (1 + cos)
		out[i] = Point{p.X + micros(float64(t*(ay+by))), p.Y + micros(float64(-t*(ax+bx)))}
	}
	return out
}

func unit(a, b Point) (x, y float64) {
	dx, dy := (b.X - a.X).MM(), (b.Y - a.Y).MM()
	l := math.Hypot(dx, dy)
	return dx / l, dy / l
}

func micros(mm float64) length.Length {
	return length.Length(math.Round(mm*1000)) * length.Micrometre
}

// sound reports whether the polygon has no edge without a length, no corner
// sharper than about 20°, and no two edges that touch but neighbours.
func soundOutline(pts []Point) bool {
	n := len(pts)
	for i, p := range pts {
		q, r := pts[(i+1)%n], pts[(i+2)%n]
		if p == q {
			return false
		}
		ax, ay := unit(p, q)
		bx, by := unit(q, r)
		if q == r || float64(ax*bx)+float64(ay*by) < -0.94 {
			return false
		}
		for j := i + 2; j < n; j++ {
			if (j+1)%n != i && meet(p, q, pts[j], pts[(j+1)%n]) {
				return false
			}
		}
	}
	return true
}

// meet reports whether two edges touch.
func meet(a, b, c, d Point) bool {
	s1, s2, s3, s4 := turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)
	if s1 != s2 && s3 != s4 {
		return true
	}
	on := func(s int, p, q, r Point) bool {
		return s == 0 && min(p.X, q.X) <= r.X && r.X <= max(p.X, q.X) && min(p.Y, q.Y) <= r.Y && r.Y <= max(p.Y, q.Y)
	}
	return on(s1, a, b, c) || on(s2, a, b, d) || on(s3, c, d, a) || on(s4, c, d, b)
}

// turn is on which side of the line from a to b the point c lies: exact, in
// micrometres.
func turn(a, b, c Point) int {
	v := (micro(b.X)-micro(a.X))*(micro(c.Y)-micro(a.Y)) - (micro(b.Y)-micro(a.Y))*(micro(c.X)-micro(a.X))
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}
