package wire

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/service/buying"
	"github.com/bridletie/bridletie/service/job"
)

// jobMoney reads prices and terms. Where nothing is said of the hours they begin
// from the example for what is done: a new cover, or a rebuilt piece.
func (t *jobReader) jobMoney(w *gen.JobRequest, req *job.Request) {
	root := fault.Path{}
	req.Days = t.jobDayTerms(w.Days, root.Field("days"))
	req.Prices = t.jobPrices(value(w.Prices), root.Field("prices"))
	if w.Terms == nil {
		if w.Prices != nil {
			t.shape.Add(root.Field("terms"), fault.Missing, "", "prices need a currency, which the terms give", "terms with a currency")
		}
		return
	}
	terms := t.jobTerms(w.Terms, root.Field("terms"))
	req.Terms = &terms
}

// jobPers are what prices are for.
var jobPers = map[gen.JobPer]buying.Per{
	gen.JobPerEach: buying.PerEach, gen.JobPerHundred: buying.PerHundred, gen.JobPerM: buying.PerMetre, gen.JobPerYd: buying.PerYard,
	gen.JobPerKg: buying.PerKilogram, gen.JobPerLb: buying.PerPound, gen.JobPerPack: buying.PerPack,
}

// jobPrices are the prices of a request; at is where the list stands.
func (t *translator) jobPrices(w gen.JobPrices, at fault.Path) []buying.Price {
	var list []buying.Price
	for i := range w {
		p := &w[i]
		list = append(list, buying.Price{
			Article: p.Article, Amount: decimalFrom(p.Amount), Per: jobPers[p.Per],
			Pack:     t.jobQuantity(p.Pack, at.Index(i).Field("pack")),
			Minimum:  t.jobQuantity(p.Minimum, at.Index(i).Field("minimum")),
			Discount: mapped(p.Discount, percentFrom), MarkUp: mapped(p.MarkUp, percentFrom), Tax: p.Tax,
		})
	}
	return list
}

// jobQuantity is a quantity of which one field is given.
func (t *translator) jobQuantity(w *gen.JobQuantity, at fault.Path) *buying.Quantity {
	switch {
	case w == nil:
		return nil
	case w.Length != nil:
		return &buying.Quantity{Measure: buying.Length, Amount: int64(t.positive(w.Length, at.Field("length")))}
	case w.Kilograms != nil:
		mg := kilogramsFrom(*w.Kilograms)
		if mg == 0 {
			t.shape.Add(at.Field("kilograms"), fault.TooSmall, *w.Kilograms, "this is more than nothing when it is given", "a number of kilograms, or leave it out")
		}
		return &buying.Quantity{Measure: buying.Mass, Amount: mg}
	}
	return &buying.Quantity{Amount: int64(value(w.Count))}
}

// jobTerms are the terms of a request; at is where they stand.
func (t *translator) jobTerms(w *gen.JobTerms, at fault.Path) buying.Terms {
	terms := buying.Terms{
		Currency: t.currency(w.Currency, at), Discount: percentFrom(value(w.Discount)), MarkUp: percentFrom(value(w.MarkUp)),
		Contingency: percentFrom(value(w.Contingency)), Deposit: percentFrom(value(w.Deposit)),
		MaterialsTax: value(w.MaterialsTax), LabourTax: value(w.LabourTax), OverheadTax: value(w.OverheadTax),
	}
	if w.Step != nil {
		if terms.Step = decimalFrom(*w.Step); terms.Step.IsZero() {
			t.shape.Add(at.Field("step"), fault.TooSmall, *w.Step, "this is more than nothing when it is given", "an amount such as 5, or leave it out")
		}
	}
	if o := w.Overhead; o != nil {
		terms.Overhead = costing.Overhead{
			OnMaterials: percentFrom(value(o.OnMaterials)), OnLabour: percentFrom(value(o.OnLabour)), PerHour: decimalFrom(value(o.PerHour)),
		}
	}
	for _, x := range value(w.Taxes) {
		terms.Taxes = append(terms.Taxes, costing.Tax{Name: x.Name, Rate: percentFrom(x.Rate)})
	}
	if value(w.TaxBy) == gen.JobTermsTaxByRate {
		terms.TaxBy = costing.ByRate
	}
	terms.Rounding = map[gen.JobTermsRounding]costing.Rounding{
		gen.JobTermsRoundingHalfEven: costing.HalfEven, gen.JobTermsRoundingCustomer: costing.Customer, gen.JobTermsRoundingShop: costing.Shop,
	}[value(w.Rounding)]
	terms.Validity = costing.Validity{AsOf: dayFrom(value(w.AsOf)), Days: value(w.ValidDays), Supply: dayFrom(value(w.Supply))}
	if l := w.Labour; l != nil {
		terms.Labour = jobLabour(l)
	}
	return terms
}

