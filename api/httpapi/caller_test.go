package httpapi_test

import (
	"bytes"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"strconv"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/api/keyring"
)

// ringOf has two keys of the workroom and one of a supplier with quotas of its own.
func ringOf(t testing.TB) (ring *keyring.Ring, workroom, second, supplier string) {
	t.Helper()
	workroom, a := keyring.New()
	second, b := keyring.New()
	supplier, c := keyring.New()
	ring, err := keyring.Read(strings.NewReader(fmt.Sprintf("harbour-lane %s\nharbour-lane %s\nsupplier %s rate=2\n", a, b, c)))
	if err != nil {
		t.Fatal(err)
	}
	return ring, workroom, second, supplier
}

// from sends a request for a short answer from an address.
func (c *client) from(address, key string, header ...string) *httptest.ResponseRecorder {
	c.t.Helper()
	r := httptest.NewRequest(http.MethodPost, "/v1/pleats", strings.NewReader(`{}`))
	r.RemoteAddr = address
	r.Header.Set("Content-Type", "application/json")
	if key != "" {
		r.Header.Set("Authorization", "Bearer "+key)
	}
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Add(header[i], header[i+1])
	}
	return c.send(r)
}

// Keys are optional, until an operation needs one; a wrong one is never taken for
// none, and the problem says nothing of it.
func TestKeys(t *testing.T) {
	ring, workroom, second, _ := ringOf(t)
	stranger, _ := keyring.New()
	opts := options()
	opts.Keys, opts.KeyFor = ring, []string{"piping"}
	c := newClient(t, opts)
	for _, tc := range []struct {
		name, path string
		header     []string
		status     int
	}{
		{"no key, none needed", "/v1/pleats", nil, 422},
		{"a key, none needed", "/v1/pleats", []string{"Authorization", "Bearer " + workroom}, 422},
		{"no key, one needed", "/v1/piping", nil, 401},
		{"a key", "/v1/piping", []string{"Authorization", "Bearer " + workroom}, 422},
		{"the other key", "/v1/piping", []string{"Authorization", "bearer   " + second}, 422},
		{"a stranger's key", "/v1/piping", []string{"Authorization", "Bearer " + stranger}, 401},
		{"a stranger's key, none needed", "/v1/pleats", []string{"Authorization", "Bearer " + stranger}, 401},
		{"half a key", "/v1/pleats", []string{"Authorization", "Bearer " + workroom[:20]}, 401},
		{"another scheme", "/v1/pleats", []string{"Authorization", "Basic " + workroom}, 401},
		{"the bare key", "/v1/pleats", []string{"Authorization", workroom}, 401},
		{"two keys", "/v1/pleats", []string{"Authorization", "Bearer " + workroom, "Authorization", "Bearer " + second}, 401},
		{"empty", "/v1/pleats", []string{"Authorization", ""}, 401},
		{"key in the address", "/v1/pleats?api_key=" + workroom, nil, 401},
		{"key in the address and in its place", "/v1/pleats?KEY=" + workroom, []string{"Authorization", "Bearer " + workroom}, 401},
		{"another thing in the address", "/v1/pleats?q=1", nil, 422},
		{"probe with a wrong key", "/livez", []string{"Authorization", "Bearer " + stranger}, 405},
	} {
		w := c.do(http.MethodPost, tc.path, "{}", append([]string{"Content-Type", "application/json"}, tc.header...)...)
		if w.Code != tc.status || (w.Header().Get("WWW-Authenticate") != "") != (tc.status == 401) {
			t.Errorf("%s: status %d, want %d, WWW-Authenticate %q", tc.name, w.Code, tc.status, w.Header().Get("WWW-Authenticate"))
		}
		if strings.Contains(w.Body.String(), "bridletie_") {
			t.Errorf("%s: the answer shows a key", tc.name)
		}
	}
	opts.KeyFor = []string{"*"}
	if w := newClient(t, opts).do(http.MethodGet, "/v1/furniture", ""); w.Code != 401 {
		t.Errorf("every operation needs a key: status %d", w.Code)
	}
	if w := newClient(t, opts).do(http.MethodGet, "/openapi.json", ""); w.Code != 200 {
		t.Errorf("the contract needs none: status %d", w.Code)
	}
	for _, ids := range [][]string{{"nonesuch"}, {"livez"}, {"*", "piping"}} {
		opts.KeyFor = ids
		if _, err := httpapi.New(opts); err == nil {
			t.Errorf("%q may need keys", ids)
		}
	}
	opts.Keys, opts.KeyFor = nil, []string{"piping"}
	if _, err := httpapi.New(opts); err == nil {
		t.Error("operations need keys that there are not")
	}
}

