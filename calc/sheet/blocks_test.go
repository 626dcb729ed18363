package sheet

import (
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
)

// jobsToTry is how many random jobs are drawn; an environment variable asks for
// more or fewer.
func jobsToTry(t *testing.T, name string, usual int) int {
	t.Helper()
	s := os.Getenv(name)
	if s == "" {
		return usual
	}
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return n
}

// oneGrid is how many pieces of w by h a rectangle takes that all lie one way.
func oneGrid(across, along, w, h int64) int64 {
	return max((across/w)*(along/h), (across/h)*(along/w))
}

// twoGrids is the most in two such blocks, with the straight cut between them tried
// at every millimetre both ways.
func twoGrids(across, along, w, h int64) (most int64) {
	for x := range across + 1 {
		most = max(most, oneGrid(x, along, w, h)+oneGrid(across-x, along, w, h))
	}
	for y := range along + 1 {
		most = max(most, oneGrid(across, y, w, h)+oneGrid(across, along-y, w, h))
	}
	return most
}

// leastCost is the least cost of so many pieces where each kind takes so many.
func leastCost(pieces int64, takes, cost []int64) int64 {
	least := make([]int64, pieces+1)
	for n := int64(1); n <= pieces; n++ {
		least[n] = -1
		for k, m := range takes {
			if m > 0 {
				if c := least[max(0, n-m)] + cost[k]; least[n] < 0 || c < least[n] {
					least[n] = c
				}
			}
		}
	}
	return least[pieces]
}

// Pieces of one size never take a sheet more, or cost more, than when every sheet
// is cut in the best layout of two blocks: with a kerf, a trim, one kind of sheet or
// several, on a small budget. Where only one kind is on sale, the cost is the sheets.
func TestNoWorseThanTwoBlocks(t *testing.T) {
	n := jobsToTry(t, "BRIDLETIE_JOBS", 2_000)
	proven, fewer := 0, 0
	for seed := range uint64(n) {
		r := rand.New(rand.NewPCG(seed, 62))
		w, h := 150+r.Int64N(750), 150+r.Int64N(750)
		count := 1 + r.Int64N(40)
		if r.IntN(5) == 0 {
			w, h, count = 30+r.Int64N(200), 30+r.Int64N(200), 1+r.Int64N(400)
		}
		kerf := r.Int64N(2) * r.Int64N(6)
		kinds := make([]Kind, 1+r.IntN(5)/2)
		var takes, cost []int64
		for i := range kinds {
			across, along, trim := 900+10*r.Int64N(120), 900+10*r.Int64N(160), r.Int64N(2)*r.Int64N(10)
			price := int64(1)
			if len(kinds) > 1 {
				price = across * along / 1000 * (80 + r.Int64N(40)) / 100
			}
			kinds[i] = Kind{length.Length(across) * mm, length.Length(along) * mm, length.Length(trim) * mm, price}
			takes = append(takes, twoGrids(across-2*trim+kerf, along-2*trim+kerf, w+kerf, h+kerf))
			cost = append(cost, price)
		}
		want := leastCost(count, takes, cost)
		if want < 0 {
			continue
		}
		pieces := make([]Piece, count)
		for i := range pieces {
			pieces[i] = Piece{length.Length(w) * mm, length.Length(h) * mm}
			if i%2 == 1 {
				pieces[i] = Piece{length.Length(h) * mm, length.Length(w) * mm}
			}
		}
		got, err := Nest(pieces, kinds, length.Length(kerf)*mm, 5_000, nil)
		if err != nil {
			t.Fatal(err)
		}
		if flaws := Check(pieces, kinds, length.Length(kerf)*mm, got.Sheets); flaws != nil {
			t.Fatalf("job %d: %v", seed, flaws)
		}
		if got.Cost > want || got.Cost < got.CostBound {
			t.Errorf("job %d: %d pieces of %d×%d, kerf %d, on %v: cost %d, bound %d, two blocks %d", seed, count, w, h, kerf, kinds, got.Cost, got.CostBound, want)
		}
		if got.Proven {
			proven++
		}
		if got.Cost < want {
			fewer++
		}
	}
	t.Logf("%d jobs, %d better than two blocks, %d proven", n, fewer, proven)
}
