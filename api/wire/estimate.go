package wire

import (
	"maps"
	"slices"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/glance"
)

// EstimateIn translates a request, as YardageIn does.
func EstimateIn(w *gen.EstimateRequest) (glance.EstimateRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := glance.EstimateRequest{
		Piece: furniture.Piece{
			Kind: w.Kind, Count: 1, Units: unitsFrom(value(w.Units)), Measures: make(map[string]length.Length), Options: value(w.Options),
			Way: wayFrom(w.Way),
		},
	}
	if w.Count != nil {
		req.Piece.Count = *w.Count
	}
	given := value(w.Measures)
	for _, id := range slices.Sorted(maps.Keys(given)) {
		req.Piece.Measures[id] = lengthFrom(given[id])
	}
	req.Size = map[gen.EstimateRequestSize]glance.Size{gen.EstimateRequestSizeSmall: glance.Small, gen.EstimateRequestSizeLarge: glance.Large}[value(w.Size)]
	req.Patterned = map[gen.EstimateRequestPattern]glance.Patterned{
		gen.EstimateRequestPatternPlain: glance.Plain, gen.EstimateRequestPatternSmall: glance.SmallPattern, gen.EstimateRequestPatternLarge: glance.LargePattern,
	}[value(w.Pattern)]
	t.own(practice.UsualCloth, w.ClothWidth)
	req.Shop = t.shop
	if w.Cloth != nil {
		at := root.Field("cloth")
		req.Cloth = &glance.Cloth{Cloth: t.cloth(w.Cloth, at), Sold: t.sold(w.Cloth, at)}
		if w.Pattern != nil {
			t.shape.Add(root.Field("pattern"), fault.NotAllowed, string(*w.Pattern), "the cloth says how it is patterned", "leave pattern or cloth out")
		}
		if w.ClothWidth != nil {
			t.shape.Add(root.Field("clothWidth"), fault.NotAllowed, *w.ClothWidth, "the cloth says how wide it is", "leave clothWidth or cloth out")
		}
	}
	t.estimatePrices(w, &req)
	return req, t.shape
}

func (t *translator) estimatePrices(w *gen.EstimateRequest, req *glance.EstimateRequest) {
	root := fault.Path{}
	if b := w.Price; b != nil {
		at := root.Field("price")
		low := t.price(&gen.Price{Amount: b.Low, Currency: b.Currency, Per: gen.PricePer(b.Per)}, at)
		high := *low
		if again := t.amount(b.High, b.Currency); again != nil {
			high.Money = *again
		}
		req.Band = &glance.PriceBand{Low: *low, High: high}
	}
	if l := w.Labour; l != nil {
		m := t.money(l.Rate, l.Currency, root.Field("labour"))
		req.Labour = &glance.LabourRate{Hour: m}
	}
	if share, ok := formats.Share(value(w.Tax)); ok {
		req.Tax = decimal.New(int64(share), -4)
		if share < 0 || req.Tax.GreaterThan(decimal.New(50, 0)) {
			t.shape.Add(root.Field("tax"), fault.TooLarge, *w.Tax, "a rate of tax is from 0 % to 50 %", `from "0 %" to "50 %"`)
		}
	}
}

// EstimateOut is the answer as the contract has it.
func EstimateOut(ans *glance.EstimateAnswer, digest string) gen.EstimateAnswer {
	w := answerWriter{units: ans.Request.Piece.Units}
	g := gen.EstimateAnswer{
		Way: wayText(ans.Request.Piece.Way),
		Order: gen.EstimateLengths{
			Low: w.quantity(ans.Order.Low, length.Up), Likely: w.quantity(ans.Order.Likely, length.Up), High: w.quantity(ans.Order.High, length.Up),
		},
		Hours:    gen.EstimateHours{Low: ans.Hours.Low.String(), Likely: ans.Hours.Likely.String(), High: ans.Hours.High.String()},
		Narrow:   []gen.EstimateNarrower{},
		Warnings: wireNotes(w.units, ans.Warnings), Cautions: wireNotes(w.units, ans.Cautions),
		Engine: service.EngineVersion, InputDigest: digest,
	}
	if p := ans.Price; p != nil {
		g.Price = &gen.EstimatePrices{Low: wireMoney(p.Low), Likely: wireMoney(p.Likely), High: wireMoney(p.High)}
	}
	for _, n := range ans.Narrow {
		one := gen.EstimateNarrower{Name: wireNote(w.units, n.Name), Percent: n.Percent}
		set(&one.Measure, n.Measure)
		g.Narrow = append(g.Narrow, one)
	}
	return g
}
