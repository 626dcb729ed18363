package drawing

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	nest "github.com/bridletie/bridletie/calc/sheet"
	"github.com/bridletie/bridletie/service"
)

// maxFoamSheets is how many sheets are drawn; like ones are drawn once.
const maxFoamSheets = 60

// foamSheetName names a sheet on sale: "S100: SEAT35, 10 cm thick, 1.2 × 2 m".
func foamSheetName(ans *service.FoamAnswer, stock int) string {
	k := &ans.Request.Stock[stock]
	return clean(k.ID) + ": " + clean(ans.Request.Foams[k.Foam].ID) + ", " + near(k.Thickness, ans.Request.Units) + " thick, " + bound(sizeText(k.Across, k.Along, ans.Request.Units))
}

// priceText is an amount with its currency.
func priceText(m money.Money) string { return m.Text() + " " + m.Code() }

// kilos is a mass as it is read off a scale.
func kilos(grams int64) string {
	if grams < 1000 {
		return strconv.FormatInt(grams, 10) + " g"
	}
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%d.%03d", grams/1000, grams%1000), "0"), ".") + " kg"
}

// foamLayers says of what an item is made up: "1 × 10 cm + 1 × 2.5 cm SEAT35".
func foamLayers(ans *service.FoamAnswer, c *foam.Cut) string {
	var parts []string
	for i, l := range c.Layers {
		text := strconv.Itoa(l.Count) + " × " + near(l.Thickness, ans.Request.Units)
		if i == len(c.Layers)-1 || c.Layers[i+1].Foam != l.Foam || c.Layers[i+1].Top != l.Top {
			text += " " + clean(ans.Request.Foams[l.Foam].ID)
		}
		if l.Top {
			text += " as a top"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, " + ")
}

// foamFacts are the figures that must be seen first.
func foamFacts(ans *service.FoamAnswer) []fact {
	n := 0
	for _, g := range ans.Result.Groups {
		n += len(g.Nest.Sheets)
	}
	foot := "fewer may do"
	if ans.Result.Proven() {
		foot = "of these layers, no nesting takes less"
	}
	out := []fact{{"SHEETS", strconv.Itoa(n), foot}}
	if ans.Request.Priced() {
		out = append(out, fact{"COST", priceText(ans.Request.Total(ans.Result)), "of the sheets"})
	}
	return append(out, fact{"MASS", kilos(ans.Result.Grams), "of all cushions"})
}

func foamTitle(ans *service.FoamAnswer) string {
	n := 0
	for _, it := range ans.Request.Items {
		n += it.Count
	}
	if n == 1 {
		return "Foam for 1 cushion"
	}
	return "Foam for " + strconv.Itoa(n) + " cushions"
}

// foamCutRows are the items as they are cut.
func foamCutRows(ans *service.FoamAnswer) (rows [][]string) {
	sys := ans.Request.Units
	for i := range ans.Result.Cuts {
		it, c := &ans.Request.Items[i], &ans.Result.Cuts[i]
		name := clean(it.ID)
		if it.Name != "" {
			name += ", " + clean(it.Name)
		}
		rows = append(rows, []string{strconv.Itoa(it.Count), kilos(c.Grams), sizeText(c.Across, c.Along, sys), foamLayers(ans, c), name})
	}
	return rows
}

// foamGroupText says what is bought of one foam and thickness, and how good it is.
func foamGroupText(ans *service.FoamAnswer, g *foam.Group) string {
	var parts []string
	for _, b := range g.Buy() {
		parts = append(parts, strconv.Itoa(b.Count)+" of "+foamSheetName(ans, b.Stock))
	}
	text := strings.Join(parts, "; ")
	if ans.Request.Priced() {
		text += "; " + priceText(ans.Request.Money(g))
	}
	text += fmt.Sprintf(". Waste %.1f\u00a0%%; ", g.Waste*100)
	if g.Nest.Proven {
		return text + "no nesting of these layers takes less."
	}
	return text + fmt.Sprintf("no nesting takes fewer than %d.", g.Nest.Bound)
}

// FoamText is the answer as a page of plain text, in at most 78 columns.
func FoamText(ans *service.FoamAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.para("", foamTitle(ans))
	p.line("")
	p.facts(foamFacts(ans))
	p.section("CUT")
	for _, r := range foamCutRows(ans) {
		p.para(padLeft(r[0], 4)+" × ", r[4]+": "+r[2]+", "+r[3]+", "+r[1]+" each.")
	}
	p.section("BUY")
	for i := range ans.Result.Groups {
		p.para("  - ", foamGroupText(ans, &ans.Result.Groups[i]))
	}
	listed := 0
	for i := range ans.Result.Groups {
		g := &ans.Result.Groups[i]
		for n, s := range g.Nest.Sheets {
			if listed++; listed > maxFoamSheets {
				break
			}
			p.section("SHEET " + strconv.Itoa(n+1) + " OF " + strconv.Itoa(len(g.Nest.Sheets)) + ", " + foamSheetName(ans, g.Stock[s.Kind]))
			for _, pl := range s.Pieces {
				p.para("  - ", foamPieceName(ans, g.Pieces[pl.Piece])+": "+sizeText(pl.Across, pl.Along, p.sys)+" at "+taped(pl.X, p.sys)+", "+taped(pl.Y, p.sys))
			}
		}
	}
	if listed > maxFoamSheets {
		p.section("Further sheets are not listed; the answer in JSON has them all.")
	}
	p.list("DEFAULTS USED", ans.Defaults)
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

func foamPieceName(ans *service.FoamAnswer, pc foam.Piece) string {
	it := &ans.Request.Items[pc.Item]
	text := clean(it.ID)
	if it.Count > 1 {
		text += " " + strconv.Itoa(pc.Copy) + " of " + strconv.Itoa(it.Count)
	}
	return text + ", layer " + strconv.Itoa(pc.Layer)
}

// FoamPicture draws what to buy, every sheet with its pieces, and the list of the
// cushions.
func FoamPicture(ans *service.FoamAnswer) *Picture {
	// A sheet stands on one page with its heading, and the first below the figures.
	wide, long := 100.0, 0.0
	for _, k := range ans.Request.Stock {
		wide, long = max(wide, min(k.Across, k.Along).MM()), max(long, max(k.Across, k.Along).MM())
	}
	wide, long = min(wide, 1e5), min(long, 1e5)
	page := max(wide*1.09, long*1.14)
	s := &foamPage{sheet{paper: paper{sys: ans.Request.Units, k: page / 1.09 / usualWidth, page: page}, wide: wide}}
	s.title(foamTitle(ans), "Seen from above. Every piece takes the rectangle around it.")
	s.facts(foamFacts(ans))
	for i := range ans.Result.Groups {
		s.body(tPlain, "• "+foamGroupText(ans, &ans.Result.Groups[i]))
	}
	s.foamLegend()
	drawn := 0
	for i := range ans.Result.Groups {
		drawn = s.foamGroup(ans, i, drawn)
	}
	if drawn >= maxFoamSheets {
		s.body(tBold, "Further sheets are not drawn; the answer in JSON lists them all.")
	}
	s.table("Cut", []float64{0, 70, 230, 510, 900, 1320}, 4, []string{"", "each", "rectangle", "layers", "cushion"}, foamCutRows(ans))
	if len(ans.Defaults) > 0 {
		s.heading("Defaults used")
	}
	for _, t := range ans.Defaults {
		s.body(tPlain, "• "+t)
	}
	s.closing(ans.Warnings, ans.Cautions)
	return s.picture(foamTitle(ans), foamTitle(ans)+".", planStyles(s.k))
}

// foamPage is a page on which sheets of foam are drawn.
type foamPage struct{ sheet }

// foamGroup draws the sheets of one foam and thickness; those that are alike once.
func (s *foamPage) foamGroup(ans *service.FoamAnswer, i, drawn int) int {
	g := &ans.Result.Groups[i]
	for n := 0; n < len(g.Nest.Sheets) && drawn < maxFoamSheets; drawn++ {
		last := n
		for last+1 < len(g.Nest.Sheets) && foamAlike(g, last+1, n) {
			last++
		}
		title := "Sheet " + strconv.Itoa(n+1)
		if last > n {
			title = "Sheets " + strconv.Itoa(n+1) + " to " + strconv.Itoa(last+1) + ", cut alike"
		}
		s.heading(title + " of " + strconv.Itoa(len(g.Nest.Sheets)) + ", " + foamSheetName(ans, g.Stock[g.Nest.Sheets[n].Kind]))
		s.foamSheet(ans, g, g.Nest.Sheets[n], ans.Offcuts[i][n])
		n = last + 1
	}
	return drawn
}

// foamAlike reports whether two sheets are cut at the same places into the same
// items.
func foamAlike(g *foam.Group, a, b int) bool {
	p, q := g.Nest.Sheets[a], g.Nest.Sheets[b]
	return p.Kind == q.Kind && slices.EqualFunc(p.Pieces, q.Pieces, func(x, y nest.Placed) bool {
		same := g.Pieces[x.Piece].Item == g.Pieces[y.Piece].Item
		x.Piece = y.Piece
		return same && x == y
	})
}

// foamSheet draws one sheet, its longer side down.
func (s *foamPage) foamSheet(ans *service.FoamAnswer, g *foam.Group, one nest.Sheet, left []nest.Offcut) {
	k := g.Kinds[one.Kind]
	turn := k.Across > k.Along
	// A sheet that is wider than long is seen turned by a quarter to the left.
	at := func(x, y float64) Pt {
		if turn {
			x, y = y, k.Across.MM()-x
		}
		return Pt{x, y}
	}
	put := func(x, y, w, h length.Length) box {
		a, b := at(x.MM(), y.MM()), at((x+w).MM(), (y+h).MM())
		return box{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X) - min(a.X, b.X), max(a.Y, b.Y) - min(a.Y, b.Y)}
	}
	whole := put(0, 0, k.Across, k.Along)
	if turn {
		s.body(tQuiet, "Drawn turned to the left by a quarter: places count from the lower left corner.")
	}
	s.gap(24)
	items := []Shape{Rect{0, 0, whole.w, whole.h, cCloth}}
	for _, o := range left {
		b := put(o.X, o.Y, o.Across, o.Along)
		items = append(items, Hatch{b.x, b.y, b.w, b.h, 26 * s.k, cHatch}, Rect{b.x, b.y, b.w, b.h, cOffcut})
		text := []string{"offcut", bound(sizeText(o.Across, o.Along, s.sys))}
		items = append(items, s.foamLabel([]level{{text, 30, 18}, {text[1:], 26, 14}}, b.inset(8*s.k))...)
	}
	for _, p := range one.Pieces {
		b := put(p.X, p.Y, p.Across, p.Along)
		pc := g.Pieces[p.Piece]
		c := &ans.Result.Cuts[pc.Item]
		outline := Polyline{Closed: true}
		for _, q := range c.Shape.Path() {
			x, y := q[0], q[1]
			if p.Turned {
				x, y = y, c.Across.MM()-x
			}
			outline.Pts = append(outline.Pts, at(p.X.MM()+x, p.Y.MM()+y))
		}
		text := []string{strings.Replace(foamPieceName(ans, pc), ", layer ", ", layer\u00a0", 1), bound(sizeText(p.Across, p.Along, s.sys))}
		shapes := []Shape{Path{[]Polyline{b.outline()}, cPanelFill}, Hatch{b.x, b.y, b.w, b.h, 40 * s.k, cOffcut},
			Path{[]Polyline{outline}, cPanelFill}, Path{[]Polyline{b.outline()}, cFinished}, Path{[]Polyline{outline}, cPanel}}
		if len(c.Shape.Path()) == 4 && c.Shape.Form == foam.Rectangle {
			shapes = []Shape{Path{[]Polyline{b.outline()}, cPanelFill}, Path{[]Polyline{b.outline()}, cPanel}}
		}
		levels := []level{{text, 40, 22}, {text[:1], 34, 16}, {[]string{clean(ans.Request.Items[pc.Item].ID)}, 30, 14}}
		shapes = append(shapes, s.foamLabel(levels, b.inset(24*s.k))...)
		items = append(items, Group{Title: foamPieceName(ans, pc), Items: shapes})
	}
	items = append(items, Rect{0, 0, whole.w, whole.h, cPanel})
	s.add(Group{Dx: s.left(), Dy: s.y, Items: items})
	s.y += whole.h
	s.gap(20)
}

// foamLabel is the first level that fits in a box, or nothing.
func (s *foamPage) foamLabel(levels []level, in box) []Shape {
	lb, ok := s.fit(levels, []box{in})
	if !ok {
		return nil
	}
	return s.labelShapes(lb)
}

// foamLegend says what the drawing's lines are.
func (s *foamPage) foamLegend() {
	s.gap(20)
	x := s.left()
	for _, g := range []struct {
		means string
		draw  []Shape
	}{
		{"cut edge", []Shape{Line{Pt{0, 0}, Pt{50 * s.k, 0}, cPanel}}},
		{"rectangle taken", []Shape{Line{Pt{0, 0}, Pt{50 * s.k, 0}, cFinished}}},
		{"offcut", []Shape{Hatch{0, -16 * s.k, 50 * s.k, 32 * s.k, 10 * s.k, cHatch}}},
	} {
		s.add(Group{Dx: x, Dy: s.y + 20*s.k, Items: g.draw})
		s.text(x+66*s.k, s.y+30*s.k, smallSize, tPlain, g.means)
		x += (120 + breadth(g.means)*smallSize) * s.k
	}
	s.gap(50)
}
