package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/job"
)

// obstaclesOf are what panels must pass, by the panel.
func (t *jobReader) obstaclesOf(w *gen.JobPiece, at fault.Path) map[string][]relief.Obstacle {
	out := make(map[string][]relief.Obstacle)
	add := func(panels []gen.Panel, at fault.Path) {
		for i := range panels {
			for k, o := range value(panels[i].Obstacles) {
				out[panels[i].Id] = append(out[panels[i].Id], t.obstacle(&o, at.Index(i).Field("obstacles").Index(k)))
			}
		}
	}
	add(value(w.Replace), at.Field("replace"))
	for i, c := range value(w.Written) {
		add(c.Panels, at.Field("written").Index(i).Field("panels"))
	}
	return out
}

// pieceCloths finds the cloths of a piece.
func (t *jobReader) pieceCloths(w *gen.JobPieceCloths, at fault.Path) job.Covers {
	if w == nil {
		w = &gen.JobPieceCloths{}
	}
	find := func(id *string, name string) int {
		if id == nil {
			return -1
		}
		i, ok := t.cloths[*id]
		if !ok {
			t.shape.Add(at.Field(name), fault.UnknownCloth, *id, "the job has no cloth with this id", "the id of one of the cloths")
			return -1
		}
		return i
	}
	return job.Covers{Top: find(w.Top, "top"), Outside: find(w.Outside, "outside"), Lining: find(w.Lining, "lining"), Piping: find(w.Piping, "piping")}
}

// chart reads how a piece is buttoned, as /v1/buttoning does, with what is usual
// for what is left out.
func (t *jobReader) chart(w *gen.JobButtoning, at fault.Path) service.ButtoningRequest {
	if w == nil {
		w = &gen.JobButtoning{}
	}
	wide, tall, edge := t.usual(practice.UsualDiamondWidth), t.usual(practice.UsualDiamondHeight), t.usual(practice.UsualButtonEdge)
	full := gen.ButtoningRequest{
		Panel:     gen.ButtoningPanel{Crown: w.Crown, Margins: w.Margins},
		Grid:      gen.ButtoningGrid{How: gen.ButtoningGridHowSpacing, Width: &wide, Height: &tall},
		Depth:     t.usual(practice.UsualWells),
		Buttons:   gen.ButtoningButtons{Lines: int(t.shop.Count(practice.UsualButton))},
		Groove:    w.Groove,
		Allowance: w.Allowance, Edge: (*gen.ButtoningRequestEdge)(w.Edge), MotifSizes: w.MotifSizes, Lies: w.Lies, Aim: w.Aim,
		Join: (*gen.ButtoningRequestJoin)(w.Join), JoinSeam: w.JoinSeam,
	}
	if w.Margins == nil {
		full.Panel.Margins = &gen.ButtoningMargins{Side: &edge, Top: &edge, Bottom: &edge}
	}
	if w.Grid != nil {
		full.Grid = *w.Grid
	}
	if w.Depth != nil {
		full.Depth = *w.Depth
	}
	if w.Buttons != nil {
		full.Buttons = *w.Buttons
	}
	req, shape := ButtoningIn(&full)
	t.within(shape, at)
	return req
}

func (t *jobReader) jobPiping(w *gen.JobPiping, req *job.Request) {
	if w == nil {
		w = &gen.JobPiping{}
	}
	full := gen.PipingRequest{Units: wireUnits(req.Units), Cord: gen.PipingCord{Diameter: t.usual(practice.UsualCord)}, Strip: w.Strip, Joins: w.Joins}
	if w.Cord != nil {
		full.Cord = *w.Cord
	}
	one, shape := PipingIn(&full)
	t.within(shape, fault.At("piping"))
	req.Piping = job.Piping{PipingRequest: one, Most: pipingMost(w.Joins)}
}

// pipingMost is how many joins a run may have that says nothing else.
func pipingMost(w *gen.PipingJoins) int {
	if w == nil || w.Most == nil {
		return service.MaxPipingJoins
	}
	return *w.Most
}

func (t *jobReader) jobFoam(w *gen.JobFoam, req *job.Request) {
	if w == nil {
		return
	}
	at := fault.At("foam")
	one, shape := FoamIn(&gen.FoamRequest{
		Units: wireUnits(req.Units), Use: (*gen.FoamRequestUse)(w.Use), Currency: w.Currency, Kerf: w.Kerf, Foams: w.Foams, Sheets: w.Sheets,
	})
	t.within(shape, at)
	ids := make(map[string]int)
	for i, f := range w.Foams {
		if _, twice := ids[f.Id]; !twice {
			ids[f.Id] = i
		}
	}
	req.Foam = &job.Foam{FoamRequest: one, Seat: t.foamID(w.Seat, ids, at.Field("seat"))}
	req.Foam.Back = req.Foam.Seat
	if w.Back != nil {
		req.Foam.Back = t.foamID(*w.Back, ids, at.Field("back"))
	}
	req.Foam.Arm = req.Foam.Back
	if w.Arm != nil {
		req.Foam.Arm = t.foamID(*w.Arm, ids, at.Field("arm"))
	}
}

