package pleat_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/pleat"
	"github.com/bridletie/bridletie/calc/practice"
)

const (
	mm = length.Millimetre
	cm = length.Centimetre
	in = length.Inch
)

// folded is what the marks take out of the cloth, read off the marks alone: from
// the first to the last mark of each side of a pleat.
func folded(m pleat.Mark) length.Length {
	on := m.On
	switch len(on) {
	case 6: // a box pleat has its face between its two sides
		return on[2] - on[0] + on[5] - on[3]
	case 1:
		return m.Take
	}
	return on[len(on)-1] - on[0]
}

func anyJob(t *rapid.T) pleat.Job {
	l := func(name string, lo, hi length.Length) length.Length {
		return length.Length(rapid.Int64Range(int64(lo), int64(hi)).Draw(t, name))
	}
	j := pleat.Job{From: pleat.From{How: pleat.How(rapid.IntRange(0, 4).Draw(t, "how"))}}
	switch j.How {
	case pleat.Lengths:
		j.Finished = l("finished", 10*cm, 500*cm)
		j.Cloth = j.Finished + l("more", 0, 200*cm)
	case pleat.Buttons:
		j.Finished = l("finished", 5*cm, 20*cm)
		j.Cloth, j.Buttons = j.Finished+l("more", 0, 5*cm), rapid.IntRange(1, 20).Draw(t, "buttons")
	default:
		j.Radius, j.TurnOver, j.Angle = l("radius", 0, 200*cm), l("turn over", 1*cm, 30*cm), rapid.IntRange(1, 360).Draw(t, "angle")
		j.Concave = rapid.Bool().Draw(t, "concave") && j.Radius > j.TurnOver
	}
	if j.Concave {
		j.Count = rapid.IntRange(0, 40).Draw(t, "count")
		return j
	}
	styles := []pleat.Style{pleat.AnyStyle, pleat.Box, pleat.Inverted, pleat.Fan, pleat.Darts}
	if j.How != pleat.Buttons {
		j.Count = rapid.IntRange(0, 40).Draw(t, "count")
		if j.Count%2 == 0 {
			styles = append(styles, pleat.Pairs)
		} else {
			styles = styles[1:]
		}
	}
	j.Style = rapid.SampledFrom(styles).Draw(t, "style")
	if rapid.Bool().Draw(t, "limited") {
		j.MaxDepth = l("most deep", mm, 60*mm)
	}
	j.Step = rapid.SampledFrom([]length.Length{0, in / 16}).Draw(t, "step")
	return j
}

// What is taken in is what there is to lose, by the shares and by the marks; the
// left side is the right side mirrored; marks run from left to right.
func TestExactAndSymmetric(t *testing.T) { rapid.Check(t, exactAndSymmetric) }

// The same from whatever the fuzzer finds.
func FuzzPlan(f *testing.F) { f.Fuzz(rapid.MakeFuzz(exactAndSymmetric)) }

func exactAndSymmetric(t *rapid.T) {
	j := anyJob(t)
	r := pleat.Plan(j)
	var byMarks length.Length
	for _, m := range r.Marks {
		byMarks += folded(m)
	}
	if r.Absorbed() != r.Excess || byMarks != r.Excess {
		t.Fatalf("to lose %v, taken in %v, by the marks %v", r.Excess, r.Absorbed(), byMarks)
	}
	if r.Short && r.Cloth+r.Excess != r.Finished || !r.Short && r.Cloth-r.Excess != r.Finished {
		t.Fatalf("cloth %v, finished %v, excess %v", r.Cloth, r.Finished, r.Excess)
	}
	n := len(r.Marks)
	for i, m := range r.Marks {
		o := r.Marks[n-1-i]
		odd := n%2 == 0 && r.Excess%2 == 1
		if m.Finished != -o.Finished || m.Take != o.Take && !(odd && (i == n/2 || i == n/2-1) && absolute(m.Take-o.Take) == 1) {
			t.Fatalf("%d and %d: %+v, %+v", i, n-1-i, m, o)
		}
		apart := length.Length(1)
		if odd {
			apart = 3 // that nanometre, half of one, and a mark rounded
		}
		for k := range m.On {
			if absolute(m.On[k]+o.On[len(o.On)-1-k]) > apart {
				t.Fatalf("marks %v and %v do not mirror", m.On, o.On)
			}
			if k > 0 && m.On[k] < m.On[k-1] {
				t.Fatalf("marks %v run back", m.On)
			}
		}
	}
}

