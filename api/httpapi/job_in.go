package httpapi

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/job"
)

// jobReader reads a request for a job. The parts of it that other operations take
// too are read as those read them.
type jobReader struct {
	translator
	cloths map[string]int
}

// jobFromWire translates a request, as requestFromWire does.
func jobFromWire(w *gen.JobRequest) (job.Request, fault.List) {
	t := jobReader{cloths: make(map[string]int)}
	root := fault.Path{}
	req := job.Request{Name: value(w.Name), Units: unitsFrom(value(w.Units)), Effort: effortFrom(value(w.Effort)), Hide: hidden(w.Sections)}
	for i := range w.Cloths {
		c := &w.Cloths[i]
		if _, twice := t.cloths[c.Id]; !twice {
			t.cloths[c.Id] = i
		}
		at := root.Field("cloths").Index(i)
		one := job.Cloth{ID: c.Id, Cloth: t.cloth(&c.Cloth, at.Field("cloth")), Sold: t.sold(&c.Cloth, at.Field("cloth"))}
		for _, piece := range value(c.Pieces) {
			one.Hand = append(one.Hand, lengthFrom(piece))
		}
		req.Cloths = append(req.Cloths, one)
	}
	most := pipingMost(value(w.Piping).Joins)
	for i := range w.Pieces {
		req.Pieces = append(req.Pieces, t.piece(&w.Pieces[i], req.Units, most, root.Field("pieces").Index(i)))
	}
	t.jobPiping(w.Piping, &req)
	t.jobFoam(w.Foam, &req)
	t.jobBench(w, &req)
	t.jobFire(w.Fire, &req)
	t.jobMoney(w, &req)
	return req, t.shape
}

// hidden are the sections that are switched off.
func hidden(w *gen.JobSections) (h job.Sections) {
	if w == nil {
		return h
	}
	off := func(b *bool) bool { return b != nil && !*b }
	return job.Sections{
		CuttingLists: off(w.CuttingLists), Cloths: off(w.Cloths), Piping: off(w.Piping), Buttoning: off(w.Buttoning),
		Foam: off(w.Foam), Wadding: off(w.Wadding), Foundation: off(w.Foundation), Fire: off(w.Fire),
		OrderList: off(w.OrderList), Cost: off(w.Cost), DayPlan: off(w.DayPlan),
	}
}

// within takes over the faults that another reading found, by where its part
// stands in this request.
func (t *jobReader) within(l fault.List, at fault.Path) { t.shape.Append(l.Below(at)) }

func (t *jobReader) piece(w *gen.JobPiece, units length.System, most int, at fault.Path) job.Piece {
	p := job.Piece{ID: w.Id, Name: value(w.Name), Cloths: t.pieceCloths(w.Cloths, at.Field("cloths"))}
	p.Build = map[gen.JobPieceBuild]job.Build{gen.JobPieceBuildModern: job.Modern, gen.JobPieceBuildKeep: job.Keep}[value(w.Build)]
	p.Piece.Units, p.Piece.Count = units, 1
	switch {
	case w.Kind == nil && w.Written == nil:
		t.shape.Add(at.Field("kind"), fault.Missing, "", "a piece has a kind, or panels that are written by hand", "kind, or written")
	case w.Written != nil:
		t.byHand(w, &p, at)
	default:
		t.byKind(w, &p, units, at)
	}
	p.Obstacles = t.obstaclesOf(w, at)
	for i := range value(w.Runs) {
		p.Runs = append(p.Runs, t.pipedRun(&(*w.Runs)[i], most, at.Field("runs").Index(i)))
	}
	p.Buttoning = t.chart(w.Buttoning, at.Field("buttoning"))
	if b := value(w.Buttoning); b.Grid != nil || b.Margins != nil {
		p.Diamonds = &job.Diamonds{Grid: p.Buttoning.Grid, Margins: p.Buttoning.Panel.Edges}
	}
	return p
}

// byKind reads what a piece of a kind has, as /v1/cutting-list does.
func (t *jobReader) byKind(w *gen.JobPiece, p *job.Piece, units length.System, at fault.Path) {
	list, shape := cuttingListFromWire(&gen.CuttingListRequest{
		Kind: *w.Kind, Count: w.Count, Measures: w.Measures, Options: w.Options, Allow: w.Allow, Motif: w.Motif, Drop: w.Drop, Replace: w.Replace, Covers: w.Covers,
	})
	t.within(shape, at)
	p.Piece, p.Drop, p.Replace, p.Moved = list.Piece, list.Drop, list.Replace, list.Covers
	p.Piece.Units = units
}

