package foam

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/sheet"
)

// tinyUnit is the step of all sizes of a tiny job.
const tinyUnit = 50 * mm

// tinyJob has a few pads that lie on a grid, and one to three sizes of sheet, often
// of one thickness, with prices or without.
func tinyJob(seed uint64) *Job {
	r := rand.New(rand.NewPCG(seed, 50))
	n := func(least, most int) length.Length { return length.Length(least + r.IntN(most-least+1)) }
	job := &Job{Foams: []Foam{{ID: "F", Density: 35_000}}, Shop: practice.Defaults().With(practice.FoamKerf.Give(n(0, 1) * 3 * mm)), Effort: Quick}
	if r.IntN(3) > 0 {
		job.Currency = gbp()
	}
	trim := n(0, 1) * 4 * mm
	small := length.Length(6)
	for i := range 1 + r.IntN(3) {
		w, h := n(3, 6), n(3, 6)
		small = min(small, max(w, h))
		s := Stock{ID: fmt.Sprint("S", i), Across: w*tinyUnit - job.Shop.Length(practice.FoamKerf) + 2*trim, Along: h*tinyUnit - job.Shop.Length(practice.FoamKerf) + 2*trim, Trim: trim, Thickness: 50 * mm}
		if r.IntN(4) == 0 {
			s.Thickness = 100 * mm
		}
		if job.Currency != money.None {
			s.Price = decimal.New(int64(w*h)*int64(6+r.IntN(9)), -1)
		}
		job.Stock = append(job.Stock, s)
	}
	left := 1 + r.IntN(6)
	for left > 0 {
		count := 1 + r.IntN(min(left, 3))
		left -= count
		job.Items = append(job.Items, Item{ID: fmt.Sprint("I", len(job.Items)), Count: count, Thickness: 50 * mm * n(1, 2), Place: Pad,
			Shape: Shape{Across: n(1, 4)*tinyUnit - job.Shop.Length(practice.FoamKerf), Along: n(1, int(small))*tinyUnit - job.Shop.Length(practice.FoamKerf)}})
	}
	return job
}

// tinyGrid is a sheet of at most 6 by 6 units, its cells in rows of 6.
type tinyGrid struct{ w, h int }

// packs reports whether the pieces of a set, of whole units, lie on the sheet: the
// first cell that is not yet decided is the corner of one of them, either way, or
// stays empty, of which there may be so many.
func (g tinyGrid) packs(taken uint64, cell int, pieces [][2]int, set, empty int) bool {
	for cell < 6*g.h && (cell%6 >= g.w || taken>>cell&1 == 1) {
		cell++
	}
	if set == 0 || cell >= 6*g.h || empty < 0 {
		return set == 0 && empty >= 0
	}
	tried := make(map[[2]int]bool)
	for n, p := range pieces {
		if set>>n&1 == 0 {
			continue
		}
		for _, way := range [][2]int{p, {p[1], p[0]}} {
			if tried[way] || cell%6+way[0] > g.w || cell/6+way[1] > g.h {
				continue
			}
			tried[way] = true
			here := uint64(0)
			for y := range way[1] {
				here |= (uint64(1)<<way[0] - 1) << (cell + 6*y)
			}
			if taken&here == 0 && g.packs(taken|here, cell, pieces, set&^(1<<n), empty) {
				return true
			}
		}
	}
	return g.packs(taken, cell+1, pieces, set, empty-1)
}

// cheapest are the least cost and the fewest sheets of all nestings of a group on
// the sheets of its foam and thickness: every share of the pieces on every sheet.
func cheapest(job *Job, g *Group) (cost int64, sheets int) {
	units := func(l length.Length) int { return int((l + job.Shop.Length(practice.FoamKerf)) / tinyUnit) }
	var pieces [][2]int
	for _, p := range g.Sizes {
		pieces = append(pieces, [2]int{units(p.Across), units(p.Along)})
	}
	all := 1 << len(pieces)
	costs, counts := make([]int64, all), make([]int, all)
	for m := range all {
		costs[m], counts[m] = math.MaxInt64, math.MaxInt
	}
	costs[0], counts[0] = 0, 0
	for i := range job.Stock {
		k := &job.Stock[i]
		if k.Foam != g.Foam || k.Thickness != g.Thickness {
			continue
		}
		grid := tinyGrid{units(k.Across - 2*k.Trim), units(k.Along - 2*k.Trim)}
		price := int64((k.Across/mm)*(k.Along/mm)) * int64(k.Thickness/mm) * 1000
		if job.Priced() {
			price = k.Price.Shift(4).IntPart()
		}
		for m := 1; m < all; m++ {
			empty := grid.w * grid.h
			for n, p := range pieces {
				empty -= (m >> n & 1) * p[0] * p[1]
			}
			if empty < 0 || !grid.packs(0, 0, pieces, m, empty) {
				continue
			}
			// Beside any earlier sheets: the sheets of a nesting may be put in order.
			for rest := range all {
				if rest&m == 0 && counts[rest] < math.MaxInt {
					costs[rest|m], counts[rest|m] = min(costs[rest|m], costs[rest]+price), min(counts[rest|m], counts[rest]+1)
				}
			}
		}
	}
	return costs[all-1], counts[all-1]
}

// On tiny jobs no bound is above what a search of all nestings on all sheets on sale
// finds, and what is said to be proven is the best there is. BRIDLETIE_TINY sets how
// many are drawn.
func TestProofAgainstAllNestings(t *testing.T) {
	jobs := 2_000
	if s := os.Getenv("BRIDLETIE_TINY"); s != "" {
		var err error
		if jobs, err = strconv.Atoi(s); err != nil {
			t.Fatal(err)
		}
	}
	groups, best, proven, several, provenOfSeveral := 0, 0, 0, 0, 0
	for seed := range uint64(jobs) {
		job := tinyJob(seed)
		if l := Faults(job); l.Len() > 0 {
			continue
		}
		r, err := Solve(job, nil)
		if err != nil {
			t.Fatalf("job %d: %v", seed, err)
		}
		for i := range r.Groups {
			g := &r.Groups[i]
			if len(g.Pieces) > 7 {
				continue
			}
			groups++
			cost, sheets := cheapest(job, g)
			if flaws := sheet.Check(g.Sizes, g.Kinds, job.Shop.Length(practice.FoamKerf), g.Nest.Sheets); flaws != nil {
				t.Fatalf("job %d: %v", seed, flaws)
			}
			if g.Nest.Cost < cost || len(g.Nest.Sheets) < sheets {
				t.Fatalf("job %d: cost %d on %d sheets, the search of all has %d and %d", seed, g.Nest.Cost, len(g.Nest.Sheets), cost, sheets)
			}
			if g.Nest.Bound > sheets || g.Nest.CostBound > cost || g.Nest.Proven && g.Nest.Cost > cost {
				t.Errorf("job %d: %+v bounds %d and %d, proven %v; the best cost %d and %d sheets", seed, g.Sizes, g.Nest.CostBound, g.Nest.Bound, g.Nest.Proven, cost, sheets)
			}
			if g.Nest.Cost == cost {
				best++
			}
			if g.Nest.Proven {
				proven++
			}
			if len(g.Kinds) > 1 {
				several++
				if g.Nest.Proven {
					provenOfSeveral++
				}
			}
		}
	}
	t.Logf("%d groups, %d as cheap as can be, %d proven; on several sizes of sheet %d, %d proven", groups, best, proven, several, provenOfSeveral)
	if proven < groups*3/4 {
		t.Errorf("only %d of %d groups are proven", proven, groups)
	}
}
