package httpapi_test

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strings"
	"testing"
	"time"
)

// postWithin asks and wants the answer in time and not at the price of memory.
func postWithin(t *testing.T, c *client, body string, most time.Duration, mostBytes uint64) *httptest.ResponseRecorder {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	begun := time.Now()
	w := c.post(body)
	took := time.Since(begun)
	runtime.ReadMemStats(&after)
	if took > most {
		t.Errorf("%d bytes took %v", len(body), took)
	}
	if used := after.TotalAlloc - before.TotalAlloc; used > mostBytes {
		t.Errorf("%d bytes took %d MB of memory", len(body), used>>20)
	}
	return w
}

// unknownKeys is an object of n members that no schema has.
func unknownKeys(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, `,"k%d":1`, i)
	}
	return "{" + b.String()[1:] + "}"
}

// A validator that prints its errors prints them at the square of their number.
func TestManyErrorsAreCheap(t *testing.T) {
	c := newClient(t, options())
	wide := strings.Repeat(`"x",`, 6000) + `"x"`
	for _, tc := range []struct {
		name, body string
		status     int
	}{
		{"4000 unknown keys", unknownKeys(4000), 422},
		{"5000 unknown keys in an alternative", `{"cloth":{"width":"1 m"},"panels":[{"id":"A","size":{"across":"1 cm","along":"1 cm"},"allow":` + unknownKeys(5000) + `}]}`, 422},
		{"5000 unknown keys under allOf", `{"cloth":{"width":` + unknownKeys(5000) + `},"panels":[]}`, 422},
		{"60000 unknown keys", unknownKeys(60000), 413},
		{"wrong types", `{"cloth":{"width":"1 m"},"panels":[` + strings.ReplaceAll(wide, `"x"`, `[]`) + `]}`, 422},
		{"bad lengths", `{"cloth":{"width":"1 m"},"panels":[],"pieces":[` + wide + `]}`, 422},
		{"20001 values", `[` + strings.Repeat("1,", 20000) + `1]`, 400},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			w := postWithin(t, c, tc.body, time.Second, 128<<20)
			if w.Code != tc.status {
				t.Errorf("status %d, want %d", w.Code, tc.status)
			}
			if w.Body.Len() > 16<<10 {
				t.Errorf("a problem of %d bytes", w.Body.Len())
			}
		})
	}
}

// No answer repeats more than 64 characters of what was sent.
func TestAnswersDoNotEcho(t *testing.T) {
	c := newClient(t, options())
	long := strings.Repeat("Q", 20000)
	digits := strings.Repeat("7", 20000)
	for _, tc := range []struct {
		name, body string
		status     int
	}{
		{"string", `{"cloth":{"width":"` + long + `"},"panels":[]}`, 422},
		{"number", `{"cloth":{"width":` + digits + `},"panels":[]}`, 422},
		{"count", spoil(t, `"id": "OA", "count": 2`, `"id": "OA", "count": `+digits), 422},
		{"decimal count", spoil(t, `"id": "OA", "count": 2`, `"id": "OA", "count": 1.`+digits), 422},
		{"field", `{"` + long + `":1}`, 422},
		{"field of a panel", spoil(t, `"id": "OA"`, `"id": "OA", "`+long+`": 1`), 422},
		{"name twice", `{"` + long + `":1,"` + long + `":1}`, 400},
		{"motif", spoil(t, `"motif": "heron"`, `"motif": "`+long+`"`), 422},
		{"enum", spoil(t, `"units": "metric"`, `"units": "`+long+`"`), 422},
		{"no JSON", long, 400},
	} {
		w := c.post(tc.body)
		if w.Code != tc.status {
			t.Errorf("%s: status %d, want %d", tc.name, w.Code, tc.status)
		}
		if s := w.Body.String(); strings.Contains(s, long[:65]) || strings.Contains(s, digits[:65]) {
			t.Errorf("%s: the answer echoes the request", tc.name)
		}
	}
	r := c.do(http.MethodGet, "/"+long[:8000], "")
	if r.Code != 404 || strings.Contains(r.Body.String(), long[:65]) {
		t.Errorf("path: status %d, or the answer echoes the path", r.Code)
	}
}

// A body of 900 KB is not read, whether its length is said or not.
func TestBodyLimit(t *testing.T) {
	c := newClient(t, options())
	for _, said := range []bool{true, false} {
		counted := &countingReader{r: strings.NewReader(`{"n":` + strings.Repeat("9", 900<<10) + `}`)}
		r := httptest.NewRequest(http.MethodPost, "/v1/yardage", counted)
		r.Header.Set("Content-Type", "application/json")
		r.ContentLength = -1
		if said {
			r.ContentLength = 900<<10 + 6
		}
		w := c.send(r)
		if w.Code != http.StatusRequestEntityTooLarge || w.Header().Get("Connection") != "close" {
			t.Errorf("status %d, Connection %q", w.Code, w.Header().Get("Connection"))
		}
		if counted.n > 128<<10 {
			t.Errorf("%d bytes were read", counted.n)
		}
	}
	fits := sound + strings.Repeat(" ", 65536-len(sound))
	if w := c.post(fits); w.Code != http.StatusOK {
		t.Errorf("65536 bytes: status %d", w.Code)
	}
	if w := c.post(fits + " "); w.Code != http.StatusRequestEntityTooLarge {
		t.Errorf("65537 bytes: status %d", w.Code)
	}
}

