package service

import (
	"sync"
	"sync/atomic"
)

// sideBySide does n things, so many at a time, and hands each to then in order
// as soon as it and those before it are done. then may be nil. It returns when
// all is done.
func sideBySide(workers, n int, do, then func(i int)) {
	done := make([]chan struct{}, n)
	for i := range done {
		done[i] = make(chan struct{})
	}
	var next atomic.Int64
	var group sync.WaitGroup
	for range max(min(workers, n), 1) {
		group.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
				close(done[i])
			}
		})
	}
	for i := range done {
		<-done[i]
		if then != nil {
			then(i)
		}
	}
	group.Wait()
}
