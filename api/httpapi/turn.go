package httpapi

import (
	"context"
	"errors"
	"math/rand/v2"
	"strconv"
	"sync"
	"time"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/service"
)

// turn is the place of one request in a lane: first the light one, where bodies
// are read and short calculations are made, then perhaps the heavy one, which
// leaves a core to the others. It is in one of them at a time, or in none.
type turn struct {
	s     *Server
	heavy bool // must move over before it works

	account *admit.Account // pays for the time in a place; nil for nobody

	mu    sync.Mutex
	moved bool
	leave func()
	since time.Time // when the place was entered
}

// begin enters the light lane.
func (s *Server) begin(ctx context.Context, op *row) (*turn, error) {
	leave, err := s.light.Enter(ctx)
	if err != nil {
		return nil, shed(err, lightRetry)
	}
	account, _ := ctx.Value(accountKey).(*admit.Account)
	return &turn{s: s, heavy: op.lane == laneHeavy, account: account, leave: leave, since: time.Now()}, nil
}

// moveOver leaves the light lane and waits for a place in the heavy one.
func (t *turn) moveOver(ctx context.Context) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.moved {
		return nil
	}
	t.drop()
	leave, err := t.s.heavy.Enter(ctx)
	if err != nil {
		return shed(err, heavyRetry)
	}
	t.leave, t.moved, t.since = leave, true, time.Now()
	return nil
}

// end gives the place back. It may be called more than once.
func (t *turn) end() {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.drop()
}

func (t *turn) drop() {
	if t.leave != nil {
		t.leave()
		t.leave = nil
		t.account.Charge(time.Since(t.since))
	}
}

// overrun is the context of work in the light lane. Work polls its context; once
// the time for light work is up, Err waits for a place in the heavy lane, and
// the work is held until there is one. So it costs others nothing, and its
// answer is the same.
type overrun struct {
	context.Context
	t      *turn
	after  time.Time
	once   sync.Once
	failed error // there was no place
}

// Err is the error of the context, or why there was no place in the heavy lane.
func (o *overrun) Err() error {
	if err := o.Context.Err(); err != nil {
		return err
	}
	if time.Now().Before(o.after) {
		return nil
	}
	o.once.Do(func() { o.failed = o.t.moveOver(o.Context) })
	return o.failed
}

// inTurn works when its turn has come, and within the time there is.
func inTurn[A any](ctx context.Context, s *Server, work func(context.Context) (*A, error)) (*A, error) {
	timed, cancel := context.WithTimeout(ctx, s.timeFor(ctx))
	defer cancel()
	doing := timed
	t, _ := ctx.Value(turnKey).(*turn)
	switch {
	case t == nil: // a line of many, or no server at all
		begun := time.Now()
		leave, err := s.heavy.Await(timed)
		if line, ok := ctx.Value(lineKey).(*lineWork); ok { // which pays for all else
			line.waited += time.Since(begun)
		}
		if err != nil {
			return nil, shed(err, heavyRetry)
		}
		defer leave()
	case t.heavy:
		if err := t.moveOver(timed); err != nil {
			return nil, err
		}
	default:
		doing = &overrun{Context: timed, t: t, after: time.Now().Add(s.opts.LightTime)}
	}
	ans, err := work(doing)
	switch {
	case err != nil && ctx.Err() != nil:
		return nil, left("its answer came", lightRetry)
	case err != nil && (timed.Err() != nil || errors.Is(err, service.ErrHurried)):
		s.gate.deadlines.Inc()
		return nil, problem(tookTooLong, "").with("Retry-After", strconv.Itoa(heavyRetry.seconds()))
	case err != nil:
		return nil, err // perhaps that there was no place to move over to
	case ans == nil:
		return nil, errors.New("no answer and no error")
	}
	return ans, nil
}

// workers is how many parts of one answer may be worked on at the same time: one
// for the place that it has, and one for each that nobody wants now, but no more than half of all. They must be
// given back.
func (s *Server) workers() (n int, back func()) {
	leaves := []func(){}
	for 1+len(leaves) < (s.opts.Solves+1)/2 {
		leave, ok := s.heavy.Try()
		if !ok {
			break
		}
		leaves = append(leaves, leave)
	}
	return 1 + len(leaves), func() {
		for _, leave := range leaves {
			leave()
		}
	}
}

// within are the seconds after which to try again: some of them, at random, so
// that those who were sent away together do not come back together.
type within struct{ least, most int }

var (
	lightRetry = within{1, 3}
	heavyRetry = within{2, 8}
)

func (w within) seconds() int { return w.least + rand.IntN(w.most-w.least+1) } //nolint:gosec // nothing hangs on it being guessed

// shed is the problem of a request that got no turn.
func shed(err error, again within) error {
	switch {
	case errors.Is(err, admit.ErrFull), errors.Is(err, admit.ErrWaited):
		return retry("the service is full", again)
	}
	return left("its turn came", again)
}

// left is the problem of a request that ended before something came of it: mostly
// since its client had left, so that nobody reads this.
func left(before string, again within) *Problem {
	p := retry("the request ended before "+before, again)
	p.left = true
	return p
}

// retry is the problem of a request that may be sent again as it is.
func retry(detail string, again within) *Problem {
	return problem(unavailable, detail).with("Retry-After", strconv.Itoa(again.seconds()))
}
