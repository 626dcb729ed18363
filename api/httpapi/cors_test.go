package httpapi_test

import (
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
)

const shop = "https://harbour-lane.example"

func corsClient(t *testing.T, origins ...string) *client {
	t.Helper()
	opts := options()
	opts.Origins = origins
	return newClient(t, opts)
}

// Who is let in, on right answers and on problems alike.
func TestCORSByOrigin(t *testing.T) {
	for _, tc := range []struct {
		name    string
		origins []string
		header  []string
		allowed string
		vary    bool
	}{
		{"not configured", nil, []string{"Origin", shop}, "", false},
		{"listed", []string{shop, "http://127.0.0.1:8081"}, []string{"Origin", shop}, shop, true},
		{"the second of the list", []string{"http://127.0.0.1:8081", shop}, []string{"Origin", shop}, shop, true},
		{"not listed", []string{shop}, []string{"Origin", "https://elsewhere.example"}, "", true},
		{"listed but another port", []string{shop}, []string{"Origin", shop + ":444"}, "", true},
		{"listed but another scheme", []string{shop}, []string{"Origin", "http://harbour-lane.example"}, "", true},
		{"a longer name", []string{shop}, []string{"Origin", shop + ".evil.example"}, "", true},
		{"null", []string{shop}, []string{"Origin", "null"}, "", true},
		{"two origins", []string{shop}, []string{"Origin", shop, "Origin", shop}, "", true},
		{"no origin", []string{shop}, nil, "", true},
		{"any", []string{"*"}, []string{"Origin", "https://elsewhere.example"}, "*", false},
		{"any, null", []string{"*"}, []string{"Origin", "null"}, "*", false},
		{"any, with a key", []string{"*"}, []string{"Origin", shop, "Authorization", "Bearer x"}, "", false},
		{"listed, with a key", []string{shop}, []string{"Origin", shop, "Authorization", "Bearer x"}, "", true},
	} {
		c := corsClient(t, tc.origins...)
		header := append([]string{"Content-Type", "application/json"}, tc.header...)
		for what, w := range map[string]*httptest.ResponseRecorder{
			"200": c.do("POST", "/v1/yardage", sound, header...),
			"400": c.do("POST", "/v1/yardage", "{", header...),
			"413": c.do("POST", "/v1/yardage", strings.Repeat(" ", httpapi.MaxBody+1), header...),
			"422": c.do("POST", "/v1/yardage", "{}", header...),
			"404": c.do("POST", "/nowhere", "{}", header...),
			"405": c.do("PUT", "/v1/yardage", "{}", header...),
			"406": c.do("POST", "/v1/yardage", sound, append([]string{"Accept", "text/html"}, header...)...),
			"GET": c.do("GET", "/v1/furniture", "", tc.header...),
		} {
			h := w.Header()
			if got := h.Get("Access-Control-Allow-Origin"); got != tc.allowed {
				t.Errorf("%s, %s: allowed %q, want %q", tc.name, what, got, tc.allowed)
			}
			if got := slices.Contains(h.Values("Vary"), "Origin"); got != tc.vary {
				t.Errorf("%s, %s: Vary %q", tc.name, what, h.Values("Vary"))
			}
			for _, exposed := range []string{"RateLimit", "RateLimit-Policy", "Retry-After", "X-Request-Id"} {
				if got := strings.Contains(h.Get("Access-Control-Expose-Headers")+",", exposed+","); got != (tc.allowed != "") {
					t.Errorf("%s, %s: exposed are %q", tc.name, what, h.Get("Access-Control-Expose-Headers"))
				}
			}
			if h.Get("Access-Control-Allow-Credentials") != "" {
				t.Errorf("%s, %s: credentials are allowed", tc.name, what)
			}
		}
	}
}

func TestCORSPreflight(t *testing.T) {
	for _, tc := range []struct {
		name, path string
		header     []string
		status     int
		methods    string
	}{
		{"POST", "/v1/yardage", []string{"Origin", shop, "Access-Control-Request-Method", "POST", "Access-Control-Request-Headers", "content-type"}, 204, "POST"},
		{"GET", "/v1/furniture/wing-chair", []string{"Origin", shop, "Access-Control-Request-Method", "GET"}, 204, "GET, HEAD"},
		{"a method that is not there", "/v1/yardage", []string{"Origin", shop, "Access-Control-Request-Method", "PUT"}, 204, "POST"},
		{"no such path", "/nowhere", []string{"Origin", shop, "Access-Control-Request-Method", "POST"}, 404, ""},
		{"not listed", "/v1/yardage", []string{"Origin", "https://elsewhere.example", "Access-Control-Request-Method", "POST"}, 405, ""},
		{"no origin", "/v1/yardage", []string{"Access-Control-Request-Method", "POST"}, 405, ""},
		{"no preflight", "/v1/yardage", []string{"Origin", shop}, 405, ""},
	} {
		w := corsClient(t, shop).do("OPTIONS", tc.path, "", tc.header...)
		h := w.Header()
		if w.Code != tc.status || h.Get("Access-Control-Allow-Methods") != tc.methods {
			t.Errorf("%s: status %d, methods %q, want %d, %q", tc.name, w.Code, h.Get("Access-Control-Allow-Methods"), tc.status, tc.methods)
		}
		if tc.status != 204 {
			continue
		}
		allowed := strings.ToLower(h.Get("Access-Control-Allow-Headers"))
		if !strings.Contains(allowed, "content-type") || strings.Contains(allowed, "authorization") || strings.Contains(allowed, "*") {
			t.Errorf("%s: headers %q", tc.name, allowed)
		}
		if h.Get("Access-Control-Max-Age") != "7200" || h.Get("Access-Control-Allow-Origin") != shop || w.Body.Len() > 0 {
			t.Errorf("%s: %v, %d bytes", tc.name, h, w.Body.Len())
		}
	}
}

func TestBadOrigins(t *testing.T) {
	for _, list := range [][]string{
		{"null"}, {"harbour-lane.example"}, {"https://harbour-lane.example/"}, {"https://Harbour-Lane.example"},
		{"ftp://x.example"}, {"https://"}, {"*", shop}, {"https://*.example"}, {"https://x.example/y"}, {""}, {"https://u@x.example"},
	} {
		opts := options()
		opts.Origins = list
		if _, err := httpapi.New(opts); err == nil {
			t.Errorf("%q is taken for a list of origins", list)
		}
	}
}
