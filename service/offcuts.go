package service

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
)

const (
	maxOffcuts = 12
	// maxOffcutsInAll is what an answer may hold.
	maxOffcutsInAll = 200
	maxUses         = 6
)

// offcutsOf are the rectangles left over in one layout and what they would make.
func offcutsOf(req YardageRequest, piece int, l plan.Layout) []Offcut {
	var out []Offcut
	for _, r := range plan.Offcuts(l, req.Cloth.Width, req.Shop.Length(practice.OffcutLeast), maxOffcuts) {
		out = append(out, Offcut{Piece: piece, Rect: r, WouldMake: usesOf(req, r)})
	}
	return out
}

// usesOf says what a remnant would still make: free panels of the same list
// once more, straight piping, bias piping, covers of buttons.
func usesOf(req YardageRequest, r plan.Rect) []note.Note {
	var out []note.Note
	for _, p := range req.Panels {
		cut := p.Cut()
		if p.Match.How != panel.Free || len(out) == maxUses-2 {
			continue
		}
		fits := cut.Across <= r.Across && cut.Along <= r.Along
		turned := p.Turn == panel.Quarter && cut.Along <= r.Across && cut.Across <= r.Along
		if fits || turned {
			out = append(out, note.New(note.MakesPanel, note.Name("panel", p.Title())))
		}
	}
	least, strip, short := req.Shop.Length(practice.OffcutLeast), req.Shop.Length(practice.OffcutStrip), req.Shop.Length(practice.PipingLeast)
	if long := max(r.Across, r.Along); long >= short {
		strips := min(r.Across, r.Along) / strip
		out = append(out, note.New(note.MakesStraight, note.Count("strips", int64(strips)), note.Length("long", long, length.Down)))
		if n, l := biasStrips(r, strip, short); n > 0 {
			out = append(out, note.New(note.MakesBias, note.Count("strips", n), note.Length("long", l, length.Down)))
		}
	}
	return append(out, note.New(note.MakesButtons, note.Count("count", int64((r.Across/least)*(r.Along/least)))))
}

// biasStrips are how many whole strips at 45 degrees, of full length, a remnant
// gives, and their least length: a strip of width w lying right across the
// shorter side b is b*sqrt(2) - w long on its shorter edge and takes w*sqrt(2) of
// the longer side, the end triangles being lost (derived here). Whole
// micrometres, rounded down.
func biasStrips(r plan.Rect, strip, least length.Length) (n int64, long length.Length) {
	const root2 = 1_414_214 // the square root of 2 in millionths, rounded up
	short, far := min(r.Across, r.Along), max(r.Across, r.Along)
	long = short/root2*2_000_000 - strip // short*sqrt(2), as 2*short/sqrt(2)
	if long < least {
		return 0, 0
	}
	step := strip / 1_000_000 * root2
	return int64((far - short) / step), long
}
