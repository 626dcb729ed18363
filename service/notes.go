package service

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
)

// yardageWarnings are what the caller should know about this answer.
func yardageWarnings(a *YardageAnswer) []note.Note {
	req := a.Request
	var out []note.Note
	if a.Hurried {
		out = append(out, note.New(note.HurriedSearch))
	}
	if n := len(a.Lengths); n > 1 {
		out = append(out, note.New(note.SeveralLengths, note.Count("lengths", n)))
	}
	for _, l := range a.Lengths {
		if req.Sold.Bolt > 0 && l.Order > req.Sold.Bolt {
			out = append(out, longerThanBolt(req, l.Order))
			break
		}
	}
	if p := a.Pieces; p != nil && len(p.Uses) > len(req.Pieces)+1 {
		out = append(out, note.New(note.SeveralBeside, note.Count("lengths", len(p.Uses)-len(req.Pieces))))
	}
	if mirrorsInVain(req) {
		out = append(out, note.New(note.NotMirrored))
	}
	if a.Result.RowBound && req.Cloth.StartsAt == nil && a.AnyStart > a.Result.Needed() {
		out = append(out, note.New(note.BeginsElsewhere))
	}
	return out
}

// checkWarnings are what the caller should know about a plan made by hand.
func checkWarnings(a *CheckAnswer) []note.Note {
	req := a.Request.YardageRequest
	var out []note.Note
	if more := -a.WouldSave(); more > 0 && a.Right() {
		out = append(out, note.New(note.HandShorter, note.Length("less", more, length.Down)))
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
		out = append(out, note.New(note.HandLengths, note.Count("lengths", cut)))
	}
	if mirrorsInVain(req) {
		out = append(out, note.New(note.NotMirrored))
	}
	if a.Engine.Result.RowBound && req.Cloth.StartsAt == nil {
		out = append(out, note.New(note.HandStart))
	}
	return out
}

// longerThanBolt says that a length that is ordered is not sold in one piece.
func longerThanBolt(req YardageRequest, order length.Length) note.Note {
	return note.New(note.OverBolt, note.Length("order", order, length.Up), note.Length("bolt", req.Sold.Bolt, length.Down))
}

// mirrorsInVain reports whether mirrored twins are wished for on a pattern that
// has none.
func mirrorsInVain(req YardageRequest) bool {
	return req.Cloth.Pattern.Drop.Reduced().Den > 2 && slices.ContainsFunc(req.Panels, func(p panel.Panel) bool {
		return p.Pair != "" && p.PairAs == panel.Mirrored
	})
}

// yardageCautions are what to take care of before cutting.
func yardageCautions(req YardageRequest) []note.Note {
	out := []note.Note{note.New(note.MeasureCloth)}
	if !req.Cloth.Pattern.IsPlain() {
		out = append(out, note.New(note.MeasureRepeats))
	}
	if req.Sold.Shrinkage > 0 {
		out = append(out, note.New(note.ShrinksAlong))
	}
	return append(out, note.New(note.Blades), note.New(note.FireRules))
}
