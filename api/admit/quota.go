package admit

import (
	"math"
	"sync"
	"time"

	"github.com/maypok86/otter/v2"
	"golang.org/x/time/rate"
)

// Window is the period of the quotas.
const Window = time.Minute

// Rate holds the quotas of one client in a Window. 0 means no quota.
type Rate struct {
	Requests int // number of requests
	Work     int // milliseconds for which the client may hold slots
}

// None reports whether there is no quota at all.
func (r Rate) None() bool { return r.Requests <= 0 && r.Work <= 0 }

// The names of the quotas.
const (
	PolicyRequests = "requests"
	PolicyWork     = "work"
)

// Left is the remainder of a quota.
type Left struct {
	Policy string
	Quota  int
	Rest   int
	Again  int  // seconds until the remainder grows
	Used   bool // whether the quota is used up
}

// Verdict says whether a request is allowed, and the remainder of every quota.
type Verdict struct {
	Allowed bool
	Left    []Left
	Again   int // seconds until a request will be allowed, when this one is not
}

// Account tracks the usage of one client as token buckets, which refill evenly over the
// window. Work is charged when it is done and may leave a debt, because its cost is not
// known before.
type Account struct {
	rate Rate
	now  func() time.Time

	mu       sync.Mutex
	requests *rate.Limiter
	work     *rate.Limiter
}

// NewAccount returns an account with full quotas.
func NewAccount(r Rate, now func() time.Time) *Account {
	per := func(n int) *rate.Limiter { return rate.NewLimiter(rate.Limit(float64(n)/Window.Seconds()), n) }
	return &Account{rate: r, now: now, requests: per(max(r.Requests, 0)), work: per(max(r.Work, 0))}
}

// None reports whether the account has no quota.
func (a *Account) None() bool { return a.rate.None() }

// Take charges one request. A refused request is not charged.
func (a *Account) Take() Verdict {
	a.mu.Lock()
	defer a.mu.Unlock()
	now := a.now()
	v := Verdict{Allowed: true}
	if a.rate.Work > 0 {
		v.add(now, PolicyWork, a.work, a.rate.Work, 0)
	}
	if a.rate.Requests > 0 {
		if v.Allowed && a.requests.TokensAt(now) >= 1 {
			a.requests.AllowN(now, 1)
			v.add(now, PolicyRequests, a.requests, a.rate.Requests, -1)
		} else {
			v.add(now, PolicyRequests, a.requests, a.rate.Requests, 1)
		}
	}
	return v
}

// add adds the state of a quota to the verdict. The request is allowed only if at least
// `least` tokens remain; with 0, if any remain.
func (v *Verdict) add(now time.Time, policy string, l *rate.Limiter, quota int, least float64) {
	tokens := l.TokensAt(now)
	perSecond := float64(l.Limit())
	until := func(n float64) int { return max(int(math.Ceil((n-tokens)/perSecond)), 1) }
	left := Left{Policy: policy, Quota: quota, Rest: max(int(math.Floor(tokens+1e-9)), 0)}
	left.Again = until(float64(left.Rest + 1))
	if tokens < least || least == 0 && tokens <= 0 {
		left.Used, left.Rest = true, 0
		left.Again = until(max(least, 1))
		v.Allowed = false
		v.Again = max(v.Again, left.Again)
	}
	v.Left = append(v.Left, left)
}

// Charge charges work that was done.
func (a *Account) Charge(d time.Duration) {
	if a == nil || a.rate.Work <= 0 {
		return
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	now := a.now()
	for n := int(min((d+time.Millisecond-1)/time.Millisecond, 1<<30)); n > 0; n -= a.rate.Work {
		a.work.ReserveN(now, min(n, a.rate.Work))
	}
}

// Accounts holds the accounts of recent and frequent clients, up to a fixed number. A
// client that was evicted starts with full quotas.
type Accounts struct {
	rate    Rate
	now     func() time.Time
	clients *otter.Cache[string, *Account]
}

// NewAccounts returns accounts that all have the same quotas, at most so many.
func NewAccounts(r Rate, most int, now func() time.Time) *Accounts {
	return &Accounts{rate: r, now: now, clients: otter.Must(&otter.Options[string, *Account]{MaximumSize: max(most, 1)})}
}

// Of returns the account of a client.
func (a *Accounts) Of(client string) *Account {
	if account, ok := a.clients.GetIfPresent(client); ok {
		return account
	}
	account, _ := a.clients.SetIfAbsent(client, NewAccount(a.rate, a.now))
	return account
}
