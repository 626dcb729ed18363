package buttoning

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// A line is 1/40 in. A printed list of sizes agrees at all but 40, 45 and 80
// lines, where it is rounded; the watchmaker's line is another.
func TestLines(t *testing.T) {
	for _, tc := range []struct {
		lines int
		mm    float64
	}{
		{14, 8.89}, {16, 10.16}, {18, 11.43}, {20, 12.70}, {22, 13.97}, {24, 15.24}, {28, 17.78}, {30, 19.05},
		{32, 20.32}, {36, 22.86}, {40, 25.40}, {45, 28.575}, {50, 31.75}, {60, 38.10}, {80, 50.80},
	} {
		if got := (Button{Lines: tc.lines}).Diameter().MM(); got != tc.mm {
			t.Errorf("%d lines are %v mm, want %v", tc.lines, got, tc.mm)
		}
	}
}

// Common practice, no source: sizes are before covering; the circle
// is twice to two and a half times the mould.
func TestCircle(t *testing.T) {
	for lines := 12; lines <= 100; lines++ {
		for _, cloth := range []length.Length{0, mm / 2, mm, 2 * mm} {
			b := Button{lines, cloth}
			if c, d := b.Circle(practice.Defaults()), b.Diameter(); c < 2*d || c%mm != 0 || b.TooThick(practice.Defaults()) != (c.MM() > 2.5*d.MM()) || b.Covered() != d+2*cloth {
				t.Errorf("%+v: circle %v of %v, too thick %v", b, c, d, b.TooThick(practice.Defaults()))
			}
		}
	}
}

// Rows of a hexagonal packing stand √3/2 apart: 1, 1.866, 2.732, 3.598,
// 4.464 diameters for one to five rows.
func TestHexagonalRows(t *testing.T) {
	c := 40 * mm
	for n, want := range []float64{1, 1.8660254, 2.7320508, 3.5980762, 4.4641016} {
		height := length.Length(math.Ceil(want*40e3)) * length.Micrometre
		if got := nestRows(sized(400*mm, height+4*length.Micrometre), c, false); got.Rows != n+1 {
			t.Errorf("%v high holds %d rows, want %d", height, got.Rows, n+1)
		}
		if got := nestRows(sized(400*mm, height-4*length.Micrometre), c, false); got.Rows != n {
			t.Errorf("a little less than %v high holds %d rows, want %d", height, got.Rows, n)
		}
	}
}

// Published best packings of unit circles in a square, as the tables of circle
// packing give them to 4 figures: no nest holds more, and 1, 4, 9, 16 are reached.
func TestNestAgainstBestPackings(t *testing.T) {
	sides := map[int]float64{1: 2, 2: 3.414, 3: 3.931, 4: 4, 5: 4.828, 6: 5.328, 7: 5.732, 8: 5.863, 9: 6, 10: 6.747, 12: 7.144, 16: 8, 20: 8.978}
	c := 20 * mm
	for n, side := range sides {
		less := length.Length((side - 0.002) * 10 * float64(mm))
		if got := NestIn(sized(less, less), c); got.Count >= n {
			t.Errorf("a square of %v holds %d, and the best is fewer than %d", less, got.Count, n)
		}
		if side == math.Trunc(side) && n < 20 {
			whole := length.Length(side * 10 * float64(mm))
			if got := NestIn(sized(whole, whole), c); got.Count != n {
				t.Errorf("a square of %v holds %d, want %d", whole, got.Count, n)
			}
		}
	}
}

// centres are those of a nest's circles.
func centres(n Nest, c length.Length) [][2]float64 {
	var out [][2]float64
	for r := range n.Rows {
		count, x := n.Odd, c/2
		if r%2 == 1 {
			count = n.Even
			if !n.Square {
				x += c/2 + c%2
			}
		}
		for i := range count {
			out = append(out, [2]float64{(x + length.Length(i)*c).MM(), (c/2 + n.Pitch*length.Length(r)).MM()})
		}
	}
	return out
}

