package httpapi_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"regexp"
	"strings"
	"testing"
)

// pageTemplate is the path of the contract that a page's path is of.
func pageTemplate(path string) string {
	for _, one := range []struct{ of, template string }{
		{`/v1/furniture/[^/]+`, "/v1/furniture/{kind}"},
		{`/v1/furniture/[^/]+/picture`, "/v1/furniture/{kind}/picture"},
		{`/quote/[^/]+/quote\.js`, "/quote/{version}/quote.js"},
		{`/demo/assets/[^/]+`, "/demo/assets/{file}"},
		{`/demo/[^/]+`, "/demo/{page}"},
		{`/docs/assets/[^/]+`, "/docs/assets/{file}"},
	} {
		if regexp.MustCompile("^" + one.of + "$").MatchString(path) {
			return one.template
		}
	}
	return path
}

// quotePath is that of the quote element by its version.
func quotePath(t *testing.T) string {
	t.Helper()
	return "/quote/" + newServer(t, options()).QuoteVersion() + "/quote.js"
}

func TestPagesAreServed(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct{ path, media, cache, shared string }{
		{"/quote.js", "text/javascript; charset=utf-8", "no-cache", "*"},
		{quotePath(t), "text/javascript; charset=utf-8", "public, max-age=31536000, immutable", "*"},
		{"/demo/shop", "text/html; charset=utf-8", "no-cache", ""},
		{"/demo/assets/shop.css", "text/css; charset=utf-8", "no-cache", ""},
		{"/docs", "text/html; charset=utf-8", "no-cache", ""},
	} {
		w := c.do("GET", tc.path, "")
		h := w.Header()
		if w.Code != 200 || h.Get("Content-Type") != tc.media || h.Get("Cache-Control") != tc.cache || h.Get("Access-Control-Allow-Origin") != tc.shared {
			t.Errorf("%s: status %d, headers %v", tc.path, w.Code, h)
		}
		if len(w.Body.Bytes()) == 0 {
			t.Errorf("%s: nothing", tc.path)
		}
		again := c.do("GET", tc.path, "", "If-None-Match", h.Get("ETag"))
		if again.Code != http.StatusNotModified || again.Body.Len() > 0 || again.Header().Get("ETag") != h.Get("ETag") {
			t.Errorf("%s: asked again: status %d, %d bytes", tc.path, again.Code, again.Body.Len())
		}
		head := c.do("HEAD", tc.path, "")
		if head.Code != 200 || head.Body.Len() > 0 || head.Header().Get("ETag") != h.Get("ETag") {
			t.Errorf("%s: HEAD: status %d, %d bytes", tc.path, head.Code, head.Body.Len())
		}
	}
}

// What is not there is a problem, and nothing above the folder can be had.
func TestPagesThatAreNotThere(t *testing.T) {
	c := newClient(t, options())
	for _, path := range []string{
		"/demo", "/demo/", "/demo/nonesuch", "/demo/shop.html", "/demo/assets", "/demo/assets/", "/demo/assets/nonesuch.css",
		"/demo/assets/..%2fshop.html", "/demo/..%2f..%2fweb.go", "/demo/assets/a/b", "/docs/", "/docs/index.html", "/docs/assets/",
		"/quote/", "/quote/quote.js", "/quote/0.0.0-00000000/quote.js", "/quote//quote.js", "/quote/1/2/quote.js", "/static/quote.js",
	} {
		if w := c.do("GET", path, ""); w.Code != http.StatusNotFound {
			t.Errorf("%s: status %d", path, w.Code)
		}
	}
	if w := c.do("POST", "/demo/shop", ""); w.Code != http.StatusMethodNotAllowed || w.Header().Get("Allow") != "GET, HEAD" {
		t.Errorf("POST: status %d, Allow %q", w.Code, w.Header().Get("Allow"))
	}
}

// A page says what it may load: nothing of others, and nothing that stands in
// the page itself is run.
func TestPagesPolicies(t *testing.T) {
	c := newClient(t, options())
	for _, path := range []string{"/demo/shop", "/docs"} {
		policy := c.do("GET", path, "").Header().Get("Content-Security-Policy")
		for _, part := range []string{"default-src 'none'", "frame-ancestors 'none'", "base-uri 'none'", "script-src 'self'"} {
			if !strings.Contains(policy, part) {
				t.Errorf("%s: %q lacks %q", path, policy, part)
			}
		}
		if strings.Contains(policy, "unsafe") || strings.Contains(policy, "http") {
			t.Errorf("%s: %q", path, policy)
		}
	}
}

// The compressed form says the same, under an ETag of its own.
func TestPagesCompressed(t *testing.T) {
	c := newClient(t, options())
	plain := c.do("GET", "/docs", "")
	for accept, want := range map[string]bool{
		"gzip": true, "gzip, deflate, br": true, "GZIP": true, "*": true, "br;q=1, gzip;q=0.5": true, "x-gzip": true,
		"": false, "br": false, "gzip;q=0": false, "*;q=0": false, "*, gzip;q=0": false, "gzip;q=0, *": false, "gzip;q=oops": false,
	} {
		w := c.do("GET", "/docs", "", "Accept-Encoding", accept)
		if got := w.Header().Get("Content-Encoding") == "gzip"; got != want {
			t.Errorf("Accept-Encoding %q: compressed is %v", accept, got)
			continue
		}
		if !strings.Contains(strings.Join(w.Header().Values("Vary"), ","), "Accept-Encoding") {
			t.Errorf("Accept-Encoding %q: Vary %q", accept, w.Header().Values("Vary"))
		}
		if !want {
			continue
		}
		r, err := gzip.NewReader(w.Body)
		if err != nil {
			t.Fatal(err)
		}
		body, err := io.ReadAll(r)
		if err != nil || !bytes.Equal(body, plain.Body.Bytes()) {
			t.Errorf("Accept-Encoding %q: other bytes, %v", accept, err)
		}
		if w.Header().Get("ETag") == plain.Header().Get("ETag") {
			t.Error("both forms have one ETag")
		}
	}
}
