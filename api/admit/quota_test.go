package admit_test

import (
	"fmt"
	"runtime"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/admit"
)

// clock is a time that is set by hand.
type clock struct{ at time.Time }

func (c *clock) now() time.Time { return c.at }

func newClock() *clock { return &clock{time.Unix(1_800_000_000, 0)} }

// A client may use all of its quota at once, is then told when to come back, and
// who obeys is let in every time.
func TestRequestsQuota(t *testing.T) {
	c := newClock()
	a := admit.NewAccount(admit.Rate{Requests: 12}, c.now)
	for i := range 12 {
		v := a.Take()
		if !v.Allowed || v.Left[0].Rest != 11-i || v.Left[0].Quota != 12 || v.Left[0].Policy != "requests" {
			t.Fatalf("request %d: %+v", i, v)
		}
	}
	for range 20 {
		for range 3 { // to be refused costs nothing
			v := a.Take()
			if v.Allowed || !v.Left[0].Used || v.Left[0].Rest != 0 || v.Again < 1 || v.Again > 6 || v.Again < v.Left[0].Again {
				t.Fatalf("used: %+v", v)
			}
		}
		c.at = c.at.Add(time.Duration(a.Take().Again) * time.Second)
		if v := a.Take(); !v.Allowed {
			t.Fatalf("who obeyed is refused: %+v", v)
		}
	}
	c.at = c.at.Add(time.Hour)
	if v := a.Take(); v.Left[0].Rest != 11 {
		t.Errorf("after an hour: %+v", v)
	}
}

// Work is paid for afterwards, and a debt of many windows is worked off first.
func TestWorkQuota(t *testing.T) {
	c := newClock()
	a := admit.NewAccount(admit.Rate{Work: 6000}, c.now)
	a.Charge(5999 * time.Millisecond)
	if v := a.Take(); !v.Allowed || v.Left[0].Rest != 1 {
		t.Errorf("1 ms left: %+v", v)
	}
	a.Charge(12001 * time.Millisecond)
	v := a.Take()
	if v.Allowed || v.Left[0].Policy != "work" || v.Again < 119 || v.Again > 121 {
		t.Errorf("a debt of 12 s, worked off at 100 ms a second: %+v", v)
	}
	c.at = c.at.Add(time.Duration(v.Again) * time.Second)
	if v := a.Take(); !v.Allowed {
		t.Errorf("worked off: %+v", v)
	}
	a.Charge(time.Hour * 1000) // ends
	var none *admit.Account
	none.Charge(time.Second)
	admit.NewAccount(admit.Rate{Requests: 1}, c.now).Charge(time.Second)
}

func TestBothQuotas(t *testing.T) {
	c := newClock()
	a := admit.NewAccount(admit.Rate{Requests: 2, Work: 60}, c.now)
	a.Charge(60 * time.Millisecond)
	if v := a.Take(); v.Allowed || len(v.Left) != 2 || !v.Left[0].Used || v.Left[1].Used || v.Left[1].Rest != 2 {
		t.Errorf("no work left, and so no request taken: %+v", v)
	}
	if v := admit.NewAccount(admit.Rate{}, c.now).Take(); !v.Allowed || len(v.Left) != 0 {
		t.Errorf("no quota: %+v", v)
	}
}

// Each client has its own account, and a million of them do not fill the memory.
func TestAccounts(t *testing.T) {
	c := newClock()
	accounts := admit.NewAccounts(admit.Rate{Requests: 1}, 4096, c.now)
	if !accounts.Of("a").Take().Allowed || accounts.Of("a").Take().Allowed || !accounts.Of("b").Take().Allowed {
		t.Error("a and b share an account, or a has none")
	}
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	for i := range 1_000_000 {
		accounts.Of(fmt.Sprint(i)).Take()
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	if grown := int64(after.HeapAlloc) - int64(before.HeapAlloc); grown > 20<<20 {
		t.Errorf("%d bytes more", grown)
	}
	runtime.KeepAlive(accounts)
}
