package piping_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
)

// Where joins fall, by hand: strips of 1 m with square ends, whose joins take 4 cm.
func TestJoinsKeepClear(t *testing.T) {
	for _, tc := range []struct {
		name   string
		run    piping.Run
		joins  []length.Length
		closes length.Length
	}{
		{"anywhere", piping.Run{Length: 150 * cm, MaxJoins: 1}, []length.Length{980 * mm}, 0},
		{"before a forbidden part", piping.Run{Length: 150 * cm, MaxJoins: 1, NoJoin: []piping.Span{{From: 90 * cm, To: 110 * cm}}}, []length.Length{90 * cm}, 0},
		{"beside a corner", piping.Run{Length: 150 * cm, MaxJoins: 1, Corners: []length.Length{100 * cm}}, []length.Length{95 * cm}, 0},
		{"on the end of a part", piping.Run{Length: 150 * cm, MaxJoins: 1, NoJoin: []piping.Span{{From: 98 * cm, To: 110 * cm}}}, []length.Length{98 * cm}, 0},
		{"closed beside a corner", piping.Run{Length: 150 * cm, MaxJoins: 1, Closed: true, Corners: []length.Length{0}}, []length.Length{103 * cm}, 5 * cm},
		{"over the beginning", piping.Run{Length: 150 * cm, MaxJoins: 1, Closed: true, NoJoin: []piping.Span{{From: 140 * cm, To: 20 * cm}}}, []length.Length{118 * cm}, 20 * cm},
	} {
		j := piping.Job{Shape: piping.Shape{Cut: piping.Across, Width: 40 * mm, Least: 30 * cm}, Margin: 5 * cm, Cloth: 100 * cm, Runs: []piping.Run{tc.run}}
		p := piping.Solve(j)[3]
		if p.Way != piping.StraightCuts || !slices.Equal(p.Runs[0].Joins, tc.joins) || p.Runs[0].Closes != tc.closes {
			t.Errorf("%s: joins %v, closed at %v; want %v and %v", tc.name, p.Runs[0].Joins, p.Runs[0].Closes, tc.joins, tc.closes)
		}
	}
}

// A closed run all of whose places are forbidden has no closing.
func TestNoClosing(t *testing.T) {
	r := piping.Run{Length: 10 * cm, Closed: true, Corners: []length.Length{0, 5 * cm}}
	if got := piping.KeepClear(r, 3*cm); len(got) != 0 {
		t.Errorf("closings %v", got)
	}
	if got := piping.KeepClear(r, 2*cm); len(got) == 0 || got[0].Closes != 2*cm {
		t.Errorf("closings %v, want one at 2 cm", got)
	}
}

// Count and lengths in a square of 100 mm at 45 degrees by hand: the diagonals are
// 141.4 mm long, strips of 20 mm.
func TestSquareByHand(t *testing.T) {
	r, s := piping.Rect{Across: 100 * mm, Along: 100 * mm}, piping.Shape{Angle: 45, Width: 20 * mm, Least: 60 * mm}
	for _, lean := range []piping.Lean{piping.ToRight, piping.ToLeft} {
		strips := piping.InRect(r, s, lean)
		var sum float64
		for _, one := range strips {
			sum += one.Long.MM()
			if one.Lean != lean {
				t.Errorf("lean %v", one.Lean)
			}
		}
		// Two strips have an edge on the diagonal d. Their ends lie on sides at right
		// angles, so that they are as long as their shorter edges, d-40; the next are
		// shorter by 40 again.
		d := 100 * math.Sqrt2
		if want := 2*(d-40) + 2*(d-80); len(strips) != 4 || math.Abs(sum-want) > 0.01 {
			t.Errorf("%d strips of %.3f mm together, want 4 of %.3f", len(strips), sum, want)
		}
	}
}

// No offset of the strips gives more than the one taken.
func TestNoOffsetGivesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := piping.Rect{Across: between(t, 50*mm, 60*cm, "across"), Along: between(t, 50*mm, 60*cm, "along")}
		s := piping.Shape{Angle: rapid.IntRange(15, 75).Draw(t, "angle"), Width: between(t, 15*mm, 60*mm, "width"), Least: between(t, 20*mm, 30*cm, "least")}
		got := longOf(piping.InRect(r, s, piping.ToRight)).MM()
		a := float64(s.Angle) * math.Pi / 180
		for _, slope := range []float64{1, -1} {
			for n := range 60 {
				if sum := byScan(r, s, a, slope, float64(n)/60*s.Width.MM()); sum > got+0.1 {
					t.Fatalf("offset %d/60 gives %.3f mm, InRect %.3f", n, sum, got)
				}
			}
		}
	})
}

