package calc_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/verify"
)

const cm = length.Centimetre

// A deep-buttoned inside back and two arms from a cloth with herons: the grid says
// how large the back is cut, the plan how much cloth that takes, and the verifier
// that the plan is right.
func Example() {
	heron := cloth.Pattern{LengthRepeat: 64 * cm, WidthRepeat: 70 * cm, Drop: cloth.Half(),
		Motifs: []cloth.Motif{{Name: "heron", Across: 35 * cm}}}

	back := buttoning.Panel{Size: panel.Size{Across: 56 * cm, Along: 78 * cm}, Edges: buttoning.Edges{Side: 8 * cm, Top: 9 * cm, Bottom: 12 * cm}}
	grid, ok := buttoning.GridFor(back, buttoning.Wish{How: buttoning.Spacing, Width: 13 * cm, Height: 19 * cm})
	if !ok {
		fmt.Println("no such grid")
		return
	}
	work := buttoning.NewWork(grid, buttoning.Spread{Depth: 3 * cm}, practice.Defaults())
	fmt.Println(grid.Buttons(), "buttons, the back is cut", work.Cut().Across.Text(length.Metric, length.Up), "by", work.Cut().Along.Text(length.Metric, length.Up))

	job := layout.Job{Cloth: cloth.Cloth{Width: 140 * cm, Pattern: heron, OneWay: true}, Panels: []panel.Panel{
		{ID: "BACK", Count: 1, Size: work.Cut(), Match: panel.Match{How: panel.Centred}},
		{ID: "ARM", Count: 2, Size: panel.Size{Across: 55 * cm, Along: 60 * cm}, Match: panel.Match{How: panel.Across}, Pair: "ARM"},
	}}
	found, err := plan.Solve(job, plan.Normal, nil)
	if err != nil {
		fmt.Println("cannot be cut:", err) // says of every fault where it is
		return
	}
	order, _ := cloth.Sold{Step: 10 * cm}.Order(found.AnyStart[0])
	fmt.Println("needed", found.Needed().Text(length.Metric, length.Up), "proven", found.Proven, "to order", order)
	fmt.Println(len(verify.Check(job, found.Cut...)), "flaws")
	// Output:
	// 25 buttons, the back is cut 62.4 cm by 82.8 cm
	// needed 1.24 m proven true to order 1500 mm
	// 0 flaws
}
