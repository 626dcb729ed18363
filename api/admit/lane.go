// Package admit decides who may begin work, and when: lanes with a short queue,
// and quotas for each client.
//
// It knows nothing of HTTP. All its types may be used by any number of
// goroutines.
package admit

import (
	"context"
	"errors"
	"sync/atomic"
	"time"
)

// Why there was no turn.
var (
	ErrFull   = errors.New("admit: the queue is full")
	ErrWaited = errors.New("admit: no turn came in time")
)

// Lane gives turns: so many at the same time, and to so many more who wait.
type Lane struct {
	slots chan struct{}
	queue int64
	wait  time.Duration
	ahead atomic.Int64 // waiting in the queue

	full, late atomic.Uint64
	waited     func(time.Duration) // told of every turn that was given
}

// NewLane has at least one slot. wait is how long a place in the queue is kept;
// waited is told how long each turn was waited for and may be nil.
func NewLane(slots, queue int, wait time.Duration, waited func(time.Duration)) *Lane {
	if waited == nil {
		waited = func(time.Duration) {}
	}
	return &Lane{slots: make(chan struct{}, max(slots, 1)), queue: int64(max(queue, 0)), wait: wait, waited: waited}
}

// Enter waits for a turn, which is given back by calling leave once. Without a
// free slot it joins the queue, or is told at once that the queue is full: an
// answer that says no must cost nothing and take no time.
func (l *Lane) Enter(ctx context.Context) (leave func(), err error) {
	if leave, ok := l.Try(); ok {
		l.waited(0)
		return leave, nil
	}
	if l.ahead.Add(1) > l.queue {
		l.ahead.Add(-1)
		l.full.Add(1)
		return nil, ErrFull
	}
	defer l.ahead.Add(-1)
	begun := time.Now()
	turn := time.NewTimer(l.wait)
	defer turn.Stop()
	select {
	case l.slots <- struct{}{}:
		l.waited(time.Since(begun))
		return l.leave, nil
	case <-turn.C:
		l.late.Add(1)
		return nil, ErrWaited
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// Await waits for a turn as long as the context lasts, beside the queue: for work
// that goes on line by line and holds back its sender while it waits.
func (l *Lane) Await(ctx context.Context) (leave func(), err error) {
	begun := time.Now()
	select {
	case l.slots <- struct{}{}:
		l.waited(time.Since(begun))
		return l.leave, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// Try takes a slot that is free now.
func (l *Lane) Try() (leave func(), ok bool) {
	select {
	case l.slots <- struct{}{}:
		return l.leave, true
	default:
		return nil, false
	}
}

func (l *Lane) leave() { <-l.slots }

// Full reports whether Enter would say no at once.
func (l *Lane) Full() bool {
	return len(l.slots) == cap(l.slots) && l.ahead.Load() >= l.queue
}

// Refuse counts a request that was sent away because Full said so.
func (l *Lane) Refuse() { l.full.Add(1) }

// LaneState is a lane at one moment, and how many it has sent away so far.
type LaneState struct {
	Slots, Busy, Queue, Waiting int
	Full, Late                  uint64
}

// State is the lane now.
func (l *Lane) State() LaneState {
	return LaneState{
		Slots: cap(l.slots), Busy: len(l.slots), Queue: int(l.queue), Waiting: int(min(l.ahead.Load(), l.queue)),
		Full: l.full.Load(), Late: l.late.Load(),
	}
}