// No key, and no hash, is in any log, metric or answer.
func TestNoSecretsInTheLog(t *testing.T) {
	ring, workroom, _, _ := ringOf(t)
	stranger, _ := keyring.New()
	opts := options()
	var log bytes.Buffer
	opts.Keys, opts.Log = ring, slog.New(slog.NewJSONHandler(&log, nil))
	server := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	var answers strings.Builder
	for _, w := range []*httptest.ResponseRecorder{
		c.from("192.0.2.77:1", workroom),
		c.from("192.0.2.77:1", stranger),
		c.from("192.0.2.77:1", "", "Authorization", "Basic "+workroom, "Cookie", workroom),
		c.do(http.MethodPost, "/v1/pleats?token="+workroom, "{}", "Content-Type", "application/json"),
		c.do(http.MethodGet, "/"+workroom, ""),
		c.do(http.MethodPost, "/v1/pleats", `{"`+workroom[:40]+`":1}`, "Content-Type", "application/json", "Authorization", "Bearer "+workroom),
	} {
		fmt.Fprint(&answers, w.Header())
	}
	all := log.String() + scrape(server.MetricsHandler()) + answers.String()
	for _, secret := range []string{workroom[10:], stranger[10:], workroom[:25]} {
		if strings.Contains(all, secret) {
			t.Errorf("%q stands in what was said", secret)
		}
	}
	for _, want := range []string{`"caller":"key","client":"harbour-lane","from":"192.0.2.0/24"`, `"caller":"anonymous","client":""`} {
		if !strings.Contains(log.String(), want) {
			t.Errorf("no %s in %s", want, &log)
		}
	}
	if strings.Contains(log.String(), "192.0.2.77") {
		t.Error("the log has the whole address")
	}
}

// Quotas: what is left is said, what is too much is refused, each caller has its
// own, and who obeys Retry-After is let in.
func TestQuotas(t *testing.T) {
	ring, workroom, second, supplier := ringOf(t)
	opts := options()
	opts.Keys, opts.Rate = ring, admit.Rate{Requests: 3}
	server := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: server.Handler()}
	for i := range 5 {
		w := c.from("192.0.2.1:1000", "")
		h := w.Header()
		if h.Get("RateLimit-Policy") != `"requests";q=3;w=60` {
			t.Fatalf("policy %q", h.Get("RateLimit-Policy"))
		}
		if i < 3 {
			if want := fmt.Sprintf(`"requests";r=%d;t=20`, 2-i); w.Code != 422 || h.Get("RateLimit") != want {
				t.Errorf("request %d: status %d, RateLimit %q, want %q", i, w.Code, h.Get("RateLimit"), want)
			}
			continue
		}
		again, err := strconv.Atoi(h.Get("Retry-After"))
		p := problemOf(t, w)
		if w.Code != 429 || err != nil || again < 1 || again > 20 || h.Get("RateLimit") != fmt.Sprintf(`"requests";r=0;t=%d`, again) ||
			p.ViolatedPolicies == nil || fmt.Sprint(*p.ViolatedPolicies) != "[requests]" {
			t.Errorf("request %d: status %d, %v: %s", i, w.Code, h, w.Body)
		}
	}
	for name, tc := range map[string]struct {
		w      *httptest.ResponseRecorder
		status int
	}{
		"another address":              {c.from("192.0.2.2:1", ""), 422},
		"the same with another port":   {c.from("192.0.2.1:2", ""), 429},
		"a made-up forwarder":          {c.from("192.0.2.1:2", "", "X-Forwarded-For", "203.0.113.9", "X-Real-Ip", "203.0.113.9"), 429},
		"version 6":                    {c.from("[2001:db8:1:2::1]:1", ""), 422},
		"with a key":                   {c.from("192.0.2.1:2", workroom), 422},
		"with the other key":           {c.from("192.0.2.1:2", second), 422},
		"with a key that is not known": {c.from("192.0.2.1:2", supplier+"x"), 429},
		"probe":                        {c.do(http.MethodGet, "/livez", ""), 200},
	} {
		if tc.w.Code != tc.status {
			t.Errorf("%s: status %d, want %d", name, tc.w.Code, tc.status)
		}
	}
	// The two keys of a client are one caller; the supplier has 2 and no more; a
	// client of version 6 does not get another account by another address.
	if a, b := c.from("192.0.2.1:2", workroom), c.from("192.0.2.1:2", workroom); a.Code != 422 || b.Code != 429 {
		t.Errorf("the workroom: %d, %d", a.Code, b.Code)
	}
	if a, b, d := c.from("192.0.2.1:2", supplier), c.from("192.0.2.9:2", supplier), c.from("192.0.2.1:2", supplier); a.Code != 422 || b.Code != 422 || d.Code != 429 {
		t.Errorf("the supplier: %d, %d, %d", a.Code, b.Code, d.Code)
	}
	c.from("[2001:db8:1:2:ffff::7]:1", "")
	c.from("[2001:db8:1:2:ffff::8]:1", "")
	if w := c.from("[2001:db8:1:2:ffff::9]:1", ""); w.Code != 429 {
		t.Errorf("version 6: status %d", w.Code)
	}
	for _, line := range []string{`bridletie_limited_total{caller="anonymous",policy="requests"} 6`, `bridletie_limited_total{caller="key",policy="requests"} 2`} {
		if m := scrape(server.MetricsHandler()); !strings.Contains(m, line) {
			t.Errorf("no %s", line)
		}
	}
}

