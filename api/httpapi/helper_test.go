package httpapi_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3filter"
	"github.com/getkin/kin-openapi/routers"

	"github.com/bridletie/bridletie"
	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// stacked answers any request with its panels one above the other. It keeps no
// wish; it stands in for the engine where only the wire is looked at.
func stacked(_ context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
	var layout plan.Layout
	for i, p := range req.Panels {
		cut := p.Cut()
		for n := range p.Count {
			layout.Placements = append(layout.Placements, plan.Placement{
				Panel: i, Copy: n + 1, Part: 1, Parts: 1, Y: layout.Length, Across: cut.Across, Along: cut.Along,
			})
			layout.Length += cut.Along
		}
	}
	order, err := req.Sold.Order(layout.Length)
	if err != nil {
		return nil, err
	}
	return &service.YardageAnswer{
		Request:  req,
		Order:    order,
		AnyStart: layout.Length,
		Lengths:  []service.CutLength{{Needed: layout.Length, Order: order}},
		Result: plan.Result{
			Cut: []plan.Layout{layout}, AnyStart: []length.Length{layout.Length},
			Bound: layout.Length, BoundBy: note.BoundStack, Rows: layout.Length,
		},
	}, nil
}

// options are those of a server that answers with the stand-in.
func options() httpapi.Options {
	opts := httpapi.DefaultOptions()
	opts.Yardage = stacked
	return opts
}

