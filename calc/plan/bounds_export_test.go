package plan

import (
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// modelsOf are the models of the ways in which a job can be laid.
func modelsOf(job Job) []*model {
	possible, _ := models(job)
	return possible
}

// Possible reports whether every wish of a job can be kept, and Unkept says which
// cannot, whatever else is wrong with the job.
func Possible(job Job) bool { return len(modelsOf(job)) > 0 }

func Unkept(job Job) fault.List {
	_, unkept := models(job)
	return unkeptFaults(job, unkept)
}

// BoundOf is the bound of a job before any search, why, and the plain ones:
// area or tallest panel; false for a job that cannot be cut.
func BoundOf(job Job, effort Effort) (best length.Length, by string, plain length.Length, ok bool) {
	for k, m := range modelsOf(job) {
		b := lowerBound(m, effort)
		p := m.floorLength(max(areaBound(m), tallestBound(m)))
		if l := m.floorLength(b.length); k == 0 || l < best {
			best, by = l, string(b.by)
		}
		if k == 0 || p < plain {
			plain = p
		}
		ok = true
	}
	return best, by, plain, ok
}
