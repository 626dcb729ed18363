package httpapi_test

import (
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
)

// BenchmarkNew is what a process does before it answers.
func BenchmarkNew(b *testing.B) {
	for b.Loop() {
		if _, err := httpapi.New(httpapi.DefaultOptions()); err != nil {
			b.Fatal(err)
		}
	}
}
