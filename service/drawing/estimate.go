package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service/glance"
)

// EstimateText is an estimate as a page of plain text.
func EstimateText(ans *glance.EstimateAnswer) string {
	p := &page{sys: ans.Request.Piece.Units}
	kind, _ := furniture.Find(ans.Request.Piece.Kind)
	p.line("Estimate: " + kind.Name)
	p.line("")
	rows := [][]string{{"", "low", "likely", "high"}}
	o := ans.Order
	rows = append(rows, []string{"cloth", o.Low.Text(p.sys, length.Up), o.Likely.Text(p.sys, length.Up), o.High.Text(p.sys, length.Up)})
	h := ans.Hours
	rows = append(rows, []string{"hours", h.Low.String(), h.Likely.String(), h.High.String()})
	if r := ans.Price; r != nil {
		rows = append(rows, []string{"price " + r.Low.Code(), r.Low.Text(), r.Likely.Text(), r.High.Text()})
	}
	p.table(0, rows)
	if len(ans.Narrow) > 0 {
		p.section("WHAT WOULD NARROW THE CLOTH MOST")
	}
	for _, n := range ans.Narrow {
		p.line("  " + strconv.Itoa(n.Percent) + " %  " + n.Name.Text(p.sys))
	}
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}
