package service

import (
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// The limits of what is believed of a piece of cloth in hand.
const (
	MinPiece = 10 * length.Millimetre
	MaxPiece = 1000 * length.Metre
)

// YardageFaults are everything wrong with the request; see PrepareYardage.
func YardageFaults(req YardageRequest) fault.List {
	_, wrong := PrepareYardage(req)
	return wrong
}

// YardageFieldFaults are what is wrong with the fields, each by itself and with
// one another. It may be asked of a request of which a part could not be read.
func YardageFieldFaults(req YardageRequest) fault.List {
	var l fault.List
	root := fault.Path{}
	l.Append(req.Cloth.Faults(root.Field("cloth")))
	l.Append(req.Sold.Faults(root.Field("cloth")))
	for i, piece := range req.Pieces {
		l.Between(root.Field("pieces").Index(i), "a piece", piece, MinPiece, MaxPiece)
	}
	panels := root.Field("panels")
	if len(req.Panels) == 0 {
		l.Add(panels, fault.TooFew, "", "the cutting list is empty", "one panel or more")
	}
	l.Append(panel.ListFaults(req.Panels, panels))
	l.Append(panel.ClothFaults(req.Panels, req.Cloth, req.Sold.Bolt, panels))
	for i, p := range req.Panels {
		l.Append(ObstacleFaults(p, req.Obstacles[i], panels.Index(i).Field("obstacles")))
	}
	return l
}
