package wire

import (
	"maps"
	"slices"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
)

// CuttingListIn translates a request, as YardageIn does.
func CuttingListIn(w *gen.CuttingListRequest) (service.CuttingListRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.CuttingListRequest{Piece: furniture.Piece{
		Kind: w.Kind, Count: 1, Units: unitsFrom(value(w.Units)), Motif: value(w.Motif), Shop: t.shop, Way: wayFrom(w.Way),
		Measures: make(map[string]length.Length), Options: value(w.Options),
	}}
	if w.Count != nil {
		req.Piece.Count = *w.Count
	}
	given := value(w.Measures)
	for _, id := range slices.Sorted(maps.Keys(given)) {
		req.Piece.Measures[id] = lengthFrom(given[id])
	}
	if a := w.Allow; a != nil {
		req.Piece.Allow = furniture.Allowances{
			Seam: lengthIn(a.Seam), Pull: lengthIn(a.Pull), Tuck: lengthIn(a.Tuck), Fly: lengthIn(a.Fly), Under: lengthIn(a.Under),
			Outside: lengthIn(a.Outside), BackTack: lengthIn(a.BackTack), Facing: lengthIn(a.Facing), Border: lengthIn(a.Border),
		}
	}
	if w.Cloth != nil {
		c := t.cloth(w.Cloth, root.Field("cloth"))
		req.Cloth = &c
	}
	if w.OutsideCloth != nil {
		c := t.cloth(w.OutsideCloth, root.Field("outsideCloth"))
		req.Outside = &c
	}
	req.Drop = value(w.Drop)
	for id, c := range value(w.Covers) {
		if req.Covers == nil {
			req.Covers = make(map[string]furniture.Cover)
		}
		req.Covers[id] = map[gen.CuttingListCover]furniture.Cover{
			gen.CuttingListCoverTop: furniture.Top, gen.CuttingListCoverOutside: furniture.Outside, gen.CuttingListCoverLining: furniture.Lining,
		}[c]
	}
	for i, p := range value(w.Replace) {
		req.Replace = append(req.Replace, t.panel(&p, root.Field("replace").Index(i)))
	}
	return req, t.shape
}

// CuttingListOut is the answer as the contract has it. Lists are never null.
func CuttingListOut(ans *service.CuttingListAnswer, digest string) gen.CuttingListAnswer {
	w := answerWriter{units: ans.Request.Piece.Units}
	g := gen.CuttingListAnswer{
		Covers: []gen.CuttingListCovered{}, Derived: []gen.CuttingListDerived{},
		Runs: []gen.CuttingListRun{}, Buttoned: []gen.CuttingListButtoned{}, Fillings: []gen.CuttingListFilling{},
		Frames: []gen.CuttingListFrame{}, Assumed: []gen.CuttingListAssumed{},
		Warnings: wireNotes(w.units, ans.Warnings), Cautions: wireNotes(w.units, ans.Cautions),
		Engine: service.EngineVersion, InputDigest: digest,
	}
	if ans.Request.Piece.Kind != "" {
		way := wayText(ans.Request.Piece.Way)
		g.Way = &way
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
			Panel: p.ID, Across: w.quantity(cut.Across, length.Up), Along: w.quantity(cut.Along, length.Up), How: wireNote(w.units, p.How),
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
		out[i] = gen.CuttingListLoosened{Panel: l.Panel, Wished: howText(l.Wished), Instead: howText(l.Instead), Why: wireNote(w.units, l.Why)}
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
		g.Fillings = append(g.Fillings, w.filling(f))
	}
	for _, f := range list.Frames {
		g.Frames = append(g.Frames, gen.CuttingListFrame{
			Id: f.ID, Count: f.Count, Round: f.Round, Place: placeName(f.Place),
			Across: w.quantity(f.Size.Across, length.Up), Along: w.quantity(f.Size.Along, length.Up),
		})
	}
}

func (w answerWriter) filling(f furniture.Filling) gen.CuttingListFilling {
	g := gen.CuttingListFilling{
		Id: f.ID, Name: f.Name, Count: f.Count, Loose: f.Loose, Round: f.Round, Place: placeName(f.Place),
		Across: w.quantity(f.Size.Across, length.Up), Along: w.quantity(f.Size.Along, length.Up), Thickness: w.quantity(f.Thickness, length.Nearest),
	}
	both := func(s panel.Size) (across, along *gen.Quantity) {
		if s == (panel.Size{}) {
			return nil, nil
		}
		return new(w.quantity(s.Across, length.Nearest)), new(w.quantity(s.Along, length.Nearest))
	}
	if f.Ears != furniture.NoEars {
		g.Ears = new([...]gen.CuttingListFillingEars{
			furniture.BothEars: gen.CuttingListFillingEarsBoth, furniture.LeftEar: gen.CuttingListFillingEarsLeft, furniture.RightEar: gen.CuttingListFillingEarsRight,
		}[f.Ears])
	}
	g.EarAcross, g.EarAlong = both(f.Ear)
	g.CornerAcross, g.CornerAlong = both(f.Corner)
	return g
}

// wireDiamond is a grid that is given by the size of a diamond.
func wireDiamond(d panel.Size) gen.ButtoningGrid {
	g := gen.ButtoningGrid{How: gen.ButtoningGridHowSpacing}
	set(&g.Width, text(d.Across))
	set(&g.Height, text(d.Along))
	return g
}
