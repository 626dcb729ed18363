package drawing

import (
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/service"
)

// fireSheet is a fire check while it is drawn.
type fireSheet struct {
	paper
	ans *service.FireAnswer
}

// FirePicture is the sheet of a fire check: the verdict, the layers as a stack
// from the outside inwards with the verdict of each in words and by hatching,
// what the rules say, what would mend it, and the papers to keep.
func FirePicture(ans *service.FireAnswer) *Picture {
	r := ans.Report
	s := &fireSheet{paper{k: 1, page: usualWidth}, ans}
	s.title(FireTitle(ans), fireOf(ans))
	s.gap(10)
	s.para(s.left(), s.right(), 56, tBold, verdictText(r.Verdict))
	s.body(tPlain, overallText(r.Verdict))
	s.stack()
	s.rulings("The piece", r.Piece)
	for i, l := range r.Layers {
		id, _ := layerText(ans, i)
		s.rulings("Layer "+id, l.Rulings)
	}
	s.lists()
	s.gap(24)
	s.body(tQuiet, service.FireNotAdvice)
	desc := verdictText(r.Verdict) + ". " + overallText(r.Verdict) + " " + fireOf(ans)
	for i, l := range r.Layers {
		id, what := layerText(ans, i)
		desc += " " + id + ", " + what + ": " + verdictText(l.Verdict) + "."
	}
	return s.picture(FireTitle(ans), desc, fireStyles(s.k))
}

// The stack: a bar for each layer, its hatching to the left of its words.
const (
	barHeight  = 116.0
	barHatched = 210.0
	barGap     = 58.0
)

// stack draws the layers from the outside inwards.
func (s *fireSheet) stack() {
	s.heading("The stack, from the outside inwards")
	for i := range s.ans.Report.Layers {
		s.gap(8)
		s.bar(i)
	}
}

// bar draws one layer. It is as high as its words need.
func (s *fireSheet) bar(i int) {
	l := s.ans.Report.Layers[i]
	id, what := layerText(s.ans, i)
	x, w := s.left(), s.right()-s.left()
	textX := x + (barHatched+26)*s.k
	right := x + w - 24*s.k
	top := s.y
	s.gap(12)
	s.para(textX, right, 38, tBold, id+": "+verdictText(l.Verdict))
	s.para(textX, right, smallSize, tPlain, what)
	s.gap(22)
	high := max(s.y-top, barHeight*s.k)
	s.y = top + high
	group := Group{Title: id + ": " + verdictText(l.Verdict)}
	if gap, class := verdictHatch(l.Verdict); gap > 0 {
		group.Items = append(group.Items, Hatch{x, top, barHatched * s.k, high, gap * s.k, class})
	}
	group.Items = append(group.Items, Rect{x, top, w, high, fLayer}, Line{Pt{x + barHatched*s.k, top}, Pt{x + barHatched*s.k, top + high}, fLayer})
	s.add(group)
}

// verdictHatch is the hatching of a verdict; no gap means none.
func verdictHatch(v fire.Verdict) (gap float64, c Class) {
	switch v {
	case fire.NotAllowed:
		return 22, fForbidden
	case fire.OtherRegime:
		return 36, fOther
	case fire.EvidenceWanted:
		return barGap, fWanted
	}
	return 0, 0
}

// rulings lists what the rules say of one layer.
func (s *fireSheet) rulings(heading string, list []fire.Ruling) {
	rows := make([][]string, len(list))
	for i, one := range list {
		cite := one.Rule.Instrument
		if one.Rule.Verified != fire.Read {
			cite += " (" + words(one.Rule.Verified) + ")"
		}
		rows[i] = []string{verdictText(one.Verdict), one.Say, cite + "; rule " + one.Rule.ID}
	}
	s.table(heading, []float64{0, 230, 880, 1250}, 0, []string{"Verdict", "What the rule says", "Rule"}, rows)
}

// lists are what would mend it, what is to be said about the papers, what to
// keep, and the notes.
func (s *fireSheet) lists() {
	r := s.ans.Report
	changes := make([]string, len(r.Changes))
	for i, c := range r.Changes {
		changes[i] = changeText(c)
	}
	notices := make([]string, len(r.Notices))
	for i, n := range r.Notices {
		notices[i] = noticeText(s.ans, n)
	}
	s.list("What would mend it, each by itself", tPlain, changes)
	s.list("About the papers", tPlain, notices)
	rows := make([][]string, len(s.ans.Papers))
	for i, k := range s.ans.Papers {
		rows[i] = []string{k.Paper, k.Keep.Keep}
	}
	s.table("Papers to keep", []float64{0, 650, 1250}, -1, []string{"Paper", "How long"}, rows)
	s.notes("Look out", s.ans.Warnings, s.ans.Cautions)
}

func (s *fireSheet) list(heading string, c Class, items []string) {
	if len(items) == 0 {
		return
	}
	s.heading(heading)
	for _, t := range items {
		s.body(c, "• "+apart(t))
		s.gap(8)
	}
}
