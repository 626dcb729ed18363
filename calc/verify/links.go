package verify

import (
	"math"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// copy is the first part of a copy of a panel as laid, nil for none.
func (c *checker) copy(i, k int) *piece {
	list := c.of[i]
	n, ok := slices.BinarySearchFunc(list, k, func(p *piece, k int) int { return p.Copy - k })
	if !ok {
		return nil
	}
	return list[n]
}

// links checks the panels that run on from others, and the twins. A joined
// panel is compared by its first part; its other parts are compared with that
// part, and those of a panel that runs on with the other panel too.
func (c *checker) links() {
	for i := range c.job.Panels {
		q := &c.job.Panels[i]
		for _, p := range c.of[i] {
			if from := c.byID[q.Match.From]; q.Match.How == panel.RunsOn {
				if other := c.copy(from, p.Copy); other != nil {
					c.runsOn(p, other)
				}
			}
		}
		if q.Pair != "" {
			c.twins(i, c.byID[q.Pair])
		}
	}
}

// sameTurn reports whether two linked pieces lie the same way.
func (c *checker) sameTurn(p, other *piece) bool {
	if p.Turn != other.Turn {
		c.add(FlawWrongTurn, p, other, 0, "must lie the same way as")
		return false
	}
	return p.turnKnown()
}

// runsOn checks that p continues the pattern of the piece at whose edge it is
// sewn, by the distance of their centres in continuous cloth.
func (c *checker) runsOn(p, from *piece) {
	if !c.sameTurn(p, from) {
		return
	}
	a, b, off := from.panel.Size, p.panel.Size, p.panel.Match.Offset
	across, along := (a.Across+b.Across)/2, (a.Along+b.Along)/2
	var vx, vy length.Length
	switch p.panel.Match.Edge {
	case panel.BottomEdge:
		vx, vy = off, along
	case panel.TopEdge:
		vx, vy = off, -along
	case panel.RightEdge:
		vx, vy = across, off
	case panel.LeftEdge:
		vx, vy = -across, off
	}
	switch p.Turn {
	case panel.Half:
		vx, vy = -vx, -vy
	case panel.Quarter:
		vx, vy = -vy, vx
	}
	x, y := p.place(p.panel.VisualCentre())
	fx, fy := from.place(from.panel.VisualCentre())
	out := c.grid.dist(x-fx-vx, c.grid.scale(y-fy-vy))
	if !c.grid.within(out, p.panel.Match.Tolerance) {
		c.add(FlawSeamOff, p, from, c.grid.nm(out), "does not run on from")
	}
}

// twins checks each copy of panel i against its twin of panel j. When each of
// the two names the other to the same effect, it is done once.
func (c *checker) twins(i, j int) {
	q, r := &c.job.Panels[i], &c.job.Panels[j]
	if r.Pair != "" && c.byID[r.Pair] == i && j < i && q.PairAs == r.PairAs {
		return
	}
	last, next := 0, 0
	if i == j {
		next = 1
	}
	for _, a := range c.of[i] {
		b := c.copy(j, a.Copy+next)
		if a.Copy == last || b == nil || i == j && a.Copy%2 == 0 {
			continue
		}
		if last = a.Copy; c.sameTurn(b, a) {
			c.pair(b, a, q.PairAs)
		}
	}
}

// pair checks one pair of twins.
func (c *checker) pair(b, a *piece, as panel.PairAs) {
	bx, by := b.place(b.panel.VisualCentre())
	ax, ay := a.place(a.panel.VisualCentre())
	out := length.Length(math.MaxInt64)
	if as == panel.SameMotif || c.grid.den > 2 {
		out = c.grid.dist(bx-ax, c.grid.scale(by-ay))
	}
	names := slices.DeleteFunc([]string{a.panel.Match.Motif, b.panel.Match.Motif}, func(s string) bool { return s == "" })
	for _, m := range c.motifs {
		if as == panel.SameMotif || len(names) > 0 && !slices.Contains(names, m.Name) {
			continue
		}
		if a.Turn == panel.Quarter {
			out = min(out, c.grid.mirrored(ay+by-2*m.Along, bx-ax, true))
		} else {
			out = min(out, c.grid.mirrored(ax+bx-2*m.Across, by-ay, false))
		}
	}
	if !c.grid.within(out, max(a.panel.Match.Tolerance, b.panel.Match.Tolerance)) {
		c.add(FlawPairOff, b, a, c.grid.nm(out), "is not the twin of")
	}
}