func absolute(l length.Length) length.Length { return max(l, -l) }

// Taken off the cloth one after the other, the pleats bring each mark to its
// place on the finished edge: an independent walk along the cloth.
func TestMarksComeToTheirPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		r := pleat.Plan(j)
		if r.Short || r.Style == pleat.Pairs {
			return
		}
		var gone length.Length // from the left end of the cloth
		for _, m := range r.Marks {
			first := m.On[0]
			lands := first + r.Cloth/2 - gone - r.Finished/2
			want := m.Finished
			if len(m.On) == 6 {
				want -= (m.On[3] - m.On[2]) / 2
			}
			if absolute(lands-want) > 4 {
				t.Fatalf("%s: the mark at %v comes to %v, want %v", r.Style, first, lands, want)
			}
			gone += folded(m)
		}
	})
}

// Deeper folds never take more pleats; more to lose never fewer.
func TestCountIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge := length.Length(rapid.Int64Range(int64(10*cm), int64(400*cm)).Draw(t, "edge"))
		more := length.Length(rapid.Int64Range(int64(1*mm), int64(100*cm)).Draw(t, "more"))
		depth := length.Length(rapid.Int64Range(int64(1*cm), int64(5*cm)).Draw(t, "depth"))
		count := func(more, depth length.Length) int {
			return len(pleat.Plan(pleat.Job{From: pleat.From{How: pleat.Lengths, Cloth: edge + more, Finished: edge}, Style: pleat.Fan, MaxDepth: depth}).Marks)
		}
		if a, b := count(more, depth), count(more, depth+1*cm); b > a {
			t.Fatalf("%d pleats, deeper %d", a, b)
		}
		if a, b := count(more, depth), count(more+5*cm, depth); b < a {
			t.Fatalf("%d pleats, with more to lose %d", a, b)
		}
		for _, m := range pleat.Plan(pleat.Job{From: pleat.From{How: pleat.Lengths, Cloth: edge + more, Finished: edge}, Style: pleat.Fan, MaxDepth: depth}).Marks {
			if m.Depth > depth {
				t.Fatalf("a fold of %v, deeper than %v", m.Depth, depth)
			}
		}
	})
}

// Where it is not said how many, no fold lies deeper than it may and no snip opens
// wider than it should, for any edge, style and step of the tape.
func TestDepthIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		if j.How == pleat.Buttons {
			return
		}
		j.Count = 0
		r := pleat.Plan(j)
		if len(r.Marks) == pleat.MaxCount {
			return
		}
		limit := max(j.MaxDepth, 0)
		if limit == 0 {
			limit = practice.Defaults().Length(practice.PleatDepth)
		}
		for i, m := range r.Marks {
			if r.Short && m.Take > 10*mm || !r.Short && m.Depth > limit {
				t.Fatalf("%d of %d takes in %v at a depth of %v, which may be %v", i+1, len(r.Marks), m.Take, m.Depth, limit)
			}
		}
		// One or two fewer would lie too deep.
		fewer := len(r.Marks) - 1
		if r.Style == pleat.Pairs {
			fewer--
		}
		if folds := map[pleat.Style]length.Length{pleat.Box: 4, pleat.Inverted: 4}[r.Style]; !r.Short && fewer > 0 && r.Excess <= length.Length(fewer)*limit*max(folds, 2) {
			t.Fatalf("%d would do as well as %d", fewer, len(r.Marks))
		}
	})
}

