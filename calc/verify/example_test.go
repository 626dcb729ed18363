package verify_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/verify"
)

// A plan made by hand: the second seat was chalked 1 cm too far to the left, and
// its motif with it.
func ExampleCheck() {
	const cm = length.Centimetre
	job := layout.Job{
		Cloth: cloth.Cloth{Width: 140 * cm, Pattern: cloth.Pattern{
			LengthRepeat: 32 * cm, WidthRepeat: 70 * cm,
			Motifs: []cloth.Motif{{Name: "sedge", Across: 35 * cm, Along: cm}},
		}},
		Panels: []panel.Panel{{ID: "SEAT", Count: 2, Size: panel.Size{Across: 70 * cm, Along: 66 * cm}, Match: panel.Match{How: panel.Centred}}},
	}
	seat := func(n int, x length.Length) layout.Placement {
		return layout.Placement{Copy: n, Part: 1, Parts: 1, X: x, Across: 70 * cm, Along: 66 * cm,
			Motif: &layout.MotifAt{X: x + 35*cm, Y: 33 * cm}}
	}
	right := layout.Layout{Length: 66 * cm, Placements: []layout.Placement{seat(1, 0), seat(2, 70*cm)}}
	fmt.Println(len(verify.Check(job, right)), "flaws")

	wrong := layout.Layout{Length: 66 * cm, Placements: []layout.Placement{seat(1, 0), seat(2, 69*cm)}}
	for _, f := range verify.Check(job, wrong) {
		fmt.Println(f)
	}
	// Output:
	// 0 flaws
	// motif-misreported: SEAT copy 2 names a motif where the cloth has none
	// motif-off: SEAT copy 2 has its motif 10 mm out
	// overlap: SEAT copy 2 overlaps SEAT copy 1
}
