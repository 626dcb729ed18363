package httpapi_test

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"net/http"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/httpapi"
)

// walkRequests is how many requests the walk makes: 5,000, or as many as
// BRIDLETIE_WALK says.
func walkRequests(t *testing.T) int {
	said := os.Getenv("BRIDLETIE_WALK")
	if said == "" {
		return 5_000
	}
	n, err := strconv.Atoi(said)
	if err != nil || n < 1 {
		t.Fatalf("BRIDLETIE_WALK=%q", said)
	}
	return n
}

// TestWalk asks every operation of the contract what the contract allows and
// what it does not. Whatever is asked: no status of 500 and above, none that is
// not documented, an answer of its schema, a problem that points at what is
// wrong (these are held by client). Afterwards the memory is what it was.
//
// The classes of faults are those that contract fuzzers look for: schemathesis'
// not_a_server_error, status_code_conformance, content_type_conformance,
// response_schema_conformance, negative_data_rejection, missing_required and
// unsupported_method.
func TestWalk(t *testing.T) {
	w := walk{t: t, client: newClient(t, httpapi.DefaultOptions())}
	w.most = int64(walkRequests(t))
	runtime.GC()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	goroutines := runtime.NumGoroutine()

	posts := w.operations()
	for _, op := range posts {
		w.right(op)
		w.refused(op)
	}
	for _, op := range posts {
		w.spoiltExamples(op)
	}
	for round := 1; w.asked.Load() < w.most; round++ {
		for _, op := range posts {
			w.random(op, round)
		}
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	t.Logf("%d requests: %v", w.asked.Load(), w.statuses)
	if grown := int64(after.HeapAlloc) - int64(before.HeapAlloc); grown > 96<<20 {
		t.Errorf("the heap has grown by %d MB", grown>>20)
	}
	if n := runtime.NumGoroutine(); n > goroutines+4 {
		t.Errorf("%d goroutines are left of what was asked, %d before", n, goroutines)
	}
}

type walk struct {
	t        *testing.T
	client   *client
	most     int64
	asked    atomic.Int64
	statuses map[int]int
}

// walked is an operation that takes a body.
type walked struct {
	path     string
	schema   *openapi3.Schema
	examples []any
	offers   []string
}

// operations are those of the table that take JSON, with what the contract shows of
// each.
func (w *walk) operations() []walked {
	w.statuses = make(map[int]int)
	var all []walked
	for _, op := range httpapi.Operations() {
		path := op.Path
		media := w.client.doc.Paths.Value(path).Post.RequestBody.Value.Content["application/json"]
		one := walked{path: path, schema: media.Schema.Value, offers: op.Forms}
		for _, name := range slices.Sorted(maps.Keys(media.Examples)) {
			one.examples = append(one.examples, media.Examples[name].Value.Value)
		}
		if media.Example != nil {
			one.examples = append(one.examples, media.Example)
		}
		if len(one.examples) == 0 {
			w.t.Fatalf("%s has no example", path)
		}
		all = append(all, one)
	}
	if len(all) < 15 {
		w.t.Fatalf("%d operations are walked", len(all))
	}
	return all
}

// ask posts a body; what is promised of any answer is held by the client.
func (w *walk) ask(path, body string, header ...string) (status int, text string, faults []string) {
	w.t.Helper()
	if len(header) == 0 {
		header = []string{"Content-Type", "application/json"}
	}
	r := w.client.do(http.MethodPost, path, body, header...)
	w.asked.Add(1)
	w.statuses[r.Code]++
	if r.Code >= 500 {
		w.t.Errorf("POST %s: status %d to %.300s", path, r.Code, body)
	}
	if r.Code == http.StatusUnprocessableEntity {
		faults = faultsOf(w.t, r)
		if len(faults) == 0 {
			w.t.Errorf("POST %s: 422 without a fault to %.300s", path, body)
		}
	}
	return r.Code, r.Body.String(), faults
}

// right asks what the contract shows, twice.
func (w *walk) right(op walked) {
	for _, example := range op.examples {
		body := marshal(w.t, example)
		status, first, _ := w.ask(op.path, body)
		if status != http.StatusOK {
			w.t.Errorf("POST %s: status %d to its own example: %.300s", op.path, status, first)
		}
		if _, again, _ := w.ask(op.path, body); again != first {
			w.t.Errorf("POST %s: the same request has two answers", op.path)
		}
		for _, media := range op.offers {
			if status, _, _ := w.ask(op.path, body, "Content-Type", "application/json", "Accept", media); status != http.StatusOK {
				w.t.Errorf("POST %s: status %d where %s is wanted", op.path, status, media)
			}
		}
	}
}

// refused asks in a way in which nothing is answered.
func (w *walk) refused(op walked) {
	body := marshal(w.t, op.examples[0])
	for _, media := range []string{"", "text/plain", "application/xml", "application/json; charset=utf-16", "application/json, text/plain", "multipart/form-data", "application/JSON5"} {
		if status, _, _ := w.ask(op.path, body, "Content-Type", media); status != http.StatusUnsupportedMediaType {
			w.t.Errorf("POST %s: status %d to Content-Type %q", op.path, status, media)
		}
	}
	if status, _, _ := w.ask(op.path, body, "Content-Type", "application/json", "Content-Encoding", "gzip"); status != http.StatusUnsupportedMediaType {
		w.t.Errorf("POST %s: status %d to a compressed body", op.path, status)
	}
	for _, media := range []string{"text/html", "image/png", "application/json;q=0", "application/xml"} {
		if status, _, _ := w.ask(op.path, body, "Content-Type", "application/json", "Accept", media); status != http.StatusNotAcceptable {
			w.t.Errorf("POST %s: status %d to Accept %q", op.path, status, media)
		}
	}
	for _, method := range []string{http.MethodGet, http.MethodPut, http.MethodPatch, http.MethodDelete, "BREW"} {
		r := w.client.do(method, op.path, body, "Content-Type", "application/json")
		w.asked.Add(1)
		if r.Code != http.StatusMethodNotAllowed || r.Header().Get("Allow") == "" {
			w.t.Errorf("%s %s: status %d, Allow %q", method, op.path, r.Code, r.Header().Get("Allow"))
		}
	}
}

// spoiltExamples asks every example spoilt in every way.
func (w *walk) spoiltExamples(op walked) {
	for _, example := range op.examples {
		for _, s := range spoils(cloned(w.t, example), op.schema) {
			if w.asked.Load() >= w.most {
				return
			}
			w.holds(op, s)
		}
	}
}

func (w *walk) holds(op walked, s marred) {
	w.t.Helper()
	status, text, faults := w.ask(op.path, s.body)
	if s.status != 0 && status != s.status {
		w.t.Errorf("POST %s, %s: status %d, want %d: %.300s", op.path, s.what, status, s.status, text)
		return
	}
	points := func(f string) bool { return strings.HasPrefix(f, s.pointer+" ") }
	if s.pointer != "" && status == http.StatusUnprocessableEntity && !slices.ContainsFunc(faults, points) {
		w.t.Errorf("POST %s, %s: the faults are %q", op.path, s.what, faults)
	}
}

// random asks an example with values drawn anew, then what the schema allows,
// drawn at random, and that marred in a few ways.
func (w *walk) random(op walked, round int) {
	for k := range 6 {
		example := cloned(w.t, op.examples[(round+k)%len(op.examples)])
		w.ask(op.path, marshal(w.t, varied(example, op.schema, 6*round+k)))
	}
	doc := body(op.schema, "", 0).Example(round)
	w.ask(op.path, marshal(w.t, doc))
	all := spoils(cloned(w.t, doc), op.schema)
	r := rand.New(rand.NewPCG(uint64(round), uint64(len(op.path))))
	for range 12 {
		if s := all[r.IntN(len(all))]; w.asked.Load() < w.most {
			s.status, s.pointer = anyOf(s.status), "" // the rest of the body may have faults of its own, more than are shown
			w.holds(op, s)
		}
	}
}

// anyOf keeps what does not depend on the rest of the body.
func anyOf(status int) int {
	if status == http.StatusBadRequest {
		return status
	}
	return 0
}

func marshal(t *testing.T, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// cloned is a value as the reader of JSON makes it.
func cloned(t *testing.T, v any) any {
	t.Helper()
	var c any
	if err := json.Unmarshal([]byte(marshal(t, v)), &c); err != nil {
		t.Fatal(err)
	}
	return c
}
