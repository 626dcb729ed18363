package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service/buying"
)

// reasonText says what takes an article: "wing chair: top cover 6.42 m, strips
// for piping 1.2 m; flaws 13 cm".
func (p *page) reasonText(l *buying.Line) string {
	const most = 12
	text, part := "", ""
	for i, r := range l.Reasons {
		if i == most && len(l.Reasons) > most+1 {
			return text + "; and " + strconv.Itoa(len(l.Reasons)-most) + " more"
		}
		switch {
		case i > 0 && r.Part == part:
			text += ", "
		case i > 0:
			text += "; "
		}
		if r.Part != part && r.Part != "" {
			text += clean(r.Part) + ": "
		}
		part = r.Part
		text += clean(r.For) + " " + l.Measure.Text(r.Amount, p.sys)
	}
	return text
}

// orderText says what an article is, and how much of it is needed.
func (p *page) orderText(l *buying.Line) string {
	text := clean(l.Name) + "; needed " + l.Measure.Text(l.Need, p.sys)
	if len(l.Lengths) > 0 {
		var lengths []string
		for _, one := range l.Lengths {
			lengths = append(lengths, near(one, p.sys))
		}
		text += "; in lengths of " + strings.Join(lengths, ", ")
	}
	return text
}

// orderList is the order list as a section of a page of text.
func (p *page) orderList(list []buying.Line) {
	if len(list) == 0 {
		return
	}
	p.section("ORDER LIST")
	group := buying.Group(-1)
	wide := 0
	for i := range list {
		wide = max(wide, cells(list[i].BoughtText(p.sys)))
	}
	wide = min(wide, pageCells/3)
	for i := range list {
		l := &list[i]
		if l.Group != group {
			group = l.Group
			p.line("  " + capital(group.String()))
		}
		p.para("    "+padLeft(l.BoughtText(p.sys), wide)+"  ", p.orderText(l))
		p.para(strings.Repeat(" ", wide+6), p.reasonText(l))
	}
}

// costRows are the lines of a cost: what, how much of it, and its net.
func (p *page) costRows(c *buying.Cost) [][]string {
	q := &c.Quote
	var rows [][]string
	for i := range q.Materials {
		rows = append(rows, []string{moneyOf(c, q.Materials[i]), clean(c.Priced[i].Name) + ", " + c.Priced[i].BoughtText(p.sys)})
	}
	for _, l := range q.Labour {
		rows = append(rows, []string{moneyOf(c, l), clean(l.Name) + ", " + l.Quantity.String() + " h"})
	}
	for _, l := range []costing.Line{q.Overhead, q.Contingency} {
		if l.Net.IsPositive() {
			rows = append(rows, []string{moneyOf(c, l), l.Name})
		}
	}
	return rows
}

// moneyOf is the net of a line.
func moneyOf(c *buying.Cost, l costing.Line) string { return c.Money(l.Net).Text() }

// sumRows are the sums below the lines.
func sumRows(c *buying.Cost) [][]string {
	q := &c.Quote
	rows := [][]string{{c.Money(q.Net).Text(), "before tax"}}
	for _, t := range q.Taxes {
		rows = append(rows, []string{c.Money(t.Sum).Text(), "tax, " + clean(t.Name) + ", " + t.Rate.String() + " % of " + c.Money(t.On).Text()})
	}
	if !q.Rounded.IsZero() {
		rows = append(rows, []string{c.Money(q.Rounded).Text(), "rounding"})
	}
	rows = append(rows, []string{c.Money(q.Total).Text(), "total, " + c.Money(q.Total).Code()})
	if q.Deposit.IsPositive() {
		rows = append(rows, []string{c.Money(q.Deposit).Text(), "deposit"}, []string{c.Money(q.Balance).Text(), "balance"})
	}
	return rows
}

// jobCost is what a job comes to, as sections of a page of text: the lines, the
// sums, how long they hold, and what is missing.
func (p *page) jobCost(c *buying.Cost) {
	p.section("COST, in " + c.Money(c.Quote.Total).Code())
	if text := lacksText(c); text != "" {
		p.para("  ", text)
		p.line("")
	}
	rows := p.costRows(c)
	p.table(1, indented(rows))
	p.line("")
	p.table(1, indented(sumRows(c)))
	if text := validText(c); text != "" {
		p.para("", text)
	}
	if len(c.Missing) > 0 {
		p.section("WITHOUT A PRICE")
		for _, m := range c.Missing {
			p.para("  - ", clean(m.Article)+": "+apart(m.Name)+"; "+apart(m.Why.Text(p.sys)))
		}
	}
	if len(c.Unused) > 0 {
		p.para("Prices that nothing took: ", clean(strings.Join(c.Unused, "; ")))
	}
}

