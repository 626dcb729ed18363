package buttoning

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/length"
)

const (
	mm   = length.Millimetre
	cm   = length.Centimetre
	inch = length.Inch
)

// integrated is the arc by Gauss-Legendre on 64 panels: nothing of the closed
// form is in it.
func integrated(w, h float64) float64 {
	slope := func(x float64) float64 { return math.Hypot(1, 8*h*x/(w*w)) }
	sum, parts := 0.0, 64
	for i := range parts {
		step := w / 2 / float64(parts)
		sum += quad.Fixed(slope, float64(i)*step, float64(i+1)*step, 12, quad.Legendre{}, 0)
	}
	return 2 * sum
}

func TestArcAgainstIntegration(t *testing.T) {
	for _, w := range []float64{1, 20, 76.2, 100, 150, 2000} {
		for _, r := range []float64{0, 1e-9, 1e-6, 9.99e-4, 1e-3, 1.001e-3, 0.01, 0.1, 0.25, 0.4, 0.5, 1, 3, 10} {
			got, want := ArcMM(w, w*r), integrated(w, w*r)
			if math.Abs(got-want) > 1e-9*want {
				t.Errorf("ArcMM(%v, %v) = %.15g, integration gives %.15g", w, w*r, got, want)
			}
		}
	}
}

// Published constants: the universal parabolic constant and a sixth of it (OEIS
// A103710), the parabola y = x² from 0 to 1 (the standard textbook arc), the
// inverse hyperbolic sines of Abramowitz and Stegun (from memory).
func TestArcPublishedConstants(t *testing.T) {
	near := func(name string, got, want, within float64) {
		t.Helper()
		if math.Abs(got-want) > within {
			t.Errorf("%s = %.15g, want %.15g", name, got, want)
		}
	}
	near("half the arc over its latus rectum", ArcMM(4, 1)/2, 2.295587149392638, 1e-14)
	near("a sixth of it", ArcMM(4, 1)/12, 0.382597858232106, 1e-15)
	near("y = x² from -1 to 1, halved", ArcMM(2, 1)/2, 1.47894285754, 1e-11)
	near("asinh 1", math.Asinh(1), 0.881373587020, 1e-12)
	near("asinh 2", math.Asinh(2), 1.44363547518, 1e-11)
}

// The parabolas were worked out to 20 digits with another program. The columns
// beside them bracket them: straight to the well and up again below, circle and
// catenary above.
func TestArcTable(t *testing.T) {
	for _, tc := range []struct {
		name                                  string
		w, h, parabola, circle, catenary, vee float64
	}{
		{"100 over 5", 100, 5, 100.6627227, 100.665339, 100.6635846, 100.498756},
		{"100 over 10", 100, 10, 102.606063, 102.6456911, 102.6186868, 101.98039},
		{"100 over 20", 100, 20, 109.8230084, 110.3468494, 109.9718209, 107.703296},
		{"100 over 25", 100, 25, 114.7793575, 115.9119023, 115.0791114, 111.803399},
		{"100 over 30", 100, 30, 120.4347107, 122.4950867, 120.9410174, 116.619038},
		{"100 over 40", 100, 40, 133.3705403, 138.3218932, 134.4189005, 128.062485},
		{"100 over 50", 100, 50, 147.8942858, 157.0796327, 149.5833699, 141.421356},
		{"120 over 40", 120, 40, 149.4375530, 152.8806769, 150.2423574, 144.222051},
		{"7 over 2", 7, 2, 8.312864922, 8.436124357, 8.343808869, 8.06225775},
	} {
		got := ArcMM(tc.w, tc.h)
		if math.Abs(got-tc.parabola) > 1e-7 {
			t.Errorf("%s: %.10g, want %.10g", tc.name, got, tc.parabola)
		}
		r := (tc.w*tc.w/4 + tc.h*tc.h) / (2 * tc.h)
		if circle := 2 * r * math.Asin(min(1, tc.w/(2*r))); math.Abs(circle-tc.circle) > 1e-6 {
			t.Errorf("%s: the circle is %.10g, want %.10g", tc.name, circle, tc.circle)
		}
		if vee := 2 * math.Hypot(tc.w/2, tc.h); math.Abs(vee-tc.vee) > 1e-5 {
			t.Errorf("%s: straight down and up is %.10g, want %.10g", tc.name, vee, tc.vee)
		}
		if !(tc.w < tc.vee && tc.vee < got && got < tc.catenary && tc.catenary < tc.circle && tc.circle < tc.w+2*tc.h) {
			t.Errorf("%s: the arc is not between its bounds", tc.name)
		}
	}
	if got := 2 * math.Sinh(1); math.Abs(got-2.35040238729) > 1e-11 {
		t.Errorf("the catenary of half-width 1: %v", got)
	}
	if got := ArcMM(2, 1); got >= math.Pi || got < 2*math.Sqrt2 {
		t.Errorf("a parabola in a semicircle takes %v, its half circle π", got)
	}
	// The usual short cut w + 8h²/3w is refused for deep wells: at half the
	// chord it is 12.7 % too long. Huygens' rule for the circle, which lies
	// between parabola and circle there.
	if short := 100 + 8*50*50.0/300; math.Abs(short/ArcMM(100, 50)-1.127) > 5e-4 {
		t.Errorf("the short cut: %v times the arc", short/ArcMM(100, 50))
	}
	if huygens := (8*math.Hypot(50, 50) - 100) / 3; math.Abs(huygens-155.2285) > 1e-4 {
		t.Errorf("Huygens' rule: %v", huygens)
	}
}

