package relief

import "github.com/bridletie/bridletie/calc/panel"

// Crossing are the pairs of cuts, by their places in the list, of which a line
// of the one crosses or touches a line of the other.
func Crossing(cuts []Cut) [][2]int {
	var out [][2]int
	for i := range cuts {
		for k := i + 1; k < len(cuts); k++ {
			if cross(cuts[i].Lines, cuts[k].Lines) {
				out = append(out, [2]int{i, k})
			}
		}
	}
	return out
}

func cross(a, b [][]panel.Point) bool {
	for _, p := range a {
		for _, q := range b {
			for i := 1; i < len(p); i++ {
				for k := 1; k < len(q); k++ {
					if meet(p[i-1], p[i], q[k-1], q[k]) {
						return true
					}
				}
			}
		}
	}
	return false
}

// meet reports whether two segments have a point in common: neither lies wholly
// on one side of the other, and their boxes overlap.
func meet(a, b, c, d panel.Point) bool {
	overlap := func(p, q, r, s int64) bool { return min(p, q) <= max(r, s) && min(r, s) <= max(p, q) }
	if !overlap(int64(a.Across), int64(b.Across), int64(c.Across), int64(d.Across)) ||
		!overlap(int64(a.Along), int64(b.Along), int64(c.Along), int64(d.Along)) {
		return false
	}
	return side(a, b, c)*side(a, b, d) <= 0 && side(c, d, a)*side(c, d, b) <= 0
}

// side is on which side of the line from a to b the point p lies.
func side(a, b, p panel.Point) int {
	left := (b.Across - a.Across).MM() * (p.Along - a.Along).MM()
	right := (b.Along - a.Along).MM() * (p.Across - a.Across).MM()
	switch {
	case left > right:
		return 1
	case left < right:
		return -1
	}
	return 0
}
