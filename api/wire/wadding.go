package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
)

// WaddingIn translates a request, as YardageIn does.
func WaddingIn(w *gen.WaddingRequest) (service.WaddingRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.WaddingRequest{Units: unitsFrom(value(w.Units))}
	req.Shop = t.shop
	for i := range w.Items {
		req.Items = append(req.Items, t.waddingItem(&w.Items[i], root.Field("items").Index(i)))
	}
	for i, s := range value(w.Settings) {
		at := root.Field("settings").Index(i)
		number := s.Number
		if s.OuncesPerSquareYard != nil {
			if number != nil {
				t.shape.Add(at.Field("ouncesPerSquareYard"), fault.NotAllowed, "", "the weight is given twice", "number or ouncesPerSquareYard")
				continue
			}
			grams := float64(wadding.OuncesPerSquareYard(millionths(*s.OuncesPerSquareYard))) / 1e6
			number = &grams
		}
		req.Given = append(req.Given, t.settingFromWire(string(s.Name), s.Length, number, s.Count, at)...)
	}
	return req, t.shape
}

var (
	waddingKinds = map[gen.WaddingItemKind]wadding.Kind{
		gen.WaddingItemKindPad: wadding.Pad, gen.WaddingItemKindArm: wadding.Arm, gen.WaddingItemKindBack: wadding.Back,
		gen.WaddingItemKindDome: wadding.Dome, gen.WaddingItemKindSeats: wadding.Seats,
	}
	waddingWraps     = map[gen.WaddingItemWrap]wadding.Wrap{gen.WaddingItemWrapAllRound: wadding.AllRound, gen.WaddingItemWrapEnds: wadding.EndsOnly}
	waddingPlaces    = map[gen.WaddingItemPlace]wadding.Place{gen.WaddingItemPlaceDropIn: wadding.DropIn, gen.WaddingItemPlaceEasyChair: wadding.EasyChair}
	waddingMaterials = map[gen.WaddingItemMaterial]wadding.Material{
		gen.WaddingItemMaterialSkin: wadding.Skin, gen.WaddingItemMaterialCottonFelt: wadding.CottonFelt,
		gen.WaddingItemMaterialHair: wadding.Hair, gen.WaddingItemMaterialFibre: wadding.Fibre,
	}
)

func (t *translator) waddingItem(w *gen.WaddingItem, at fault.Path) wadding.Item {
	it := wadding.Item{
		ID: w.Id, Name: value(w.Name), Kind: waddingKinds[w.Kind], Count: 1, Layers: 1,
		Width: t.positive(w.Width, at.Field("width")), Depth: t.positive(w.Depth, at.Field("depth")),
		Thickness: t.positive(w.Thickness, at.Field("thickness")), Rise: t.positive(w.Rise, at.Field("rise")),
		Wrap: waddingWraps[value(w.Wrap)], Ends: value(w.Ends), Material: waddingMaterials[value(w.Material)],
		Whole: value(w.Whole), Place: waddingPlaces[value(w.Place)],
	}
	if w.Count != nil {
		it.Count = *w.Count
	}
	if w.Layers != nil {
		it.Layers = *w.Layers
	}
	return it
}

// WaddingOut is the answer as the contract has it. Lists are never null.
func WaddingOut(ans *service.WaddingAnswer, digest string) gen.WaddingAnswer {
	units := ans.Request.Units
	g := gen.WaddingAnswer{
		Items: make([]gen.WaddingItemAnswer, len(ans.Work.Laid)), Rolls: []gen.WaddingRoll{}, Loose: []gen.WaddingLoose{},
		Settings: wireSettings(units, ans.Work.Settings),
		Warnings: wireNotes(ans.Request.Units, ans.Warnings), Cautions: wireNotes(ans.Request.Units, ans.Cautions),
		Engine: service.EngineVersion, InputDigest: digest,
	}
	for k, l := range ans.Work.Laid {
		it := ans.Request.Items[k]
		g.Items[k] = gen.WaddingItemAnswer{
			Id: it.ID, Material: gen.WaddingItemAnswerMaterial(it.Material.String()), Mass: massIn(units, l.Mass),
			Laid: quantityIn(units, l.Before, length.Up), UnderCover: quantityIn(units, l.After, length.Nearest), Lost: quantityIn(units, l.Lost, length.Nearest),
		}
	}
	for _, r := range ans.Rolls {
		g.Rolls = append(g.Rolls, gen.WaddingRoll{
			Material: gen.WaddingRollMaterial(r.Sheet.Material.String()), Roll: quantityIn(units, r.Sheet.Roll, length.Nearest), Rolls: int(r.Rolls),
			Mass: massIn(units, r.Sheet.Mass), Cutting: wireCutting(units, r.Plan),
		})
	}
	for _, l := range ans.Work.Loose {
		g.Loose = append(g.Loose, gen.WaddingLoose{
			Material: gen.WaddingLooseMaterial(l.Material.String()), Mass: massIn(units, l.Mass), Bag: massIn(units, l.Bag), Bags: int(l.Bags),
		})
	}
	return g
}
