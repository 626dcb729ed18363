package httpapi

import (
	"context"
	"net/http"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// AnswerPiping reads a request for piping and answers it, as AnswerYardage does.
func (s *Server) AnswerPiping(ctx context.Context, body []byte) (*service.PipingAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/piping", body, s.piping)
}

// piping lays out strips and runs when its turn has come.
func (s *Server) piping(ctx context.Context, req service.PipingRequest) (*service.PipingAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.PipingAnswer, error) { return service.Piping(ctx, req) })
}

// Piping answers POST /v1/piping.
func (h handlers) Piping(ctx context.Context, _ gen.PipingRequestObject) (gen.PipingResponseObject, error) {
	return answered(ctx, h.piping, wirePiping, drawing.PipingPicture)
}

// VisitPipingResponse sends the answer.
func (r reply) VisitPipingResponse(w http.ResponseWriter) error { return r.write(w) }

// pipingFromWire translates a request, as requestFromWire does.
func pipingFromWire(w *gen.PipingRequest) (service.PipingRequest, fault.List) {
	var t translator
	root := fault.Path{}
	strip, joins := value(w.Strip), value(w.Joins)
	req := service.PipingRequest{
		Units:   unitsFrom(value(w.Units)),
		Cord:    lengthFrom(w.Cord.Diameter),
		Double:  value(w.Cord.Double),
		Width:   t.positive(strip.Width, root.Field("strip").Field("width")),
		Angle:   piping.TrueBias,
		OneLean: strip.SameWay,
	}
	t.own(practice.PipingCloth, strip.Thickness)
	t.own(practice.PipingSeam, strip.Seam)
	t.own(service.PipingStep(req.Units), strip.Step)
	t.own(practice.PipingLeast, strip.LeastPiece)
	t.own(practice.PipingJoin, joins.Seam)
	t.own(practice.PipingOverlap, joins.Overlap)
	t.own(practice.PipingEnds, joins.Ends)
	t.own(practice.PipingCorner, joins.Corner)
	req.Shop = t.shop
	if w.Cloth != nil {
		req.Cloth, req.Sold = t.cloth(w.Cloth, root.Field("cloth")), new(t.sold(w.Cloth, root.Field("cloth")))
	}
	t.pipingStrip(&req, &strip, root.Field("strip"))
	for i := range value(w.Offcuts) {
		req.Offcuts = append(req.Offcuts, t.pipingOffcut(&(*w.Offcuts)[i], root.Field("offcuts").Index(i)))
	}
	most := service.MaxPipingJoins
	if joins.Most != nil {
		most = *joins.Most
	}
	for i := range w.Runs {
		req.Runs = append(req.Runs, t.pipedRun(&w.Runs[i], most, root.Field("runs").Index(i)))
	}
	if w.Way != nil {
		way := pipingWayFrom(*w.Way)
		req.Way = &way
	}
	return req, t.shape
}

func (t *translator) pipingStrip(req *service.PipingRequest, w *gen.PipingStripWish, at fault.Path) {
	switch value(w.Cut) {
	case gen.PipingStripWishCutAcross:
		req.Cut = piping.Across
	case gen.PipingStripWishCutAlong:
		req.Cut = piping.Along
	}
	if w.Angle != nil {
		req.Angle = *w.Angle
		if req.Cut != piping.Bias {
			t.shape.Add(at.Field("angle"), fault.NotAllowed, "", "an angle belongs to strips on the bias", "leave angle out, or change cut")
		}
	}
	if w.Stretch != nil {
		share, _ := parseShare(*w.Stretch)
		req.Stretch = int(share / 1000) // of millionths
		if req.Stretch <= 0 {
			t.shape.Add(at.Field("stretch"), fault.TooSmall, *w.Stretch, "a stretch is at least 0.1 %", "from 0.1 % to 50 %, or leave it out")
		} else if req.Stretch > service.MaxPipingStretch {
			t.shape.Add(at.Field("stretch"), fault.TooLarge, *w.Stretch, "a stretch is at most 50 %", "from 0.1 % to 50 %, or leave it out")
		}
	}
}

// pipingOffcut is a rectangle by its millimetres or by its lengths, one of the two.
func (t *translator) pipingOffcut(w *gen.PipingOffcut, at fault.Path) service.PipingOffcut {
	o := service.PipingOffcut{Name: value(w.Name)}
	if w.XMm != nil && w.YMm != nil {
		o.On = new(value(w.Piece))
	}
	switch {
	case w.Size != nil && (w.AcrossMm != nil || w.AlongMm != nil):
		t.shape.Add(at.Field("size"), fault.NotAllowed, "", "the size is given twice", "size, or acrossMm and alongMm")
	case w.Size == nil && w.AcrossMm == nil:
		t.shape.Add(at.Field("acrossMm"), fault.Missing, "", "an offcut needs its size", "size, or acrossMm and alongMm")
	case w.Size == nil && w.AlongMm == nil:
		t.shape.Add(at.Field("alongMm"), fault.Missing, "", "an offcut needs its size", "size, or acrossMm and alongMm")
	}
	if w.XMm == nil && w.YMm != nil {
		t.shape.Add(at.Field("xMm"), fault.Missing, "", "a place is both", "xMm and yMm, or neither")
	}
	if w.XMm != nil && w.YMm == nil {
		t.shape.Add(at.Field("yMm"), fault.Missing, "", "a place is both", "xMm and yMm, or neither")
	}
	o.Rect = piping.Rect{X: fromMM(value(w.XMm)), Y: fromMM(value(w.YMm)), Across: fromMM(value(w.AcrossMm)), Along: fromMM(value(w.AlongMm))}
	if w.Size != nil {
		o.Rect.Across, o.Rect.Along = lengthFrom(w.Size.Across), lengthFrom(w.Size.Along)
	}
	return o
}

func (t *translator) pipedRun(w *gen.PipingRun, most int, at fault.Path) service.PipingRun {
	r := service.PipingRun{Name: value(w.Name), Count: 1}
	r.Length, r.Closed, r.Curved = lengthFrom(w.Length), value(w.Closed), value(w.Curved)
	r.Radius = t.positive(w.Radius, at.Field("radius"))
	r.MaxJoins = most
	if w.MaxJoins != nil {
		r.MaxJoins = *w.MaxJoins
	}
	if w.Count != nil {
		r.Count = *w.Count
	}
	for _, c := range value(w.Corners) {
		r.Corners = append(r.Corners, lengthFrom(c))
	}
	for _, s := range value(w.NoJoin) {
		r.NoJoin = append(r.NoJoin, piping.Span{From: lengthFrom(s.From), To: lengthFrom(s.To)})
	}
	return r
}

// pipingWays are the ways as the contract has them.
var pipingWays = [...]gen.PipingWayName{
	piping.FromRects:    gen.PipingWayNameOffcuts,
	piping.FullBias:     gen.PipingWayNameBiasStrips,
	piping.BiasPiece:    gen.PipingWayNameBiasPiece,
	piping.Continuous:   gen.PipingWayNameContinuous,
	piping.StraightCuts: gen.PipingWayNameAcrossStrips,
	piping.LongCuts:     gen.PipingWayNameAlongStrips,
}

func pipingWayFrom(name gen.PipingWayName) piping.Way {
	for way, n := range pipingWays {
		if n == name {
			return piping.Way(way)
		}
	}
	return piping.FullBias
}
