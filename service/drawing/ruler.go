package drawing

import (
	"iter"

	"github.com/bridletie/bridletie/calc/length"
)

// measure is how a ruler is divided: a tick at every step, a figure at every
// major one.
type measure struct{ step, major length.Length }

var metricMeasures = []measure{
	{length.Millimetre, length.Centimetre},
	{5 * length.Millimetre, 5 * length.Centimetre},
	{length.Centimetre, 5 * length.Centimetre},
	{2 * length.Centimetre, 10 * length.Centimetre},
	{5 * length.Centimetre, 50 * length.Centimetre},
	{10 * length.Centimetre, 50 * length.Centimetre},
	{20 * length.Centimetre, length.Metre},
	{50 * length.Centimetre, 2 * length.Metre},
	{length.Metre, 5 * length.Metre},
	{5 * length.Metre, 20 * length.Metre},
	{20 * length.Metre, 100 * length.Metre},
}

var imperialMeasures = []measure{
	{length.Inch / 16, length.Inch / 2},
	{length.Inch / 4, length.Inch},
	{length.Inch, 6 * length.Inch},
	{3 * length.Inch, length.Foot},
	{6 * length.Inch, length.Foot},
	{length.Foot, length.Yard},
	{length.Yard, 5 * length.Yard},
	{5 * length.Yard, 20 * length.Yard},
	{20 * length.Yard, 100 * length.Yard},
}

// maxTicks bounds the ticks of one ruler.
const maxTicks = 1200

// measureFor is the finest division that can be read where least is the least
// distance between two ticks, for a ruler that long.
func measureFor(sys length.System, least, long float64) measure {
	all := metricMeasures
	if sys == length.Imperial {
		all = imperialMeasures
	}
	least = max(least, long/maxTicks)
	for _, m := range all {
		if m.step.MM() >= least {
			return m
		}
	}
	last := all[len(all)-1]
	for last.step.MM() < least {
		last = measure{2 * last.step, 2 * last.major}
	}
	return last
}

// ticks are the places of the ticks of a ruler that long, without its start.
func (m measure) ticks(long float64) iter.Seq[length.Length] {
	return func(yield func(length.Length) bool) {
		for n := length.Length(1); n <= maxTicks && (n*m.step).MM() <= long; n++ {
			if !yield(n * m.step) {
				return
			}
		}
	}
}

// leastTick is the least distance between ticks on the usual width.
const leastTick = 80.0

func (s *sheet) rulerAlong(long float64) []Shape {
	k := s.k
	m := measureFor(s.sys, leastTick*k, long)
	var short, figures []Polyline
	var out []Shape
	for at := range m.ticks(long) {
		y := at.MM()
		if at%m.major != 0 {
			short = append(short, Polyline{Pts: []Pt{{-18 * k, y}, {-34 * k, y}}})
			continue
		}
		figures = append(figures, Polyline{Pts: []Pt{{-18 * k, y}, {-46 * k, y}}})
		text, class := figureAlong(at, s.sys)
		out = append(out, Text{At: Pt{-54 * k, y + 9*k}, S: text, Size: s.figureSize(text, 100) * k, Anchor: AtEnd, Class: class})
	}
	return append(out, Path{append(short, figures...), cTick})
}

// figureSize is the size at which a figure fits beside its ruler.
func (s *sheet) figureSize(text string, room float64) float64 {
	return min(26, room/(boldAddition*max(breadth(text), 0.1)))
}

// figureAlong is the figure at a place along the roll. Feet are counted within
// the yard, as on a yard stick.
func figureAlong(at length.Length, sys length.System) (string, Class) {
	if sys == length.Imperial {
		if at%length.Yard != 0 && at%length.Foot == 0 {
			return near(at%length.Yard, sys), tQuiet
		}
		return near(at, sys), tBold
	}
	if at%length.Metre == 0 {
		return near(at, sys), tBold
	}
	return near(at, sys), tQuiet
}

func (s *sheet) rulerAcross() []Shape {
	k := s.k
	m := measureFor(s.sys, leastTick*k, s.wide)
	figure := func(x float64, text string, a Anchor) Text {
		return Text{At: Pt{x, -46 * k}, S: text, Size: s.figureSize(text, 200) * k, Anchor: a, Class: tQuiet}
	}
	out := []Shape{figure(0, "0", AtMiddle)}
	lines := []Polyline{{Pts: []Pt{{0, -14 * k}, {0, -38 * k}}}, {Pts: []Pt{{s.wide, -14 * k}, {s.wide, -38 * k}}}}
	for at := range m.ticks(s.wide) {
		x, tip := at.MM(), -26*k
		if at%m.major == 0 {
			tip = -38 * k
			if s.wide-x > 190*k {
				out = append(out, figure(x, taped(at, s.sys), AtMiddle))
			}
		}
		lines = append(lines, Polyline{Pts: []Pt{{x, -14 * k}, {x, tip}}})
	}
	out = append(out, figure(s.wide, taped(s.ans.Request.Cloth.Width, s.sys), AtEnd))
	return append(out, Path{lines, cTick})
}
