package httpapi

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/service"
)

// wirePiping is the answer for piping as the contract has it.
func wirePiping(ans *service.PipingAnswer, digest string) gen.PipingAnswer {
	w := answerWriter{units: ans.Request.Units}
	g := gen.PipingAnswer{
		Strip: gen.PipingStripWidth{
			Exact: w.quantity(ans.Exact, length.Up), Width: w.quantity(ans.Job.Width, length.Nearest),
			Cut: [...]gen.PipingStripWidthCut{gen.PipingStripWidthCutBias, gen.PipingStripWidthCutAcross, gen.PipingStripWidthCutAlong}[ans.Request.Cut],
		},
		Cord:        w.quantity(ans.Cord, length.Up),
		Total:       w.quantity(ans.Total, length.Up),
		LeastRadius: gen.PipingRadius{Bias: w.quantity(ans.Job.RadiusBias, length.Up), Straight: w.quantity(ans.Job.RadiusStraight, length.Up)},
		Order:       w.quantity(0, length.Up),
		Ways:        make([]gen.PipingWay, len(ans.Ways)),
		Yields:      make([]gen.PipingYield, len(ans.Yields)),
		Strips:      []gen.PipingStrip{},
		Runs:        []gen.PipingLaid{},
		Warnings:    append([]string{}, ans.Warnings...),
		Cautions:    append([]string{}, ans.Cautions...),
		Engine:      service.EngineVersion,
		InputDigest: digest,
	}
	if ans.Request.Cut == piping.Bias {
		g.Strip.Angle = &ans.Request.Angle
	}
	for i := range ans.Ways {
		g.Ways[i] = w.pipingWay(&ans.Ways[i])
	}
	for i, y := range ans.Yields {
		g.Yields[i] = gen.PipingYield{Offcut: y.Offcut, Strips: y.Strips, Total: w.quantity(y.Total, length.Down),
			Lean: [...]gen.PipingYieldLean{gen.PipingYieldLeanNone, gen.PipingYieldLeanRight, gen.PipingYieldLeanLeft}[y.Lean]}
		if y.Strips > 0 {
			short, long := w.quantity(y.Shortest, length.Down), w.quantity(y.Longest, length.Down)
			g.Yields[i].Shortest, g.Yields[i].Longest = &short, &long
		}
	}
	if p := ans.Plan(); p != nil {
		g.Way, g.Keeps, g.Order = &pipingWays[p.Way], p.Keeps, w.quantity(p.Order, length.Up)
		for i, s := range p.Strips {
			g.Strips = append(g.Strips, wirePipingStrip(i+1, s))
		}
		for i, l := range p.Runs {
			g.Runs = append(g.Runs, wirePipedRun(ans, i, l))
		}
	}
	return g
}

func (w answerWriter) pipingWay(p *service.PipingWay) gen.PipingWay {
	g := gen.PipingWay{
		Way: pipingWays[p.Way], Possible: p.Possible, Keeps: p.Keeps,
		Cloth: w.quantity(p.Cloth, length.Up), Order: w.quantity(p.Order, length.Up),
		Strips: len(p.Strips), Joins: p.Joins, Missing: p.Missing, Because: p.Because,
	}
	if p.Way == piping.FromRects {
		short := w.quantity(p.Short, length.Up)
		g.Short = &short
	}
	if t := p.Tube; t != nil {
		g.Tube = &gen.PipingTube{
			Across: w.quantity(t.Across, length.Up), Along: w.quantity(t.Along, length.Up), Strips: t.Strips,
			Turn: w.quantity(t.Turn, length.Down), Square: w.quantity(p.Square, length.Up),
		}
	}
	return g
}

func wirePipingStrip(number int, s piping.Strip) gen.PipingStrip {
	g := gen.PipingStrip{Number: number, LengthMm: s.Long.MM(), CornersMm: make([]gen.PipingPoint, len(s.Corners))}
	g.Lean = [...]gen.PipingStripLean{gen.PipingStripLeanNone, gen.PipingStripLeanRight, gen.PipingStripLeanLeft}[s.Lean]
	if s.Rect >= 0 {
		g.Offcut = &s.Rect
	}
	for k, c := range s.Corners {
		g.CornersMm[k] = gen.PipingPoint{XMm: c.Across.MM(), YMm: c.Along.MM()}
	}
	return g
}

func wirePipedRun(ans *service.PipingAnswer, i int, l piping.Laid) gen.PipingLaid {
	of := ans.Of[i]
	run := &ans.Request.Runs[of.Run]
	g := gen.PipingLaid{Run: of.Run, Copy: of.Copy, Covered: len(l.Pieces) > 0,
		Pieces: make([]gen.PipingPiece, len(l.Pieces)), JoinsMm: make([]gen.Coordinate, len(l.Joins))}
	if run.Name != "" {
		g.Name = &run.Name
	}
	for k, q := range l.Pieces {
		g.Pieces[k] = gen.PipingPiece{Strip: q.Strip + 1, FromMm: q.From.MM(), LengthMm: q.Long.MM()}
	}
	for k, at := range l.Joins {
		g.JoinsMm[k] = at.MM()
	}
	if run.Closed {
		closes := l.Closes.MM()
		g.ClosesMm = &closes
	}
	return g
}
