package plan

// covering is the linear program that minimises the sum of the columns used, subject to
// covering each row as often as demanded. Columns are generated one by one. It is a
// revised simplex that keeps the inverse of the basis (G. B. Dantzig and M. N. Thapa,
// Linear Programming 1, 1997, from memory).
//
// Its floating-point results guide the search and prove nothing. Products are rounded
// before they are added, so that every machine computes the same.
type covering struct {
	n      int
	inv    []float64 // n*n, inverse of the basis
	x      []float64 // of the basic columns
	cost   []float64 // 1, or 0 for a surplus
	label  []int     // which column is basic; -1 for a first one or a surplus
	duals  []float64
	d      []float64
	pivots int
}

// newCovering starts with one column per row, which covers that row once.
func newCovering(demand []float64) *covering {
	n := len(demand)
	c := &covering{n: n, inv: make([]float64, n*n), x: append([]float64(nil), demand...),
		cost: make([]float64, n), label: make([]int, n), duals: make([]float64, n), d: make([]float64, n)}
	for i := range n {
		c.inv[i*n+i], c.cost[i], c.label[i] = 1, 1, -1
	}
	c.price()
	return c
}

// price recomputes the duals from the inverse.
func (c *covering) price() {
	for j := range c.n {
		c.duals[j] = 0
	}
	for i := range c.n {
		if c.cost[i] == 0 {
			continue
		}
		for j, v := range c.inv[i*c.n : (i+1)*c.n] {
			c.duals[j] += v
		}
	}
}

// value returns the objective.
func (c *covering) value() float64 {
	sum := 0.0
	for i, v := range c.x {
		sum += float64(c.cost[i] * v)
	}
	return sum
}

// enter brings a column into the basis. It returns false when the ratio test finds no
// bound, which only rounding errors can cause.
func (c *covering) enter(col []float64, cost float64, label int) bool {
	const tiny = 1e-9
	n := c.n
	for i := range n {
		s := 0.0
		for j, v := range c.inv[i*n : (i+1)*n] {
			s += float64(v * col[j])
		}
		c.d[i] = s
	}
	out, least := -1, 0.0
	for i := range n {
		if c.d[i] > tiny {
			if ratio := max(c.x[i], 0) / c.d[i]; out < 0 || ratio < least {
				out, least = i, ratio
			}
		}
	}
	if out < 0 {
		return false
	}
	row := c.inv[out*n : (out+1)*n]
	pivot := c.d[out]
	for j := range row {
		row[j] /= pivot
	}
	for i := range n {
		if f := c.d[i]; i != out && f != 0 {
			for j := range row {
				c.inv[i*n+j] -= float64(f * row[j])
			}
			c.x[i] -= float64(f * least)
		}
	}
	c.x[out], c.cost[out], c.label[out] = least, cost, label
	c.pivots++
	c.price()
	return true
}

// surplus brings in the surplus column of a row with a negative dual, and reports whether
// there was one.
func (c *covering) surplus() bool {
	worst, at := -1e-9, -1
	for j, v := range c.duals {
		if v < worst {
			worst, at = v, j
		}
	}
	if at < 0 {
		return false
	}
	col := make([]float64, c.n)
	col[at] = -1
	return c.enter(col, 0, -1)
}
