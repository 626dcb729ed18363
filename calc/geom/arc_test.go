package geom_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

const (
	mm = length.Millimetre
	cm = length.Centimetre
)

// integrated is the parabola by Gauss-Legendre on 64 panels, finer where it turns:
// nothing of the closed form is in it.
func integrated(w, h float64) float64 {
	slope := func(u float64) float64 { // x = w/2 · u³, dx = 3/2 w u² du
		x := w / 2 * u * u * u
		return math.Hypot(1, 8*h*x/(w*w)) * 1.5 * w * u * u
	}
	sum, parts := 0.0, 64
	for i := range parts {
		step := 1 / float64(parts)
		sum += quad.Fixed(slope, float64(i)*step, float64(i+1)*step, 12, quad.Legendre{}, 0)
	}
	return 2 * sum
}

func TestParabolaAgainstIntegration(t *testing.T) {
	for _, w := range []float64{1, 20, 76.2, 100, 150, 2000} {
		for _, r := range []float64{0, 1e-9, 1e-6, 1e-4, 1e-3, 0.01, 0.1, 0.25, 0.4, 0.5, 1, 3, 10} {
			got, want := geom.ParabolaMM(w, w*r), integrated(w, w*r)
			if math.Abs(got-want) > 1e-14*want {
				t.Errorf("ParabolaMM(%v, %v) = %.17g, integration gives %.17g", w, w*r, got, want)
			}
		}
	}
}

// The closed form, with the inverse hyperbolic sine of the standard library, over
// the whole range of chords and rises, from a hair to far deeper than wide.
func TestParabolaAgainstClosedForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := math.Exp(rapid.Float64Range(-10, 10).Draw(t, "log w"))
		r := math.Exp(rapid.Float64Range(-5, 10).Draw(t, "log r"))
		want := w * (math.Sqrt(1+16*r*r)/2 + math.Asinh(4*r)/(8*r))
		if got := geom.ParabolaMM(w, w*r); math.Abs(got-want) > 2e-15*want {
			t.Fatalf("ParabolaMM(%v, %v) = %.17g, the closed form gives %.17g", w, w*r, got, want)
		}
	})
}

// Published constants: the universal parabolic constant (On-Line Encyclopedia of
// Integer Sequences, A103710) and a sixth of it, and the parabola y = x² from 0 to
// 1, the textbooks' usual example (from memory).
func TestParabolaPublishedConstants(t *testing.T) {
	for _, tc := range []struct {
		name              string
		got, want, within float64
	}{
		{"half the arc over its latus rectum", geom.ParabolaMM(4, 1) / 2, 2.295587149392638, 1e-15},
		{"a sixth of it", geom.ParabolaMM(4, 1) / 12, 0.382597858232106, 1e-15},
		{"y = x² from -1 to 1, halved", geom.ParabolaMM(2, 1) / 2, 1.47894285754, 1e-11},
	} {
		if math.Abs(tc.got-tc.want) > tc.within {
			t.Errorf("%s = %.17g, want %.17g", tc.name, tc.got, tc.want)
		}
	}
}

// Figures worked out to 20 digits with another program. The columns beside the
// parabola bracket it: straight to the middle and back below it, catenary and
// circle above.
func TestParabolaTable(t *testing.T) {
	for _, tc := range []struct{ w, h, parabola, circle, catenary, vee float64 }{
		{100, 5, 100.6627227, 100.665339, 100.6635846, 100.498756},
		{100, 10, 102.606063, 102.6456911, 102.6186868, 101.98039},
		{100, 20, 109.8230084, 110.3468494, 109.9718209, 107.703296},
		{100, 25, 114.7793575, 115.9119023, 115.0791114, 111.803399},
		{100, 30, 120.4347107, 122.4950867, 120.9410174, 116.619038},
		{100, 40, 133.3705403, 138.3218932, 134.4189005, 128.062485},
		{100, 50, 147.8942858, 157.0796327, 149.5833699, 141.421356},
		{120, 40, 149.4375530, 152.8806769, 150.2423574, 144.222051},
		{7, 2, 8.312864922, 8.436124357, 8.343808869, 8.06225775},
	} {
		got := geom.ParabolaMM(tc.w, tc.h)
		if math.Abs(got-tc.parabola) > 1e-7 {
			t.Errorf("over %v by %v: %.10g, want %.10g", tc.w, tc.h, got, tc.parabola)
		}
		if vee := 2 * geom.Hypot(tc.w/2, tc.h); math.Abs(vee-tc.vee) > 1e-5 {
			t.Errorf("over %v by %v: straight down and up is %.10g, want %.10g", tc.w, tc.h, vee, tc.vee)
		}
		if !(tc.w < tc.vee && tc.vee < got && got < tc.catenary && tc.catenary < tc.circle && tc.circle < tc.w+2*tc.h) {
			t.Errorf("over %v by %v: %v is not between its neighbours", tc.w, tc.h, got)
		}
	}
	// The usual short cut w + 8h²/3w is refused for deep wells: at half the chord
	// it is 12.7 % too long.
	if short := 100 + 8*50*50.0/300; math.Abs(short/geom.ParabolaMM(100, 50)-1.127) > 5e-4 {
		t.Errorf("the short cut is %v of the arc", short/geom.ParabolaMM(100, 50))
	}
}

