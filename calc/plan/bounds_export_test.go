package plan

import "github.com/bridletie/bridletie/calc/length"

// modelsOf are the models of the ways in which a job can be laid.
func modelsOf(job Job) []*model {
	possible, _ := models(job)
	return possible
}

// BoundOf is the bound of a job before any search, why, and the plain ones:
// area or tallest panel; false for a job that cannot be cut.
func BoundOf(job Job, effort Effort) (best length.Length, by string, plain length.Length, ok bool) {
	for k, m := range modelsOf(job) {
		b := lowerBound(m, effort)
		p := m.floorLength(max(areaBound(m), tallestBound(m)))
		if l := m.floorLength(b.length); k == 0 || l < best {
			best, by = l, b.by
		}
		if k == 0 || p < plain {
			plain = p
		}
		ok = true
	}
	return best, by, plain, ok
}
