package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// FoundationTitle names an answer in a line.
func FoundationTitle(ans *service.FoundationAnswer) string {
	if ans.Request.Build == foundation.Modern {
		return "Foundation, modern build"
	}
	return "Foundation, traditional build"
}

func foundationFacts(ans *service.FoundationAnswer) []fact {
	t, sys := ans.Work.Totals, ans.Request.Units
	out := []fact{{"WEBBING", t.Webbing.Text(sys, length.Up), times(t.Rolls, "roll", "rolls")}}
	if t.Springs > 0 {
		out = append(out, fact{"SPRINGS", strconv.FormatInt(t.Springs, 10), t.Lashing.Text(sys, length.Up) + " of cord, " + times(t.LashingBalls, "ball", "balls")})
	}
	if t.Stuffing > 0 {
		out = append(out, fact{"STUFFING", practice.MassText(t.Stuffing, sys), times(t.StuffingBags, "bag", "bags")})
	}
	if t.Twine > 0 {
		out = append(out, fact{"TWINE", t.Twine.Text(sys, length.Up), times(t.TwineBalls, "ball", "balls")})
	}
	return out
}

// buyRows are the rest of what is bought: cloths, tacks, gimp.
func buyRows(ans *service.FoundationAnswer) [][]string {
	sys := ans.Request.Units
	var rows [][]string
	for _, c := range ans.Cloths {
		rows = append(rows, []string{capital(clean(c.Plan.Request.Cloth.Name)), c.Plan.Result.Needed().Text(sys, length.Up), near(c.Plan.Order, sys) + " of " + taped(c.Plan.Request.Cloth.Width, sys)})
	}
	for _, f := range ans.Work.Totals.Fixed {
		name := capital(fixedName(f.Kind, f.Size, sys))
		if oz := f.Ounces(); oz > 0 && sys == length.Imperial {
			name += ", " + strconv.Itoa(oz) + " oz"
		}
		rows = append(rows, []string{name, strconv.FormatInt(f.Count, 10), times(f.Boxes, "box", "boxes")})
	}
	if t := ans.Work.Totals; t.Gimp > 0 {
		rows = append(rows, []string{"Gimp or braid", t.Gimp.Text(sys, length.Up), near(t.GimpOrder, sys)})
	}
	return rows
}

// fixedName is "tacks of 13 mm", in millimetres as they are sold.
func fixedName(k foundation.Kind, size length.Length, sys length.System) string {
	switch {
	case size == 0:
		return k.String() + "s"
	case sys == length.Imperial:
		return k.String() + "s of " + near(size, sys)
	}
	return k.String() + "s of " + size.String()
}

// webTexts say how the webs of a frame lie, those of one length together.
func webTexts(b *foundation.Built, sys length.System) []string {
	w := &b.Webbing
	kind := "webs"
	if w.Elastic {
		kind = "elastic webs"
	}
	out := []string{strconv.Itoa(w.Across) + " " + kind + " from side to side" + gapText(w.Across, w.GapAcross, sys) + ": " + lengthsOf(w.Webs, foundation.Across, sys)}
	if w.Along > 0 {
		text := strconv.Itoa(w.Along) + " from back to front" + gapText(w.Along, w.GapFront, sys)
		if w.GapBack != w.GapFront && w.Along > 1 {
			text += " at the front and " + taped(w.GapBack, sys) + " at the back"
		}
		out = append(out, text+": "+lengthsOf(w.Webs, foundation.Along, sys))
	}
	return out
}

func gapText(n int, gap length.Length, sys length.System) string {
	if n < 2 {
		return ""
	}
	return ", gaps of " + taped(gap, sys)
}

// lengthsOf are the cut lengths one way in their order, equal neighbours
// together: "2 × 64.1 cm, 1 × 66 cm".
func lengthsOf(webs []foundation.Web, way foundation.Way, sys length.System) string {
	var parts []string
	n, last := 0, ""
	flush := func() {
		if n > 0 {
			parts = append(parts, strconv.Itoa(n)+" × "+last)
		}
	}
	for _, w := range webs {
		if w.Way != way {
			continue
		}
		if text := w.Cut.Text(sys, length.Up); text != last {
			flush()
			n, last = 0, text
		}
		n++
	}
	flush()
	return strings.Join(parts, ", ")
}

