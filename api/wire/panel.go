package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

func (t *translator) panel(w *gen.Panel, at fault.Path) panel.Panel {
	p := panel.Panel{
		ID:       w.Id,
		Name:     value(w.Name),
		Count:    1,
		Size:     panel.Size{Across: lengthFrom(w.Size.Across), Along: lengthFrom(w.Size.Along)},
		Allow:    sidesFrom(w.Allow),
		JoinSeam: t.shop.Length(practice.PanelJoin),
		Pair:     value(w.Pair),
	}
	if w.Count != nil {
		p.Count = *w.Count
	}
	if w.JoinSeam != nil {
		p.JoinSeam = lengthFrom(*w.JoinSeam)
	}
	switch value(w.Turn) {
	case gen.PanelTurnHalf:
		p.Turn = panel.Half
	case gen.PanelTurnQuarter:
		p.Turn = panel.Quarter
	}
	switch value(w.Join) {
	case gen.PanelJoinSides:
		p.Join = panel.JoinSides
	case gen.PanelJoinHalves:
		p.Join = panel.JoinHalves
	}
	if value(w.PairAs) == gen.PanelPairAsSame {
		p.PairAs = panel.SameMotif
	}
	if w.PairAs != nil && w.Pair == nil {
		t.shape.Add(at.Field("pairAs"), fault.NotAllowed, string(*w.PairAs), "pairAs belongs to pair", "give pair, or leave pairAs out")
	}
	if w.Match != nil {
		p.Match = t.match(w.Match, at.Field("match"))
	}
	return p
}

// sidesFrom is one amount on all sides, or each side's own.
func sidesFrom(w *gen.Allow) panel.Sides {
	if w == nil {
		return panel.Sides{}
	}
	if all, err := w.AsLength(); err == nil {
		l := lengthFrom(all)
		return panel.Sides{Top: l, Bottom: l, Left: l, Right: l}
	}
	sides, err := w.AsSides()
	if err != nil {
		return panel.Sides{}
	}
	return panel.Sides{
		Top: lengthFrom(value(sides.Top)), Bottom: lengthFrom(value(sides.Bottom)),
		Left: lengthFrom(value(sides.Left)), Right: lengthFrom(value(sides.Right)),
	}
}

func (t *translator) match(w *gen.Match, at fault.Path) panel.Match {
	m := panel.Match{
		How:       howFrom(w.How),
		Motif:     value(w.Motif),
		From:      value(w.From),
		Edge:      edgeFrom(value(w.Edge)),
		Offset:    lengthFrom(value(w.Offset)),
		Tolerance: lengthFrom(value(w.Tolerance)),
	}
	if w.Point != nil {
		m.Point = panel.Point{Across: lengthFrom(w.Point.Across), Along: lengthFrom(w.Point.Along)}
		m.AtPoint = m.How != panel.Anchor
	}
	if w.Point == nil {
		t.belongs(at.Field("point"), false, m.How == panel.Anchor, true, "point", "anchor")
	} else {
		t.belongs(at.Field("point"), true, m.HasPoint(), false, "point", "anchor, across and along")
	}
	t.belongs(at.Field("edge"), w.Edge != nil, m.How == panel.RunsOn, true, "edge", "runs-on")
	t.belongs(at.Field("offset"), w.Offset != nil, m.How == panel.RunsOn, false, "offset", "runs-on")
	return m
}

func howFrom(h gen.MatchHow) panel.How {
	switch h {
	case gen.MatchHowAcross:
		return panel.Across
	case gen.MatchHowAlong:
		return panel.Along
	case gen.MatchHowCentred:
		return panel.Centred
	case gen.MatchHowAnchor:
		return panel.Anchor
	case gen.MatchHowRunsOn:
		return panel.RunsOn
	}
	return panel.Free
}

func edgeFrom(e gen.MatchEdge) panel.Edge {
	switch e {
	case gen.MatchEdgeTop:
		return panel.TopEdge
	case gen.MatchEdgeLeft:
		return panel.LeftEdge
	case gen.MatchEdgeRight:
		return panel.RightEdge
	}
	return panel.BottomEdge
}

// wirePanel is a panel in the form in which /v1/yardage takes it.
func wirePanel(p *panel.Panel) gen.Panel {
	g := gen.Panel{Id: p.ID, Size: gen.Size{Across: p.Size.Across.String(), Along: p.Size.Along.String()}}
	set(&g.Name, p.Name)
	set(&g.Count, p.Count)
	if p.Allow != (panel.Sides{}) {
		var sides gen.Sides
		set(&sides.Top, text(p.Allow.Top))
		set(&sides.Bottom, text(p.Allow.Bottom))
		set(&sides.Left, text(p.Allow.Left))
		set(&sides.Right, text(p.Allow.Right))
		g.Allow = &gen.Allow{}
		_ = g.Allow.FromSides(sides) // strings can always be written
	}
	if p.Match.How != panel.Free {
		g.Match = wireMatch(p.Match)
	}
	switch p.Turn {
	case panel.Half:
		set(&g.Turn, gen.PanelTurnHalf)
	case panel.Quarter:
		set(&g.Turn, gen.PanelTurnQuarter)
	}
	switch p.Join {
	case panel.JoinSides:
		set(&g.Join, gen.PanelJoinSides)
	case panel.JoinHalves:
		set(&g.Join, gen.PanelJoinHalves)
	}
	if p.Join != panel.NoJoin {
		set(&g.JoinSeam, p.JoinSeam.String())
	}
	set(&g.Pair, p.Pair)
	if p.Pair != "" && p.PairAs == panel.SameMotif {
		set(&g.PairAs, gen.PanelPairAsSame)
	}
	return g
}

func wireMatch(m panel.Match) *gen.Match {
	g := &gen.Match{How: howText(m.How)}
	set(&g.Motif, m.Motif)
	set(&g.Tolerance, text(m.Tolerance))
	switch m.How {
	case panel.RunsOn:
		set(&g.From, m.From)
		set(&g.Edge, [...]gen.MatchEdge{gen.MatchEdgeBottom, gen.MatchEdgeTop, gen.MatchEdgeLeft, gen.MatchEdgeRight}[m.Edge])
		set(&g.Offset, text(m.Offset))
	case panel.Anchor, panel.Across, panel.Along:
		if !m.HasPoint() {
			break
		}
		g.Point = &struct {
			Across gen.Length `json:"across"`
			Along  gen.Length `json:"along"`
		}{m.Point.Across.String(), m.Point.Along.String()}
	}
	return g
}

func howText(h panel.How) gen.MatchHow {
	return [...]gen.MatchHow{
		gen.MatchHowFree, gen.MatchHowAcross, gen.MatchHowAlong, gen.MatchHowCentred, gen.MatchHowAnchor, gen.MatchHowRunsOn,
	}[h]
}

func turnText(t panel.Turn) gen.PlacementTurn {
	switch t {
	case panel.Half:
		return gen.PlacementTurnHalf
	case panel.Quarter:
		return gen.PlacementTurnQuarter
	}
	return gen.PlacementTurnNone
}
