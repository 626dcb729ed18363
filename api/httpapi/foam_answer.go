package httpapi

import (
	"math"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/service"
)

// wireFoam is the answer as the contract has it.
func wireFoam(ans *service.FoamAnswer, digest string) gen.FoamAnswer {
	r := ans.Result
	g := gen.FoamAnswer{
		Items: []gen.FoamCut{}, Groups: []gen.FoamGroup{}, Sheets: []gen.FoamSheetCut{},
		Cost: foamMoney(ans, ans.Request.Total(r)), MassG: r.Grams, Proven: r.Proven(), Work: r.Work,
		Defaults: append([]string{}, ans.Defaults...), Warnings: wireNotes(ans.Request.Units, ans.Warnings), Cautions: wireNotes(ans.Request.Units, ans.Cautions),
		Engine: service.EngineVersion, InputDigest: digest,
	}
	for i := range r.Cuts {
		g.Items = append(g.Items, wireFoamCut(ans, i))
	}
	for i := range r.Groups {
		g.Groups = append(g.Groups, wireFoamGroup(ans, i))
		g.Sheets = append(g.Sheets, wireFoamSheets(ans, i)...)
	}
	return g
}

// foamMoney is an amount, where there are prices.
func foamMoney(ans *service.FoamAnswer, m money.Money) *gen.Money {
	if !ans.Request.Priced() {
		return nil
	}
	w := wireMoney(m)
	return &w
}

func wireFoamCut(ans *service.FoamAnswer, i int) gen.FoamCut {
	it, c := &ans.Request.Items[i], &ans.Result.Cuts[i]
	advice := foam.Advise(it.Place, ans.Request.Use)
	q := func(l length.Length) gen.Quantity { return foamLength(ans, l, length.Nearest) }
	g := gen.FoamCut{
		Id: it.ID, Count: it.Count, Across: foamLength(ans, c.Across, length.Up), Along: foamLength(ans, c.Along, length.Up),
		OverCut: q(c.Over), Wanted: q(it.Wanted()), Thickness: q(c.Thickness), Off: q(c.Off),
		AreaMm2: math.Round(c.Shape.Area().MM2()), CornersMm2: math.Round(c.Waste), MassG: c.Grams,
	}
	g.Advice.Class, g.Advice.Text, g.Advice.Source = advice.Class, advice.Text, advice.Source
	for _, l := range c.Layers {
		part := gen.FoamCutLayersPartCore
		if l.Top {
			part = gen.FoamCutLayersPartTop
		}
		g.Layers = append(g.Layers, struct {
			Count     int                   `json:"count"`
			Foam      gen.PanelId           `json:"foam"`
			Part      gen.FoamCutLayersPart `json:"part"`
			Thickness gen.Quantity          `json:"thickness"`
		}{l.Count, ans.Request.Foams[l.Foam].ID, part, q(l.Thickness)})
	}
	for _, p := range c.Shape.Path() {
		g.OutlineMm = append(g.OutlineMm, []float64{p[0], p[1]})
	}
	return g
}

func wireFoamGroup(ans *service.FoamAnswer, i int) gen.FoamGroup {
	gr := &ans.Result.Groups[i]
	g := gen.FoamGroup{
		Foam: ans.Request.Foams[gr.Foam].ID, Thickness: foamLength(ans, gr.Thickness, length.Nearest),
		Pieces: len(gr.Pieces), Sheets: len(gr.Nest.Sheets), Bound: gr.Nest.Bound, Proven: gr.Nest.Proven,
		WastePercent: math.Round(gr.Waste*1e4) / 1e2, Cost: foamMoney(ans, ans.Request.Money(gr)),
	}
	for _, b := range gr.Buy() {
		g.Buy = append(g.Buy, struct {
			Count int         `json:"count"`
			Sheet gen.PanelId `json:"sheet"`
		}{b.Count, ans.Request.Stock[b.Stock].ID})
	}
	return g
}

func wireFoamSheets(ans *service.FoamAnswer, i int) []gen.FoamSheetCut {
	gr := &ans.Result.Groups[i]
	list := make([]gen.FoamSheetCut, len(gr.Nest.Sheets))
	for n, s := range gr.Nest.Sheets {
		g := &list[n]
		g.Sheet = ans.Request.Stock[gr.Stock[s.Kind]].ID
		g.Pieces = make([]struct {
			AcrossMm gen.Coordinate `json:"acrossMm"`
			AlongMm  gen.Coordinate `json:"alongMm"`
			Copy     int            `json:"copy"`
			Item     gen.PanelId    `json:"item"`
			Layer    int            `json:"layer"`
			Turned   bool           `json:"turned"`
			XMm      gen.Coordinate `json:"xMm"`
			YMm      gen.Coordinate `json:"yMm"`
		}, len(s.Pieces))
		for k, p := range s.Pieces {
			to, of := &g.Pieces[k], gr.Pieces[p.Piece]
			to.Item, to.Copy, to.Layer, to.Turned = ans.Request.Items[of.Item].ID, of.Copy, of.Layer, p.Turned
			to.XMm, to.YMm, to.AcrossMm, to.AlongMm = p.X.MM(), p.Y.MM(), p.Across.MM(), p.Along.MM()
		}
		left := ans.Offcuts[i][n]
		g.Offcuts = make([]struct {
			AcrossMm gen.Coordinate `json:"acrossMm"`
			AlongMm  gen.Coordinate `json:"alongMm"`
			XMm      gen.Coordinate `json:"xMm"`
			YMm      gen.Coordinate `json:"yMm"`
		}, len(left))
		for k, o := range left {
			to := &g.Offcuts[k]
			to.XMm, to.YMm, to.AcrossMm, to.AlongMm = o.X.MM(), o.Y.MM(), o.Across.MM(), o.Along.MM()
		}
	}
	return list
}
