package panel_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// An inside back with hidden flies is cut larger than it shows.
func ExamplePanel_Cut() {
	back := panel.Panel{
		ID: "IB", Count: 1,
		Size:  panel.Size{Across: 56 * length.Centimetre, Along: 78 * length.Centimetre},
		Allow: panel.Sides{Top: 6 * length.Centimetre, Bottom: 10 * length.Centimetre, Left: 2 * length.Centimetre, Right: 2 * length.Centimetre},
		Match: panel.Match{How: panel.Centred},
	}
	fmt.Println(back.Cut().Across, back.Cut().Along, back.Reference())
	// Output: 600 mm 940 mm {300 mm 450 mm}
}

// What is wrong with a cutting list is said of every panel, not of the first.
func ExampleListFaults() {
	list := []panel.Panel{
		{ID: "SEAT", Count: 0, Size: panel.Size{Across: 60 * length.Centimetre, Along: 66 * length.Centimetre}},
		{ID: "BACK", Count: 1, Size: panel.Size{Across: 160 * length.Centimetre, Along: 70 * length.Centimetre}},
	}
	faults := panel.ListFaults(list, fault.At("panels"))
	faults.Append(panel.ClothFaults(list, cloth.Cloth{Width: 140 * length.Centimetre}, 0, fault.At("panels")))
	for _, f := range faults.Faults() {
		fmt.Println(f.Pointer(), f.Code)
	}
	// Output:
	// #/panels/0/count too-small
	// #/panels/1/size/across wider-than-cloth
}
