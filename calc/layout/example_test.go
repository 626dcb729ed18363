package layout_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// Two seats side by side, as a cutter chalks them on plain cloth.
func Example() {
	job := layout.Job{
		Cloth:  cloth.Cloth{Width: 140 * length.Centimetre},
		Panels: []panel.Panel{{ID: "SEAT", Count: 2, Size: panel.Size{Across: 60 * length.Centimetre, Along: 66 * length.Centimetre}}},
	}
	chalked := layout.Layout{Length: 66 * length.Centimetre}
	for n := range 2 {
		chalked.Placements = append(chalked.Placements, layout.Placement{
			Copy: n + 1, Part: 1, Parts: 1, X: length.Length(n) * 60 * length.Centimetre,
			Across: 60 * length.Centimetre, Along: 66 * length.Centimetre,
		})
	}
	for _, p := range chalked.Placements {
		fmt.Println(job.Panels[p.Panel].ID, p.Copy, "at", p.X, "by", p.Y)
	}
	// Output:
	// SEAT 1 at 0 mm by 0 mm
	// SEAT 2 at 600 mm by 0 mm
}
