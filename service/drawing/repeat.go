package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/repeat"
	"github.com/bridletie/bridletie/service"
)

// ruleNames are the rules in words, by their number.
var ruleNames = [...]string{
	repeat.Exact: "exact layout", repeat.HalfRepeatOnce: "half a repeat once",
	repeat.HalfRepeatEach: "half a repeat in each width", repeat.InTurn: "cut in turn",
}

// asRoll is the layout of the drops in the form of an answer, so that the roll
// is drawn as one. A panel is one width of one kind of drop.
func asRoll(ans *service.RepeatAnswer) *service.YardageAnswer {
	req, l := ans.Request, ans.Layout
	out := &service.YardageAnswer{
		Request: service.YardageRequest{Units: req.Units, Cloth: req.Cloth, Sold: req.Sold},
		Order:   ans.Order,
	}
	first := make([]int, len(req.Drops))
	for i, d := range req.Drops {
		first[i] = len(out.Request.Panels)
		for w := range d.Widths {
			out.Request.Panels = append(out.Request.Panels, panel.Panel{
				ID: strconv.Itoa(i+1) + "." + strconv.Itoa(w+1), Name: d.Name, Count: d.Count,
				Size: panel.Size{Across: req.Cloth.Width, Along: d.Length},
			})
		}
	}
	roll := plan.Layout{Start: l.Start, Length: l.Length}
	for _, c := range l.Cuts {
		roll.Placements = append(roll.Placements, plan.Placement{
			Panel: first[c.Drop] + c.Width - 1, Copy: c.Copy, Part: 1, Parts: 1,
			Y: c.From, Across: req.Cloth.Width, Along: req.Drops[c.Drop].Length,
		})
	}
	out.Result = plan.Result{Cut: []plan.Layout{roll}}
	out.Lengths = []service.CutLength{{Needed: l.Length, Start: l.Start, Order: ans.Order}}
	return out
}

// RepeatTitle names an answer in a line: "Drops: Heron and sedge".
func RepeatTitle(ans *service.RepeatAnswer) string {
	if name := clean(ans.Request.Cloth.Name); name != "" {
		return "Drops: " + apart(name)
	}
	return "Drops"
}

// repeatFacts are the figures to be seen first.
func repeatFacts(ans *service.RepeatAnswer) []fact {
	sys := ans.Request.Units
	start := "begin anywhere in the repeat"
	if ans.Layout.Placed || ans.Request.Cloth.StartsAt != nil {
		start = "begin " + taped(ans.Layout.Start, sys) + " into the repeat"
	}
	return []fact{
		{"Order", near(ans.Order, sys), "as sold"},
		{"Needed", ans.Needed.Text(sys, length.Up), start},
		{"Any start", ans.AnyStart.Text(sys, length.Up), "wherever the cloth begins"},
	}
}

// seamText says what the pattern does where widths are joined.
func seamText(ans *service.RepeatAnswer) string {
	s, sys := ans.Seam, ans.Request.Units
	text := "Sew " + fromLeft(s.Left, sys) + " and " + fromLeft(s.Right, sys) + "; a width shows " + taped(s.Shows, sys) + ". "
	switch {
	case !s.CanMeet:
		return text + "The pattern cannot meet across: it is " + taped(max(s.Remaining, -s.Remaining), sys) + " out."
	case s.Trim > 0:
		text += "The pattern meets across once " + taped(s.Trim, sys) + " more than the allowance is turned in. "
	default:
		text += "The pattern meets across. "
	}
	if s.NextStart > 0 {
		return text + "Each next width begins " + taped(s.NextStart, sys) + " earlier in the repeat."
	}
	return text + "All widths begin alike."
}

// kindText says how one kind of drop is cut.
func kindText(ans *service.RepeatAnswer, i int) string {
	k, d, sys := ans.Kinds[i], ans.Request.Drops[i], ans.Request.Units
	if ans.Request.Cloth.Pattern.LengthRepeat <= 0 {
		return "Cut " + near(d.Length, sys) + "; nothing to match along."
	}
	text := counted(k.Repeats, "repeat") + ". Cut " + k.Alike.Text(sys, length.Up) + " to the next of the same start, waste " + taped(k.Alike-k.First, sys)
	if k.Starts > 1 {
		text += "; " + k.Next.Text(sys, length.Up) + " to the width joined on the right, waste " + taped(k.Next-k.First, sys)
		switch {
		case k.InTurn < k.Grouped:
			text += ". In turn wastes less: " + taped(k.InTurn, sys) + " against " + taped(k.Grouped, sys)
		case k.Grouped < k.InTurn:
			text += ". One start first, then the next, wastes less: " + taped(k.Grouped, sys) + " against " + taped(k.InTurn, sys)
		default:
			text += ". Either order wastes the same"
		}
	}
	if d.Widths > 1 {
		text += ". Unmatched, each seam would be " + taped(max(k.Off, -k.Off), sys) + " out"
	}
	return text + "."
}

