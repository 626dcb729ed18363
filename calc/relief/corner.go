package relief

import (
	"math"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// squareCorner passes a square post in a corner: one diagonal cut from the
// corner of the cloth towards the inner corner of the post.
func (f *field) squareCorner() Cut {
	stop := at{(f.faceU + f.keep + slack) / f.lo, (f.faceV + f.keep + slack) / f.lo}
	c := Cut{Kind: None, NarrowTo: -1, Allowance: f.asksBoth(stop, at{f.faceU, f.faceV})}
	if stop.u+f.leastCut > f.edgeU+2*hair || stop.v+f.leastCut > f.edgeV+2*hair {
		return c
	}
	c.Kind, c.Whole = Diagonal, true
	c.Lines = append(c.Lines, f.line(at{f.edgeU, f.edgeV}, stop))
	c.Stops = append(c.Stops, f.stop(stop, func(p at) float64 { return min(p.u-f.faceU, p.v-f.faceV) }))
	c.Flaps = f.cornerFlaps()
	return c
}

// asksBoth is the allowance at both edges of a corner with which there is room
// for the stop and flaps from the faces reach; 0 where those given do.
func (f *field) asksBoth(stop, face at) length.Length {
	u := max(stop.u+f.leastCut, face.u/f.lo+f.need)
	v := max(stop.v+f.leastCut, face.v/f.lo+f.need)
	if asks(u, f.edgeU, f.halfU) == 0 && asks(v, f.edgeV, f.halfV) == 0 {
		return 0
	}
	return max(wholeUp(u-f.halfU), wholeUp(v-f.halfV))
}

// cornerFlaps go down the two faces of what stands in a corner.
func (f *field) cornerFlaps() []Flap {
	return []Flap{
		f.tongue("flap at the side", f.edgeU, f.faceU),
		f.tongue("flap at the "+f.endName(), f.edgeV, f.faceV),
	}
}

func (f *field) endName() string {
	if f.signV < 0 {
		return "top"
	}
	return "bottom"
}

// legCorner passes a square leg that stands under a corner: two cuts, slanting
// in from the edges to where the leg meets them. The piece between is turned up
// inside, and the cloth beside the leg is folded in.
func (f *field) legCorner() Cut {
	if f.deep == 0 {
		f.faceV = f.halfV - f.width
	}
	m := f.margin.MM() + slack
	outU, outV := (f.halfU+f.keep+slack)/f.lo, (f.halfV+f.keep+slack)/f.lo
	c := Cut{Kind: None, NarrowTo: -1, Allowance: f.asksBoth(at{outU, outV}, at{f.halfU, f.halfV})}
	if outU+f.leastCut > f.edgeU+2*hair || outV+f.leastCut > f.edgeV+2*hair {
		return c
	}
	c.Kind, c.Whole = Triangle, true
	onV := at{min((f.faceU+m)/f.lo, f.edgeU), outV} // at the top or bottom edge
	onU := at{outU, min((f.faceV+m)/f.lo, f.edgeV)}
	fromV := at{min(onV.u+f.edgeV-onV.v, f.edgeU), f.edgeV}
	fromU := at{f.edgeU, min(onU.v+f.edgeU-onU.u, f.edgeV)}
	c.Lines = append(c.Lines, f.line(fromV, onV), f.line(fromU, onU))
	clear := func(p at) float64 { return max(p.u-f.halfU, p.v-f.halfV) }
	c.Stops = append(c.Stops, f.stop(onV, clear), f.stop(onU, clear))
	corner := min(f.edgeU-f.halfU/f.lo, f.edgeV-f.halfV/f.lo)
	c.Flaps = []Flap{
		{"triangle turned up", down(max(corner, 0)), f.o.Stuffing + f.o.EdgeThickness},
		{"flap at the " + f.endName(), foldIn(fromV.u - f.faceU/f.lo), f.turn},
		{"flap at the side", foldIn(fromU.v - f.faceV/f.lo), f.turn},
	}
	return c
}

func foldIn(mm float64) length.Length { return down(max(mm, 0)) }

// roundCorner passes a round obstacle in a corner: a diagonal cut to a hub, and
// from there a fan over the quarter that faces inwards.
func (f *field) roundCorner() (Cut, bool) {
	r := f.width / 2
	wander := geom.Hypot(f.deltaU, f.deltaV) + slack
	if r-f.covered-wander < 0 {
		return Cut{Kind: None, NarrowTo: -1}, false
	}
	ring := max(r-f.keep-wander, 0)
	c0 := at{f.faceU + r, f.faceV + r}
	clear := func(p at) float64 {
		if p.u >= c0.u || p.v >= c0.v {
			return min(p.u-f.faceU, p.v-f.faceV, r)
		}
		return r - geom.Hypot(p.u-c0.u, p.v-c0.v)
	}
	end := func(angle float64) at { // on the ring, on the slack cloth
		sin, cos := math.Sincos(angle)
		return at{(c0.u - float64(ring*cos)) / f.mid, (c0.v - float64(ring*sin)) / f.mid}
	}
	tip := end(math.Pi / 4)
	c := Cut{Kind: None, NarrowTo: -1, Allowance: f.asksBoth(tip, at{f.faceU, f.faceV})}
	if tip.u+f.leastCut > f.edgeU+2*hair || tip.v+f.leastCut > f.edgeV+2*hair {
		return c, true
	}
	c.Whole = true
	c.Flaps = f.cornerFlaps()
	from := at{f.edgeU, f.edgeV}
	if ring < f.leastArm {
		c.Kind = Diagonal
		c.Lines = append(c.Lines, f.line(from, tip))
		c.Stops = append(c.Stops, f.stop(tip, clear))
		return c, true
	}
	c.Kind = Fan
	hub := at{min(c0.u/f.mid, f.edgeU), min(c0.v/f.mid, f.edgeV)}
	if hub != from {
		c.Lines = append(c.Lines, f.line(from, hub))
	}
	n := f.sectors(r, math.Pi/2, 2, 8)
	for i := range n + 1 {
		e := end(math.Pi / 2 * float64(i) / float64(n))
		if e.u > f.edgeU || e.v > f.edgeV || geom.Hypot(e.u-hub.u, e.v-hub.v) < f.leastCut {
			continue
		}
		c.Lines = append(c.Lines, f.line(hub, e))
		c.Stops = append(c.Stops, f.stop(e, clear))
	}
	if len(c.Stops) == 0 {
		c.Kind = Diagonal
		c.Lines = [][]panel.Point{f.line(from, tip)}
		c.Stops = []Stop{f.stop(tip, clear)}
	}
	return c, true
}
