package buying

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/note"
)

// Terms are the shop's terms: what its work costs, what it adds, what the
// customer pays and when.
type Terms struct {
	Currency     money.Currency
	Labour       *Labour         // nil: work has no price
	Preset       string          // the example that hours begin from when it has none; "": DefaultPreset
	Discount     decimal.Decimal // trade discount, in percent, of articles that have none of their own
	MarkUp       decimal.Decimal // in percent, of articles that have none of their own
	Overhead     costing.Overhead
	Contingency  decimal.Decimal // in percent
	Taxes        []costing.Tax
	MaterialsTax string // by name; "" for none
	LabourTax    string
	OverheadTax  string
	TaxBy        costing.TaxBy
	Rounding     costing.Rounding
	Step         decimal.Decimal // the total is rounded to a multiple; 0 for the smallest unit
	Deposit      decimal.Decimal // in percent of the total
	Validity     costing.Validity
}

// Labour is the shop's hours and what one costs.
type Labour struct {
	Hours costing.Timetable
	Rate  decimal.Decimal // for an hour, of operations that have no rate of their own
}

// DefaultPreset is the example that hours begin from where nothing is said.
const DefaultPreset = "re-cover"

// Table is the timetable of the terms, or that of the default preset.
func (t Terms) Table() costing.Timetable {
	if t.Labour == nil {
		return costing.Timetable{Preset: cmp.Or(t.Preset, DefaultPreset)}
	}
	return t.Labour.Hours
}

// Operations are what the work takes by these terms, without a price where they
// say nothing of labour.
func (t Terms) Operations(work costing.Work) []costing.Labour {
	var rate decimal.Decimal
	if t.Labour != nil {
		rate = t.Labour.Rate
	}
	return t.Table().Labour(work, rate, t.LabourTax)
}

// Cost is what a job comes to.
type Cost struct {
	Terms      Terms
	Work       costing.Work
	Quote      costing.Quote
	Priced     []Line // those of Quote.Materials, in their order
	Hours      decimal.Decimal
	Complete   bool // everything on the order list has a price
	Missing    []Unpriced
	Unused     []string     // prices that no line of the order list took, by article
	ValidUntil calendar.Day // 0 where that is not known
	Late       bool         // the day of supply is past ValidUntil
	Warnings   []note.Note
}

// Unpriced is an article on the order list without a price.
type Unpriced struct {
	Article, Name string
	Why           note.Note
}

// CostOf puts prices to an order list, as OrderList made it with these prices,
// and to the work. Terms and prices must have no faults. What has no price is
// left out of the sums and listed.
func CostOf(list []Line, prices []Price, work costing.Work, terms Terms) *Cost {
	c := &Cost{Terms: terms, Work: work, ValidUntil: terms.Validity.Until(), Late: terms.Validity.Late()}
	job := costing.Job{
		Currency: terms.Currency, Overhead: terms.Overhead, Contingency: terms.Contingency, Taxes: terms.Taxes, OverheadTax: terms.OverheadTax,
		Deposit: terms.Deposit, Rounding: terms.Rounding, TaxBy: terms.TaxBy, Step: terms.Step,
	}
	used := make(map[string]bool)
	for _, l := range list {
		if l.Price == nil {
			c.Missing = append(c.Missing, Unpriced{l.Article, l.Name, unpricedBecause(l)})
			if l.Because.Said() {
				used[pricedBy(l.Article, prices)] = true
			}
			continue
		}
		used[l.Price.Article] = true
		c.Priced = append(c.Priced, l)
		job.Materials = append(job.Materials, terms.material(l))
	}
	for _, o := range terms.Operations(work) {
		c.Hours = c.Hours.Add(o.Hours)
		if terms.Labour != nil {
			job.Labour = append(job.Labour, o)
		}
	}
	for _, p := range prices {
		if !used[p.Article] {
			c.Unused = append(c.Unused, p.Article)
		}
	}
	slices.Sort(c.Unused)
	c.Quote = job.Cost()
	c.Complete = len(c.Missing) == 0 && (terms.Labour != nil || c.Hours.IsZero())
	c.Warnings = note.Listed(c.warnings(), note.Most)
	return c
}

func unpricedBecause(l Line) note.Note {
	if l.Because.Said() {
		return l.Because
	}
	return note.New(note.NoPrice)
}

// pricedBy is the price in the list that an article would have.
func pricedBy(article string, prices []Price) string {
	best := ""
	for i := range prices {
		if p := &prices[i]; p.fits(article) && len(p.Article) > len(best) {
			best = p.Article
		}
	}
	return best
}

// Units that are sold by, in those that order lists count in.
var (
	yardInMetres      = decimal.New(int64(length.Yard), -9)
	poundInKilograms  = decimal.New(45_359_237, -8) // exactly, by the international agreement of 1959
	hundred           = decimal.New(100, 0)
	metresAndKilogram = [...]int32{Count: 0, Length: -9, Mass: -6}
)

// Amount is a quantity in metres, in kilograms or as a number, exactly.
func (m Measure) Amount(q int64) decimal.Decimal { return decimal.New(q, metresAndKilogram[m]) }

// material is a line of an order list as it is costed.
func (t Terms) material(l Line) costing.Material {
	p := l.Price
	m := costing.Material{
		Name: l.Name, Need: l.Measure.Amount(l.Order), Price: p.Amount, Discount: t.Discount, MarkUp: t.MarkUp, Tax: t.MaterialsTax,
	}
	switch p.Per {
	case PerPack:
		m.Need = decimal.NewFromInt(l.Packs)
	case PerHundred:
		m.Per = hundred
	case PerYard:
		m.Per = yardInMetres
	case PerPound:
		m.Per = poundInKilograms
	}
	if p.Discount != nil {
		m.Discount = *p.Discount
	}
	if p.MarkUp != nil {
		m.MarkUp = *p.MarkUp
	}
	if p.Tax != nil {
		m.Tax = *p.Tax
	}
	return m
}

// Money is an amount in the currency of the job.
func (c *Cost) Money(d decimal.Decimal) money.Money {
	return money.Money{Amount: d, Currency: c.Terms.Currency}
}

func (c *Cost) warnings() []note.Note {
	var out []note.Note
	if n := len(c.Missing); n > 0 {
		out = append(out, note.New(note.CostUnpriced, note.Count("count", n)))
	}
	if n := len(c.Unused); n > 0 {
		out = append(out, note.New(note.CostUnused, note.Count("count", n)))
	}
	switch table := c.Terms.Table(); {
	case c.Terms.Labour == nil && c.Hours.IsPositive():
		out = append(out, note.New(note.CostNoLabour))
	case table.Preset != "":
		out = append(out, note.New(note.CostPreset, note.Name("preset", table.Preset)))
	}
	if c.Late {
		out = append(out, note.New(note.CostLate, note.Name("until", c.ValidUntil.String()), note.Name("supply", c.Terms.Validity.Supply.String())))
	}
	return out
}
