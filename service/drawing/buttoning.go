package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// The classes of a drawing of buttoning.
const (
	bWork Class = iota
	bEdge
	bFinished
	bLine
	bPleat
	bArrow
	bButton
	bMark
	bMotif
	bMotifBox
	bJoin
	bRule
)

// buttonClasses follow those of the text, which every sheet has at the same
// numbers.
func buttonStyles(k float64) []Style {
	ink, quiet := RGB(0x1b2430), RGB(0x5b6470)
	styles := planStyles(k)
	own := []Style{
		bWork:     {Fill: RGB(0xf4f1ea)},
		bEdge:     {Stroke: ink, Width: 4.5 * k},
		bFinished: {Stroke: quiet, Width: 2.2 * k, Dash: []float64{14 * k, 8 * k}},
		bLine:     {Stroke: quiet, Width: 2 * k, Dash: []float64{26 * k, 7 * k, 4 * k, 7 * k}},
		bPleat:    {Stroke: ink, Width: 2.2 * k},
		bArrow:    {Stroke: ink, Width: 2.2 * k},
		bButton:   {Stroke: ink, Width: 2.6 * k, Fill: RGB(0xffffff)},
		bMark:     {Stroke: ink, Width: 3.4 * k},
		bMotif:    {Stroke: ink, Width: 3 * k},
		bMotifBox: {Stroke: quiet, Width: 2 * k, Dash: []float64{2.5 * k, 6 * k}},
		bJoin:     {Stroke: ink, Width: 7 * k, Dash: []float64{22 * k, 9 * k}},
		bRule:     {Stroke: RGB(0xb9b3a6), Width: 2 * k},
	}
	copy(styles, own)
	return styles
}

// The margins of the two charts, on a sheet of the usual width: for the figures
// at the left of each, and at the right of the second.
const (
	chartLeft  = 120.0
	chartGap   = 150.0
	chartRight = 20.0
	chartAbove = 60.0
)

// buttonSheet is buttoning while it is drawn.
type buttonSheet struct {
	paper
	ans     *service.ButtoningAnswer
	stacked bool // the charts of a wide panel stand one above the other
}

func newButtonSheet(ans *service.ButtoningAnswer) *buttonSheet {
	work, cut := ans.Work.Over, ans.Work.Cut()
	stacked := work.Across > 2*work.Along
	k := (work.Across.MM() + cut.Across.MM()) / (usualWidth - chartLeft - chartGap - chartRight)
	if stacked {
		k = cut.Across.MM() / (usualWidth - chartLeft - chartRight)
	}
	return &buttonSheet{paper{sys: ans.Request.Units, k: k, page: (usualWidth + 2*marginPage) * k}, ans, stacked}
}

// ButtoningPicture is the drawing of an answer: both marking grids side by side
// at one scale, with tape figures from the centre lines, the pleats, the motifs
// and the joins; then the figures and what to check.
func ButtoningPicture(ans *service.ButtoningAnswer) *Picture {
	s := newButtonSheet(ans)
	s.title(buttoningTitle(ans), buttoningOf(ans))
	s.facts(buttoningFacts(ans))
	s.charts()
	s.key()
	s.marks("Marks on the work", workLines(ans), ans.Work.OnWork())
	s.marks("Marks on the wrong side of the cloth", clothLines(ans), ans.Work.OnCloth())
	for _, sec := range buttoningSections(ans) {
		s.heading(sec.head)
		for _, t := range sec.lines {
			s.body(tPlain, t)
		}
	}
	s.table("Every motif", []float64{0, 300, 620, 860, 1370}, -1, []string{"motif", "on the cloth, right side", "on the work", "what becomes of it"}, motifRows(ans, 60))
	s.closing(ans.Warnings, ans.Cautions)
	return s.picture(buttoningTitle(ans), buttoningOf(ans)+". "+buttoningFirst(ans), buttonStyles(s.k))
}

// mostMarkRows bounds the rows that are listed below the charts.
const mostMarkRows = 60

// marks lists the places of all marks, row by row: the charts have not room for
// every figure.
func (s *buttonSheet) marks(title, lines string, rows []buttoning.Row) {
	var cells [][]string
	for i, r := range rows[:min(len(rows), mostMarkRows)] {
		across := make([]string, len(r.Across))
		for k, x := range r.Across {
			across[k] = bound(tape(x, s.sys))
		}
		cells = append(cells, []string{strconv.Itoa(i + 1), tape(r.Along, s.sys), strings.Join(across, ", ")})
	}
	if more := len(rows) - mostMarkRows; more > 0 {
		cells = append(cells, []string{"", "", "and " + strconv.Itoa(more) + " rows more, which the answer has"})
	}
	s.heading(title + ", in " + tapeName(s.sys) + " from the centre lines")
	s.body(tQuiet, lines)
	s.tie(60)
	s.rows([]float64{0, 90, 220, 1370}, 0, []string{"row", "down", "across"}, cells)
}

// buttoningTitle names what is buttoned.
func buttoningTitle(ans *service.ButtoningAnswer) string {
	if name := clean(ans.Request.Name); name != "" {
		return "Deep buttoning: " + apart(name)
	}
	return "Deep buttoning"
}

// buttoningOf is the panel and the cloth in a line.
func buttoningOf(ans *service.ButtoningAnswer) string {
	sys, size := ans.Request.Units, ans.Request.Panel.Size
	text := "Finished " + sizeText(size.Across, size.Along, sys)
	if c := ans.Request.Panel.Crown; c > 0 {
		text += ", crown " + taped(c, sys) + ", over the dome " + sizeText(ans.Work.Over.Across, ans.Work.Over.Along, sys)
	}
	text += "; wells " + taped(ans.Request.Depth, sys) + " deep; cloth "
	if name := clean(ans.Request.Cloth.Name); name != "" {
		text += apart(name) + ", "
	}
	return text + clothText(ans.Request.Cloth, sys)
}

