package httpapi

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

// translator turns the wire form into the domain's. It records the faults that
// only the wire form can show: a field that is given as 0 where the domain
// takes 0 for left out, and a field that is left out where 0 means something.
type translator struct {
	shape fault.List
	shop  practice.Set // what the workroom goes by, and before it what the request gives
}

// own takes a figure of the request, where it is given, before that of the
// workroom.
func (t *translator) own(k practice.LengthKey, s *string) {
	if s != nil {
		t.shop = t.shop.With(k.Give(lengthFrom(*s)))
	}
}

// requestFromWire translates a request whose strings are of their formats; one
// that is not, or is left out, counts as 0.
func requestFromWire(w *gen.YardageRequest) (service.YardageRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.YardageRequest{
		Units:  unitsFrom(value(w.Units)),
		Effort: effortFrom(value(w.Effort)),
		Cloth:  t.cloth(&w.Cloth, root.Field("cloth")),
		Sold:   t.sold(&w.Cloth, root.Field("cloth")),
	}
	for _, piece := range value(w.Pieces) {
		req.Pieces = append(req.Pieces, lengthFrom(piece))
	}
	for i := range w.Panels {
		here := root.Field("panels").Index(i)
		req.Panels = append(req.Panels, t.panel(&w.Panels[i], here))
		for k, o := range value(w.Panels[i].Obstacles) {
			if req.Obstacles == nil {
				req.Obstacles = make(map[int][]relief.Obstacle)
			}
			req.Obstacles[i] = append(req.Obstacles[i], t.obstacle(&o, here.Field("obstacles").Index(k)))
		}
	}
	return req, t.shape
}

// value is what p points to, or the zero value.
func value[T any](p *T) T {
	if p == nil {
		var zero T
		return zero
	}
	return *p
}

func lengthFrom(s string) length.Length {
	l, err := length.Parse(s)
	if err != nil {
		return 0
	}
	return l
}

func unitsFrom(u gen.Units) length.System {
	if u == gen.UnitsImperial {
		return length.Imperial
	}
	return length.Metric
}

func effortFrom(e gen.Effort) plan.Effort {
	switch e {
	case gen.EffortQuick:
		return plan.Quick
	case gen.EffortThorough:
		return plan.Thorough
	}
	return plan.Normal
}

// positive is a length for which the domain takes 0 for left out.
func (t *translator) positive(s *string, at fault.Path) length.Length {
	if s == nil {
		return 0
	}
	l := lengthFrom(*s)
	if l == 0 {
		t.shape.Add(at, fault.TooSmall, *s, "this is more than nothing when it is given", "a length, or leave it out")
	}
	return l
}

func (t *translator) cloth(w *gen.Cloth, at fault.Path) cloth.Cloth {
	c := cloth.Cloth{
		Name:     value(w.Name),
		Width:    lengthFrom(w.Width),
		OneWay:   value(w.OneWay),
		StartsAt: mapped(w.StartsAt, lengthFrom),
	}
	switch value(w.Railroad) {
	case gen.ClothRailroadAllowed:
		c.Railroad = cloth.RailroadAllowed
	case gen.ClothRailroadAlways:
		c.Railroad = cloth.RailroadAlways
	}
	if p := w.Pattern; p != nil {
		here := at.Field("pattern")
		c.Pattern.LengthRepeat = t.positive(p.LengthRepeat, here.Field("lengthRepeat"))
		c.Pattern.WidthRepeat = t.positive(p.WidthRepeat, here.Field("widthRepeat"))
		c.Pattern.Drop, _ = parseDrop(value(p.Drop))
		for _, m := range value(p.Motifs) {
			c.Pattern.Motifs = append(c.Pattern.Motifs, cloth.Motif{
				Name: m.Name, Across: lengthFrom(value(m.Across)), Along: lengthFrom(value(m.Along)),
			})
		}
	}
	return c
}

func (t *translator) sold(w *gen.Cloth, at fault.Path) cloth.Sold {
	s := cloth.Sold{
		Step:    t.positive(w.SoldBy, at.Field("soldBy")),
		Minimum: lengthFrom(value(w.Minimum)),
		Bolt:    t.positive(w.BoltLength, at.Field("boltLength")),
	}
	s.Flaw, _ = parseShare(value(w.FlawAllowance))
	s.Shrinkage, _ = parseShare(value(w.Shrinkage))
	return s
}

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

// belongs records a field that the wish needs and lacks, or has and may not.
func (t *translator) belongs(at fault.Path, given, may, must bool, field, how string) {
	switch {
	case given && !may:
		t.shape.Add(at, fault.NotAllowed, "", field+" belongs to "+how, "leave "+field+" out, or change how")
	case !given && may && must:
		t.shape.Add(at, fault.Missing, "", how+" needs "+field, "give "+field)
	}
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
