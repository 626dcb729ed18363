package relief_test

import (
	"fmt"
	"math"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/relief"
)

// The checker below knows nothing of how cuts are found. It lays the obstacle
// out as a polygon on the finished panel, pulls every cut over a grid of the
// range and looks, in small steps along each line, whether what was cut shows.

type pt struct{ x, y float64 }

// opening is what does not show, as a polygon from the top left corner of the
// finished panel, carried on far past the edge at which the obstacle stands.
func opening(j relief.Job, o relief.Obstacle) []pt {
	w, h := j.Size.Across.MM(), j.Size.Along.MM()
	const far = 5000
	r, deep := o.Width.MM()/2, o.Deep.MM()
	arc := func(cx, cy, from, to float64) []pt {
		var out []pt
		for i := 0; i <= 720; i++ {
			a := from + (to-from)*float64(i)/720
			out = append(out, pt{cx + r*math.Cos(a), cy + r*math.Sin(a)})
		}
		return out
	}
	var top []pt // as if it stood at the top edge or in the top left corner
	depth := h
	if o.Corner == relief.NoCorner && (o.Edge == relief.LeftEdge || o.Edge == relief.RightEdge) {
		depth = w
	}
	at := o.At.MM()
	switch {
	case o.Corner != relief.NoCorner && o.Round:
		top = append([]pt{{-far, -far}, {deep, -far}}, arc(deep-r, deep-r, 0, math.Pi/2)...)
		top = append(top, pt{-far, deep})
	case o.Corner != relief.NoCorner:
		top = []pt{{-far, -far}, {2 * r, -far}, {2 * r, deep}, {-far, deep}}
	case o.Round:
		top = append([]pt{{at - r, -far}, {at + r, -far}}, arc(at, deep-r, 0, math.Pi)...)
	default:
		s := math.Tan(float64(o.Lean)*math.Pi/180) * (far + deep)
		top = []pt{{at - r + s, -far}, {at + r + s, -far}, {at + r, deep}, {at - r, deep}}
	}
	out := make([]pt, len(top))
	for i, p := range top {
		switch {
		case o.Corner == relief.TopRight:
			p.x = w - p.x
		case o.Corner == relief.BottomLeft:
			p.y = h - p.y
		case o.Corner == relief.BottomRight:
			p = pt{w - p.x, h - p.y}
		case o.Corner != relief.NoCorner:
		case o.Edge == relief.BottomEdge:
			p.y = depth - p.y
		case o.Edge == relief.LeftEdge:
			p = pt{p.y, p.x}
		case o.Edge == relief.RightEdge:
			p = pt{depth - p.y, p.x}
		}
		out[i] = p
	}
	return out
}

// within is by the ray that goes right from p.
func within(poly []pt, p pt) bool {
	in := false
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(b.x-a.x)*(p.y-a.y)/(b.y-a.y) {
			in = !in
		}
	}
	return in
}

// off is how far p is from the border of a polygon.
func off(poly []pt, p pt) float64 {
	best := math.Inf(1)
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		dx, dy := b.x-a.x, b.y-a.y
		t := 0.0
		if d := dx*dx + dy*dy; d > 0 {
			t = max(0, min(1, ((p.x-a.x)*dx+(p.y-a.y)*dy)/d))
		}
		best = min(best, math.Hypot(p.x-a.x-t*dx, p.y-a.y-t*dy))
	}
	return best
}

// shownAt is how far a place of the pulled cloth is from what shows; negative
// where it shows itself.
func shownAt(j relief.Job, o relief.Obstacle, poly []pt, p pt) float64 {
	w, h := j.Size.Across.MM(), j.Size.Along.MM()
	out := max(-p.x, p.x-w, -p.y, p.y-h) // past the finished edge
	if under := o.Deep == 0 && !o.Round || o.Corner != relief.NoCorner && o.What == relief.Leg && !o.Round; under {
		return out
	}
	d := off(poly, p)
	switch {
	case within(poly, p):
		return max(d, out)
	case out > 0:
		return out // in the allowance nothing shows
	}
	return -d
}

