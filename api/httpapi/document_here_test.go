package httpapi_test

import (
	"bytes"
	"compress/gzip"
	"crypto/tls"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/httpapi"
)

// fileSays is where openapi.yaml says that it is served.
const fileSays = "http://127.0.0.1:8080"

// servedTo is the server that a document names, which must be the only one.
func servedTo(t *testing.T, body []byte) string {
	t.Helper()
	doc, err := openapi3.NewLoader().LoadFromData(body)
	if err != nil {
		t.Fatal(err)
	}
	if len(doc.Servers) != 1 {
		t.Fatalf("%d servers", len(doc.Servers))
	}
	return doc.Servers[0].URL
}

func TestDocumentNamesItsHost(t *testing.T) {
	opts := options()
	opts.Proxies = []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8")}
	small := opts
	small.Panels = 3 // which makes the document in YAML another one
	for i, tc := range []struct {
		peer, host string
		secure     bool
		proto, fwd string
		want       string
	}{
		{"192.0.2.1:1", "plans.example", false, "", "", "http://plans.example"},
		{"192.0.2.1:1", "Plans.Example:8443", true, "", "", "https://plans.example:8443"},
		{"192.0.2.1:1", "[2001:db8::1]:80", false, "", "", "http://[2001:db8::1]:80"},
		{"192.0.2.1:1", "plans.example", false, "https", "evil.example", "http://plans.example"}, // no proxy
		{"10.0.0.1:1", "inside:8080", false, "https", "plans.example", "https://plans.example"},
		{"10.0.0.1:1", "inside:8080", false, "http, https", "evil.example, plans.example", "https://plans.example"}, // the nearest proxy is believed
		{"10.0.0.1:1", "inside:8080", false, "https", "", "https://inside:8080"},
		{"10.0.0.1:1", "inside:8080", false, "ftp", "plans.example", "http://plans.example"},
		{"10.0.0.1:1", "inside:8080", false, "https", "a b", fileSays},
		{"no address", "plans.example", false, "https", "evil.example", "http://plans.example"},
		{"192.0.2.1:1", "", false, "", "", fileSays},
		{"192.0.2.1:1", "plans.example/path", false, "", "", fileSays},
		{"192.0.2.1:1", `a"b`, false, "", "", fileSays},
		{"192.0.2.1:1", "a\nservers: []", false, "", "", fileSays},
		{"192.0.2.1:1", "a@b", false, "", "", fileSays},
		{"192.0.2.1:1", "${jndi}", false, "", "", fileSays},
		{"192.0.2.1:1", strings.Repeat("a", 300), false, "", "", fileSays},
	} {
		for _, o := range []httpapi.Options{opts, small} {
			handler := newServer(t, o).Handler()
			for _, path := range []string{"/openapi.yaml", "/openapi.json"} {
				r := httptest.NewRequest(http.MethodGet, path, nil)
				r.RemoteAddr, r.Host, r.TLS = tc.peer, tc.host, nil
				if tc.secure {
					r.TLS = &tls.ConnectionState{}
				}
				if tc.proto != "" {
					r.Header.Set("X-Forwarded-Proto", tc.proto)
				}
				if tc.fwd != "" {
					r.Header.Set("X-Forwarded-Host", tc.fwd)
				}
				w := httptest.NewRecorder()
				handler.ServeHTTP(w, r)
				if w.Code != http.StatusOK {
					t.Fatalf("%d, %s: status %d", i, path, w.Code)
				}
				if got := servedTo(t, w.Body.Bytes()); got != tc.want {
					t.Errorf("%d, %s: the server is %q, want %q", i, path, got, tc.want)
				}
			}
		}
	}
}

// Each host has its document with its own ETag, however many ask; those that came
// first have it compressed too.
func TestDocumentOfManyHosts(t *testing.T) {
	handler := newServer(t, options()).Handler()
	ask := func(host, tag string, zipped bool) *httptest.ResponseRecorder {
		r := httptest.NewRequest(http.MethodGet, "/openapi.yaml", nil)
		r.Host = host
		r.Header.Set("If-None-Match", tag)
		if zipped {
			r.Header.Set("Accept-Encoding", "gzip")
		}
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		return w
	}
	tags := make(map[string]string)
	for i := range 12 {
		host := fmt.Sprintf("h%d.example", i)
		first := ask(host, "", false)
		tag := first.Header().Get("ETag")
		if !bytes.Contains(first.Body.Bytes(), []byte(`"http://`+host+`"`)) {
			t.Errorf("the document of %s does not name it", host)
		}
		if other, been := tags[tag]; been || tag == "" {
			t.Errorf("%s and %s have the ETag %q", host, other, tag)
		}
		tags[tag] = host
		if w := ask(host, tag, false); w.Code != http.StatusNotModified || w.Header().Get("ETag") != tag {
			t.Errorf("%s, asked again: status %d, ETag %s", host, w.Code, w.Header().Get("ETag"))
		}
		if w := ask("other.example", tag, false); w.Code != http.StatusOK {
			t.Errorf("another host has the document of %s: status %d", host, w.Code)
		}
		w := ask(host, "", true)
		plain := w.Body.Bytes()
		if packed := w.Header().Get("Content-Encoding") == "gzip"; packed != (i < 3) { // and the other one
			t.Errorf("%s: compressed is %v", host, packed)
		} else if packed {
			unzip, err := gzip.NewReader(bytes.NewReader(plain))
			if err != nil {
				t.Fatal(err)
			}
			if plain, err = io.ReadAll(unzip); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(plain, first.Body.Bytes()) {
			t.Errorf("%s: another document when compressed", host)
		}
	}
}
