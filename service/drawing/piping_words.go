package drawing

import (
	"slices"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/service"
)

// pipingWays are the ways in words.
var pipingWays = [...]string{
	piping.FromRects:    "out of the offcuts",
	piping.FullBias:     "bias strips from selvedge to selvedge",
	piping.BiasPiece:    "bias strips of all lengths from a piece cut straight across",
	piping.Continuous:   "one continuous bias strip from a tube",
	piping.StraightCuts: "straight strips across",
	piping.LongCuts:     "straight strips along",
}

// pipingWayNames are the ways in a table.
var pipingWayNames = [...]string{
	piping.FromRects:    "offcuts",
	piping.FullBias:     "bias strips",
	piping.BiasPiece:    "bias piece",
	piping.Continuous:   "continuous",
	piping.StraightCuts: "across",
	piping.LongCuts:     "along",
}

// PipingTitle names an answer in a line: "Piping: Heron and sedge".
func PipingTitle(ans *service.PipingAnswer) string {
	if name := clean(ans.Request.Cloth.Name); name != "" {
		return "Piping: " + apart(name)
	}
	return "Piping"
}

// pipingOf says of what cord and how the strips are cut.
func pipingOf(ans *service.PipingAnswer) string {
	req := ans.Request
	text := req.Cord.String() + " cord" // which is told in millimetres
	if req.Units == length.Imperial {
		text = taped(req.Cord, req.Units) + " cord"
	}
	if req.Double {
		text += ", double"
	}
	switch {
	case req.Cut == piping.Across:
		text += ", strips straight across"
	case req.Cut == piping.Along:
		text += ", strips straight along"
	case req.Angle != piping.TrueBias:
		text += ", strips at " + strconv.Itoa(req.Angle) + " degrees to the selvedge"
	default:
		text += ", strips on the true bias"
	}
	return text + ", " + pipingCount(len(ans.Job.Runs), "run", "runs")
}

func pipingCount(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + more
}

func pipingFacts(ans *service.PipingAnswer) []fact {
	sys := ans.Request.Units
	out := []fact{
		{"STRIP WIDTH", taped(ans.Job.Width, sys), "exactly " + ans.Exact.Text(sys, length.Up)},
		{"CORD", ans.Cord.Text(sys, length.Up), "with overlaps and ends"},
	}
	p := ans.Plan()
	if p == nil {
		return append(out, fact{"TO BUY", "no way", "see below"})
	}
	buy, foot := near(p.Order, sys), "new cloth"
	switch {
	case p.Order == 0 && p.Missing == 0:
		buy, foot = "nothing", "it is all in the offcuts"
	case p.Order == 0:
		foot = "and not all is covered"
	}
	return append(out, fact{"TO BUY", buy, foot},
		fact{"STRIPS", strconv.Itoa(len(p.Strips)), pipingCount(p.Joins, "join", "joins")})
}

// pipingHow says which way is shown and how tight a curve may be.
func pipingHow(ans *service.PipingAnswer) string {
	sys := ans.Request.Units
	curves := "The tightest curve is about " + ans.Job.RadiusBias.Text(sys, length.Up) + " for strips on the bias and " +
		ans.Job.RadiusStraight.Text(sys, length.Up) + " for straight ones."
	p := ans.Plan()
	if p == nil {
		return "No way is possible. " + curves
	}
	text := "Shown: " + pipingWays[p.Way]
	switch {
	case p.Way == piping.FromRects && p.Cloth > 0:
		text += ", the rest from new cloth"
	case p.Missing > 0:
		text += "; not covered: " + pipingCount(p.Missing, "run", "runs")
	}
	return text + ". " + curves
}

// pipedLabel is a run's name with its copy where there are more.
func pipedLabel(ans *service.PipingAnswer, i int) string {
	of := ans.Of[i]
	run := ans.Request.Runs[of.Run]
	name := apart(run.Name)
	if name == "" {
		name = "run " + strconv.Itoa(of.Run+1)
	}
	if run.Count > 1 {
		name += " " + strconv.Itoa(of.Copy)
	}
	return name
}