// The spacing is from each to the next; of pairs the middle two meet, and a single
// pair has none, as one alone has none.
func TestSpacingIsFromOneToTheNext(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		r := pleat.Plan(j)
		n, apart := len(r.Marks), 0
		for i := 1; i < n; i++ {
			got := r.Marks[i].Finished - r.Marks[i-1].Finished
			if r.Style == pleat.Pairs && i == n/2 {
				if got != 0 {
					t.Fatalf("the pair in the middle is %v apart", got)
				}
				continue
			}
			apart++
			if absolute(got-r.Spacing) > 1 {
				t.Fatalf("%d and %d are %v apart, not %v", i, i+1, got, r.Spacing)
			}
		}
		if r.Spaced != (apart > 0) || !r.Spaced && r.Spacing != 0 {
			t.Fatalf("%d are apart from the next; spaced %v by %v", apart, r.Spaced, r.Spacing)
		}
	})
}

// Published and common figures for skirts and loose covers, exact.
func TestPublished(t *testing.T) {
	for _, tc := range []struct {
		name            string // with its source
		cloth, finished length.Length
		count           int
		style           pleat.Style
		take, depth     length.Length
	}{
		{"Sofa front of 87 in with three 12-in pleats, (87 + 36) / 2 + 1 = 62½ in a panel with its seam; how to make a pleated skirt for a sofa, published household guide", 2 * (125*in/2 - in), 87 * in, 3, pleat.Inverted, 12 * in, 3 * in},
		{"Sofa side of 37 in with one 12-in pleat, cut 50 in with 1 in of seam; the same guide", 50*in - in, 37 * in, 1, pleat.Box, 12 * in, 3 * in},
		{"Loose cover, 2-in box pleats with 2-in gaps: twice the base run; how to make loose covers, published household guide", 2 * 96 * in, 96 * in, 24, pleat.Box, 4 * in, 1 * in},
		{"Loose cover, inverted pleats at four corners: base run and 32 in (4 times 8); the same guide", (96 + 32) * in, 96 * in, 4, pleat.Inverted, 8 * in, 2 * in},
		{"Inverted pleat with 11 cm from each strip at a corner, underlay 22 cm wide; published instructions for an inverted-pleat skirt", 2 * 11 * 2 * cm, 0, 1, pleat.Inverted, 44 * cm, 11 * cm},
	} {
		finished := tc.finished
		if finished == 0 {
			finished = 60 * cm
			tc.cloth += finished
		}
		r := pleat.Plan(pleat.Job{From: pleat.From{How: pleat.Lengths, Cloth: tc.cloth, Finished: finished}, Style: tc.style, Count: tc.count})
		if len(r.Marks) != tc.count {
			t.Errorf("%s: %d pleats", tc.name, len(r.Marks))
		}
		for _, m := range r.Marks {
			if m.Take != tc.take || m.Depth != tc.depth {
				t.Errorf("%s: takes %v at a depth of %v", tc.name, m.Take, m.Depth)
			}
		}
	}
	// the face of a box pleat whose folds meet at the back is half of what it
	// takes in: 2 in for 4, and the gap between is 2 in too, as printed
	r := pleat.Plan(pleat.Job{From: pleat.From{How: pleat.Lengths, Cloth: 192 * in, Finished: 96 * in}, Style: pleat.Box, Count: 24})
	for i, m := range r.Marks {
		if face := m.On[3] - m.On[2]; face != 2*in {
			t.Errorf("face %v", face)
		}
		if i > 0 {
			if gap := m.On[0] - r.Marks[i-1].On[5]; gap != 2*in {
				t.Errorf("gap %v", gap)
			}
		}
	}
	// the underlay beneath an inverted pleat is as wide as its two inner folds lie
	// apart when folded, twice its depth: 22 cm
	r = pleat.Plan(pleat.Job{From: pleat.From{How: pleat.Lengths, Cloth: 104 * cm, Finished: 60 * cm}, Style: pleat.Inverted, Count: 1})
	if got := r.Marks[0].On[3] - r.Marks[0].On[1]; got != 22*cm {
		t.Errorf("underlay %v", got)
	}
}

