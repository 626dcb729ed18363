// Package admit limits concurrent work and usage: lanes with a short queue, and quotas for
// each client.
//
// It does not depend on HTTP. All its types are safe for concurrent use.
package admit

import (
	"context"
	"errors"
	"sync/atomic"
	"time"
)

// The reasons why there was no slot.
var (
	ErrFull   = errors.New("admit: the queue is full")
	ErrWaited = errors.New("admit: no turn came in time")
)

// Lane is a semaphore with a fixed number of slots and a bounded queue.
type Lane struct {
	slots chan struct{}
	queue int64
	wait  time.Duration
	ahead atomic.Int64 // requests in the queue

	full, late atomic.Uint64
	waited     func(time.Duration) // called with the wait for each slot; may be nil
}

// NewLane returns a lane with at least one slot. wait is the timeout in the queue. waited
// is called with the wait for each slot, and may be nil.
func NewLane(slots, queue int, wait time.Duration, waited func(time.Duration)) *Lane {
	if waited == nil {
		waited = func(time.Duration) {}
	}
	return &Lane{slots: make(chan struct{}, max(slots, 1)), queue: int64(max(queue, 0)), wait: wait, waited: waited}
}

// Enter waits for a slot; leave releases it and must be called once. Without a free slot
// it joins the queue. If the queue is full it fails at once, so that refusing a request is
// cheap.
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

// Await waits for a slot without joining the queue, until the context ends. It is for work
// that proceeds line by line and slows its sender down while it waits.
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

// Try takes a free slot, or returns false at once.
func (l *Lane) Try() (leave func(), ok bool) {
	select {
	case l.slots <- struct{}{}:
		return l.leave, true
	default:
		return nil, false
	}
}

func (l *Lane) leave() { <-l.slots }

// Full reports whether Enter would fail at once.
func (l *Lane) Full() bool {
	return len(l.slots) == cap(l.slots) && l.ahead.Load() >= l.queue
}

// Refuse counts a request that was refused because Full returned true.
func (l *Lane) Refuse() { l.full.Add(1) }

// LaneState is a snapshot of a lane, with counts of the requests refused so far.
type LaneState struct {
	Slots, Busy, Queue, Waiting int
	Full, Late                  uint64
}

// State returns the state of the lane now.
func (l *Lane) State() LaneState {
	return LaneState{
		Slots: cap(l.slots), Busy: len(l.slots), Queue: int(l.queue), Waiting: int(min(l.ahead.Load(), l.queue)),
		Full: l.full.Load(), Late: l.late.Load(),
	}
}
