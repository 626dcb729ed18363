package httpapi

import (
	"context"
	"net/http"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// AnswerFoundation reads a request for the foundation of some frames and answers
// it, as AnswerYardage does.
func (s *Server) AnswerFoundation(ctx context.Context, body []byte) (*service.FoundationAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/foundation", body, s.foundation)
}

// foundation works out a job when its turn has come.
func (s *Server) foundation(ctx context.Context, req service.FoundationRequest) (*service.FoundationAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.FoundationAnswer, error) { return service.Foundation(ctx, req) })
}

// Foundation answers POST /v1/foundation.
func (h handlers) Foundation(ctx context.Context, _ gen.FoundationRequestObject) (gen.FoundationResponseObject, error) {
	return answered(ctx, h.foundation, wireFoundation, drawing.FoundationPicture)
}

// VisitFoundationResponse sends the answer.
func (r reply) VisitFoundationResponse(w http.ResponseWriter) error { return r.write(w) }

// foundationFromWire translates a request, as requestFromWire does.
func foundationFromWire(w *gen.FoundationRequest) (service.FoundationRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.FoundationRequest{Units: unitsFrom(value(w.Units))}
	if value(w.Build) == gen.FoundationRequestBuildModern {
		req.Build = foundation.Modern
	}
	if value(w.Fixing) == gen.FoundationRequestFixingStaples {
		req.Fixing = foundation.Staples
	}
	for i := range w.Frames {
		req.Frames = append(req.Frames, t.frame(&w.Frames[i], root.Field("frames").Index(i)))
	}
	for i, s := range value(w.Settings) {
		req.Given = append(req.Given, t.settingFromWire(string(s.Name), s.Length, s.Number, s.Count, root.Field("settings").Index(i))...)
	}
	return req, t.shape
}

var (
	frameParts  = map[gen.FoundationFramePart]foundation.Part{gen.FoundationFramePartBack: foundation.Back, gen.FoundationFramePartArm: foundation.Arm}
	framePlaces = map[gen.FoundationFramePlace]foundation.Place{
		gen.FoundationFramePlaceSmallChair: foundation.SmallChair, gen.FoundationFramePlaceDropIn: foundation.DropIn,
		gen.FoundationFramePlaceDivan: foundation.Divan,
	}
	frameShapes = map[gen.FoundationFrameShape]foundation.Shape{
		gen.FoundationFrameShapeTrapezoid: foundation.Trapezoid, gen.FoundationFrameShapeD: foundation.DShape,
		gen.FoundationFrameShapeCircle: foundation.Circle,
	}
)

func (t *translator) frame(w *gen.FoundationFrame, at fault.Path) foundation.Frame {
	f := foundation.Frame{
		ID: w.Id, Name: value(w.Name), Count: 1, EdgeRows: -1,
		Part: frameParts[value(w.Part)], Place: framePlaces[value(w.Place)], Shape: frameShapes[value(w.Shape)],
		Front: lengthFrom(w.Front), Back: t.positive(w.Back, at.Field("back")), Depth: t.positive(w.Depth, at.Field("depth")),
		Rail:       t.positive(w.Rail, at.Field("rail")),
		WebsAcross: value(w.WebsAcross), WebsAlong: value(w.WebsAlong),
		UnderSprings: value(w.LayWebs) == gen.FoundationFrameLayWebsUnderSprings,
		Springs:      value(w.SpringRows), ShowWood: value(w.ShowWood),
	}
	if w.Count != nil {
		f.Count = *w.Count
	}
	if w.EdgeRows != nil {
		f.EdgeRows = *w.EdgeRows
	}
	if w.Sprung != nil {
		f.Sprung = foundation.No
		if *w.Sprung {
			f.Sprung = foundation.Yes
		}
	}
	return f
}
