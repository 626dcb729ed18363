package cloth_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
)

// A cloth of which one part in twenty is kept for flaws, sold by the half metre.
func ExampleSold_Order() {
	sold := cloth.Sold{Step: 50 * length.Centimetre, Flaw: 50_000}
	order, err := sold.Order(642 * length.Centimetre)
	fmt.Println(order.Text(length.Metric, length.Up), err)
	// Output: 7 m <nil>
}

// A half-drop is woven so that each next column stands half a repeat lower.
func ExamplePattern() {
	heron := cloth.Pattern{
		LengthRepeat: 64 * length.Centimetre, WidthRepeat: 70 * length.Centimetre, Drop: cloth.Half(),
		Motifs: []cloth.Motif{{Name: "heron", Across: 35 * length.Centimetre}, {Name: "sedge", Along: 32 * length.Centimetre}},
	}
	k, ok := heron.Find("sedge")
	fmt.Println(heron.IsPlain(), heron.Drop.IsStraight(), k, ok)
	// Output: false false 1 true
}
