package sheet

import (
	"math/rand/v2"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
)

// The six classes of J. Berkey and P. Wang (1987) that S. Martello and D. Vigo
// (1998) and A. Lodi, S. Martello and D. Vigo (1999) test on: sides drawn evenly
// from 1 to most, sheets a square. The parameters are from memory, and the draws
// are ours: the published instances are not reproduced, so that their published
// results are no yardstick. What is held is that nestings are right, that bounds
// are kept, and how far the two lie apart in all.
func TestClassesOfBinPacking(t *testing.T) {
	for _, class := range []struct {
		name        string
		most, sheet int64
		apart       float64 // in percent of the bounds' sum
	}{
		{"I", 10, 10, 6}, {"II", 10, 30, 10}, {"III", 35, 40, 10}, {"IV", 35, 100, 10}, {"V", 100, 100, 10}, {"VI", 100, 300, 20},
	} {
		used, bound, proven, jobs := 0, 0, 0, 0
		for n := 20; n <= 100; n += 20 {
			for seed := range uint64(4) {
				r := rand.New(rand.NewPCG(seed, uint64(n)))
				pieces := make([]Piece, n)
				for i := range pieces {
					pieces[i] = Piece{length.Length(1+r.Int64N(class.most)) * mm, length.Length(1+r.Int64N(class.most)) * mm}
				}
				kinds := []Kind{{length.Length(class.sheet) * mm, length.Length(class.sheet) * mm, 0, 1}}
				got, err := Nest(pieces, kinds, 0, 150_000, nil)
				if err != nil || Check(pieces, kinds, 0, got.Sheets) != nil || len(got.Sheets) < got.Bound {
					t.Fatalf("class %s, %d pieces, seed %d: %v", class.name, n, seed, err)
				}
				used += len(got.Sheets)
				bound += got.Bound
				jobs++
				if got.Proven {
					proven++
				}
			}
		}
		apart := 100 * float64(used-bound) / float64(bound)
		t.Logf("class %s: %d sheets, bound %d, %.1f %% apart, %d of %d proven", class.name, used, bound, apart, proven, jobs)
		if apart > class.apart {
			t.Errorf("class %s: %.1f %% apart, want %.0f %% or less", class.name, apart, class.apart)
		}
	}
}
