package relief_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
)

const (
	mm = length.Millimetre
	cm = length.Centimetre
)

func anyJob(t *rapid.T) relief.Job {
	l := func(name string, lo, hi length.Length) length.Length {
		return length.Length(rapid.Int64Range(int64(lo), int64(hi)).Draw(t, name))
	}
	j := relief.Job{
		Size:  panel.Size{Across: l("across", 10*cm, 200*cm), Along: l("along", 10*cm, 200*cm)},
		Allow: panel.Sides{Top: l("top", 0, 15*cm), Bottom: l("bottom", 0, 15*cm), Left: l("left", 0, 15*cm), Right: l("right", 0, 15*cm)},
		Loose: rapid.Bool().Draw(t, "loose"),
	}
	j.Least = cloth.Share(rapid.Int64Range(0, int64(5*cloth.Percent)).Draw(t, "least"))
	j.Most = j.Least + cloth.Share(rapid.Int64Range(0, int64(6*cloth.Percent)).Draw(t, "range"))
	for range rapid.IntRange(1, 4).Draw(t, "obstacles") {
		o := relief.Obstacle{
			What: relief.What(rapid.IntRange(0, 3).Draw(t, "what")), Round: rapid.Bool().Draw(t, "round"),
			Edge: relief.Edge(rapid.IntRange(0, 3).Draw(t, "edge")), Corner: relief.Corner(max(rapid.IntRange(-4, 4).Draw(t, "corner"), 0)),
			Stuffing: l("stuffing", 0, 10*cm), EdgeThickness: l("thickness", 0, 3*cm), Covered: l("covered", 0, 1*cm),
		}
		if rapid.Bool().Draw(t, "own margin") {
			o.Margin = l("margin", 1*mm, 3*cm)
		}
		run, depth := j.Size.Across, j.Size.Along
		if o.Corner == relief.NoCorner && (o.Edge == relief.LeftEdge || o.Edge == relief.RightEdge) {
			run, depth = depth, run
		}
		if o.Corner != relief.NoCorner {
			most := min(run, depth)/2 - 1*mm
			o.Width, o.Deep = l("width", 1*mm, most), l("deep", 0, most)
		} else {
			o.Width = l("width", 1*mm, min(run, 30*cm)/2*2-2)
			o.At = l("at", (o.Width+1)/2, run-(o.Width+1)/2)
			o.Deep = l("deep", 0, depth/2-1*mm)
			if !o.Round && rapid.Bool().Draw(t, "leans") {
				o.Lean = rapid.IntRange(-60, 60).Draw(t, "lean")
			}
		}
		j.Obstacles = append(j.Obstacles, o)
	}
	return j
}

// No cut reaches what must stay covered at any pull of the range, whatever the
// panel; and the margin said is kept.
func TestCutsStayCovered(t *testing.T) { rapid.Check(t, staysCovered) }

// The same from whatever the fuzzer finds.
func FuzzCuts(f *testing.F) { f.Fuzz(rapid.MakeFuzz(staysCovered)) }

func staysCovered(t *rapid.T) {
	j := anyJob(t)
	for i, c := range relief.Cuts(j) {
		o := j.Obstacles[i]
		if c.Whole != (len(c.Lines) > 0) || c.Whole != (c.Kind != relief.None) || c.Whole != (len(c.Stops) > 0) {
			t.Fatalf("whole %v with %d lines, %d stops, %s", c.Whole, len(c.Lines), len(c.Stops), c.Kind)
		}
		if o.Lean != 0 && leaves(j, o) {
			continue // refused as a fault
		}
		for _, w := range wrongWith(j, o, c) {
			t.Errorf("%+v: %s: %s", o, c.Kind, w)
		}
		want := o.Margin
		if want == 0 {
			want = relief.MarginFor(o.Stuffing, j.Loose, practice.Defaults())
		}
		thin := len(c.Stops) == 1 && (o.Corner == relief.NoCorner || o.Round)
		if c.Whole && !thin && c.Margin()+length.Micrometre < want {
			t.Errorf("%+v: %s: %v is kept, want %v", o, c.Kind, c.Margin(), want)
		}
	}
}

// leaves reports whether a leaning cut would leave its edge.
func leaves(j relief.Job, o relief.Obstacle) bool {
	for _, c := range relief.Cuts(j) {
		for _, line := range c.Lines {
			for _, p := range line {
				if p.Across < 0 || p.Along < 0 || p.Across > j.Size.Across+j.Allow.Left+j.Allow.Right || p.Along > j.Size.Along+j.Allow.Top+j.Allow.Bottom {
					return true
				}
			}
		}
	}
	return false
}