// dropTitle is a drop in a few words.
func dropTitle(d service.RepeatDrop, sys length.System) string {
	text := strconv.Itoa(d.Count) + " × " + near(d.Length, sys)
	if d.Widths > 1 {
		text += ", " + strconv.Itoa(d.Widths) + " widths"
	}
	return text
}

// askedText answers what was asked beside the drops.
func askedText(ans *service.RepeatAnswer) []string {
	sys := ans.Request.Units
	var out []string
	if ans.Motif != nil {
		side := func(what string, c *repeat.Centring) string {
			text := what + " in the middle: " + counted(c.Repeats, "whole repeat") + " and " + taped(c.Part, sys) + " of one at each side"
			if !c.Joined {
				return text + "; one width covers it, cut from " + taped(c.Cut, sys) + " off the left selvedge."
			}
			return text + "; beside the middle width " + repeatWidthsText(c.LeftWhole, c.LeftPart, sys) + " left and " + repeatWidthsText(c.RightWhole, c.RightPart, sys) + " right."
		}
		better := "The gap leaves the larger part."
		if ans.CentreMotif() {
			better = "The motif leaves the larger part."
		}
		out = append(out, "On "+near(ans.Request.Centre.Finished, sys)+", "+side("a motif", ans.Motif), "With "+side("the gap", ans.Gap), better)
	}
	if w := ans.Window; w != nil {
		switch {
		case !w.Fits:
			out = append(out, "The panel is smaller than the motif.")
		case w.Always:
			out = append(out, "Wherever the panel begins, some motif is whole inside it.")
		default:
			out = append(out, "The motif is whole when the panel's finished top left corner lies "+tape(w.AcrossFrom, sys)+" to "+taped(w.AcrossFrom+w.AcrossRange, sys)+
				" from the left selvedge and "+tape(w.AlongFrom, sys)+" to "+taped(w.AlongFrom+w.AlongRange, sys)+" into the repeat, or whole repeats from there.")
		}
	}
	return out
}

// counted is a number of things in words.
func counted(n int64, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.FormatInt(n, 10) + " " + thing + "s"
}

func repeatWidthsText(whole int64, rest length.Length, sys length.System) string {
	if whole == 0 {
		return taped(rest, sys)
	}
	return strconv.FormatInt(whole, 10) + " whole and " + taped(rest, sys)
}

// rulesText compares the rules.
func rulesText(ans *service.RepeatAnswer) []string {
	sys := ans.Request.Units
	var out []string
	for _, r := range ans.Rules {
		out = append(out, ruleNames[r.Rule]+": "+r.Total.Text(sys, length.Up))
	}
	return append(out, "not matched at all: "+ans.Layout.Plain.Text(sys, length.Up))
}

