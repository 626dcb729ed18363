package service

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

const (
	// leastOffcut is the shorter side below which a remnant is not worth naming:
	// it still takes the cover of a small button (common practice, no source).
	leastOffcut = 50 * length.Millimetre
	maxOffcuts  = 12
	// pipingStrip is the width of a straight piping strip for cord of 4 to 6 mm
	// (common practice, no source).
	pipingStrip = 45 * length.Millimetre
	// shortStrip is the least length of a strip that is worth joining.
	shortStrip = 300 * length.Millimetre
	maxUses    = 6
)

// offcutsOf are the rectangles left over in one layout and what they would make.
func offcutsOf(req YardageRequest, piece int, l plan.Layout) []Offcut {
	var out []Offcut
	for _, r := range plan.Offcuts(l, req.Cloth.Width, leastOffcut, maxOffcuts) {
		out = append(out, Offcut{Piece: piece, Rect: r, WouldMake: usesOf(req, r)})
	}
	return out
}

// usesOf says what a remnant would still make: free panels of the same list
// once more, straight piping, covers of buttons.
func usesOf(req YardageRequest, r plan.Rect) []string {
	var out []string
	for _, p := range req.Panels {
		cut := p.Cut()
		if p.Match.How != panel.Free || len(out) == maxUses-2 {
			continue
		}
		fits := cut.Across <= r.Across && cut.Along <= r.Along
		turned := p.Turn == panel.Quarter && cut.Along <= r.Across && cut.Across <= r.Along
		if fits || turned {
			out = append(out, "another "+nameOf(p))
		}
	}
	if long := max(r.Across, r.Along); long >= shortStrip {
		strips := min(r.Across, r.Along) / pipingStrip
		out = append(out, fmt.Sprintf("straight piping, %d × %s", strips, long.Text(req.Units, length.Down)))
	}
	return append(out, "covers of small buttons")
}

// nameOf is a panel's name, or else its id.
func nameOf(p panel.Panel) string {
	if p.Name != "" {
		return p.Name
	}
	return p.ID
}
