package buttoning_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

const cm = length.Centimetre

func Example() {
	p := buttoning.Panel{
		Size:  panel.Size{Across: 56 * cm, Along: 78 * cm},
		Edges: buttoning.Edges{Side: 8 * cm, Top: 9 * cm, Bottom: 12 * cm},
	}
	grid, _ := buttoning.GridFor(p, buttoning.Wish{How: buttoning.Spacing, Width: 13 * cm, Height: 19 * cm})
	work := buttoning.NewWork(grid, buttoning.Spread{Depth: 3 * cm}, practice.Defaults())
	fmt.Println(grid.Buttons(), "buttons; on the cloth a diamond is", work.Cloth.Across, "×", work.Cloth.Along)
	fmt.Println("first row on the work: ", work.OnWork()[0].Across)
	fmt.Println("first row on the cloth:", work.OnCloth()[0].Across)

	heron := cloth.Pattern{LengthRepeat: 64 * cm, WidthRepeat: 685 * length.Millimetre, Drop: cloth.Half(), Motifs: []cloth.Motif{{Name: "heron"}}}
	aim := buttoning.Aim{Cap: work.CapFor(), Symmetric: true}
	for _, d := range work.Diamonds() {
		aim.Wants = append(aim.Wants, buttoning.Want{Mark: d, Motifs: []int{0}})
	}
	best := buttoning.Best(heron, aim, buttoning.MaxWork)
	for _, m := range work.Map(heron, best.Shift, []panel.Size{{Across: 8 * cm, Along: 10 * cm}}, buttoning.Cover{Button: cm}) {
		fmt.Println("a heron at", m.Work.X, m.Work.Y, "is shown:", m.Fate == buttoning.Shown)
	}
	// Output:
	// 25 buttons; on the cloth a diamond is 146.618 mm × 201.967 mm
	// first row on the work:  [-195 mm -65 mm 65 mm 195 mm]
	// first row on the cloth: [-219.927 mm -73.309 mm 73.309 mm 219.927 mm]
	// a heron at 0 mm -95 mm is shown: true
}

func ExampleDepthFor() {
	fmt.Println(buttoning.DepthFor(3*length.Inch, 3*length.Inch+3*length.Inch/2).Text(length.Imperial, length.Nearest))
	// Output: 1 9/16 in
}