// byHand reads the panels of a piece that is written by hand, and refuses what
// belongs to a kind.
func (t *jobReader) byHand(w *gen.JobPiece, p *job.Piece, at fault.Path) {
	for _, f := range []struct {
		name  string
		given bool
	}{
		{"kind", w.Kind != nil}, {"count", w.Count != nil}, {"measures", w.Measures != nil}, {"options", w.Options != nil},
		{"allow", w.Allow != nil}, {"motif", w.Motif != nil}, {"drop", w.Drop != nil}, {"replace", w.Replace != nil},
		{"covers", w.Covers != nil},
	} {
		if f.given {
			t.shape.Add(at.Field(f.name), fault.NotAllowed, "", f.name+" belongs to a piece of a kind", "leave "+f.name+" out, or written")
		}
	}
	p.HandAt = make(map[string]fault.Path)
	seen := make(map[gen.CuttingListCover]bool)
	for i := range *w.Written {
		c, here := &(*w.Written)[i], at.Field("written").Index(i)
		if seen[c.Cover] {
			t.shape.Add(here.Field("cover"), fault.Duplicate, string(c.Cover), "this cover is there already", "each cover once")
		}
		seen[c.Cover] = true
		if len(c.Panels) == 0 {
			t.shape.Add(here.Field("panels"), fault.TooFew, "", "the cover has no panel", "one panel or more")
		}
		cover := map[gen.CuttingListCover]furniture.Cover{gen.CuttingListCoverOutside: furniture.Outside, gen.CuttingListCoverLining: furniture.Lining}[c.Cover]
		for k := range c.Panels {
			where := here.Field("panels").Index(k)
			q := t.panel(&c.Panels[k], where)
			if _, twice := p.HandAt[q.ID]; twice {
				t.shape.Add(where.Field("id"), fault.Duplicate, q.ID, "another panel of the piece has this id", "an id of its own")
				continue
			}
			p.HandAt[q.ID] = where
			p.Covers[cover] = append(p.Covers[cover], q)
		}
	}
}

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

// usual is the workroom's figure as the wire has it.
func (t *jobReader) usual(k practice.LengthKey) string { return t.shop.Length(k).String() }

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
	req, shape := buttoningFromWire(&full)
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
	one, shape := pipingFromWire(&full)
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

func wireUnits(s length.System) *gen.Units {
	u := gen.UnitsMetric
	if s == length.Imperial {
		u = gen.UnitsImperial
	}
	return &u
}

func (t *jobReader) jobFoam(w *gen.JobFoam, req *job.Request) {
	if w == nil {
		return
	}
	at := fault.At("foam")
	one, shape := foamFromWire(&gen.FoamRequest{
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
		one, shape := waddingFromWire(&gen.WaddingRequest{Settings: wad.Settings})
		t.within(shape, fault.At("wadding"))
		req.Bench.Wadding = one.Given
		if wad.Sheet != nil {
			m := map[gen.JobWaddingSheet]wadding.Material{gen.JobWaddingSheetSkin: wadding.Skin, gen.JobWaddingSheetCottonFelt: wadding.CottonFelt}[*wad.Sheet]
			req.Bench.Sheet = &m
		}
	}
	if f := w.Foundation; f != nil {
		one, shape := foundationFromWire(&gen.FoundationRequest{Settings: f.Settings})
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
	one, shape := fireFromWire(&gen.FireCheckRequest{
		AsOf: w.AsOf, Place: w.Place, Destination: w.Destination, Use: (*gen.FireCheckRequestUse)(w.Use),
		Platform: (*gen.FireCheckRequestPlatform)(w.Platform), Transaction: (*gen.FireCheckRequestTransaction)(w.Transaction),
		Occupancy: (*gen.FireCheckRequestOccupancy)(w.Occupancy), Hazard: (*gen.FireCheckRequestHazard)(w.Hazard), Made: w.Made,
		SmoothSurface: w.SmoothSurface, SeatMeetsBack: w.SeatMeetsBack, PermanentLabel: w.PermanentLabel, DisplayLabel: w.DisplayLabel,
		FederalLabel: w.FederalLabel, ChemicalLabel: w.ChemicalLabel, Layers: value(w.Layers), Papers: w.Papers,
	})
	t.within(shape, fault.At("fire"))
	req.Fire = &one
}

// jobMoney reads prices and terms. Where nothing is said of the hours they begin
// from the example for what is done: a new cover, or a rebuilt piece.
func (t *jobReader) jobMoney(w *gen.JobRequest, req *job.Request) {
	root := fault.Path{}
	req.Days = t.jobDayTerms(w.Days, root.Field("days"))
	req.Prices = t.jobPrices(value(w.Prices), root.Field("prices"))
	if w.Terms == nil {
		if w.Prices != nil {
			t.shape.Add(root.Field("terms"), fault.Missing, "", "prices need a currency, which the terms give", "terms with a currency")
		}
		return
	}
	terms := t.jobTerms(w.Terms, root.Field("terms"))
	req.Terms = &terms
}