// RepeatText is the answer about drops as a page of plain text.
func RepeatText(ans *service.RepeatAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.para("", RepeatTitle(ans))
	p.para("", clothText(ans.Request.Cloth, p.sys))
	p.line("")
	p.facts(repeatFacts(ans))
	p.section("DROPS")
	for i, d := range ans.Request.Drops {
		p.para(padLeft(strconv.Itoa(i+1), 3)+"  ", apart(clean(d.Name))+" "+dropTitle(d, p.sys)+". "+kindText(ans, i))
	}
	p.section("SEAM")
	p.para("", seamText(ans))
	p.section("CUT IN THIS ORDER")
	rows := [][]string{{"from", "in repeat", "waste", "drop"}}
	for _, c := range ans.Layout.Cuts {
		rows = append(rows, []string{tape(c.From, p.sys), tape(c.Start, p.sys), tape(c.Waste, p.sys), repeatCutName(c)})
	}
	p.table(3, rows)
	p.para("", "In "+tapeName(p.sys)+" from the beginning of the cloth.")
	p.list("BY RULE", rulesText(ans))
	p.list("ALSO ASKED", askedText(ans))
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

func repeatCutName(c repeat.Cut) string {
	return strconv.Itoa(c.Drop+1) + ", copy " + strconv.Itoa(c.Copy) + ", width " + strconv.Itoa(c.Width)
}

// RepeatPicture is the drawing of an answer about drops: the figures, the first
// joined drop, the roll to scale with its cuts, the kinds of drops, and what to
// check.
func RepeatPicture(ans *service.RepeatAnswer) *Picture {
	s := newSheet(asRoll(ans))
	s.title(RepeatTitle(ans), clothText(ans.Request.Cloth, s.sys))
	s.facts(repeatFacts(ans))
	s.body(tPlain, seamText(ans))
	s.joined(ans)
	s.heading("The roll")
	s.strip(service.PieceUse{Length: ans.Layout.Length, Layout: s.ans.Result.Cut[0]}, "", nil, "cut here", nil)
	var rows [][]string
	for i, d := range ans.Request.Drops {
		rows = append(rows, []string{strconv.Itoa(i + 1), apart(clean(d.Name)) + " " + dropTitle(d, s.sys), kindText(ans, i)})
	}
	s.table("Drops", []float64{0, 70, 480, usualWidth + marginLeft + marginRight - 2*marginPage}, 0, []string{"", "drop", "cut"}, rows)
	s.heading("By rule")
	for _, t := range rulesText(ans) {
		s.body(tPlain, t)
	}
	if also := askedText(ans); len(also) > 0 {
		s.heading("Also asked")
		for _, t := range also {
			s.body(tPlain, t)
		}
	}
	s.closing(ans.Warnings, ans.Cautions)
	return s.picture(RepeatTitle(ans), RepeatTitle(ans)+". "+seamText(ans), planStyles(s.k))
}

// maxJoined is how many widths of a joined drop are drawn side by side.
const maxJoined = 6

// joined draws the first drop that is joined of several widths, as it hangs:
// seams, and the motifs that run on across them.
func (s *sheet) joined(ans *service.RepeatAnswer) {
	n := 0
	for n < len(ans.Request.Drops) && ans.Request.Drops[n].Widths < 2 {
		n++
	}
	if n == len(ans.Request.Drops) || !s.marks || ans.Seam.Shows <= 0 {
		return
	}
	d, sys := ans.Request.Drops[n], ans.Request.Units
	count := min(d.Widths, maxJoined)
	s.heading("Drop " + strconv.Itoa(n+1) + " joined")
	// Two columns of the sheet at most twice as high as they are broad.
	shows, most := ans.Seam.Shows.MM(), s.right()-s.left()
	long := min(d.Length.MM(), 2*shows*float64(count))
	z := min(1, most/(shows*float64(count)), 0.9*most/long)
	w, h := shows*z, long*z
	s.gap(60)
	var items []Shape
	for k := range count {
		cut, ok := findCut(ans.Layout.Cuts, n, k+1)
		if !ok {
			return
		}
		x := float64(k) * w
		items = append(items, Rect{x, 0, w, h, cPanelFill},
			Text{At: Pt{x + w/2, -16 * s.k}, S: strconv.Itoa(k + 1), Size: 30 * s.k, Anchor: AtMiddle, Class: tLabelBold})
		g := gridOf(ans.Request.Cloth, plan.Layout{Start: cut.Start}, long)
		for kind, m := range ans.Request.Cloth.Pattern.Principal() {
			var lines []Polyline
			for _, p := range g.motifs(m) {
				if at := p.X - ans.Seam.Left.MM(); at >= 0 && at <= shows {
					lines = append(lines, glyph(kind, Pt{x + at*z, p.Y * z}, 12*s.k)...)
				}
			}
			items = append(items, Path{lines, cMarker})
		}
		if k > 0 {
			items = append(items, Line{Pt{x, -10 * s.k}, Pt{x, h + 10*s.k}, cSelvedge})
		}
	}
	items = append(items, Rect{0, 0, w * float64(count), h, cPanel})
	s.add(Group{Title: "drop " + strconv.Itoa(n+1) + " joined", Dx: s.left(), Dy: s.y, Items: items})
	s.y += h
	s.gap(20)
	text := "Seams dashed, " + taped(ans.Seam.Shows, sys) + " apart; the motifs of each width as cut."
	if count < d.Widths {
		text += " The first " + strconv.Itoa(count) + " of " + strconv.Itoa(d.Widths) + " widths."
	}
	if long < d.Length.MM() {
		text += " Only the top is drawn."
	}
	s.body(tQuiet, text)
}

func findCut(cuts []repeat.Cut, drop, width int) (repeat.Cut, bool) {
	for _, c := range cuts {
		if c.Drop == drop && c.Copy == 1 && c.Width == width {
			return c, true
		}
	}
	return repeat.Cut{}, false
}
