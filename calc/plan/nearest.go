package plan

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// nearest is the wish of a panel of a job moved to the place nearest to the one
// wished for at which a plan can keep it; false when no such place is on the panel.
// The job has one copy of each panel, and they run on from the one that is asked for.
//
// What is measured is the distance across the roll between the place on the panel
// for which the wish is and the centre of a motif; along the roll a panel can slide,
// so that there the wish is kept. The least is over all motifs that the wish allows,
// all columns in which they stand, all ways in which the panels may lie with the roll
// laid as cross says, and all places between the selvedges at which each panel has
// room while their pattern runs on. Only places count at which the motif's centre is
// on the finished size. A panel with a wide middle and joined sides is measured where
// its middle is in the middle of the cloth.
func nearest(job Job, i int, cross bool) (panel.Match, bool) {
	var all []panel.Match
	b := &builder{job: job, m: &model{cross: cross}}
	b.scale()
	if b.m.grid.H == 0 {
		return panel.Match{}, false
	}
	for _, turn := range []panel.Turn{panel.Upright, panel.Half, panel.Quarter} {
		sets := b.tieCopies(turn)
		if len(b.faults) > 0 || len(sets) != 1 {
			return panel.Match{}, false
		}
		if slices.Contains(b.turnsOf(sets[0], b.needsJoin(sets[0])), turn) {
			all = append(all, b.places(sets[0], turn, i)...)
		}
	}
	p := &job.Panels[i]
	slices.SortStableFunc(all, func(x, y panel.Match) int { return cmp.Compare(farFrom(p, x), farFrom(p, y)) })
	try := Job{Cloth: job.Cloth, Panels: slices.Clone(job.Panels)}
	for k, m := range all {
		if k > 0 && m == all[k-1] {
			continue
		}
		try.Panels[i].Match = m
		if _, faults := buildModel(try, cross); faults == nil {
			return m, true
		}
	}
	return panel.Match{}, false
}

// farFrom is how far a moved wish is from the place for which the wish of the panel
// is, rounded up to the nanometre.
func farFrom(p *panel.Panel, to panel.Match) length.Length {
	across, along := twicePoint(p)
	return (max(dist(2*to.Point.Across, across), dist(2*to.Point.Along, along)) + 1) / 2
}

// twicePoint is twice the place on the finished panel for which its wish is.
func twicePoint(p *panel.Panel) (across, along length.Length) {
	if p.Match.HasPoint() {
		return 2 * p.Match.Point.Across, 2 * p.Match.Point.Along
	}
	return p.Size.Across, p.Size.Along
}

// places are wishes for a motif at points of the panel, among them the nearest that
// can be kept when the panels lie with that turn: every end of where their phase
// across may lie, seen from every motif.
func (b *builder) places(ties []tie, turn panel.Turn, i int) []panel.Match {
	p, h := b.job.Panels[i], b.m.grid.H
	if x, _ := b.wished(p, turn); !x {
		return nil
	}
	gl := groupLay{alts: []phase{{}}}
	items, fault := b.layItems(ties, turn, &gl)
	if fault != nil {
		return nil
	}
	reach := []arc{{0, h - 1}}
	if gl.xFixed {
		reach = []arc{{length.Mod(gl.alts[0].x, h), length.Mod(gl.alts[0].x, h)}}
	}
	for k := range items {
		if l := &items[k].lay[0]; b.m.W-l.w < h {
			reach = meet(reach, b.m.arcOf(l), h)
		}
	}
	t := ties[slices.IndexFunc(ties, func(t tie) bool { return t.panel == i })]
	rx, ry := b.referenceFromCentre(p)
	rx, _ = laid(turn, rx, ry)
	var out []panel.Match
	for _, k := range b.motifsOf(p) {
		want := length.Mod(b.units(b.job.Cloth.Pattern.Principal()[k].Across)-t.dx-rx, h)
		for _, a := range reach {
			for _, x := range []int64{a.lo, a.hi, min(max(want, a.lo), a.hi)} {
				for _, off := range []int64{want - x, want - x - h, want - x + h} {
					out = append(out, b.movedBy(p, turn, off)...)
				}
			}
		}
	}
	return out
}

// movedBy are the wishes for a motif that lies off to the right of the place wished
// for, on cloth, while the panel lies with that turn: to the nanometre before and
// after; none off the finished panel.
func (b *builder) movedBy(p panel.Panel, turn panel.Turn, off int64) []panel.Match {
	across, along := twicePoint(&p)
	to := panel.Match{How: p.Match.How, Motif: p.Match.Motif, Point: panel.Point{Across: across / 2, Along: along / 2}}
	if to.How == panel.Centred {
		to.How = panel.Anchor
	}
	to.AtPoint = to.How != panel.Anchor
	at, twice, size := &to.Point.Across, across, p.Size.Across
	if turn == panel.Quarter {
		at, twice, size = &to.Point.Along, along, p.Size.Along
	}
	if turn != panel.Upright {
		off = -off
	}
	// Half of twice, and off, in parts of a nanometre.
	exact, part := int64(twice)*(b.m.den/2)+off*b.m.num, b.m.den
	var out []panel.Match
	for _, v := range []int64{length.FloorDiv(exact, part), length.CeilDiv(exact, part)} {
		if *at = length.Length(v); *at >= 0 && *at <= size {
			out = append(out, to)
		}
	}
	return out
}
