package httpapi_test

import (
	"bytes"
	"encoding/json"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Whatever stands in the headers, the answer is of the contract, and the trace in
// the log is one.
func FuzzHeaders(f *testing.F) {
	for _, seed := range [][9]string{
		{"00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01", "wait=10, best-so-far", "image/svg+xml;q=0.5, application/*;q=0.1", "gzip;q=0, *", `W/"a", *`, "Bearer x", "192.0.2.1, 10.0.0.1", "https://a.example", "application/json; charset=utf-8"},
		{"ff-00000000000000000000000000000000-0000000000000000-zz", `WAIT="-1";x=y,wait=1e9`, "text/html;level=1;q=1.0001,*/*;q=0", "x-gzip", `"`, "Basic Og==", "::1, [2001:db8::1]:443, unknown", "null", `application/json; charset="UTF-8"`},
		{"01-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01-more", "best-so-far=", ",;q=,", "", "", "bearer", ",,", "", "multipart/form-data; boundary="},
	} {
		f.Add(seed[0], seed[1], seed[2], seed[3], seed[4], seed[5], seed[6], seed[7], seed[8])
	}
	opts := options()
	opts.Proxies = []netip.Prefix{netip.MustParsePrefix("192.0.2.0/24")}
	opts.Origins = []string{"https://a.example"}
	var log bytes.Buffer
	opts.Keys, _, _, _ = ringOf(f)
	opts.Log = slog.New(slog.NewJSONHandler(&log, nil))
	c := newClient(f, opts)
	trace := regexp.MustCompile(`^[0-9a-f]{32}$`)
	f.Fuzz(func(t *testing.T, traceparent, prefer, accept, encoding, match, authorization, forwarded, origin, media string) {
		for _, r := range []*http.Request{
			httptest.NewRequest(http.MethodPost, "/v1/pleats", strings.NewReader(pleatsSound)),
			httptest.NewRequest(http.MethodGet, "/v1/furniture", nil),
			httptest.NewRequest(http.MethodGet, "/demo/", nil),
			httptest.NewRequest(http.MethodOptions, "/v1/pleats", nil),
		} {
			for name, value := range map[string]string{
				"Traceparent": traceparent, "Prefer": prefer, "Accept": accept, "Accept-Encoding": encoding, "If-None-Match": match, "Authorization": authorization,
				"X-Forwarded-For": forwarded, "Origin": origin, "Content-Type": media, "X-Request-Id": match, "Access-Control-Request-Method": prefer,
			} {
				if strings.ContainsAny(value, "\r\n\x00") { // net/http lets none in
					return
				}
				r.Header.Set(name, value)
			}
			log.Reset()
			in := &client{t: t, doc: c.doc, handler: c.handler}
			if w := in.send(r); w.Code >= 500 {
				t.Errorf("status %d", w.Code)
			}
			var line struct{ Trace string }
			for entry := range strings.Lines(log.String()) {
				if err := json.Unmarshal([]byte(entry), &line); err != nil {
					t.Errorf("the log has %q: %v", entry, err)
				}
			}
			if !trace.MatchString(line.Trace) || strings.Trim(line.Trace, "0") == "" {
				t.Errorf("the trace is %q", line.Trace)
			}
		}
	})
}

// Whatever the address, the answer is of the contract.
func FuzzAddress(f *testing.F) {
	for _, address := range []string{
		"/v1/furniture/wing-chair/picture?views=front&units=imperial", "/v1/furniture/%2e%2e", "/v1/fire-rules?x=1&x=2", "/problems/%00", "/quote/1/quote.js", "/docs/assets/..%2f..", "//v1/yardage", "/v1/furniture/wing-chair?;=%zz",
	} {
		f.Add(address)
	}
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, address string) {
		u, err := url.ParseRequestURI(address)
		if err != nil || !strings.HasPrefix(address, "/") || strings.ContainsAny(address, " \r\n") {
			return // net/http answers those
		}
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.URL, r.RequestURI = u, address
		in := &client{t: t, doc: c.doc, handler: c.handler}
		if w := in.send(r); w.Code >= 500 && w.Code != http.StatusServiceUnavailable {
			t.Errorf("status %d", w.Code)
		}
	})
}

// fuzzed names the target of every operation that takes a body.
var fuzzed = map[string]string{
	"yardage": "FuzzPipeline", "yardageCheck": "FuzzCheck", "yardageCompare": "FuzzCompare", "cuttingList": "FuzzCuttingList", "estimate": "FuzzEstimate",
	"job": "FuzzJob", "buttoning": "FuzzButtoning", "piping": "FuzzPiping", "repeat": "FuzzRepeat", "reliefCuts": "FuzzReliefCuts", "pleats": "FuzzPleats",
	"wadding": "FuzzWadding", "foundation": "FuzzFoundation", "fireCheck": "FuzzFireCheck", "foam": "FuzzFoam", "batch": "FuzzBatch",
}

// Every operation that takes a body has a fuzz target, and the target is there.
func TestEveryBodyIsFuzzed(t *testing.T) {
	files, err := filepath.Glob("*_test.go")
	if err != nil {
		t.Fatal(err)
	}
	var source strings.Builder
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		source.Write(text)
	}
	for path, item := range spec(t).Paths.Map() {
		for method, op := range item.Operations() {
			if op.RequestBody != nil && !strings.Contains(source.String(), "\nfunc "+fuzzed[op.OperationID]+"(f *testing.F)") {
				t.Errorf("%s %s: no fuzz target %q", method, path, fuzzed[op.OperationID])
			}
		}
	}
}