// An arc against the circle of a mathematics handbook: 2πT all round, whatever
// the radius, and πT/2 at a right angle.
func TestExcessOfArcs(t *testing.T) {
	for _, tc := range []struct {
		angle int
		want  float64 // of a turn-over of 60 mm
	}{{360, 376.991118}, {180, 188.495559}, {90, 94.247780}, {1, 1.047198}} {
		for _, radius := range []length.Length{0, 9 * cm, 20 * length.Metre} {
			for _, concave := range []bool{false, true} {
				e, finished := pleat.From{Radius: radius, TurnOver: 6 * cm, Angle: tc.angle, Concave: concave}.Excess()
				want := tc.want
				if concave {
					want = -want
				}
				if math.Abs(e.MM()-want) > 0.0006 {
					t.Errorf("%d degrees: %v, want %v", tc.angle, e, want)
				}
				if math.Abs(finished.MM()-radius.MM()*float64(tc.angle)*math.Pi/180) > 0.0006 {
					t.Errorf("finished %v", finished)
				}
			}
		}
	}
}

func TestPairsMeetAndFansTurn(t *testing.T) {
	from := pleat.From{How: pleat.Lengths, Cloth: 40 * cm, Finished: 32 * cm}
	r := pleat.Plan(pleat.Job{From: from, Style: pleat.Pairs, Count: 4})
	if l, m := r.Marks[1], r.Marks[2]; l.Finished != 0 || m.Finished != 0 || l.On[2] != 0 || m.On[0] != 0 || l.Lie != pleat.LiesRight || m.Lie != pleat.LiesLeft {
		t.Errorf("the middle pair: %+v, %+v", l, m)
	}
	if r.Marks[3].Finished != 8*cm {
		t.Errorf("the next at %v", r.Marks[3].Finished)
	}
	r = pleat.Plan(pleat.Job{From: from, Style: pleat.Fan, Count: 5, Away: true})
	for i, want := range []pleat.Lie{pleat.LiesLeft, pleat.LiesLeft, pleat.LiesBoth, pleat.LiesRight, pleat.LiesRight} {
		if r.Marks[i].Lie != want {
			t.Errorf("%d lies %s", i, r.Marks[i].Lie)
		}
	}
	r = pleat.Plan(pleat.Job{From: pleat.From{How: pleat.Corner, Radius: 20 * cm, Angle: 90, TurnOver: 6 * cm, Concave: true}})
	if !r.Short || r.Style != pleat.Snips || len(r.Marks) != 10 || r.SnipDepth != 48*mm { // 94.2 mm in snips that open by 10 mm or less
		t.Errorf("%+v", r)
	}
	r = pleat.Plan(pleat.Job{From: pleat.From{How: pleat.Lengths, Cloth: cm, Finished: cm}})
	if r.Style != pleat.NoStyle || len(r.Marks) != 0 {
		t.Errorf("%+v", r)
	}
}

func ExamplePlan() {
	r := pleat.Plan(pleat.Job{
		From:  pleat.From{How: pleat.ScrollArm, Radius: 9 * length.Centimetre, Angle: 180, TurnOver: 6 * length.Centimetre},
		Count: 5,
	})
	for _, m := range r.Marks {
		fmt.Println(m.Lie, m.Take, m.Finished.Text(length.Metric, length.Nearest))
	}
	fmt.Println(r.Excess == r.Absorbed(), r.Excess)
	// Output:
	// right 37 mm -11.3 cm
	// right 38 mm -5.7 cm
	// both 38.496 mm 0 cm
	// left 38 mm 5.7 cm
	// left 37 mm 11.3 cm
	// true 188.496 mm
}

func BenchmarkPlan(b *testing.B) {
	j := pleat.Job{From: pleat.From{How: pleat.RoundSeat, Radius: 25 * cm, Angle: 360, TurnOver: 8 * cm}, Count: 36}
	for b.Loop() {
		pleat.Plan(j)
	}
}
