package verify

import (
	"github.com/bridletie/bridletie/calc/layout"
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
		c.whole(FlawMissing, -1, i, first, 0, "%s copies %d to %d are not laid", nameOf(&c.job.Panels[i], i), first, last)
	}
}

// parts checks that the placements of one copy, in order of part, make it up.
func (c *checker) parts(q *panel.Panel, all []*piece) {
	parts, next, row := all[0].Parts, 1, all[:0:0]
	for _, p := range all {
		switch {
		case p.Parts < 1 || p.Parts > mostCount || p.Part < 1 || p.Part > p.Parts:
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
func (c *checker) missingParts(p *piece, first, last int) {
	if first <= last {
		c.whole(FlawMissing, -1, p.Panel, p.Copy, 0, "%s copy %d lacks parts %d to %d of %d",
			nameOf(p.panel, p.Panel), p.Copy, first, last, p.Parts)
	}
}

// joined checks the widths of the parts of one copy, and that the pattern of
// each part is that of the first, carried on.
func (c *checker) joined(q *panel.Panel, row []*piece) {
	if q.Join == panel.NoJoin || q.Cut().Across <= c.job.Cloth.Width {
		c.add(FlawWrongParts, row[0], nil, 0, "may not be made up of parts")
	}
	if len(row) == row[0].Parts {
		c.widths(q, row)
	}
	c.carriedOn(q, row)
}

// widths checks all the parts of one copy: from edge to edge of the cut panel,
// two seam widths in common with the next, and even as the join wants it.
func (c *checker) widths(q *panel.Panel, row []*piece) {
	first, last := row[0], row[len(row)-1]
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
		wrong = wrong || by > layout.Slack || by < -layout.Slack
	}
	if wrong {
		c.add(FlawWrongParts, first, nil, 0, "and those after it are not the parts of such a join")
	}
}

// carriedOn checks that each part after the first has the first one's pattern.
func (c *checker) carriedOn(q *panel.Panel, row []*piece) {
	first, may := row[0], length.Length(0)
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
