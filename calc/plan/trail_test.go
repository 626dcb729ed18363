package plan

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestTrailLaysTheSame holds decoding from the first change of an order against
// decoding all of it.
func TestTrailLaysTheSame(t *testing.T) {
	tried := 0
	for seed := range uint64(60) {
		for _, m := range modelsOf(tinyJobOf(seed, 4, 6)) {
			s := newSearcher(m, 1_000, bound{}, func() bool { return false })
			s.rng = rand.New(rand.NewPCG(seed, 3))
			cur := s.constructions()[0]
			tr, plain := newTrail(s.d, len(cur.order)), newDecoder(m)
			tr.stride = 1 + int(seed%3)
			top, ok := tr.try(&cur, 0, 1<<62)
			if !ok {
				continue
			}
			tr.keep(&cur)
			for range 40 {
				next := cur.clone()
				from, ok := s.change(&next)
				if !ok {
					continue
				}
				upper := top + int64(s.rng.IntN(3))
				got, fits := tr.try(&next, from, upper)
				want, should := plain.decode(&next, upper)
				if fits != should || fits && got != want {
					t.Fatalf("seed %d: from %d on %d, %t; all of it %d, %t", seed, from, got, fits, want, should)
				}
				if !fits || s.rng.IntN(3) == 0 {
					continue
				}
				tr.keep(&next)
				if !slices.Equal(s.d.spots, plain.spots) {
					t.Fatalf("seed %d: from %d on the places are %v; all of it %v", seed, from, s.d.spots, plain.spots)
				}
				cur, top = next, got
				tried++
			}
		}
	}
	if tried < 200 {
		t.Errorf("only %d changes were kept", tried)
	}
}

// TestMemo remembers what was added since it was last emptied, and nothing else.
func TestMemo(t *testing.T) {
	var m memo
	r := rand.New(rand.NewPCG(1, 2))
	for range 5 {
		m.forget()
		seen := make(map[[3]uint64]bool)
		for range 2_000 {
			state := [3]uint64{r.Uint64N(12), r.Uint64N(12), r.Uint64N(12)}
			if m.add(state[:]) != seen[state] {
				t.Fatalf("%v: remembered is %t", state, !seen[state])
			}
			seen[state] = true
		}
	}
}
