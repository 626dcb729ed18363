package admit_test

import (
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/admit"
)

var always = context.Background()

func enter(t *testing.T, l *admit.Lane) func() {
	t.Helper()
	leave, err := l.Enter(always)
	if err != nil {
		t.Fatal(err)
	}
	return leave
}

func TestLane(t *testing.T) {
	l := admit.NewLane(1, 1, time.Hour, nil)
	leave := enter(t, l)
	second := make(chan error)
	ctx, cancel := context.WithCancel(always)
	go func() {
		leave, err := l.Enter(ctx)
		if err == nil {
			leave()
		}
		second <- err
	}()
	for l.State().Waiting == 0 {
		time.Sleep(time.Millisecond)
	}
	if !l.Full() {
		t.Error("a slot taken and the queue taken is not full")
	}
	if _, err := l.Enter(always); !errors.Is(err, admit.ErrFull) {
		t.Errorf("the third: %v", err)
	}
	if got, want := l.State(), (admit.LaneState{Slots: 1, Busy: 1, Queue: 1, Waiting: 1, Full: 1}); got != want {
		t.Errorf("state %+v, want %+v", got, want)
	}
	leave()
	if err := <-second; err != nil {
		t.Errorf("the second, when the first had left: %v", err)
	}

	leave = enter(t, l)
	go func() {
		_, err := l.Enter(ctx)
		second <- err
	}()
	for l.State().Waiting == 0 {
		time.Sleep(time.Millisecond)
	}
	cancel()
	if err := <-second; !errors.Is(err, context.Canceled) {
		t.Errorf("one who has gone: %v", err)
	}
	if got := l.State(); got.Waiting != 0 || got.Busy != 1 {
		t.Errorf("after one has gone: %+v", got)
	}
	leave()
	if got := l.State(); got.Busy != 0 || l.Full() {
		t.Errorf("empty: %+v", got)
	}
}

func TestLaneWaits(t *testing.T) {
	l := admit.NewLane(1, 1, time.Millisecond, nil)
	leave := enter(t, l)
	if _, err := l.Enter(always); !errors.Is(err, admit.ErrWaited) {
		t.Errorf("no turn: %v", err)
	}
	if _, ok := l.Try(); ok {
		t.Error("a slot that is taken was given")
	}
	ctx, cancel := context.WithCancel(always)
	cancel()
	if _, err := l.Await(ctx); err == nil {
		t.Error("one who has gone got a turn")
	}
	leave()
	if leave, err := l.Await(always); err != nil {
		t.Error(err)
	} else {
		leave()
	}
	if got := l.State(); got.Late != 1 || got.Busy != 0 {
		t.Errorf("state %+v", got)
	}
}

// However many come, never are more at work than there are slots, nor more
// waiting than there is queue, and at the end nobody is left.
func TestLaneUnderLoad(t *testing.T) {
	const slots, queue = 3, 4
	l := admit.NewLane(slots, queue, time.Second, nil)
	var at, most, served, refused atomic.Int64
	var all sync.WaitGroup
	for range 200 {
		all.Go(func() {
			leave, err := l.Enter(always)
			if err != nil {
				refused.Add(1)
				return
			}
			defer leave()
			n := at.Add(1)
			for m := most.Load(); n > m && !most.CompareAndSwap(m, n); m = most.Load() {
			}
			time.Sleep(time.Millisecond)
			at.Add(-1)
			served.Add(1)
		})
	}
	all.Wait()
	s := l.State()
	if most.Load() > slots || served.Load() < slots || served.Load()+refused.Load() != 200 || s.Busy != 0 || s.Waiting != 0 ||
		s.Full+s.Late != uint64(refused.Load()) {
		t.Errorf("most %d, served %d, refused %d: %+v", most.Load(), served.Load(), refused.Load(), s)
	}
}
