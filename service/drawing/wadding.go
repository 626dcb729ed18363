package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// WaddingTitle names an answer in a line.
func WaddingTitle(*service.WaddingAnswer) string { return "Wadding and filling" }

// rollText says how much of a sheet to buy.
func rollText(r service.WaddingRoll, sys length.System) string {
	return near(r.Plan.Order, sys) + " off the roll, or " + times(r.Rolls, "roll", "rolls") + " of " + near(r.Sheet.Roll, sys)
}

func waddingFacts(ans *service.WaddingAnswer) []fact {
	sys := ans.Request.Units
	var out []fact
	for _, r := range ans.Rolls {
		out = append(out, fact{upperName(r.Sheet.Material.String()), near(r.Plan.Order, sys),
			"or " + times(r.Rolls, "roll", "rolls") + ", " + practice.MassText(r.Sheet.Mass, sys) + " in the pieces"})
	}
	for _, l := range ans.Work.Loose {
		out = append(out, fact{upperName(l.Material.String()), practice.MassText(l.Mass, sys),
			times(l.Bags, "bag", "bags") + " of " + practice.MassText(l.Bag, sys)})
	}
	return out
}

// upperName is a name of ASCII letters and dashes, as a figure's head.
func upperName(s string) string {
	out := []byte(s)
	for i, c := range out {
		switch {
		case c == '-':
			out[i] = ' '
		case 'a' <= c && c <= 'z':
			out[i] = c - 'a' + 'A'
		}
	}
	return string(out)
}

// laidRows say of each item what it takes and how thick it lies.
func laidRows(ans *service.WaddingAnswer) [][]string {
	sys := ans.Request.Units
	rows := make([][]string, len(ans.Work.Laid))
	for k, l := range ans.Work.Laid {
		it := ans.Request.Items[k]
		laid, covered := "", ""
		if l.Before > 0 {
			laid, covered = taped(l.Before, sys), taped(l.After, sys)
		}
		rows[k] = []string{clean(it.ID), strconv.Itoa(it.Count), it.Material.String(), practice.MassText(l.Mass, sys), laid, covered, apart(it.Name)}
	}
	return rows
}

// pieceRows are the pieces of one sheet.
func pieceRows(plan *service.YardageAnswer) [][]string {
	rows := make([][]string, len(plan.Request.Panels))
	for i, p := range plan.Request.Panels {
		cut := p.Cut()
		rows[i] = []string{strconv.Itoa(i + 1), clean(p.ID), apart(p.Name), strconv.Itoa(p.Count), sizeText(cut.Across, cut.Along, plan.Request.Units)}
	}
	return rows
}

var pieceHeads = []string{"No.", "Id", "Name", "Copies", "Cut size"}

// WaddingText is the answer as a page of plain text, in at most 78 columns.
func WaddingText(ans *service.WaddingAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.line(WaddingTitle(ans))
	p.line("")
	p.facts(waddingFacts(ans))
	p.section("WHAT IT TAKES, EACH")
	p.table(0, append([][]string{{"id", "copies", "of", "mass", "laid", "covered", "name"}}, laidRows(ans)...))
	for _, r := range ans.Rolls {
		p.plainCut(r.Plan)
	}
	p.settings(ans.Work.Settings)
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

// WaddingPicture is the drawing of an answer: the figures, each roll to scale
// with the pieces on it, what every item takes, and what to check.
func WaddingPicture(ans *service.WaddingAnswer) *Picture {
	wide := 0.0
	for _, r := range ans.Rolls {
		wide = max(wide, r.Sheet.Width.MM())
	}
	s := benchPaper(ans.Request.Units, max(wide, usualWidth))
	s.title(WaddingTitle(ans), itemCount(len(ans.Request.Items)))
	s.facts(waddingFacts(ans))
	for _, r := range ans.Rolls {
		s.heading(plainTitle(r.Plan))
		s.body(tPlain, capital(rollText(r, s.sys))+". "+plainProof(r.Plan))
		s.plainCut(r.Plan)
		s.table("Pieces of "+r.Sheet.Material.String(), []float64{0, 75, 420, 950, 1070, 1490}, 1, pieceHeads, pieceRows(r.Plan))
	}
	s.table("What it takes, each", []float64{0, 270, 390, 620, 780, 910, 1060, 1490}, 0,
		[]string{"Id", "Copies", "Of", "Mass", "Laid", "Covered", "Name"}, laidRows(ans))
	s.settings(ans.Work.Settings)
	s.closing(ans.Warnings, ans.Cautions)
	desc := itemCount(len(ans.Request.Items)) + "."
	for _, f := range waddingFacts(ans) {
		desc += " " + capital(f.head) + ": " + f.value + ", " + f.foot + "."
	}
	return s.picture(WaddingTitle(ans), desc, planStyles(s.k))
}

func itemCount(n int) string { return times(int64(n), "item", "items") }
