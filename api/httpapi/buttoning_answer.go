package httpapi

import (
	"math"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// buttoningWriter puts an answer about buttoning into the wire form.
type buttoningWriter struct {
	answerWriter
	ans *service.ButtoningAnswer
}

// wireButtoning is the answer as the contract has it. Lists are never null.
func wireButtoning(ans *service.ButtoningAnswer, digest string) gen.ButtoningAnswer {
	w := buttoningWriter{answerWriter{units: ans.Request.Units}, ans}
	shown, partly, swallowed := ans.Tally()
	cut := ans.Work.Cut()
	g := gen.ButtoningAnswer{
		Grid:          w.grid(),
		Diamond:       w.diamond(),
		Allowances:    w.allowances(),
		Cut:           gen.ButtoningExtent{Across: w.quantity(cut.Across, length.Up), Along: w.quantity(cut.Along, length.Up)},
		Lines:         w.lines(),
		OnWork:        rowsToWire(ans.Work.OnWork()),
		OnCloth:       rowsToWire(ans.Work.OnCloth()),
		Widths:        []gen.ButtoningWidth{},
		Joins:         []gen.ButtoningJoin{},
		Pleats:        w.pleats(),
		Motifs:        w.motifs(),
		Tally:         gen.ButtoningTally{Shown: shown, Partly: partly, Swallowed: swallowed},
		SymmetryError: w.quantity(ans.Skew, length.Up),
		Shift:         w.shift(),
		Buttons:       w.buttons(),
		Twine:         w.twine(),
		Warnings:      append([]string{}, ans.Warnings...),
		Cautions:      append([]string{}, ans.Cautions...),
		Engine:        service.EngineVersion,
		InputDigest:   digest,
	}
	for _, p := range ans.Joined.Parts {
		g.Widths = append(g.Widths, gen.ButtoningWidth{FromMm: p.From.MM(), ToMm: p.To.MM(), SelvedgeMm: p.Selvedge.MM(), Matched: p.Fits})
	}
	for _, j := range ans.Joined.Joins {
		join := gen.ButtoningJoin{Line: []gen.ButtoningPoint{}}
		for _, p := range j.Line {
			join.Line = append(join.Line, gen.ButtoningPoint{XMm: p.X.MM(), YMm: p.Y.MM()})
		}
		g.Joins = append(g.Joins, join)
	}
	return g
}

func (w buttoningWriter) grid() gen.ButtoningGridAnswer {
	g := w.ans.Work.Grid
	first := gen.ButtoningGridAnswerFirstRowLong
	if g.Short {
		first = gen.ButtoningGridAnswerFirstRowShort
	}
	return gen.ButtoningGridAnswer{
		Rows: g.Rows, Columns: g.Columns, FirstRow: first, Buttons: g.Buttons(), Varied: w.ans.Varied,
		Side: w.quantity(g.Edges.Side, length.Nearest), Top: w.quantity(g.Edges.Top, length.Nearest), Bottom: w.quantity(g.Edges.Bottom, length.Nearest),
	}
}

func (w buttoningWriter) diamond() gen.ButtoningDiamond {
	d, c := w.ans.Work.Diamond(), w.ans.Work.Cloth
	return gen.ButtoningDiamond{
		Width: w.quantity(d.Across, length.Nearest), Height: w.quantity(d.Along, length.Nearest),
		ClothWidth: w.quantity(c.Across, length.Nearest), ClothHeight: w.quantity(c.Along, length.Nearest),
	}
}

func (w buttoningWriter) allowances() []gen.ButtoningAllowances {
	across, along := w.ans.Allowances()
	list := []gen.ButtoningAllowances{}
	for _, a := range []service.AllowanceBeside{across, along} {
		list = append(list, gen.ButtoningAllowances{
			Work: w.quantity(a.Chord, length.Nearest), Arc: w.quantity(a.Arc, length.Up), Rule: w.quantity(a.Rule, length.Up),
			TwiceDepth: w.quantity(a.TwiceDepth, length.Up), RuleLessArc: w.quantity(a.Rule-a.Arc, length.Nearest), RuleDepth: w.quantity(a.RuleDepth, length.Nearest),
		})
	}
	return list
}

func (w buttoningWriter) lines() gen.ButtoningLines {
	work, cut := w.ans.Work.LinesOnWork(), w.ans.Work.Lines()
	return gen.ButtoningLines{
		WorkFromLeft: w.quantity(work.Across, length.Nearest), WorkFromTop: w.quantity(work.Along, length.Nearest),
		ClothFromLeft: w.quantity(cut.Across, length.Nearest), ClothFromTop: w.quantity(cut.Along, length.Nearest),
	}
}

func rowsToWire(rows []buttoning.Row) []gen.ButtoningRow {
	list := make([]gen.ButtoningRow, len(rows))
	for i, r := range rows {
		one := gen.ButtoningRow{Row: i + 1, YMm: r.Along.MM(), TapeYMm: wholeMM(r.Along), XMm: []gen.Coordinate{}, TapeXMm: []int{}}
		for _, x := range r.Across {
			one.XMm, one.TapeXMm = append(one.XMm, x.MM()), append(one.TapeXMm, wholeMM(x))
		}
		list[i] = one
	}
	return list
}

func wholeMM(l length.Length) int {
	return int(l.Round(length.Millimetre, length.Nearest) / length.Millimetre)
}

func (w buttoningWriter) pleats() []gen.ButtoningPleats {
	list := []gen.ButtoningPleats{}
	for _, p := range w.ans.Work.Pleats() {
		list = append(list, gen.ButtoningPleats{
			Run: pleatText(p.Kind), Count: p.Count, TakeUp: w.quantity(p.TakeUp, length.Nearest), Depth: w.quantity(p.Depth, length.Nearest),
			Faces: service.PleatFaces(p.Kind),
		})
	}
	return list
}

func pleatText(k buttoning.PleatKind) gen.ButtoningPleatsRun {
	switch k {
	case buttoning.ToTop:
		return gen.ButtoningPleatsRunToTop
	case buttoning.ToBottom:
		return gen.ButtoningPleatsRunToBottom
	case buttoning.ToTheSides:
		return gen.ButtoningPleatsRunToTheSides
	}
	return gen.ButtoningPleatsRunDiagonal
}

func (w buttoningWriter) motifs() []gen.ButtoningMotif {
	list := make([]gen.ButtoningMotif, len(w.ans.Motifs))
	for i, m := range w.ans.Motifs {
		list[i] = gen.ButtoningMotif{
			Name: w.motifName(m.Motif), ClothXMm: m.Cloth.X.MM(), ClothYMm: m.Cloth.Y.MM(), WorkXMm: m.Work.X.MM(), WorkYMm: m.Work.Y.MM(),
			Fate: fateText(m.Fate), Hidden: m.Hidden,
		}
	}
	return list
}

// motifName is nil for a motif without a name.
func (w buttoningWriter) motifName(k int) *string {
	if name := w.ans.Request.Cloth.Pattern.Principal()[k].Name; name != "" {
		return &name
	}
	return nil
}

func fateText(f buttoning.Fate) gen.ButtoningMotifFate {
	switch f {
	case buttoning.Partly:
		return gen.ButtoningMotifFatePartly
	case buttoning.Swallowed:
		return gen.ButtoningMotifFateSwallowed
	}
	return gen.ButtoningMotifFateShown
}

func (w buttoningWriter) shift() *gen.ButtoningShift {
	f := w.ans.Found
	if f == nil {
		return nil
	}
	k, at := w.ans.Nearest()
	return &gen.ButtoningShift{
		Objective: w.ans.Objective(), Best: toMillionth(f.Score), Given: toMillionth(w.ans.Begun),
		Complete: f.Complete, Mirrored: f.Mirrored, Places: w.ans.Wants, XMm: f.X.MM(), YMm: f.Y.MM(),
		Nearest: gen.ButtoningNearest{Name: w.motifName(k), XMm: at.X.MM(), YMm: at.Y.MM()},
	}
}

// toMillionth leaves out what two machines might see differently.
func toMillionth(x float64) float64 {
	x = math.Round(x*1e6) / 1e6
	if x == 0 {
		return 0 // and not -0
	}
	return x
}

func (w buttoningWriter) buttons() gen.ButtoningButtonsAnswer {
	b, wish, button := w.ans.Buttons, w.ans.Request.Buttons, w.ans.Request.Button()
	g := gen.ButtoningButtonsAnswer{
		Count: b.Count, Lines: wish.Lines, InHand: b.InHand,
		Mould: w.quantity(button.Diameter(), length.Nearest), Covered: w.quantity(button.Covered(), length.Nearest), Circle: w.quantity(b.Circle, length.Up),
		Offcuts: []gen.ButtoningNest{},
	}
	for _, n := range b.Offcuts {
		g.Offcuts = append(g.Offcuts, w.nest(n))
	}
	if b.Strip != nil {
		strip := w.nest(*b.Strip)
		g.Strip = &strip
	}
	if c := b.Centred; c != nil {
		g.Centred = &gen.ButtoningCentred{Length: w.quantity(c.Length, length.Up), Across: c.Across, Overlap: c.Overlap}
	}
	return g
}

func (w buttoningWriter) nest(n buttoning.Nest) gen.ButtoningNest {
	run := gen.ButtoningNestRowsRunAcross
	if n.Turned {
		run = gen.ButtoningNestRowsRunAlong
	}
	return gen.ButtoningNest{
		Across: w.quantity(n.Piece.Across, length.Up), Along: w.quantity(n.Piece.Along, length.Up), Count: n.Count,
		Rows: n.Rows, Odd: n.Odd, Even: n.Even, RowsRun: run, Moved: !n.Square, Pitch: w.quantity(n.Pitch, length.Up),
	}
}

func (w buttoningWriter) twine() gen.ButtoningTwine {
	t := gen.ButtoningTwine{Each: w.quantity(w.ans.Buttons.Twine, length.Up), Total: w.quantity(w.ans.TwineTotal(), length.Up), Behind: gen.ButtoningTwineBehindWashers, Count: w.ans.Buttons.Count}
	if w.ans.Request.Buttons.Tufts {
		t.Behind = gen.ButtoningTwineBehindTufts
	}
	return t
}
