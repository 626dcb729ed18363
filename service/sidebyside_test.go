package service

import (
	"slices"
	"sync/atomic"
	"testing"
)

func TestSideBySideKeepsOrder(t *testing.T) {
	for _, n := range []int{0, 1, 7, 200} {
		for _, workers := range []int{-1, 1, 3, 300} {
			var did atomic.Int64
			var got []int
			SideBySide(workers, n, func(int) { did.Add(1) }, func(i int) { got = append(got, i) })
			if int(did.Load()) != n || len(got) != n || !slices.IsSorted(got) {
				t.Errorf("%d things, %d at a time: did %d, handed over %v", n, workers, did.Load(), got)
			}
		}
	}
}

// A panic reaches the caller, after everyone has stopped.
func TestSideBySidePanicsInTheCaller(t *testing.T) {
	var running atomic.Int64
	defer func() {
		if got := recover(); got != "spoilt" {
			t.Errorf("recovered %v", got)
		}
		if running.Load() != 0 {
			t.Errorf("%d still at work", running.Load())
		}
	}()
	SideBySide(4, 100, func(i int) {
		running.Add(1)
		defer running.Add(-1)
		if i == 5 {
			panic("spoilt")
		}
	}, nil)
}
