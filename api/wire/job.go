package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/job"
)

// jobReader reads a request for a job. The parts of it that other operations take
// too are read as those read them.
type jobReader struct {
	translator
	cloths map[string]int
}

// JobIn translates a request, as YardageIn does.
func JobIn(w *gen.JobRequest) (job.Request, fault.List) {
	t := jobReader{cloths: make(map[string]int)}
	root := fault.Path{}
	req := job.Request{Name: value(w.Name), Units: unitsFrom(value(w.Units)), Effort: effortFrom(value(w.Effort)), Hide: hidden(w.Sections), Shop: t.shop}
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
	list, shape := CuttingListIn(&gen.CuttingListRequest{
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

// usual is the workroom's figure as the wire has it.
func (t *jobReader) usual(k practice.LengthKey) string { return t.shop.Length(k).String() }

// JobOut is the answer as the contract has it. A section that is not shown is
// left out.
func JobOut(ans *job.Answer, digest string) gen.JobAnswer {
	h := ans.Request.Hide
	g := gen.JobAnswer{
		Title: ans.Title(), Warnings: wireNotes(ans.Request.Units, ans.Warnings), Cautions: wireNotes(ans.Request.Units, ans.Cautions),
		Work:   gen.Work{Used: ans.Work.Used, Budget: ans.Work.Budget},
		Engine: service.EngineVersion, InputDigest: digest,
	}
	wireJobMoney(&g, ans)
	if !h.CuttingLists {
		list := []gen.JobPieceAnswer{}
		for i, l := range ans.Lists {
			p := &ans.Request.Pieces[i]
			list = append(list, gen.JobPieceAnswer{Piece: p.ID, Title: p.Title(), List: CuttingListOut(l, digest)})
		}
		g.CuttingLists = &list
	}
	if !h.Cloths {
		list := make([]gen.JobClothAnswer, len(ans.Plans))
		for i := range ans.Plans {
			list[i] = wireJobCloth(ans, &ans.Plans[i], digest)
		}
		g.Cloths = &list
	}
	if !h.Piping {
		list := make([]gen.JobPipingAnswer, len(ans.Piping))
		for i, p := range ans.Piping {
			list[i].Cloth = ans.Cloths[p.Cloth].ID
			list[i].Piping, list[i].Fault = wireJobPart(p.Piping, digest, PipingOut)
		}
		g.Piping = &list
	}
	if !h.Buttoning {
		list := make([]gen.JobButtoningAnswer, len(ans.Buttoning))
		for i, b := range ans.Buttoning {
			list[i] = gen.JobButtoningAnswer{Piece: ans.Request.Pieces[b.Piece].ID, Panel: b.Panel, Count: b.Count}
			list[i].Chart, list[i].Fault = wireJobPart(b.Chart, digest, ButtoningOut)
		}
		g.Buttoning = &list
	}
	wireJobBench(&g, ans, digest)
	return g
}
