package drawing

import (
	"strings"

	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/job"
)

// JobText is a job sheet as plain text, in at most 78 columns: what is made, what
// to buy, what it costs and how long it takes; then the parts; and last what to
// look out for, in one place.
func JobText(ans *job.Answer) string {
	p := &jobPage{page{sys: ans.Request.Units}, ans}
	p.line("Job sheet: " + apart(ans.Title()))
	p.line("")
	for _, l := range jobPieceLines(ans) {
		p.para("  ", l)
	}
	if rows := jobFaultRows(ans); len(rows) > 0 {
		p.section("NOT WORKED OUT")
		for _, r := range rows {
			p.para("  "+r[0]+": ", r[1])
		}
	}
	p.money()
	for _, part := range jobParts(ans) {
		p.part(part.text())
		p.loosened(part.loosened)
	}
	p.line("")
	p.line(strings.Repeat("=", pageCells))
	p.line("LOOK OUT")
	p.noteLines(ans.Warnings, ans.Cautions)
	return p.b.String()
}

type jobPage struct {
	page
	ans *job.Answer
}

// money is what to buy, what it costs, and when it is done; where the order list
// is left out, the cloths by themselves.
func (p *jobPage) money() {
	h := p.ans.Request.Hide
	switch {
	case !h.OrderList:
		p.orderList(p.ans.Orders)
		if without := p.ans.Without(); len(without) > 0 {
			p.para("  Nothing is ordered for: ", strings.Join(without, "; "))
		}
	case !h.Cloths && len(p.ans.Plans) > 0:
		p.section("CLOTH TO BUY")
		for _, r := range jobClothRows(p.ans) {
			p.para("  "+padLeft(r[0], 8)+"  ", r[1])
			p.para("            ", r[2])
		}
	}
	if !h.Cost && p.ans.Cost != nil {
		p.jobCost(p.ans.Cost)
	}
	if !h.DayPlan {
		p.jobDays(p.ans.Days)
	}
}

// part sets the page of a part apart.
func (p *jobPage) part(text string) {
	p.line("")
	p.line(strings.Repeat("=", pageCells))
	p.b.WriteString(text)
}

func (p *jobPage) loosened(list []service.Loosened) {
	if len(list) > 0 {
		p.section("NOT TO BE KEPT ON THIS CLOTH")
	}
	for _, l := range list {
		p.para("  - ", clean(l.Panel)+": "+apart(l.Why.Text(p.sys)))
	}
}