// The checker bites: a cut made 1 mm longer than its margin is seen to show.
func TestCheckerSeesACutTooFar(t *testing.T) {
	j := seat(relief.Obstacle{Width: 6 * cm, Deep: 5 * cm, At: 25 * cm, Covered: 2 * mm})
	c := relief.Cuts(j)[0]
	if w := wrongWith(j, j.Obstacles[0], c); len(w) > 0 {
		t.Fatalf("%q", w)
	}
	last := c.Lines[0]
	last[len(last)-1].Along += c.Margin() + 1*mm
	if w := wrongWith(j, j.Obstacles[0], c); len(w) == 0 {
		t.Error("a cut that goes too far is not seen")
	}
}

func seat(os ...relief.Obstacle) relief.Job {
	return relief.Job{
		Size: panel.Size{Across: 50 * cm, Along: 46 * cm}, Allow: panel.Sides{Top: 7 * cm, Bottom: 7 * cm, Left: 7 * cm, Right: 7 * cm},
		Most: 3 * cloth.Percent, Obstacles: os,
	}
}

func TestKinds(t *testing.T) {
	stuffed := func(o relief.Obstacle) relief.Obstacle {
		o.Stuffing, o.EdgeThickness = 4*cm, 1*cm
		return o
	}
	for _, tc := range []struct {
		name  string
		o     relief.Obstacle
		kind  relief.Kind
		lines int
		stops int
	}{
		{"thin rail", relief.Obstacle{What: relief.Rail, At: 25 * cm, Width: 16 * mm, Deep: 3 * cm}, relief.Straight, 1, 1},
		{"square post", stuffed(relief.Obstacle{At: 25 * cm, Width: 5 * cm, Deep: 4 * cm}), relief.Y, 2, 2},
		{"wide upright near the edge of the cloth", stuffed(relief.Obstacle{What: relief.Upright, Edge: relief.LeftEdge, At: 23 * cm, Width: 28 * cm, Deep: 2 * cm}), relief.V, 2, 2},
		{"upright met at an angle", relief.Obstacle{What: relief.Upright, At: 25 * cm, Width: 5 * cm, Deep: 4 * cm, Lean: 20}, relief.Diagonal, 2, 2},
		{"corner post", relief.Obstacle{Corner: relief.TopRight, Width: 5 * cm, Deep: 5 * cm}, relief.Diagonal, 1, 1},
		{"corner leg", relief.Obstacle{What: relief.Leg, Corner: relief.BottomLeft, Width: 5 * cm, Deep: 5 * cm}, relief.Triangle, 2, 2},
		{"round leg", relief.Obstacle{What: relief.Leg, Round: true, At: 25 * cm, Width: 8 * cm, Deep: 6 * cm, Edge: relief.BottomEdge}, relief.Fan, 5, 4},
		{"round corner post", relief.Obstacle{Round: true, Corner: relief.TopLeft, Width: 8 * cm, Deep: 8 * cm}, relief.Fan, 5, 4},
	} {
		t.Run(tc.name, func(t *testing.T) {
			j := seat(tc.o)
			c := relief.Cuts(j)[0]
			if c.Kind != tc.kind || len(c.Lines) != tc.lines || len(c.Stops) != tc.stops || !c.Whole {
				t.Errorf("%s with %d lines and %d stops, whole %v", c.Kind, len(c.Lines), len(c.Stops), c.Whole)
			}
			for _, w := range wrongWith(j, tc.o, c) {
				t.Error(w)
			}
		})
	}
}

