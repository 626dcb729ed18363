package job

import (
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/buying"
)

// MaxPieces is how many pieces of furniture a job has, with all copies.
const MaxPieces = 40

// Faults are what is wrong with the request by itself: its fields and what
// they refer to. What only shows when a part is worked out is that part's own;
// see Part.
func Faults(req Request) fault.List {
	req = req.ofShop()
	l := FieldFaults(req)
	if l.Len() > 0 {
		return l
	}
	for i := range req.Pieces {
		p := &req.Pieces[i]
		if p.byHand() {
			l.Append(p.writtenFaults(i))
			continue
		}
		own := service.Faults(service.PrepareCuttingList(service.CuttingListRequest{Piece: p.Piece, Drop: p.Drop, Replace: p.Replace, Covers: p.Moved}))
		l.Append(own.Below(piecePath(i)))
	}
	return l
}

func piecePath(i int) fault.Path { return fault.At("pieces").Index(i) }

// writtenFaults are those of the panels of a piece that was written by hand.
func (p *Piece) writtenFaults(i int) fault.List {
	var l fault.List
	for _, panels := range p.Covers {
		for _, f := range panel.ListFaults(panels, fault.Path{}).Faults() {
			at := piecePath(i).Field("written")
			if n, rest, ok := f.Path.Entry(); ok {
				at = p.HandAt[panels[n].ID].Then(rest)
			}
			l.Append(moved(f, at))
		}
	}
	return l
}

// only are the faults in some fields.
func only(l fault.List, fields ...string) fault.List {
	return l.Where(func(f fault.Fault) bool {
		return slices.ContainsFunc(fields, func(name string) bool { _, ok := f.Path.In(name); return ok })
	})
}

// FieldFaults are what is wrong with the fields, each by itself and with one
// another. It may be asked of a request of which a part could not be read.
func FieldFaults(req Request) fault.List {
	req = req.ofShop()
	var l fault.List
	root := fault.Path{}
	ids, copies := make(map[string]bool), 0
	for i := range req.Pieces {
		p, at := &req.Pieces[i], piecePath(i)
		if p.ID != "" && ids[p.ID] {
			l.Add(at.Field("id"), fault.Duplicate, p.ID, "another piece has this id", "an id of its own")
		}
		ids[p.ID] = true
		copies += max(p.Piece.Count, 1)
		p.fieldFaults(&l, req, at)
	}
	if copies > MaxPieces {
		l.Add(root.Field("pieces"), fault.TooMany, strconv.Itoa(copies), "with all copies there are "+strconv.Itoa(copies)+" pieces", "at most "+strconv.Itoa(MaxPieces)+"; split the job")
	}
	names := make(map[string]bool)
	for i, c := range req.Cloths {
		at := root.Field("cloths").Index(i)
		if c.ID != "" && names[c.ID] {
			l.Add(at.Field("id"), fault.Duplicate, c.ID, "another cloth has this id", "an id of its own")
		}
		names[c.ID] = true
		l.Append(c.Cloth.Faults(at.Field("cloth")))
		l.Append(c.Sold.Faults(at.Field("cloth")))
		for k, piece := range c.Hand {
			l.Between(at.Field("pieces").Index(k), "a piece", piece, service.MinPiece, service.MaxPiece)
		}
	}
	benchFaults(&l, req)
	return l
}

func (p *Piece) fieldFaults(l *fault.List, req Request, at fault.Path) {
	if p.byHand() {
		for _, panels := range p.Covers {
			for _, q := range panels {
				l.Append(q.Faults(p.HandAt[q.ID]))
			}
		}
	} else {
		l.Append(service.CuttingListFieldFaults(service.CuttingListRequest{Piece: p.Piece, Drop: p.Drop, Replace: p.Replace, Covers: p.Moved}).Below(at))
	}
	p.idFaults(l, req)
	for id, ob := range p.Obstacles {
		for _, q := range slices.Concat(p.Covers[0], p.Covers[1], p.Covers[2], p.Replace) {
			if q.ID == id {
				l.Append(service.ObstacleFaults(q, ob, p.placeOf(at, id).Field("obstacles")))
			}
		}
	}
	if len(p.Runs) > 0 {
		l.Append(only(service.PipingFieldFaults(service.PipingRequest{Runs: p.Runs}), "runs").Below(at))
	}
	chart := p.chart()
	chart.Cloth = clothOf(req, p.Cloths.Top).Cloth
	l.Append(only(service.ButtoningFieldFaults(chart), "grid", "depth", "groove", "allowance", "joinSeam", "motifSizes", "lies", "aim", "buttons").Below(at.Field("buttoning")))
	l.Append(chartPanelFaults(chart).Below(at.Field("buttoning")))
}

