package service

import (
	"fmt"
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/practice"
)

// The limits of what is believed of piping.
const (
	MinPipingCord        = length.Millimetre
	MaxPipingCord        = 60 * length.Millimetre
	MinPipingStrip       = 5 * length.Millimetre
	MaxPipingStrip       = 50 * length.Centimetre
	MinPipingRun         = length.Centimetre
	MaxPipingRun         = 1000 * length.Metre
	MaxPipingAllRuns     = 100_000 * length.Metre
	MinPipingRadius      = length.Millimetre
	MaxPipingRadius      = 100 * length.Metre
	MinPipingOffcut      = length.Millimetre
	MaxPipingOffcut      = 100 * length.Metre
	MaxPipingOffcutPlace = 100_000 * length.Metre
	MaxPipingJoins       = 100
	MaxPipingStretch     = 500 // thousandths
)

// placeFaults are what shows once the runs are laid out.
func (req PipingRequest) placeFaults(l *fault.List, j piping.Job) {
	var strips length.Length
	for _, r := range j.Rects {
		strips += j.MostIn(r)
	}
	if strips > piping.MaxStrips {
		l.Add(fault.At("offcuts"), fault.TooMany, "", "the offcuts would give more than 20000 strips of this width", "fewer offcuts, or only the larger")
	}
	for i, r := range req.Runs {
		if len(piping.KeepClear(r.Run, j.Margin)) == 0 {
			l.Add(fault.At("runs").Index(i), fault.NoPlace, "", "a closed run has to be closed somewhere, and no place is left where a join may fall", "a place without corner and not in noJoin")
		}
	}
}

// PipingFieldFaults are what is wrong with the fields, each by itself and with
// one another. It may be asked of a request of which a part could not be read.
func PipingFieldFaults(req PipingRequest) fault.List {
	var l fault.List
	root := fault.Path{}
	if req.Sold != nil {
		l.Append(req.Cloth.Faults(root.Field("cloth")))
		l.Append(req.Sold.Faults(root.Field("cloth")))
	}
	if req.Sold == nil && len(req.Offcuts) == 0 {
		l.Add(root.Field("cloth"), fault.Missing, "", "there is nothing to cut from", "give cloth, or offcuts, or both")
	}
	l.Between(root.Field("cord").Field("diameter"), "the cord", req.Cord, MinPipingCord, MaxPipingCord)
	pipingStripFaults(&l, req, root.Field("strip"))
	joins := root.Field("joins")
	req.Shop.Check(&l, joins.Field("seam"), "the allowance of a join", practice.PipingJoin)
	req.Shop.Check(&l, joins.Field("overlap"), "an overlap", practice.PipingOverlap)
	req.Shop.Check(&l, joins.Field("ends"), "what is added at an end", practice.PipingEnds)
	req.Shop.Check(&l, joins.Field("corner"), "what is kept clear beside a corner", practice.PipingCorner)
	pipingOffcutFaults(&l, req.Offcuts, root.Field("offcuts"))
	pipedRunFaults(&l, req.Runs, root.Field("runs"))
	if req.Way != nil {
		pipingWayFaults(&l, req, root.Field("way"))
	}
	return l
}

func pipingStripFaults(l *fault.List, req PipingRequest, at fault.Path) {
	req.Shop.Check(l, at.Field("thickness"), "the cloth's thickness", practice.PipingCloth)
	req.Shop.Check(l, at.Field("seam"), "the seam allowance", practice.PipingSeam)
	req.Shop.Check(l, at.Field("step"), "the step of widths", PipingStep(req.Units))
	req.Shop.Check(l, at.Field("leastPiece"), "the shortest piece", practice.PipingLeast)
	if req.Width != 0 {
		l.Between(at.Field("width"), "the width of a strip", req.Width, MinPipingStrip, MaxPipingStrip)
	} else if w := req.StripWidth(); l.Len() == 0 && w > MaxPipingStrip {
		l.Add(at.Field("width"), fault.TooLarge, "", "cord, cloth and seams come to a strip of "+w.String(), "thinner cord or narrower seams: a strip is at most 50 cm wide")
	}
}

