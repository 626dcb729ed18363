package service

import (
	"math"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
)

// The longest strip at 45 degrees from cloth 54 in wide is 54 times the root of
// 2, 76.37 in, in a published trade figure; a strip loses its own width to the
// slanting ends.
func TestBiasStrips(t *testing.T) {
	cases := []struct {
		across, along length.Length
		strips        int64
		edge          float64 // of the slanted strip, in inches
	}{
		{54 * length.Inch, 3 * length.Metre, 25, 76.37},
		{3 * length.Metre, 54 * length.Inch, 25, 76.37},
		{20 * length.Inch, 20 * length.Inch, 0, 28.28}, // a square has only its diagonal
	}
	strip, least := practice.Defaults().Length(practice.OffcutStrip), practice.Defaults().Length(practice.PipingLeast)
	for _, c := range cases {
		n, long := biasStrips(plan.Rect{Across: c.across, Along: c.along}, strip, least)
		if n != c.strips {
			t.Errorf("biasStrips(%v × %v) = %d strips, want %d", c.across, c.along, n, c.strips)
		}
		edge := float64(long+strip) / float64(length.Inch)
		if n > 0 && math.Abs(edge-c.edge) > 0.15 || edge > c.edge+0.01 {
			t.Errorf("biasStrips(%v × %v): edge %.2f in, want %.2f or a little less", c.across, c.along, edge, c.edge)
		}
	}
	if n, _ := biasStrips(plan.Rect{Across: 10 * length.Centimetre, Along: 2 * length.Metre}, strip, least); n != 0 {
		t.Errorf("a remnant of 10 cm gives %d bias strips worth joining, want none", n)
	}
}
