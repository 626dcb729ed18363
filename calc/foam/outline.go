package foam

import (
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// grownPoints moves every edge of a polygon outwards by d; corners stay sharp and
// are rounded to the micrometre.
func grownPoints(pts []geom.Point, d length.Length) []geom.Point {
	n := len(pts)
	if n < 3 || d == 0 {
		return pts
	}
	twice := 0.0
	for i, p := range pts {
		q := pts[(i+1)%n]
		twice += float64(p.Across.MM()*q.Along.MM()) - float64(q.Across.MM()*p.Along.MM())
	}
	side := d.MM()
	if twice < 0 {
		side = -side
	}
	out := make([]geom.Point, n)
	for i, p := range pts {
		ax, ay := unit(pts[(i+n-1)%n], p)
		bx, by := unit(p, pts[(i+1)%n])
		// The corner lies at the meeting of both moved edges: along the sum of
		// the normals, over one plus the cosine between them.
		cos := float64(ax*bx) + float64(ay*by)
		t := side / (1 + cos)
		out[i] = geom.Point{
			Across: p.Across + length.RoundMM(t*(ay+by), length.Micrometre, length.Nearest),
			Along:  p.Along + length.RoundMM(-t*(ax+bx), length.Micrometre, length.Nearest),
		}
	}
	return out
}

func unit(a, b geom.Point) (x, y float64) {
	dx, dy := (b.Across - a.Across).MM(), (b.Along - a.Along).MM()
	l := geom.Hypot(dx, dy)
	return dx / l, dy / l
}

// soundOutline reports whether the polygon has no edge without a length, no corner
// sharper than about 20°, and no two edges that touch but neighbours.
func soundOutline(pts []geom.Point) bool {
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
			if (j+1)%n != i && geom.Meet(p, q, pts[j], pts[(j+1)%n]) {
				return false
			}
		}
	}
	return true
}
