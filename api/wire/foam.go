package wire

import (
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// FoamIn translates a request for foam, as YardageIn does.
func FoamIn(w *gen.FoamRequest) (service.FoamRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.FoamRequest{Units: unitsFrom(value(w.Units))}
	t.own(practice.FoamKerf, w.Kerf)
	req.Shop = t.shop
	if w.Currency != nil {
		req.Currency = t.currency(*w.Currency, root)
	}
	switch value(w.Effort) {
	case gen.EffortQuick:
		req.Effort = foam.Quick
	case gen.EffortThorough:
		req.Effort = foam.Thorough
	}
	switch value(w.Use) {
	case gen.FoamRequestUseContract:
		req.Use = foam.Contract
	case gen.FoamRequestUseHeavyContract:
		req.Use = foam.HeavyContract
	}
	ids := make(map[string]int)
	for i := range w.Foams {
		f := &w.Foams[i]
		if _, ok := ids[f.Id]; !ok {
			ids[f.Id] = i
		}
		req.Foams = append(req.Foams, t.foamQuality(f, root.Field("foams").Index(i)))
	}
	for i := range w.Sheets {
		req.Stock = append(req.Stock, t.foamSheet(&w.Sheets[i], w.Currency != nil, ids, root.Field("sheets").Index(i)))
	}
	for i := range w.Items {
		req.Items = append(req.Items, t.foamItem(&w.Items[i], ids, root.Field("items").Index(i)))
	}
	return req, t.shape
}

// foamID is which foam an id names; -1, with a fault, for none.
func (t *translator) foamID(id string, ids map[string]int, at fault.Path) int {
	n, ok := ids[id]
	if !ok {
		t.shape.Add(at, fault.UnknownFoam, id, "there is no foam with this id", "the id of one of the foams")
		return -1
	}
	return n
}

func (t *translator) foamQuality(w *gen.FoamQuality, at fault.Path) foam.Foam {
	f := foam.Foam{ID: w.Id, Name: value(w.Name), Hardness: int64(value(w.HardnessN)), At: 40}
	if value(w.HardnessAt) == gen.FoamQualityHardnessAtN25 {
		f.At = 25
	}
	if w.HardnessAt != nil && w.HardnessN == nil {
		t.shape.Add(at.Field("hardnessAt"), fault.NotAllowed, string(*w.HardnessAt), "hardnessAt belongs to hardnessN", "give hardnessN, or leave hardnessAt out")
	}
	const least, most = 5_000, 500_000
	grams, ok := parseDensity(w.Density)
	const try = `from 5 to 500 and kg/m3, for example "35 kg/m3"`
	switch {
	case !ok:
		t.shape.Add(at.Field("density"), fault.NotADensity, w.Density, "this is not a density", try)
	case grams < least:
		t.shape.Add(at.Field("density"), fault.TooSmall, w.Density, "no foam is as light as this", try)
	case grams > most:
		t.shape.Add(at.Field("density"), fault.TooLarge, w.Density, "no foam is as dense as this", try)
	}
	f.Density = grams
	return f
}

// parseDensity is grams a cubic metre of a text such as "35.5 kg/m3".
func parseDensity(s string) (int64, bool) {
	number, ok := strings.CutSuffix(strings.Replace(s, "m³", "m3", 1), "kg/m3")
	if !ok {
		return 0, false
	}
	whole, part, point := strings.Cut(strings.TrimSuffix(number, " "), ".")
	if !formats.Digits(whole) || len(whole) > 6 || point && (!formats.Digits(part) || len(part) > 3) {
		return 0, false
	}
	n, err := strconv.ParseInt(whole+(part + "000")[:3], 10, 64)
	return n, err == nil
}

func (t *translator) foamSheet(w *gen.FoamSheet, priced bool, ids map[string]int, at fault.Path) foam.Stock {
	k := foam.Stock{
		ID: w.Id, Foam: t.foamID(w.Foam, ids, at.Field("foam")),
		Across: lengthFrom(w.Across), Along: lengthFrom(w.Along), Thickness: lengthFrom(w.Thickness), Trim: lengthFrom(value(w.Trim)),
	}
	here := at.Field("price")
	switch {
	case w.Price == nil && priced:
		t.shape.Add(here, fault.Missing, "", "where there is a currency every sheet has a price", "give price, or leave currency out")
	case w.Price != nil && !priced:
		t.shape.Add(here, fault.NotAllowed, *w.Price, "a price needs a currency", "give currency, or leave price out")
	case w.Price != nil:
		var err error
		if k.Price, err = money.ParseAmount(*w.Price); err != nil {
			t.shape.Add(here, fault.NotAPrice, *w.Price, "this is not a price", `a decimal with a point and at most 4 decimals, for example "48.50"`)
		} else if k.Price.GreaterThan(decimal.NewFromInt(foam.MaxPrice)) {
			t.shape.Add(here, fault.TooLarge, *w.Price, "a sheet is at most 100000", "the price of one sheet")
		}
	}
	return k
}

func (t *translator) foamItem(w *gen.FoamItem, ids map[string]int, at fault.Path) foam.Item {
	it := foam.Item{
		ID: w.Id, Name: value(w.Name), Count: 1, Foam: t.foamID(w.Foam, ids, at.Field("foam")),
		Thickness: lengthFrom(w.Thickness), Crown: lengthFrom(value(w.Crown)), Shape: t.foamShape(&w.Shape, at.Field("shape")),
	}
	if w.Count != nil {
		it.Count = *w.Count
	}
	if w.OverCut != nil {
		over := lengthFrom(*w.OverCut)
		it.Over = &over
	}
	it.Place = map[gen.FoamItemPlace]foam.Place{
		gen.FoamItemPlaceBack: foam.Back, gen.FoamItemPlaceArm: foam.Arm, gen.FoamItemPlacePad: foam.Pad, gen.FoamItemPlaceScatter: foam.Scatter,
	}[w.Place]
	it.Fit = map[gen.FoamItemFit]foam.Fit{gen.FoamItemFitTight: foam.Tight, gen.FoamItemFitFlush: foam.Flush}[value(w.Fit)]
	if w.Top != nil {
		here := at.Field("top")
		it.Top = &foam.Top{Foam: t.foamID(w.Top.Foam, ids, here.Field("foam")), Thickness: lengthFrom(w.Top.Thickness), Both: value(w.Top.Both)}
	}
	return it
}

// foamForms are the forms by their names, with the measures that each has.
var foamForms = map[gen.FoamShapeForm]struct {
	form   foam.Form
	fields []string
}{
	gen.FoamShapeFormRectangle: {foam.Rectangle, []string{"across", "along"}},
	gen.FoamShapeFormTrapezoid: {foam.Trapezoid, []string{"across", "along", "back"}},
	gen.FoamShapeFormT:         {foam.TShape, []string{"across", "along", "earAcross", "earAlong"}},
	gen.FoamShapeFormL:         {foam.LShape, []string{"across", "along", "notchAcross", "notchAlong"}},
	gen.FoamShapeFormRounded:   {foam.Rounded, []string{"across", "along", "radius"}},
	gen.FoamShapeFormCircle:    {foam.Circle, []string{"diameter"}},
	gen.FoamShapeFormD:         {foam.DShape, []string{"across", "along"}},
	gen.FoamShapeFormOutline:   {foam.Outline, []string{"points"}},
}

func (t *translator) foamShape(w *gen.FoamShape, at fault.Path) foam.Shape {
	kind, known := foamForms[w.Form]
	s := foam.Shape{Form: kind.form, Along: lengthFrom(value(w.Along)), Back: lengthFrom(value(w.Back)), Radius: lengthFrom(value(w.Radius))}
	s.Across = lengthFrom(value(w.Across)) + lengthFrom(value(w.Diameter))
	s.EarAcross = lengthFrom(value(w.EarAcross)) + lengthFrom(value(w.NotchAcross))
	s.EarAlong = lengthFrom(value(w.EarAlong)) + lengthFrom(value(w.NotchAlong))
	if s.Form == foam.Circle {
		s.Along = s.Across
	}
	switch value(w.Ears) {
	case gen.FoamShapeEarsLeft:
		s.Ears = foam.EarLeft
	case gen.FoamShapeEarsRight:
		s.Ears = foam.EarRight
	}
	for _, p := range value(w.Points) {
		s.Points = append(s.Points, geom.Point{Across: fromMM(p.XMm), Along: fromMM(p.YMm)})
	}
	if !known { // its measures mean nothing
		s.Form = foam.NoForm
		return s
	}
	wants := strings.Join(kind.fields, " ")
	for _, f := range []struct {
		name  string
		given bool
	}{
		{"across", w.Across != nil}, {"along", w.Along != nil}, {"back", w.Back != nil}, {"diameter", w.Diameter != nil},
		{"earAcross", w.EarAcross != nil}, {"earAlong", w.EarAlong != nil}, {"notchAcross", w.NotchAcross != nil},
		{"notchAlong", w.NotchAlong != nil}, {"points", w.Points != nil}, {"radius", w.Radius != nil},
	} {
		belongs := strings.Contains(" "+wants+" ", " "+f.name+" ")
		t.belongs(at.Field(f.name), f.given, belongs, true, f.name, "a "+string(w.Form))
	}
	t.belongs(at.Field("ears"), w.Ears != nil, s.Form == foam.TShape, false, "ears", "a t")
	return s
}

// foamLength is a length for people and for programs, in the request's units.
func foamLength(ans *service.FoamAnswer, l length.Length, r length.Rounding) gen.Quantity {
	return answerWriter{units: ans.Request.Units}.quantity(l, r)
}

// FoamOut is the answer as the contract has it.
func FoamOut(ans *service.FoamAnswer, digest string) gen.FoamAnswer {
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
