package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

func (s *sheet) planFacts() []fact {
	r := s.ans.Result
	begin := fact{"BEGIN", "anywhere", "nothing repeats along"}
	switch c := s.ans.Request.Cloth; {
	case len(r.Cut) > 1:
		begin = fact{"BEGIN", "see below", "each length has its own start"}
	case c.Pattern.LengthRepeat > 0 && len(r.Cut) == 1:
		begin = fact{"BEGIN", taped(r.Cut[0].Start, s.sys), "into the repeat"}
	}
	buy := fact{"TO BUY", near(s.ans.Order, s.sys), "enough for any start of the repeat"}
	if s.ans.Request.Cloth.Pattern.LengthRepeat <= 0 {
		buy.foot = "as the cloth is sold"
	}
	if s.ans.Request.Cloth.StartsAt != nil {
		buy.foot = "begun where the cloth begins"
	}
	needed := fact{"NEEDED", near(r.Needed(), s.sys), "for the plan below"}
	if n := len(r.Cut); n > 1 {
		needed.foot = "in " + strconv.Itoa(n) + " lengths"
	}
	return []fact{buy, needed, begin}
}

func (s *sheet) header() {
	s.title(PlanTitle(s.ans), clothText(s.ans.Request.Cloth, s.sys))
	s.facts(s.planFacts())
	s.body(tPlain, proofText(s.ans.Result, s.sys))
	s.body(tPlain, handText(s.ans.Result, s.sys))
	if len(s.ans.Result.Cut) == 1 && s.ans.Request.Cloth.Pattern.LengthRepeat > 0 {
		s.body(tPlain, beginText(s.ans.Request.Cloth, s.ans.Result.Cut[0], s.sys))
	}
	if s.ans.Result.Railroaded {
		s.body(tPlain, "The panels lie across the roll.")
	}
	if s.ans.Pieces != nil {
		s.body(tPlain, enoughText(s.ans.Pieces, s.sys))
	}
	if !s.marks && !s.ans.Request.Cloth.Pattern.IsPlain() {
		s.body(tQuiet, "The repeat is too small or too frequent for its motifs to be drawn here.")
	}
}

// panels lists the panels with the numbers that stand in for their names where
// a panel is too small.
func (s *sheet) panels() {
	rows := make([][]string, len(s.ans.Request.Panels))
	for i, p := range s.ans.Request.Panels {
		cut := p.Cut()
		rows[i] = []string{
			strconv.Itoa(i + 1), clean(p.ID), apart(p.Name), strconv.Itoa(p.Count),
			sizeText(cut.Across, cut.Along, s.sys), s.wishOf(p),
		}
	}
	s.table("Panels", []float64{0, 75, 245, 590, 710, 985, 1490}, 1,
		[]string{"No.", "Id", "Name", "Copies", "Cut size", "Pattern"}, rows)
}

func (s *sheet) wishOf(p panel.Panel) string {
	text := wishText(p, s.sys)
	switch p.Join {
	case panel.JoinSides:
		text += "; joined at the sides where it must be"
	case panel.JoinHalves:
		text += "; joined in the middle where it must be"
	}
	return text
}

// maxMade bounds what is listed for one offcut.
const maxMade = 6

// joins say where the seams of joined panels lie.
func (s *sheet) joins() {
	if len(s.ans.Joins) == 0 {
		return
	}
	s.heading("Joins")
	for _, j := range s.ans.Joins {
		s.body(tPlain, joinText(s.ans, j)+".")
	}
}

func joinText(ans *service.YardageAnswer, j service.Joined) string {
	seams := make([]string, len(j.Seams))
	for i, at := range j.Seams {
		seams[i] = tape(at, ans.Request.Units)
	}
	name := placedName(ans.Request.Panels, plan.Placement{Panel: j.Panel, Copy: j.Copy})
	return name + ": seams " + strings.Join(seams, ", ") + " " + tapeUnit(ans.Request.Units) + " from its left cut edge"
}

func (s *sheet) offcuts() {
	if len(s.ans.Offcuts) == 0 {
		return
	}
	s.heading("Offcuts")
	for i, o := range s.ans.Offcuts {
		s.body(tPlain, offcutText(s.ans, i, o))
	}
}

func offcutText(ans *service.YardageAnswer, i int, o service.Offcut) string {
	sys := ans.Request.Units
	text := "Offcut " + strconv.Itoa(i+1) + ": " + sizeText(o.Rect.Across, o.Rect.Along, sys) + ", " +
		placeText(ans, o.Piece, o.Rect)
	if made := madeText(o.WouldMake, sys); made != "" {
		text += "; would make " + made
	}
	return text + "."
}

func placeText(ans *service.YardageAnswer, piece int, r plan.Rect) string {
	sys := ans.Request.Units
	text := fromStart(r.Y, sys) + ", " + fromLeft(r.X, sys)
	if len(ans.Result.Cut) > 1 {
		text = "in length " + strconv.Itoa(piece+1) + ", " + text
	}
	return text
}

func madeText(all []note.Note, sys length.System) string {
	shown := make([]string, 0, maxMade)
	for _, m := range all[:min(len(all), maxMade)] {
		shown = append(shown, apart(m.Text(sys)))
	}
	text := strings.Join(shown, ", ")
	if more := len(all) - maxMade; more > 0 {
		text += " and " + strconv.Itoa(more) + " more"
	}
	return text
}
