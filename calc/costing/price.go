package costing

import (
	"errors"

	"github.com/govalues/money"
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/length"
)

// Money is an amount of a currency.
type Money struct {
	Amount   decimal.Decimal
	Currency money.Currency
}

// Price is what a length of cloth costs.
type Price struct {
	Money
	Per length.Length // the length that it is for; > 0
}

// ErrAmount and ErrCurrency say why money cannot be read.
var (
	ErrAmount   = errors.New("costing: not an amount")
	ErrCurrency = errors.New("costing: not a currency of ISO 4217")
)

// maxAmount bounds the text of an amount, so that reading one takes no time.
const maxAmount = 24

// ParseMoney reads a decimal number and a currency's code.
func ParseMoney(amount, currency string) (Money, error) {
	c, err := money.ParseCurr(currency)
	if err != nil || c.Code() != currency {
		return Money{}, ErrCurrency
	}
	if len(amount) > maxAmount {
		return Money{}, ErrAmount
	}
	for _, r := range amount {
		if r != '.' && (r < '0' || r > '9') { // no signs and no powers of ten
			return Money{}, ErrAmount
		}
	}
	d, err := decimal.NewFromString(amount)
	if err != nil {
		return Money{}, ErrAmount
	}
	return Money{d, c}, nil
}

// Text is the amount with all decimals of the currency: "48.50".
func (m Money) Text() string {
	return m.Amount.StringFixed(int32(m.Currency.Scale())) //nolint:gosec // 0, 2 or 3
}

// Code is the currency by its ISO 4217 code.
func (m Money) Code() string { return m.Currency.Code() }

// Cmp compares the amounts of two of one currency: -1, 0 or 1.
func (m Money) Cmp(n Money) int { return m.Amount.Cmp(n.Amount) }

// Of is what a length costs, to the nearest smallest unit of the currency, half
// going up.
func (p Price) Of(l length.Length) Money {
	whole := decimal.NewFromInt(int64(l)).Mul(p.Amount)
	scale := int32(p.Currency.Scale()) //nolint:gosec // 0, 2 or 3
	return Money{whole.DivRound(decimal.NewFromInt(int64(p.Per)), scale), p.Currency}
}
