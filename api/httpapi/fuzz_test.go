package httpapi_test

import (
	"bytes"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
)

// Whatever comes in, the answer is of the contract and never a failure.
func FuzzPipeline(f *testing.F) {
	f.Add([]byte(sound))
	f.Add([]byte(`{"cloth":{"width":"54 in"},"panels":[{"id":"A","size":{"across":"4 1/2 in","along":"6 ft 2 in"},"allow":"1 cm","turn":"half"}]}`))
	f.Add([]byte(`{"cloth":{"width":137,"pattern":[]},"panels":[null,{"id":5,"size":{}},{"match":{"how":"anchor","point":null}}]}`))
	f.Add([]byte(`{"panels":[` + onto("A", "B") + "," + onto("B", "A") + `]}`))
	f.Add([]byte(`[1e400,-0,"\ud800"]`))
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, body []byte) {
		r := httptest.NewRequest(http.MethodPost, "/v1/yardage", strings.NewReader(string(body)))
		r.Header.Set("Content-Type", "application/json")
		in := &client{t: t, doc: c.doc, handler: c.handler}
		begun := time.Now()
		if w := in.send(r); w.Code >= 500 {
			t.Errorf("status %d", w.Code)
		}
		if took := time.Since(begun); took > 5*time.Second {
			t.Errorf("took %v", took)
		}
	})
}

// Whatever is asked of a job, the answer is of the contract and never a failure.
func FuzzJob(f *testing.F) {
	for _, name := range demoSheets {
		f.Add([]byte(jobFile(f, name)))
	}
	f.Add([]byte(jobStool))
	f.Add([]byte(`{"pieces":[{"id":"A","written":[{"cover":"lining","panels":[{"id":"X","size":{"across":"1 m","along":"2 in"},"pair":"X","count":2}]}]},{"id":"A","kind":"throne","runs":[{"length":"1 m"}]}],"cloths":[{"id":"C","cloth":{"width":"1 m"}},null]}`))
	c := newClient(f, httpapi.DefaultOptions())
	f.Fuzz(func(t *testing.T, body []byte) {
		body = bytes.ReplaceAll(body, []byte("thorough"), []byte("quick"))
		in := &client{t: t, doc: c.doc, handler: c.handler}
		begun := time.Now()
		if w := in.postJob(string(body)); w.Code >= 500 && w.Code != http.StatusServiceUnavailable {
			t.Errorf("status %d: %.300s", w.Code, w.Body)
		}
		if took := time.Since(begun); took > 30*time.Second {
			t.Errorf("took %v", took)
		}
	})
}
