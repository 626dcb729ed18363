package drawing

import (
	"math"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

// The classes that a drawing of cuts has beyond those of a plan.
const (
	cReliefCut Class = iota + tSeam + 1
	cReliefStop
	cObstacle
	cObstacleHatch
)

func reliefStyles(k float64) []Style {
	ink := RGB(0x1b2430)
	return append(planStyles(k),
		Style{Stroke: RGB(0x9c2f1f), Width: 7 * k},
		Style{Stroke: ink, Width: 3 * k, Fill: RGB(0xffffff)},
		Style{Stroke: ink, Width: 3 * k},
		Style{Stroke: RGB(0x8a8474), Width: 2 * k},
	)
}

// ReliefTitle names the cuts in a line: "Relief cuts: carver seat".
func ReliefTitle(ans *service.ReliefAnswer) string {
	for _, name := range []string{ans.Request.Name, ans.Request.ID} {
		if clean(name) != "" {
			return "Relief cuts: " + apart(name)
		}
	}
	return "Relief cuts"
}

func reliefOf(ans *service.ReliefAnswer) string {
	sys, cut := ans.Request.Units, ans.Request.Cut()
	return "Cut " + sizeText(cut.Across, cut.Along, sys) + "; finished " + sizeText(ans.Request.Size.Across, ans.Request.Size.Along, sys) +
		"; pulled by " + reliefShare(int64(ans.Request.Least)) + " to " + reliefShare(int64(ans.Request.Most))
}

// reliefShare is a percentage given in millionths.
func reliefShare(millionths int64) string {
	return strconv.FormatFloat(float64(millionths)/10_000, 'f', -1, 64) + " %"
}

func reliefVerdict(ans *service.ReliefAnswer) string {
	if ans.Whole() {
		return "The show side stays whole at every pull of the range."
	}
	return "Not every obstacle can be passed with the show side whole: see what to check."
}

// reliefFacts are the figures that come first.
func reliefFacts(ans *service.ReliefAnswer) []fact {
	lines, stops, least := 0, 0, length.Length(-1)
	for _, c := range ans.Cuts {
		lines, stops = lines+len(c.Lines), stops+len(c.Stops)
		if len(c.Stops) > 0 && (least < 0 || c.Margin() < least) {
			least = c.Margin()
		}
	}
	margin := "none"
	if least >= 0 {
		margin = least.Text(ans.Request.Units, length.Down)
	}
	return []fact{
		{"OBSTACLES", strconv.Itoa(len(ans.Cuts)), "to be passed"},
		{"LINES TO CUT", strconv.Itoa(lines), "with " + strconv.Itoa(stops) + " stops"},
		{"LEAST MARGIN", margin, "at any stop and pull"},
	}
}

// cutName is the kind of a cut in words.
func cutName(k relief.Kind) string {
	switch k {
	case relief.Y:
		return "Y"
	case relief.V:
		return "V"
	case relief.None:
		return "no cut"
	}
	return string(k)
}

// stopRows are the stops, numbered through all obstacles: number, obstacle, cut,
// from the left, from the top, margin.
func stopRows(ans *service.ReliefAnswer) [][]string {
	var rows [][]string
	sys, n := ans.Request.Units, 0
	for i, c := range ans.Cuts {
		id := clean(ans.Request.Obstacles[i].ID)
		if len(c.Stops) == 0 {
			rows = append(rows, []string{"–", id, cutName(c.Kind), "–", "–", "–"})
		}
		for _, s := range c.Stops {
			n++
			rows = append(rows, []string{strconv.Itoa(n), id, cutName(c.Kind), tape(s.At.Across, sys), tape(s.At.Along, sys), s.Margin.Text(sys, length.Down)})
		}
	}
	return rows
}

// flapRows are the flaps: obstacle, flap, width, needed, whether it reaches.
func flapRows(ans *service.ReliefAnswer) [][]string {
	var rows [][]string
	sys := ans.Request.Units
	for i, c := range ans.Cuts {
		for _, f := range c.Flaps {
			does := "reaches"
			if !f.Reaches() {
				does = "too short by " + (f.Needed-f.Width).Text(sys, length.Up)
			}
			rows = append(rows, []string{clean(ans.Request.Obstacles[i].ID), f.Name, f.Width.Text(sys, length.Down), f.Needed.Text(sys, length.Up), does})
		}
	}
	return rows
}

// ReliefText is the answer as a page of plain text, in at most 78 columns.
func ReliefText(ans *service.ReliefAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.line(ReliefTitle(ans))
	p.para("", reliefOf(ans)+".")
	p.para("", reliefVerdict(ans))
	p.line("")
	p.facts(reliefFacts(ans))
	p.section("STOPS, on the slack cloth, in " + tapeName(p.sys) + " from the left and the top cut edge")
	p.table(1, append([][]string{{"no.", "obstacle", "cut", "left", "top", "margin"}}, stopRows(ans)...))
	p.section("FLAPS")
	p.table(0, append([][]string{{"obstacle", "flap", "width", "needed", ""}}, flapRows(ans)...))
	p.section("HOW")
	for i, c := range ans.Cuts {
		p.para(clean(ans.Request.Obstacles[i].ID)+": ", strings.Join(c.Steps, " "))
	}
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

// ReliefPicture is the drawing of the panel to scale, with its edges, what it
// must pass and the cuts; each cut drawn larger with its stops numbered; and the
// lists of stops and flaps.
func ReliefPicture(ans *service.ReliefAnswer) *Picture {
	cut := ans.Request.Cut()
	wide := max(cut.Across.MM(), cut.Along.MM()*0.7, 1)
	k := wide / usualWidth
	s := &reliefSheet{paper: paper{sys: ans.Request.Units, k: k, page: wide + 2*marginLeft*k}, ans: ans}
	s.title(ReliefTitle(ans), reliefOf(ans))
	s.gap(10)
	s.para(s.left(), s.right(), 44, tBold, reliefVerdict(ans))
	s.gap(20)
	s.rule()
	s.facts(reliefFacts(ans))
	s.legend()
	s.panel()
	s.heading("Each cut, larger")
	s.details()
	s.table("Stops, on the slack cloth, in "+tapeName(s.sys)+" from the left and the top cut edge",
		[]float64{0, 110, 420, 680, 880, 1080, 1540}, 0, []string{"stop", "obstacle", "cut", "left", "top", "least margin"}, stopRows(ans))
	s.table("Flaps", []float64{0, 310, 700, 920, 1120, 1540}, -1, []string{"obstacle", "flap", "width", "needed", ""}, flapRows(ans))
	s.heading("How")
	for i, c := range ans.Cuts {
		s.body(tPlain, clean(ans.Request.Obstacles[i].ID)+": "+strings.Join(c.Steps, " "))
	}
	s.closing(ans.Warnings, ans.Cautions)
	return s.picture(ReliefTitle(ans), reliefOf(ans)+". "+reliefVerdict(ans), reliefStyles(k))
}

// reliefSheet is a drawing of cuts while it is drawn.
type reliefSheet struct {
	paper
	ans *service.ReliefAnswer
}

// reliefOutline is the obstacle as it stands on the panel, from the cut panel's top
// left corner.
func reliefOutline(r service.ReliefRequest, o relief.Obstacle) []Pt {
	w, h := r.Size.Across.MM(), r.Size.Along.MM()
	left, top := r.Allow.Left.MM(), r.Allow.Top.MM()
	width, deep := o.Width.MM(), o.Deep.MM()
	out := []float64{top, r.Allow.Bottom.MM(), left, r.Allow.Right.MM()}
	from := func(u, v float64) Pt { return Pt{left + u, top + v} } // v from the edge inwards
	var beyond float64
	if o.Corner != relief.NoCorner {
		flipU, flipV := o.Corner == relief.TopRight || o.Corner == relief.BottomRight, o.Corner == relief.BottomLeft || o.Corner == relief.BottomRight
		from = func(u, v float64) Pt {
			if flipU {
				u = w - u
			}
			if flipV {
				v = h - v
			}
			return Pt{left + u, top + v}
		}
		if o.Round {
			return reliefRound(from, deep-width/2, deep-width/2, width/2)
		}
		if deep == 0 {
			deep = width
		}
		return []Pt{from(0, 0), from(width, 0), from(width, deep), from(0, deep)}
	}
	switch beyond = out[o.Edge]; o.Edge {
	case relief.BottomEdge:
		from = func(u, v float64) Pt { return Pt{left + u, top + h - v} }
	case relief.LeftEdge:
		from = func(u, v float64) Pt { return Pt{left + v, top + u} }
	case relief.RightEdge:
		from = func(u, v float64) Pt { return Pt{left + w - v, top + u} }
	}
	at := o.At.MM()
	if o.Round {
		return reliefRound(from, at, deep-width/2, width/2)
	}
	outer := 0.0
	if deep == 0 {
		outer = -beyond
	}
	lean := math.Tan(float64(o.Lean)*math.Pi/180) * (deep - outer)
	return []Pt{from(at-width/2+lean, outer), from(at+width/2+lean, outer), from(at+width/2, deep), from(at-width/2, deep)}
}

func reliefRound(from func(u, v float64) Pt, u, v, r float64) []Pt {
	const parts = 48
	pts := make([]Pt, parts)
	for i := range pts {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / parts)
		pts[i] = from(u+float64(r*cos), v+float64(r*sin))
	}
	return pts
}

// hatchedPolygon are the strokes at 45 degrees that fill a convex polygon.
func hatchedPolygon(pts []Pt, gap float64) []Polyline {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range pts {
		lo, hi = min(lo, p.X+p.Y), max(hi, p.X+p.Y)
	}
	if !(hi > lo) || gap <= 0 {
		return nil
	}
	gap = max(gap, (hi-lo)/maxHatch)
	var out []Polyline
	for d := lo + gap/2; d < hi; d += gap {
		var on []Pt
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			sa, sb := a.X+a.Y-d, b.X+b.Y-d
			if (sa < 0) == (sb < 0) {
				continue
			}
			t := sa / (sa - sb)
			on = append(on, Pt{a.X + float64(t*(b.X-a.X)), a.Y + float64(t*(b.Y-a.Y))})
		}
		if len(on) == 2 {
			out = append(out, Polyline{Pts: on})
		}
	}
	return out
}
