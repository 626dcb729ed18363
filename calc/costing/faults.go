package costing

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/money"
)

// The limits of what is believed of a job.
const (
	MaxLines    = 500
	MaxTaxes    = 20
	maxQuantity = 1_000_000
	MaxPrice    = 10_000_000
	maxHours    = 10_000
	MaxPercent  = 1000
	maxDecimals = 4
)

// Faults are what is wrong with the job; at is where it stands.
func (j Job) Faults(at fault.Path) fault.List {
	c := checker{known: make(map[string]bool)}
	for i, t := range j.Taxes {
		here := at.Field("taxes").Index(i)
		c.between(here.Field("rate"), "a rate of tax", t.Rate, 100)
		if c.known[t.Name] {
			c.Add(here.Field("name"), fault.Duplicate, t.Name, "another rate has this name", "a name of its own")
		}
		if t.Name == "" {
			c.Add(here.Field("name"), fault.NotAName, "", "a rate of tax has a name by which lines have it", "a name such as standard")
		}
		c.known[t.Name] = true
	}
	for i, m := range j.Materials {
		c.material(m, at.Field("materials").Index(i))
	}
	for i, l := range j.Labour {
		here := at.Field("labour").Index(i)
		c.between(here.Field("hours"), "the time", l.Hours, maxHours)
		c.between(here.Field("rate"), "the rate", l.Rate, MaxPrice)
		c.tax(here.Field("tax"), l.Tax)
	}
	here := at.Field("overhead")
	c.between(here.Field("onMaterials"), "the overhead", j.Overhead.OnMaterials, MaxPercent)
	c.between(here.Field("onLabour"), "the overhead", j.Overhead.OnLabour, MaxPercent)
	c.between(here.Field("perHour"), "the overhead", j.Overhead.PerHour, MaxPrice)
	c.tax(at.Field("overheadTax"), j.OverheadTax)
	c.between(at.Field("contingency"), "the contingency", j.Contingency, 100)
	c.between(at.Field("deposit"), "the deposit", j.Deposit, 100)
	c.step(at.Field("step"), j)
	if len(j.Materials)+len(j.Labour) > MaxLines {
		c.Add(at, fault.TooMany, "", "materials and labour have more than 500 lines", "at most 500 together")
	}
	if len(j.Taxes) > MaxTaxes {
		c.Add(at.Field("taxes"), fault.TooMany, "", "there are more than 20 rates of tax", "at most 20")
	}
	return c.List
}

// checker collects faults.
type checker struct {
	fault.List
	known map[string]bool // taxes
}

func (c *checker) material(m Material, at fault.Path) {
	c.between(at.Field("need"), "the quantity", m.Need, maxQuantity)
	c.between(at.Field("pack"), "the pack", m.Pack, maxQuantity)
	c.between(at.Field("minimum"), "the least quantity sold", m.Minimum, maxQuantity)
	c.between(at.Field("price"), "the price", m.Price, MaxPrice)
	if m.Per.IsNegative() {
		c.Add(at.Field("per"), fault.TooSmall, m.Per.String(), "a price is for more than nothing", "how many units the price is for, or leave it out for one")
	}
	c.between(at.Field("discount"), "the discount", m.Discount, 100)
	c.between(at.Field("markUp"), "the mark-up", m.MarkUp, MaxPercent)
	c.tax(at.Field("tax"), m.Tax)
}

// Within is what is wrong with a number that goes from 0 to most and has few
// decimals, such as a percentage, a price or a rate.
func Within(at fault.Path, what string, d decimal.Decimal, most int64) fault.List {
	var c checker
	c.between(at, what, d, most)
	return c.List
}

// between wants a number from 0 to most with few decimals.
func (c *checker) between(at fault.Path, what string, d decimal.Decimal, most int64) {
	limit := decimal.NewFromInt(most)
	try := "from 0 to " + limit.String() + ", with at most 4 decimals"
	switch {
	case d.IsNegative():
		c.Add(at, fault.TooSmall, d.String(), what+" is not below 0", try)
	case d.GreaterThan(limit):
		c.Add(at, fault.TooLarge, d.String(), what+" is at most "+limit.String(), try)
	case !d.Equal(d.Truncate(maxDecimals)):
		c.Add(at, fault.TooLarge, d.String(), what+" has more than 4 decimals", try)
	}
}

func (c *checker) tax(at fault.Path, name string) {
	if name != "" && !c.known[name] {
		c.Add(at, fault.NotOneOf, name, "there is no rate of tax with this name", "one of the names under taxes, or leave it out")
	}
}

// step wants a multiple of the minor unit.
func (c *checker) step(at fault.Path, j Job) {
	c.between(at, "the step", j.Step, MaxPrice)
	if !j.Step.Equal(j.Step.Truncate(money.Scale(j.Currency))) {
		c.Add(at, fault.NotAllowed, j.Step.String(), "the step is finer than the currency's smallest unit", "a multiple of the smallest unit")
	}
}