// pulls are the factors that are tried.
func pulls(j relief.Job) []float64 {
	lo, hi := 1+float64(j.Least)/1e6, 1+float64(j.Most)/1e6
	return []float64{lo, lo + (hi-lo)*0.23, (lo + hi) / 2, lo + (hi-lo)*0.81, hi}
}

// pulled is where a place of the slack cloth comes to lie on the finished panel.
func pulled(j relief.Job, x, y, fx, fy float64) pt {
	w, h := j.Size.Across.MM()/2, j.Size.Along.MM()/2
	return pt{w + (x-j.Allow.Left.MM()-w)*fx, h + (y-j.Allow.Top.MM()-h)*fy}
}

// wrongWith is everything wrong with a cut that says the show side stays whole.
func wrongWith(j relief.Job, o relief.Obstacle, c relief.Cut) []string {
	const tiny = 1e-3 // a polygon of 720 sides lies inside its round by less than its sagitta at 1 m
	var out []string
	poly := opening(j, o)
	for n, line := range c.Lines {
		for i := 1; i < len(line); i++ {
			a, b := line[i-1], line[i]
			for s := 0; s <= 40; s++ {
				t := float64(s) / 40
				x := a.Across.MM() + t*(b.Across-a.Across).MM()
				y := a.Along.MM() + t*(b.Along-a.Along).MM()
				for _, fx := range pulls(j) {
					for _, fy := range pulls(j) {
						if d := shownAt(j, o, poly, pulled(j, x, y, fx, fy)); d < min(o.Covered.MM(), kept(j, pulled(j, x, y, fx, fy)))-tiny {
							return append(out, fmt.Sprintf("line %d at %.3f, %.3f pulled by %.4f, %.4f is %.4f mm from what shows", n, x, y, fx, fy, d))
						}
					}
				}
			}
		}
	}
	for n, s := range c.Stops {
		least := math.Inf(1)
		for _, fx := range pulls(j) {
			for _, fy := range pulls(j) {
				least = min(least, shownAt(j, o, poly, pulled(j, s.At.Across.MM(), s.At.Along.MM(), fx, fy)))
			}
		}
		if m := s.Margin.MM(); m > least-o.Covered.MM()+tiny {
			out = append(out, fmt.Sprintf("stop %d says %.3f mm, kept are %.4f", n, m, least-o.Covered.MM()))
		}
	}
	cutW, cutH := j.Size.Across+j.Allow.Left+j.Allow.Right, j.Size.Along+j.Allow.Top+j.Allow.Bottom
	for _, line := range c.Lines {
		for _, p := range line {
			if p.Across < -2 || p.Along < -2 || p.Across > cutW+2 || p.Along > cutH+2 {
				out = append(out, fmt.Sprintf("%v lies off the cloth", p))
			}
		}
		if first := line[0]; !onBorder(first, cutW, cutH) && !startsAtBend(c, first) {
			out = append(out, fmt.Sprintf("a line begins at %v inside the cloth", first))
		}
	}
	return out
}

// kept bounds what must be kept at a place: in the allowance, where the cut runs
// in from the edge, nothing but that it does not show.
func kept(j relief.Job, p pt) float64 {
	w, h := j.Size.Across.MM(), j.Size.Along.MM()
	if max(-p.x, p.x-w, -p.y, p.y-h) > 0 {
		return 0
	}
	return math.Inf(1)
}

func onBorder(p panel.Point, w, h length.Length) bool {
	near := func(a, b length.Length) bool { return a-b <= 2 && b-a <= 2 }
	return near(p.Across, 0) || near(p.Along, 0) || near(p.Across, w) || near(p.Along, h)
}

func startsAtBend(c relief.Cut, p panel.Point) bool {
	for _, line := range c.Lines {
		for _, q := range line[1:] {
			if p == q {
				return true
			}
		}
	}
	return false
}
