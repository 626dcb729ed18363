package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// maxBars is how many cloths are drawn; the rest is counted.
const maxBars = 60

const compareTitle = "Cloths compared"

// comparedName names a cloth of a comparison.
func comparedName(ans *service.CompareAnswer, c service.ComparedCloth) string {
	if name := apart(ans.Request.Cloths[c.Index].Name); name != "" {
		return name
	}
	return "cloth " + strconv.Itoa(c.Index+1)
}

// rankedText says what the order of the cloths is.
func rankedText(r service.Rank) string {
	switch r {
	case service.ByCost:
		return "ranked by what the cloth costs"
	case service.ByWaste:
		return "ranked by what is wasted"
	}
	return "ranked by the length to order"
}

// comparedFigures are the figures of a cloth in words.
func comparedFigures(c service.ComparedCloth, sys length.System) string {
	if !c.Usable {
		return "cannot be used"
	}
	text := near(c.Order, sys) + ", " + strconv.FormatFloat(c.Waste, 'f', -1, 64) + " % waste"
	if c.Cost != nil {
		text += ", " + c.Cost.Text() + " " + c.Cost.Code()
	}
	return text
}

// CompareText is a comparison as a page of plain text.
func CompareText(ans *service.CompareAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.line(compareTitle + ", " + rankedText(ans.RankedBy))
	p.line("")
	for i, c := range ans.Cloths {
		p.para(padLeft(strconv.Itoa(i+1), 4)+"  ", comparedName(ans, c)+": "+comparedFigures(c, p.sys))
		p.para("      ", sentence(c.Reason.Text(p.sys)))
	}
	if len(ans.Sensitivity) > 0 {
		p.section("THE FIRST CLOTH AT OTHER WIDTHS AND REPEATS")
		rows := [][]string{{"width", "repeat", "needed", "to order"}}
		for _, s := range ans.Sensitivity {
			rows = append(rows, []string{near(s.Width, p.sys), repeatName(s.Repeat, p.sys), triedText(s, s.Needed, p.sys), triedText(s, s.Order, p.sys)})
		}
		p.table(4, rows)
	}
	p.notes(ans.Warnings, nil)
	return p.b.String()
}

func repeatName(l length.Length, sys length.System) string {
	if l == 0 {
		return "none"
	}
	return near(l, sys)
}

func triedText(s service.CompareTried, l length.Length, sys length.System) string {
	if !s.Usable {
		return "-"
	}
	return near(l, sys)
}

// ComparePicture is the chart of a comparison: a bar for each cloth, as long as
// what is ordered of it, of which what is wasted is hatched, and a curve for each
// width of the first cloth over the length repeat.
func ComparePicture(ans *service.CompareAnswer) *Picture {
	s := &cloths{paper: paper{sys: ans.Request.Units, k: 1, page: usualWidth + marginLeft + marginRight}, ans: ans}
	s.title(compareTitle, rankedText(ans.RankedBy))
	s.gap(20)
	s.bars()
	s.curves()
	s.checks(ans.Warnings, nil)
	return s.picture(compareTitle, s.words(), planStyles(1))
}

// cloths is a comparison while it is drawn.
type cloths struct {
	paper
	ans *service.CompareAnswer
}

// words are the chart for who cannot see it.
func (s *cloths) words() string {
	text := strconv.Itoa(len(s.ans.Cloths)) + " cloths, " + rankedText(s.ans.RankedBy) + "."
	for _, c := range s.ans.Cloths[:min(len(s.ans.Cloths), 5)] {
		text += " " + comparedName(s.ans, c) + ": " + comparedFigures(c, s.sys) + "."
	}
	return text
}

func (s *cloths) bars() {
	most := length.Length(1)
	for _, c := range s.ans.Cloths {
		most = max(most, c.Order)
	}
	breadth := s.right() - s.left()
	for i, c := range s.ans.Cloths {
		if i == maxBars {
			s.body(tQuiet, "And "+strconv.Itoa(len(s.ans.Cloths)-maxBars)+" more.")
			break
		}
		s.gap(18)
		s.para(s.left(), s.right(), bodySize, tBold, strconv.Itoa(i+1)+"  "+comparedName(s.ans, c)+": "+comparedFigures(c, s.sys))
		s.gap(14)
		if c.Usable {
			w := breadth * (c.Order.MM() / most.MM())
			used := w * (1 - c.Waste/100)
			s.add(Rect{s.left(), s.y, used, 34, cCloth}, Hatch{s.left() + used, s.y, w - used, 34, 16, cHatch}, Rect{s.left(), s.y, w, 34, cOffcut})
			s.gap(34)
		}
		s.para(s.left(), s.right(), smallSize, tQuiet, sentence(c.Reason.Text(s.sys)))
	}
}

// sentence is a text with a capital letter and a full stop.
func sentence(s string) string {
	for i, r := range s {
		if i == 0 {
			s = strings.ToUpper(string(r)) + s[len(string(r)):]
		}
	}
	return s + "."
}
