package buttoning

import (
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// benchmarkBest is a search and a map.
func benchmarkBest(b *testing.B, w Work, p cloth.Pattern, symmetric bool) {
	aim := aimAt(w, w.Diamonds(), 0)
	aim.Symmetric = symmetric
	sizes := make([]panel.Size, len(p.Motifs))
	for k := range sizes {
		sizes[k] = sized(8*cm, 8*cm)
	}
	var found Found
	for b.Loop() {
		found = Best(p, aim, MaxWork)
		w.Map(p, found.Shift, sizes, Cover{10 * mm})
	}
	b.ReportMetric(float64(found.Work), "places")
	if !found.Complete {
		b.Log("not complete")
	}
}

func BenchmarkTypical(b *testing.B) { benchmarkBest(b, bench(b, 5, 6), trellis(cloth.Half()), true) }

func BenchmarkTypicalAllShifts(b *testing.B) {
	benchmarkBest(b, bench(b, 5, 6), trellis(cloth.Half()), false)
}

func BenchmarkSixtyBySixty(b *testing.B) {
	g, ok := GridFor(Panel{Size: sized(9*length.Metre, 9*length.Metre)}, Wish{Rows: 60, Columns: 60})
	if !ok {
		b.Fatal("no grid")
	}
	benchmarkBest(b, NewWork(g, Spread{Depth: 35 * mm}, practice.Defaults()), trellis(cloth.Half()), false)
}
