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
	y -= p.start
	plain := c.job.Cloth.Pattern.IsPlain()
	switch m := p.Motif; {
	case m == nil && p.isFixed() && p.Parts <= 1 && !plain &&
		p.holds(x, y, -p.panel.Match.Tolerance): // so that the motif is on the piece, wherever the tolerance lets it be
		return "does not say which motif keeps its wish"
	case m == nil:
		return ""
	case plain || m.Motif < 0 || m.Motif >= len(c.motifs) || !inRange(-reach, m.X, m.Y):
		return "names a motif that the cloth has not"
	case !c.stands(m, p.start):
		return "names a motif where the cloth has none"
	case p.Parts <= 1 && !p.holds(m.X, m.Y, layout.Slack):
		return "names a motif that is not on it"
	case !c.keeps(p, x, y):
		return "names a motif that does not keep its wish"
	}
	return ""
}

// isFixed reports whether the wish fixes the motif both across and along.
func (p *piece) isFixed() bool {
	return p.panel.Match.How == panel.Centred || p.panel.Match.How == panel.Anchor
}

// holds reports whether a place of the layout lies on the piece, or beyond its
// edges by no more than that.
func (p *piece) holds(x, y, beyond length.Length) bool {
	return x >= p.X-beyond && x <= p.X+p.Across+beyond && y >= p.Y-beyond && y <= p.Y+p.Along+beyond
}

// stands reports whether the cloth has the motif where it is reported.
func (c *checker) stands(m *layout.MotifAt, start length.Length) bool {
	at := c.motifs[m.Motif]
	return c.grid.within(c.grid.dist(m.X-at.Across, c.grid.scale(m.Y+start-at.Along)), 0)
}

// keeps reports whether the motif reported keeps the wish of the piece, whose
// reference lies at (x, y) of the layout. A wish for nothing is kept by any.
func (c *checker) keeps(p *piece, x, y length.Length) bool {
	match, m := p.panel.Match, p.Motif
	if match.How == panel.Free || match.How == panel.RunsOn {
		return true
	}
	fixed, upright := p.isFixed(), p.Turn != panel.Quarter
	near := func(d, repeat length.Length) bool {
		d = max(d, -d)
		if repeat > 0 {
			return d <= match.Tolerance+layout.Slack
		}
		return !fixed || d <= layout.Slack
	}
	needX := fixed || upright == (match.How == panel.Across)
	needY := fixed || upright == (match.How == panel.Along)
	return c.wished(p.panel, m.Motif) && (!needX || near(x-m.X, c.grid.h)) && (!needY || near(y-m.Y, c.grid.v))
}
