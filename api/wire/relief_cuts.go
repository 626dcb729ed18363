package wire

import (
	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

// ReliefIn translates a request for relief cuts, as YardageIn does.
func ReliefIn(w *gen.ReliefCutsRequest) (service.ReliefRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.ReliefRequest{Units: unitsFrom(value(w.Units)), ID: value(w.Panel.Id), Name: value(w.Panel.Name)}
	req.Size = panel.Size{Across: lengthFrom(w.Panel.Size.Across), Along: lengthFrom(w.Panel.Size.Along)}
	req.Allow, req.Shop = sidesFrom(w.Panel.Allow), t.shop
	req.Loose = value(w.Weave) == gen.ReliefCutsRequestWeaveLoose
	if s := w.Stretch; s != nil {
		req.Least, _ = formats.Share(value(s.Least))
		req.Most, _ = formats.Share(value(s.Most))
		if s.Most == nil {
			req.Most = req.Least
		}
	}
	for i := range w.Obstacles {
		req.Obstacles = append(req.Obstacles, t.obstacle(&w.Obstacles[i], root.Field("obstacles").Index(i)))
	}
	return req, t.shape
}

func (t *translator) obstacle(w *gen.ReliefObstacle, at fault.Path) relief.Obstacle {
	o := relief.Obstacle{
		ID: w.Id, Round: value(w.Shape) == gen.ReliefObstacleShapeRound,
		At: lengthFrom(value(w.At)), Width: lengthFrom(w.Width), Deep: lengthFrom(w.Deep), Lean: value(w.Lean),
		Stuffing: lengthFrom(value(w.Stuffing)), EdgeThickness: lengthFrom(value(w.EdgeThickness)),
		Covered: lengthFrom(value(w.Covered)), Margin: t.positive(w.Margin, at.Field("margin")),
	}
	switch w.What {
	case gen.ReliefObstacleWhatRail:
		o.What = relief.Rail
	case gen.ReliefObstacleWhatLeg:
		o.What = relief.Leg
	case gen.ReliefObstacleWhatUpright:
		o.What = relief.Upright
	}
	switch value(w.Edge) {
	case gen.ReliefObstacleEdgeBottom:
		o.Edge = relief.BottomEdge
	case gen.ReliefObstacleEdgeLeft:
		o.Edge = relief.LeftEdge
	case gen.ReliefObstacleEdgeRight:
		o.Edge = relief.RightEdge
	}
	o.Corner = cornerFrom(value(w.Corner))
	switch {
	case w.Edge == nil && w.Corner == nil:
		o.Edge = relief.NoEdge
		t.shape.Add(at.Field("edge"), fault.Missing, "", "where the obstacle stands must be said", "give edge and at, or corner")
	case w.Edge != nil && w.Corner != nil:
		t.shape.Add(at.Field("corner"), fault.NotAllowed, string(*w.Corner), "an obstacle stands at an edge or in a corner", "leave edge or corner out")
	case w.Corner != nil && w.At != nil:
		t.shape.Add(at.Field("at"), fault.NotAllowed, *w.At, "at belongs to edge", "leave at out")
	case w.Edge != nil && w.At == nil:
		t.shape.Add(at.Field("at"), fault.Missing, "", "edge needs at", "give at")
	}
	if o.Lean != 0 && (o.Round || w.Corner != nil) {
		t.shape.Add(at.Field("lean"), fault.NotAllowed, "", "only a square obstacle at an edge leans", "leave lean out")
	}
	return o
}

func cornerFrom(c gen.ReliefObstacleCorner) relief.Corner {
	switch c {
	case gen.ReliefObstacleCornerTopLeft:
		return relief.TopLeft
	case gen.ReliefObstacleCornerTopRight:
		return relief.TopRight
	case gen.ReliefObstacleCornerBottomLeft:
		return relief.BottomLeft
	case gen.ReliefObstacleCornerBottomRight:
		return relief.BottomRight
	}
	return relief.NoCorner
}

// ReliefOut is the answer as the contract has it.
func ReliefOut(ans *service.ReliefAnswer, digest string) gen.ReliefCutsAnswer {
	w := answerWriter{units: ans.Request.Units}
	cut := ans.Request.Cut()
	g := gen.ReliefCutsAnswer{
		Whole:       ans.Whole(),
		Cut:         gen.ReliefExtent{Across: w.quantity(cut.Across, length.Up), Along: w.quantity(cut.Along, length.Up)},
		Centre:      reliefPoint(ans.Request.Centre()),
		Obstacles:   make([]gen.ReliefCut, len(ans.Cuts)),
		Warnings:    wireNotes(w.units, ans.Warnings),
		Cautions:    wireNotes(w.units, ans.Cautions),
		Engine:      service.EngineVersion,
		InputDigest: digest,
	}
	for i, c := range ans.Cuts {
		g.Obstacles[i] = w.reliefCut(ans.Request.Obstacles[i].ID, c)
	}
	return g
}

func (w answerWriter) reliefCut(id string, c service.ReliefCut) gen.ReliefCut {
	g := gen.ReliefCut{
		Id: id, Cut: gen.ReliefCutCut(c.Kind), Whole: c.Whole, Steps: c.Steps,
		Lines: [][]gen.ReliefPoint{}, Stops: []gen.ReliefStop{}, Flaps: []gen.ReliefFlap{},
	}
	if len(c.Stops) > 0 {
		m := w.quantity(c.Margin(), length.Down)
		g.Margin = &m
	}
	if c.Allowance > 0 {
		a := w.quantity(c.Allowance, length.Up)
		g.Allowance = &a
	}
	if c.NarrowTo >= 0 {
		most := float64(c.NarrowTo) / 10_000
		g.StretchMost = &most
	}
	for _, line := range c.Lines {
		ps := make([]gen.ReliefPoint, len(line))
		for i, p := range line {
			ps[i] = reliefPoint(p)
		}
		g.Lines = append(g.Lines, ps)
	}
	for _, s := range c.Stops {
		g.Stops = append(g.Stops, gen.ReliefStop{
			AcrossMm: s.At.Across.MM(), AlongMm: s.At.Along.MM(), Margin: w.quantity(s.Margin, length.Down),
			FromLeft: w.quantity(s.At.Across, length.Nearest), FromTop: w.quantity(s.At.Along, length.Nearest),
		})
	}
	for _, f := range c.Flaps {
		g.Flaps = append(g.Flaps, gen.ReliefFlap{
			Name: f.Name, Width: w.quantity(f.Width, length.Down), Needed: w.quantity(f.Needed, length.Up), Reaches: f.Reaches(),
		})
	}
	return g
}

func reliefPoint(p panel.Point) gen.ReliefPoint {
	return gen.ReliefPoint{AcrossMm: p.Across.MM(), AlongMm: p.Along.MM()}
}
