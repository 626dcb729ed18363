package geom

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
)

// Parabola returns the length of a parabola over a chord with a rise in its
// middle, rounded up to the micrometre. Without a rise it is the chord itself.
func Parabola(chord, rise length.Length) length.Length {
	if rise <= 0 {
		return chord
	}
	return length.RoundMM(ParabolaMM(chord.MM(), rise.MM()), length.Micrometre, length.Up)
}

// ParabolaMM returns the length of a parabola over a chord w with the rise h in
// its middle, in the unit of both:
//
//	L = 2 ∫₀^(w/2) √(1 + (8hx/w²)²) dx = ½√(w² + 16h²) + (w²/8h)·asinh(4h/w)
//
// It is w for h = 0, and 2h for w = 0; neither is negative. The formula is the
// rectification of the parabola, as any handbook of mathematics has it. Its last
// term is 0/0 for no rise; as asinh t = t·R_C(1 + t², 1) with Carlson's integral
// R_C (NIST Digital Library of Mathematical Functions, 19.2 and 19.6), it is
// worked out as ½w²·R_C(w² + 16h², w²), which is right for every rise.
func ParabolaMM(w, h float64) float64 {
	if w <= 0 {
		return 2 * h
	}
	square := float64(w * w)
	deep := square + float64(16*h*h)
	return (math.Sqrt(deep) + float64(square*carlsonRC(deep, square))) / 2
}

// carlsonRC is Carlson's degenerate elliptic integral R_C(x, y) for x ≥ 0 and
// y > 0, by his duplication (Carlson, Computing elliptic integrals by duplication,
// 1979): each step brings both arguments four times nearer to each other, until a
// series of a few terms is right to the last bits of a float64.
func carlsonRC(x, y float64) float64 {
	const near = 1e-3 // the terms left out are below its sixth power
	for {
		mean := (x + 2*y) / 3
		s := (y - mean) / mean
		if !(math.Abs(s) >= near) { // what is no number ends here too
			series := 9.0 / 22
			for _, c := range [...]float64{3.0 / 8, 1.0 / 7, 3.0 / 10} {
				series = c + float64(s*series)
			}
			return (1 + float64(float64(s*s)*series)) / math.Sqrt(mean)
		}
		step := float64(2*math.Sqrt(x)*math.Sqrt(y)) + y
		x, y = (x+step)/4, (y+step)/4
	}
}

// CircleArc returns radius·angle·π/180, the arc of a circle over an angle in
// degrees, to the nearest micrometre.
func CircleArc(radius length.Length, degrees int) length.Length {
	return length.RoundMM(radius.MM()*float64(degrees)*math.Pi/180, length.Micrometre, length.Nearest)
}
