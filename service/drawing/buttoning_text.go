package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// ButtoningText is an answer as a page of plain text, in at most 78 columns:
// first what to cut, then both grids row by row, the motifs, the joins, the
// pleats, the buttons and what to check.
func ButtoningText(ans *service.ButtoningAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.para("", buttoningFirst(ans))
	p.line("")
	p.para("", buttoningTitle(ans))
	p.para("", buttoningOf(ans))
	p.line("")
	p.facts(buttoningFacts(ans))
	p.grid("ON THE WORK", workLines(ans), ans.Work.OnWork())
	p.grid("ON THE WRONG SIDE OF THE CLOTH", clothLines(ans), ans.Work.OnCloth())
	for _, sec := range buttoningSections(ans) {
		p.section(strings.ToUpper(sec.head))
		for _, t := range sec.lines {
			p.para("  ", t)
		}
	}
	if rows := motifRows(ans, 200); len(rows) > 0 {
		p.section("EVERY MOTIF: ON THE CLOTH, ON THE WORK")
		p.table(0, rows)
	}
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

// grid writes marks row by row.
func (p *page) grid(title, lines string, rows []buttoning.Row) {
	p.section(title + ", " + tapeName(p.sys) + " from the centre lines")
	p.para("  ", lines)
	table := [][]string{{"row", "down", "across"}}
	for i, r := range rows {
		head := []string{strconv.Itoa(i + 1), tape(r.Along, p.sys)}
		for _, line := range markLines(r.Across, p.sys) {
			table = append(table, append(head, line))
			head = []string{"", ""}
		}
	}
	p.table(2, table)
}

// markLines are marks with commas between them, in lines that break only there.
func markLines(marks []length.Length, sys length.System) []string {
	const most = 56
	var lines []string
	line := ""
	for i, x := range marks {
		t := tape(x, sys)
		if i < len(marks)-1 {
			t += ","
		}
		if line != "" && cells(line)+1+cells(t) > most {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += t
	}
	return append(lines, line)
}

func workLines(ans *service.ButtoningAnswer) string {
	at := ans.Work.LinesOnWork()
	return "The centre lines cross " + taped(at.Across, ans.Request.Units) + " from the left and " + taped(at.Along, ans.Request.Units) + " from the top finished edge."
}

func clothLines(ans *service.ButtoningAnswer) string {
	at, w, sys := ans.Work.Lines(), ans.Work, ans.Request.Units
	text := "The centre lines cross " + taped(at.Along, sys) + " from the top cut edge, and across "
	if w.Allow.Left == w.Allow.Right {
		return text + "in the middle."
	}
	return text + taped(w.Cut().Across-at.Across, sys) + " from the left with the wrong side up."
}

// part is a section of the page and of the sheet.
type part struct {
	head  string
	lines []string
}

// buttoningSections are what both say in sentences.
func buttoningSections(ans *service.ButtoningAnswer) []part {
	out := []part{{"The wells", wellLines(ans)}}
	if lines := joinLines(ans); len(lines) > 0 {
		out = append(out, part{"The widths", lines})
	}
	out = append(out, part{"Pleats", pleatLines(ans)})
	if ans.Found != nil || len(ans.Motifs) > 0 {
		out = append(out, part{"The pattern", patternLines(ans)})
	}
	return append(out, part{"Buttons and twine", buttonLines(ans)})
}

func wellLines(ans *service.ButtoningAnswer) []string {
	sys := ans.Request.Units
	across, along := ans.Allowances()
	line := func(head string, a service.AllowanceBeside) string {
		text := head + " of " + taped(a.Chord, sys) + " takes " + taped(a.Arc, sys) + " by the arc, " + taped(a.Rule, sys) + " by the rule of thumb (" +
			moreOrLess(a.Rule-a.Arc, sys) + "), at most " + taped(a.TwiceDepth, sys) + "."
		if a.RuleDepth > 0 {
			text += " The rule fits wells of " + taped(a.RuleDepth, sys) + "."
		}
		return text
	}
	return []string{line("A width", across), line("A height", along)}
}

func moreOrLess(l length.Length, sys length.System) string {
	if l < 0 {
		return taped(-l, sys) + " less"
	}
	return taped(l, sys) + " more"
}

func joinLines(ans *service.ButtoningAnswer) []string {
	parts := ans.Joined.Parts
	if len(parts) < 2 {
		return nil
	}
	sys := ans.Request.Units
	out := []string{"The widths are joined in a zigzag along the diamonds, so that the joins hide in the pleats. Places from the upright centre line, with seams of " + taped(ans.Request.Shop.Length(practice.PanelJoin), sys) + ":"}
	for i, p := range parts {
		text := strconv.Itoa(i+1) + ": from " + tape(p.From, sys) + " to " + tape(p.To, sys) + ", " + taped(p.To-p.From, sys) + " wide"
		switch {
		case !p.Fits:
			text += "; the pattern cannot be matched here"
		case ans.Request.Cloth.Pattern.WidthRepeat > 0:
			text += "; cut with its left edge " + taped(p.Selvedge, sys) + " from the left selvedge"
		}
		out = append(out, text+".")
	}
	return out
}

func pleatLines(ans *service.ButtoningAnswer) []string {
	sys := ans.Request.Units
	names := map[buttoning.PleatKind]string{
		buttoning.Diagonal: "between buttons", buttoning.ToTop: "to the top edge", buttoning.ToBottom: "to the bottom edge", buttoning.ToTheSides: "to the sides",
	}
	var out []string
	for _, p := range ans.Work.Pleats() {
		out = append(out, strconv.Itoa(p.Count)+" "+names[p.Kind]+", "+taped(p.Depth, sys)+" deep, taking up "+taped(p.TakeUp, sys)+" each; they face "+service.PleatFaces(p.Kind)+".")
	}
	if ans.Work.Eased {
		out = append(out, "The fullness at the edges is eased in.")
	}
	if len(out) == 0 {
		out = append(out, "None: nothing is taken up.")
	}
	return out
}

func patternLines(ans *service.ButtoningAnswer) []string {
	sys, p := ans.Request.Units, ans.Request.Cloth.Pattern
	var out []string
	if f := ans.Found; f != nil {
		k, at := ans.Nearest()
		out = append(out, "Lay the cloth so that "+motifName(p, k)+" lies "+fromLines(at, sys)+", seen from the right side.")
		text := "Objective: " + ans.Objective() + ". Here it is " + figure(f.Score) + "; as the cloth was said to lie, " + figure(ans.Begun) + "."
		if f.Complete {
			text += " No shift on a lattice of 0.5 mm is better."
		}
		out = append(out, text)
		if ans.Varied {
			d := ans.Work.Diamond()
			out = append(out, "The diamonds were changed to "+sizeText(d.Across, d.Along, sys)+" for it.")
		}
	}
	if n := len(ans.Motifs); n > 0 {
		shown, partly, swallowed := ans.Tally()
		out = append(out, plural(n, "motif lies", "motifs lie")+" between the finished edges: "+strconv.Itoa(shown)+" shown, "+strconv.Itoa(partly)+" partly swallowed, "+strconv.Itoa(swallowed)+" swallowed.")
		if t := tape(ans.Skew, sys); t == "0" {
			out = append(out, "Left and right agree.")
		} else {
			out = append(out, "Left and right are "+taped(ans.Skew, sys)+" out.")
		}
	}
	return out
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// figure is a number to three decimals.
func figure(x float64) string {
	t := strconv.FormatFloat(x, 'f', 3, 64)
	if t == "-0.000" {
		return "0.000"
	}
	return t
}

func buttonLines(ans *service.ButtoningAnswer) []string {
	sys, b, wish, button := ans.Request.Units, ans.Buttons, ans.Request.Buttons, ans.Request.Button()
	up := func(l length.Length) string { return l.Text(sys, length.Up) }
	out := []string{strconv.Itoa(b.Count) + " buttons of " + strconv.Itoa(wish.Lines) + " lines, " + mmText(button.Diameter()) + ", covered " + mmText(button.Covered()) +
		"; circles of " + mmText(b.Circle) + " to cover them."}
	for i, n := range b.Offcuts {
		out = append(out, "Offcut "+strconv.Itoa(i+1)+", "+sizeText(n.Piece.Across, n.Piece.Along, sys)+": "+nestText(n)+".")
	}
	if n := b.Strip; n != nil {
		out = append(out, "From the cloth: a strip of the full width, "+up(n.Piece.Along)+" along: "+nestText(*n)+".")
	}
	if c := b.Centred; c != nil {
		out = append(out, "Each carries "+*wish.Motif+" in its middle: "+up(c.Length)+" of the full width, "+strconv.Itoa(c.Across)+" motifs across.")
	}
	behind := "washers"
	if wish.Tufts {
		behind = "tufts"
	}
	return append(out, "Twine: "+up(b.Twine)+" each, "+up(ans.TwineTotal())+" in all; "+strconv.Itoa(b.Count)+" "+behind+" behind.")
}

func nestText(n buttoning.Nest) string {
	text := strconv.Itoa(n.Count) + " in " + plural(n.Rows, "row", "rows")
	if n.Rows > 1 && !n.Square {
		text += " of " + strconv.Itoa(n.Odd) + " and " + strconv.Itoa(n.Even) + ", moved by half a circle, " + mmText(n.Pitch) + " apart"
	}
	return text
}

// mmText is a small size in millimetres to a tenth, whatever the units: button
// moulds are sold so.
func mmText(l length.Length) string {
	return strconv.FormatFloat(float64((l+length.Millimetre/20)/(length.Millimetre/10))/10, 'f', -1, 64) + " mm"
}

// motifRows are the motifs as rows of a table, at most so many.
func motifRows(ans *service.ButtoningAnswer, most int) [][]string {
	sys := ans.Request.Units
	var rows [][]string
	for i, m := range ans.Motifs {
		if i == most {
			rows = append(rows, []string{"and " + strconv.Itoa(len(ans.Motifs)-most) + " more", "", "", ""})
			break
		}
		pair := func(p buttoning.Place) string { return tape(p.X, sys) + ", " + tape(p.Y, sys) }
		rows = append(rows, []string{motifName(ans.Request.Cloth.Pattern, m.Motif), pair(m.Cloth), pair(m.Work), fateWord(m.Fate) + ", " + strconv.Itoa(m.Hidden) + " % hidden"})
	}
	return rows
}