// buttoningFacts are the figures that must be seen first.
func buttoningFacts(ans *service.ButtoningAnswer) []fact {
	sys, w := ans.Request.Units, ans.Work
	d := w.Diamond()
	return []fact{
		{"BUTTONS", strconv.Itoa(w.Buttons()), strconv.Itoa(w.Rows) + " rows of " + rowCounts(w.Grid)},
		{"DIAMOND ON THE WORK", sizeText(d.Across, d.Along, sys), "across and along"},
		{"DIAMOND ON THE CLOTH", sizeText(w.Cloth.Across, w.Cloth.Along, sys), modelText(ans.Request.Model)},
		{"CUT", cutText(w.Cut(), sys), widthsText(ans)},
	}
}

func rowCounts(g buttoning.Grid) string {
	return strconv.Itoa(g.InRow(0)) + " and " + strconv.Itoa(g.InRow(1))
}

func modelText(m buttoning.Model) string {
	switch m {
	case buttoning.ByAmount:
		return "by the rule of thumb"
	case buttoning.ByTwiceDepth:
		return "with twice the depth"
	}
	return "by the arc"
}

func widthsText(ans *service.ButtoningAnswer) string {
	if n := len(ans.Joined.Parts); n > 1 {
		return "made up of " + strconv.Itoa(n) + " widths"
	}
	return "in one width"
}

// key explains the signs.
func (s *buttonSheet) key() {
	k := s.k
	flat := func(c Class) func(Pt) []Shape {
		return func(p Pt) []Shape { return []Shape{Line{Pt{p.X - 26*k, p.Y}, Pt{p.X + 26*k, p.Y}, c}} }
	}
	signs := []sign{
		{"button on the work", func(p Pt) []Shape { return []Shape{Circle{p, 12 * k, bButton}} }},
		{"mark on the cloth", func(p Pt) []Shape { return []Shape{Path{strokes(p, 12*k, 0, 2), bMark}} }},
		{"pleat, its fold facing as the arrow", func(p Pt) []Shape {
			return append(flat(bPleat)(p), Path{arrow(Pt{p.X, p.Y + 14*k}, 24*k, 2), bArrow})
		}},
		{"centre line", flat(bLine)},
		{"finished edge on the cloth", flat(bFinished)},
	}
	if len(s.ans.Joined.Joins) > 0 {
		signs = append(signs, sign{"join along the diamonds", flat(bJoin)})
	}
	if len(s.ans.Motifs) > 0 {
		for _, f := range []buttoning.Fate{buttoning.Shown, buttoning.Partly, buttoning.Swallowed} {
			signs = append(signs, sign{"motif " + fateWord(f), func(p Pt) []Shape { return []Shape{Path{fateGlyph(f, p, 15*k), bMotif}} }})
		}
		signs = append(signs, sign{"its extent", func(p Pt) []Shape { return []Shape{Circle{p, 20 * k, bMotifBox}} }})
	}
	s.gap(20)
	s.explain(signs)
}

func fateWord(f buttoning.Fate) string {
	switch f {
	case buttoning.Partly:
		return "partly swallowed"
	case buttoning.Swallowed:
		return "swallowed"
	}
	return "shown"
}

// fateGlyph is a ring with a dot for what is shown, a ring with a bar for what is
// partly swallowed, and a cross without a ring for what is.
func fateGlyph(f buttoning.Fate, c Pt, r float64) []Polyline {
	switch f {
	case buttoning.Swallowed:
		return []Polyline{
			{Pts: []Pt{{c.X - r*0.8, c.Y - r*0.8}, {c.X + r*0.8, c.Y + r*0.8}}},
			{Pts: []Pt{{c.X - r*0.8, c.Y + r*0.8}, {c.X + r*0.8, c.Y - r*0.8}}},
		}
	case buttoning.Partly:
		return []Polyline{ring(c, r, 24, 0), {Pts: []Pt{{c.X - r*0.7, c.Y + r*0.7}, {c.X + r*0.7, c.Y - r*0.7}}}}
	}
	return []Polyline{ring(c, r, 24, 0), ring(c, r*0.2, 8, 0)}
}

// buttoningFirst is the answer in a sentence.
func buttoningFirst(ans *service.ButtoningAnswer) string {
	sys, cut := ans.Request.Units, ans.Work.Cut()
	text := strconv.Itoa(ans.Work.Buttons()) + " buttons in " + strconv.Itoa(ans.Work.Rows) + " rows; cut " +
		cut.Across.Text(sys, length.Up) + " across × " + cut.Along.Text(sys, length.Up) + " along, " + widthsText(ans)
	if ans.Found != nil {
		k, at := ans.Nearest()
		text += "; " + motifName(ans.Request.Cloth.Pattern, k) + " " + fromLines(at, sys)
	}
	return text + "."
}

// fromLines says a place from the centre lines.
func fromLines(p buttoning.Place, sys length.System) string {
	return aside(p.X, "left of", "right of", "upright", sys) + ", " + aside(p.Y, "above", "below", "level", sys)
}

func aside(l length.Length, less, more, line string, sys length.System) string {
	if l < 0 {
		l, more = -l, less
	}
	if t := tape(l, sys); t != "0" {
		return t + " " + tapeUnit(sys) + " " + more + " the " + line + " line"
	}
	return "on the " + line + " line"
}
