package plan

// Integer arithmetic on repeats. A modulus of 0 stands for "does not repeat".

// mod is a modulo m in [0, m), for m > 0 and any a.
func mod(a, m int64) int64 {
	r := a % m
	if r < 0 {
		r += m
	}
	return r
}

// upTo is the least y >= base with y within tol of target modulo m. With m = 0
// it is base.
func upTo(base, target, m, tol int64) int64 {
	if m == 0 {
		return base
	}
	if 2*tol >= m {
		return base
	}
	ahead := mod(target-tol-base, m)
	if m-ahead <= 2*tol { // base lies inside the window that began before it
		return base
	}
	return base + ahead
}

// floorDiv is a/b rounded towards minus infinity, for b > 0.
func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// ceilDiv is a/b rounded towards plus infinity, for b > 0.
func ceilDiv(a, b int64) int64 { return -floorDiv(-a, b) }

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
	return g.V == 0 || mod(dy-i*g.D, g.V) == 0
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
func (g grid) mirrors() bool { return g.V == 0 || g.H == 0 || mod(2*g.D, g.V) == 0 }
