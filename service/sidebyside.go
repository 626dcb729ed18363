package service

import (
	"sync"
	"sync/atomic"
)

// SideBySide does n things, so many at a time, and hands each to then in order
// as soon as it and those before it are done. then may be nil. It returns when
// all is done. A panic of do comes out here, where the caller can catch it, and
// not of a goroutine, where it would end the process.
func SideBySide(workers, n int, do, then func(i int)) {
	done := make([]chan any, n) // what do panicked with, or nil
	for i := range done {
		done[i] = make(chan any, 1)
	}
	var next atomic.Int64
	var group sync.WaitGroup
	for range max(min(workers, n), 1) {
		group.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				done[i] <- caught(do, i)
			}
		})
	}
	defer group.Wait()
	for i := range done {
		if failed := <-done[i]; failed != nil {
			next.Store(int64(n)) // nothing more is begun
			panic(failed)
		}
		if then != nil {
			then(i)
		}
	}
}

// caught does one thing and returns what it panicked with.
func caught(do func(int), i int) (failed any) {
	defer func() { failed = recover() }()
	do(i)
	return nil
}
