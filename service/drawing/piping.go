package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/service"
)

// What of a large answer is drawn and listed.
const (
	maxPipedDrawn   = 60
	maxPipingStrips = 600
	maxPipedListed  = 200
)

// pipingSheet is the drawing of piping while it is made. Its breadth does not
// depend on the cloth; what is drawn to scale shrinks as it must.
type pipingSheet struct {
	paper
	ans   *service.PipingAnswer
	shown *service.PipingWay // nil when no way is possible
}

// PipingPicture draws the runs as lines with their joins, the strips in their
// offcuts and on the new cloth, numbered, what is left hatched, and lists what each
// run is made of.
func PipingPicture(ans *service.PipingAnswer) *Picture {
	s := &pipingSheet{paper: paper{sys: ans.Request.Units, k: 1, page: usualWidth + 2*marginPage}, ans: ans, shown: ans.Plan()}
	s.title(PipingTitle(ans), pipingOf(ans))
	s.facts(pipingFacts(ans))
	s.body(tPlain, pipingHow(ans))
	if s.shown != nil {
		s.runs()
		s.rects()
		s.roll()
		s.table("What each run is made of", []float64{0, 360, 560, 1370}, -1, []string{"run", "length", "strips, in order"}, s.runRows())
	}
	s.table("Ways to cut", []float64{0, 250, 420, 560, 680, 1370}, -1, []string{"way", "to buy", "strips", "joins", ""}, s.wayRows())
	s.closing(ans.Warnings, ans.Cautions)
	return s.picture(PipingTitle(ans), pipingOf(ans)+" "+pipingHow(ans), planStyles(s.k))
}

// runs draws a line for each run, to one scale, with what is known of its joins.
func (s *pipingSheet) runs() {
	longest := length.Millimetre
	for _, r := range s.ans.Job.Runs {
		longest = max(longest, r.Length)
	}
	s.heading("Runs and their joins")
	s.body(tQuiet, "× a join, with its place from the beginning; hatched, where none may fall; ^ a corner; ○ where a closed run is closed.")
	const from, to = 330.0, 1340.0
	unit := (to - from) / longest.MM()
	for i, r := range s.ans.Job.Runs[:min(len(s.ans.Job.Runs), maxPipedDrawn)] {
		s.run(i, r, from, unit)
	}
	s.gap(28) // the length of the last one
	if more := len(s.ans.Job.Runs) - maxPipedDrawn; more > 0 {
		s.body(tBold, "And "+strconv.Itoa(more)+" runs more, which are not drawn.")
	}
}

func (s *pipingSheet) run(i int, r piping.Run, from, unit float64) {
	s.gap(84)
	x := s.left() + from
	end := x + r.Length.MM()*unit
	name := pipedLabel(s.ans, i)
	s.text(s.left(), s.y-4, min(30, s.shrunk(name, 30, from-30)), tBold, name)
	s.text(s.left(), s.y+28, 24, tQuiet, r.Length.Text(s.sys, length.Up)+pipedClosed(r))
	for _, span := range pipedForbidden(r, s.ans.Job.Margin) {
		s.add(Hatch{x + span.From.MM()*unit, s.y - 14, (span.To - span.From).MM() * unit, 28, 9, cHatch})
	}
	laid := s.shown.Runs[i]
	class := cPanel
	if len(laid.Pieces) == 0 {
		class = cCutEnd
		s.text(x+8, s.y-18, 24, tBold, "not covered")
	}
	s.add(Line{Pt{x, s.y}, Pt{end, s.y}, class}, Line{Pt{x, s.y - 14}, Pt{x, s.y + 14}, class}, Line{Pt{end, s.y - 14}, Pt{end, s.y + 14}, class})
	for _, c := range r.Corners {
		at := x + c.MM()*unit
		s.add(Path{[]Polyline{{Pts: []Pt{{at - 8, s.y + 20}, {at, s.y + 6}, {at + 8, s.y + 20}}}}, cSeam})
	}
	if r.Closed && len(laid.Pieces) > 0 {
		s.add(Circle{Pt{x + laid.Closes.MM()*unit, s.y}, 9, cArrow})
	}
	s.joins(laid, x, unit)
}

