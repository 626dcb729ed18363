package foam

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/money"
)

// MaxPrice is the highest price of a sheet.
const MaxPrice = 100_000

// Priced reports whether the sheets have prices.
func (j *Job) Priced() bool { return j.Currency != money.None }

// The search counts prices in whole ten-thousandths.
const tenThousandths = money.MaxDecimals

// counted is a price as the search counts it.
func counted(price decimal.Decimal) int64 { return price.Shift(tenThousandths).IntPart() }

// Money is the price of what a group buys, to the nearest smallest unit of the
// currency, half going up.
func (j *Job) Money(g *Group) money.Money {
	sum := decimal.New(g.Nest.Cost, -tenThousandths)
	return money.Money{Amount: sum.Round(money.Scale(j.Currency)), Currency: j.Currency}
}

// Total is the price of all that is bought: the sum of the groups' as they are
// said.
func (j *Job) Total(r *Result) money.Money {
	sum := money.Money{Currency: j.Currency}
	for i := range r.Groups {
		sum.Amount = sum.Amount.Add(j.Money(&r.Groups[i]).Amount)
	}
	return sum
}
