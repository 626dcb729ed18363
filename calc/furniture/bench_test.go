package furniture_test

import (
	"testing"

	"github.com/bridletie/bridletie/calc/furniture"
)

// BenchmarkList makes the list of the kind with the most panels, with all of its
// styles.
func BenchmarkList(b *testing.B) {
	p := furniture.Piece{Kind: "corner-settee", Count: 2, Options: map[string]string{
		"back": "cushions", "arms": "square", "collars": "sewn", "skirt": "tailored", "skirt-make": "lined", "piping": "all",
	}}
	b.ReportAllocs()
	for b.Loop() {
		if len(p.List().Panels) < 30 {
			b.Fatal("too few panels")
		}
	}
}