// springText says which springs, how they stand and how they are tied.
func springText(b *foundation.Built, sys length.System) string {
	n := len(b.Grid.Centres)
	if n == 0 {
		return ""
	}
	rows := make([]string, len(b.Grid.Rows))
	for i, r := range b.Grid.Rows {
		rows[i] = strconv.Itoa(r)
	}
	text := times(int64(n), "spring", "springs") + " of " + near(b.Spring.Height, sys) + ", gauge " + b.Spring.Gauge +
		", in rows of " + strings.Join(rows, ", ") + " from the back, tied down to " + near(b.Spring.Tied, sys)
	if n > 1 {
		text += ", " + taped(b.Grid.Gap, sys) + " between"
	}
	return text + "; " + strconv.Itoa(b.Lashing.Strands) + " strands of cord, " + b.Lashing.Cord.Text(sys, length.Up) + " (" + clean(b.Spring.Source) + ")"
}

// sewnText says what twine and stuffing a frame takes.
func sewnText(b *foundation.Built, sys length.System) string {
	if b.Twine.Total() == 0 {
		return ""
	}
	up := func(l length.Length) string { return l.Text(sys, length.Up) }
	return "Twine " + up(b.Twine.Total()) + ": springs " + up(b.Twine.Springs) + ", bridle ties " + up(b.Twine.Bridles) +
		", stuffing ties " + up(b.Twine.Ties) + ", stitched edge " + up(b.Twine.Edge) + "; stuffing " + practice.MassText(b.Stuffing, sys)
}

// fixedText counts the tacks of a frame by purpose.
func fixedText(b *foundation.Built, sys length.System) string {
	var parts []string
	for _, c := range b.Courses {
		text := c.Purpose.String() + " " + strconv.FormatInt(c.Count, 10) + " " + fixedName(c.Kind, c.Size, sys)
		if c.Purpose == foundation.Temporary {
			text += " drawn and used again"
		}
		parts = append(parts, text)
	}
	if b.Gimp > 0 {
		parts = append(parts, "gimp "+b.Gimp.Text(sys, length.Up))
	}
	return capital(strings.Join(parts, "; "))
}

// frameTexts are all that is said of one frame.
func frameTexts(b *foundation.Built, sys length.System) []string {
	var out []string
	for _, t := range append(webTexts(b, sys), springText(b, sys), sewnText(b, sys), fixedText(b, sys)) {
		if t != "" {
			out = append(out, t+".")
		}
	}
	return out
}

// FoundationText is the answer as a page of plain text, in at most 78 columns.
func FoundationText(ans *service.FoundationAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.line(FoundationTitle(ans))
	p.line("")
	p.facts(foundationFacts(ans))
	p.section("AND TO BUY")
	p.table(0, buyRows(ans))
	for k := range ans.Work.Built {
		f := ans.Request.Frames[k]
		p.section(repeated(f.ID, f.Name, f.Count) + ", each:")
		for _, t := range frameTexts(&ans.Work.Built[k], p.sys) {
			p.para("  ", t)
		}
	}
	for _, c := range ans.Cloths {
		p.plainCut(c.Plan)
	}
	p.settings(ans.Work.Settings)
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

// FoundationPicture is the drawing of an answer: the figures, every frame to
// scale with its webs interlaced and its springs, what each takes, each cloth
// with its pieces, and what to check.
func FoundationPicture(ans *service.FoundationAnswer) *Picture {
	wide := 0.0
	for _, c := range ans.Cloths {
		wide = max(wide, c.Plan.Request.Cloth.Width.MM())
	}
	for _, f := range ans.Request.Frames {
		wide = max(wide, max(f.Front, f.Back).MM())
	}
	s := &frameSheet{benchPaper(ans.Request.Units, wide), ans}
	s.title(FoundationTitle(ans), times(int64(len(ans.Request.Frames)), "frame", "frames")+", seen from above; of backs and arms the bottom rail is the front")
	s.facts(foundationFacts(ans))
	s.frames()
	for k := range ans.Work.Built {
		f := ans.Request.Frames[k]
		s.heading(repeated(f.ID, f.Name, f.Count) + ", each")
		for _, t := range frameTexts(&ans.Work.Built[k], s.sys) {
			s.body(tPlain, "• "+capital(t))
		}
	}
	s.table("And to buy", []float64{0, 520, 900, 1490}, 0, []string{"What", "Needed", "To buy"}, buyRows(ans))
	for _, c := range ans.Cloths {
		s.heading(plainTitle(c.Plan))
		s.body(tPlain, plainProof(c.Plan))
		s.plainCut(c.Plan)
	}
	s.settings(ans.Work.Settings)
	s.closing(ans.Warnings, ans.Cautions)
	desc := times(int64(len(ans.Request.Frames)), "frame", "frames") + "."
	for _, f := range foundationFacts(ans) {
		desc += " " + capital(strings.ToLower(f.head)) + ": " + f.value + ", " + f.foot + "."
	}
	return s.picture(FoundationTitle(ans), desc, foundationStyles(s.k))
}
