package service

import (
	"math"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/relief"
)

// The limits of what is believed of a panel that passes obstacles.
const (
	MaxObstacles     = 40
	MinObstacle      = length.Millimetre
	MaxObstacle      = 2 * length.Metre
	MaxStuffing      = length.Metre
	MaxEdgeThickness = 50 * length.Centimetre
	MaxCovered       = 50 * length.Centimetre
	MinReliefMargin  = length.Millimetre
	MaxReliefMargin  = 20 * length.Centimetre
	maxLean          = 60
)

// ReliefFaults are everything wrong with the request; pointers are those of the
// wire form. That no cut will do is no fault. It may be asked of a request of which
// a part could not be read.
func ReliefFaults(req ReliefRequest) fault.List {
	var l fault.List
	root := fault.Path{}
	at := root.Field("panel")
	l.Between(at.Field("size").Field("across"), "a finished size", req.Size.Across, panel.MinSize, panel.MaxSize)
	l.Between(at.Field("size").Field("along"), "a finished size", req.Size.Along, panel.MinSize, panel.MaxSize)
	l.Append(req.Allow.Faults(at.Field("allow")))
	stretchFaults(&l, req.Least, req.Most, root.Field("stretch"))
	list := root.Field("obstacles")
	if len(req.Obstacles) == 0 {
		l.Add(list, fault.TooFew, "", "there is nothing to pass", "one obstacle or more")
	}
	l.Append(ObstacleFaults(req.panel(), req.Obstacles, list))
	return l
}

// ObstacleFaults are what is wrong with the obstacles that a panel passes; at is
// where their list stands.
func ObstacleFaults(p panel.Panel, obstacles []relief.Obstacle, at fault.Path) fault.List {
	var l fault.List
	seen := make(map[string]bool, len(obstacles))
	for i, o := range obstacles {
		here := at.Index(i)
		if seen[o.ID] && o.ID != "" {
			l.Add(here.Field("id"), fault.Duplicate, o.ID, "another obstacle has this id", "an id of its own")
		}
		seen[o.ID] = true
		obstacleFaults(&l, p, o, here)
	}
	return l
}

func stretchFaults(l *fault.List, least, most cloth.Share, at fault.Path) {
	switch {
	case least < 0:
		l.Add(at.Field("least"), fault.TooSmall, "", "a share is at least 0 %", `from "0 %" to "50 %"`)
	case least > cloth.MaxShare:
		l.Add(at.Field("least"), fault.TooLarge, "", "a share is at most 50 %", `from "0 %" to "50 %"`)
	case most > cloth.MaxShare:
		l.Add(at.Field("most"), fault.TooLarge, "", "a share is at most 50 %", `from "0 %" to "50 %"`)
	case most < least:
		l.Add(at.Field("most"), fault.TooSmall, "", "the most is not less than the least", "at least as much as least")
	}
}

// obstacleFaults wants each obstacle to stand on the panel, clear of its middle
// lines.
func obstacleFaults(l *fault.List, p panel.Panel, o relief.Obstacle, at fault.Path) {
	before := l.Len()
	l.Between(at.Field("width"), "an obstacle", o.Width, MinObstacle, MaxObstacle)
	l.Between(at.Field("stuffing"), "the height of the stuffing", o.Stuffing, 0, MaxStuffing)
	l.Between(at.Field("edgeThickness"), "the thickness of an edge", o.EdgeThickness, 0, MaxEdgeThickness)
	l.Between(at.Field("covered"), "what must stay covered", o.Covered, 0, MaxCovered)
	if o.Margin != 0 {
		l.Between(at.Field("margin"), "a margin", o.Margin, MinReliefMargin, MaxReliefMargin)
	}
	if o.Deep < 0 {
		l.Add(at.Field("deep"), fault.TooSmall, o.Deep.String(), "an obstacle stands at least under the edge", "0 mm or more")
	}
	if l.Len() > before || o.Edge == relief.NoEdge || p.Size.Across < panel.MinSize || p.Size.Along < panel.MinSize {
		return
	}
	if o.Corner != relief.NoCorner {
		cornerFaults(l, p.Size, o, at)
		return
	}
	run, depth, allow := p.Size.Across, p.Size.Along, p.Allow.Top
	switch o.Edge {
	case relief.BottomEdge:
		allow = p.Allow.Bottom
	case relief.LeftEdge:
		run, depth, allow = depth, run, p.Allow.Left
	case relief.RightEdge:
		run, depth, allow = depth, run, p.Allow.Right
	}
	shorterThanHalf(l, at.Field("deep"), o.Deep, depth)
	switch half := (o.Width + 1) / 2; {
	case o.Width > run:
		l.Add(at.Field("width"), fault.TooLarge, o.Width.String(), "the obstacle is wider than its edge", "at most "+run.String())
	case o.At < half:
		l.Add(at.Field("at"), fault.TooSmall, o.At.String(), "the obstacle stands past the end of its edge", "from "+half.String()+" to "+(run-half).String()+", or name a corner")
	case o.At > run-half:
		l.Add(at.Field("at"), fault.TooLarge, o.At.String(), "the obstacle stands past the end of its edge", "from "+half.String()+" to "+(run-half).String()+", or name a corner")
	case o.Lean < -maxLean || o.Lean > maxLean:
		l.Add(at.Field("lean"), fault.TooLarge, "", "an upright leans by at most 60 degrees", "from -60 to 60")
	case o.Lean != 0:
		out := (o.Deep + max(allow, 0)).MM() * math.Tan(float64(o.Lean)*math.Pi/180)
		if edge := o.At.MM() + out; edge < half.MM() || edge > (run-half).MM() {
			l.Add(at.Field("lean"), fault.NotAllowed, "", "along this slant the cut would leave the edge at which the obstacle stands", "a smaller lean, or name a corner")
		}
	}
}

func cornerFaults(l *fault.List, size panel.Size, o relief.Obstacle, at fault.Path) {
	if o.Round {
		shorterThanHalf(l, at.Field("deep"), o.Deep, min(size.Across, size.Along))
		shorterThanHalf(l, at.Field("width"), o.Width, min(size.Across, size.Along))
		return
	}
	shorterThanHalf(l, at.Field("deep"), o.Deep, size.Along)
	shorterThanHalf(l, at.Field("width"), o.Width, size.Across)
	if o.Deep == 0 && o.What == relief.Leg && o.Width*2 >= size.Along {
		l.Add(at.Field("width"), fault.TooLarge, o.Width.String(), "the obstacle reaches the middle of the panel", "less than "+(size.Along/2).String())
	}
}

func shorterThanHalf(l *fault.List, at fault.Path, v, of length.Length) {
	if v*2 >= of {
		l.Add(at, fault.TooLarge, v.String(), "the obstacle reaches the middle of the panel, where the cloth is fixed", "less than half of the panel's "+of.String())
	}
}
