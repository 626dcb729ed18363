package httpapi

import (
	"context"
	"net/http"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// The limits of a request for foam, which may list 500 cushions.
const (
	MaxFoamBody   = 262144
	maxFoamValues = 40000
)

// AnswerFoam reads a request for foam and answers it, as AnswerYardage does.
func (s *Server) AnswerFoam(ctx context.Context, body []byte) (*service.FoamAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/foam", body, s.foam)
}

// foam answers when its turn has come: it searches.
func (s *Server) foam(ctx context.Context, req service.FoamRequest) (*service.FoamAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.FoamAnswer, error) { return service.Foam(ctx, req) })
}

// Foam answers POST /v1/foam.
func (h handlers) Foam(ctx context.Context, _ gen.FoamRequestObject) (gen.FoamResponseObject, error) {
	return answered(ctx, h.foam, wireFoam, drawing.FoamPicture)
}

// VisitFoamResponse sends the answer.
func (r reply) VisitFoamResponse(w http.ResponseWriter) error { return r.write(w) }

// foamFromWire translates a request for foam, as requestFromWire does.
func foamFromWire(w *gen.FoamRequest) (service.FoamRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.FoamRequest{Units: unitsFrom(value(w.Units))}
	t.own(practice.FoamKerf, w.Kerf)
	req.Shop, req.Kerf = t.shop, t.shop.Length(practice.FoamKerf)
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
	if !allDigits(whole) || len(whole) > 6 || point && (!allDigits(part) || len(part) > 3) {
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
