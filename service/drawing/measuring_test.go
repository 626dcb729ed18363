package drawing

import (
	"os"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
)

// Every measure of every kind has its letter in one of the views, and its row in
// the list.
func TestMeasuringShowsEveryMeasure(t *testing.T) {
	for _, k := range furniture.Kinds() {
		g := &guide{paper: paper{k: 1, page: 1610}, kind: k, usual: make(map[string]float64)}
		for _, m := range k.Measures {
			g.usual[m.ID] = m.Typical.MM()
		}
		g.views()
		marks := make(map[string]int)
		for _, d := range g.placed {
			marks[d.measure]++
			if d.a == d.b {
				t.Errorf("%s: %s is drawn as a point", k.ID, d.measure)
			}
		}
		svg := string(MeasuringSVG(k, length.Metric))
		for _, m := range k.Measures {
			if marks[m.ID] != 1 {
				t.Errorf("%s: %s is marked %d times", k.ID, m.ID, marks[m.ID])
			}
			for _, text := range []string{m.Name, m.ID} {
				if !strings.Contains(svg, ">"+text+"<") {
					t.Errorf("%s: %s is not listed", k.ID, text)
				}
			}
		}
		read(t, []byte(svg))
		if dir := os.Getenv("BRIDLETIE_DRAW"); dir != "" {
			if err := os.WriteFile(dir+"/"+k.ID+".svg", []byte(svg), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