func newServer(t testing.TB, opts httpapi.Options) *httpapi.Server {
	t.Helper()
	s, err := httpapi.New(opts)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Lines of JSON are text to the validator; what is in them is tested where they
// are made.
func init() {
	openapi3filter.RegisterBodyDecoder("application/x-ndjson", openapi3filter.FileBodyDecoder)
}

// spec is the contract.
func spec(t testing.TB) *openapi3.T {
	t.Helper()
	doc, err := contract.Open(bridletie.Files)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// client sends requests to a server in this process and holds every answer
// against the contract.
type client struct {
	t       testing.TB
	doc     *openapi3.T
	handler http.Handler
}

func newClient(t testing.TB, opts httpapi.Options) *client {
	t.Helper()
	return &client{t: t, doc: closed(spec(t)), handler: newServer(t, opts).Handler()}
}

// closed is the contract with its answers closed. They are open to clients, who are
// to ignore what a later version says, but this version says no more than it lists.
func closed(doc *openapi3.T) *openapi3.T {
	for _, ref := range doc.Components.Schemas {
		eachSchema("", ref, func(_ string, s *openapi3.Schema) {
			if s.Type.Is("object") && s.AdditionalProperties.Has == nil && s.AdditionalProperties.Schema == nil {
				s.AdditionalProperties.Has = new(bool)
			}
		})
	}
	return doc
}

// eachSchema looks at a schema and at all that stand within it, each with where it
// stands. What is only named is left to where it is written.
func eachSchema(where string, ref *openapi3.SchemaRef, look func(where string, s *openapi3.Schema)) {
	if ref == nil || ref.Ref != "" {
		return
	}
	s := ref.Value
	look(where, s)
	for name, property := range s.Properties {
		eachSchema(where+"."+name, property, look)
	}
	eachSchema(where+"[]", s.Items, look)
	eachSchema(where+"{}", s.AdditionalProperties.Schema, look)
	for i, part := range slices.Concat(s.AllOf, s.OneOf, s.AnyOf) {
		eachSchema(fmt.Sprintf("%s(%d)", where, i), part, look)
	}
}

// do sends a request. The header list is name, value, name, value.
func (c *client) do(method, path, body string, header ...string) *httptest.ResponseRecorder {
	c.t.Helper()
	r := httptest.NewRequest(method, path, strings.NewReader(body))
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Add(header[i], header[i+1])
	}
	return c.send(r)
}

// post asks /v1/yardage.
func (c *client) post(body string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/yardage", body, "Content-Type", "application/json")
}

func (c *client) send(r *http.Request) *httptest.ResponseRecorder {
	c.t.Helper()
	w := httptest.NewRecorder()
	c.handler.ServeHTTP(w, r)
	c.check(r, w)
	return w
}

// check holds an answer against the contract, and against what is promised of
// every answer.
func (c *client) check(r *http.Request, w *httptest.ResponseRecorder) {
	c.t.Helper()
	policy := "default-src 'none'; frame-ancestors 'none'"
	if strings.HasPrefix(w.Header().Get("Content-Type"), "text/html") || w.Code == http.StatusNotModified {
		policy = w.Header().Get("Content-Security-Policy") // a page's own: TestPagesPolicies
	}
	for name, want := range map[string]string{
		"X-Content-Type-Options":  "nosniff",
		"Content-Security-Policy": policy,
	} {
		if got := w.Header().Get(name); got != want {
			c.t.Errorf("%s %s: %s is %q, want %q", r.Method, r.URL.Path, name, got, want)
		}
	}
	if h := w.Header(); h.Get("Server") != "" || h.Get("X-Powered-By") != "" || r.Method == http.MethodPost && h.Get("Cache-Control") != "no-store" {
		c.t.Errorf("%s %s: a banner, or an answer that may be stored: %v", r.Method, r.URL.Path, h)
	}
	if w.Header().Get("X-Request-Id") == "" {
		c.t.Errorf("%s %s: no X-Request-Id", r.Method, r.URL.Path)
	}
	if w.Code >= 400 {
		c.checkProblem(r, w)
	}
	c.checkAgainstSpec(r, w)
}

func (c *client) checkProblem(r *http.Request, w *httptest.ResponseRecorder) {
	c.t.Helper()
	if got := w.Header().Get("Content-Type"); got != "application/problem+json" {
		c.t.Errorf("%s %s: status %d has Content-Type %q", r.Method, r.URL.Path, w.Code, got)
	}
	if r.Method == http.MethodHead {
		return
	}
	if w.Body.Len() > 32<<10 {
		c.t.Errorf("%s %s: a problem of %d bytes", r.Method, r.URL.Path, w.Body.Len())
	}
	var raw any
	if err := json.Unmarshal(w.Body.Bytes(), &raw); err != nil {
		c.t.Fatalf("%s %s: status %d with a body that is not JSON", r.Method, r.URL.Path, w.Code)
	}
	if err := c.doc.Components.Schemas["Problem"].Value.VisitJSON(raw); err != nil {
		c.t.Errorf("%s %s: the problem is not of the contract: %.500s", r.Method, r.URL.Path, err)
	}
	p := problemOf(c.t, w)
	if p.Status != w.Code {
		c.t.Errorf("%s %s: status %d says %d", r.Method, r.URL.Path, w.Code, p.Status)
	}
	if _, ok := strings.CutPrefix(p.Type, "/problems/"); !ok {
		c.t.Errorf("%s %s: type %q", r.Method, r.URL.Path, p.Type)
	}
	for _, leak := range []string{"gen.", "httpapi", "openapi3", "json:", "strconv", "goroutine", ".go:", "float64", "map["} {
		if strings.Contains(w.Body.String(), leak) {
			c.t.Errorf("%s %s: the problem shows %q", r.Method, r.URL.Path, leak)
		}
	}
}

// checkAgainstSpec validates the answers of operations. The answer to a path
// or method that is not in the contract is only a problem.
func (c *client) checkAgainstSpec(r *http.Request, w *httptest.ResponseRecorder) {
	c.t.Helper()
	method := r.Method
	if method == http.MethodHead {
		method = http.MethodGet
	}
	path := r.URL.Path
	if strings.HasPrefix(path, "/problems/") {
		path = "/problems/{name}"
	}
	path = pageTemplate(path)
	item := c.doc.Paths.Value(path)
	if item == nil || item.GetOperation(method) == nil {
		preflight := r.Method == http.MethodOptions && w.Code == http.StatusNoContent
		refused := []int{http.StatusNotFound, http.StatusMethodNotAllowed, http.StatusRequestURITooLong, http.StatusRequestHeaderFieldsTooLarge}
		if !slices.Contains(refused, w.Code) && !preflight {
			c.t.Errorf("%s %s: status %d for what is not in the contract", r.Method, r.URL.Path, w.Code)
		}
		return
	}
	if w.Code >= 400 && r.Method != http.MethodHead {
		if name := strings.TrimPrefix(problemOf(c.t, w).Type, "/problems/"); !slices.Contains(problemsOf(item.GetOperation(method)), name) {
			c.t.Errorf("%s %s: the problem %s is not one that the operation lists", r.Method, r.URL.Path, name)
		}
		if answer := item.GetOperation(method).Responses.Status(w.Code); answer != nil {
			for _, name := range []string{"Allow", "RateLimit", "RateLimit-Policy", "Retry-After", "WWW-Authenticate", "X-Request-Id"} {
				if w.Header().Get(name) != "" && answer.Value.Headers[name] == nil {
					c.t.Errorf("%s %s: status %d is sent with %s, which is not declared", r.Method, r.URL.Path, w.Code, name)
				}
			}
		}
	}
	media := w.Header().Get("Content-Type")
	input := &openapi3filter.ResponseValidationInput{
		RequestValidationInput: &openapi3filter.RequestValidationInput{
			Request: r,
			Route:   &routers.Route{Spec: c.doc, Path: path, PathItem: item, Method: method, Operation: item.GetOperation(method)},
		},
		Status: w.Code,
		Header: w.Header(),
		Body:   io.NopCloser(bytes.NewReader(w.Body.Bytes())),
		Options: &openapi3filter.Options{
			IncludeResponseStatus: true,
			MultiError:            true,
			ExcludeResponseBody:   !strings.HasSuffix(media, "json") || r.Method == http.MethodHead,
			AuthenticationFunc:    openapi3filter.NoopAuthenticationFunc,
		},
	}
	if err := openapi3filter.ValidateResponse(context.Background(), input); err != nil {
		c.t.Errorf("%s %s: status %d is not of the contract: %.800s", r.Method, r.URL.Path, w.Code, err)
	}
}

// problemsOf are the types of problem that an operation lists.
func problemsOf(op *openapi3.Operation) (names []string) {
	list, _ := op.Extensions["x-problems"].([]any)
	for _, name := range list {
		names = append(names, fmt.Sprint(name))
	}
	return names
}

// problemOf reads the problem of an answer.
func problemOf(t testing.TB, w *httptest.ResponseRecorder) gen.Problem {
	t.Helper()
	var p gen.Problem
	if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
		t.Fatalf("status %d: %v", w.Code, err)
	}
	return p
}