// The ends: no rise, hardly any, far more rise than chord, no chord, no number.
func TestParabolaLimits(t *testing.T) {
	for _, w := range []float64{1, 100, 2000} {
		if got := geom.ParabolaMM(w, 0); got != w {
			t.Errorf("without a rise the arc over %v is %v", w, got)
		}
		if got := geom.ParabolaMM(w, 1e-9); math.Abs(got-w) > 1e-12 {
			t.Errorf("with hardly any rise the arc over %v is %v", w, got)
		}
		if got := geom.ParabolaMM(w, 1000*w); math.Abs(got/(2000*w)-1) > 2e-6 {
			t.Errorf("a very deep arc is %v, want about twice the rise", got)
		}
	}
	if geom.ParabolaMM(0, 5) != 10 || geom.Parabola(5*cm, 0) != 5*cm || geom.Parabola(0, 5*mm) != cm {
		t.Error("no chord, or no rise")
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), 1e200} {
		geom.ParabolaMM(bad, 1)
		geom.ParabolaMM(1, bad) // it ends, whatever it returns
	}
}

// A parabola is rounded up to the micrometre, so that the cloth is enough; it lies
// between straight down and up and the chord with twice the rise, and deeper or
// wider never takes less.
func TestParabolaIsEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := length.Length(rapid.Int64Range(int64(mm), int64(10*length.Metre)).Draw(t, "chord"))
		h := length.Length(rapid.Int64Range(1, int64(length.Metre)).Draw(t, "rise"))
		got, exact := geom.Parabola(w, h), geom.ParabolaMM(w.MM(), h.MM())
		if got.MM() < exact-1.1e-7 || got.MM() > exact+1e-3 || got%length.Micrometre != 0 {
			t.Fatalf("Parabola(%v, %v) = %v, the arc is %v mm", w, h, got, exact)
		}
		if vee := 2 * geom.Hypot(w.MM()/2, h.MM()); got < w || got.MM() < vee-1.1e-7 || got > w+2*h+length.Micrometre {
			t.Fatalf("Parabola(%v, %v) = %v is not between its bounds", w, h, got)
		}
		more := length.Length(rapid.Int64Range(0, int64(100*mm)).Draw(t, "more"))
		if geom.Parabola(w, h+more) < got || geom.Parabola(w+more, h) < got {
			t.Fatalf("Parabola(%v, %v) shrinks by %v more", w, h, more)
		}
	})
}

// A whole turn is the circumference, and 57 degrees hardly less than the radius;
// halves go away from zero.
func TestCircleArc(t *testing.T) {
	for _, tc := range []struct {
		radius  length.Length
		degrees int
		want    length.Length
	}{
		{length.Metre, 360, 6_283_185 * length.Micrometre}, // 2π, 6.283185307 (from memory)
		{100 * mm, 90, 157_080 * length.Micrometre},
		{100 * mm, 57, 99_484 * length.Micrometre},
		{100 * mm, 0, 0},
		{-100 * mm, 90, -157_080 * length.Micrometre},
	} {
		if got := geom.CircleArc(tc.radius, tc.degrees); got != tc.want {
			t.Errorf("CircleArc(%v, %d) = %v, want %v", tc.radius, tc.degrees, got, tc.want)
		}
	}
}

func BenchmarkParabola(b *testing.B) {
	for b.Loop() {
		geom.Parabola(130*mm, 30*mm)
	}
}
