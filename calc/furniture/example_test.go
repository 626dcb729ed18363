package furniture_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
)

func ExamplePiece_List() {
	chair := furniture.Piece{
		Kind:     "wing-chair",
		Count:    1,
		Measures: map[string]length.Length{"back-width": 56 * cm, "back-height": 80 * cm},
		Options:  map[string]string{"cushion": "fixed"},
	}
	for _, p := range chair.List().Panels[:4] {
		fmt.Println(p.ID+":", p.How.Text(length.Metric))
	}
	// Output:
	// IB: across 59 cm = back width 56 cm + 2 × seam 1.5 cm; along 87.5 cm = back height 80 cm + pull 6 cm (top) + seam 1.5 cm (bottom)
	// OB: across 79 cm = outside width 76 cm + 2 × seam 1.5 cm; along 99.5 cm = outside height 94 cm + seam 1.5 cm (top) + turn-under 4 cm (bottom)
	// SEAT: across 59 cm = seat width 56 cm + 2 × seam 1.5 cm; along 59 cm = seat depth 56 cm + 2 × seam 1.5 cm
	// FB: across 68 cm = seat width 56 cm + 2 × pull 6 cm; along 25.5 cm = seat rise 20 cm + seam 1.5 cm (top) + turn-under 4 cm (bottom)
}
