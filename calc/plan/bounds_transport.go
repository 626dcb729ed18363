package plan

// transport is a transportation problem in integers: supply[i] leaves row i,
// demand[j] reaches column j, and a unit from i to j costs cost[i*cols+j] >= 0.
// Supplies and demands have one sum.
type transport struct {
	rows, cols     int
	cost           []int64
	supply, demand []int64
	flow           []int64
	a, b           []int64 // duals: a[i] + b[j] <= cost everywhere
	distR, distC   []int64
	fromR, fromC   []int32 // the column before a row, the row before a column
	doneR, doneC   []bool
	work           int64
}

const farAway = int64(1) << 61

func newTransport(rows, cols int) *transport {
	return &transport{
		rows: rows, cols: cols, cost: make([]int64, rows*cols), flow: make([]int64, rows*cols),
		supply: make([]int64, rows), demand: make([]int64, cols),
		a: make([]int64, rows), b: make([]int64, cols),
		distR: make([]int64, rows), distC: make([]int64, cols),
		fromR: make([]int32, rows), fromC: make([]int32, cols),
		doneR: make([]bool, rows), doneC: make([]bool, cols),
	}
}

// solve finds optimal duals by successive shortest paths with reduced costs
// (R. K. Ahuja, T. L. Magnanti and J. B. Orlin, Network Flows, 1993, chapter 9,
// from memory). Whenever it stops, a + b <= cost holds, which is all that the
// bounds rely on; work beyond the cap ends it early.
func (t *transport) solve(workCap int64) {
	for i := range t.rows {
		least := farAway
		for _, c := range t.cost[i*t.cols : (i+1)*t.cols] {
			least = min(least, c)
		}
		t.a[i] = least
	}
	for j := range t.cols {
		least := farAway
		for i := range t.rows {
			least = min(least, t.cost[i*t.cols+j]-t.a[i])
		}
		t.b[j] = least
	}
	for i := range t.rows {
		for t.supply[i] > 0 && t.work < workCap {
			j := t.search(i)
			t.augment(i, j)
		}
	}
}

// search grows shortest paths of the residual network from row s until they
// reach a column with demand, and moves the duals so that the path is tight.
func (t *transport) search(s int) int {
	for i := range t.rows {
		t.distR[i], t.doneR[i] = farAway, false
	}
	for j := range t.cols {
		t.distC[j], t.doneC[j] = farAway, false
	}
	t.distR[s] = 0
	t.scan(s)
	for {
		at, best := -1, farAway
		for j := range t.cols {
			if !t.doneC[j] && t.distC[j] < best {
				at, best = j, t.distC[j]
			}
		}
		t.doneC[at] = true
		if t.demand[at] > 0 {
			t.shift(best)
			return at
		}
		for i := range t.rows {
			if t.flow[i*t.cols+at] > 0 && !t.doneR[i] {
				t.distR[i], t.fromR[i] = best, int32(at)
				t.scan(i)
			}
		}
	}
}

// scan reaches the columns from row i, whose distance is final.
func (t *transport) scan(i int) {
	t.doneR[i] = true
	t.work += int64(t.cols)
	base := t.distR[i] - t.a[i]
	for j, c := range t.cost[i*t.cols : (i+1)*t.cols] {
		if d := base + c - t.b[j]; d < t.distC[j] {
			t.distC[j], t.fromC[j] = d, int32(i)
		}
	}
}

// shift moves the duals by the distances below that of the column reached.
func (t *transport) shift(reach int64) {
	for i := range t.rows {
		if t.doneR[i] && t.distR[i] < reach {
			t.a[i] += reach - t.distR[i]
		}
	}
	for j := range t.cols {
		if t.doneC[j] && t.distC[j] < reach {
			t.b[j] -= reach - t.distC[j]
		}
	}
}

// augment sends as much as it can along the path found from row s to column j.
func (t *transport) augment(s, j int) {
	amount := min(t.supply[s], t.demand[j])
	for c := j; ; {
		r := int(t.fromC[c])
		if r == s {
			break
		}
		c = int(t.fromR[r])
		amount = min(amount, t.flow[r*t.cols+c])
	}
	for c := j; ; {
		r := int(t.fromC[c])
		t.flow[r*t.cols+c] += amount
		if r == s {
			break
		}
		c = int(t.fromR[r])
		t.flow[r*t.cols+c] -= amount
	}
	t.supply[s] -= amount
	t.demand[j] -= amount
}
