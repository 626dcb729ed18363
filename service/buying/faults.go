package buying

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
)

// MaxPrices is how many prices a job may have.
const MaxPrices = 500

// MoneyFaults are what is wrong with terms and prices, each by itself and with
// one another; the pointers are below at: prices/0/amount, terms/labour/rate.
func MoneyFaults(prices []Price, terms Terms, at fault.Path) fault.List {
	here := at.Field("terms")
	job := costing.Job{
		Currency: terms.Currency, Overhead: terms.Overhead, Contingency: terms.Contingency, Taxes: terms.Taxes, OverheadTax: terms.OverheadTax,
		Deposit: terms.Deposit, Step: terms.Step,
	}
	l := job.Faults(here)
	known := terms.taxNames()
	l.Append(costing.Within(here.Field("discount"), "the trade discount", terms.Discount, 100))
	l.Append(costing.Within(here.Field("markUp"), "the mark-up", terms.MarkUp, costing.MaxPercent))
	taxKnown(&l, here.Field("materialsTax"), terms.MaterialsTax, known)
	taxKnown(&l, here.Field("labourTax"), terms.LabourTax, known)
	l.Append(terms.Validity.Faults(here))
	if t := terms.Labour; t != nil {
		l.Append(terms.Table().Faults(here.Field("labour")))
		l.Append(costing.Within(here.Field("labour").Field("rate"), "the rate", t.Rate, costing.MaxPrice))
	}
	list := at.Field("prices")
	if len(prices) > MaxPrices {
		l.Add(list, fault.TooMany, "", "there are more than "+strconv.Itoa(MaxPrices)+" prices", "at most "+strconv.Itoa(MaxPrices))
		return l
	}
	seen := make(map[string]bool, len(prices))
	for i, p := range prices {
		here := list.Index(i)
		if seen[p.Article] {
			l.Add(here.Field("article"), fault.Duplicate, p.Article, "this article has a price already", "each article once")
		}
		seen[p.Article] = true
		l.Append(p.faults(here, known))
	}
	return l
}

func (t Terms) taxNames() map[string]bool {
	known := make(map[string]bool, len(t.Taxes))
	for _, x := range t.Taxes {
		known[x.Name] = true
	}
	return known
}

func taxKnown(l *fault.List, at fault.Path, name string, known map[string]bool) {
	if name != "" && !known[name] {
		l.Add(at, fault.NotOneOf, name, "there is no rate of tax with this name", "one of the names under terms/taxes, or leave it out")
	}
}

func (p Price) faults(at fault.Path, known map[string]bool) fault.List {
	l := costing.Within(at.Field("amount"), "the price", p.Amount, costing.MaxPrice)
	if p.Discount != nil {
		l.Append(costing.Within(at.Field("discount"), "the trade discount", *p.Discount, 100))
	}
	if p.MarkUp != nil {
		l.Append(costing.Within(at.Field("markUp"), "the mark-up", *p.MarkUp, costing.MaxPercent))
	}
	if p.Tax != nil {
		taxKnown(&l, at.Field("tax"), *p.Tax, known)
	}
	for _, q := range []struct {
		field string
		*Quantity
	}{{"pack", p.Pack}, {"minimum", p.Minimum}} {
		if q.Quantity != nil && (q.Amount < minSold[q.Measure] || q.Amount > maxSold[q.Measure]) {
			code, detail := fault.TooSmall, "nothing is sold in as little as this"
			if q.Amount > maxSold[q.Measure] {
				code, detail = fault.TooLarge, "nothing is sold in as much as this"
			}
			l.Add(at.Field(q.field), code, q.Measure.Amount(q.Amount).String(), detail, "from 1 to a million, from 1 mm to 10 km, or from 1 g to 10 t")
		}
	}
	if p.Per != PerPack && p.Pack != nil && p.Pack.Measure != p.Per.measure() {
		l.Add(at.Field("pack"), fault.NotAllowed, "", "the price is by "+measured(p.Per.measure())+" and the pack is given in "+measured(p.Pack.Measure), "give both alike, or a price per pack")
	}
	return l
}

// The smallest and the largest pack and least quantity.
var (
	minSold = [...]int64{Count: 1, Length: 1_000_000, Mass: 1_000}
	maxSold = [...]int64{Count: 1_000_000, Length: 10_000_000_000_000, Mass: 10_000_000_000}
)
