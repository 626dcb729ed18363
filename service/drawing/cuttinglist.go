package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// CuttingListText is a cutting list as a page of plain text: the panels of each
// cover, how their sizes came about, and what else the piece needs.
func CuttingListText(ans *service.CuttingListAnswer) string {
	p := &page{sys: ans.Request.Piece.Units}
	p.line(cuttingListTitle(ans))
	for c, heading := range []string{"TOP COVER", "OUTSIDE COVER", "LINING"} {
		if len(ans.Covers[c]) == 0 {
			continue
		}
		p.section(heading)
		rows := [][]string{{"count", "cut size", "panel", "pattern"}}
		for _, q := range ans.Covers[c] {
			rows = append(rows, []string{strconv.Itoa(q.Count), cutText(q.Cut(), p.sys), clean(q.ID) + " " + apart(q.Name), wishText(q, p.sys)})
		}
		p.table(1, rows)
	}
	p.section("HOW THE SIZES CAME ABOUT")
	for _, q := range ans.List.Panels {
		p.para("  "+padRight(clean(q.ID), 6)+" ", q.How.Text(p.sys))
	}
	p.besides(ans.List)
	if len(ans.Loosened) > 0 {
		p.section("NOT TO BE KEPT ON THIS CLOTH")
	}
	for _, l := range ans.Loosened {
		p.para("  - ", clean(l.Panel)+": "+l.Why.Text(p.sys))
	}
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

// besides is what a piece needs besides covers.
func (p *page) besides(list furniture.List) {
	if len(list.Runs) > 0 {
		p.section("PIPING")
	}
	for _, r := range list.Runs {
		p.line("  " + strconv.Itoa(r.Count) + " × " + r.Length.Text(p.sys, length.Up) + "  " + r.Name)
	}
	if len(list.Fillings) > 0 {
		p.section("CUSHIONS AND PADS")
	}
	for _, f := range list.Fillings {
		p.line("  " + strconv.Itoa(f.Count) + " × " + sizeText(f.Size.Across, f.Size.Along, p.sys) + ", " + taped(f.Thickness, p.sys) + " thick  " + f.Name)
	}
	if len(list.Frames) > 0 {
		p.section("FRAMES")
	}
	for _, f := range list.Frames {
		p.line("  " + strconv.Itoa(f.Count) + " × " + sizeText(f.Size.Across, f.Size.Along, p.sys) + "  " + clean(f.ID))
	}
}
