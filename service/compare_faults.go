package service

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
)

// MaxCompared bounds the cloths times the copies of all panels.
const MaxCompared = 100_000

// CompareFaults are everything wrong with the request; pointers are those of the
// wire form. What a cloth does not allow of a panel is no fault: that cloth comes
// last. It may be asked of a request of which a part could not be read.
func CompareFaults(req CompareRequest) fault.List {
	var l fault.List
	root := fault.Path{}
	for i, c := range req.Cloths {
		here := root.Field("cloths").Index(i).Field("cloth")
		l.Append(c.Faults(here))
		l.Append(c.Sold.Faults(here))
	}
	panels := root.Field("panels")
	l.Append(panel.ListFaults(req.Panels, panels))
	copies := 0
	for _, p := range req.Panels {
		copies += p.Count
	}
	if n := copies * len(req.Cloths); n > MaxCompared {
		l.Add(root.Field("cloths"), fault.TooMany, "",
			strconv.Itoa(len(req.Cloths))+" cloths with "+strconv.Itoa(copies)+" panels each are too many for one request",
			"at most "+strconv.Itoa(MaxCompared)+" panels on all cloths together: ask in parts")
	}
	rankFaults(&l, req, root)
	at := root.Field("sensitivity")
	for i, w := range req.Widths {
		l.Between(at.Field("widths").Index(i), "the usable width", w, cloth.MinWidth, cloth.MaxWidth)
	}
	for i, v := range req.Repeats {
		l.Between(at.Field("lengthRepeats").Index(i), "a length repeat", v, cloth.MinRepeat, cloth.MaxRepeat)
	}
	return l
}

// rankFaults wants prices in one currency where cost decides.
func rankFaults(l *fault.List, req CompareRequest, root fault.Path) {
	if req.RankBy != ByCost {
		return
	}
	code := ""
	for i, c := range req.Cloths {
		here := root.Field("cloths").Index(i).Field("price")
		switch {
		case c.Price == nil:
			l.Add(here, fault.Missing, "", "to rank by cost every cloth needs a price", "give it, or rank by length or waste")
		case code == "":
			code = c.Price.Code()
		case c.Price.Code() != code:
			l.Add(here.Field("currency"), fault.NotAllowed, c.Price.Code(), "prices in two currencies cannot be ranked", "give all prices in "+code)
		}
	}
}

func compareWarnings(a *CompareAnswer) []note.Note {
	out := []note.Note{note.New(note.AtAGlance)}
	bad := 0
	for _, c := range a.Cloths {
		if !c.Usable {
			bad++
		}
	}
	if bad > 0 {
		out = append(out, note.New(note.ClothsNotUsed, note.Count("count", bad)))
	}
	return out
}
