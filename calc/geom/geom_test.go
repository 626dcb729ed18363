package geom_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// someplace draws places of a workroom, of a small lattice, where lines often meet
// at a point, and of the ends of what Side takes.
func someplace(t *rapid.T, far int64) geom.Point {
	one := func() length.Length { return length.Length(rapid.Int64Range(-far, far).Draw(t, "at")) }
	return geom.Point{Across: one(), Along: one()}
}

// side is Side in big integers.
func side(a, b, p geom.Point) int {
	sub := func(a, b length.Length) *big.Int { return new(big.Int).Sub(big.NewInt(int64(a)), big.NewInt(int64(b))) }
	left := new(big.Int).Mul(sub(b.Across, a.Across), sub(p.Along, a.Along))
	return left.Cmp(new(big.Int).Mul(sub(b.Along, a.Along), sub(p.Across, a.Across)))
}

func TestSideIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		far := rapid.SampledFrom([]int64{3, int64(length.Metre), 4e18}).Draw(t, "far")
		a, b, p := someplace(t, far), someplace(t, far), someplace(t, far)
		if rapid.Bool().Draw(t, "on the line, or a nanometre beside it") {
			p = geom.Point{Across: a.Across + (b.Across-a.Across)/2, Along: a.Along + (b.Along-a.Along)/2}
		}
		if got, want := geom.Side(a, b, p), side(a, b, p); got != want {
			t.Fatalf("Side(%v, %v, %v) = %d, want %d", a, b, p, got, want)
		}
	})
}

// TestMeet tries every point that two segments of a small lattice can share: the
// crossing of their lines as a fraction, or an end that lies on the other.
func TestMeet(t *testing.T) {
	on := func(a, b, p geom.Point) bool {
		return side(a, b, p) == 0 && min(a.Across, b.Across) <= p.Across && p.Across <= max(a.Across, b.Across) &&
			min(a.Along, b.Along) <= p.Along && p.Along <= max(a.Along, b.Along)
	}
	share := func(a, b, c, d geom.Point) bool {
		if on(a, b, c) || on(a, b, d) || on(c, d, a) || on(c, d, b) {
			return true
		}
		// Else they can only cross, at a + s(b - a) = c + u(d - c) with 0 < s, u < 1.
		bx, by, dx, dy := int64(b.Across-a.Across), int64(b.Along-a.Along), int64(d.Across-c.Across), int64(d.Along-c.Along)
		cx, cy := int64(c.Across-a.Across), int64(c.Along-a.Along)
		det := bx*dy - by*dx
		if det == 0 {
			return false
		}
		s, u := cx*dy-cy*dx, cx*by-cy*bx
		if det < 0 {
			det, s, u = -det, -s, -u
		}
		return 0 < s && s < det && 0 < u && u < det
	}
	met := 0
	rapid.Check(t, func(t *rapid.T) {
		far := rapid.SampledFrom([]int64{2, 5, 1e9}).Draw(t, "far")
		a, b, c, d := someplace(t, far), someplace(t, far), someplace(t, far), someplace(t, far)
		got := geom.Meet(a, b, c, d)
		if want := share(a, b, c, d); got != want {
			t.Fatalf("Meet(%v, %v, %v, %v) = %v", a, b, c, d, got)
		}
		if got != geom.Meet(c, d, a, b) || got != geom.Meet(b, a, c, d) {
			t.Fatalf("Meet(%v, %v, %v, %v) hangs on the order", a, b, c, d)
		}
		if got {
			met++
		}
	})
	if met == 0 {
		t.Error("no two segments met")
	}
}
