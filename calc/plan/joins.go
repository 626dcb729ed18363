package plan

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// span is the stretch of a cut panel that one item covers, across, in model
// units and including the seam allowances of joins.
type span struct{ from, width int64 }

// maxSideParts bounds how many parts may make up one side of a joined panel.
const maxSideParts = 30

// spans splits a panel into the parts that it is made up of: one for a panel
// that fits the cloth or lies across it.
func (b *builder) spans(t tie, turn panel.Turn, gl *groupLay) ([]span, *buildFault) {
	p := b.job.Panels[t.panel]
	cut := p.Cut().Across
	if turn == panel.Quarter || cut <= b.job.Cloth.Width {
		return []span{{0, b.units(cut)}}, nil
	}
	var edges []length.Length
	switch p.Join {
	case panel.JoinSides:
		edges = b.sideSeams(t, gl)
	case panel.JoinHalves:
		edges = []length.Length{cut / 2}
	}
	if edges == nil {
		return nil, &buildFault{t.panel, tooWide}
	}
	return b.betweenSeams(edges, cut, p.JoinSeam), nil
}

// betweenSeams are the spans between the given seams.
func (b *builder) betweenSeams(edges []length.Length, cut, seam length.Length) []span {
	out := make([]span, 0, len(edges)+1)
	from := length.Length(0)
	for k := 0; k <= len(edges); k++ {
		to := cut
		if k < len(edges) {
			to = edges[k] + seam
		}
		out = append(out, span{b.units(from), b.units(to - from)})
		if k < len(edges) {
			from = edges[k] - seam
		}
	}
	return out
}

// sideSeams places the seams of a panel with a wide middle and equal sides: the
// middle as wide as the cloth and the group's phase allow, each side in as few
// parts as will go. Seams fall on whole millimetres from the panel's edges. It
// chooses, and pins, the phase across. Nil when there is no way.
func (b *builder) sideSeams(t tie, gl *groupLay) []length.Length {
	p := b.job.Panels[t.panel]
	cut, seam := p.Cut().Across, p.JoinSeam
	middle := b.pinMiddle(t, gl)
	if middle <= 2*seam {
		return nil
	}
	side := ((cut-middle+1)/2 + seam).Round(length.Millimetre, length.Up)
	if 2*side >= cut {
		return nil
	}
	for parts := length.Length(1); parts <= maxSideParts; parts++ {
		edges := make([]length.Length, 0, 2*parts)
		for j := length.Length(1); j < parts; j++ {
			edges = append(edges, (side*j/parts).Round(length.Millimetre, length.Up))
		}
		edges = append(edges, side)
		for j := len(edges) - 1; j >= 0; j-- {
			edges = append(edges, cut-edges[j])
		}
		if b.partsFit(t, gl, edges, cut, seam) {
			return edges
		}
	}
	return nil
}

// pinMiddle is the width that the middle part may have, seams included, and
// pins the phase across that allows it.
func (b *builder) pinMiddle(t tie, gl *groupLay) length.Length {
	p, m := b.job.Panels[t.panel], b.m
	if m.grid.H == 0 {
		return b.job.Cloth.Width
	}
	// The middle of the cut panel, from its visual centre.
	toMiddle := b.halfUnits(p.Cut().Across) - b.units(p.Allow.Left) - b.halfUnits(p.Size.Across)
	if !gl.xFixed {
		x := t.sx * (m.W/2 - toMiddle - t.dx)
		gl.xFixed = true
		for k := range gl.alts {
			gl.alts[k].x = x
		}
	}
	best, at := int64(-1), 0
	for k, a := range gl.alts {
		c := length.Mod(t.sx*a.x+t.dx+toMiddle, m.grid.H)
		for ; c <= m.W; c += m.grid.H {
			if half := min(c, m.W-c); half > best {
				best, at = half, k
			}
		}
	}
	if best < 0 {
		return 0
	}
	x := gl.alts[at].x
	var keep []phase
	for _, a := range gl.alts {
		if a.x == x {
			keep = append(keep, a)
		}
	}
	gl.alts = keep
	return b.m.floorLength(2 * best)
}

// partsFit reports whether every part has a place across the cloth.
func (b *builder) partsFit(t tie, gl *groupLay, edges []length.Length, cut, seam length.Length) bool {
	p := b.job.Panels[t.panel]
	for _, s := range b.betweenSeams(edges, cut, seam) {
		l := b.layOne(p, t, panel.Upright, s)
		if l.w > b.m.W || b.m.grid.H > 0 && !b.m.hasColumn(&l, gl.alts[0].x) {
			return false
		}
	}
	return true
}
