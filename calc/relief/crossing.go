package relief

import "github.com/bridletie/bridletie/calc/geom"

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

func cross(a, b [][]geom.Point) bool {
	for _, p := range a {
		for _, q := range b {
			for i := 1; i < len(p); i++ {
				for k := 1; k < len(q); k++ {
					if geom.Meet(p[i-1], p[i], q[k-1], q[k]) {
						return true
					}
				}
			}
		}
	}
	return false
}