func (t *jobReader) jobBench(w *gen.JobRequest, req *job.Request) {
	if wad := w.Wadding; wad != nil {
		one, shape := WaddingIn(&gen.WaddingRequest{Settings: wad.Settings})
		t.within(shape, fault.At("wadding"))
		req.Bench.Wadding = one.Given
		if wad.Sheet != nil {
			m := map[gen.JobWaddingSheet]wadding.Material{gen.JobWaddingSheetSkin: wadding.Skin, gen.JobWaddingSheetCottonFelt: wadding.CottonFelt}[*wad.Sheet]
			req.Bench.Sheet = &m
		}
	}
	if f := w.Foundation; f != nil {
		one, shape := FoundationIn(&gen.FoundationRequest{Settings: f.Settings})
		t.within(shape, fault.At("foundation"))
		req.Bench.Foundation = one.Given
		if value(f.Fixing) == gen.JobFoundationFixingStaples {
			req.Bench.Fixing = foundation.Staples
		}
	}
}

func (t *jobReader) jobFire(w *gen.JobFire, req *job.Request) {
	if w == nil {
		return
	}
	one, shape := FireIn(&gen.FireCheckRequest{
		AsOf: w.AsOf, Place: w.Place, Destination: w.Destination, Use: (*gen.FireCheckRequestUse)(w.Use),
		Platform: (*gen.FireCheckRequestPlatform)(w.Platform), Transaction: (*gen.FireCheckRequestTransaction)(w.Transaction),
		Occupancy: (*gen.FireCheckRequestOccupancy)(w.Occupancy), Hazard: (*gen.FireCheckRequestHazard)(w.Hazard), Made: w.Made,
		SmoothSurface: w.SmoothSurface, SeatMeetsBack: w.SeatMeetsBack, PermanentLabel: w.PermanentLabel, DisplayLabel: w.DisplayLabel,
		FederalLabel: w.FederalLabel, ChemicalLabel: w.ChemicalLabel, Layers: value(w.Layers), Papers: w.Papers,
	})
	t.within(shape, fault.At("fire"))
	req.Fire = &one
}

// wireJobBench are the parts beneath the cover, and the fire check.
func wireJobBench(g *gen.JobAnswer, ans *job.Answer, digest string) {
	h := ans.Request.Hide
	if !h.Foam && ans.Foam != nil {
		g.Foam = &gen.JobFoamAnswer{}
		g.Foam.Foam, g.Foam.Fault = wireJobPart(*ans.Foam, digest, FoamOut)
	}
	if !h.Wadding && ans.Wadding != nil {
		g.Wadding = &gen.JobWaddingAnswer{}
		g.Wadding.Wadding, g.Wadding.Fault = wireJobPart(*ans.Wadding, digest, WaddingOut)
	}
	if !h.Foundation {
		list := make([]gen.JobFoundationAnswer, len(ans.Foundation))
		for i, f := range ans.Foundation {
			list[i].Build = gen.JobFoundationAnswerBuild(f.Build.String())
			list[i].Foundation, list[i].Fault = wireJobPart(f.Foundation, digest, FoundationOut)
		}
		g.Foundation = &list
	}
	if !h.Fire && ans.Request.Fire != nil {
		list := make([]gen.JobFireAnswer, len(ans.Fire))
		for i, f := range ans.Fire {
			for _, p := range f.Pieces {
				list[i].Pieces = append(list[i].Pieces, ans.Request.Pieces[p].ID)
			}
			list[i].Check, list[i].Fault = wireJobPart(f.Check, digest, FireOut)
		}
		g.Fire = &list
	}
}

// wireJobPart is the answer of a part, or what keeps it from being answered.
func wireJobPart[A, G any](p job.Part[A], digest string, wire func(*A, string) G) (*G, *gen.JobFault) {
	if p.Answer != nil {
		g := wire(p.Answer, digest)
		return &g, nil
	}
	return nil, wireJobFault(p.Fault)
}

func wireJobFault(l fault.List) *gen.JobFault {
	if l.Len() == 0 {
		return nil
	}
	shown := FaultsOut(l.Faults())
	return &gen.JobFault{Count: l.Len(), Errors: shown}
}

func wireJobCloth(ans *job.Answer, p *job.Plan, digest string) gen.JobClothAnswer {
	w := answerWriter{units: ans.Request.Units}
	c := ans.Cloths[p.Cloth]
	effort := [...]gen.JobClothAnswerEffort{
		plan.Normal: gen.JobClothAnswerEffortNormal, plan.Quick: gen.JobClothAnswerEffortQuick,
		plan.Thorough: gen.JobClothAnswerEffortThorough, plan.Glance: gen.JobClothAnswerEffortGlance,
	}[p.Effort]
	g := gen.JobClothAnswer{Cloth: c.ID, Effort: &effort}
	set(&g.Name, c.Cloth.Name)
	g.Plan, g.Fault = wireJobPart(p.Plan, digest, YardageOut)
	if p.Plan.Fault.Len() == 0 {
		order, panels, piping, buttons := w.quantity(p.Order, length.Up), w.quantity(p.ForPanels, length.Up), w.quantity(p.ForPiping, length.Up), w.quantity(p.ForButtons, length.Up)
		why := wireNote(w.units, ans.Why(p))
		g.Order, g.ForPanels, g.ForPiping, g.ForButtons, g.Why = &order, &panels, &piping, &buttons, &why
	}
	loosened := w.loosened(p.Loosened)
	g.Loosened = &loosened
	if y := p.Plan.Answer; y != nil {
		list := make([]gen.Panel, len(y.Request.Panels))
		for i := range y.Request.Panels {
			list[i] = wirePanel(&y.Request.Panels[i])
		}
		g.Panels = &list
	}
	return g
}
