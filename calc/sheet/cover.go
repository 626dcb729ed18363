package sheet

import (
	"cmp"
	"math"
	"slices"
)

// row is a constraint on every choice of sheets: they must hold want in all, and a sheet
// of each kind holds at most so much.
type row struct {
	want  float64
	holds []float64
}

// rows holds the strongest constraints for one set of costs.
type rows struct {
	costs []int64
	list  []scored
}

// scored is a row with the least cost that it alone forces.
type scored struct {
	row
	least float64
}

// mostRows is the limit on the rows kept.
const mostRows = 24

// Tolerances for floating-point sums. A row counts as met if it is short by at most a
// millionth of a sheet, and a cost is rounded down by a thousand-millionth. Both are far
// larger than the rounding error.
const (
	shortBy   = 1e-6
	roundedBy = 1e-9
)

func newRows(costs []int64) *rows { return &rows{costs: costs} }

// add adds a copy of a row, if it is one of the best.
func (r *rows) add(n row) {
	least := math.Inf(1)
	for k, h := range n.holds {
		if h > 0 {
			least = min(least, float64((n.want-shortBy)/h*float64(r.costs[k])))
		}
	}
	if n.want <= shortBy || math.IsInf(least, 1) {
		return
	}
	if len(r.costs) == 1 { // one kind: whole sheets of it
		least = math.Ceil((n.want - shortBy) / n.holds[0])
	}
	most := mostRows
	if len(r.costs) == 1 {
		most = 1
	}
	if len(r.list) == most && least <= r.list[most-1].least {
		return
	}
	at, _ := slices.BinarySearchFunc(r.list, least, func(s scored, v float64) int { return cmp.Compare(v, s.least) })
	for _, s := range r.list[at:] {
		if s.least != least {
			break
		}
		if s.want == n.want && slices.Equal(s.holds, n.holds) {
			return // there already
		}
	}
	r.list = slices.Insert(r.list[:min(len(r.list), most-1)], at, scored{row{n.want, slices.Clone(n.holds)}, least})
}

// mostMixtures is the limit on the mixtures of kinds examined.
const mostMixtures = 3000

// cover returns a lower bound on the cost of sheets that meet all rows: the cheapest
// mixture or, when there are too many to examine, the bound of the best row alone.
func (r *rows) cover() int64 {
	if len(r.list) == 0 {
		return 0
	}
	if len(r.costs) == 1 {
		return int64(r.list[0].least) * r.costs[0]
	}
	m := mixer{rows: r, left: mostMixtures, best: math.MaxInt64}
	m.after = make([][]float64, len(r.list))
	want := make([]float64, len(r.list))
	for i, s := range r.list {
		want[i] = s.want
		m.after[i] = make([]float64, len(r.costs)+1)
		m.after[i][len(r.costs)] = math.Inf(1)
		for k := len(r.costs) - 1; k >= 0; k-- {
			m.after[i][k] = m.after[i][k+1]
			if s.holds[k] > 0 {
				m.after[i][k] = min(m.after[i][k], float64(r.costs[k])/s.holds[k])
			}
		}
	}
	m.mix(0, 0, want)
	if m.left <= 0 {
		return roundedUp(r.list[0].least)
	}
	return m.best
}

// roundedUp returns the least integer cost that is no less, within the tolerance.
func roundedUp(cost float64) int64 { return int64(math.Ceil(cost - float64(cost*roundedBy) - shortBy)) }

// mixer searches for the cheapest mixture of kinds that meets all rows.
type mixer struct {
	*rows
	after [][]float64 // by row and kind: the least cost of what is held, of this kind and those behind it
	left  int         // mixtures that may still be looked at
	best  int64
}

// mix adds sheets of kind k and later ones to a mixture of that cost. want is what remains
// of each row.
func (m *mixer) mix(k int, cost int64, want []float64) {
	if m.left--; m.left <= 0 {
		return
	}
	rest := 0.0
	for i, w := range want {
		if w > shortBy {
			rest = max(rest, float64((w-shortBy)*m.after[i][k]))
		}
	}
	if rest == 0 && !slices.ContainsFunc(want, func(w float64) bool { return w > shortBy }) {
		m.best = min(m.best, cost)
		return
	}
	if k == len(m.costs) || math.IsInf(rest, 1) || m.best < math.MaxInt64 && cost+roundedUp(rest) >= m.best {
		return
	}
	left := slices.Clone(want)
	for n := int64(0); m.left > 0; n++ {
		m.mix(k+1, cost+n*m.costs[k], left)
		helps := false
		for i := range left {
			if h := m.list[i].holds[k]; h > 0 && left[i] > shortBy {
				left[i] -= h
				helps = true
			}
		}
		if !helps || m.best < math.MaxInt64 && cost+(n+1)*m.costs[k] >= m.best {
			return
		}
	}
}