func pipedClosed(r piping.Run) string {
	if r.Closed {
		return ", closed"
	}
	return ""
}

// pipedForbidden are the parts of a run where no join may fall, from its beginning.
func pipedForbidden(r piping.Run, margin length.Length) []piping.Span {
	var out []piping.Span
	add := func(from, to length.Length) {
		if from, to = max(from, 0), min(to, r.Length); from < to {
			out = append(out, piping.Span{From: from, To: to})
		}
	}
	for _, s := range r.NoJoin {
		if s.From > s.To {
			add(s.From, r.Length)
			add(0, s.To)
			continue
		}
		add(s.From, s.To)
	}
	for _, c := range r.Corners {
		add(c-margin, c+margin)
		if r.Closed {
			add(c-margin+r.Length, r.Length)
			add(0, c+margin-r.Length)
		}
	}
	slices.SortFunc(out, func(a, b piping.Span) int { return int(min(max(a.From-b.From, -1), 1)) })
	for i := 1; i < len(out); {
		if out[i].From > out[i-1].To {
			i++
			continue
		}
		out[i-1].To = max(out[i-1].To, out[i].To)
		out = slices.Delete(out, i, i+1)
	}
	return out
}

func pipedInOrder(joins []length.Length) []length.Length {
	out := slices.Clone(joins)
	slices.Sort(out)
	return out
}

// cuts are the places on strips where they are cut through.
func (s *pipingSheet) cuts(of []int) map[int][]length.Length {
	want := make(map[int]bool, len(of))
	for _, i := range of[:min(len(of), maxPipingStrips)] {
		want[i] = true
	}
	out := make(map[int][]length.Length)
	for _, l := range s.shown.Runs {
		for _, q := range l.Pieces {
			if end := q.From + q.Long; want[q.Strip] && end < s.shown.Strips[q.Strip].Long {
				out[q.Strip] = append(out[q.Strip], end)
			}
		}
	}
	return out
}

func (s *pipingSheet) offcutName(i int) string {
	if name := apart(s.ans.Request.Offcuts[i].Name); name != "" {
		return name
	}
	return "offcut " + strconv.Itoa(i+1)
}

// runRows are the runs and what they are made of.
func (s *pipingSheet) runRows() [][]string {
	var rows [][]string
	for i, l := range s.shown.Runs[:min(len(s.shown.Runs), maxPipedListed)] {
		rows = append(rows, []string{pipedLabel(s.ans, i), near(s.ans.Job.Runs[i].Length, s.sys), pipedOf(s.ans, l)})
	}
	if more := len(s.shown.Runs) - maxPipedListed; more > 0 {
		rows = append(rows, []string{"and " + strconv.Itoa(more) + " more", "", "not listed"})
	}
	return rows
}

// pipedOf says which strips a run takes, and how much of each.
func pipedOf(ans *service.PipingAnswer, l piping.Laid) string {
	if len(l.Pieces) == 0 {
		return "not covered"
	}
	var parts []string
	for _, q := range l.Pieces[:min(len(l.Pieces), 40)] {
		long := tape(q.Long, ans.Request.Units)
		if ans.Plan().Tube != nil {
			parts = append(parts, bound(long+" of the strip"))
			continue
		}
		parts = append(parts, bound(long+" of "+strconv.Itoa(q.Strip+1)))
	}
	return strings.Join(parts, ", ") + " (" + tapeName(ans.Request.Units) + ")"
}

func (s *pipingSheet) wayRows() [][]string {
	var rows [][]string
	for _, w := range s.ans.Ways {
		rows = append(rows, pipingWayRow(w, s.sys))
	}
	return rows
}

func pipingWayRow(w service.PipingWay, sys length.System) []string {
	if !w.Possible {
		return []string{pipingWayNames[w.Way], "", "", "", strings.Join(note.Texts(w.Because, sys), "; ")}
	}
	why := "keeps all wishes"
	if !w.Keeps {
		why = strings.Join(note.Texts(w.Because, sys), "; ")
	}
	return []string{pipingWayNames[w.Way], near(w.Order, sys), strconv.Itoa(len(w.Strips)), strconv.Itoa(w.Joins), why}
}