func jobLabour(w *gen.JobLabour) *buying.Labour {
	l := &buying.Labour{Rate: decimalFrom(w.Rate), Preset: mapped(w.Preset, func(p gen.JobLabourPreset) string {
		if p == gen.JobLabourPresetNone {
			return ""
		}
		return string(p)
	})}
	for _, o := range value(w.Lines) {
		l.Lines = append(l.Lines, costing.Operation{
			Name: o.Name, Fixed: decimalFrom(value(o.Fixed)), PerPiece: decimalFrom(value(o.PerPiece)), PerPanel: decimalFrom(value(o.PerPanel)),
			PerCushion: decimalFrom(value(o.PerCushion)), PerFrame: decimalFrom(value(o.PerFrame)), PerButton: decimalFrom(value(o.PerButton)),
			PerMetre: decimalFrom(value(o.PerMetre)), Rate: mapped(o.Rate, decimalFrom),
		})
	}
	return l
}

// jobDayTerms say how a shop works; at is where they stand. nil is all usual.
func (t *translator) jobDayTerms(w *gen.JobDayTerms, at fault.Path) buying.DayTerms {
	if w == nil {
		return buying.DayTerms{}
	}
	terms := buying.DayTerms{
		PerDay: decimalFrom(value(w.PerDay)), Start: dayFrom(value(w.Start)), Weekends: value(w.Weekends), Delivery: w.Delivery, Glue: w.Glue,
	}
	if w.PerDay != nil && terms.PerDay.IsZero() {
		t.shape.Add(at.Field("perDay"), fault.TooSmall, *w.PerDay, "a working day has at least an hour", "from 1 to 24, or leave it out")
	}
	return terms
}

// orderWriter writes order lists in the units of a request.
type orderWriter struct{ units length.System }

// wireOrderLines is an order list as the contract has it.
func wireOrderLines(list []buying.Line, units length.System) []gen.OrderLine {
	w := orderWriter{units}
	out := make([]gen.OrderLine, len(list))
	for i := range list {
		out[i] = w.line(&list[i])
	}
	return out
}

func (w orderWriter) amount(m buying.Measure, q int64) gen.OrderAmount {
	unit := [...]gen.OrderAmountUnit{buying.Count: gen.OrderAmountUnitEach, buying.Length: gen.OrderAmountUnitM, buying.Mass: gen.OrderAmountUnitKg}
	return gen.OrderAmount{Amount: m.Amount(q).String(), Unit: unit[m], Text: m.Text(q, w.units)}
}

// some is an amount that is left out where it is none.
func (w orderWriter) some(m buying.Measure, q int64) *gen.OrderAmount {
	if q == 0 {
		return nil
	}
	a := w.amount(m, q)
	return &a
}

func (w orderWriter) line(l *buying.Line) gen.OrderLine {
	g := gen.OrderLine{
		Article: l.Article, Name: l.Name, Group: gen.OrderLineGroup(l.Group.String()),
		Needed: w.amount(l.Measure, l.Need), Order: w.amount(l.Measure, l.Order), Reasons: []gen.OrderReason{},
	}
	if s := l.Sold; s != (buying.Sold{}) {
		g.Sold = &gen.OrderSold{Step: w.some(l.Measure, s.Step), Pack: w.some(l.Measure, s.Pack), Minimum: w.some(l.Measure, s.Minimum), Longest: w.some(l.Measure, s.Whole)}
		set(&g.Sold.PackName, s.Name)
	}
	if l.Packs > 0 {
		g.Packs = &l.Packs
	}
	if len(l.Lengths) > 0 {
		g.Lengths = new([]gen.Quantity)
		for _, one := range l.Lengths {
			*g.Lengths = append(*g.Lengths, quantityIn(w.units, one, length.Up))
		}
	}
	for _, r := range l.Reasons {
		one := gen.OrderReason{For: r.For, Amount: w.amount(l.Measure, r.Amount)}
		set(&one.Part, r.Part)
		g.Reasons = append(g.Reasons, one)
	}
	if p := l.Price; p != nil {
		g.Price = &gen.OrderPrice{Article: p.Article, Amount: p.Amount.String(), Per: gen.JobPer(p.Per.String())}
	}
	if l.Because.Said() {
		because := wireNote(w.units, l.Because)
		g.Unpriced = &because
	}
	return g
}

// costWriter writes sums in one currency.
type costWriter struct {
	currency money.Currency
	byLine   bool
}

