package foundation

import (
	"math"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// Grid is where the springs stand.
type Grid struct {
	Centres   []geom.Point  // from the back left corner of the rectangle around the frame
	Rows      []int         // springs in each row, from the back
	Gap       length.Length // least between top coils, rounded down; 0 with one spring
	Over      bool          // coils touch or stand over the edge
	rows      []float64     // middles of the rows
	columns   []float64     // middles of the columns, where the rows are alike
	rowPitch  float64
	colPitch  float64
	mostInRow int
}

// straight reports whether the springs stand in columns as well as in rows.
func (g Grid) straight() bool { return len(g.columns) > 0 }

// SpringCount is how many springs stand in a row of a span: as many as bring the
// gap between their top coils nearest to gap, but no nearer than least; at
// least 1. Edge is left free at both ends.
//
//	n = round((span − 2 edge + gap) / (coil + gap))
//	n ≤ 1 + (span − 2 edge − coil) / (coil + least)
func SpringCount(span, coil, edge, gap, least length.Length) int {
	room := span - 2*edge
	if room < coil || coil <= 0 {
		return 1
	}
	n := (2*(room+gap) + coil + gap) / (2 * (coil + gap))
	most := 1 + (room-coil)/(coil+least)
	return max(int(min(n, most)), 1)
}

// grid places the springs of a frame.
func (f Frame) grid(b Build, u practice.Set) Grid {
	if !f.isSprung(b) {
		return Grid{}
	}
	coil, edge := u.Length(practice.SpringWidth), u.Length(practice.SpringEdge)
	gap, least := u.Length(practice.SpringGap), u.Length(practice.SpringLeastGap)
	first := (edge + coil/2).MM()
	g := Grid{Rows: f.Springs}
	rows := len(f.Springs)
	if rows == 0 {
		rows = SpringCount(f.depth(), coil, edge, gap, least)
	}
	g.rows = spread(f.depth().MM(), first, rows)
	if len(f.Springs) == 0 {
		for i, y := range g.rows {
			g.Rows = append(g.Rows, SpringCount(f.rowWidth(i, rows, y), coil, edge, gap, least))
		}
	}
	middle, alike := f.widest()/2, true
	var centres []spot
	for i, n := range g.Rows {
		wide := f.widthAt(g.rows[i])
		xs := spread(wide, first, n)
		for _, x := range xs {
			centres = append(centres, spot{middle + x - wide/2, g.rows[i]})
		}
		alike = alike && n == g.Rows[0] && f.widthAt(g.rows[i]) == f.widthAt(g.rows[0])
		if i == 0 {
			g.columns = xs
		}
		g.mostInRow = max(g.mostInRow, n)
		g.Over = g.Over || wide < coil.MM()
	}
	if !alike {
		g.columns = nil
	}
	for _, c := range centres {
		g.Centres = append(g.Centres, c.point())
	}
	if near := nearest(centres, g.Rows); !math.IsInf(near, 1) {
		g.Gap = down(near - coil.MM())
	}
	g.Over = g.Over || g.Gap < 0
	g.rowPitch = f.depth().MM() / float64(rows+1)
	g.colPitch = f.widest() / float64(g.mostInRow+1)
	return g
}

// nearest is the least distance between two springs, which stand in one row or in
// two neighbouring ones; infinite with one spring.
func nearest(centres []spot, rows []int) float64 {
	least := math.Inf(1)
	from := 0
	for i, n := range rows {
		to := from + n
		if i+1 < len(rows) {
			to += rows[i+1]
		}
		for a := from; a < from+n; a++ {
			for b := a + 1; b < to; b++ {
				least = min(least, centres[a].to(centres[b]))
			}
		}
		from += n
	}
	return least
}

// rowWidth is the width by which the springs of row i are counted. On a
// trapezoid it goes evenly from the back width to the front width, wherever the
// rows stand, so that a deeper frame never gets fewer.
func (f Frame) rowWidth(i, rows int, y float64) length.Length {
	if f.Shape == Trapezoid {
		if rows == 1 {
			return max(f.Front, f.Back)
		}
		return f.Back + (f.Front-f.Back)*length.Length(i)/length.Length(rows-1)
	}
	return down(f.widthAt(y))
}

// spread are n places, the first and last as far from the ends of a span, the
// others evenly between; one stands in the middle. Where the span has no room
// for that, they are spread evenly.
func spread(span, first float64, n int) []float64 {
	out := make([]float64, n)
	between := span - 2*first
	if n == 1 || between <= 0 {
		for i := range out {
			out[i] = span * float64(i+1) / float64(n+1)
		}
		return out
	}
	for i := range out {
		out[i] = first + float64(between*float64(i))/float64(n-1)
	}
	return out
}

// Spring is the advice on which spring to take.
type Spring struct {
	Height length.Length
	Gauge  string        // of the Standard Wire Gauge
	Wire   length.Length // 0 where the gauge lies between two of the table
	Tied   length.Length // height when tied down
	Source string
}

// gauges are the diameters of the Standard Wire Gauge, BS 3737:1964.
var gauges = map[int]length.Length{
	7: 4470 * length.Micrometre, 8: 4064 * length.Micrometre, 9: 3658 * length.Micrometre,
	10: 3251 * length.Micrometre, 11: 2946 * length.Micrometre, 12: 2642 * length.Micrometre,
	13: 2337 * length.Micrometre, 14: 2032 * length.Micrometre, 15: 1829 * length.Micrometre,
}

// WireOf is the diameter of the wire of a gauge from 7 to 15, by BS 3737:1964;
// 0 for others.
func WireOf(gauge int) length.Length { return gauges[gauge] }

// spring is the advice for a sprung frame. A rail that is given decides the
// height.
func (f Frame) spring(u practice.Set) Spring {
	keys := practice.BackSpring
	switch {
	case f.Part == Seat && f.Place == Divan:
		keys = practice.DivanSpring
	case f.Part == Seat && f.Place == EasyChair:
		keys = practice.EasyChairSpring
	case f.Part == Seat:
		keys = practice.SmallSpring
	}
	gauge := u.Number(keys.Gauge)
	s := Spring{Height: u.Length(keys.Height), Gauge: practice.Halves(gauge), Source: u.Source(*keys.Height.Setting)}
	if gauge%practice.One == 0 {
		s.Wire = WireOf(int(gauge / practice.One))
	}
	if f.Rail > 0 && f.Part == Seat {
		s.Height = practice.Times(f.Rail, u.Number(practice.SpringByRail))
		s.Source += "; height by " + u.Source(*practice.SpringByRail.Setting)
	}
	s.Tied = practice.Times(s.Height, u.Number(practice.SpringTied))
	return s
}

// Lashing is the cord that ties the springs.
type Lashing struct {
	Strands int
	Cord    length.Length
}

// lashing ties each row and each column, and eight ways each diagonal too. A
// strand over the whole frame takes cord in times of that extent; one over m
// springs in a diagonal crosses m + 1 diagonal pitches.
func (f Frame) lashing(g Grid, u practice.Set) Lashing {
	var l Lashing
	if len(g.Rows) == 0 {
		return l
	}
	times := u.Number(practice.Lashing)
	tie := func(n int, over length.Length) {
		l.Strands += n
		l.Cord += length.Length(n) * practice.Times(over, times)
	}
	rows, most := len(g.Rows), g.mostInRow
	for _, y := range g.rows {
		tie(1, up(f.widthAt(y)))
	}
	tie(most, f.depth())
	if u.Count(practice.LashingWays) < 8 {
		return l
	}
	pitch := geom.Hypot(g.rowPitch, g.colPitch)
	for d := range rows + most - 1 {
		m := min(d+1, rows, most, rows+most-1-d)
		tie(2, up(pitch*float64(m+1)))
	}
	return l
}
