package costing

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/money"
)

// Cost works the job out. The job must have no faults. All arithmetic is exact;
// only what is said to be rounded is.
func (j Job) Cost() Quote {
	var q Quote
	var materials, labour, hours decimal.Decimal
	for _, m := range j.Materials {
		l := j.material(m)
		q.Materials = append(q.Materials, l)
		q.Cost = q.Cost.Add(l.Cost)
		materials = materials.Add(l.Net)
	}
	for _, w := range j.Labour {
		l := j.line(w.Name, w.Hours, w.Hours.Mul(w.Rate), w.Tax)
		q.Labour = append(q.Labour, l)
		labour = labour.Add(l.Net)
		hours = hours.Add(w.Hours)
	}
	o := j.Overhead
	over := percent(o.OnMaterials, materials).Add(percent(o.OnLabour, labour)).Add(o.PerHour.Mul(hours))
	q.Overhead = j.line("overhead", one(), over, j.OverheadTax)
	before := materials.Add(labour).Add(q.Overhead.Net)
	q.Contingency = j.line("contingency", one(), percent(j.Contingency, before), j.OverheadTax)
	q.Net = before.Add(q.Contingency.Net)
	q.Taxes, q.Tax = j.taxes(q.lines())
	sum := q.Net.Add(q.Tax)
	q.Total = j.stepped(sum)
	q.Rounded = q.Total.Sub(sum)
	q.Deposit = j.rounded(percent(j.Deposit, q.Total))
	q.Balance = q.Total.Sub(q.Deposit)
	return q
}

func one() decimal.Decimal { return decimal.NewFromInt(1) }

// lines are all lines of a quote.
func (q Quote) lines() []Line {
	var all []Line
	all = append(all, q.Materials...)
	all = append(all, q.Labour...)
	return append(all, q.Overhead, q.Contingency)
}

// material is an article's line: what must be bought, what the shop pays for it,
// and what the customer pays, who pays for all that is bought.
func (j Job) material(m Material) Line {
	buy := multiple(decimal.Max(m.Need, m.Minimum), m.Pack)
	list := buy.Mul(m.Price)
	cost := j.roundedPart(list.Sub(percent(m.Discount, list)), m.Per)
	l := j.line(m.Name, buy, cost.Add(percent(m.MarkUp, cost)), m.Tax)
	l.Cost = cost
	return l
}

// multiple is the least multiple of the pack that is enough.
func multiple(need, pack decimal.Decimal) decimal.Decimal {
	if !pack.IsPositive() {
		return need
	}
	packs, rest := need.QuoRem(pack, 0)
	if rest.IsPositive() {
		packs = packs.Add(one())
	}
	return packs.Mul(pack)
}

// line is a line with its own tax.
func (j Job) line(name string, quantity, net decimal.Decimal, tax string) Line {
	l := Line{Name: name, Quantity: quantity, TaxName: tax, Net: j.rounded(net)}
	if t, ok := j.tax(tax); ok && j.TaxBy == ByLine {
		l.Tax = j.rounded(percent(t.Rate, l.Net))
	}
	l.Gross = l.Net.Add(l.Tax)
	return l
}

// taxes are the taxes by rate, in the order of the job's, and their sum.
func (j Job) taxes(lines []Line) (list []TaxLine, sum decimal.Decimal) {
	for _, t := range j.Taxes {
		at := TaxLine{Tax: t}
		for _, l := range lines {
			if l.TaxName == t.Name {
				at.On = at.On.Add(l.Net)
				at.Sum = at.Sum.Add(l.Tax)
			}
		}
		if j.TaxBy == ByRate {
			at.Sum = j.rounded(percent(t.Rate, at.On))
		}
		sum = sum.Add(at.Sum)
		list = append(list, at)
	}
	return list, sum
}

// tax is the rate with that name.
func (j Job) tax(name string) (Tax, bool) {
	for _, t := range j.Taxes {
		if t.Name == name {
			return t, true
		}
	}
	return Tax{}, false
}

// roundedPart is an amount divided by per, rounded once; by 1 where per is 0.
func (j Job) roundedPart(d, per decimal.Decimal) decimal.Decimal {
	if !per.IsPositive() {
		return j.rounded(d)
	}
	scale := money.Scale(j.Currency)
	q, rest := d.QuoRem(per, scale) // exactly, and no division is finer than it says
	if rest.IsZero() {
		return q
	}
	// The quotient lies between q and the next; a stand-in for where is rounded.
	half := rest.Add(rest).Cmp(decimal.New(1, -scale).Mul(per))
	return j.rounded(q.Add(decimal.New(int64(5+half), -scale-1)))
}

// rounded is an amount, which is not negative, in whole minor units.
func (j Job) rounded(d decimal.Decimal) decimal.Decimal {
	scale := money.Scale(j.Currency)
	switch j.Rounding {
	case HalfEven:
		return d.RoundBank(scale)
	case Customer:
		return d.RoundDown(scale)
	case Shop:
		return d.RoundUp(scale)
	}
	return d.Round(scale)
}

// stepped is a total rounded to a multiple of the step.
func (j Job) stepped(sum decimal.Decimal) decimal.Decimal {
	if !j.Step.IsPositive() {
		return sum
	}
	steps, rest := sum.QuoRem(j.Step, 0)
	half := rest.Add(rest).Cmp(j.Step)
	up := half >= 0
	switch {
	case rest.IsZero() || j.Rounding == Customer:
		up = false
	case j.Rounding == Shop:
		up = true
	case half == 0 && j.Rounding == HalfEven:
		up = !steps.Mod(decimal.NewFromInt(2)).IsZero()
	}
	if up {
		steps = steps.Add(one())
	}
	return steps.Mul(j.Step)
}

// percent is p percent of d, exactly.
func percent(p, d decimal.Decimal) decimal.Decimal { return p.Mul(d).Shift(-2) }
