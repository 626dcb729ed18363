package piping_test

import (
	"math"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/practice"
)

const inch = length.Inch

// inches is a number of inches to a millionth.
func inches(v float64) length.Length {
	l, err := length.FromMM(v * 25.4)
	if err != nil {
		panic(err)
	}
	return l
}

// What a square makes, as handbooks of bias binding print it. They divide the area
// by the width: a part of a strip counts, and no end or join is lost. Whole strips
// sewn to a tube give that less a part of one turn, never more.
func TestAreaRuleOfHandbooks(t *testing.T) {
	for _, tc := range []struct {
		name                 string
		side, strip, printed float64 // inches
		within               float64
	}{
		{"a 20 in square: common practice, no source", 20, 2, 200, 0},
		{"Lewis, How Much Bias Binding, 2006", 36, 2, 648, 0},
		{"a 12 in square: common practice, no source", 12, 2, 72, 0},
		{"a 22 in square that loses 1/4 in each way: common practice, no source", 21.75, 3, 157.7, 0.05},
	} {
		side, strip := inches(tc.side), inches(tc.strip)
		got := piping.AreaLength(side, side, strip)
		if d := math.Abs(float64(got)/float64(inch) - tc.printed); d > tc.within+1e-4 {
			t.Errorf("%s: %v in, printed %v", tc.name, float64(got)/float64(inch), tc.printed)
		}
		tube := piping.NewTube(side, side, strip, 0)
		if tube.Long() > got || got-tube.Long() >= tube.Turn {
			t.Errorf("%s: whole strips make %v, the area %v, a turn %v", tc.name, tube.Long(), got, tube.Turn)
		}
		for _, lean := range []piping.Lean{piping.ToRight, piping.ToLeft} {
			strict := longOf(piping.InRect(piping.Rect{Across: side, Along: side}, piping.Shape{Angle: piping.TrueBias, Width: strip}, lean))
			if strict > got {
				t.Errorf("%s: strips in the square are %v long, more than its area allows", tc.name, strict)
			}
		}
	}
}

func longOf(strips []piping.Strip) (sum length.Length) {
	for _, s := range strips {
		sum += s.Long
	}
	return sum
}

// Eight mats of 18 by 12 in with 2 in more for each: 496 in or 14 yd (Lewis,
// How Much Bias Binding, 2006).
func TestMats(t *testing.T) {
	j := piping.Job{Shape: piping.Shape{Cut: piping.Across, Width: 2 * inch}, Overlap: 2 * inch}
	for range 8 {
		j.Runs = append(j.Runs, piping.Run{Length: 2 * (18 + 12) * inch, Closed: true, MaxJoins: 99})
	}
	if got := j.CordLength(); got != 496*inch {
		t.Errorf("%v, want 496 in", got)
	}
	if yards, _ := length.RoundUpTo(j.CordLength(), length.Yard); yards != 14*length.Yard {
		t.Errorf("%v, want 14 yd", yards)
	}
}

// The side of the square for a length, by the area rule: 19 and 12 in when rounded
// up to the inch. Turned round, it serves a width of cloth. Common practice, no source.
func TestSquareOfHandbooks(t *testing.T) {
	for _, tc := range []struct {
		name                        string
		long, strip, printed, whole float64
	}{
		{"100 in of 3 1/2 in: common practice, no source", 100, 3.5, 18.71, 19},
		{"55 in of 2 1/2 in, printed 11.72 and so cut off: common practice, no source", 55, 2.5, 11.726, 12},
	} {
		got := piping.AreaSquare(inches(tc.long), inches(tc.strip))
		if d := math.Abs(float64(got)/float64(inch) - tc.printed); d > 0.005 {
			t.Errorf("%s: %v, printed %v", tc.name, got, tc.printed)
		}
		if up, _ := length.RoundUpTo(got, inch); up != inches(tc.whole) {
			t.Errorf("%s: %v, want %v in", tc.name, up, tc.whole)
		}
	}
	if got := piping.AreaLength(18*inch, 18*inch, 42*inch); math.Abs(float64(got)/float64(inch)-7.714) > 0.0005 {
		t.Errorf("an 18 in square of 42 in cloth: %v, want 7.714 in", got)
	}
}

