package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/pleat"
	"github.com/bridletie/bridletie/service"
)

// PleatsTitle names an edge in a line: "Pleats: scroll arm".
func PleatsTitle(ans *service.PleatsAnswer) string {
	kind := ans.Kind()
	if kind == "none" {
		kind = "pleats"
	}
	title := strings.ToUpper(kind[:1]) + kind[1:]
	if name := clean(ans.Request.Name); name != "" {
		return title + ": " + apart(name)
	}
	return title
}

// pleatsOf is what the edge is, in a line.
func pleatsOf(ans *service.PleatsAnswer) string {
	sys, f := ans.Request.Units, ans.Request.From
	text := "Edge on the cloth " + near(ans.Result.Cloth, sys) + ", finished " + near(ans.Result.Finished, sys)
	switch f.How {
	case pleat.Lengths:
		return text
	case pleat.Buttons:
		return text + "; " + strconv.Itoa(f.Buttons) + " buttons, " + taped(f.Cloth, sys) + " apart on the cloth, " + taped(f.Finished, sys) + " when buttoned"
	}
	turn := "; radius "
	if f.Concave {
		turn = "; turning inwards, radius "
	}
	return text + turn + taped(f.Radius, sys) + ", through " + strconv.Itoa(f.Angle) + "°, turned over " + taped(f.TurnOver, sys)
}

func pleatsFacts(ans *service.PleatsAnswer) []fact {
	r, sys := ans.Result, ans.Request.Units
	lose, foot := "TO LOSE", "all of it taken in"
	if r.Short {
		lose, foot = "TO GAIN", "all of it given"
	}
	facts := []fact{{lose, near(r.Excess, sys), foot}, {strings.ToUpper(string(r.Style)), strconv.Itoa(len(r.Marks)), ans.Kind()}}
	if r.Excess == 0 {
		return facts[:1]
	}
	if r.Short {
		return append(facts, fact{"SNIP DEPTH", r.SnipDepth.Text(sys, length.Down), "from the edge of the cloth"})
	}
	deepest := length.Length(0)
	for _, m := range r.Marks {
		deepest = max(deepest, m.Depth)
	}
	facts = append(facts, fact{"DEPTH", near(deepest, sys), "of the deepest fold"})
	if r.Spaced {
		facts = append(facts, fact{"SPACING", near(r.Spacing, sys), "on the finished edge"})
	}
	return facts
}

func pleatLie(l pleat.Lie) string {
	switch l {
	case pleat.LiesLeft:
		return "to the left"
	case pleat.LiesRight:
		return "to the right"
	case pleat.LiesBoth:
		return "both ways"
	}
	return "–"
}

// pleatRows are the marks: number, place on the finished edge, what it takes in,
// depth, lie, marks on the cloth.
func pleatRows(ans *service.PleatsAnswer) [][]string {
	sys := ans.Request.Units
	var rows [][]string
	for i, m := range ans.Result.Marks {
		on := make([]string, len(m.On))
		for k, l := range m.On {
			on[k] = tape(l, sys)
		}
		rows = append(rows, []string{strconv.Itoa(i + 1), tape(m.Finished, sys), tape(m.Take, sys), tape(m.Depth, sys), pleatLie(m.Lie), strings.Join(on, ",  ")})
	}
	return rows
}

