package wire

import (
	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// PipingIn translates a request, as YardageIn does.
func PipingIn(w *gen.PipingRequest) (service.PipingRequest, fault.List) {
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
		share, _ := formats.Share(*w.Stretch)
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

// PipingOut is the answer for piping as the contract has it.
func PipingOut(ans *service.PipingAnswer, digest string) gen.PipingAnswer {
	w := answerWriter{units: ans.Request.Units}
	g := gen.PipingAnswer{
		Strip: gen.PipingStripWidth{
			Exact: w.quantity(ans.Exact, length.Up), Width: w.quantity(ans.Job.Width, length.Nearest),
			Cut: [...]gen.PipingStripWidthCut{gen.PipingStripWidthCutBias, gen.PipingStripWidthCutAcross, gen.PipingStripWidthCutAlong}[ans.Request.Cut],
		},
		Cord:        w.quantity(ans.Cord, length.Up),
		Total:       w.quantity(ans.Total, length.Up),
		LeastRadius: gen.PipingRadius{Bias: w.quantity(ans.Job.RadiusBias, length.Up), Straight: w.quantity(ans.Job.RadiusStraight, length.Up)},
		Order:       w.quantity(0, length.Up),
		Ways:        make([]gen.PipingWay, len(ans.Ways)),
		Yields:      make([]gen.PipingYield, len(ans.Yields)),
		Strips:      []gen.PipingStrip{},
		Runs:        []gen.PipingLaid{},
		Warnings:    wireNotes(w.units, ans.Warnings),
		Cautions:    wireNotes(w.units, ans.Cautions),
		Engine:      service.EngineVersion,
		InputDigest: digest,
	}
	if ans.Request.Cut == piping.Bias {
		g.Strip.Angle = &ans.Request.Angle
	}
	for i := range ans.Ways {
		g.Ways[i] = w.pipingWay(&ans.Ways[i])
	}
	for i, y := range ans.Yields {
		g.Yields[i] = gen.PipingYield{Offcut: y.Offcut, Strips: y.Strips, Total: w.quantity(y.Total, length.Down),
			Lean: [...]gen.PipingYieldLean{gen.PipingYieldLeanNone, gen.PipingYieldLeanRight, gen.PipingYieldLeanLeft}[y.Lean]}
		if y.Strips > 0 {
			short, long := w.quantity(y.Shortest, length.Down), w.quantity(y.Longest, length.Down)
			g.Yields[i].Shortest, g.Yields[i].Longest = &short, &long
		}
	}
	if p := ans.Plan(); p != nil {
		g.Way, g.Keeps, g.Order = &pipingWays[p.Way], p.Keeps, w.quantity(p.Order, length.Up)
		for i, s := range p.Strips {
			g.Strips = append(g.Strips, wirePipingStrip(i+1, s))
		}
		for i, l := range p.Runs {
			g.Runs = append(g.Runs, wirePipedRun(ans, i, l))
		}
	}
	return g
}

func (w answerWriter) pipingWay(p *service.PipingWay) gen.PipingWay {
	g := gen.PipingWay{
		Way: pipingWays[p.Way], Possible: p.Possible, Keeps: p.Keeps,
		Cloth: w.quantity(p.Cloth, length.Up), Order: w.quantity(p.Order, length.Up),
		Strips: len(p.Strips), Joins: p.Joins, Missing: p.Missing, Because: wireNotes(w.units, p.Because),
	}
	if p.Way == piping.FromRects {
		short := w.quantity(p.Short, length.Up)
		g.Short = &short
	}
	if t := p.Tube; t != nil {
		g.Tube = &gen.PipingTube{
			Across: w.quantity(t.Across, length.Up), Along: w.quantity(t.Along, length.Up), Strips: t.Strips,
			Turn: w.quantity(t.Turn, length.Down), Square: w.quantity(p.Square, length.Up),
		}
	}
	return g
}

func wirePipingStrip(number int, s piping.Strip) gen.PipingStrip {
	g := gen.PipingStrip{Number: number, LengthMm: s.Long.MM(), CornersMm: make([]gen.PipingPoint, len(s.Corners))}
	g.Lean = [...]gen.PipingStripLean{gen.PipingStripLeanNone, gen.PipingStripLeanRight, gen.PipingStripLeanLeft}[s.Lean]
	if s.Rect >= 0 {
		g.Offcut = &s.Rect
	}
	for k, c := range s.Corners {
		g.CornersMm[k] = gen.PipingPoint{XMm: c.Across.MM(), YMm: c.Along.MM()}
	}
	return g
}

func wirePipedRun(ans *service.PipingAnswer, i int, l piping.Laid) gen.PipingLaid {
	of := ans.Of[i]
	run := &ans.Request.Runs[of.Run]
	g := gen.PipingLaid{Run: of.Run, Copy: of.Copy, Covered: len(l.Pieces) > 0,
		Pieces: make([]gen.PipingPiece, len(l.Pieces)), JoinsMm: make([]gen.Coordinate, len(l.Joins))}
	if run.Name != "" {
		g.Name = &run.Name
	}
	for k, q := range l.Pieces {
		g.Pieces[k] = gen.PipingPiece{Strip: q.Strip + 1, FromMm: q.From.MM(), LengthMm: q.Long.MM()}
	}
	for k, at := range l.Joins {
		g.JoinsMm[k] = at.MM()
	}
	if run.Closed {
		closes := l.Closes.MM()
		g.ClosesMm = &closes
	}
	return g
}
