package drawing

// The views of a piece, put together from what its kind measures. Where a kind
// does not measure a part that it has, a usual figure stands in, for the drawing
// only.

// body are the figures that both views share.
type body struct {
	base, rise, cushion, top float64 // of the rail, the border, the cushion, the seat's top above the floor
	back, arm, wing          float64 // heights: of the back above the seat, of the arm above the rail, of the wing above the arm
	deep                     float64 // of the back from front to back
}

func (g *guide) bodyOf() body {
	b := body{base: 140, back: g.get("back-height", 0), arm: g.get("facing-height", 0), wing: g.get("wing-height", 0), deep: 130}
	if g.has("skirt-height") {
		b.base = g.get("skirt-height", 0) + 20
	}
	switch {
	case !g.has("seat-width"): // a headboard
		b.base = 0
	case g.has("seat-rise"):
		b.rise = g.get("seat-rise", 0)
	case g.has("top-rise"):
		b.rise = g.get("top-rise", 0)
	case g.has("pad-thickness"):
		b.base, b.rise = 380, g.get("pad-thickness", 0)
	case g.has("cushion-thickness") && !g.has("back-width"): // a cushion on a bench
		b.base = 400
	default:
		b.base, b.rise = 300, 50
	}
	b.cushion = g.get("cushion-thickness", 0)
	b.top = b.base + b.rise + b.cushion
	return b
}

// front is the piece from the front.
func (g *guide) front() elevation {
	b := g.bodyOf()
	thick := g.get("arm-thickness", 0)
	seat := g.get("seat-width", g.get("back-width", 500))
	wing := 0.0
	if g.has("wing-width") {
		wing = 70
	}
	// A back that is measured round a curve is drawn as broad as the piece.
	back := min(g.get("back-width", 0), seat+2*thick)
	outer := max(seat+2*thick, back+2*wing)
	c := outer / 2
	e := elevation{w: outer}
	if b.back > 0 {
		e.boxes = append(e.boxes, box{c - back/2, b.top, back, b.back})
		g.mark("back-width", front, Pt{c - back/2, b.top + b.back}, Pt{c + back/2, b.top + b.back}, 70)
		g.mark("back-height", front, Pt{c + back/2, b.top}, Pt{c + back/2, b.top + b.back}, outer/2-back/2+70)
	}
	if wing > 0 {
		for _, x := range []float64{c - back/2 - wing, c + back/2} {
			e.boxes = append(e.boxes, box{x, b.base + b.arm, wing, b.wing})
		}
	}
	if g.has("seat-width") {
		e.boxes = append(e.boxes, box{c - seat/2, b.base, seat, b.rise})
		g.mark("seat-width", front, Pt{c - seat/2, b.base}, Pt{c + seat/2, b.base}, -b.base/2-30)
	}
	if b.cushion > 0 {
		e.boxes = append(e.boxes, box{c - seat/2, b.base + b.rise, seat, b.cushion})
		g.mark("cushion-thickness", front, Pt{c + seat/2, b.base + b.rise}, Pt{c + seat/2, b.top}, -seat/4)
	}
	for _, id := range []string{"seat-rise", "top-rise", "pad-thickness"} {
		if b.rise == 0 { // a headboard's pad is seen from the side
			break
		}
		g.mark(id, front, Pt{c - seat/2, b.base}, Pt{c - seat/2, b.base + b.rise}, seat/4)
	}
	if thick > 0 {
		for _, x := range []float64{c - seat/2 - thick, c + seat/2} {
			e.boxes = append(e.boxes, box{x, b.base, thick, b.arm})
		}
		g.mark("arm-thickness", front, Pt{c - seat/2 - thick, b.base + b.arm}, Pt{c - seat/2, b.base + b.arm}, 60)
		g.mark("facing-height", front, Pt{c - seat/2 - thick, b.base}, Pt{c - seat/2 - thick, b.base + b.arm}, -80)
	}
	g.armPads(&e, c, seat, b)
	g.edgesInFront(c, seat, back, thick, b)
	g.mark("outside-width", front, Pt{0, 0}, Pt{outer, 0}, -110)
	g.mark("return-width", front, Pt{c, 0}, Pt{outer, 0}, -260)
	e.h = b.top + b.back + 130
	return e
}

