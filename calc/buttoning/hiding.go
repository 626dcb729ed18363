package buttoning

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// hiding knows which points of the cloth are hidden. It works in micrometres,
// on the right half of the work: the left half is its mirror image.
type hiding struct {
	w    Work
	half panel.Size    // to the finished edge at the side and at the bottom
	top  length.Length // to the finished edge at the top

	a, b         float64 // half of a diamond's width and height
	endX, endY   float64 // the field ends here
	outX         float64 // the finished edges
	outTop, outY float64
	pleat        float64 // half of what a diagonal pleat takes up
	acrossEdge   float64 // half of what the pleats at the top and the bottom take up
	alongEdge    float64
	button       float64 // radius
}

func (w Work) hiding(c Cover) hiding {
	um := func(l length.Length) float64 { return float64(l) / float64(length.Micrometre) }
	f := w.fieldCloth()
	h := hiding{w: w, half: w.half(), top: f.Along/2 + w.Runs.Top}
	h.a, h.b = um(w.Cloth.Across)/2, um(w.Cloth.Along)/2
	h.endX, h.endY = um(f.Across)/2, um(f.Along)/2
	h.outX, h.outTop, h.outY = um(h.half.Across), um(h.top), um(h.half.Along)
	for _, p := range w.Pleats() {
		switch p.Kind {
		case Diagonal:
			h.pleat = um(p.TakeUp) / 2
		case ToTop, ToBottom:
			h.acrossEdge = um(p.TakeUp) / 2
		case ToTheSides:
			h.alongEdge = um(p.TakeUp) / 2
		}
	}
	h.button = um(c.Button)
	return h
}

// at reports whether a point is hidden.
func (h *hiding) at(x, y float64) bool {
	x = math.Abs(x)
	if x > h.outX || y < -h.outTop || y > h.outY {
		return true
	}
	return h.underButton(x, y) || h.inPleat(x, y)
}

// row is the row at or above y, as a fraction of rows from the first.
func (h *hiding) row(y float64) float64 { return (y + h.endY) / h.b }

// isButton reports whether a button stands at place k of a row.
func (h *hiding) isButton(k, r int) bool {
	if r < 0 || r >= h.w.Rows {
		return false
	}
	n := h.w.InRow(r) - 1
	return k >= -n && k <= n && (k+n)%2 == 0
}

// underButton looks at the buttons around a point.
func (h *hiding) underButton(x, y float64) bool {
	if h.button <= 0 {
		return false
	}
	reachK, reachR := int(math.Ceil(h.button/h.a)), int(math.Ceil(h.button/h.b))
	k0, r0 := int(math.Round(x/h.a)), int(math.Round(h.row(y)))
	for r := r0 - reachR; r <= r0+reachR; r++ {
		for k := k0 - reachK; k <= k0+reachK; k++ {
			if h.isButton(k, r) {
				dx, dy := x-float64(float64(k)*h.a), y-float64(float64(r)*h.b)+h.endY
				if float64(dx*dx)+float64(dy*dy) <= float64(h.button*h.button) {
					return true
				}
			}
		}
	}
	return false
}

// inPleat looks at the pleats of the half diamond that a point lies in and of
// those beside it, and at those to the edges.
func (h *hiding) inPleat(x, y float64) bool {
	if y < -h.endY || y > h.endY {
		r, run := 0, h.w.Runs.Top
		if y > 0 {
			r, run = h.w.Rows-1, h.w.Runs.Bottom
		}
		n := float64(h.w.InRow(r) - 1)
		k := math.Round((x/h.a+n)/2)*2 - n
		return run > 0 && k <= n && h.acrossEdge > 0 && math.Abs(x-float64(k*h.a)) <= h.acrossEdge
	}
	if x > h.endX {
		r := int(math.Round(h.row(y)))
		for _, q := range []int{r - 1, r, r + 1} {
			if h.isButton(h.w.last(), q) && h.alongEdge > 0 && math.Abs(y-float64(float64(q)*h.b)+h.endY) <= h.alongEdge {
				return true
			}
		}
		return false
	}
	k0, r0 := int(math.Floor(x/h.a)), int(math.Floor(h.row(y)))
	for r := r0 - 1; r <= r0+1; r++ {
		for k := k0 - 1; k <= k0+1; k++ {
			if h.pleat > 0 && h.besideDiagonal(x, y, k, r) {
				return true
			}
		}
	}
	return false
}

// besideDiagonal reports whether a point lies beside the pleat of the half
// diamond from place k and row r on, near enough to be folded into it.
func (h *hiding) besideDiagonal(x, y float64, k, r int) bool {
	fromK, toK := k, k+1
	if !h.isButton(k, r) {
		fromK, toK = k+1, k
	}
	if !h.isButton(fromK, r) || !h.isButton(toK, r+1) {
		return false
	}
	px, py := x-float64(float64(fromK)*h.a), y-float64(float64(r)*h.b)+h.endY
	ux, uy := float64(toK-fromK)*h.a, h.b
	long := float64(ux*ux) + float64(uy*uy)
	foot := float64(px*ux) + float64(py*uy)
	aside := float64(px*uy) - float64(py*ux)
	return foot >= 0 && foot <= long && float64(aside*aside) <= float64(float64(h.pleat*h.pleat)*long)
}

// The nets of points on a motif and along a stripe.
const (
	netPoints    = 15
	stripePoints = 60
)

// share is how much of a motif is hidden, in 100.
func (h *hiding) share(at Place, size panel.Size, wholeAcross, wholeAlong bool) int {
	x, y := float64(at.X)/1000, float64(at.Y)/1000
	across, along := float64(size.Across)/1000, float64(size.Along)/1000
	nx, ny := netPoints, netPoints
	if wholeAcross {
		x, across, nx = 0, 2*h.outX, stripePoints
	}
	if wholeAlong {
		y, along, ny = (h.outY-h.outTop)/2, h.outY+h.outTop, stripePoints
	}
	hidden, points := 0, 0
	for i := range nx {
		dx := float64(across * (float64(2*i+1-nx) / float64(2*nx)))
		for j := range ny {
			if u, v := 2*i+1-nx, 2*j+1-ny; !wholeAcross && !wholeAlong && u*u+v*v > nx*ny {
				continue // outside the oval
			}
			points++
			dy := float64(along * (float64(2*j+1-ny) / float64(2*ny)))
			if h.at(x+dx, y+dy) {
				hidden++
			}
		}
	}
	return (200*hidden + points) / (2 * points)
}