// PleatsText is the answer as a page of plain text, in at most 78 columns.
func PleatsText(ans *service.PleatsAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.line(PleatsTitle(ans))
	p.para("", pleatsOf(ans)+".")
	p.line("")
	p.facts(pleatsFacts(ans))
	if rows := pleatRows(ans); len(rows) > 0 {
		p.section("MARKS, in " + tapeName(p.sys) + " from the centre line, left of it negative")
		p.table(4, append([][]string{{"no.", "finished", "takes", "depth", "folds lie", "marks on the cloth"}}, rows...))
	}
	p.line("")
	p.para("", ans.Remainder)
	p.list("HOW", note.Texts(ans.Notes, p.sys))
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

// PleatsPicture is the drawing of the edge laid straight: the cloth with its
// marks, what is folded away hatched, the edge folded, and the list of the marks.
func PleatsPicture(ans *service.PleatsAnswer) *Picture {
	wide := max(ans.Result.Cloth.MM(), ans.Result.Finished.MM(), 1)
	k := wide / (usualWidth - 60)
	s := &pleatSheet{paper: paper{sys: ans.Request.Units, k: k, page: wide + 2*100*k}, ans: ans}
	s.title(PleatsTitle(ans), pleatsOf(ans))
	s.facts(pleatsFacts(ans))
	if len(ans.Result.Marks) > 0 {
		s.cloth()
		s.folded()
		s.table("Marks in "+tapeName(s.sys)+" from the centre line, left of it negative",
			[]float64{0, 90, 270, 400, 530, 740, 1390}, 5, []string{"no.", "finished", "takes", "depth", "folds lie", "marks on the cloth"}, pleatRows(ans))
	}
	s.gap(20)
	s.body(tPlain, ans.Remainder)
	for _, t := range note.Texts(ans.Notes, s.sys) {
		s.body(tPlain, t)
	}
	s.closing(ans.Warnings, ans.Cautions)
	return s.picture(PleatsTitle(ans), pleatsOf(ans)+". "+ans.Remainder, reliefStyles(k))
}

// pleatSheet is a drawing of an edge while it is drawn.
type pleatSheet struct {
	paper
	ans *service.PleatsAnswer
}

func (s *pleatSheet) middle() float64 { return s.page / 2 }

// cloth draws the edge on the cloth with its marks.
func (s *pleatSheet) cloth() {
	k, r := s.k, s.ans.Result
	s.heading("The edge on the cloth, laid straight")
	s.gap(70)
	half, high := r.Cloth.MM()/2, 190*k
	x0 := s.middle() - half
	items := []Shape{Rect{x0, s.y, 2 * half, high, cPanelFill}}
	for _, m := range r.Marks {
		items = append(items, s.markShapes(m, high)...)
	}
	items = append(items,
		Line{Pt{x0, s.y + high}, Pt{x0 + 2*half, s.y + high}, cPanel},
		Line{Pt{x0, s.y}, Pt{x0, s.y + high}, cFinished}, Line{Pt{x0 + 2*half, s.y}, Pt{x0 + 2*half, s.y + high}, cFinished},
		Line{Pt{s.middle(), s.y - 26*k}, Pt{s.middle(), s.y + high + 14*k}, cCutEnd},
		Text{At: Pt{s.middle(), s.y - 40*k}, S: "centre line", Size: smallSize * k, Anchor: AtMiddle, Class: tLabelBold})
	s.add(Group{Title: "the edge on the cloth", Items: items})
	s.y += high
	s.gap(14)
	s.figures()
}

// figures stand below the marks as far as there is room; the rest are in the
// list.
func (s *pleatSheet) figures() {
	k := s.k
	last, longest := -1e18, 0.0
	size := 26 * k
	for _, m := range s.ans.Result.Marks {
		for _, l := range m.On {
			x := s.middle() + l.MM()
			if x-last < size*1.1 {
				continue
			}
			text := tape(l, s.sys)
			s.add(Text{At: Pt{x + size*0.35, s.y + 8*k}, S: text, Size: size, Anchor: AtEnd, Turn: -90, Class: tPlain})
			last, longest = x, max(longest, breadth(text)*size)
		}
	}
	s.y += longest + 16*k
	s.para(s.left(), s.right(), smallSize, tQuiet, "Marks in "+tapeName(s.sys)+" from the centre line. Hatched cloth is folded away; a full line is a mark that is brought to another, a broken one the fold beneath. Arrows show to which side a fold points.")
}

// markShapes are the marks of one pleat on the cloth.
func (s *pleatSheet) markShapes(m pleat.Mark, high float64) []Shape {
	k, top := s.k, s.y
	x := make([]float64, len(m.On))
	for i, l := range m.On {
		x[i] = s.middle() + l.MM()
	}
	line := func(i int, c Class) Shape { return Line{Pt{x[i], top}, Pt{x[i], top + high}, c} }
	hatch := func(a, b int) Shape { return Hatch{x[a], top, x[b] - x[a], high, 18 * k, cHatch} }
	switch {
	case len(x) == 1: // a snip
		from := top + high
		depth := high * s.snipShare()
		return []Shape{Line{Pt{x[0], from}, Pt{x[0], from - depth}, cReliefCut}, Circle{Pt{x[0], from - depth}, 9 * k, cReliefStop}}
	case m.Lie == pleat.LiesNone: // a dart
		tip := Pt{x[1], top + 10*k}
		return []Shape{Path{hatchedPolygon([]Pt{{x[0], top + high}, tip, {x[2], top + high}}, 18*k), cHatch},
			Path{[]Polyline{{Pts: []Pt{{x[0], top + high}, tip, {x[2], top + high}}}}, cArrow}}
	case len(x) == 3:
		out := []Shape{hatch(0, 2), line(0, cArrow), line(1, cFinished), line(2, cArrow)}
		mid, reach := Pt{x[1], top + high*0.28}, min(x[2]-x[0], 70*k)
		return append(out, Path{pleatPointer(mid, reach, m.Lie == pleat.LiesLeft, k), cMark})
	case len(x) == 5: // inverted
		return []Shape{hatch(0, 4), line(0, cArrow), line(1, cFinished), line(2, cTick), line(3, cFinished), line(4, cArrow),
			Path{pleatPointer(Pt{x[1], top + high*0.28}, min(x[2]-x[0], 70*k), false, k), cMark},
			Path{pleatPointer(Pt{x[3], top + high*0.28}, min(x[4]-x[2], 70*k), true, k), cMark}}
	}
	return []Shape{hatch(0, 2), hatch(3, 5), line(0, cArrow), line(1, cFinished), line(2, cArrow), line(3, cArrow), line(4, cFinished), line(5, cArrow),
		Path{pleatPointer(Pt{x[1], top + high*0.28}, min(x[2]-x[0], 70*k), true, k), cMark},
		Path{pleatPointer(Pt{x[4], top + high*0.28}, min(x[5]-x[3], 70*k), false, k), cMark}}
}

func (s *pleatSheet) snipShare() float64 {
	if over := s.ans.Request.TurnOver; over > 0 {
		return min(float64(s.ans.Result.SnipDepth)/float64(over), 1)
	}
	return 0.8
}

// pleatPointer is an arrow to the left or to the right about a middle.
func pleatPointer(c Pt, reach float64, left bool, k float64) []Polyline {
	tip, tail := c.X+reach/2, c.X-reach/2
	head := min(14*k, reach/2)
	back := tip - head
	if left {
		tip, tail, back = c.X-reach/2, c.X+reach/2, c.X-reach/2+head
	}
	return []Polyline{{Pts: []Pt{{tail, c.Y}, {tip, c.Y}}}, {Pts: []Pt{{back, c.Y - head}, {tip, c.Y}, {back, c.Y + head}}}}
}

// folded draws the finished edge as it lies, seen on its end.
func (s *pleatSheet) folded() {
	k, r := s.k, s.ans.Result
	s.heading("The finished edge, seen from below, its layers drawn apart")
	s.gap(50)
	half := r.Finished.MM() / 2
	path := pleatFolds(s.ans, s.middle(), s.y, 18*k)
	items := []Shape{Path{path, cArrow}, Line{Pt{s.middle(), s.y - 30*k}, Pt{s.middle(), s.y + 70*k}, cCutEnd}}
	for i, m := range r.Marks {
		if !r.Spaced || r.Spacing.MM() > 40*k || i%5 == 0 {
			items = append(items, Text{At: Pt{s.middle() + m.Finished.MM(), s.y - 14*k}, S: strconv.Itoa(i + 1), Size: smallSize * k, Anchor: AtMiddle, Class: tLabel})
		}
	}
	s.add(Group{Title: "the finished edge", Items: items})
	s.y += 84 * k
	d := &reliefSheet{paper: s.paper}
	s.add(d.dimension(Pt{s.middle() - half, s.y + 20*k}, Pt{s.middle() + half, s.y + 20*k}, near(r.Finished, s.sys))...)
	s.gap(50)
}

// pleatFolds is the line that the cloth takes, with its layers gap apart.
func pleatFolds(ans *service.PleatsAnswer, mid, y, gap float64) []Polyline {
	r := ans.Result
	half := r.Finished.MM() / 2
	pts := []Pt{{mid - half, y}}
	var lines []Polyline
	under := func(x, d float64) { // under to d and back, from and to x
		pts = append(pts, Pt{x, y}, Pt{x, y + 2*gap}, Pt{x + d, y + 2*gap}, Pt{x + d, y + gap}, Pt{x, y + gap}, Pt{x, y})
	}
	over := func(x, d float64) { // the same seen from the other side
		pts = append(pts, Pt{x, y}, Pt{x, y + gap}, Pt{x + d, y + gap}, Pt{x + d, y + 2*gap}, Pt{x, y + 2*gap}, Pt{x, y})
	}
	for _, m := range r.Marks {
		x, d := mid+m.Finished.MM(), m.Depth.MM()
		switch {
		case len(m.On) == 1:
			pts = append(pts, Pt{x - m.Take.MM()/2, y})
			lines = append(lines, Polyline{Pts: pts})
			pts = []Pt{{x + m.Take.MM()/2, y}}
		case m.Lie == pleat.LiesNone:
			pts = append(pts, Pt{x, y}, Pt{x, y + 3*gap}, Pt{x, y})
		case len(m.On) == 5:
			pts = append(pts, Pt{x, y}, Pt{x, y + gap}, Pt{x - d, y + gap}, Pt{x - d, y + 2*gap}, Pt{x + d, y + 2*gap}, Pt{x + d, y + gap}, Pt{x, y + gap}, Pt{x, y})
		case len(m.On) == 6:
			face := (m.On[3] - m.On[2]).MM() / 2
			under(x-face, d)
			over(x+face, -d)
		case m.Lie == pleat.LiesLeft:
			under(x, d)
		default:
			over(x, -d)
		}
	}
	return append(lines, Polyline{Pts: append(pts, Pt{mid + half, y})})
}
