package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/service"
)

// PipingText is an answer for piping as a page of plain text, in at most 78
// columns: the figures, each run as a line with its joins, what it is made of, the
// strips and the ways.
func PipingText(ans *service.PipingAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.line(PipingTitle(ans))
	p.para("", pipingOf(ans))
	p.line("")
	p.facts(pipingFacts(ans))
	p.line("")
	p.para("", pipingHow(ans))
	if shown := ans.Plan(); shown != nil {
		p.section("RUNS  (x a join, # where none may fall, ^ a corner, o closed here)")
		for i := range ans.Job.Runs[:min(len(ans.Job.Runs), maxPipedListed)] {
			pipedRun(p, ans, i)
		}
		if more := len(ans.Job.Runs) - maxPipedListed; more > 0 {
			p.line("And " + strconv.Itoa(more) + " runs more, which are not listed.")
		}
		p.section("STRIPS")
		p.table(1, pipingStripRows(ans))
	}
	p.section("WAYS TO CUT")
	rows := [][]string{{"way", "to buy", "strips", "joins", ""}}
	for _, w := range ans.Ways {
		rows = append(rows, pipingWayRow(w, p.sys))
	}
	p.table(0, rows)
	if len(ans.Yields) > 0 {
		p.section("WHAT EACH OFFCUT GIVES BY ITSELF")
		p.table(0, pipingYieldRows(ans))
	}
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

// pipedRun writes a run: its name, its line, and what it is made of.
func pipedRun(p *page, ans *service.PipingAnswer, i int) {
	r, l := ans.Job.Runs[i], ans.Plan().Runs[i]
	p.para("", pipedLabel(ans, i)+", "+near(r.Length, p.sys)+pipedClosed(r))
	p.line("  " + pipedLine(r, l, ans.Job.Margin))
	text := pipedOf(ans, l)
	if len(l.Joins) > 0 {
		var at []string
		for _, j := range pipedInOrder(l.Joins) {
			at = append(at, tape(j, p.sys))
		}
		text += "; joins at " + strings.Join(at, ", ")
	}
	p.para("    ", text)
}

// pipedLine is a run as a line of text.
func pipedLine(r piping.Run, l piping.Laid, margin length.Length) string {
	const n = 66
	cell := func(at length.Length) int { return min(max(int(at.MM()/r.Length.MM()*(n-1)+0.5), 0), n-1) }
	line := []byte(strings.Repeat("-", n))
	for _, s := range pipedForbidden(r, margin) {
		for c := cell(s.From); c <= cell(s.To); c++ {
			line[c] = '#'
		}
	}
	for _, c := range r.Corners {
		line[cell(c)] = '^'
	}
	for _, j := range l.Joins {
		line[cell(j)] = 'x'
	}
	if r.Closed && len(l.Pieces) > 0 {
		line[cell(l.Closes)] = 'o'
	}
	return "|" + string(line) + "|"
}

// pipingStripRows are the strips, where each is cut and how long it is.
func pipingStripRows(ans *service.PipingAnswer) [][]string {
	s := &pipingSheet{ans: ans, shown: ans.Plan()}
	rows := [][]string{{"no.", "length", "cut from"}}
	for i, strip := range s.shown.Strips {
		if i == maxPipedListed {
			rows = append(rows, []string{"", "", "and " + strconv.Itoa(len(s.shown.Strips)-i) + " more, which are not listed"})
			break
		}
		from := "new cloth"
		if strip.Rect >= 0 {
			from = s.offcutName(strip.Rect)
		}
		switch strip.Lean {
		case piping.ToRight:
			from += ", leaning to the right"
		case piping.ToLeft:
			from += ", leaning to the left"
		}
		rows = append(rows, []string{strconv.Itoa(i + 1), strip.Long.Text(ans.Request.Units, length.Down), from})
	}
	return rows
}

// pipingYieldRows are the offcuts and what strips of each lean they give.
func pipingYieldRows(ans *service.PipingAnswer) [][]string {
	s := &pipingSheet{ans: ans}
	lean := [...]string{piping.Upright: "straight", piping.ToRight: "to the right", piping.ToLeft: "to the left"}
	var rows [][]string
	for _, y := range ans.Yields[:min(len(ans.Yields), maxPipedListed)] {
		text := "nothing of use"
		if y.Strips > 0 {
			text = pipingCount(y.Strips, "strip", "strips") + ", " + y.Shortest.Text(ans.Request.Units, length.Down) + " to " +
				y.Longest.Text(ans.Request.Units, length.Down) + ", together " + y.Total.Text(ans.Request.Units, length.Down)
		}
		rows = append(rows, []string{s.offcutName(y.Offcut), lean[y.Lean], text})
	}
	return rows
}