// The published rule of the continuous way, n = sqrt(T/2w) rounded up and
// D = n*w*sqrt(2) + 1/2 in: 98 in of 1 in with seams of 1/4 in take 7 strips of a
// square of 10.40 in. Common practice, no source.
func TestSquareTubeOfHandbooks(t *testing.T) {
	got := piping.SquareTube(98*inch, inch, inch/4)
	if got.Strips != 7 || math.Abs(float64(got.Across)/float64(inch)-10.40) > 0.005 {
		t.Errorf("%d strips of a square of %v, want 7 of 10.40 in", got.Strips, got.Across)
	}
	// The side is rounded up to the micrometre, which seven turns show.
	if d := got.Long() - 98*inch; d < -10*length.Micrometre || d > 10*length.Micrometre {
		t.Errorf("it makes %v, want 98 in", got.Long())
	}
}

func TestLongestStripOfHandbooks(t *testing.T) {
	// 54 in cloth gives 76 in, printed without the fraction: common practice, no source.
	if got := piping.LongestStrip(54*inch, piping.TrueBias); got/inch != 76 || math.Abs(float64(got)/float64(inch)-76.37) > 0.005 {
		t.Errorf("54 in cloth: %v", got)
	}
	// One strip of 46 in wants a square of 32.53 in, the strip's own width left out.
	if got := piping.LongestStrip(inches(32.53), piping.TrueBias); math.Abs(float64(got)/float64(inch)-46) > 0.01 {
		t.Errorf("a square of 32.53 in: %v, want 46 in", got)
	}
}

// Widths: small and medium cord take 1 1/2 in, large or double cord about 2 in. The
// usual welt of upholstery is 5/32 in cord in a strip of 1 1/2 in; by its formula,
// 1.491 in. Common practice, no source.
func TestStripWidthOfHandbooks(t *testing.T) {
	welt := piping.StripWidth(inches(5.0/32), 0, inch/2, false)
	if math.Abs(float64(welt)/float64(inch)-1.491) > 0.0005 {
		t.Errorf("the usual welt: %v, want 1.491 in", welt)
	}
	if got := piping.PracticalWidth(welt, usual.Length(practice.PipingStepInch)); got != inch*3/2 {
		t.Errorf("the usual welt, as cut: %v, want 1 1/2 in", got)
	}
	double := piping.StripWidth(inches(5.0/32), length.Millimetre, inch*3/8, true)
	if got := float64(double) / float64(inch); got < 1.75 || got > 2.25 {
		t.Errorf("double cord: %v in, want about 2", got)
	}
	large := piping.StripWidth(inches(5.0/16), 0, inch/2, false)
	if got := float64(large) / float64(inch); got < 1.75 || got > 2.25 {
		t.Errorf("large cord: %v in, want about 2", got)
	}
}

// A strip of 5 cm, and 150 cm for the two ends of a bolster 23 cm across
// (Sew Fabulous): 144.5 cm of seam and what they overlap.
func TestBolster(t *testing.T) {
	end := length.Length(math.Round(math.Pi * 23 * float64(cm)))
	j := piping.Job{Shape: piping.Shape{Width: 5 * cm}, Overlap: 25 * mm,
		Runs: []piping.Run{{Length: end, Closed: true}, {Length: end, Closed: true}}}
	if got := j.CordLength(); got < 1445*mm || got > 150*cm {
		t.Errorf("%v, want from 144.5 to 150 cm", got)
	}
}

// A full bias strip takes width*sqrt(2) of the roll, and the first the slant of
// the cloth besides (derived here); figures for 137 cm cloth.
func TestFullBiasStrips(t *testing.T) {
	j := piping.Job{Shape: piping.Shape{Angle: piping.TrueBias, Width: 40 * mm, Least: 30 * cm}, JoinSeam: 6 * mm, Cloth: 137 * cm}
	for n := 1; n <= 4; n++ {
		j.Runs = append(j.Runs, piping.Run{Length: 180 * cm})
		p := piping.Solve(j)[0]
		want := 1370 + float64(n)*40*math.Sqrt2
		if len(p.Strips) != n || math.Abs(p.Cloth.MM()-want) > 0.002 {
			t.Errorf("%d strips take %v, want %d and %.3f mm", len(p.Strips), p.Cloth, n, want)
		}
		if math.Abs(p.Strips[0].Long.MM()-1370*math.Sqrt2) > 0.001 {
			t.Errorf("a strip is %v long", p.Strips[0].Long)
		}
	}
}
