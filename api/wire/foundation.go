package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/service"
)

// FoundationIn translates a request, as YardageIn does.
func FoundationIn(w *gen.FoundationRequest) (service.FoundationRequest, fault.List) {
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
