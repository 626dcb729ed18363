package httpapi_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
)

// BenchmarkYardageDemo is the demo job through the whole handler, warm.
func BenchmarkYardageDemo(b *testing.B) {
	body, err := os.ReadFile("../../testdata/jobs/wing-chair.json")
	if err != nil {
		b.Fatal(err)
	}
	h := freshServer(b).Handler()
	for b.Loop() {
		r := httptest.NewRequest(http.MethodPost, "/v1/yardage", strings.NewReader(string(body)))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			b.Fatalf("status %d: %s", w.Code, w.Body)
		}
	}
}
