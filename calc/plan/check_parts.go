package plan

import (
	"math"
	"slices"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// copies checks that every copy is laid once, whole or in all its parts.
func (c *checker) copies() {
	for i, list := range c.of {
		q := &c.job.Panels[i]
		next := 1
		for len(list) > 0 {
			k := list[0].Copy
			n := 1
			for n < len(list) && list[n].Copy == k {
				n++
			}
			c.missing(i, next, k-1)
			c.parts(q, list[:n])
			next, list = k+1, list[n:]
		}
		c.missing(i, next, q.Count)
	}
}

// missing adds a flaw when copies first to last are any.
func (c *checker) missing(i, first, last int) {
	if first <= last {
		c.whole(FlawMissing, -1, i, first, 0, "%s copies %d to %d are not laid", checkName(&c.job.Panels[i], i), first, last)
	}
}

// parts checks that the placements of one copy, in order of part, make it up.
func (c *checker) parts(q *panel.Panel, all []*checkPiece) {
	parts, next, row := all[0].Parts, 1, all[:0:0]
	for _, p := range all {
		switch {
		case p.Parts < 1 || p.Parts > checkMostCount || p.Part < 1 || p.Part > p.Parts:
			c.add(FlawWrongParts, p, nil, 0, "has no part %d of %d", p.Part, p.Parts)
		case p.Parts != parts && p.Parts > 1 && parts > 1:
			c.add(FlawWrongParts, p, all[0], 0, "has not the number of parts of")
		case p.Parts != parts || p.Part < next:
			c.add(FlawTwice, p, all[0], 0, "is laid again, as well as")
		default:
			c.missingParts(p, next, p.Part-1)
			row, next = append(row, p), p.Part+1
		}
	}
	if len(row) == 0 {
		return
	}
	c.missingParts(row[0], next, row[0].Parts)
	if parts > 1 {
		c.joined(q, row)
	} else if row[0].From != 0 {
		c.add(FlawWrongParts, row[0], nil, 0, "is whole and yet begins at %s", row[0].From)
	}
}

// missingParts adds a flaw when parts first to last are any.
func (c *checker) missingParts(p *checkPiece, first, last int) {
	if first <= last {
		c.whole(FlawMissing, -1, p.Panel, p.Copy, 0, "%s copy %d lacks parts %d to %d of %d",
			checkName(p.panel, p.Panel), p.Copy, first, last, p.Parts)
	}
}

// joined checks the widths of the parts of one copy, and that the pattern of
// each part is that of the first, carried on.
func (c *checker) joined(q *panel.Panel, row []*checkPiece) {
	first, last := row[0], row[len(row)-1]
	if q.Join == panel.NoJoin || q.Cut().Across <= c.job.Cloth.Width {
		c.add(FlawWrongParts, first, nil, 0, "may not be made up of parts")
	}
	if len(row) == first.Parts {
		if first.From != 0 || last.From+last.Across != q.Cut().Across {
			c.add(FlawWrongParts, first, nil, 0, "and those after it do not run from 0 to %s", q.Cut().Across)
		}
		for i, p := range row[1:] {
			if by := row[i].From + row[i].Across - p.From - 2*q.JoinSeam; by != 0 {
				c.add(FlawWrongParts, p, row[i], max(by, -by), "has not two seam widths in common with")
			}
		}
		wrong := q.Join == panel.JoinHalves && len(row) != 2 || q.Join == panel.JoinSides && len(row)%2 == 0
		for i := range len(row) / 2 {
			by := row[i].Across - row[len(row)-1-i].Across
			wrong = wrong || by > Slack || by < -Slack
		}
		if wrong {
			c.add(FlawWrongParts, first, nil, 0, "and those after it are not the parts of such a join")
		}
	}
	may := length.Length(0)
	if how := q.Match.How; how == panel.Centred || how == panel.Anchor || how == panel.RunsOn {
		may = 2 * q.Match.Tolerance // each of two parts may be out by one tolerance
	}
	for _, p := range row[1:] {
		if p.Turn != panel.Upright || first.Turn != panel.Upright {
			continue
		}
		dx := p.X - p.From - first.X + first.From
		dy := p.Y + p.start - first.Y - first.start
		if out := c.grid.dist(dx, c.grid.scale(dy)); !c.grid.within(out, may) {
			c.add(FlawJoinOff, p, first, c.grid.nm(out), "does not carry on the pattern of")
		}
	}
}

// checkGrid is the translations that carry the pattern to itself: by
// (i*h, j*v + i*num*v/den), any x when h is 0, any y when v is 0. Distances
// along the roll are counted in 1/den nm, so that the drop is exact.
type checkGrid struct{ h, v, num, den length.Length }

func newCheckGrid(p cloth.Pattern) checkGrid {
	g := checkGrid{h: p.WidthRepeat, v: p.LengthRepeat, den: 1}
	if d := p.Drop.Reduced(); g.h > 0 && g.v > 0 {
		g.num, g.den = length.Length(d.Num), length.Length(d.Den)
	}
	return g
}

// scale is a length in 1/den nm.
func (g checkGrid) scale(l length.Length) length.Length { return l * g.den }

// nm is a scaled distance in whole nanometres, rounded up.
func (g checkGrid) nm(out length.Length) length.Length { return (out + g.den - 1) / g.den }

// within reports whether a scaled distance keeps a tolerance.
func (g checkGrid) within(out, tolerance length.Length) bool {
	return out <= g.scale(tolerance+Slack)
}

// checkMod is the distance of a from the nearest multiple of m; 0 when m is 0.
func checkMod(a, m length.Length) length.Length {
	if m == 0 {
		return 0
	}
	r := ((a % m) + m) % m
	return min(r, m-r)
}

// dist is how far (dx, dy) lies from the nearest translation, by the larger of
// the two axes; dy and the result are scaled. The columns beyond den on either
// side only repeat, further off, those within.
func (g checkGrid) dist(dx, dy length.Length) length.Length {
	if g.h == 0 || g.v == 0 {
		return max(g.scale(checkMod(dx, g.h)), checkMod(dy, g.scale(g.v)))
	}
	best := length.Length(math.MaxInt64)
	near := dx / g.h
	for i := near - g.den; i <= near+g.den; i++ {
		x := g.scale(max(dx-i*g.h, i*g.h-dx))
		y := checkMod(dy-i%g.den*g.num*g.v, g.scale(g.v))
		best = min(best, max(x, y))
	}
	return best
}

// column is how far dx lies from a column of the pattern, scaled.
func (g checkGrid) column(dx length.Length) length.Length { return g.scale(checkMod(dx, g.h)) }

// row is how far dy lies from a row of the pattern, those of the neighbouring
// columns included, scaled.
func (g checkGrid) row(dy length.Length) length.Length { return checkMod(g.scale(dy), g.v) }

// mirrored is how far it is from true that two places, with the sum and the
// difference given from a motif, are mirror images: with one displaced by (dx,
// dy) from some motif of the kind, the other is by (-dx, dy) from another. The
// drop may turn up in the sum and the difference in unlike shares, so each is
// tried. When turned, the sum is along the roll and the difference across.
func (g checkGrid) mirrored(sum, diff length.Length, turned bool) length.Length {
	dx, dy := sum, g.scale(diff)
	if turned {
		dx, dy = diff, g.scale(sum)
	}
	best := length.Length(math.MaxInt64)
	for t := range g.den {
		best = min(best, g.dist(dx, dy+2*t*g.num%g.den*g.v))
	}
	return best
}

// place is where a point of the cut panel lies in the repeat: on the layout,
// with the start of the layout added along.
func (p *checkPiece) place(at panel.Point) (x, y length.Length) {
	px, py := at.Across-p.From, at.Along
	switch p.Turn {
	case panel.Half:
		px, py = p.Across-px, p.Along-py
	case panel.Quarter:
		px, py = p.Across-py, px
	}
	return p.X + px, p.Y + p.start + py
}

// wishes checks across, along, centred and anchor, and the motifs reported.
func (c *checker) wishes() {
	for _, p := range c.pieces {
		if !p.turnKnown() {
			continue
		}
		x, y := p.place(p.panel.Reference())
		best := length.Length(math.MaxInt64)
		for k, m := range c.motifs {
			if c.wished(p.panel, k) {
				best = min(best, c.wishOut(p, x-m.Across, y-m.Along))
			}
		}
		if best != math.MaxInt64 && !c.grid.within(best, p.panel.Match.Tolerance) {
			c.add(FlawMotifOff, p, nil, c.grid.nm(best), "has its motif %s out", c.grid.nm(best))
		}
		if why := c.misreported(p, x, y); why != "" {
			c.add(FlawMotifMisreported, p, nil, 0, "%s", why)
		}
	}
}

// wished reports whether a panel is content with motif k.
func (c *checker) wished(q *panel.Panel, k int) bool {
	return q.Match.Motif == "" || q.Match.Motif == c.motifs[k].Name
}

// wishOut is how far a wish is out, scaled, when the reference of the piece
// lies by (dx, dy) from a motif of the repeat.
func (c *checker) wishOut(p *checkPiece, dx, dy length.Length) length.Length {
	turned := p.Turn == panel.Quarter
	switch how := p.panel.Match.How; {
	case how == panel.Centred || how == panel.Anchor:
		return c.grid.dist(dx, c.grid.scale(dy))
	case how == panel.Across && !turned || how == panel.Along && turned:
		return c.grid.column(dx)
	case how == panel.Across || how == panel.Along:
		return c.grid.row(dy)
	}
	return 0
}

// misreported is what is wrong with the motif reported for a piece, or "";
// (x, y) is where the reference of the piece lies in the repeat.
func (c *checker) misreported(p *checkPiece, x, y length.Length) string {
	match := p.panel.Match
	fixed := match.How == panel.Centred || match.How == panel.Anchor
	y -= p.start
	in := match.Tolerance // so that the motif is on the piece, wherever the tolerance lets it be
	inside := x >= p.X+in && x <= p.X+p.Across-in && y >= p.Y+in && y <= p.Y+p.Along-in
	m := p.Motif
	plain := c.job.Cloth.Pattern.IsPlain()
	if m == nil {
		if fixed && p.Parts <= 1 && inside && !plain {
			return "does not say which motif keeps its wish"
		}
		return ""
	}
	if plain || m.Motif < 0 || m.Motif >= len(c.motifs) || !checkWithin(-checkReach, m.X, m.Y) {
		return "names a motif that the cloth has not"
	}
	at := c.motifs[m.Motif]
	if !c.grid.within(c.grid.dist(m.X-at.Across, c.grid.scale(m.Y+p.start-at.Along)), 0) {
		return "names a motif where the cloth has none"
	}
	if p.Parts <= 1 && (m.X < p.X-Slack || m.X > p.X+p.Across+Slack || m.Y < p.Y-Slack || m.Y > p.Y+p.Along+Slack) {
		return "names a motif that is not on it"
	}
	if match.How == panel.Free || match.How == panel.RunsOn {
		return ""
	}
	dx, dy, upright := max(x-m.X, m.X-x), max(y-m.Y, m.Y-y), p.Turn != panel.Quarter
	needX := fixed || upright == (match.How == panel.Across)
	needY := fixed || upright == (match.How == panel.Along)
	far := func(d, repeat length.Length) bool {
		return repeat > 0 && d > match.Tolerance+Slack || fixed && repeat == 0 && d > Slack
	}
	if !c.wished(p.panel, m.Motif) || needX && far(dx, c.grid.h) || needY && far(dy, c.grid.v) {
		return "names a motif that does not keep its wish"
	}
	return ""
}

// copy is the first part of a copy of a panel as laid, nil for none.
func (c *checker) copy(i, k int) *checkPiece {
	list := c.of[i]
	n, ok := slices.BinarySearchFunc(list, k, func(p *checkPiece, k int) int { return p.Copy - k })
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
func (c *checker) sameTurn(p, other *checkPiece) bool {
	if p.Turn != other.Turn {
		c.add(FlawWrongTurn, p, other, 0, "must lie the same way as")
		return false
	}
	return p.turnKnown()
}

// runsOn checks that p continues the pattern of the piece at whose edge it is
// sewn, by the distance of their centres in continuous cloth.
func (c *checker) runsOn(p, from *checkPiece) {
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
func (c *checker) pair(b, a *checkPiece, as panel.PairAs) {
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
