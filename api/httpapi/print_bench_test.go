package httpapi_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/service/drawing"
)

// The job sheet of the wing chair, from its answer to a document of some 35 pages.
func BenchmarkJobSheetPDF(b *testing.B) {
	body, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "wing-chair-job.json"))
	if err != nil {
		b.Fatal(err)
	}
	ans := answeredJob(b, newServer(b, httpapi.DefaultOptions()), string(body))
	b.ReportAllocs()
	from, n := cpuTime(b), 0
	for b.Loop() {
		if _, err := drawing.JobPDF(ans); err != nil {
			b.Fatal(err)
		}
		n++
	}
	b.ReportMetric(float64((cpuTime(b)-from).Microseconds())/1000/float64(n), "cpu-ms/op")
}