// pipingOffcutFaults wants rectangles that do not share cloth where they have a place.
func pipingOffcutFaults(l *fault.List, offcuts []PipingOffcut, at fault.Path) {
	for i, o := range offcuts {
		here := at.Index(i)
		l.Between(here, "an offcut across", o.Rect.Across, MinPipingOffcut, MaxPipingOffcut)
		l.Between(here, "an offcut along", o.Rect.Along, MinPipingOffcut, MaxPipingOffcut)
		if o.On == nil {
			continue
		}
		l.Between(here.Field("xMm"), "a place", o.Rect.X, 0, MaxPipingOffcutPlace)
		l.Between(here.Field("yMm"), "a place", o.Rect.Y, 0, MaxPipingOffcutPlace)
		for k, p := range offcuts[:i] {
			a, b := o.Rect, p.Rect
			if p.On != nil && *p.On == *o.On && a.X < b.X+b.Across && b.X < a.X+a.Across && a.Y < b.Y+b.Along && b.Y < a.Y+a.Along {
				l.Add(here, fault.NotAllowed, "", fmt.Sprintf("it shares cloth with offcut %d of the same piece", k), "offcuts that lie apart, or another piece")
				break
			}
		}
	}
}

func pipedRunFaults(l *fault.List, runs []PipingRun, at fault.Path) {
	copies, sum, room := 0, length.Length(0), true
	if len(runs) == 0 {
		l.Add(at, fault.TooFew, "", "there is no run", "one run or more")
	}
	for i, r := range runs {
		here := at.Index(i)
		l.Between(here.Field("length"), "a run", r.Length, MinPipingRun, MaxPipingRun)
		if r.Radius != 0 {
			l.Between(here.Field("radius"), "a radius", r.Radius, MinPipingRadius, MaxPipingRadius)
		}
		if r.Length > 0 {
			pipedPlaceFaults(l, r, here)
		}
		copies += r.Count
		all, ok := length.MulInt(r.Length, int64(r.Count))
		sum += min(all, MaxPipingAllRuns+1)
		room = room && ok && sum <= MaxPipingAllRuns
	}
	if copies > piping.MaxRuns {
		l.Add(at, fault.TooMany, strconv.Itoa(copies), "all copies together are at most 10000", "a part of the runs")
	}
	if !room || sum > MaxPipingAllRuns {
		l.Add(at, fault.TooLarge, "", "the runs end to end are longer than 100 km", "a part of the runs")
	}
}

// pipedPlaceFaults wants corners and spans on the run.
func pipedPlaceFaults(l *fault.List, r PipingRun, at fault.Path) {
	for k, c := range r.Corners {
		l.Between(at.Field("corners").Index(k), "a corner's place", c, 0, r.Length)
	}
	for k, s := range r.NoJoin {
		span := at.Field("noJoin").Index(k)
		l.Between(span.Field("from"), "a place on the run", s.From, 0, r.Length)
		l.Between(span.Field("to"), "a place on the run", s.To, 0, r.Length)
		if s.From > s.To && !r.Closed {
			l.Add(span, fault.NotAllowed, "", "only on a closed run a span goes over the beginning", "from before to, or closed")
		}
	}
}

// pipingWayFaults wants a way for which there is something to cut from.
func pipingWayFaults(l *fault.List, req PipingRequest, at fault.Path) {
	switch {
	case *req.Way == piping.FromRects && len(req.Offcuts) == 0:
		l.Add(at, fault.NotAllowed, "offcuts", "there are no offcuts", "give offcuts, or another way")
	case *req.Way != piping.FromRects && req.Sold == nil:
		l.Add(at, fault.NotAllowed, "", "this way needs new cloth", "give cloth, or the way offcuts")
	}
}
