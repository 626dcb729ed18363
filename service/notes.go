package service

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// yardageWarnings are what the caller should know about this answer.
func yardageWarnings(a *YardageAnswer) []string {
	req, out := a.Request, []string{}
	if a.Hurried {
		out = append(out, "the search was ended by the clock: the same request may get another plan at another time, and inputDigest does not stand for this one")
	}
	if n := len(a.Lengths); n > 1 {
		out = append(out, fmt.Sprintf("the job takes %d lengths from more than one bolt: ask for one dye lot and compare them before cutting", n))
	}
	for _, l := range a.Lengths {
		if req.Sold.Bolt > 0 && l.Order > req.Sold.Bolt {
			out = append(out, longerThanBolt(req, l.Order))
			break
		}
	}
	if p := a.Pieces; p != nil && len(p.Uses) > len(req.Pieces)+1 {
		out = append(out, fmt.Sprintf("what is still to buy beside the pieces takes %d lengths: ask for one dye lot and compare them before cutting", len(p.Uses)-len(req.Pieces)))
	}
	if mirrorsInVain(req) {
		out = append(out, notMirrored)
	}
	if a.Result.RowBound && req.Cloth.StartsAt == nil && a.AnyStart > a.Result.Needed() {
		out = append(out, "the plan begins at its start in the repeat; the order covers cloth that begins elsewhere. Ask again with startsAt once the cloth is there")
	}
	return out
}

// checkWarnings are what the caller should know about a plan made by hand.
func checkWarnings(a *CheckAnswer) []string {
	req, out := a.Request.YardageRequest, []string{}
	if more := -a.WouldSave(); more > 0 && a.Right() {
		out = append(out, "the plan made by hand is shorter than the engine's by "+more.Text(req.Units, length.Down)+": keep it; a thorough effort may find as much")
	}
	cut := 0
	for k, l := range a.Hand {
		if len(l.Placements) > 0 {
			cut++
		}
		if req.Sold.Bolt > 0 && a.Orders[k] > req.Sold.Bolt && l.Length <= req.Sold.Bolt {
			out = append(out, longerThanBolt(req, a.Orders[k]))
			break
		}
	}
	if cut > 1 {
		out = append(out, fmt.Sprintf("the plan is cut from %d lengths: where they are not of one bolt, ask for one dye lot and compare them before cutting", cut))
	}
	if mirrorsInVain(req) {
		out = append(out, notMirrored)
	}
	if a.Engine.Result.RowBound && req.Cloth.StartsAt == nil {
		out = append(out, "the order by hand is for cloth that begins where the plan begins; the engine's order covers cloth that begins elsewhere too")
	}
	return out
}

// longerThanBolt says that a length that is ordered is not sold in one piece.
func longerThanBolt(req YardageRequest, order length.Length) string {
	return "with its allowances a length of " + order.Text(req.Units, length.Up) + " is longer than a bolt of " + req.Sold.Bolt.Text(req.Units, length.Down) + ": ask the supplier"
}

const notMirrored = "this pattern has no mirror symmetry: pairs show the same motif at the same place instead of mirrored"

// mirrorsInVain reports whether mirrored twins are wished for on a pattern that
// has none.
func mirrorsInVain(req YardageRequest) bool {
	return req.Cloth.Pattern.Drop.Reduced().Den > 2 && slices.ContainsFunc(req.Panels, func(p panel.Panel) bool {
		return p.Pair != "" && p.PairAs == panel.Mirrored
	})
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

// Counted is a number of things in words: "1 piece", "3 pieces".
func Counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
