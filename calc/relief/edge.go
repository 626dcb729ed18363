package relief

import (
	"math"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/panel"
)

// squareEdge passes a square obstacle at an edge: a Y whose arms go to the inner
// corners, a V where the arms begin at the edge, one straight cut at a thin rail,
// all along the obstacle's lean.
func (f *field) squareEdge() (Cut, bool) {
	wander := f.deltaU + float64(f.deltaV*math.Abs(f.tan)) + slack
	half := f.width/2 - f.covered/f.cos - wander
	if half < 0 {
		return Cut{Kind: None, NarrowTo: -1}, false
	}
	arm := f.width/2 - f.keep/f.cos - wander
	stopV := (f.faceV + f.keep + slack) / f.lo
	wants := max(stopV+f.leastCut, f.faceV/f.lo+f.need)
	if arm >= f.leastArm {
		wants = max(stopV+arm/f.mid, wants)
	}
	c := Cut{Kind: None, Allowance: asks(wants, f.edgeV, f.halfV), NarrowTo: -1}
	if stopV+f.leastCut > f.edgeV+2*hair {
		return c, true
	}
	c.Whole = true
	on := func(v, off float64) at { // off the axis, at the middle pull
		return at{(f.axis + float64((float64(v*f.mid)-f.faceV)*f.tan) + off) / f.mid, v}
	}
	clear := func(p at) float64 {
		side := (f.width/2 - math.Abs(p.u-f.axis-float64((p.v-f.faceV)*f.tan))) * f.cos
		return min(p.v-f.faceV, side)
	}
	side := down(max((f.width/2-f.deltaU)/f.mid, 0))
	if arm < f.leastArm {
		c.Kind = Straight
		c.Lines = append(c.Lines, f.line(on(f.edgeV, 0), on(stopV, 0)))
		c.Stops = append(c.Stops, f.stop(on(stopV, 0), clear))
	} else {
		fork := min(wants, f.edgeV)
		c.Kind = Y
		if fork >= f.edgeV {
			c.Kind = V
			c.Lines = append(c.Lines, f.line(on(fork, 0), on(stopV, -arm)))
		} else {
			c.Lines = append(c.Lines, f.line(on(f.edgeV, 0), on(fork, 0), on(stopV, -arm)))
		}
		c.Lines = append(c.Lines, f.line(on(fork, 0), on(stopV, arm)))
		c.Stops = append(c.Stops, f.stop(on(stopV, -arm), clear), f.stop(on(stopV, arm), clear))
		c.Flaps = append(c.Flaps, f.tongue("tongue", fork, f.faceV))
	}
	if f.o.Lean != 0 {
		c.Kind = Diagonal
	}
	one, other := f.sides()
	c.Flaps = append(c.Flaps, Flap{one, side, f.turn}, Flap{other, side, f.turn})
	return c, true
}

// sides are the names of the flaps beside an obstacle at an edge.
func (f *field) sides() (one, other string) {
	if f.transposed {
		return "flap above", "flap below"
	}
	return "left flap", "right flap"
}

// sectors are into how many parts a fan divides an arc of radius r and the given
// angle: so many that no fold strays too far from the round, by the height
// r·(1 − cos(part/2)) of an arc above its chord; from least to most.
func (f *field) sectors(r, angle float64, least, most int) int {
	if r <= f.stray {
		return least
	}
	part := 2 * math.Acos(1-f.stray/r)
	return min(max(int(math.Ceil(angle/part)), least), most)
}

// roundEdge passes a round obstacle at an edge: a straight cut to a hub and from
// there a fan of snips towards the round.
func (f *field) roundEdge() (Cut, bool) {
	r := f.width / 2
	wander := geom.Hypot(f.deltaU, f.deltaV) + slack
	if r-f.covered-wander < 0 {
		return Cut{Kind: None, NarrowTo: -1}, false
	}
	ring := max(r-f.keep-wander, 0)
	c0 := at{f.axis, f.faceV + r} // of the round, when pulled
	clear := func(p at) float64 {
		if p.v >= c0.v {
			return r - math.Abs(p.u-c0.u)
		}
		return r - geom.Hypot(p.u-c0.u, p.v-c0.v)
	}
	slackAt := func(p at) at { return at{p.u / f.mid, p.v / f.mid} }
	tip := slackAt(at{c0.u, c0.v - ring})
	wants := max(tip.v+f.leastCut, f.faceV/f.lo+f.need)
	if ring >= f.leastArm {
		wants = max(wants, c0.v/f.mid)
	}
	c := Cut{Kind: None, Allowance: asks(max(tip.v+f.leastCut, f.faceV/f.lo+f.need), f.edgeV, f.halfV), NarrowTo: -1}
	if tip.v+f.leastCut > f.edgeV+2*hair {
		return c, true
	}
	c.Whole = true
	hub := at{tip.u, min(wants, f.edgeV)}
	one, other := f.sides()
	sideFlap := down(max((r-f.deltaU)/f.mid, 0))
	sides := []Flap{{one, sideFlap, f.turn}, {other, sideFlap, f.turn}}
	if ring < f.leastArm {
		c.Kind = Straight
		c.Lines = append(c.Lines, f.line(at{hub.u, f.edgeV}, tip))
		c.Stops = append(c.Stops, f.stop(tip, clear))
		c.Flaps = sides
		return c, true
	}
	c.Kind = Fan
	if hub.v < f.edgeV {
		c.Lines = append(c.Lines, f.line(at{hub.u, f.edgeV}, hub))
	}
	n := f.sectors(r, math.Pi, 4, 12)
	for i := 1; i < n; i++ {
		sin, cos := math.Sincos(math.Pi * (float64(i)/float64(n) - 0.5))
		end := slackAt(at{c0.u + float64(ring*sin), c0.v - float64(ring*cos)})
		if end.v > hub.v-f.leastCut {
			continue
		}
		c.Lines = append(c.Lines, f.line(hub, end))
		c.Stops = append(c.Stops, f.stop(end, clear))
	}
	if len(c.Stops) == 0 { // so little of the round lies on the cloth that no snip does
		c.Kind = Straight
		c.Lines = [][]panel.Point{f.line(at{hub.u, f.edgeV}, tip)}
		c.Stops = []Stop{f.stop(tip, clear)}
	}
	c.Flaps = append([]Flap{f.tongue("tongues", hub.v, f.faceV)}, sides...)
	return c, true
}