// faultsOf is every fault shown, as "pointer code".
func faultsOf(t testing.TB, w *httptest.ResponseRecorder) []string {
	t.Helper()
	var all []string
	if p := problemOf(t, w); p.Errors != nil {
		for _, f := range *p.Errors {
			all = append(all, f.Pointer+" "+string(f.Code))
		}
	}
	return all
}

// sound is a request without faults, for tests to spoil.
const sound = `{
	"units": "metric",
	"cloth": {
		"name": "Heron and sedge", "width": "137 cm",
		"pattern": {"lengthRepeat": "64 cm", "widthRepeat": "68.5 cm", "drop": "half",
			"motifs": [{"name": "heron", "across": "34.2 cm", "along": "0 cm"}, {"name": "sedge", "across": "0 cm", "along": "32 cm"}]},
		"oneWay": true, "railroad": "never", "soldBy": "0.1 m", "minimum": "1 m", "boltLength": "50 m", "flawAllowance": "2 %", "shrinkage": "0 %"
	},
	"pieces": ["5.5 m"],
	"panels": [
		{"id": "IB", "name": "inside back", "count": 1, "size": {"across": "62 cm", "along": "78 cm"},
			"allow": {"top": "6 cm", "bottom": "10 cm", "left": "3 cm", "right": "3 cm"},
			"match": {"how": "centred", "motif": "heron"}},
		{"id": "SEAT", "count": 1, "size": {"across": "60 cm", "along": "66 cm"}, "match": {"how": "runs-on", "from": "IB", "edge": "bottom"}},
		{"id": "OA", "count": 2, "size": {"across": "50 cm", "along": "40 cm"}, "match": {"how": "across"}},
		{"id": "FLY", "count": 2, "size": {"across": "60 cm", "along": "15 cm"}, "match": {"how": "free"}, "turn": "quarter"}
	],
	"effort": "normal"
}`

// spoil replaces the one occurrence of a text in the sound request.
func spoil(t testing.TB, from, to string) string {
	t.Helper()
	if strings.Count(sound, from) != 1 {
		t.Fatalf("%q does not stand once in the sound request", from)
	}
	return strings.Replace(sound, from, to, 1)
}

func equal(got, want []string) bool {
	return slices.Equal(slices.Sorted(slices.Values(got)), slices.Sorted(slices.Values(want)))
}

func TestSoundRequest(t *testing.T) {
	if w := newClient(t, options()).post(sound); w.Code != http.StatusOK {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
}

// freshServer makes every answer anew, for benchmarks.
func freshServer(t testing.TB) *httpapi.Server {
	t.Helper()
	opts := httpapi.DefaultOptions()
	opts.Kept = 0
	return newServer(t, opts)
}

// said are the texts of notes, one a line.
func said(notes []gen.Note) string {
	var all []string
	for _, n := range notes {
		all = append(all, n.Text)
	}
	return strings.Join(all, "\n")
}
