package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// The classes of a cutting plan.
const (
	cCloth Class = iota
	cSelvedge
	cCutEnd
	cTick
	cRepeat
	cMarker
	cPanelFill
	cPanel
	cFinished
	cSeam
	cHatch
	cOffcut
	cMark
	cMarkFill
	cArrow
	cRule
	cFault
	cFaultHatch
	cNotch
	tPlain
	tBold
	tQuiet
	tLabel
	tLabelBold
	tSeam
)

// planStyles are told apart in grey print by weight, dash and shape; colour
// only helps where there is any.
func planStyles(k float64) []Style {
	ink, quiet, mark, seam := RGB(0x1b2430), RGB(0x5b6470), RGB(0x9c2f1f), RGB(0x0b5560)
	return []Style{
		cCloth:      {Fill: RGB(0xebe4d6)},
		cSelvedge:   {Stroke: ink, Width: 5 * k, Dash: []float64{3 * k, 5 * k}},
		cCutEnd:     {Stroke: ink, Width: 5 * k, Dash: []float64{30 * k, 10 * k}},
		cTick:       {Stroke: quiet, Width: 2 * k},
		cRepeat:     {Stroke: RGB(0x6f6858), Width: 2.6 * k, Dash: []float64{2.6 * k, 8 * k}},
		cMarker:     {Stroke: RGB(0x5f584a), Width: 2.4 * k},
		cPanelFill:  {Fill: RGB(0xffffff)},
		cPanel:      {Stroke: ink, Width: 4.5 * k},
		cFinished:   {Stroke: quiet, Width: 2.2 * k, Dash: []float64{14 * k, 8 * k}},
		cSeam:       {Stroke: seam, Width: 3.2 * k},
		cHatch:      {Stroke: RGB(0xa79d8a), Width: 2 * k},
		cOffcut:     {Stroke: RGB(0x7d7566), Width: 2.4 * k},
		cMark:       {Stroke: mark, Width: 3.4 * k},
		cMarkFill:   {Stroke: mark, Width: 3.4 * k, Fill: mark},
		cArrow:      {Stroke: ink, Width: 3.6 * k},
		cRule:       {Stroke: RGB(0xb9b3a6), Width: 2 * k},
		cFault:      {Stroke: mark, Width: 11 * k},
		cFaultHatch: {Stroke: mark, Width: 3.6 * k},
		cNotch:      {Fill: ink},
		tPlain:      {Fill: ink},
		tBold:       {Fill: ink, Bold: true},
		tQuiet:      {Fill: quiet},
		tLabel:      {Fill: ink, Halo: 9 * k},
		tLabelBold:  {Fill: ink, Bold: true, Halo: 9 * k},
		tSeam:       {Fill: seam, Halo: 7 * k},
	}
}

// The margins beside a cloth of the usual width, for the ruler and the marks.
const (
	marginLeft  = 165.0
	marginRight = 75.0
)

// sheet is a cutting plan while it is drawn, from the top down.
type sheet struct {
	paper
	ans   *service.YardageAnswer
	wide  float64 // the cloth
	marks bool    // the motifs are not too many or too small to be drawn
	runs  [][]seamTo

	faulty []map[int]string // by length and placement, the numbers of its faults; nil for an answer
}

// seamTo is the edge of a panel across which the pattern runs on to another.
type seamTo struct {
	edge panel.Edge
	to   string
}

func newSheet(ans *service.YardageAnswer) *sheet {
	wide := min(max(ans.Request.Cloth.Width.MM(), 1), 1e7)
	k := wide / usualWidth
	s := &sheet{paper: paper{sys: ans.Request.Units, k: k, page: wide + (marginLeft+marginRight)*k}, ans: ans, wide: wide}
	s.marks = s.marksFit()
	s.runs = make([][]seamTo, len(ans.Request.Panels))
	byID := make(map[string]int, len(ans.Request.Panels))
	for i, p := range ans.Request.Panels {
		byID[p.ID] = i
	}
	for _, p := range ans.Request.Panels {
		if i, ok := byID[p.Match.From]; ok && p.Match.How == panel.RunsOn && len(s.runs[i]) < 8 {
			s.runs[i] = append(s.runs[i], seamTo{p.Match.Edge, clean(p.ID)})
		}
	}
	return s
}

// fineRepeat is the least repeat, on the usual width, whose motifs are drawn.
const fineRepeat = 25.0

func (s *sheet) marksFit() bool {
	c := s.ans.Request.Cloth
	if c.Pattern.IsPlain() {
		return false
	}
	for _, r := range []length.Length{c.Pattern.LengthRepeat, c.Pattern.WidthRepeat} {
		if r > 0 && r.MM() < fineRepeat*s.k {
			return false
		}
	}
	sum := 0.0
	for _, l := range s.layouts() {
		sum += gridOf(c, l.Layout, stripLength(l)).marks(len(c.Pattern.Principal()))
	}
	return sum <= maxMarks
}

// layouts are all lengths that are drawn, in their order; Length is that of
// the cloth, which may be longer than its layout.
func (s *sheet) layouts() []service.PieceUse {
	var all []service.PieceUse
	for _, l := range s.ans.Result.Cut {
		all = append(all, service.PieceUse{Length: l.Length, Layout: l})
	}
	if s.ans.Pieces != nil {
		all = append(all, s.ans.Pieces.Uses...)
	}
	return all
}

func stripLength(u service.PieceUse) float64 {
	return max(u.Length.MM(), u.Layout.Length.MM(), 0)
}

// PlanPicture is the drawing of an answer's cutting plan: what to buy, every
// length of cloth to scale with its panels, a list of the panels, what is left
// over and what to check.
func PlanPicture(ans *service.YardageAnswer) *Picture {
	s := newSheet(ans)
	s.header()
	s.legend()
	s.cutStrips()
	s.pieceStrips()
	s.panels()
	s.joins()
	s.offcuts()
	s.closing(ans.Warnings, ans.Cautions)
	return s.picture(PlanTitle(ans), planDescription(ans), planStyles(s.k))
}

// PlanTitle names an answer's plan in a line: "Cutting plan: Heron and sedge".
func PlanTitle(ans *service.YardageAnswer) string {
	if name := clean(ans.Request.Cloth.Name); name != "" {
		return "Cutting plan: " + apart(name)
	}
	return "Cutting plan"
}

// planDescription is the drawing in words, for who cannot see it.
func planDescription(ans *service.YardageAnswer) string {
	sys := ans.Request.Units
	n := 0
	for _, l := range ans.Result.Cut {
		n += len(l.Placements)
	}
	text := strconv.Itoa(n) + " panels on cloth " + clothText(ans.Request.Cloth, sys) +
		". To buy: " + near(ans.Order, sys) + ". The plan needs " + near(ans.Result.Needed(), sys) + ". " +
		proofText(ans.Result, sys)
	if len(ans.Result.Cut) == 1 {
		text += " " + beginText(ans.Request.Cloth, ans.Result.Cut[0], sys)
	}
	return text
}

// leftover is an offcut with the number it has in the list.
type leftover struct {
	number int
	plan.Rect
}

// offcutsOf are those of one layout.
func (s *sheet) offcutsOf(piece int) []leftover {
	var rs []leftover
	for i, o := range s.ans.Offcuts {
		if o.Piece == piece {
			rs = append(rs, leftover{i + 1, o.Rect})
		}
	}
	return rs
}