// joins marks them; places that would run into one another are not written.
func (s *pipingSheet) joins(l piping.Laid, x, unit float64) {
	free := x - 1
	for _, at := range pipedInOrder(l.Joins) {
		p := x + at.MM()*unit
		s.add(Path{[]Polyline{{Pts: []Pt{{p - 11, s.y - 11}, {p + 11, s.y + 11}}}, {Pts: []Pt{{p - 11, s.y + 11}, {p + 11, s.y - 11}}}}, cMark})
		label := tape(at, s.sys)
		half := breadth(label) * 22 / 2
		if p-half > free {
			s.add(Text{At: Pt{p, s.y - 18}, S: label, Size: 22, Anchor: AtMiddle, Class: tLabel})
			free = p + half + 6
		}
	}
}

// rects draws the offcuts from which strips are cut, side by side in rows.
func (s *pipingSheet) rects() {
	of := make(map[int][]int)
	for i, strip := range s.shown.Strips {
		of[strip.Rect] = append(of[strip.Rect], i)
	}
	var used []int
	across, along := 1.0, 1.0
	for i, r := range s.ans.Job.Rects {
		if len(of[i]) > 0 {
			used = append(used, i)
			across, along = max(across, r.Across.MM()), max(along, r.Along.MM())
		}
	}
	if len(used) == 0 {
		return
	}
	s.heading("Strips in the offcuts")
	s.body(tQuiet, "The cloth face up, the roll running down the sheet; hatched, what is left.")
	s.tie(60)
	s.gap(20)
	const apart, head = 40.0, 70.0
	room := s.right() - s.left()
	f := min(1, room/across, 1600/along)
	x, deep, drawn := 0.0, 0.0, 0
	for _, i := range used {
		r := s.ans.Job.Rects[i]
		w, h := r.Across.MM()*f, r.Along.MM()*f
		if x > 0 && x+max(w, 150) > room {
			s.keep(s.y, deep+head)
			s.y += deep + head + apart
			x, deep = 0, 0
		}
		name := s.offcutName(i)
		size := sizeText(r.Across, r.Along, s.sys)
		s.text(s.left()+x, s.y+26, min(26, s.shrunk(name, 26, max(w, 150))), tBold, name)
		s.text(s.left()+x, s.y+54, min(22, s.shrunk(size, 22, max(w, 150))), tQuiet, size)
		drawn = s.cloth(r, of[i], s.left()+x, s.y+head, f, drawn)
		x += max(w, 150) + apart
		deep = max(deep, h)
	}
	s.keep(s.y, deep+head)
	s.y += deep + head
}

// roll draws the new cloth with its strips.
func (s *pipingSheet) roll() {
	if s.shown.Cloth <= 0 {
		return
	}
	s.heading("New cloth")
	s.body(tQuiet, s.shown.Cloth.Text(s.sys, length.Up)+" off the roll, "+near(s.ans.Job.Cloth, s.sys)+" wide, the roll running down the sheet.")
	s.tie(60)
	s.gap(20)
	from := s.y
	r := piping.Rect{Across: s.ans.Job.Cloth, Along: s.shown.Cloth}
	f := min(1, (s.right()-s.left())/r.Across.MM(), 2400/r.Along.MM())
	if t := s.shown.Tube; t != nil {
		s.add(Rect{s.left(), s.y, r.Across.MM() * f, r.Along.MM() * f, cPanelFill}, Rect{s.left(), s.y, r.Across.MM() * f, r.Along.MM() * f, cPanel})
		s.y += r.Along.MM() * f
		s.keep(from, 0)
		s.body(tPlain, "Cut a corner off on the true bias, sew it to the other end, mark "+strconv.Itoa(t.Strips)+" strips, sew the tube one strip out, and cut round and round.")
		return
	}
	var of []int
	for i, strip := range s.shown.Strips {
		if strip.Rect < 0 {
			of = append(of, i)
		}
	}
	s.cloth(r, of, s.left(), s.y, f, 0)
	s.y += r.Along.MM() * f
	s.keep(from, 0)
}

