package wire

import (
	"strings"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// FoundationIn translates a request, as YardageIn does.
func FoundationIn(w *gen.FoundationRequest) (service.FoundationRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.FoundationRequest{Units: unitsFrom(value(w.Units))}
	req.Shop = t.shop
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

// FoundationOut is the answer as the contract has it. Lists are never null.
func FoundationOut(ans *service.FoundationAnswer, digest string) gen.FoundationAnswer {
	w := foundationWriter{units: ans.Request.Units}
	g := gen.FoundationAnswer{
		Frames: make([]gen.FoundationFrameAnswer, len(ans.Work.Built)), Cloths: make([]gen.BenchCutting, len(ans.Cloths)),
		Totals: w.totals(&ans.Work.Totals), Settings: wireSettings(w.units, ans.Work.Settings),
		Warnings: wireNotes(w.units, ans.Warnings), Cautions: wireNotes(w.units, ans.Cautions),
		Engine: service.EngineVersion, InputDigest: digest,
	}
	for k := range ans.Work.Built {
		g.Frames[k] = w.frame(&ans.Request.Frames[k], &ans.Work.Built[k])
	}
	for k, c := range ans.Cloths {
		g.Cloths[k] = wireCutting(w.units, c.Plan)
	}
	return g
}

type foundationWriter struct{ units length.System }

func (w foundationWriter) up(l length.Length) gen.Quantity { return quantityIn(w.units, l, length.Up) }

func (w foundationWriter) near(l length.Length) gen.Quantity {
	return quantityIn(w.units, l, length.Nearest)
}

// some is a length that is left out where it is none.
func (w foundationWriter) some(l length.Length) *gen.Quantity {
	if l == 0 {
		return nil
	}
	q := w.near(l)
	return &q
}

func (w foundationWriter) frame(f *foundation.Frame, b *foundation.Built) gen.FoundationFrameAnswer {
	g := gen.FoundationFrameAnswer{
		Id: f.ID, Count: f.Count, Perimeter: w.up(b.Perimeter), Webbing: w.webbing(&b.Webbing), Fixings: []gen.FoundationCourse{},
	}
	if b.Gimp > 0 {
		gimp := w.up(b.Gimp)
		g.Gimp = &gimp
	}
	if len(b.Grid.Centres) > 0 {
		g.Springs = w.springs(b)
	}
	if t := b.Twine; t.Total() > 0 {
		g.Twine = &gen.FoundationTwine{Springs: w.up(t.Springs), Bridles: w.up(t.Bridles), Ties: w.up(t.Ties), Edge: w.up(t.Edge), Total: w.up(t.Total())}
	}
	if b.Stuffing > 0 {
		mass := massIn(w.units, b.Stuffing)
		g.Stuffing = &mass
	}
	for _, c := range b.Courses {
		g.Fixings = append(g.Fixings, gen.FoundationCourse{
			Purpose: gen.FoundationCoursePurpose(dashed(c.Purpose.String())), Kind: gen.FoundationCourseKind(dashed(c.Kind.String())),
			Size: w.some(c.Size), Spacing: w.some(c.Spacing), Count: int(c.Count),
		})
	}
	return g
}

// dashed is a name as the contract has it.
func dashed(name string) string { return strings.ReplaceAll(name, " ", "-") }

func (w foundationWriter) webbing(b *foundation.Webbing) gen.FoundationWebbing {
	g := gen.FoundationWebbing{
		Width: w.near(b.Width), Elastic: b.Elastic, UnderSprings: b.WebsUnderSprings, Across: b.Across, Along: b.Along,
		GapAcross: w.near(b.GapAcross), GapFront: w.near(b.GapFront), GapBack: w.near(b.GapBack), Total: w.up(b.Total),
		Webs: make([]gen.FoundationWeb, len(b.Webs)),
	}
	for i, one := range b.Webs {
		web := gen.FoundationWeb{
			Way: gen.FoundationWebWayAcross, Number: one.Number, Span: w.up(one.Span), Cut: w.up(one.Cut), Over: []int{},
			X1Mm: one.From.Across.MM(), Y1Mm: one.From.Along.MM(), X2Mm: one.To.Across.MM(), Y2Mm: one.To.Along.MM(),
		}
		if one.Way == foundation.Along {
			web.Way = gen.FoundationWebWayAlong
		}
		web.Over = append(web.Over, b.PassesOver(one)...)
		g.Webs[i] = web
	}
	return g
}

func (w foundationWriter) springs(b *foundation.Built) *gen.FoundationSprings {
	g := &gen.FoundationSprings{
		Count: len(b.Grid.Centres), Rows: b.Grid.Rows, Gap: w.near(b.Grid.Gap), Centres: make([]gen.FoundationPoint, len(b.Grid.Centres)),
		Height: w.near(b.Spring.Height), Gauge: b.Spring.Gauge, Wire: w.some(b.Spring.Wire), Tied: w.near(b.Spring.Tied), Source: b.Spring.Source,
		Strands: b.Lashing.Strands, Cord: w.up(b.Lashing.Cord),
	}
	for i, p := range b.Grid.Centres {
		g.Centres[i] = gen.FoundationPoint{XMm: p.Across.MM(), YMm: p.Along.MM()}
	}
	return g
}

func (w foundationWriter) totals(t *foundation.Totals) gen.FoundationTotals {
	need := func(l length.Length, packs int64) gen.FoundationNeed {
		return gen.FoundationNeed{Needed: w.up(l), Packs: int(packs)}
	}
	g := gen.FoundationTotals{
		Webbing: need(t.Webbing, t.Rolls), Springs: int(t.Springs), Lashing: need(t.Lashing, t.LashingBalls), Twine: need(t.Twine, t.TwineBalls),
		Stuffing: massIn(w.units, t.Stuffing), StuffingBags: int(t.StuffingBags), Fixings: []gen.FoundationFixed{},
		Gimp: w.up(t.Gimp), GimpOrder: w.up(t.GimpOrder),
	}
	for _, f := range t.Fixed {
		fixed := gen.FoundationFixed{
			Kind: gen.FoundationFixedKind(dashed(f.Kind.String())), Size: w.some(f.Size), Count: int(f.Count), Boxes: int(f.Boxes),
		}
		if oz := f.Ounces(); oz > 0 {
			fixed.Ounces = &oz
		}
		g.Fixings = append(g.Fixings, fixed)
	}
	return g
}
