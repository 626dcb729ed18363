// Package reuse answers the same question once: those who ask while an answer is
// made wait for it, and those who ask later are given it from memory, as long as
// there is room.
package reuse

import (
	"context"
	"sync"

	"github.com/maypok86/otter/v2"
)

// How an answer was come by.
type How int

// The ways.
const (
	Made   How = iota // for this caller first
	Joined            // made for another at the same time
	Kept              // made before
)

// String is the way in a word.
func (h How) String() string { return [...]string{"made", "joined", "kept"}[h] }

// Store keeps answers by what was asked. Its answers must never be changed. It may
// be used by any number of goroutines.
type Store[A any] struct {
	kept  *otter.Cache[string, A]
	other *otter.Cache[string, string] // names of a key

	mu      sync.Mutex
	flights map[string]*flight[A]
}

// flight is an answer while it is made.
type flight[A any] struct {
	done    chan struct{}
	callers int                // who wait for it, under the store's lock
	cancel  context.CancelFunc // when nobody does any more
	answer  A
	err     error
}

// New keeps at most so many bytes, by the size of each answer, and a sixteenth more
// for names; those that were
// asked for last or often stay longest.
func New[A any](bytes int64, size func(A) int) *Store[A] {
	const entry = 200 // bytes of what holds an answer
	return &Store[A]{
		other: otter.Must(&otter.Options[string, string]{
			MaximumWeight: uint64(max(bytes/16, 1)),
			Weigher:       func(name, key string) uint32 { return uint32(min(len(name)+len(key)+entry, 1<<31)) }, //nolint:gosec // bounded
		}),
		kept: otter.Must(&otter.Options[string, A]{
			MaximumWeight: uint64(max(bytes, 1)),
			Weigher: func(key string, a A) uint32 {
				return uint32(min(len(key)+size(a)+entry, 1<<31)) //nolint:gosec // bounded
			},
		}),
		flights: make(map[string]*flight[A]),
	}
}

// Name lets an answer be found by another name of its key too.
func (s *Store[A]) Name(name, key string) { s.other.Set(name, key) }

// Named is the answer that is kept under a name of its key.
func (s *Store[A]) Named(name string) (A, bool) {
	if key, ok := s.other.GetIfPresent(name); ok {
		return s.kept.GetIfPresent(key)
	}
	var none A
	return none, false
}

// Do is the answer to what was asked: kept, or made by work, once for all who ask
// at the same time. waits is called before waiting for what work makes for
// another, and when no work is needed.
//
// work runs in a goroutine of its own, with the values of the context of whoever
// came first; it is cancelled when all who waited have gone, and not before. An
// error is for those who waited and is not kept. work must not panic.
func (s *Store[A]) Do(ctx context.Context, key string, work func(context.Context) (A, error), waits func()) (A, How, error) {
	if a, ok := s.kept.GetIfPresent(key); ok {
		waits()
		return a, Kept, nil
	}
	s.mu.Lock()
	f, joined := s.flights[key]
	how := Joined
	if joined {
		f.callers++
	} else {
		how = Made
		f = &flight[A]{done: make(chan struct{}), callers: 1}
		var made context.Context
		made, f.cancel = context.WithCancel(context.WithoutCancel(ctx)) //nolint:gosec // fly calls it, or the last caller to leave
		s.flights[key] = f
		go s.fly(made, key, f, work)
	}
	s.mu.Unlock()
	if joined {
		waits()
	}
	select {
	case <-f.done:
		return f.answer, how, f.err
	case <-ctx.Done():
		s.abandon(key, f)
		var none A
		return none, how, ctx.Err()
	}
}

// fly makes the answer.
func (s *Store[A]) fly(ctx context.Context, key string, f *flight[A], work func(context.Context) (A, error)) {
	defer f.cancel()
	f.answer, f.err = work(ctx)
	if f.err == nil {
		s.kept.Set(key, f.answer) // before the flight ends, so that nobody comes between
	}
	s.mu.Lock()
	s.forget(key, f)
	s.mu.Unlock()
	close(f.done)
}

// abandon takes one caller off the flight. When it was the last, the work ends,
// and whoever asks next begins anew.
func (s *Store[A]) abandon(key string, f *flight[A]) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if f.callers--; f.callers == 0 {
		s.forget(key, f)
		f.cancel()
	}
}

// forget takes a flight off the list, under the lock.
func (s *Store[A]) forget(key string, f *flight[A]) {
	if s.flights[key] == f {
		delete(s.flights, key)
	}
}

// Bytes is how much is kept, with the names.
func (s *Store[A]) Bytes() uint64 { return s.kept.WeightedSize() + s.other.WeightedSize() }
