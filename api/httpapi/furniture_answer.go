package httpapi

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
)

// wireCuttingList is the answer as the contract has it. Lists are never null.
func wireCuttingList(ans *service.CuttingListAnswer, digest string) gen.CuttingListAnswer {
	w := answerWriter{units: ans.Request.Piece.Units}
	g := gen.CuttingListAnswer{
		Covers: []gen.CuttingListCovered{}, Derived: []gen.CuttingListDerived{},
		Runs: []gen.CuttingListRun{}, Buttoned: []gen.CuttingListButtoned{}, Fillings: []gen.CuttingListFilling{},
		Frames: []gen.CuttingListFrame{}, Assumed: []gen.CuttingListAssumed{},
		Warnings: append([]string{}, ans.Warnings...), Cautions: append([]string{}, ans.Cautions...),
		Engine: service.EngineVersion, InputDigest: digest,
	}
	for c, panels := range ans.Covers {
		if len(panels) == 0 {
			continue
		}
		one := gen.CuttingListCovered{Cover: coverText(furniture.Cover(c)), Panels: make([]gen.Panel, len(panels))}
		for i := range panels {
			one.Panels[i] = wirePanel(&panels[i])
		}
		g.Covers = append(g.Covers, one)
	}
	for _, p := range ans.List.Panels {
		cut := p.Cut()
		g.Derived = append(g.Derived, gen.CuttingListDerived{
			Panel: p.ID, Across: w.quantity(cut.Across, length.Up), Along: w.quantity(cut.Along, length.Up), How: p.How,
		})
	}
	g.Loosened = w.loosened(ans.Loosened)
	for _, m := range ans.List.Assumed {
		g.Assumed = append(g.Assumed, gen.CuttingListAssumed{Measure: m.ID, Name: m.Name, Taken: w.quantity(m.Typical, length.Nearest)})
	}
	w.needs(&g, ans.List)
	g.Fire = w.fireStacks(ans)
	return g
}

// loosened are the wishes that a cloth cannot keep. The list is never null.
func (w answerWriter) loosened(list []service.Loosened) []gen.CuttingListLoosened {
	out := make([]gen.CuttingListLoosened, len(list))
	for i, l := range list {
		out[i] = gen.CuttingListLoosened{Panel: l.Panel, Wished: howText(l.Wished), Instead: howText(l.Instead), Why: l.Why}
		if l.Moved {
			off := w.quantity(l.Off, length.Nearest)
			out[i].Off = &off
		}
	}
	return out
}

// fireStacks are the layers in the form in which /v1/fire-check takes them.
func (w answerWriter) fireStacks(ans *service.CuttingListAnswer) gen.CuttingListFire {
	kind, _ := furniture.Find(ans.Request.Piece.Kind)
	g := gen.CuttingListFire{Item: gen.CuttingListFireItem(kind.FireItem()), LooseCushions: gen.FireKnownNo, Stacks: []gen.CuttingListStack{}}
	if ans.List.LooseCushions() {
		g.LooseCushions = gen.FireKnownYes
	}
	for _, s := range ans.List.Stacks() {
		one := gen.CuttingListStack{Where: gen.CuttingListStackWhere(s.Where)}
		for _, l := range s.Layers {
			layer := gen.FireLayer{Id: l.ID, Role: gen.FireLayerRole(l.Role)}
			set(&layer.Name, l.Name)
			set(&layer.Thickness, text(l.Thickness))
			one.Layers = append(one.Layers, layer)
		}
		g.Stacks = append(g.Stacks, one)
	}
	return g
}

// needs are what the piece needs besides covers.
func (w answerWriter) needs(g *gen.CuttingListAnswer, list furniture.List) {
	for _, r := range list.Runs {
		g.Runs = append(g.Runs, gen.CuttingListRun{Name: r.Name, Count: r.Count, Length: w.quantity(r.Length, length.Up), Closed: r.Closed, Corners: r.Corners})
	}
	for _, b := range list.Buttons {
		g.Buttoned = append(g.Buttoned, gen.CuttingListButtoned{
			Panel: b.Panel, Across: w.quantity(b.Size.Across, length.Up), Along: w.quantity(b.Size.Along, length.Up), Grid: wireDiamond(b.Diamond),
		})
	}
	for _, f := range list.Fillings {
		g.Fillings = append(g.Fillings, gen.CuttingListFilling{
			Id: f.ID, Name: f.Name, Count: f.Count, Loose: f.Loose, Round: f.Round, Place: placeName(f.Place),
			Across: w.quantity(f.Size.Across, length.Up), Along: w.quantity(f.Size.Along, length.Up), Thickness: w.quantity(f.Thickness, length.Nearest),
		})
	}
	for _, f := range list.Frames {
		g.Frames = append(g.Frames, gen.CuttingListFrame{
			Id: f.ID, Count: f.Count, Round: f.Round, Place: placeName(f.Place),
			Across: w.quantity(f.Size.Across, length.Up), Along: w.quantity(f.Size.Along, length.Up),
		})
	}
}

// wireDiamond is a grid that is given by the size of a diamond.
func wireDiamond(d panel.Size) gen.ButtoningGrid {
	g := gen.ButtoningGrid{How: gen.ButtoningGridHowSpacing}
	set(&g.Width, text(d.Across))
	set(&g.Height, text(d.Along))
	return g
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

// set lets a field be left out where its value is the zero value.
func set[T comparable](field **T, v T) {
	var zero T
	if v != zero {
		*field = &v
	}
}

// text is a length on the wire, "" for none.
func text(l length.Length) string {
	if l == 0 {
		return ""
	}
	return l.String()
}

func howText(h panel.How) gen.MatchHow {
	return [...]gen.MatchHow{
		gen.MatchHowFree, gen.MatchHowAcross, gen.MatchHowAlong, gen.MatchHowCentred, gen.MatchHowAnchor, gen.MatchHowRunsOn,
	}[h]
}

func coverText(c furniture.Cover) gen.CuttingListCover {
	return [...]gen.CuttingListCover{gen.CuttingListCoverTop, gen.CuttingListCoverOutside, gen.CuttingListCoverLining}[c]
}

func placeName(p furniture.Place) gen.CuttingListPlace {
	return [...]gen.CuttingListPlace{gen.CuttingListPlaceSeat, gen.CuttingListPlaceBack, gen.CuttingListPlaceArm}[p]
}
