package reuse_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/reuse"
)

func size(s string) int { return len(s) }

func nothing() {}

var always = context.Background()

// Asked by many at once, the work is done once, and then never again.
func TestOnce(t *testing.T) {
	s := reuse.New(1<<20, size)
	var made, waited atomic.Int64
	release := make(chan bool)
	work := func(context.Context) (string, error) {
		made.Add(1)
		<-release
		return "an answer", nil
	}
	var all sync.WaitGroup
	counts := make([]atomic.Int64, 3)
	for range 50 {
		all.Go(func() {
			a, how, err := s.Do(always, "key", work, func() { waited.Add(1) })
			if a != "an answer" || err != nil {
				t.Errorf("%q, %v", a, err)
			}
			counts[how].Add(1)
		})
	}
	for made.Load() == 0 || waited.Load() < 49 {
		time.Sleep(time.Millisecond)
	}
	close(release)
	all.Wait()
	if made.Load() != 1 || counts[reuse.Made].Load() != 1 || counts[reuse.Joined].Load() != 49 {
		t.Errorf("made %d times, %d joined", made.Load(), counts[reuse.Joined].Load())
	}
	if a, how, err := s.Do(always, "key", nil, nothing); a != "an answer" || how != reuse.Kept || err != nil {
		t.Errorf("later: %q, %v, %v", a, how, err)
	}
	if _, how, _ := s.Do(always, "another key", work, nothing); how != reuse.Made {
		t.Errorf("another key: %v", how)
	}
	if s.Bytes() == 0 {
		t.Error("nothing is kept")
	}
}

// The first caller goes; the work goes on for the second. The second goes too; the
// work ends, and the next caller has it done anew.
func TestCallersGo(t *testing.T) {
	s := reuse.New(1<<20, size)
	begun, ended, release := make(chan bool, 2), make(chan bool, 2), make(chan bool)
	work := func(ctx context.Context) (string, error) {
		begun <- true
		select {
		case <-ctx.Done():
			ended <- true
			return "", ctx.Err()
		case <-release:
			return "an answer", nil
		}
	}
	first, firstGoes := context.WithCancel(always)
	second, secondGoes := context.WithCancel(always)
	errs := make(chan error, 2)
	joined := make(chan bool)
	go func() {
		_, _, err := s.Do(first, "key", work, nothing)
		errs <- err
	}()
	<-begun
	go func() {
		_, _, err := s.Do(second, "key", work, func() { close(joined) })
		errs <- err
	}()
	<-joined
	firstGoes()
	if err := <-errs; !errors.Is(err, context.Canceled) {
		t.Errorf("the first: %v", err)
	}
	select {
	case <-ended:
		t.Fatal("the work ended with the first caller")
	case <-time.After(20 * time.Millisecond):
	}
	secondGoes()
	if err := <-errs; !errors.Is(err, context.Canceled) {
		t.Errorf("the second: %v", err)
	}
	<-ended
	close(release)
	if a, how, err := s.Do(always, "key", work, nothing); a != "an answer" || how != reuse.Made || err != nil {
		t.Errorf("the next: %q, %v, %v", a, how, err)
	}
}

func TestErrorsAreNotKept(t *testing.T) {
	s := reuse.New(1<<20, size)
	bad := errors.New("full")
	for range 2 {
		if _, how, err := s.Do(always, "key", func(context.Context) (string, error) { return "", bad }, nothing); !errors.Is(err, bad) || how != reuse.Made {
			t.Errorf("%v, %v", how, err)
		}
	}
	if a, how, _ := s.Do(always, "key", func(context.Context) (string, error) { return "an answer", nil }, nothing); a != "an answer" || how != reuse.Made {
		t.Errorf("%q, %v", a, how)
	}
}

// However much is asked, no more is kept than there is room for, and what is too
// large for it is answered all the same.
func TestRoom(t *testing.T) {
	const room = 64 << 10
	s := reuse.New(room, size)
	for i := range 2000 {
		want := strings.Repeat("x", i%5000)
		s.Name(strings.Repeat("n", i%100)+fmt.Sprint(i), fmt.Sprint(i))
		if a, _, err := s.Do(always, fmt.Sprint(i), func(context.Context) (string, error) { return want, nil }, nothing); a != want || err != nil {
			t.Fatal(err)
		}
	}
	big := strings.Repeat("x", 2*room)
	if a, _, _ := s.Do(always, "big", func(context.Context) (string, error) { return big, nil }, nothing); a != big {
		t.Error("the answer that is too large is not answered")
	}
	for range 1000 { // what is too much is thrown out beside the work
		if s.Bytes() <= room+room/16 {
			return
		}
		time.Sleep(time.Millisecond)
	}
	t.Errorf("%d bytes are kept", s.Bytes())
}

// An answer is found by another name, as long as it is kept.
func TestNames(t *testing.T) {
	s := reuse.New(1<<20, size)
	if a, ok := s.Named("name"); ok {
		t.Errorf("%q", a)
	}
	s.Name("name", "key")
	if a, ok := s.Named("name"); ok {
		t.Errorf("not made yet: %q", a)
	}
	_, _, _ = s.Do(always, "key", func(context.Context) (string, error) { return "an answer", nil }, nothing)
	if a, ok := s.Named("name"); !ok || a != "an answer" {
		t.Errorf("%q, %v", a, ok)
	}
}

// Many callers who come and go at will; nobody waits for ever and nothing stays.
func TestManyComeAndGo(t *testing.T) {
	s := reuse.New(1<<10, size)
	var all sync.WaitGroup
	for i := range 400 {
		all.Go(func() {
			ctx, cancel := context.WithTimeout(always, time.Duration(i%7)*time.Millisecond)
			defer cancel()
			want := fmt.Sprint(i % 5)
			a, _, err := s.Do(ctx, want, func(ctx context.Context) (string, error) {
				select {
				case <-time.After(3 * time.Millisecond):
					return want, nil
				case <-ctx.Done():
					return "", ctx.Err()
				}
			}, nothing)
			if err == nil && a != want {
				t.Errorf("%q, want %q", a, want)
			}
		})
	}
	all.Wait()
}
