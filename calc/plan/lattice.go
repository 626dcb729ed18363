package plan

import "github.com/bridletie/bridletie/calc/length"

// Integer arithmetic on repeats. A modulus of 0 stands for "does not repeat".

// upTo is the least y >= base with y within tol of target modulo m. With m = 0
// it is base.
func upTo(base, target, m, tol int64) int64 {
	if m == 0 {
		return base
	}
	if 2*tol >= m {
		return base
	}
	ahead := length.Mod(target-tol-base, m)
	if m-ahead <= 2*tol { // base lies inside the window that began before it
		return base
	}
	return base + ahead
}

// gcd of two numbers >= 0; gcd(0, b) is b.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// grid is the group of translations that map the pattern to itself, in model
// units: (i*H, j*V + i*D). H or V of 0 means that every translation across, or
// along, will do.
type grid struct{ H, V, D int64 }

// congruent reports whether (dx, dy) is a translation of the grid.
func (g grid) congruent(dx, dy int64) bool {
	i := int64(0)
	if g.H > 0 {
		if dx%g.H != 0 {
			return false
		}
		i = dx / g.H
	}
	return g.V == 0 || length.Mod(dy-i*g.D, g.V) == 0
}

// rowStep is the distance between rows of motifs, counting those of all
// columns: V divided by the denominator of the drop.
func (g grid) rowStep() int64 {
	if g.V == 0 || g.H == 0 || g.D == 0 {
		return g.V
	}
	return gcd(g.V, g.D)
}

// mirrors reports whether the grid is its own mirror image, left to right.
func (g grid) mirrors() bool { return g.V == 0 || g.H == 0 || length.Mod(2*g.D, g.V) == 0 }
