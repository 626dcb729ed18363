package service

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// The limits of what is believed of a plan made by hand.
const (
	MinByHand   = length.Millimetre      // of a length that is given
	MaxByHand   = 250_000 * length.Metre // of all lengths end to end
	MaxHandFrom = 10 * length.Metre      // of where in the repeat a length begins
)

// CheckFaults are everything wrong with the request; pointers are those of the
// wire form. What is wrong with the plan itself is no fault of the request.
func CheckFaults(req CheckRequest) fault.List {
	l := CheckFieldFaults(req)
	if l.Len() == 0 {
		_, l = plan.Prepare(req.Job())
	}
	return l
}

// CheckFieldFaults are what is wrong with the fields, each by itself and with
// one another. It may be asked of a request of which a part could not be read.
func CheckFieldFaults(req CheckRequest) fault.List {
	req.Pieces = nil
	l := YardageFieldFaults(req.YardageRequest)
	root := fault.Path{}
	handLengthFaults(&l, req.Lengths, root.Field("lengths"))
	at := root.Field("placements")
	if len(req.Placements) == 0 {
		l.Add(at, fault.TooFew, "", "the plan is empty", "one placement or more")
	}
	byID := make(map[string]*panel.Panel, len(req.Panels))
	for i := range req.Panels {
		byID[req.Panels[i].ID] = &req.Panels[i]
	}
	for i := range req.Placements {
		handPlacementFaults(&l, &req, &req.Placements[i], byID, at.Index(i))
	}
	if l.Len() == 0 {
		var sum length.Length
		for _, one := range layoutsOf(req).layouts {
			sum += one.Length
		}
		if sum > MaxByHand {
			l.Add(at, fault.TooLarge, "", "the plan is longer than 250 km", "a part of the job")
		}
	}
	return l
}

// handLengthFaults wants each length once and within the limits.
func handLengthFaults(l *fault.List, lengths []HandLength, at fault.Path) {
	seen := make(map[int]bool, len(lengths))
	for i, one := range lengths {
		here := at.Index(i)
		if seen[one.Piece] {
			l.Add(here.Field("piece"), fault.Duplicate, strconv.Itoa(one.Piece), "this length stands in the list already", "one entry for each length")
		}
		seen[one.Piece] = true
		if one.Start != nil {
			l.Between(here.Field("start"), "the start of a length", *one.Start, 0, MaxHandFrom)
		}
		if one.Length != 0 {
			l.Between(here.Field("length"), "a length", one.Length, MinByHand, MaxByHand)
		}
	}
}

// handPlacementFaults wants a panel, a copy and a motif that there are, and of a
// part of a joined panel its width, which the panel does not say.
func handPlacementFaults(l *fault.List, req *CheckRequest, p *HandPlacement, byID map[string]*panel.Panel, at fault.Path) {
	q := byID[p.Panel]
	switch {
	case q == nil:
		l.Add(at.Field("panel"), fault.UnknownPanel, p.Panel, "no panel of the cutting list has this id", "the id of a panel")
	case p.Copy > q.Count:
		l.Add(at.Field("copy"), fault.TooLarge, strconv.Itoa(p.Copy), "of "+q.ID+" there are "+strconv.Itoa(q.Count), "at most "+strconv.Itoa(q.Count))
	}
	if p.Parts > 1 && p.Across == nil {
		l.Add(at.Field("acrossMm"), fault.Missing, "", "how wide a part of a joined panel is cut must be said", "give acrossMm")
	}
	if p.Motif == nil {
		return
	}
	if _, ok := req.Cloth.Pattern.Find(p.Motif.Name); !ok || req.Cloth.Pattern.IsPlain() {
		l.Add(at.Field("motif").Field("name"), fault.UnknownMotif, p.Motif.Name, "the cloth has no such motif", "the name of a motif of the pattern, or leave motif out")
	}
}