// cloth draws strips in a rectangle whose corner lies at (x, y), and says how
// many strips are drawn by now.
func (s *pipingSheet) cloth(r piping.Rect, of []int, x, y, f float64, drawn int) int {
	w, h := r.Across.MM()*f, r.Along.MM()*f
	s.waste(x, y, w, h, of)
	at := func(p geom.Point) Pt { return Pt{x + (p.Across-r.X).MM()*f, y + (p.Along-r.Y).MM()*f} }
	cuts := s.cuts(of)
	for _, i := range of {
		if drawn++; drawn > maxPipingStrips {
			break
		}
		c := s.shown.Strips[i].Corners
		pts := []Pt{at(c[0]), at(c[1]), at(c[2]), at(c[3])}
		s.add(Path{[]Polyline{{Pts: pts, Closed: true}}, cPanelFill}, Path{[]Polyline{{Pts: pts, Closed: true}}, cArrow})
		for _, q := range cuts[i] {
			share := q.MM() / s.shown.Strips[i].Long.MM()
			s.add(Line{partOf(pts[0], pts[3], share), partOf(pts[1], pts[2], share), cFinished})
		}
		s.stripNumber(i, pts, f)
	}
	s.add(Rect{x, y, w, h, cOffcut})
	return drawn
}

// waste hatches a rectangle across the lean of its strips.
func (s *pipingSheet) waste(x, y, w, h float64, of []int) {
	lines := Hatch{x, y, w, h, 14, cHatch}.Lines()
	if len(of) > 0 && s.shown.Strips[of[0]].Lean == piping.ToLeft {
		for i := range lines {
			for k := range lines[i].Pts {
				lines[i].Pts[k].X = x + w - (lines[i].Pts[k].X - x)
			}
		}
	}
	s.add(Path{lines, cHatch})
}

func partOf(a, b Pt, share float64) Pt {
	return Pt{a.X + float64((b.X-a.X)*share), a.Y + float64((b.Y-a.Y)*share)}
}

// stripNumber is written along a strip, in its middle, when it can be read there.
func (s *pipingSheet) stripNumber(i int, pts []Pt, f float64) {
	size := min(s.shown.Shape.Width.MM()*f*0.62, 30)
	if size < 5 {
		return
	}
	turn := 0
	switch strip := s.shown.Strips[i]; {
	case strip.Lean == piping.ToRight:
		turn = 90 - s.shown.Shape.Angle
	case strip.Lean == piping.ToLeft:
		turn = s.shown.Shape.Angle - 90
	case s.shown.Shape.Cut == piping.Along:
		turn = 90
	}
	m := partOf(partOf(pts[0], pts[3], 0.5), partOf(pts[1], pts[2], 0.5), 0.5)
	dx, dy := partOf(pts[0], pts[1], 0.5), partOf(pts[3], pts[2], 0.5)
	long := geom.Hypot(dy.X-dx.X, dy.Y-dx.Y)
	if long <= 0 {
		return
	}
	// The base line lies below the middle, square to the strip.
	ux, uy := (dy.X-dx.X)/long, (dy.Y-dx.Y)/long
	if ux < 0 || ux == 0 && uy < 0 {
		ux, uy = -ux, -uy
	}
	down := size * 0.36
	s.add(Text{At: Pt{m.X - float64(uy*down), m.Y + float64(ux*down)}, S: strconv.Itoa(i + 1), Size: size, Anchor: AtMiddle, Turn: turn, Class: tBold})
}
