package wire

import (
	"math"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

// YardageIn translates a request whose strings are of their formats; one
// that is not, or is left out, counts as 0.
func YardageIn(w *gen.YardageRequest) (service.YardageRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.YardageRequest{
		Shop:   t.shop,
		Units:  unitsFrom(value(w.Units)),
		Effort: effortFrom(value(w.Effort)),
		Cloth:  t.cloth(&w.Cloth, root.Field("cloth")),
		Sold:   t.sold(&w.Cloth, root.Field("cloth")),
	}
	for _, piece := range value(w.Pieces) {
		req.Pieces = append(req.Pieces, lengthFrom(piece))
	}
	for i := range w.Panels {
		here := root.Field("panels").Index(i)
		req.Panels = append(req.Panels, t.panel(&w.Panels[i], here))
		for k, o := range value(w.Panels[i].Obstacles) {
			if req.Obstacles == nil {
				req.Obstacles = make(map[int][]relief.Obstacle)
			}
			req.Obstacles[i] = append(req.Obstacles[i], t.obstacle(&o, here.Field("obstacles").Index(k)))
		}
	}
	return req, t.shape
}

// YardageOut is the answer as the contract has it. Lists are never null.
func YardageOut(ans *service.YardageAnswer, digest string) gen.YardageAnswer {
	w := answerWriter{ans: ans, units: ans.Request.Units}
	res := &ans.Result
	needed := res.Needed()
	return gen.YardageAnswer{
		Order:       w.quantity(ans.Order, length.Up),
		Needed:      w.quantity(needed, length.Up),
		Start:       w.quantity(w.start(), length.Nearest),
		AnyStart:    w.quantity(ans.AnyStart, length.Up),
		Bound:       w.quantity(res.Bound, length.Down),
		BoundBy:     wireNote(w.units, note.New(res.BoundBy)),
		Gap:         Gap(needed, res.Bound),
		Proven:      res.Proven,
		Ended:       endedText(res.Ended, ans.Hurried),
		RowsMethod:  w.quantity(res.Rows, length.Up),
		Saved:       w.quantity(res.Rows-needed, length.Down),
		Railroaded:  res.Railroaded,
		Lengths:     w.lengths(),
		Placements:  w.placements(),
		Offcuts:     w.offcuts(),
		Pieces:      w.pieces(),
		Joins:       w.joins(),
		Warnings:    wireNotes(w.units, ans.Warnings),
		Cautions:    wireNotes(w.units, ans.Cautions),
		Work:        gen.Work{Used: res.Work.Used, Budget: res.Work.Budget},
		Engine:      service.EngineVersion,
		InputDigest: digest,
	}
}

// start is where the first length of the plan begins.
func (w answerWriter) start() length.Length {
	if len(w.ans.Result.Cut) == 0 {
		return 0
	}
	return w.ans.Result.Cut[0].Start
}

// Gap is how far needed lies above bound, in percent to two decimals; 0 when
// there is no bound.
func Gap(needed, bound length.Length) float64 {
	if bound <= 0 || needed <= bound {
		return 0
	}
	return math.Round(float64(needed-bound)/float64(bound)*1e4) / 1e2
}

func (w answerWriter) lengths() []gen.CutLength {
	list := make([]gen.CutLength, len(w.ans.Lengths))
	for i, l := range w.ans.Lengths {
		list[i] = gen.CutLength{
			Piece:  i,
			Needed: w.quantity(l.Needed, length.Up),
			Start:  w.quantity(l.Start, length.Nearest),
			Order:  w.quantity(l.Order, length.Up),
		}
	}
	return list
}

func (w answerWriter) placements() []gen.Placement {
	list := []gen.Placement{}
	for piece := range w.ans.Result.Cut {
		list = w.appendPlacements(list, piece, w.ans.Result.Cut[piece].Placements)
	}
	return list
}

func (w answerWriter) appendPlacements(list []gen.Placement, piece int, from []plan.Placement) []gen.Placement {
	motifs := w.ans.Request.Cloth.Pattern.Principal()
	for i := range from {
		p := &from[i]
		g := gen.Placement{
			Panel: w.ans.Request.Panels[p.Panel].ID,
			Copy:  p.Copy,
			Piece: piece,
			XMm:   p.X.MM(), YMm: p.Y.MM(), AcrossMm: p.Across.MM(), AlongMm: p.Along.MM(),
			Turn: turnText(p.Turn),
		}
		if p.Parts > 1 {
			g.Part = &gen.Part{Number: p.Part, Of: p.Parts, FromMm: p.From.MM()}
		}
		if m := p.Motif; m != nil {
			g.Motif = &gen.PlacedMotif{Name: motifs[m.Motif].Name, XMm: m.X.MM(), YMm: m.Y.MM()}
		}
		list = append(list, g)
	}
	return list
}

func (w answerWriter) offcuts() []gen.Offcut {
	list := make([]gen.Offcut, len(w.ans.Offcuts))
	for i, o := range w.ans.Offcuts {
		list[i] = gen.Offcut{
			Piece: o.Piece,
			XMm:   o.Rect.X.MM(), YMm: o.Rect.Y.MM(), AcrossMm: o.Rect.Across.MM(), AlongMm: o.Rect.Along.MM(),
			WouldMake: wireNotes(w.units, o.WouldMake),
		}
	}
	return list
}

func (w answerWriter) joins() []gen.JoinedPanel {
	list := make([]gen.JoinedPanel, len(w.ans.Joins))
	for i, j := range w.ans.Joins {
		seams := make([]gen.Coordinate, len(j.Seams))
		for k, s := range j.Seams {
			seams[k] = s.MM()
		}
		list[i] = gen.JoinedPanel{Panel: w.ans.Request.Panels[j.Panel].ID, Copy: j.Copy, SeamsMm: seams}
	}
	return list
}

func (w answerWriter) pieces() *gen.PiecesAnswer {
	p := w.ans.Pieces
	if p == nil {
		return nil
	}
	g := gen.PiecesAnswer{
		Enough:     enoughText(p.Enough),
		Short:      w.quantity(p.Short, length.Up),
		Least:      w.quantity(p.Least, length.Down),
		Order:      w.quantity(p.Order, length.Up),
		Lengths:    make([]gen.PieceUse, len(p.Uses)),
		Placements: []gen.Placement{},
	}
	for i := range p.Uses {
		use := &p.Uses[i]
		g.Lengths[i] = gen.PieceUse{
			Piece:    i,
			Length:   w.quantity(use.Length, length.Nearest),
			Used:     w.quantity(use.Layout.Length, length.Up),
			Start:    w.quantity(use.Layout.Start, length.Nearest),
			AnyStart: use.AnyStart,
		}
		g.Placements = w.appendPlacements(g.Placements, i, use.Layout.Placements)
	}
	return &g
}

func endedText(e plan.Ended, hurried bool) gen.YardageAnswerEnded {
	if hurried {
		return gen.YardageAnswerEndedTimeUsed
	}
	switch e {
	case plan.Proved:
		return gen.YardageAnswerEndedProved
	case plan.NothingLeft:
		return gen.YardageAnswerEndedNothingLeftToTry
	}
	return gen.YardageAnswerEndedBudgetUsed
}

func enoughText(e service.Enough) gen.PiecesAnswerEnough {
	switch e {
	case service.EnoughYes:
		return gen.PiecesAnswerEnoughYes
	case service.EnoughIfBegun:
		return gen.PiecesAnswerEnoughIfBegunAtStart
	}
	return gen.PiecesAnswerEnoughNo
}