// Worked by hand: a post 5 cm wide and 4 cm deep in the middle of the top edge,
// cloth that is not pulled. The face lies 7 + 4 cm from the cut edge; 12 mm are
// kept, so the arms stop at 9.8 cm, 12 mm inside each side of the post.
func TestWorkedByHand(t *testing.T) {
	j := seat(relief.Obstacle{At: 25 * cm, Width: 5 * cm, Deep: 4 * cm, Stuffing: 4 * cm, EdgeThickness: 1 * cm})
	j.Most = 0
	c := relief.Cuts(j)[0]
	near := func(a, b length.Length) bool { return a-b < 5*length.Micrometre && b-a < 5*length.Micrometre }
	for i, want := range []panel.Point{{Across: 30.7 * 10 * mm, Along: 98 * mm}, {Across: 333 * mm, Along: 98 * mm}} {
		if got := c.Stops[i].At; !near(got.Across, want.Across) || !near(got.Along, want.Along) || !near(c.Stops[i].Margin, 12*mm) {
			t.Errorf("stop %d at %v, %v with %v", i, got.Across, got.Along, c.Stops[i].Margin)
		}
	}
	// the tongue needs 5 cm from the face, so the fork lies 6 cm from the edge
	if fork := c.Lines[0][1]; !near(fork.Along, 60*mm) || !near(fork.Across, 320*mm) {
		t.Errorf("fork at %v", fork)
	}
	// when the cloth is pulled by 2 % at least and most, the face lies nearer to
	// the middle on the slack cloth: (230 - 40 + 12) / 1.02 = 198.039 mm from it
	j.Least, j.Most = 2*cloth.Percent, 2*cloth.Percent
	if got := relief.Cuts(j)[0].Stops[0].At.Along; !near(got, 300*mm-198039*length.Micrometre) {
		t.Errorf("pulled: stop at %v", got)
	}
}

// Where no cut will do, it is said which allowance would, and it does; where the
// pull is too wide, what narrower range would, and it does.
func TestWayOut(t *testing.T) {
	j := seat(relief.Obstacle{At: 25 * cm, Width: 5 * cm, Deep: 0, Covered: 5 * mm})
	j.Allow.Top = 1 * cm
	c := relief.Cuts(j)[0]
	if c.Whole || c.Allowance <= 1*cm {
		t.Fatalf("whole %v, allowance %v", c.Whole, c.Allowance)
	}
	j.Allow.Top = c.Allowance
	if c = relief.Cuts(j)[0]; !c.Whole || c.Allowance != 0 {
		t.Errorf("with the allowance: whole %v, allowance %v", c.Whole, c.Allowance)
	}
	j = seat(relief.Obstacle{At: 3 * cm, Width: 8 * mm, Deep: 3 * cm})
	j.Most = 8 * cloth.Percent
	c = relief.Cuts(j)[0]
	if c.Whole || c.NarrowTo < 0 || c.NarrowTo >= j.Most || c.Allowance != 0 {
		t.Fatalf("whole %v, narrow to %d", c.Whole, c.NarrowTo)
	}
	j.Most = c.NarrowTo
	if !relief.Cuts(j)[0].Whole {
		t.Error("the narrower range does not do")
	}
	j.Most += cloth.Percent / 10
	if relief.Cuts(j)[0].Whole {
		t.Error("a wider range would have done")
	}
}

// The allowance that is named always does.
func TestAllowanceDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		j.Obstacles = j.Obstacles[:1]
		c := relief.Cuts(j)[0]
		if c.Allowance == 0 {
			return
		}
		j.Allow = panel.Sides{Top: c.Allowance, Bottom: c.Allowance, Left: c.Allowance, Right: c.Allowance}
		got := relief.Cuts(j)[0]
		if !got.Whole {
			t.Fatalf("%v does not do: %+v", c.Allowance, got)
		}
		for _, f := range got.Flaps {
			if need := j.Obstacles[0].Stuffing + j.Obstacles[0].EdgeThickness; f.Needed == need && need > 6*mm && f.Width+2*length.Micrometre < f.Needed {
				t.Fatalf("with %v the %s is %v wide and needs %v", c.Allowance, f.Name, f.Width, f.Needed)
			}
		}
	})
}

// A wider range of pulls never lets a cut go further, and more margin never less.
func TestWiderRangeStopsEarlier(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := seat(relief.Obstacle{At: 25 * cm, Width: 8 * cm, Deep: length.Length(rapid.Int64Range(0, int64(15*cm)).Draw(t, "deep"))})
		j.Allow.Top = 20 * cm
		a := relief.Cuts(j)[0]
		j.Least, j.Most = 0, j.Most+cloth.Share(rapid.Int64Range(0, int64(10*cloth.Percent)).Draw(t, "more"))
		b := relief.Cuts(j)[0]
		if b.Whole && b.Stops[0].At.Along > a.Stops[0].At.Along {
			t.Errorf("stops at %v, with a wider range at %v", a.Stops[0].At, b.Stops[0].At)
		}
	})
}