// byScan adds up the lengths of strips at one offset by walking along each edge in
// the plane: it knows only where a line enters and leaves the rectangle.
func byScan(r piping.Rect, s piping.Shape, a, slope, offset float64) (sum float64) {
	w, sin, cos := s.Width.MM(), math.Sin(a), math.Cos(a)
	ends := func(t float64) (from, to float64) {
		from = math.Max(-t*cos/sin, t*sin/cos)
		to = math.Min((r.Across.MM()-t*cos)/sin, (r.Along.MM()+t*sin)/cos)
		return from, to
	}
	for c := offset - math.Ceil(r.Along.MM()*sin/w+1)*w; c < r.Across.MM()*cos; c += w {
		from, to := math.Inf(-1), math.Inf(1)
		for k := 0; k <= 20; k++ { // the shape is convex: its edges decide, the rest must agree
			d := float64(k) / 20 * w
			f, u := ends(c + d)
			from, to = math.Max(from, f-slope*d), math.Min(to, u-slope*d)
		}
		if long := to - from; long >= s.Least.MM() {
			sum += long
		}
	}
	return sum
}

// A wider strip never yields more, a larger rectangle never less.
func TestYieldGoesTheRightWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := piping.Rect{Across: between(t, 20*mm, 1500*mm, "across"), Along: between(t, 20*mm, 1500*mm, "along")}
		w, more := between(t, 10*mm, 90*mm, "width"), between(t, 0, 60*mm, "more")
		if piping.AreaLength(r.Across, r.Along, w+more) > piping.AreaLength(r.Across, r.Along, w) {
			t.Error("a wider strip makes more by the area rule")
		}
		narrow, wide := piping.NewTube(r.Across, r.Along, w, 6*mm), piping.NewTube(r.Across, r.Along, w+more, 6*mm)
		if wide.Long() > narrow.Long() {
			t.Error("a wider strip makes more of a tube")
		}
		if long := piping.NewTube(r.Across+more, r.Along+more, w, 6*mm).Long(); long < narrow.Long() {
			t.Error("a larger rectangle makes less of a tube")
		}
		for _, lean := range []piping.Lean{piping.ToRight, piping.ToLeft} {
			s := piping.Shape{Angle: 45, Width: w, Least: 5 * mm}
			if longOf(piping.InRect(r, s, lean)) > piping.AreaLength(r.Across, r.Along, w) {
				t.Error("strips hold more than the rectangle")
			}
			larger := piping.Rect{Across: r.Across + more, Along: r.Along + more}
			if longOf(piping.InRect(larger, s, lean))+length.Millimetre < longOf(piping.InRect(r, s, lean)) {
				t.Error("a larger rectangle gives less")
			}
		}
	})
}

// More cord, cloth, seam: never a narrower strip, never a tighter curve.
func TestWidthAndRadiusGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, th, s := between(t, mm, 60*mm, "cord"), between(t, 0, 10*mm, "cloth"), between(t, 0, 50*mm, "seam")
		more := between(t, 0, 20*mm, "more")
		w := piping.StripWidth(d, th, s, false)
		for _, x := range []length.Length{piping.StripWidth(d+more, th, s, false), piping.StripWidth(d, th+more, s, false), piping.StripWidth(d, th, s+more, false), piping.StripWidth(d, th, s, true), piping.PracticalWidth(w, 5*mm)} {
			if x < w {
				t.Errorf("%v is below %v", x, w)
			}
		}
		if piping.LeastRadius(d, th, piping.StretchAt(45, usual)) > piping.LeastRadius(d, th, piping.StretchStraight(usual)) {
			t.Error("the bias takes a wider curve than the straight")
		}
	})
	for degrees := 15; degrees < 45; degrees++ {
		if piping.StretchAt(degrees, usual) > piping.StretchAt(degrees+1, usual) || piping.StretchAt(degrees, usual) != piping.StretchAt(90-degrees, usual) {
			t.Errorf("the stretch at %d degrees is %d", degrees, piping.StretchAt(degrees, usual))
		}
	}
}

// With no wish about joins, all runs are covered from new cloth, and never with
// fewer strips than their lengths want.
func TestNewCloth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		j.Rects, j.Cloth, j.Cut, j.Angle = nil, 137*cm, piping.Bias, 45
		for i := range j.Runs {
			j.Runs[i].MaxJoins, j.Runs[i].NoJoin, j.Runs[i].Corners = 100, nil, nil
		}
		p := piping.Solve(j)[0]
		var need length.Length
		for _, r := range j.Runs {
			need += j.Need(r, piping.Bias)
		}
		if p.Missing != 0 {
			t.Errorf("%d runs are missing", p.Missing)
		}
		if long := p.Strips[0].Long; length.Length(len(p.Strips))*long < need {
			t.Errorf("%d strips of %v for %v", len(p.Strips), long, need)
		}
	})
}

