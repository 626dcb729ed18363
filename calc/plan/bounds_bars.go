package plan

import (
	"cmp"
	"math/bits"
	"slices"
)

// bars is the bar relaxation: items are cut into slices along the roll, and each
// horizontal line is filled independently (G. Belov and G. Scheithauer, from memory). It
// covers all dual feasible functions. Here the items on a line must lie side by side at
// places that the pattern admits.
//
// tall holds the height of each node, which may include gaps that must stay empty.
type bars struct {
	r     *relaxed
	tall  []int64
	rowOf []int    // by kind; -1 for those taken as fluid
	least []int64  // by row, the least stretched height
	need  []int64  // by row, copies
	fluid int      // row of the fluid; -1 for none
	area  wide     // of the fluid, stretched
	opts  []valued // of all kinds, in order of id
	p     patterns
	pool  []pattern // also those of earlier heights
	given int       // how many of the pool it began with
	lp    *covering
	col   []float64
	scale int64
	best  certificate
	work  int64
	cap   int64
	// enough is the length beyond which no better proof is needed.
	enough int64
	hasty  bool // give up when it is clear that enough cannot be passed
}

// certificate is a set of weights that proves a bound: a weight for each row, and the
// greatest total weight of any horizontal line.
type certificate struct {
	length int64
	weight []int64
	fluid  int64 // worth of a unit of width of fluid
	most   int64
}

// wide is an unsigned 128-bit integer.
type wide struct{ hi, lo uint64 }

func (w wide) plusProduct(a, b int64) wide {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	var c uint64
	w.lo, c = bits.Add64(w.lo, lo, 0)
	w.hi, _ = bits.Add64(w.hi, hi, c)
	return w
}

// over returns w/by rounded down, and whether there was a remainder. It returns 0 when the
// quotient does not fit, which the limits of a request exclude.
func (w wide) over(by int64) (int64, bool) {
	if by <= 0 || w.hi >= uint64(by) {
		return 0, false
	}
	q, r := bits.Div64(w.hi, w.lo, uint64(by))
	if q >= 1<<62 {
		return 0, false
	}
	return int64(q), r > 0
}

func (w wide) float() float64 { return float64(float64(w.hi)*(1<<64)) + float64(w.lo) }

// newBars chooses the kinds that are modelled exactly: at most mostKinds, the largest. The
// remaining kinds and narrow ones become fluid: they may be cut arbitrarily, which can
// only weaken the bound.
func newBars(r *relaxed, tall []int64, mostKinds int) *bars {
	b := &bars{r: r, tall: tall, fluid: -1, rowOf: make([]int, len(r.kinds)), enough: 1 << 62}
	areas := make([]int64, len(r.kinds))
	order := make([]int, len(r.kinds))
	for k := range r.kinds {
		order[k], areas[k] = k, r.leastArea(&r.kinds[k], tall)
		b.rowOf[k] = -1
	}
	slices.SortStableFunc(order, func(a, c int) int { return cmp.Compare(areas[c], areas[a]) })
	for _, k := range order {
		kd := &r.kinds[k]
		if b.leastTall(kd) < 1 {
			continue // charged with more than its height: left out, which only weakens the bound
		}
		if len(b.need) < mostKinds && r.narrowest(kd) > r.W/24 {
			b.rowOf[k] = len(b.need)
			b.need = append(b.need, kd.count)
			b.least = append(b.least, b.leastTall(kd))
		} else {
			b.area = b.area.plusProduct(kd.count, areas[k])
		}
	}
	if b.area != (wide{}) {
		b.fluid = len(b.need)
	}
	b.scale = max(1<<24, 1024*r.W)
	b.begin()
	return b
}

func (b *bars) leastTall(kd *kind) int64 {
	least := b.tall[kd.opts[0].node]
	for _, o := range kd.opts {
		least = min(least, b.tall[o.node])
	}
	return least
}

func (r *relaxed) narrowest(kd *kind) int64 {
	least := r.W
	for _, o := range kd.opts {
		least = min(least, o.w)
	}
	return least
}

// begin sets up the linear program and its options.
func (b *bars) begin() {
	var demand []float64
	for k := range b.need {
		demand = append(demand, float64(b.need[k])*float64(b.least[k]))
	}
	if b.fluid >= 0 {
		demand = append(demand, b.area.float()/float64(b.r.W))
	}
	b.lp = newCovering(demand)
	b.col = make([]float64, len(demand))
	groups := 0
	b.p.W = b.r.W
	b.opts = make([]valued, b.r.options)
	b.p.left = make([]int64, len(b.r.kinds))
	for k := range b.r.kinds {
		kd := &b.r.kinds[k]
		b.p.left[k] = kd.count
		groups = max(groups, kd.group+1)
		for _, o := range kd.opts {
			v := valued{option: o, live: true, kind: k, group: kd.group,
				anyone: o.lo == 0 && o.hi == b.r.W-o.w && !o.rows && o.choice < 0}
			b.opts[o.id] = v
			if b.rowOf[k] >= 0 {
				b.p.opts = append(b.p.opts, v)
			}
		}
	}
	b.p.all, b.p.last = b.opts, slices.Repeat([]int32{-1}, 2*groups)
	b.p.choice, b.p.chosen = make([]int32, groups), make([]int32, groups)
}