// What is mirrored left and right is cut at mirrored places.
func TestMirrored(t *testing.T) {
	j := seat(relief.Obstacle{Corner: relief.TopLeft, Width: 5 * cm, Deep: 4 * cm}, relief.Obstacle{Corner: relief.TopRight, Width: 5 * cm, Deep: 4 * cm},
		relief.Obstacle{Edge: relief.LeftEdge, At: 20 * cm, Width: 6 * cm, Deep: 3 * cm}, relief.Obstacle{Edge: relief.RightEdge, At: 20 * cm, Width: 6 * cm, Deep: 3 * cm})
	cuts := relief.Cuts(j)
	for i := 0; i < len(cuts); i += 2 {
		for n, s := range cuts[i].Stops {
			o := cuts[i+1].Stops[n]
			if s.At.Across+o.At.Across != 64*cm || s.At.Along != o.At.Along {
				t.Errorf("%v and %v", s.At, o.At)
			}
		}
	}
	if got := relief.Crossing(cuts); len(got) != 0 {
		t.Errorf("crossing %v", got)
	}
	if got := relief.Crossing([]relief.Cut{cuts[0], cuts[0]}); len(got) != 1 {
		t.Errorf("the same cut twice: crossing %v", got)
	}
}

// A round of which hardly anything lies on the cloth has no room for snips.
func TestRoundPastTheCloth(t *testing.T) {
	j := relief.Job{Size: panel.Size{Across: 10 * cm, Along: 10 * cm}, Obstacles: []relief.Obstacle{
		{Round: true, Margin: 1 * mm, Width: 10004 * length.Micrometre, At: 5002 * length.Micrometre, Deep: 2_001_998 * length.Nanometre}}}
	c := relief.Cuts(j)[0]
	if c.Kind != relief.Straight || len(c.Stops) != 1 || len(c.Lines) != 1 {
		t.Errorf("%+v", c)
	}
	for _, w := range wrongWith(j, j.Obstacles[0], c) {
		t.Error(w)
	}
}

func TestMarginFor(t *testing.T) {
	for _, tc := range []struct {
		stuffing length.Length
		loose    bool
		want     length.Length
	}{{0, false, 12 * mm}, {50 * mm, false, 12 * mm}, {90 * mm, false, 16 * mm}, {90 * mm, true, 21 * mm}, {900 * mm, false, 25 * mm}} {
		if got := relief.MarginFor(tc.stuffing, tc.loose, practice.Defaults()); got != tc.want {
			t.Errorf("%v, %v: %v, want %v", tc.stuffing, tc.loose, got, tc.want)
		}
	}
}

func ExampleCuts() {
	cuts := relief.Cuts(relief.Job{
		Size:  panel.Size{Across: 50 * length.Centimetre, Along: 46 * length.Centimetre},
		Allow: panel.Sides{Top: 9 * length.Centimetre, Left: 7 * length.Centimetre, Right: 7 * length.Centimetre, Bottom: 7 * length.Centimetre},
		Most:  3 * cloth.Percent,
		Obstacles: []relief.Obstacle{{
			ID: "POST", Edge: relief.TopEdge, At: 25 * length.Centimetre,
			Width: 5 * length.Centimetre, Deep: 4 * length.Centimetre, Stuffing: 5 * length.Centimetre,
		}},
	})
	for _, s := range cuts[0].Stops {
		fmt.Println(cuts[0].Kind, s.At.Across.Text(length.Metric, length.Nearest), s.At.Along.Text(length.Metric, length.Nearest), s.Margin.Text(length.Metric, length.Down))
	}
	fmt.Println(cuts[0].Flaps[0].Name, cuts[0].Flaps[0].Reaches())
	// Output:
	// y 30.8 cm 11.8 cm 1.2 cm
	// y 33.2 cm 11.8 cm 1.2 cm
	// tongue true
}

func BenchmarkCuts(b *testing.B) {
	j := seat(relief.Obstacle{Corner: relief.TopLeft, Width: 5 * cm, Deep: 4 * cm}, relief.Obstacle{Corner: relief.TopRight, Width: 5 * cm, Deep: 4 * cm},
		relief.Obstacle{Edge: relief.LeftEdge, At: 20 * cm, Width: 6 * cm, Deep: 3 * cm}, relief.Obstacle{Edge: relief.RightEdge, Round: true, At: 20 * cm, Width: 6 * cm, Deep: 3 * cm})
	for b.Loop() {
		relief.Cuts(j)
	}
}
