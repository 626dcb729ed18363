package service

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// yardageWarnings are what the caller should know about this answer.
func yardageWarnings(a *YardageAnswer) []string {
	req, out := a.Request, []string{}
	if n := len(a.Lengths); n > 1 {
		out = append(out, fmt.Sprintf("the job takes %d lengths from more than one bolt: ask for one dye lot and compare them before cutting", n))
	}
	for _, l := range a.Lengths {
		if req.Sold.Bolt > 0 && l.Order > req.Sold.Bolt {
			out = append(out, "with its allowances a length of "+l.Order.Text(req.Units, length.Up)+" is longer than a bolt of "+req.Sold.Bolt.Text(req.Units, length.Down)+": ask the supplier")
			break
		}
	}
	drop := req.Cloth.Pattern.Drop.Reduced()
	for _, p := range req.Panels {
		if p.Pair != "" && p.PairAs == panel.Mirrored && drop.Den > 2 {
			out = append(out, "this pattern has no mirror symmetry: pairs show the same motif at the same place instead of mirrored")
			break
		}
	}
	if a.Result.RowBound && !req.Cloth.StartKnown && a.AnyStart > a.Result.Needed() {
		out = append(out, "the plan begins at its start in the repeat; the order covers cloth that begins elsewhere. Ask again with startsAt once the cloth is there")
	}
	return out
}

// yardageCautions are what to take care of before cutting.
func yardageCautions(req YardageRequest) []string {
	out := []string{
		"Measure the piece and the cloth once more before the first cut: width between the selvedges, flaws, and which way is up.",
	}
	if !req.Cloth.Pattern.IsPlain() {
		out = append(out, "Measure the repeats on the cloth itself at several places: printed repeats run out, and this plan is exact.")
	}
	if req.Sold.Shrinkage > 0 {
		out = append(out, "Shrinkage is allowed for in length only: wash the cloth before cutting and measure width and repeats again.")
	}
	return append(out,
		"Shears, rotary cutters and trimming knives cut hands: cut away from yourself and keep them closed.",
		"Whether this cloth may be used for this piece is a matter of the fire rules where it is supplied; local codes and the supplier's papers decide.",
	)
}
