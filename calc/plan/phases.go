package plan

import (
	"github.com/bridletie/bridletie/calc/panel"

	"github.com/bridletie/bridletie/calc/length"
)

// maxAlts bounds the alternatives of one group: 16 motifs by 12 rows.
const maxAlts = 256

// known is a phase under construction: what the wishes seen so far fix.
type known struct {
	phase
	hasX, hasY bool
}

// phases are the alternatives that all wishes of a group allow in one way of
// lying; none when they contradict each other.
func (b *builder) phases(ties []tie, turn panel.Turn) groupLay {
	cands := []known{{}}
	for _, t := range ties {
		p := b.job.Panels[t.panel]
		x, y := b.wished(p, turn)
		if !x && !y {
			continue
		}
		var next []known
		for _, c := range cands {
			for _, k := range b.motifsOf(p) {
				next = append(next, b.refine(c, t, turn, k, x, y)...)
			}
		}
		cands = distinct(next)
	}
	gl := groupLay{}
	for _, c := range cands {
		gl.xFixed, gl.yFixed = c.hasX, c.hasY
		gl.alts = append(gl.alts, c.phase)
	}
	return gl
}

// wished says on which cloth axes a panel's own wish fixes the phase.
func (b *builder) wished(p panel.Panel, turn panel.Turn) (x, y bool) {
	switch p.Match.How {
	case panel.Across:
		x = true
	case panel.Along:
		y = true
	case panel.Centred, panel.Anchor:
		x, y = true, true
	default:
		return false, false
	}
	if turn == panel.Quarter {
		x, y = y, x
	}
	return x && b.m.grid.H > 0, y && b.m.grid.V > 0
}

// motifsOf are the motifs that a panel's wish allows.
func (b *builder) motifsOf(p panel.Panel) []int {
	pattern := b.job.Cloth.Pattern
	if p.Match.Motif != "" {
		k, _ := pattern.Find(p.Match.Motif)
		return []int{k}
	}
	all := make([]int, len(pattern.Principal()))
	for k := range all {
		all[k] = k
	}
	return all
}

// refine is what remains of a candidate when one panel has motif k where it
// wishes it: nothing on a contradiction, several when any row will do.
func (b *builder) refine(c known, t tie, turn panel.Turn, k int, x, y bool) []known {
	m, grid := b.job.Cloth.Pattern.Principal()[k], b.m.grid
	p := b.job.Panels[t.panel]
	rx, ry := b.referenceFromCentre(p)
	rx, ry = laid(turn, rx, ry)
	wantX := t.sx * (b.units(m.Across) - t.dx - rx)
	wantY := t.sy * (b.units(m.Along) - t.dy - ry)
	switch {
	case x && y:
		if !c.hasX && !c.hasY {
			return []known{{phase{wantX, wantY}, true, true}}
		}
		if c.hasX && length.Mod(c.x-wantX, grid.H) != 0 {
			return nil
		}
		if c.hasX {
			wantY += (c.x - wantX) / grid.H * grid.D
		}
		if c.hasY && length.Mod(c.y-wantY, grid.V) != 0 {
			return nil
		}
		if !c.hasX {
			c.x = wantX
		}
		return []known{{phase{c.x, wantY}, true, true}}
	case x:
		if c.hasX && length.Mod(c.x-wantX, grid.H) != 0 {
			return nil
		}
		if !c.hasX {
			c.x, c.hasX = wantX, true
		}
		return []known{c}
	default:
		return b.refineRow(c, wantY)
	}
}

// refineRow fixes only the row: any row of motifs will do.
func (b *builder) refineRow(c known, wantY int64) []known {
	step := b.m.grid.rowStep()
	if c.hasY {
		if length.Mod(c.y-wantY, step) != 0 {
			return nil
		}
		return []known{c}
	}
	var out []known
	for y := int64(0); y < b.m.grid.V; y += step {
		out = append(out, known{phase{c.x, wantY + y}, c.hasX, true})
	}
	return out
}

// referenceFromCentre is the way from a panel's visual centre to the place
// where its wish wants the motif, in panel axes.
func (b *builder) referenceFromCentre(p panel.Panel) (int64, int64) {
	if !p.Match.HasPoint() {
		return 0, 0
	}
	return b.units(p.Match.Point.Across) - b.halfUnits(p.Size.Across),
		b.units(p.Match.Point.Along) - b.halfUnits(p.Size.Along)
}

// distinct drops repeated candidates, keeping the order, and caps their number.
func distinct(in []known) []known {
	var out []known
	for _, c := range in {
		dup := false
		for _, d := range out {
			dup = dup || c == d
		}
		if !dup && len(out) < maxAlts {
			out = append(out, c)
		}
	}
	return out
}
