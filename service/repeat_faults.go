package service

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/repeat"
)

// The limits of what is believed of drops.
const (
	MinDrop       = length.Millimetre
	MaxDrop       = 100 * length.Metre
	MaxDropKinds  = 12
	MaxDropCount  = 500
	MaxDropWidths = 100
	MaxDropsCut   = 2000 // widths of all drops together
	MaxFinished   = 100 * length.Metre
)

// RepeatFaults are everything wrong with the request; pointers are those of the
// wire form. It may be asked of a request of which a part could not be read.
func RepeatFaults(req RepeatRequest) fault.List {
	root := fault.Path{}
	l := req.Cloth.Faults(root.Field("cloth"))
	l.Append(req.Sold.Faults(root.Field("cloth")))
	l.Between(root.Field("seamAllowance"), "a seam allowance", req.Seam, 0, MaxFinished)
	if req.Cloth.Width > 0 && req.Seam > 0 && 2*req.Seam >= req.Cloth.Width && req.Seam <= MaxFinished {
		l.Add(root.Field("seamAllowance"), fault.TooLarge, req.Seam.String(), "both seams of a width together are narrower than the cloth", "less than half of the cloth's width")
	}
	if req.Rule != repeat.Exact && !repeat.IsHalf(req.Cloth.Pattern) {
		l.Add(root.Field("rule"), fault.NeedsPattern, "", "the printed rules are for a length repeat that matches straight or by a half-drop", "exact, or leave rule out")
	}
	dropsFaults(&l, req, root.Field("drops"))
	if q := req.Centre; q != nil {
		at := root.Field("centre")
		l.Between(at.Field("finishedWidth"), "a finished width", q.Finished, MinDrop, MaxFinished)
		if req.Cloth.Pattern.WidthRepeat <= 0 {
			l.Add(at, fault.NeedsPattern, "", "what is centred across needs a width repeat", "give pattern.widthRepeat, or leave centre out")
		}
		knownMotif(&l, req.Cloth, q.Motif, at.Field("motif"))
	}
	if q := req.Panel; q != nil {
		at := root.Field("panel")
		for _, one := range []struct {
			field string
			v     length.Length
		}{{"across", q.Finished.Across}, {"along", q.Finished.Along}, {"motifAcross", q.Size.Across}, {"motifAlong", q.Size.Along}} {
			l.Between(at.Field(one.field), "this", one.v, MinDrop, MaxFinished)
		}
		if req.Cloth.Pattern.IsPlain() {
			l.Add(at, fault.NeedsPattern, "", "a plain cloth has no motif", "give the pattern, or leave panel out")
		}
		knownMotif(&l, req.Cloth, q.Motif, at.Field("motif"))
	}
	return l
}

func dropsFaults(l *fault.List, req RepeatRequest, at fault.Path) {
	cuts := 0
	for i, d := range req.Drops {
		here := at.Index(i)
		l.Between(here.Field("length"), "a drop", d.Length, MinDrop, MaxDrop)
		cuts += min(d.Count, MaxDropCount) * min(d.Widths, MaxDropWidths)
		if d.Place == nil {
			continue
		}
		l.Between(here.Field("motif").Field("fromTop"), "the place of a motif", d.Place.FromTop, 0, MaxDrop)
		if req.Cloth.Pattern.LengthRepeat <= 0 {
			l.Add(here.Field("motif"), fault.NeedsPattern, "", "where a motif falls in a drop needs a length repeat", "give pattern.lengthRepeat, or leave motif out")
		}
		knownMotif(l, req.Cloth, d.Place.Motif, here.Field("motif").Field("name"))
	}
	if cuts > MaxDropsCut {
		l.Add(at, fault.TooMany, strconv.Itoa(cuts), "all drops together are more than 2000 widths", "a part of the job")
	}
}

// knownMotif wants a motif that the cloth has; a name left out is the first.
func knownMotif(l *fault.List, c cloth.Cloth, name string, at fault.Path) {
	if name == "" {
		return
	}
	if _, ok := c.Pattern.Find(name); !ok {
		l.Add(at, fault.UnknownMotif, name, "the cloth has no such motif", "the name of a motif of the pattern, or leave it out")
	}
}