// The check bites: each way of spoiling a right plan is named.
func TestCheckNamesWhatIsWrong(t *testing.T) {
	job := func() piping.Job {
		return piping.Job{
			Shape:    piping.Shape{Angle: 45, Width: 40 * mm, Least: 20 * cm},
			JoinSeam: 6 * mm, Overlap: 4 * cm, Ends: 25 * mm, Margin: 5 * cm, OneLean: true,
			Rects: []piping.Rect{{X: 10 * cm, Y: 20 * cm, Across: 26 * cm, Along: 150 * cm}, {Across: 30 * cm, Along: 60 * cm}},
			Runs: []piping.Run{{Length: 150 * cm, Closed: true, MaxJoins: 6, Corners: []length.Length{0, 70 * cm}},
				{Length: 80 * cm, MaxJoins: 5, NoJoin: []piping.Span{{From: 40 * cm, To: 50 * cm}}}},
		}
	}
	if flaws := piping.Check(job(), piping.Solve(job())[0]); len(flaws) > 0 {
		t.Fatal(flaws)
	}
	for _, tc := range []struct {
		want  string
		spoil func(*piping.Job, *piping.Plan)
	}{
		{"outside its rectangle", func(_ *piping.Job, p *piping.Plan) {
			for k := range p.Strips[0].Corners {
				p.Strips[0].Corners[k].Across -= length.Metre
			}
		}},
		{"share cloth", func(_ *piping.Job, p *piping.Plan) { p.Strips[1].Corners = p.Strips[0].Corners }},
		{"a side is", func(_ *piping.Job, p *piping.Plan) { p.Strips[0].Long += mm }},
		{"wide and not", func(j *piping.Job, p *piping.Plan) { p.Shape.Width += mm }},
		{"degrees and not", func(j *piping.Job, p *piping.Plan) { p.Shape.Angle = 46 }},
		{"lean both ways", func(_ *piping.Job, p *piping.Plan) {
			s := &p.Strips[0]
			s.Lean = piping.ToLeft + piping.ToRight - s.Lean
		}},
		{"no such rectangle", func(_ *piping.Job, p *piping.Plan) { p.Strips[0].Rect = 2 }},
		{"beyond strip", func(_ *piping.Job, p *piping.Plan) { p.Runs[0].Pieces[0].From += 30 * cm }},
		{"two pieces share", func(_ *piping.Job, p *piping.Plan) { p.Runs[1].Pieces[0].Strip = p.Runs[0].Pieces[0].Strip }},
		{"no strip 99", func(_ *piping.Job, p *piping.Plan) { p.Runs[0].Pieces[0].Strip = 99 }},
		{"it is covered to", func(_ *piping.Job, p *piping.Plan) { p.Runs[1].Pieces[len(p.Runs[1].Pieces)-1].Long -= 1 }},
		{"where no join may fall", func(j *piping.Job, p *piping.Plan) {
			at := p.Runs[1].Joins[0]
			j.Runs[1].NoJoin = []piping.Span{{From: at - 1, To: at + 1}}
		}},
		{"closes where", func(j *piping.Job, p *piping.Plan) { j.Runs[0].Corners = append(j.Runs[0].Corners, p.Runs[0].Closes) }},
		{"and not at", func(_ *piping.Job, p *piping.Plan) { p.Runs[1].Joins[0] += mm }},
		{"at most 0 are allowed", func(j *piping.Job, _ *piping.Plan) { j.Runs[1].MaxJoins = 0 }},
		{"too short to be joined", func(j *piping.Job, _ *piping.Plan) { j.Least = 60 * cm }},
		{"runs are missing", func(_ *piping.Job, p *piping.Plan) { p.Runs[1] = piping.Laid{} }},
		{"runs are laid", func(_ *piping.Job, p *piping.Plan) { p.Runs = p.Runs[:1] }},
	} {
		j := job()
		p := piping.Solve(j)[0]
		tc.spoil(&j, &p)
		if got := strings.Join(piping.Check(j, p), "\n"); !strings.Contains(got, tc.want) {
			t.Errorf("want %q, got\n%s", tc.want, got)
		}
	}
}

func TestSinesAreRight(t *testing.T) {
	for d := piping.LeastAngle; d <= piping.MostAngle; d++ {
		want := 100 / math.Sin(float64(d)*math.Pi/180)
		if got := piping.LongestStrip(10*cm, d).MM(); math.Abs(got-want) > 0.001 {
			t.Errorf("%d degrees: %v, want %v", d, got, want)
		}
	}
}
