package service

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/pleat"
)

// The limits of what is believed of an edge.
const (
	MaxRadius      = 20 * length.Metre
	MinTurnOver    = length.Millimetre
	MaxTurnOver    = 2 * length.Metre
	MinPleatEdge   = length.Millimetre
	MaxPleatEdge   = 200 * length.Metre
	MinPleatDepth  = length.Millimetre
	MaxPleatDepth  = length.Metre
	MaxButtonsRow  = 200
	MinSnipMargin  = length.Millimetre
	MaxSnipMargin  = 20 * length.Centimetre
	maxPleatDegree = 360
)

// PleatsFaults are everything wrong with the request; pointers are those of the
// wire form.
func PleatsFaults(req PleatsRequest) fault.List {
	l := PleatsFieldFaults(req)
	if l.Len() == 0 {
		pleatsTogether(&l, req)
	}
	return l
}

// PleatsFieldFaults may be asked of a request of which a part could not be read.
func PleatsFieldFaults(req PleatsRequest) fault.List {
	var l fault.List
	root := fault.Path{}
	geometryFaults(&l, req.From, root.Field("from"))
	if req.MaxDepth != 0 {
		l.Between(root.Field("maxDepth"), "the depth of a fold", req.MaxDepth, MinPleatDepth, MaxPleatDepth)
	}
	if req.Margin != 0 {
		l.Between(root.Field("margin"), "a margin", req.Margin, MinSnipMargin, MaxSnipMargin)
	}
	if req.Over != 0 {
		l.Between(root.Field("over"), "the edge over which they are spread", req.Over, MinPleatEdge, MaxPleatEdge)
	}
	if req.Face != 0 {
		l.Between(root.Field("face"), "the face of a pleat", req.Face, MinPleatEdge, MaxPleatDepth)
		if req.Style != pleat.Box {
			l.Add(root.Field("face"), fault.NotAllowed, "", "face belongs to box", "leave face out, or change style")
		}
	}
	if req.Count < 0 || req.Count > pleat.MaxCount {
		l.Add(root.Field("count"), fault.TooLarge, strconv.Itoa(req.Count), "an edge has at most 400 pleats", "from 1 to 400")
	}
	if req.Style == pleat.Pairs && req.Count%2 == 1 {
		l.Add(root.Field("count"), fault.NotAllowed, strconv.Itoa(req.Count), "pairs take an even number", "an even number, or change style")
	}
	if req.Away && req.Style != pleat.Fan && req.Style != pleat.AnyStyle {
		l.Add(root.Field("lie"), fault.NotAllowed, "", "only a fan may point away", "leave lie out, or change style")
	}
	if req.How == pleat.Buttons {
		if req.Count != 0 {
			l.Add(root.Field("count"), fault.NotAllowed, strconv.Itoa(req.Count), "one pleat runs from each button", "leave count out")
		}
		if req.Style == pleat.Pairs {
			l.Add(root.Field("style"), fault.NotAllowed, string(req.Style), "pairs would not run from the buttons", "fan, box, inverted or darts")
		}
	}
	return l
}

// geometryFaults wants the measures that the geometry needs, in their ranges.
// Which fields belong to which is told by the wire form.
func geometryFaults(l *fault.List, f pleat.From, at fault.Path) {
	switch f.How {
	case pleat.Lengths, pleat.Buttons:
		l.Between(at.Field("cloth"), "the cloth", f.Cloth, MinPleatEdge, MaxPleatEdge)
		l.Between(at.Field("finished"), "the finished edge", f.Finished, MinPleatEdge, MaxPleatEdge)
		if f.TurnOver != 0 {
			l.Between(at.Field("turnOver"), "a turn-over", f.TurnOver, MinTurnOver, MaxTurnOver)
		}
		if f.How == pleat.Buttons && (f.Buttons < 1 || f.Buttons > MaxButtonsRow) {
			l.Add(at.Field("buttons"), fault.TooSmall, strconv.Itoa(f.Buttons), "a row has from 1 to 200 buttons", "from 1 to 200")
		}
		if f.How == pleat.Buttons && f.Cloth < f.Finished && f.Cloth > 0 {
			l.Add(at.Field("cloth"), fault.TooSmall, f.Cloth.String(), "between buttons the cloth is not shorter than the finished spacing", "at least "+f.Finished.String())
		}
		return
	}
	l.Between(at.Field("radius"), "a radius", f.Radius, 0, MaxRadius)
	l.Between(at.Field("turnOver"), "a turn-over", f.TurnOver, MinTurnOver, MaxTurnOver)
	if f.Angle < 1 || f.Angle > maxPleatDegree {
		l.Add(at.Field("angle"), fault.TooLarge, strconv.Itoa(f.Angle), "an edge turns through 1 to 360 degrees", "from 1 to 360")
	}
	if f.Concave && f.TurnOver >= f.Radius && f.TurnOver > 0 {
		l.Add(at.Field("turnOver"), fault.TooLarge, f.TurnOver.String(), "past a concave edge there is no cloth beyond the middle of its round", "less than the radius, "+f.Radius.String())
	}
}

// pleatsTogether is what can be said only when the excess is known.
func pleatsTogether(l *fault.List, req PleatsRequest) {
	root := fault.Path{}
	excess, finished := req.Excess()
	if req.Over > finished {
		l.Add(root.Field("over"), fault.TooLarge, req.Over.String(), "this is longer than the finished edge", "at most "+finished.String())
	}
	if excess >= 0 {
		return
	}
	if req.Style != pleat.AnyStyle {
		l.Add(root.Field("style"), fault.NotAllowed, string(req.Style), "the cloth is too short at this edge, which is snipped and not folded", "leave style out")
	}
	margin := req.SnipMargin()
	from := root.Field("from").Field("turnOver")
	switch {
	case req.TurnOver == 0:
		l.Add(from, fault.Missing, "", "the cloth is too short and is snipped, for which its turn-over must be known", "give turnOver")
	case req.TurnOver <= margin:
		l.Add(from, fault.TooSmall, req.TurnOver.String(), "a snip would have no depth: the margin takes all of the turn-over", "more than "+margin.String()+", or a smaller margin")
	}
}
