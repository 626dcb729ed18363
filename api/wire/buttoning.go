package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// ButtoningIn translates a request, as YardageIn does.
func ButtoningIn(w *gen.ButtoningRequest) (service.ButtoningRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.ButtoningRequest{
		Units:   unitsFrom(value(w.Units)),
		Name:    value(w.Panel.Name),
		Panel:   buttonedPanel(&w.Panel),
		Grid:    t.buttonGrid(&w.Grid, root.Field("grid")),
		Vary:    lengthFrom(value(w.Grid.Vary)),
		Depth:   lengthFrom(w.Depth),
		Eased:   value(w.Edge) == gen.ButtoningRequestEdgeEased,
		Cloth:   t.cloth(&w.Cloth, root.Field("cloth")),
		Join:    value(w.Join) != gen.ButtoningRequestJoinNever,
		Aim:     t.buttoningAim(w.Aim, root.Field("aim")),
		Buttons: t.buttonWish(&w.Buttons),
	}
	if w.Groove != nil {
		groove := lengthFrom(*w.Groove)
		req.Groove = &groove
	}
	if a := w.Allowance; a != nil {
		req.Model = modelFrom(value(a.How))
		t.own(practice.ButtoningAmount, a.Amount)
	}
	t.own(practice.PanelJoin, w.JoinSeam)
	if w.Lies != nil {
		req.Lies = buttoning.Shift{X: lengthFrom(value(w.Lies.Across)), Y: lengthFrom(value(w.Lies.Along))}
	}
	for _, m := range value(w.MotifSizes) {
		req.Sizes = append(req.Sizes, service.MotifSize{Motif: m.Motif, Size: panel.Size{Across: lengthFrom(m.Across), Along: lengthFrom(m.Along)}})
	}
	req.Shop = t.shop
	return req, t.shape
}

func modelFrom(how gen.ButtoningAllowanceHow) buttoning.Model {
	switch how {
	case gen.ButtoningAllowanceHowAmount:
		return buttoning.ByAmount
	case gen.ButtoningAllowanceHowTwiceDepth:
		return buttoning.ByTwiceDepth
	}
	return buttoning.ByArc
}

func buttonedPanel(w *gen.ButtoningPanel) buttoning.Panel {
	p := buttoning.Panel{
		Size:  panel.Size{Across: lengthFrom(w.Size.Across), Along: lengthFrom(w.Size.Along)},
		Crown: lengthFrom(value(w.Crown)),
		Allow: sidesFrom(w.Allow),
	}
	if m := w.Margins; m != nil {
		p.Edges = buttoning.Edges{Side: lengthFrom(value(m.Side)), Top: lengthFrom(value(m.Top)), Bottom: lengthFrom(value(m.Bottom))}
	}
	return p
}

// buttonGrid records the fields that the way needs and lacks, or has and may
// not.
func (t *translator) buttonGrid(w *gen.ButtoningGrid, at fault.Path) buttoning.Wish {
	g := buttoning.Wish{
		Rows: value(w.Rows), Columns: value(w.Columns),
		Width: lengthFrom(value(w.Width)), Height: lengthFrom(value(w.Height)),
		Buttons: value(w.Buttons), Ratio: buttoning.PleasingRatio(t.shop),
		Short: value(w.FirstRow) == gen.ButtoningGridFirstRowShort,
	}
	switch w.How {
	case gen.ButtoningGridHowSpacing:
		g.How = buttoning.Spacing
	case gen.ButtoningGridHowAbout:
		g.How = buttoning.About
	case gen.ButtoningGridHowProportion:
		g.How = buttoning.Proportion
	}
	if w.Ratio != nil {
		g.Ratio = buttoning.Ratio{Num: int64(w.Ratio.Height), Den: int64(w.Ratio.Width)}
	}
	counts, spacing, about, ratio := g.How == buttoning.Counts, g.How == buttoning.Spacing, g.How == buttoning.About, g.How == buttoning.Proportion
	t.belongs(at.Field("rows"), w.Rows != nil, counts, true, "rows", "counts")
	t.belongs(at.Field("columns"), w.Columns != nil, counts, true, "columns", "counts")
	t.belongs(at.Field("width"), w.Width != nil, spacing || ratio, true, "width", "spacing and proportion")
	t.belongs(at.Field("height"), w.Height != nil, spacing, true, "height", "spacing")
	t.belongs(at.Field("buttons"), w.Buttons != nil, about, true, "buttons", "about")
	t.belongs(at.Field("ratio"), w.Ratio != nil, about || ratio, false, "ratio", "about and proportion")
	return g
}

func (t *translator) buttoningAim(w *gen.ButtoningAim, at fault.Path) *service.ButtoningAim {
	if w == nil {
		return nil
	}
	a := &service.ButtoningAim{OneSide: w.Symmetric != nil && !*w.Symmetric, Motifs: value(w.Motifs)}
	switch w.How {
	case gen.ButtoningAimHowButtons:
		a.How = service.AimButtons
	case gen.ButtoningAimHowPlaces:
		a.How = service.AimPlaces
	}
	places := a.How == service.AimPlaces
	t.belongs(at.Field("motifs"), w.Motifs != nil, !places, false, "motifs", "diamonds and buttons")
	t.belongs(at.Field("places"), w.Places != nil, places, true, "places", "places")
	for _, p := range value(w.Places) {
		a.Places = append(a.Places, service.MotifPlace{
			Motif: p.Motif, OnButton: p.On == gen.ButtoningPlaceOnButton, Spot: buttoning.Spot{Row: p.Row, Number: p.Number},
		})
	}
	return a
}

func (t *translator) buttonWish(w *gen.ButtoningButtons) service.ButtonWish {
	b := service.ButtonWish{Lines: w.Lines, Motif: w.Motif, Tufts: value(w.Behind) == gen.ButtoningButtonsBehindTufts}
	t.own(practice.ButtonCloth, w.Thickness)
	t.own(practice.ButtonThrough, w.Through)
	t.own(practice.ButtonTie, w.Tie)
	for _, o := range value(w.Offcuts) {
		b.Offcuts = append(b.Offcuts, panel.Size{Across: lengthFrom(o.Across), Along: lengthFrom(o.Along)})
	}
	return b
}

// buttoningWriter puts an answer about buttoning into the wire form.
type buttoningWriter struct {
	answerWriter
	ans *service.ButtoningAnswer
}

// ButtoningOut is the answer as the contract has it. Lists are never null.
func ButtoningOut(ans *service.ButtoningAnswer, digest string) gen.ButtoningAnswer {
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
		Warnings:      wireNotes(w.units, ans.Warnings),
		Cautions:      wireNotes(w.units, ans.Cautions),
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
