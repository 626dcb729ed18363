package buttoning

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

const (
	mm   = length.Millimetre
	cm   = length.Centimetre
	inch = length.Inch
)

// What printed allowances imply (Stephenson, Cutting and Draping, 1905): the depth
// at which the arc takes as much.
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

// The depth found is the deepest whose arc the cloth covers.
func TestDepthForIsTheDeepest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := length.Length(rapid.Int64Range(int64(MinDiamond), int64(MaxDiamond)).Draw(t, "chord"))
		over := w + length.Length(rapid.Int64Range(0, int64(300*mm)).Draw(t, "more"))
		depth := DepthFor(w, over)
		if geom.Parabola(w, depth) > over || over > w && geom.Parabola(w, depth+length.Micrometre) <= over {
			t.Fatalf("DepthFor(%v, %v) = %v", w, over, depth)
		}
	})
}