// lacksText says that a cost is not complete, and what it is without; "" for one
// that is.
func lacksText(c *buying.Cost) string {
	lacks := c.Lacks()
	if len(lacks) == 0 {
		return ""
	}
	text := "NOT COMPLETE"
	for _, l := range lacks {
		text += ". " + capital(apart(l.Text(length.Metric)))
	}
	return text + "."
}

// validText says how long the price holds.
func validText(c *buying.Cost) string {
	v := c.Terms.Validity
	switch {
	case v.AsOf == 0:
		return ""
	case c.Late:
		return "Given on " + v.AsOf.String() + ", holds until " + c.ValidUntil.String() + ": not for delivery on " + v.Supply.String() + "."
	}
	return "Given on " + v.AsOf.String() + ", holds until " + c.ValidUntil.String() + "."
}

func indented(rows [][]string) [][]string {
	out := make([][]string, len(rows))
	for i, r := range rows {
		out[i] = append([]string{"  " + r[0]}, r[1:]...)
	}
	return out
}

// dayRows are the days with what is done on them.
func dayRows(d *buying.DayPlan) [][]string {
	var rows [][]string
	for _, day := range d.Days {
		var parts []string
		for _, s := range day.Work {
			text := clean(s.Operation) + " " + s.Hours.String() + " h"
			if !s.Begins {
				text = clean(s.Operation) + ", on, " + s.Hours.String() + " h"
			}
			parts = append(parts, text)
		}
		number := "day " + strconv.Itoa(day.Number)
		if day.Date != 0 {
			number += "  " + weekdayNames[day.Date.Weekday()] + " " + day.Date.String()
		}
		rows = append(rows, []string{number, day.Hours.String() + " h", strings.Join(parts, "; ")})
	}
	return rows
}

var weekdayNames = [...]string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}

// waitRows say what is waited for.
func waitRows(d *buying.DayPlan, sys length.System) []string {
	var out []string
	for _, w := range d.Waits {
		text := capital(clean(w.Before)) + " not before day " + strconv.Itoa(w.Until) + ": " + w.Why.Text(sys)
		if w.Days > 0 {
			text += "; " + times(int64(w.Days), "working day", "working days") + " without work on this job"
		}
		out = append(out, text+".")
	}
	return out
}

// jobDays is the day plan as a section of a page of text.
func (p *page) jobDays(d *buying.DayPlan) {
	if len(d.Days) == 0 {
		return
	}
	p.section("DAY PLAN, " + d.Hours.String() + " hours, days of " + d.PerDay.String() + " h")
	p.table(0, indented(dayRows(d)))
	for _, t := range append(waitRows(d, p.sys), d.Defaults...) {
		p.para("  - ", t)
	}
	if last := d.Days[len(d.Days)-1].Number; last < d.Last {
		p.para("  - ", "The work goes on until day "+strconv.Itoa(d.Last)+".")
	}
}

// The same on a sheet.

func (s *paper) orderList(list []buying.Line) {
	p := page{sys: s.sys}
	rows := make([][]string, len(list))
	for i := range list {
		l := &list[i]
		rows[i] = []string{l.BoughtText(s.sys), p.orderText(l), p.reasonText(l), clean(l.Article)}
	}
	s.table("Order list", []float64{0, 240, 640, 1150, 1490}, 0, []string{"Buy", "What", "Why", "Article"}, rows)
}

func (s *paper) jobCost(c *buying.Cost) {
	p := page{sys: s.sys}
	stops := []float64{0, 300, 1490}
	heads := []string{"Net, " + c.Money(c.Quote.Total).Code(), "For"}
	rows, lacks := p.costRows(c), lacksText(c)
	if lacks != "" || len(rows) > 0 {
		s.heading("Cost")
	}
	s.body(tBold, lacks)
	if len(rows) > 0 {
		s.rows(stops, 0, heads, rows)
	}
	s.table("Sums", stops, 0, []string{c.Money(c.Quote.Total).Code(), "What"}, sumRows(c))
	s.body(tPlain, validText(c))
	var missing [][]string
	for _, m := range c.Missing {
		missing = append(missing, []string{clean(m.Article), clean(m.Name), clean(m.Why.Text(s.sys))})
	}
	s.table("Without a price", []float64{0, 450, 1000, 1490}, -1, []string{"Article", "What", "Why"}, missing)
}

func (s *paper) jobDays(d *buying.DayPlan) {
	s.table("Day plan", []float64{0, 380, 540, 1490}, 0, []string{"Day", "Hours", "Work"}, dayRows(d))
	for _, t := range append(waitRows(d, s.sys), d.Defaults...) {
		s.body(tQuiet, t)
	}
}
