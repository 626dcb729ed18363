package plan

import (
	"math/rand/v2"
	"testing"
)

// TestTransportDuals wants duals that fit every cost and, as the flow that goes
// with them costs the same as they are worth, that are the best.
func TestTransportDuals(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for n := range 500 {
		rows, cols := 1+r.IntN(8), 1+r.IntN(8)
		tr := newTransport(rows, cols)
		for k := range tr.cost {
			tr.cost[k] = int64(r.IntN(30))
		}
		for range 40 {
			tr.supply[r.IntN(rows)]++
			tr.demand[r.IntN(cols)]++
		}
		supply, demand := append([]int64(nil), tr.supply...), append([]int64(nil), tr.demand...)
		tr.solve(1 << 40)
		paid, worth := int64(0), int64(0)
		for i := range rows {
			worth += tr.a[i] * supply[i]
			for j := range cols {
				paid += tr.flow[i*cols+j] * tr.cost[i*cols+j]
				if tr.a[i]+tr.b[j] > tr.cost[i*cols+j] {
					t.Fatalf("problem %d: duals %d + %d pass the cost %d", n, tr.a[i], tr.b[j], tr.cost[i*cols+j])
				}
			}
		}
		for j := range cols {
			worth += tr.b[j] * demand[j]
		}
		if paid != worth {
			t.Fatalf("problem %d: flow costs %d, duals are worth %d", n, paid, worth)
		}
	}
}

// TestTransportStopsEarly wants duals that fit even when the work runs out.
func TestTransportStopsEarly(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 5))
	stopped := 0
	for range 200 {
		tr := newTransport(6, 6)
		for k := range tr.cost {
			tr.cost[k] = int64(r.IntN(30))
		}
		for i := range 6 {
			tr.supply[i], tr.demand[i] = 5, 5
		}
		tr.solve(20)
		for i := range 6 {
			if tr.supply[i] > 0 {
				stopped++
			}
			for j := range 6 {
				if tr.a[i]+tr.b[j] > tr.cost[i*6+j] {
					t.Fatalf("duals %d + %d pass the cost %d", tr.a[i], tr.b[j], tr.cost[i*6+j])
				}
			}
		}
	}
	if stopped == 0 {
		t.Error("the work never ran out")
	}
}

// randomPatterns draws a strip with a few options, on stretches and on rows.
func randomPatterns(r *rand.Rand) *patterns {
	p := &patterns{W: int64(6 + r.IntN(20)), choice: make([]int32, 2), chosen: make([]int32, 2),
		last: []int32{-1, -1, -1, -1}}
	for k := range 2 + r.IntN(4) {
		p.left = append(p.left, int64(1+r.IntN(2)))
		group := r.IntN(3) - 1
		for range 1 + r.IntN(3) {
			o := valued{kind: k, group: group, value: int64(1 + r.IntN(9)), live: true}
			o.w = int64(1 + r.IntN(int(p.W)))
			o.lo = int64(r.IntN(int(p.W-o.w) + 1))
			o.hi = o.lo + int64(r.IntN(int(p.W-o.w-o.lo)+1))
			o.choice = int32(r.IntN(2))
			if group < 0 {
				o.choice = -1
			}
			if r.IntN(4) == 0 {
				o.rows, o.every, o.res, o.tol = true, int64(2+r.IntN(4)), int64(r.IntN(5)), int64(r.IntN(2))
			}
			o.anyone = o.lo == 0 && o.hi == p.W-o.w && group < 0 && !o.rows
			p.opts = append(p.opts, o)
		}
	}
	for i := range p.opts { // the most valuable first
		for j := i; j > 0 && p.opts[j].value > p.opts[j-1].value; j-- {
			p.opts[j], p.opts[j-1] = p.opts[j-1], p.opts[j]
		}
	}
	for j := range p.opts {
		p.opts[j].id = int32(j)
	}
	p.all = p.opts
	return p
}

// everyPattern is the most that a pattern is worth: each option at each place,
// from left to right.
func everyPattern(p *patterns, at, worth int64, left []int64, agreed [2]int32) int64 {
	best := worth
	for j := range p.opts {
		o := &p.opts[j]
		if left[o.kind] == 0 || o.group >= 0 && agreed[o.group] != -1 && agreed[o.group] != o.choice {
			continue
		}
		for x := max(at, o.lo); x <= o.hi; x++ {
			if o.rows && !nearMultiple(x-o.res, o.every, o.tol) {
				continue
			}
			now := agreed
			if o.group >= 0 {
				now[o.group] = o.choice
			}
			left[o.kind]--
			best = max(best, everyPattern(p, x+o.w, worth+o.value, left, now))
			left[o.kind]++
		}
	}
	return best
}

// TestPatternsFindTheBest holds the search against every pattern, and wants it
// never to answer less when its nodes run out.
func TestPatternsFindTheBest(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	cut := 0
	for n := range 2000 {
		p := randomPatterns(r)
		want := everyPattern(p, 0, 0, append([]int64(nil), p.left...), [2]int32{-1, -1})
		if got := p.search(1 << 40); got != want {
			t.Fatalf("strip %d: %d, want %d: %+v", n, got, want, p)
		}
		sum := int64(0)
		for _, id := range p.found {
			sum += p.all[id].value
		}
		if sum != want {
			t.Fatalf("strip %d: the pattern found is worth %d, not %d", n, sum, want)
		}
		got := p.search(2)
		if got < want {
			t.Fatalf("strip %d: cut short it answers %d, below %d", n, got, want)
		}
		if p.best < want {
			cut++
		}
	}
	if cut == 0 {
		t.Error("no search was cut short")
	}
}

// TestCoveringAgainstProof wants the value of the program and the proof to meet
// on plain jobs: the first from above by its columns, the second from below.
func TestCoveringAgainstProof(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for n := range 300 {
		x := &relaxed{W: 60}
		for k := range 2 + r.IntN(8) {
			w := int64(4 + r.IntN(50))
			x.nodes = append(x.nodes, node{kind: k, h: int64(1 + r.IntN(40)), frame: -1})
			x.kinds = append(x.kinds, kind{count: int64(1 + r.IntN(3)), group: -1, opts: []option{
				{hi: x.W - w, w: w, id: int32(k), node: k, choice: -1}}})
		}
		x.options = len(x.kinds)
		b := newBars(x, x.heights(), 40)
		b.cap = 1 << 40
		c := b.solve()
		if v := b.lp.value(); float64(c.length) < v-1e-3 || float64(c.length) > v+1+1e-6 {
			t.Fatalf("strip %d: proof %d, value of the program %f", n, c.length, v)
		}
	}
}

// TestWideNumbers checks the arithmetic of 128 bits at its edges.
func TestWideNumbers(t *testing.T) {
	big := int64(1) << 61
	w := wide{}.plusProduct(big, 6).plusProduct(1, 5)
	if q, more := w.over(3); q != 0 || more { // the quotient has no room
		t.Errorf("over 3: %d %v", q, more)
	}
	if q, more := w.over(6); q != big || !more {
		t.Errorf("over 6: %d %v", q, more)
	}
	if q, more := (wide{}).plusWide(w, 1000).over(6000); q != big || !more {
		t.Errorf("a thousand times over 6000: %d %v", q, more)
	}
	if mulDivUp(big, 7, 7) != big || mulDivUp(7, 3, 10) != 3 || mulDivDown(7, 3, 10) != 2 {
		t.Error("products over a number are wrong")
	}
}