// wireJobCost is what a job comes to, as the contract has it.
func wireJobCost(c *buying.Cost, units length.System) *gen.JobCost {
	w := costWriter{c.Terms.Currency, c.Terms.TaxBy == costing.ByLine}
	q := &c.Quote
	g := &gen.JobCost{
		Materials: []gen.JobCostLine{}, Labour: []gen.JobCostLine{}, Overhead: w.line(&q.Overhead, ""), Contingency: w.line(&q.Contingency, ""),
		Taxes: []gen.JobTaxSum{}, Cost: w.sum(q.Cost), Net: w.sum(q.Net), Tax: w.sum(q.Tax), Rounded: w.sum(q.Rounded), Total: w.sum(q.Total),
		Deposit: w.sum(q.Deposit), Balance: w.sum(q.Balance), Hours: c.Hours.String(), Complete: c.Complete,
		Missing: []gen.JobUnpriced{}, Unused: append([]string{}, c.Unused...), Warnings: wireNotes(units, c.Warnings),
	}
	for i := range q.Materials {
		l := w.line(&q.Materials[i], c.Priced[i].BoughtText(units))
		g.Materials = append(g.Materials, l)
		g.Materials[i].Article = &c.Priced[i].Article
		cost := w.sum(q.Materials[i].Cost)
		g.Materials[i].Cost = &cost
	}
	for i := range q.Labour {
		g.Labour = append(g.Labour, w.line(&q.Labour[i], q.Labour[i].Quantity.String()+" h"))
	}
	for _, t := range q.Taxes {
		g.Taxes = append(g.Taxes, gen.JobTaxSum{Name: t.Name, Rate: t.Rate.String() + " %", Net: w.sum(t.On), Tax: w.sum(t.Sum)})
	}
	for _, m := range c.Missing {
		g.Missing = append(g.Missing, gen.JobUnpriced{Article: m.Article, Name: m.Name, Why: wireNote(units, m.Why)})
	}
	set(&g.Preset, c.Terms.Table().Preset)
	set(&g.AsOf, c.Terms.Validity.AsOf.String())
	set(&g.ValidUntil, c.ValidUntil.String())
	if c.ValidUntil != 0 && c.Terms.Validity.Supply != 0 {
		g.Late = &c.Late
	}
	return g
}

func (w costWriter) sum(d decimal.Decimal) gen.Money {
	return wireMoney(money.Money{Amount: d, Currency: w.currency})
}

func (w costWriter) line(l *costing.Line, quantity string) gen.JobCostLine {
	g := gen.JobCostLine{Name: l.Name, Net: w.sum(l.Net)}
	set(&g.Quantity, quantity)
	set(&g.TaxName, l.TaxName)
	if w.byLine {
		tax, gross := w.sum(l.Tax), w.sum(l.Gross)
		g.Tax, g.Gross = &tax, &gross
	}
	return g
}

// wireJobDays is a day plan as the contract has it.
func wireJobDays(d *buying.DayPlan) *gen.JobDays {
	g := &gen.JobDays{
		PerDay: d.PerDay.String(), Hours: d.Hours.String(), Last: d.Last, Days: make([]gen.JobDay, len(d.Days)), Waits: []gen.JobWait{},
		Defaults: append([]string{}, d.Defaults...),
	}
	for i, one := range d.Days {
		day := &g.Days[i]
		day.Number, day.Hours = one.Number, one.Hours.String()
		set(&day.Date, one.Date.String())
		for _, s := range one.Work {
			day.Work = append(day.Work, gen.JobSpell{Operation: s.Operation, Hours: s.Hours.String(), Begins: s.Begins, Ends: s.Ends})
		}
	}
	for _, w := range d.Waits {
		g.Waits = append(g.Waits, gen.JobWait{For: gen.JobWaitFor(w.For), Before: w.Before, From: w.From, Until: w.Until, Days: w.Days, Why: wireNote(length.Metric, w.Why)})
	}
	return g
}

// wireJobMoney is what is bought, what it costs and when it is done.
func wireJobMoney(g *gen.JobAnswer, ans *job.Answer) {
	h := ans.Request.Hide
	if !h.OrderList {
		g.OrderList = &gen.JobOrderList{Lines: wireOrderLines(ans.Orders, ans.Request.Units), Without: append([]string{}, ans.Without()...)}
	}
	if !h.Cost && ans.Cost != nil {
		g.Cost = wireJobCost(ans.Cost, ans.Request.Units)
	}
	if !h.DayPlan {
		g.DayPlan = wireJobDays(ans.Days)
	}
}
