package buying

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
)

// Terms are the shop's terms: what its work costs, what it adds, what the
// customer pays and when.
type Terms struct {
	Currency     money.Currency
	Labour       *Labour         // nil: work has no price
	Preset       string          // the example that hours begin from where labour names none; "": DefaultPreset
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
	Shop         practice.Set // what the workroom goes by: its hours
}

// Labour is the shop's hours and what one costs.
type Labour struct {
	Preset *string             // the example that hours begin from, "" for none; nil: that of the terms
	Lines  []costing.Operation // in place of those of the example, or besides
	Rate   decimal.Decimal     // for an hour, of operations that have no rate of their own
}

// DefaultPreset is the example that hours begin from where nothing is said.
const DefaultPreset = "re-cover"

// Table is the timetable of the terms.
func (t Terms) Table() costing.Timetable {
	table := costing.Timetable{Preset: cmp.Or(t.Preset, DefaultPreset), Shop: t.Shop}
	if l := t.Labour; l != nil {
		table.Lines = l.Lines
		if l.Preset != nil {
			table.Preset = *l.Preset
		}
	}
	return table
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
	Complete   bool // all parts are worked out, all that they take has a price, and so has the work
	Missing    []Unpriced
	Unused     []string     // prices that no line of the order list took, by article
	ValidUntil calendar.Day // 0 where that is not known
	Late       bool         // the day of supply is past ValidUntil
	Warnings   []note.Note
}

// Unpriced is an article without a price: one on the order list, or one that is
// not on it since its part could not be worked out.
type Unpriced struct {
	Article, Name string
	Why           note.Note
	Part          bool // it stands for a part, of which nothing is ordered or not all
}

// CostOf puts prices to an order list, as OrderList made it with these prices,
// and to the work. Terms and prices must have no faults. What has no price is
// left out of the sums and listed, after the parts that the list is without.
func CostOf(list []Line, prices []Price, work costing.Work, terms Terms, without ...Unpriced) *Cost {
	c := &Cost{Terms: terms, Work: work, ValidUntil: terms.Validity.Until(), Late: terms.Validity.Late(), Missing: slices.Clone(without)}
	job := costing.Job{
		Currency: terms.Currency, Overhead: terms.Overhead, Contingency: terms.Contingency, Taxes: terms.Taxes, OverheadTax: terms.OverheadTax,
		Deposit: terms.Deposit, Rounding: terms.Rounding, TaxBy: terms.TaxBy, Step: terms.Step,
	}
	used := make(map[string]bool)
	for _, l := range list {
		if l.Price == nil {
			c.Missing = append(c.Missing, Unpriced{Article: l.Article, Name: l.Name, Why: unpricedBecause(l)})
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
	c.Complete = len(c.Lacks()) == 0
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

// Lacks says what the sums are without; nothing when they are complete.
func (c *Cost) Lacks() []note.Note {
	var out []note.Note
	var parts []string
	for _, m := range c.Missing {
		if m.Part {
			parts = append(parts, m.Name)
		}
	}
	if len(parts) > 0 {
		some := parts[:min(len(parts), few)]
		out = append(out, note.New(note.CostWithoutParts, note.Names("parts", some...), note.Count("more", len(parts)-len(some))))
	}
	if n := len(c.Missing) - len(parts); n > 0 {
		out = append(out, note.New(note.CostUnpriced, note.Count("count", n)))
	}
	if c.Terms.Labour == nil && c.Hours.IsPositive() {
		out = append(out, note.New(note.CostNoLabour))
	}
	return out
}

func (c *Cost) warnings() []note.Note {
	out := c.Lacks()
	if n := len(c.Unused); n > 0 {
		without := 0 // parts that prices may be of
		if len(c.Missing) > 0 && c.Missing[0].Part {
			without = 1
		}
		out = append(out, note.New(note.CostUnused, note.Count("count", n), note.Count("parts", without)))
	}
	priced := c.Terms.Labour != nil || c.Hours.IsZero()
	if preset := c.Terms.Table().Preset; priced && preset != "" {
		out = append(out, note.New(note.CostPreset, note.Name("preset", preset)))
	}
	if c.Late {
		out = append(out, note.New(note.CostLate, note.Name("until", c.ValidUntil.String()), note.Name("supply", c.Terms.Validity.Supply.String())))
	}
	return out
}

// few is how many of a list are named.
const few = 4

// FirstFew names the first few of a list, and how many more there are.
func FirstFew(names []string) string {
	text := strings.Join(names[:min(len(names), few)], ", ")
	if more := len(names) - few; more > 0 {
		text += " and " + strconv.Itoa(more) + " more"
	}
	return text
}