type countingReader struct {
	r io.Reader
	n int
}

func (c *countingReader) Read(b []byte) (int, error) {
	n, err := c.r.Read(b)
	c.n += n
	return n, err
}

// What many readers of JSON let pass is malformed here.
func TestMalformed(t *testing.T) {
	c := newClient(t, options())
	for name, body := range map[string]string{
		"empty":                   "",
		"text after":              sound + " xx",
		"two documents":           sound + sound,
		"name twice":              spoil(t, `"width": "137 cm"`, `"width": "-2 cm", "width": "137 cm"`),
		"name twice, first right": spoil(t, `"width": "137 cm"`, `"width": "137 cm", "width": "-2 cm"`),
		"name twice, escaped":     spoil(t, `"width": "137 cm"`, `"width": "137 cm", "\u0077idth": "1 m"`),
		"not UTF-8":               spoil(t, "inside back", "inside\xffback"),
		"overlong UTF-8":          spoil(t, "inside back", "inside\xc0\xafback"),
		"surrogate in UTF-8":      spoil(t, "inside back", "inside\xed\xa0\x80back"),
		"lone surrogate":          spoil(t, "inside back", `inside\ud800back`),
		"byte order mark":         "\uFEFF" + sound,
		"UTF-16":                  "\xff\xfe{\x00}\x00",
		"33 deep":                 strings.Repeat(`{"cloth":`, 33) + "1" + strings.Repeat("}", 33),
		"60000 deep":              strings.Repeat("[", 60000),
		"NaN":                     spoil(t, `"137 cm"`, "NaN"),
		"Infinity":                spoil(t, `"137 cm"`, "Infinity"),
		"-Infinity":               spoil(t, `"137 cm"`, "-Infinity"),
		"hexadecimal":             spoil(t, `"137 cm"`, "0x10"),
		"trailing comma":          spoil(t, `"effort": "normal"`, `"effort": "normal",`),
		"cut off":                 sound[:len(sound)/2],
		"single quotes":           `{'cloth':1}`,
		"comment":                 "/* */" + sound,
	} {
		w := c.post(body)
		if w.Code != http.StatusBadRequest || problemOf(t, w).Type != "/problems/malformed-json" {
			t.Errorf("%s: status %d, want 400: %s", name, w.Code, w.Body)
		}
	}
}

// Only JSON in UTF-8, as it is, is taken.
func TestContentType(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct {
		header []string
		status int
	}{
		{[]string{"Content-Type", "application/json"}, 200},
		{[]string{"Content-Type", "application/json; charset=utf-8"}, 200},
		{[]string{"Content-Type", `Application/JSON; charset="UTF-8"`}, 200},
		{nil, 415},
		{[]string{"Content-Type", ""}, 415},
		{[]string{"Content-Type", "text/json"}, 415},
		{[]string{"Content-Type", "text/plain"}, 415},
		{[]string{"Content-Type", "application/x-www-form-urlencoded"}, 415},
		{[]string{"Content-Type", "multipart/form-data; boundary=x"}, 415},
		{[]string{"Content-Type", "application/json; charset=utf-16"}, 415},
		{[]string{"Content-Type", "application/json; charset=latin1"}, 415},
		{[]string{"Content-Type", "application/json; version=2"}, 415},
		{[]string{"Content-Type", "application/json, text/plain"}, 415},
		{[]string{"Content-Type", "application/json", "Content-Type", "text/plain"}, 415},
		{[]string{"Content-Type", "application/json", "Content-Encoding", "gzip"}, 415},
		{[]string{"Content-Type", "application/json", "Content-Encoding", "identity"}, 415},
	} {
		if w := c.do(http.MethodPost, "/v1/yardage", sound, tc.header...); w.Code != tc.status {
			t.Errorf("%q: status %d, want %d", tc.header, w.Code, tc.status)
		}
	}
}

// A motif that would push its panel off the cloth wherever it lies has no
// place, and that is said before the search.
func TestNoPlace(t *testing.T) {
	c := newClient(t, options())
	w := c.post(spoil(t, `"left": "3 cm", "right": "3 cm"`, `"left": "6 cm", "right": "6 cm"`))
	if got := faultsOf(t, w); w.Code != 422 || !equal(got, one("#/panels/0/match no-place")) {
		t.Errorf("status %d, faults %q", w.Code, got)
	}
}
