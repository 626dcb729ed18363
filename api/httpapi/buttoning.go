package httpapi

import (
	"context"
	"net/http"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// AnswerButtoning reads a request body and answers it, as AnswerYardage does.
func (s *Server) AnswerButtoning(ctx context.Context, body []byte) (*service.ButtoningAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/buttoning", body, s.buttoning)
}

// buttoning answers when its turn has come, since it may search.
func (s *Server) buttoning(ctx context.Context, req service.ButtoningRequest) (*service.ButtoningAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.ButtoningAnswer, error) { return service.Buttoning(ctx, req) })
}

// Buttoning answers POST /v1/buttoning.
func (h handlers) Buttoning(ctx context.Context, _ gen.ButtoningRequestObject) (gen.ButtoningResponseObject, error) {
	return answered(ctx, h.buttoning, wireButtoning, drawing.ButtoningPicture)
}

// VisitButtoningResponse sends the answer.
func (r reply) VisitButtoningResponse(w http.ResponseWriter) error { return r.write(w) }

// buttoningFromWire translates a request, as requestFromWire does.
func buttoningFromWire(w *gen.ButtoningRequest) (service.ButtoningRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.ButtoningRequest{
		Units:   unitsFrom(value(w.Units)),
		Name:    value(w.Panel.Name),
		Panel:   buttonedPanel(&w.Panel),
		Grid:    t.buttonGrid(&w.Grid, root.Field("grid")),
		Vary:    lengthFrom(value(w.Grid.Vary)),
		Depth:   lengthFrom(w.Depth),
		Eased:   value(w.Edge) == gen.ButtoningRequestEdgeEased,
		Cloth:   t.cloth(&w.Cloth, root.Field("cloth")),
		Join:    value(w.Join) != gen.ButtoningRequestJoinNever,
		Aim:     t.buttoningAim(w.Aim, root.Field("aim")),
		Buttons: t.buttonWish(&w.Buttons),
	}
	if w.Groove != nil {
		groove := lengthFrom(*w.Groove)
		req.Groove = &groove
	}
	if a := w.Allowance; a != nil {
		req.Model = modelFrom(value(a.How))
		t.own(practice.ButtoningAmount, a.Amount)
	}
	t.own(practice.PanelJoin, w.JoinSeam)
	if w.Lies != nil {
		req.Lies = buttoning.Shift{X: lengthFrom(value(w.Lies.Across)), Y: lengthFrom(value(w.Lies.Along))}
	}
	for _, m := range value(w.MotifSizes) {
		req.Sizes = append(req.Sizes, service.MotifSize{Motif: m.Motif, Size: panel.Size{Across: lengthFrom(m.Across), Along: lengthFrom(m.Along)}})
	}
	req.Shop = t.shop
	return req, t.shape
}

func modelFrom(how gen.ButtoningAllowanceHow) buttoning.Model {
	switch how {
	case gen.ButtoningAllowanceHowAmount:
		return buttoning.ByAmount
	case gen.ButtoningAllowanceHowTwiceDepth:
		return buttoning.ByTwiceDepth
	}
	return buttoning.ByArc
}

func buttonedPanel(w *gen.ButtoningPanel) buttoning.Panel {
	p := buttoning.Panel{
		Size:  panel.Size{Across: lengthFrom(w.Size.Across), Along: lengthFrom(w.Size.Along)},
		Crown: lengthFrom(value(w.Crown)),
		Allow: sidesFrom(w.Allow),
	}
	if m := w.Margins; m != nil {
		p.Edges = buttoning.Edges{Side: lengthFrom(value(m.Side)), Top: lengthFrom(value(m.Top)), Bottom: lengthFrom(value(m.Bottom))}
	}
	return p
}

// buttonGrid records the fields that the way needs and lacks, or has and may
// not.
func (t *translator) buttonGrid(w *gen.ButtoningGrid, at fault.Path) buttoning.Wish {
	g := buttoning.Wish{
		Rows: value(w.Rows), Columns: value(w.Columns),
		Width: lengthFrom(value(w.Width)), Height: lengthFrom(value(w.Height)),
		Buttons: value(w.Buttons), Ratio: buttoning.PleasingRatio(t.shop),
		Short: value(w.FirstRow) == gen.ButtoningGridFirstRowShort,
	}
	switch w.How {
	case gen.ButtoningGridHowSpacing:
		g.How = buttoning.Spacing
	case gen.ButtoningGridHowAbout:
		g.How = buttoning.About
	case gen.ButtoningGridHowProportion:
		g.How = buttoning.Proportion
	}
	if w.Ratio != nil {
		g.Ratio = buttoning.Ratio{Num: int64(w.Ratio.Height), Den: int64(w.Ratio.Width)}
	}
	counts, spacing, about, ratio := g.How == buttoning.Counts, g.How == buttoning.Spacing, g.How == buttoning.About, g.How == buttoning.Proportion
	t.belongs(at.Field("rows"), w.Rows != nil, counts, true, "rows", "counts")
	t.belongs(at.Field("columns"), w.Columns != nil, counts, true, "columns", "counts")
	t.belongs(at.Field("width"), w.Width != nil, spacing || ratio, true, "width", "spacing and proportion")
	t.belongs(at.Field("height"), w.Height != nil, spacing, true, "height", "spacing")
	t.belongs(at.Field("buttons"), w.Buttons != nil, about, true, "buttons", "about")
	t.belongs(at.Field("ratio"), w.Ratio != nil, about || ratio, false, "ratio", "about and proportion")
	return g
}

func (t *translator) buttoningAim(w *gen.ButtoningAim, at fault.Path) *service.ButtoningAim {
	if w == nil {
		return nil
	}
	a := &service.ButtoningAim{OneSide: w.Symmetric != nil && !*w.Symmetric, Motifs: value(w.Motifs)}
	switch w.How {
	case gen.ButtoningAimHowButtons:
		a.How = service.AimButtons
	case gen.ButtoningAimHowPlaces:
		a.How = service.AimPlaces
	}
	places := a.How == service.AimPlaces
	t.belongs(at.Field("motifs"), w.Motifs != nil, !places, false, "motifs", "diamonds and buttons")
	t.belongs(at.Field("places"), w.Places != nil, places, true, "places", "places")
	for _, p := range value(w.Places) {
		a.Places = append(a.Places, service.MotifPlace{
			Motif: p.Motif, OnButton: p.On == gen.ButtoningPlaceOnButton, Spot: buttoning.Spot{Row: p.Row, Number: p.Number},
		})
	}
	return a
}

func (t *translator) buttonWish(w *gen.ButtoningButtons) service.ButtonWish {
	b := service.ButtonWish{Lines: w.Lines, Motif: w.Motif, Tufts: value(w.Behind) == gen.ButtoningButtonsBehindTufts}
	t.own(practice.ButtonCloth, w.Thickness)
	t.own(practice.ButtonThrough, w.Through)
	t.own(practice.ButtonTie, w.Tie)
	for _, o := range value(w.Offcuts) {
		b.Offcuts = append(b.Offcuts, panel.Size{Across: lengthFrom(o.Across), Along: lengthFrom(o.Along)})
	}
	return b
}
