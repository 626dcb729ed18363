package drawing

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/service/buying"
)

// costPart is a part of the total, and how its place on the bar is filled.
type costPart struct {
	name string
	sum  decimal.Decimal
	fill func(k, x, y, w, h float64) []Shape
}

const costTitle = "What the job comes to"

// CostChart is what a job comes to as one stacked bar: materials, labour,
// overhead with contingency, and tax. Hatching tells the parts apart, so that
// no colour is needed.
func CostChart(c *buying.Cost) *Picture {
	s := paper{k: 1, page: usualWidth + marginLeft + marginRight}
	s.title(costTitle, "By its parts, in "+c.Money(c.Quote.Total).Code())
	s.body(tBold, lacksText(c))
	s.facts(costFacts(c))
	s.costBar(c)
	s.body(tQuiet, validText(c))
	s.notes("Look out", c.Warnings, nil)
	desc := lacksText(c)
	if desc != "" {
		desc += " "
	}
	for _, p := range costParts(c) {
		desc += capital(p.name) + " " + priceText(c.Money(p.sum)) + ". "
	}
	return s.picture(costTitle, desc+"Total "+priceText(c.Money(c.Quote.Total))+".", planStyles(1))
}

func costFacts(c *buying.Cost) []fact {
	q := &c.Quote
	counted := "tax and rounding counted"
	if !c.Complete {
		counted = "without what is named above"
	}
	out := []fact{{"TOTAL", priceText(c.Money(q.Total)), counted}}
	if q.Deposit.IsPositive() {
		out = append(out, fact{"DEPOSIT", c.Money(q.Deposit).Text(), "balance " + c.Money(q.Balance).Text()})
	}
	return append(out, fact{"WORK", c.Hours.String() + " h", "in all"})
}

// costParts are the parts of the total that are more than nothing, but for what
// rounding added.
func costParts(c *buying.Cost) []costPart {
	q := &c.Quote
	sums := [4]decimal.Decimal{}
	for _, l := range q.Materials {
		sums[0] = sums[0].Add(l.Net)
	}
	for _, l := range q.Labour {
		sums[1] = sums[1].Add(l.Net)
	}
	sums[2] = q.Overhead.Net.Add(q.Contingency.Net)
	sums[3] = q.Tax
	var out []costPart
	for i, p := range []costPart{{name: "materials", fill: fillSlanted}, {name: "labour", fill: fillUpright}, {name: "overhead and contingency", fill: fillLevel}, {name: "tax", fill: fillCrossed}} {
		if p.sum = sums[i]; p.sum.IsPositive() {
			out = append(out, p)
		}
	}
	return out
}

func fillSlanted(k, x, y, w, h float64) []Shape { return []Shape{Hatch{x, y, w, h, 18 * k, cArrow}} }

func fillUpright(k, x, y, w, h float64) []Shape {
	var lines []Polyline
	for d := 16 * k; d < w-6*k; d += 16 * k {
		lines = append(lines, Polyline{Pts: []Pt{{x + d, y}, {x + d, y + h}}})
	}
	return []Shape{Path{lines, cArrow}}
}

func fillLevel(k, x, y, w, h float64) []Shape {
	var lines []Polyline
	for d := 16 * k; d < h-6*k; d += 16 * k {
		lines = append(lines, Polyline{Pts: []Pt{{x, y + d}, {x + w, y + d}}})
	}
	return []Shape{Path{lines, cArrow}}
}

func fillCrossed(k, x, y, w, h float64) []Shape {
	return append(fillUpright(k, x, y, w, h), fillLevel(k, x, y, w, h)...)
}

// costBar draws the bar, and below it a line for each part with its sign, its
// share and its sum.
func (s *paper) costBar(c *buying.Cost) {
	parts := costParts(c)
	all := decimal.Decimal{}
	for _, p := range parts {
		all = all.Add(p.sum)
	}
	if !all.IsPositive() {
		s.body(tPlain, "Nothing has a price.")
		return
	}
	s.gap(30)
	const high = 150.0
	x, whole := s.left(), s.right()-s.left()
	for _, p := range parts {
		share, _ := p.sum.Div(all).Float64()
		w := whole * share
		s.add(p.fill(s.k, x, s.y, w, high*s.k)...)
		s.add(Rect{x, s.y, w, high * s.k, cPanel})
		x += w
	}
	s.gap(high + 24)
	for _, p := range parts {
		share := p.sum.Mul(decimal.New(100, 0)).DivRound(all, 1)
		s.add(p.fill(s.k, s.left(), s.y, 90*s.k, 44*s.k)...)
		s.add(Rect{s.left(), s.y, 90 * s.k, 44 * s.k, cPanel})
		s.text(s.left()+120*s.k, s.y+34*s.k, bodySize, tPlain, capital(p.name)+": "+priceText(c.Money(p.sum))+", "+share.String()+" %")
		s.gap(60)
	}
}
