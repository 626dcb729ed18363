package drawing

import (
	"os"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/furniture"
)

// A piece has a group with its letter for every measure, in the order of the
// list, and nothing of it lies off the sheet.
func TestPieceMarksEveryMeasure(t *testing.T) {
	for _, k := range furniture.Kinds() {
		svg := string(PieceSVG(k))
		read(t, []byte(svg))
		groups := strings.Split(svg, "<g>")[1:]
		if len(groups) != len(k.Measures) {
			t.Fatalf("%s: %d groups for %d measures", k.ID, len(groups), len(k.Measures))
		}
		for i, g := range groups {
			if !strings.Contains(g, ">"+measureMark(i)+"<") {
				t.Errorf("%s: the group of %s has not its letter", k.ID, k.Measures[i].ID)
			}
		}
		if dir := os.Getenv("BRIDLETIE_DRAW"); dir != "" {
			if err := os.WriteFile(dir+"/"+k.ID+".piece.svg", []byte(svg), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