// Work is paid for when it is done, by whoever it was done for.
func TestWorkIsPaidFor(t *testing.T) {
	opts := httpapi.DefaultOptions()
	opts.Rate = admit.Rate{Work: 1}
	c := newClient(t, opts)
	if w := c.do(http.MethodPost, "/v1/yardage", job(t, "wing-chair.json"), "Content-Type", "application/json"); w.Code != 200 || w.Header().Get("RateLimit") != `"work";r=1;t=60` {
		t.Fatalf("status %d, RateLimit %q", w.Code, w.Header().Get("RateLimit"))
	}
	w := c.do(http.MethodPost, "/v1/pleats", "{}", "Content-Type", "application/json")
	if p := problemOf(t, w); w.Code != 429 || p.ViolatedPolicies == nil || fmt.Sprint(*p.ViolatedPolicies) != "[work]" {
		t.Errorf("status %d: %s", w.Code, w.Body)
	}
	if again, _ := strconv.Atoi(w.Header().Get("Retry-After")); again < 2 {
		t.Errorf("Retry-After %d", again)
	}
}

// X-Forwarded-For is believed from the proxies that are named, and then only the
// last address that is not one of them.
func TestForwardedFor(t *testing.T) {
	opts := options()
	opts.Rate = admit.Rate{Requests: 1}
	opts.Proxies = []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8"), netip.MustParsePrefix("2001:db8:ffff::/48")}
	c := newClient(t, opts)
	for i, tc := range []struct {
		peer, forwarded string
		status          int
	}{
		{"10.0.0.1:1", "203.0.113.1", 422},
		{"10.0.0.2:1", "203.0.113.1", 429},               // the same client by another proxy
		{"10.0.0.1:1", "203.0.113.2", 422},               // another client
		{"10.0.0.1:1", "203.0.113.99, 203.0.113.2", 429}, // what a client writes in front is not believed
		{"10.0.0.1:1", "203.0.113.3, 10.9.9.9", 422},     // two proxies
		{"192.0.2.1:1", "203.0.113.4", 422},              // no proxy
		{"192.0.2.1:1", "203.0.113.5", 429},
		{"[2001:db8:ffff::1]:1", "203.0.113.6", 422},
		{"[2001:db8:ffff::1]:1", "203.0.113.6", 429},
		{"127.0.0.1:1", "203.0.113.7", 422}, // not named
		{"127.0.0.1:1", "203.0.113.8", 429},
		{"10.0.0.1:1", "rubbish", 422},
	} {
		if w := c.from(tc.peer, "", "X-Forwarded-For", tc.forwarded); w.Code != tc.status {
			t.Errorf("%d, %s for %s: status %d, want %d", i, tc.peer, tc.forwarded, w.Code, tc.status)
		}
	}
}