// The limits: no rise, hardly any, and far more rise than chord.
func TestArcLimits(t *testing.T) {
	for _, w := range []float64{1, 100, 2000} {
		if got := ArcMM(w, 0); got != w {
			t.Errorf("without a rise the arc over %v is %v", w, got)
		}
		if got := ArcMM(w, 1e-9); math.Abs(got-w) > 1e-12 {
			t.Errorf("with hardly any rise the arc over %v is %v", w, got)
		}
		below, above := ArcMM(w, w*math.Nextafter(shallow, 0)), ArcMM(w, w*math.Nextafter(shallow, 1))
		if math.Abs(above-below) > 1e-13*w {
			t.Errorf("series and closed form differ by %v at the border", above-below)
		}
		if got := ArcMM(w, 1000*w); math.Abs(got/(2000*w)-1) > 2e-6 {
			t.Errorf("a very deep arc is %v, want about twice the rise", got)
		}
	}
	if ArcMM(0, 5) != 10 || Arc(5*cm, 0) != 5*cm {
		t.Error("no chord, or no rise")
	}
}

// What printed allowances imply (J. W. Stephenson, Cutting and Draping,
// 1905; the intervals of 7 and 5½ in: common practice, no source): the depth at which the arc takes as much.
func TestDepthForPrintedAllowances(t *testing.T) {
	for _, tc := range []struct {
		name               string
		chord, over, depth float64 // inches
	}{
		{"3 in with 1½ in more", 3, 4.5, 1.542},
		{"7 to 9", 7, 9, 2.552},
		{"5½ to 7¼", 5.5, 7.25, 2.138},
		{"7 to 8½", 7, 8.5, 2.158},
		{"5 to 6½", 5, 6.5, 1.876},
	} {
		got := DepthFor(length.Length(tc.chord*float64(inch)), length.Length(tc.over*float64(inch)))
		if math.Abs(got.MM()/25.4-tc.depth) > 5.1e-4 {
			t.Errorf("%s: %v in, want %v", tc.name, got.MM()/25.4, tc.depth)
		}
	}
	if DepthFor(10*cm, 10*cm) != 0 || DepthFor(10*cm, 9*cm) != 0 {
		t.Error("cloth that is not longer than the chord implies a depth")
	}
}

// Any arc lies between straight down and up, and the chord with twice the
// depth; deeper or wider never takes less.
func TestArcBetweenItsBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := length.Length(rapid.Int64Range(int64(MinDiamond), int64(MaxDiamond)).Draw(t, "chord"))
		d := length.Length(rapid.Int64Range(int64(mm), int64(300*mm)).Draw(t, "depth"))
		got := Arc(w, d)
		if vee := 2 * math.Hypot(w.MM()/2, d.MM()); got.MM() < vee-1e-3 || got > w+2*d+length.Micrometre {
			t.Errorf("Arc(%v, %v) = %v", w, d, got)
		}
		more := length.Length(rapid.Int64Range(0, int64(100*mm)).Draw(t, "more"))
		if Arc(w, d+more) < got || Arc(w+more, d) < got {
			t.Errorf("Arc(%v, %v) shrinks by %v more", w, d, more)
		}
		if depth := DepthFor(w, got); (depth-d).MM() > 0.5 && Arc(w, depth) != got || Arc(w, depth) > got {
			t.Errorf("DepthFor(%v, %v) = %v, of %v", w, got, depth, d)
		}
	})
}