// edgesInFront are the edges and ears that are seen from the front. What is wrapped
// round an edge is drawn as a short line across it.
func (g *guide) edgesInFront(c, seat, back, thick float64, b body) {
	top, cushion := b.top+b.back, b.base+b.rise
	if half := min(g.get("top-width", 0), back+2*thick) / 2; half > 0 {
		g.mark("top-width", front, Pt{c - half, top}, Pt{c + half, top}, 200)
	}
	right := c + seat/2
	g.mark("seat-edge", front, Pt{c, cushion - max(g.get("seat-edge", 0), 60)}, Pt{c, cushion}, 0)
	ear := max(g.get("ear-width", 0), 90)
	g.mark("ear-width", front, Pt{right, cushion}, Pt{right + ear, cushion}, 40)
	g.mark("arm-edge", front, Pt{c - seat/2 - thick, b.base + b.arm*0.6}, Pt{c - seat/2 - thick + max(g.get("arm-edge", 0), 60), b.base + b.arm*0.6}, 0)
	g.mark("border-width", front, Pt{c - seat/2, b.base + b.rise/2}, Pt{c + seat/2, b.base + b.rise/2}, -20)
	g.mark("cushion-width", front, Pt{c - seat/2, b.top - b.cushion/2}, Pt{c + seat/2, b.top - b.cushion/2}, 0)
	g.mark("scroll-joint", front, Pt{c - seat/2 - thick/2, b.base + b.arm}, Pt{c - seat/2 + thick/2, b.base + b.arm}, 130)
	g.mark("roll-front", front, Pt{c + seat/2 - 110, b.top + 250}, Pt{c + seat/2, b.top + 250}, 0)
	g.mark("head-front", front, Pt{c - seat/2, top - 60}, Pt{c - seat/2 + 160, top - 60}, 0)
	if !g.has("arm-thickness") {
		g.mark("facing-height", front, Pt{c - seat/2, top - g.get("facing-height", 0)}, Pt{c - seat/2, top}, -80)
	}
	g.mark("middle-curve", front, Pt{c - back/4, top - 40}, Pt{c + back/4, top - 40}, 0)
	g.mark("outside-middle", front, Pt{c - back/4, 0}, Pt{c + back/4, 0}, -260)
	corner := g.get("corner-width", 0)
	g.mark("corner-width", front, Pt{c - seat/2, b.top}, Pt{c - seat/2 + corner, b.top}, 60)
}

// edgesBeside are those that are seen from the side.
func (g *guide) edgesBeside(b body, deep, wide float64) {
	top := b.top + b.back
	if !g.has("seat-depth") {
		deep = 0
	}
	g.mark("back-edge", fromSide, Pt{deep, top}, Pt{wide, top}, 130)
	g.mark("ear-depth", fromSide, Pt{0, b.base + b.rise/2}, Pt{max(g.get("ear-depth", 0), 60), b.base + b.rise/2}, 0)
	g.mark("corner-depth", fromSide, Pt{deep - g.get("corner-depth", 0), b.top}, Pt{deep, b.top}, 100)
	roll := max(g.get("wing-roll", 0), 60)
	g.mark("wing-roll", fromSide, Pt{deep - g.get("wing-width", 0), b.base + b.arm + b.wing*0.5}, Pt{deep - g.get("wing-width", 0) + roll, b.base + b.arm + b.wing*0.5}, 0)
	g.mark("cushion-depth", fromSide, Pt{0, b.top - b.cushion/2}, Pt{deep, b.top - b.cushion/2}, 0)
	g.mark("outer-wing-width", fromSide, Pt{deep - g.get("outer-wing-width", 0), top}, Pt{deep, top}, 210)
	g.mark("outer-wing-height", fromSide, Pt{deep, b.base + b.arm}, Pt{deep, b.base + b.arm + g.get("outer-wing-height", 0)}, -40)
	long, seat := g.get("long-length", 0), b.base+b.rise
	g.mark("long-length", fromSide, Pt{deep - long, seat + 60}, Pt{deep, seat + 60}, 0)
	g.mark("long-height", fromSide, Pt{deep - long/3, seat}, Pt{deep - long/3, seat + g.get("long-height", 0)}, 0)
	g.mark("roll-girth", fromSide, Pt{deep - long/2, seat + g.get("long-height", 0)}, Pt{deep - long/2, seat + g.get("long-height", 0) + 120}, 0)
	g.mark("long-outside", fromSide, Pt{deep - 2*long/3, b.base}, Pt{deep - 2*long/3, b.base + g.get("long-outside", 0)}, 0)
	g.mark("arm-curve", fromSide, Pt{0, b.base + b.arm}, Pt{deep * 2 / 3, b.base + b.arm}, 60)
	g.mark("outside-curve", fromSide, Pt{0, b.base}, Pt{deep * 2 / 3, b.base}, -60)
	if !g.has("arm-length") {
		g.mark("outside-arm", fromSide, Pt{0, b.base}, Pt{0, b.base + g.get("outside-arm", 0)}, -80)
	}
}

