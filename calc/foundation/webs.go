package foundation

import (
	"math"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// Way is the direction of a web or of a strand of cord.
type Way int

// The ways; the zero value is Across, from side to side. Along is from back to
// front.
const (
	Across Way = iota
	Along
)

// spot is a place on the frame in millimetres, across from the left of the
// rectangle around it and along from the back, before it is rounded.
type spot struct{ x, y float64 }

// point is the place to the nearest nanometre.
func (s spot) point() geom.Point {
	return geom.Point{
		Across: length.RoundMM(s.x, length.Nanometre, length.Nearest),
		Along:  length.RoundMM(s.y, length.Nanometre, length.Nearest),
	}
}

// to is the distance to another place.
func (s spot) to(o spot) float64 { return geom.Hypot(o.x-s.x, o.y-s.y) }

// Web is one web. Its ends are where it is folded on the rails, from the back left
// corner of the rectangle around the frame.
type Web struct {
	Way      Way
	Number   int // from 1, from the back or from the left
	From, To geom.Point
	Span     length.Length // fold to fold
	Cut      length.Length // with turnovers and hand-hold
}

// Webbing is the webs of one frame.
type Webbing struct {
	Width                length.Length
	Elastic              bool
	Webs                 []Web         // those across, then those along
	Across, Along        int           // how many
	GapAcross            length.Length // between webs that run across; least of them, rounded down
	GapFront, GapBack    length.Length // between webs that run along, on the front and on the back rail; below 0 they overlap
	Total                length.Length // of one frame
	WebsUnderSprings     bool
	TooManyAtTheBackRail bool
}

// WebCount is how many webs it takes so that no gap, nor that to either side, is
// wider than gap: the least n with n web + (n + 1) gap ≥ span, and at least 1.
func WebCount(span, web, gap length.Length) int {
	if web+gap <= 0 || span <= gap {
		return 1
	}
	return max(int((span-gap-1)/(web+gap))+1, 1)
}

// even are the middles of n webs laid over a span with equal gaps, in
// millimetres, and the gap.
func even(span, web float64, n int) (middles []float64, gap float64) {
	gap = (span - float64(float64(n)*web)) / float64(n+1)
	for i := range n {
		middles = append(middles, float64(float64(i+1)*gap)+float64((float64(i)+0.5)*web))
	}
	return middles, gap
}

// down is a figure in millimetres as a length, rounded down to the micrometre.
func down(mm float64) length.Length { return length.RoundMM(mm, length.Micrometre, length.Down) }

// webbing lays the webs of a frame.
func (f Frame) webbing(b Build, grid Grid, u practice.Set) Webbing {
	w := Webbing{Elastic: b == Modern}
	gap := length.Length(0)
	if w.Elastic {
		w.Width, gap = u.Length(practice.ElasticWidth), u.Length(practice.ElasticGap)
	} else {
		w.Width, gap = u.Length(practice.WebWidth), u.Length(practice.WebGap)
	}
	web := w.Width.MM()
	inset := u.Length(practice.WebInset).MM()
	w.Across, w.Along = f.WebsAcross, f.WebsAlong
	if w.Across == 0 {
		w.Across = WebCount(f.depth(), w.Width, gap)
	}
	if w.Along == 0 && !w.Elastic {
		w.Along = WebCount(max(f.Front, f.backWidth()), w.Width, gap)
	}
	rows, gapAcross := even(f.depth().MM(), web, w.Across)
	front, gapFront := even(f.Front.MM(), web, w.Along)
	back, gapBack := even(f.endWidth(), web, w.Along)
	if f.UnderSprings && grid.straight() {
		w.WebsUnderSprings = true
		rows, gapAcross = grid.rows, leastGap(grid.rows, web)
		front, gapFront = grid.columns, leastGap(grid.columns, web)
		back, gapBack = front, gapFront
		w.Across, w.Along = len(rows), len(front)
	}
	w.GapAcross, w.GapFront, w.GapBack = down(gapAcross), down(gapFront), down(gapBack)
	if w.Along == 0 {
		w.GapFront, w.GapBack = 0, 0
	}
	middle := f.widest() / 2
	for i, y := range rows {
		half := max(f.widthAt(y)/2-inset, 0)
		w.add(Across, i+1, spot{middle - half, y}, spot{middle + half, y}, u)
	}
	for i := range w.Along {
		from, to := f.alongWeb(front[i], back[i], inset)
		w.add(Along, i+1, from, to, u)
	}
	w.TooManyAtTheBackRail = w.Along > 1 && w.GapBack < 0
	return w
}

// widest is the width of the rectangle around the frame, in millimetres.
func (f Frame) widest() float64 { return max(f.Front, f.backWidth()).MM() }

// endWidth is the width at the back over which webs along are spread.
func (f Frame) endWidth() float64 {
	if f.Shape == Trapezoid {
		return f.Back.MM()
	}
	return f.Front.MM()
}

// alongWeb is from where to where a web goes, from its place on the back rail to
// that on the front rail: on a trapezoid the webs fan as the sides do.
func (f Frame) alongWeb(front, back, inset float64) (from, to spot) {
	middle := f.widest() / 2
	x := front - f.Front.MM()/2
	top, bottom := f.spanAt(x)
	a, b := spot{middle + x, top}, spot{middle + x, bottom}
	if f.Shape == Trapezoid {
		a.x = middle + back - f.Back.MM()/2
	}
	long := a.to(b)
	if long <= 2*inset {
		return a, a
	}
	dx, dy := float64((b.x-a.x)*(inset/long)), float64((b.y-a.y)*(inset/long))
	return spot{a.x + dx, a.y + dy}, spot{b.x - dx, b.y - dy}
}

// add works out how long a web is cut: its span, less what elastic gives, two
// turnovers and the hand-hold.
func (w *Webbing) add(way Way, number int, from, to spot, u practice.Set) {
	web := Web{Way: way, Number: number, From: from.point(), To: to.point(), Span: up(from.to(to))}
	rest := web.Span
	if w.Elastic {
		slack, _ := length.Scale(web.Span, practice.One, practice.One+u.Number(practice.ElasticStrain), length.Up)
		rest = slack.Round(length.Micrometre, length.Up)
	}
	web.Cut = rest + 2*u.Length(practice.WebTurnover) + u.Length(practice.WebHandHold)
	w.Webs = append(w.Webs, web)
	w.Total += web.Cut
}

// leastGap is the least gap between webs with these middles.
func leastGap(middles []float64, web float64) float64 {
	least := math.Inf(1)
	for i := 1; i < len(middles); i++ {
		least = min(least, middles[i]-middles[i-1]-web)
	}
	if len(middles) < 2 {
		return 0
	}
	return least
}

// Over reports whether web i across passes over web j along, each counted from
// 1: over and under by turns, both ways.
func Over(i, j int) bool { return (i+j)%2 == 0 }

// PassesOver are the webs of the other way, by their numbers, that a web passes
// over; it passes under the rest.
func (w Webbing) PassesOver(one Web) []int {
	var out []int
	for _, other := range w.Webs {
		if other.Way == one.Way {
			continue
		}
		across, along := one.Number, other.Number
		if one.Way == Along {
			across, along = along, across
		}
		if Over(across, along) == (one.Way == Across) {
			out = append(out, other.Number)
		}
	}
	return out
}
