package verify

import (
	"math"

	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// place is where a point of the cut panel lies in the repeat: on the layout,
// with the start of the layout added along.
func (p *piece) place(at panel.Point) (x, y length.Length) {
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
func (c *checker) wishOut(p *piece, dx, dy length.Length) length.Length {
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
func (c *checker) misreported(p *piece, x, y length.Length) string {
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
	if plain || m.Motif < 0 || m.Motif >= len(c.motifs) || !inRange(-reach, m.X, m.Y) {
		return "names a motif that the cloth has not"
	}
	at := c.motifs[m.Motif]
	if !c.grid.within(c.grid.dist(m.X-at.Across, c.grid.scale(m.Y+p.start-at.Along)), 0) {
		return "names a motif where the cloth has none"
	}
	if p.Parts <= 1 && (m.X < p.X-layout.Slack || m.X > p.X+p.Across+layout.Slack || m.Y < p.Y-layout.Slack || m.Y > p.Y+p.Along+layout.Slack) {
		return "names a motif that is not on it"
	}
	if match.How == panel.Free || match.How == panel.RunsOn {
		return ""
	}
	dx, dy, upright := max(x-m.X, m.X-x), max(y-m.Y, m.Y-y), p.Turn != panel.Quarter
	needX := fixed || upright == (match.How == panel.Across)
	needY := fixed || upright == (match.How == panel.Along)
	far := func(d, repeat length.Length) bool {
		return repeat > 0 && d > match.Tolerance+layout.Slack || fixed && repeat == 0 && d > layout.Slack
	}
	if !c.wished(p.panel, m.Motif) || needX && far(dx, c.grid.h) || needY && far(dy, c.grid.v) {
		return "names a motif that does not keep its wish"
	}
	return ""
}