// chartPanelFaults are those of the margins and the crown, which in a job stand
// by themselves.
func chartPanelFaults(chart service.ButtoningRequest) fault.List {
	var out fault.List
	for _, f := range service.ButtoningFieldFaults(chart).Faults() {
		if rest, ok := f.Path.In("panel"); ok && chartPanel(rest) {
			out.Append(moved(f, rest))
		}
	}
	return out
}

// chartPanel reports whether a path into the panel of a chart is one of what a job
// gives by itself.
func chartPanel(p fault.Path) bool {
	_, margins := p.In("margins")
	_, crown := p.In("crown")
	return margins || crown
}

// idFaults wants ids of panels that are short enough to have the piece's before
// them.
func (p *Piece) idFaults(l *fault.List, req Request) {
	if len(req.Pieces) < 2 {
		return
	}
	for _, q := range slices.Concat(p.Covers[0], p.Covers[1], p.Covers[2], p.Replace) {
		i := slices.IndexFunc(req.Pieces, func(o Piece) bool { return o.ID == p.ID })
		if n := len(p.ID) + 1 + len(q.ID); n > 32 {
			l.Add(p.placeOf(piecePath(i), q.ID).Field("id"), fault.NotAName, q.ID, "with the id of its piece before it this is longer than 32 characters", "a shorter id")
		}
	}
}

func clothOf(req Request, i int) Cloth {
	if i = max(i, 0); i < len(req.Cloths) {
		return req.Cloths[i]
	}
	return Cloth{Cloth: cloth.Cloth{Width: length.Metre}}
}

// benchFaults are those of what the whole job shares.
func benchFaults(l *fault.List, req Request) {
	root := fault.Path{}
	l.Append(only(service.PipingFieldFaults(req.Piping.PipingRequest), "cord", "strip", "joins").Below(root.Field("piping")))
	if f := req.Foam; f != nil {
		foamFaults(l, *f, root.Field("foam"))
	}
	l.Append(wadding.Book().Faults(req.Bench.Wadding, root.Field("wadding").Field("settings")))
	l.Append(foundation.Book().Faults(req.Bench.Foundation, root.Field("foundation").Field("settings")))
	if req.Terms != nil {
		l.Append(buying.MoneyFaults(req.Prices, *req.Terms, root))
	}
	l.Append(buying.DayFaults(req.Days, root.Field("days")))
	if req.Fire != nil {
		fires := service.FireFieldFaults(*req.Fire)
		if req.Fire.Job.AsOf != 0 {
			fires = service.FireFaults(*req.Fire)
		}
		fires = fires.Where(func(g fault.Fault) bool { // the layers come from the pieces
			return !g.Path.Is(fault.At("layers")) && g.Code != fault.UnknownLayer
		})
		l.Append(fires.Below(root.Field("fire")))
	}
}

// foamFaults are those of the foam on sale.
func foamFaults(l *fault.List, of Foam, at fault.Path) {
	f := of.Job
	f.Items = nil
	l.Append(only(foam.FieldFaults(&f), "foams", "sheets", "kerf").Below(at))
	for _, which := range []struct {
		name string
		n    int
	}{{"seat", of.Seat}, {"back", of.Back}, {"arm", of.Arm}} {
		if which.n >= 0 && which.n < len(f.Foams) && !slices.ContainsFunc(f.Stock, func(s foam.Stock) bool { return s.Foam == which.n }) {
			l.Add(at.Field(which.name), fault.NotAllowed, f.Foams[which.n].ID, "no sheet of this foam is on sale", "a sheet of it, or another foam")
		}
	}
}
