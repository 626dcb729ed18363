package plan

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// addGroups builds every group and its items.
func (b *builder) addGroups() {
	turns := []panel.Turn{panel.Upright, panel.Half, panel.Quarter}
	var sets [3][][]tie
	for k, t := range turns {
		sets[k] = b.tieCopies(t)
		if len(b.faults) > 0 {
			return
		}
	}
	for n := range sets[0] {
		var byTurn [3][]tie
		for k := range turns {
			byTurn[k] = sets[k][n]
		}
		b.addGroup(byTurn)
	}
}

// addGroup builds one group in every way that all its panels may lie.
func (b *builder) addGroup(ties [3][]tie) {
	var (
		g      group
		items  []item
		reason = buildFault{ties[0][0].panel, tooWide}
	)
	joined := b.needsJoin(ties[0])
	for _, turn := range b.turnsOf(ties[0], joined) {
		gl := b.phases(ties[turn], turn)
		if len(gl.alts) == 0 {
			reason.kind = conflicts
			continue
		}
		laidItems, fault := b.layItems(ties[turn], turn, &gl)
		if fault == nil {
			fault = b.limitPhases(laidItems, &gl)
		}
		if fault != nil {
			reason = *fault
			continue
		}
		if items == nil {
			items = laidItems
		} else {
			for k := range items {
				items[k].lay = append(items[k].lay, laidItems[k].lay...)
			}
		}
		g.lay = append(g.lay, gl)
	}
	if len(g.lay) == 0 {
		b.faults = append(b.faults, reason)
		return
	}
	for k := range items {
		items[k].group = len(b.m.groups)
		g.items = append(g.items, len(b.m.items)+k)
	}
	b.m.items = append(b.m.items, items...)
	b.m.groups = append(b.m.groups, g)
}

// turnsOf are the ways in which a whole group may lie. A panel without a wish
// and without ties looks the same upside down, so Half is left out for it.
func (b *builder) turnsOf(ties []tie, joined bool) []panel.Turn {
	c := b.job.Cloth
	half, quarter, free, wished := true, true, true, len(ties) > 1
	for _, t := range ties {
		p := b.job.Panels[t.panel]
		half = half && p.Turn == panel.Half && !c.OneWay
		quarter = quarter && p.Turn == panel.Quarter &&
			(p.Match.How == panel.Free || c.Railroad != cloth.RailroadNever)
		free = free && p.Turn == panel.Quarter && p.Match.How == panel.Free
		wished = wished || p.Match.How != panel.Free
	}
	if b.m.cross {
		if free && !joined {
			return []panel.Turn{panel.Quarter, panel.Upright}
		}
		return []panel.Turn{panel.Quarter}
	}
	turns := []panel.Turn{panel.Upright}
	if half && wished && !joined && !c.Pattern.IsPlain() {
		turns = append(turns, panel.Half)
	}
	if quarter && !joined {
		turns = append(turns, panel.Quarter)
	}
	return turns
}

// needsJoin reports whether some panel of the group, upright, is to be made up of
// parts.
func (b *builder) needsJoin(ties []tie) bool {
	for _, t := range ties {
		p := b.job.Panels[t.panel]
		if p.Join != panel.NoJoin && p.Cut().Across > b.job.Cloth.Width {
			return true
		}
	}
	return false
}

// layItems are the items of a group laid with one turn. Joined panels may pin
// the group's phase across.
func (b *builder) layItems(ties []tie, turn panel.Turn, gl *groupLay) ([]item, *buildFault) {
	var items []item
	for _, t := range ties {
		p := b.job.Panels[t.panel]
		spans, fault := b.spans(t, turn, gl)
		if fault != nil {
			return nil, fault
		}
		for k, s := range spans {
			items = append(items, item{
				panel: t.panel, copy: t.copy, part: k + 1, parts: len(spans), from: s.from,
				lay: []lay{b.layOne(p, t, turn, s)},
			})
			if l := items[len(items)-1].lay[0]; l.w > b.m.W {
				return nil, &buildFault{t.panel, tooWide}
			}
		}
	}
	single := len(items) == 1
	for k := range items {
		l := &items[k].lay[0]
		l.consX, l.consY = b.m.grid.H > 0, b.m.grid.V > 0
		if single {
			l.consX, l.consY = gl.xFixed, gl.yFixed
			l.tol = b.units(b.job.Panels[items[k].panel].Match.Tolerance)
		}
		gl.mirrorsRows = gl.mirrorsRows || l.sy < 0 && l.consY
	}
	return items, nil
}

// layOne is the geometry of one item laid with one turn.
func (b *builder) layOne(p panel.Panel, t tie, turn panel.Turn, s span) lay {
	cut := p.Cut()
	h := b.units(cut.Along)
	vx := b.units(p.Allow.Left) + b.halfUnits(p.Size.Across) - s.from
	vy := b.units(p.Allow.Top) + b.halfUnits(p.Size.Along)
	l := lay{turn: turn, w: s.width, h: h, sx: t.sx, sy: t.sy}
	switch turn {
	case panel.Half:
		vx, vy = l.w-vx, l.h-vy
	case panel.Quarter:
		l.w, l.h = h, s.width
		vx, vy = l.w-vy, vx
	}
	l.cx, l.cy = vx-t.dx, vy-t.dy
	return l
}

// limitPhases drops the alternatives that push some item off the cloth and
// finds where a free phase across may lie.
func (b *builder) limitPhases(items []item, gl *groupLay) *buildFault {
	m := b.m
	if m.grid.H == 0 {
		return nil
	}
	if gl.xFixed {
		var keep []phase
		worst := items[0].panel
		for _, a := range gl.alts {
			ok := true
			for k := range items {
				if l := &items[k].lay[0]; l.consX && !m.hasColumn(l, a.x) {
					ok, worst = false, items[k].panel
				}
			}
			if ok {
				keep = append(keep, a)
			}
		}
		gl.alts = keep
		if len(keep) == 0 {
			return &buildFault{worst, noPlace}
		}
		return nil
	}
	for k := range items {
		l := &items[k].lay[0]
		if !l.consX || m.W-l.w >= m.grid.H {
			continue
		}
		gl.reach = meet(gl.reach, m.arcOf(l), m.grid.H)
		if len(gl.reach) == 0 {
			return &buildFault{items[k].panel, noPlace}
		}
	}
	return nil
}

// arcOf is where the phase across of an item may lie that has less room than the
// width repeat.
func (m *model) arcOf(l *lay) arc {
	room := m.W - l.w
	lo := l.cx
	if l.sx < 0 {
		lo = -l.cx - room
	}
	lo = length.Mod(lo, m.grid.H)
	return arc{lo, lo + room}
}

// hasColumn reports whether an item may lie inside the width with phase x.
func (m *model) hasColumn(l *lay, x int64) bool {
	first := upTo(0, l.sx*x-l.cx, m.grid.H, l.tol)
	return first <= m.W-l.w
}

// meet is the part of every arc in set that lies in a; a nil set is the whole
// circle. Arcs are cut at the circle's zero, so lo <= hi < h.
func meet(set []arc, a arc, h int64) []arc {
	pieces := []arc{a}
	if a.hi >= h {
		pieces = []arc{{a.lo, h - 1}, {0, a.hi - h}}
	}
	if set == nil {
		return pieces
	}
	out := []arc{}
	for _, s := range set {
		for _, p := range pieces {
			if lo, hi := max(s.lo, p.lo), min(s.hi, p.hi); lo <= hi {
				out = append(out, arc{lo, hi})
			}
		}
	}
	return out
}
