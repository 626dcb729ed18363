// Package reuse is a response cache that deduplicates concurrent requests. Callers with
// the same key share one computation, and later callers get the cached result as long as
// there is room.
package reuse

import (
	"context"
	"sync"

	"github.com/maypok86/otter/v2"
)

// How is the way in which a result was obtained.
type How int

// The values of How.
const (
	Made   How = iota // computed for this caller
	Joined            // shared with a concurrent caller
	Kept              // taken from the cache
)

// String returns the way as a word, for metrics.
func (h How) String() string { return [...]string{"made", "joined", "kept"}[h] }

// Store caches results by key. Results must never be changed. It is safe for concurrent
// use.
type Store[A any] struct {
	kept  *otter.Cache[string, A]
	other *otter.Cache[string, string] // keys by alternative name

	mu      sync.Mutex
	flights map[string]*flight[A]
}

// flight is a computation in progress.
type flight[A any] struct {
	done    chan struct{}
	callers int                // number of callers that wait for it; guarded by the store's lock
	cancel  context.CancelFunc // called when the last of them leaves
	answer  A
	err     error
}

// New returns a store of at most that many bytes, by the size of each result, plus a
// sixteenth for names. Recently and frequently used results are kept longest.
func New[A any](bytes int64, size func(A) int) *Store[A] {
	const entry = 200 // estimated overhead of an entry in bytes
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

// Name adds an alternative name for a key, under which Named finds its result.
func (s *Store[A]) Name(name, key string) { s.other.Set(name, key) }

// Named returns the cached result under an alternative name, and whether there is one.
func (s *Store[A]) Named(name string) (A, bool) {
	if key, ok := s.other.GetIfPresent(name); ok {
		return s.kept.GetIfPresent(key)
	}
	var none A
	return none, false
}

// Do returns the result for a key: from the cache, from a computation in progress, or from
// work. waits is called before Do waits for another caller's work, and when no work is
// needed.
//
// work runs in its own goroutine, with the values of the first caller's context. It is
// cancelled only when all its callers have left. An error is returned to all waiting
// callers and is not cached. work must not panic.
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

// fly runs work and completes the flight.
func (s *Store[A]) fly(ctx context.Context, key string, f *flight[A], work func(context.Context) (A, error)) {
	defer f.cancel()
	f.answer, f.err = work(ctx)
	if f.err == nil {
		s.kept.Set(key, f.answer) // before the flight ends, so that no caller misses both
	}
	s.mu.Lock()
	s.forget(key, f)
	s.mu.Unlock()
	close(f.done)
}

// abandon removes one caller from the flight. After the last one it cancels the work, and
// the next caller starts anew.
func (s *Store[A]) abandon(key string, f *flight[A]) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if f.callers--; f.callers == 0 {
		s.forget(key, f)
		f.cancel()
	}
}

// forget removes a flight from the list. The caller holds the lock.
func (s *Store[A]) forget(key string, f *flight[A]) {
	if s.flights[key] == f {
		delete(s.flights, key)
	}
}

// Bytes returns the size of the cache, including names.
func (s *Store[A]) Bytes() uint64 { return s.kept.WeightedSize() + s.other.WeightedSize() }