// Nested circles lie inside their piece and do not overlap, looked at one by
// one; a strip holds what it must and not a row more.
func TestNestedCirclesAreApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := length.Length(rapid.Int64Range(int64(20*mm), int64(60*mm)).Draw(t, "circle"))
		piece := sized(length.Length(rapid.Int64Range(int64(10*mm), int64(40*cm)).Draw(t, "across")), length.Length(rapid.Int64Range(int64(10*mm), int64(40*cm)).Draw(t, "along")))
		n := NestIn(piece, c)
		w, h := piece.Across.MM(), piece.Along.MM()
		if n.Turned {
			w, h = h, w
		}
		apart(t, centres(n, c), n.Count, c, w, h)
		count := rapid.IntRange(1, 60).Draw(t, "count")
		s, ok := StripFor(count, c, 40*cm)
		if !ok || s.Count < count || s.Rows > 1 && s.Count-min(s.Odd, s.Even) >= count+max(s.Odd, s.Even) {
			t.Fatalf("%+v for %d", s, count)
		}
		apart(t, centres(s, c), s.Count, c, 400, s.Piece.Along.MM())
	})
}

func apart(t *rapid.T, at [][2]float64, count int, c length.Length, w, h float64) {
	t.Helper()
	if len(at) != count {
		t.Fatalf("%d centres, %d circles", len(at), count)
	}
	r := c.MM() / 2
	for i, p := range at {
		if p[0] < r-1e-6 || p[1] < r-1e-6 || p[0] > w-r+1e-6 || p[1] > h-r+1e-6 {
			t.Errorf("circle %d of %v at %v is off the piece of %v × %v", i, c, p, w, h)
		}
		for _, q := range at[:i] {
			if math.Hypot(p[0]-q[0], p[1]-q[1]) < c.MM()-1e-6 {
				t.Errorf("circles of %v at %v and %v overlap", c, p, q)
			}
		}
	}
}

// Motif-centred circles on the trellis: five motifs across 140 cm, one row a
// repeat; on the half-drop the rows lie half a repeat apart, and on a narrow
// lattice every second column is passed over.
func TestCentredCircles(t *testing.T) {
	p := cloth.Pattern{LengthRepeat: 32 * cm, WidthRepeat: 28 * cm, Motifs: []cloth.Motif{{Name: "crossing", Across: 14 * cm}}}
	for _, tc := range []struct {
		count, across int
		p             func(cloth.Pattern) cloth.Pattern
		want          length.Length
		overlap       bool
	}{
		{5, 5, func(p cloth.Pattern) cloth.Pattern { return p }, 4 * cm, false},
		{6, 5, func(p cloth.Pattern) cloth.Pattern { return p }, 36 * cm, false},
		{11, 5, func(p cloth.Pattern) cloth.Pattern { return p }, 68 * cm, false},
		{3, 5, func(p cloth.Pattern) cloth.Pattern { p.Drop = cloth.Half(); return p }, 4 * cm, false},
		{5, 5, func(p cloth.Pattern) cloth.Pattern { p.Drop = cloth.Half(); return p }, 20 * cm, false},
		{8, 5, func(p cloth.Pattern) cloth.Pattern { p.Drop = cloth.Half(); return p }, 36 * cm, false},
		{23, 23, func(p cloth.Pattern) cloth.Pattern { p.WidthRepeat = 3 * cm; return p }, 4 * cm, true},
	} {
		got, ok := CentredFor(tc.count, 0, 4*cm, 140*cm, tc.p(p))
		if !ok || got.Length != tc.want || got.Across != tc.across || got.Overlap != tc.overlap {
			t.Errorf("%d: %+v, want %v of %d", tc.count, got, tc.want, tc.across)
		}
	}
	if _, ok := CentredFor(3, 0, 30*cm, 20*cm, p); ok {
		t.Error("a circle wider than the cloth")
	}
	if _, ok := CentredFor(3, 0, 3*cm, 20*cm, cloth.Pattern{WidthRepeat: 5 * cm}); ok {
		t.Error("a stripe has no middle along")
	}
}

// A printed yardstick: about 60 cm of twine to a button (common practice, no
// source).
func TestTwine(t *testing.T) {
	if got := Twine(4*cm, practice.Defaults()); got != 58*cm {
		t.Error(got)
	}
}