// armPads are the pads on show-wood arms.
func (g *guide) armPads(e *elevation, c, seat float64, b body) {
	if !g.has("arm-pad-width") {
		return
	}
	w := g.get("arm-pad-width", 0)
	for _, x := range []float64{c - seat/2 - w/2, c + seat/2 - w/2} {
		e.boxes = append(e.boxes, box{x, b.top + 200, w, 30})
	}
	g.mark("arm-pad-width", front, Pt{c - seat/2 - w/2, b.top + 230}, Pt{c - seat/2 + w/2, b.top + 230}, 60)
}

// side is the piece from the side, its front to the left.
func (g *guide) side() elevation {
	b := g.bodyOf()
	deep := g.get("seat-depth", 60)
	e := elevation{w: deep}
	if b.back > 0 {
		high := max(g.get("outside-height", 0), b.top+b.back-b.base)
		e.boxes = append(e.boxes, box{deep, b.base, b.deep, high})
		e.w += b.deep
		g.mark("outside-height", fromSide, Pt{e.w, b.base}, Pt{e.w, b.base + high}, 80)
		if !g.has("seat-depth") {
			g.mark("pad-thickness", fromSide, Pt{deep, b.base + high}, Pt{e.w, b.base + high}, 60)
		}
	}
	if g.has("seat-depth") {
		e.boxes = append(e.boxes, box{0, b.base, deep, max(b.rise, 1)})
		g.mark("seat-depth", fromSide, Pt{0, b.top}, Pt{deep, b.top}, 40)
	}
	if b.cushion > 0 {
		e.boxes = append(e.boxes, box{0, b.base + b.rise, deep, b.cushion})
	}
	g.sideArm(&e, b, deep)
	g.edgesBeside(b, deep, e.w)
	g.mark("outside-depth", fromSide, Pt{0, 0}, Pt{e.w, 0}, -110)
	g.mark("skirt-height", fromSide, Pt{0, 0}, Pt{0, b.base - 20}, -80)
	e.h = max(b.top+b.back, b.base+g.get("outside-height", 0)) + 130
	return e
}

// sideArm is the arm, with its wing above, from the side.
func (g *guide) sideArm(e *elevation, b body, deep float64) {
	if g.has("arm-length") {
		e.boxes = append(e.boxes, box{0, b.base, deep, b.arm})
		top := b.base + b.arm
		g.mark("arm-length", fromSide, Pt{0, top}, Pt{deep, top}, 25)
		g.mark("outside-arm", fromSide, Pt{0, b.base}, Pt{0, b.base + g.get("outside-arm", 0)}, -80)
		g.mark("arm-rise", fromSide, Pt{0, top - g.get("arm-rise", 0)}, Pt{0, top}, 110)
	}
	if g.has("wing-width") {
		w, high := g.get("wing-width", 0), b.wing
		bottom := b.base + b.arm
		e.boxes = append(e.boxes, box{deep - w, bottom, w, high})
		g.mark("wing-width", fromSide, Pt{deep - w, bottom + high}, Pt{deep, bottom + high}, 60)
		g.mark("wing-height", fromSide, Pt{deep - w, bottom}, Pt{deep - w, bottom + high}, -80)
	}
	if g.has("arm-pad-length") {
		w := g.get("arm-pad-length", 0)
		e.boxes = append(e.boxes, box{deep/2 - w/2, b.top + 200, w, 30})
		g.mark("arm-pad-length", fromSide, Pt{deep/2 - w/2, b.top + 230}, Pt{deep/2 + w/2, b.top + 230}, 60)
	}
}
