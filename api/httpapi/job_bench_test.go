package httpapi_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
)

// jobFile is a demo request for a job.
func jobFile(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name+"-job.json"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// BenchmarkJob answers whole jobs, from the body of the request to the last byte of
// the sheet as JSON; on a machine that has other work too, the time of the
// processor is the one to compare.
func BenchmarkJob(b *testing.B) {
	opts := httpapi.DefaultOptions()
	opts.Kept = 0 // every answer is made anew
	handler := newServer(b, opts).Handler()
	for _, name := range []string{"wing-chair", "carver-pair", "settee", "banquette", "suite"} {
		body := jobFile(b, name)
		b.Run(name, func(b *testing.B) {
			from, n := cpuTime(b), 0
			for b.Loop() {
				n++
				r := httptest.NewRequest(http.MethodPost, "/v1/job", strings.NewReader(body))
				r.Header.Set("Content-Type", "application/json")
				w := httptest.NewRecorder()
				handler.ServeHTTP(w, r)
				if w.Code != http.StatusOK {
					b.Fatalf("status %d: %.300s", w.Code, w.Body)
				}
			}
			b.ReportMetric(float64((cpuTime(b)-from).Microseconds())/1000/float64(n), "cpu-ms/op")
		})
	}
}
