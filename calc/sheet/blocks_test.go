package sheet

import (
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"

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

// Layouts lie within their rectangle and apart, hold no fewer pieces than two blocks,
// and so many as are wanted, however few steps there are and however often they are
// asked for.
func TestLayoutsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, least, most int64) int64 { return rapid.Int64Range(least, most).Draw(t, name) }
		w, h, steps := n("w", 1, 40), n("h", 1, 40), int(n("steps", 0, 60))
		l := newLikes(length.Length(w)*mm, length.Length(h)*mm, &steps)
		for range 4 {
			across, along := n("across", 1, 150), n("along", 1, 150)
			held := int64(0)
			for _, list := range [][]block{l.full(length.Length(across)*mm, length.Length(along)*mm), l.full(length.Length(across)*mm, length.Length(along)*mm)} {
				held = int64(countOf(list))
				if held < twoGrids(across, along, w, h) {
					t.Fatalf("%d of %d×%d on %d×%d", held, w, h, across, along)
				}
				sound(t, list, across, along)
				if held > 1 {
					want := int(n("want", 1, held))
					some := l.some(length.Length(across)*mm, length.Length(along)*mm, want, list)
					sound(t, some, across, along)
					if countOf(some) != want {
						t.Fatalf("%d pieces, want %d", countOf(some), want)
					}
				}
			}
		}
	})
}

// sound fails where blocks overlap or leave their rectangle.
func sound(t *rapid.T, list []block, across, along int64) {
	for i, b := range list {
		if b.x < 0 || b.y < 0 || b.x+b.across() > length.Length(across)*mm || b.y+b.along() > length.Length(along)*mm {
			t.Fatalf("%+v leaves %d×%d", b, across, along)
		}
		for _, c := range list[:i] {
			if b.x < c.x+c.across() && c.x < b.x+b.across() && b.y < c.y+c.along() && c.y < b.y+b.along() {
				t.Fatalf("%+v overlaps %+v", b, c)
			}
		}
	}
}
