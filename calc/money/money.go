package money

import (
	"errors"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/length"
)

// Money is an amount of a currency.
type Money struct {
	Amount   decimal.Decimal
	Currency Currency
}

// Price is what a length of cloth costs.
type Price struct {
	Money
	Per length.Length // the length that it is for; > 0
}

// ErrAmount and ErrCurrency say why money cannot be read.
var (
	ErrAmount   = errors.New("money: not an amount")
	ErrCurrency = errors.New("money: not a currency of ISO 4217")
)

// The limits of what is read: the digits before the point and after it.
const (
	maxWhole    = 7
	MaxDecimals = 4
)

// ParseAmount reads a decimal number without a sign, of at most 7 digits and 4
// decimals, such as 48.50.
func ParseAmount(amount string) (decimal.Decimal, error) {
	whole, part, point := strings.Cut(amount, ".")
	if whole == "" || len(whole) > maxWhole || point && (part == "" || len(part) > MaxDecimals) ||
		strings.Trim(whole+part, "0123456789") != "" { // no signs and no powers of ten
		return decimal.Decimal{}, ErrAmount
	}
	d, err := decimal.NewFromString(amount)
	if err != nil {
		return decimal.Decimal{}, ErrAmount
	}
	return d, nil
}

// Parse reads a decimal number and a currency's code.
func Parse(amount, currency string) (Money, error) {
	c, err := ParseCurrency(currency)
	if err != nil {
		return Money{}, err
	}
	d, err := ParseAmount(amount)
	if err != nil {
		return Money{}, err
	}
	return Money{d, c}, nil
}

// Text is the amount with all decimals of the currency: "48.50".
func (m Money) Text() string { return m.Amount.StringFixed(Scale(m.Currency)) }

// Code is the currency by its ISO 4217 code.
func (m Money) Code() string { return m.Currency.Code() }

// Cmp compares the amounts of two of one currency: -1, 0 or 1.
func (m Money) Cmp(n Money) int { return m.Amount.Cmp(n.Amount) }

// Of is what a length costs, to the nearest smallest unit of the currency, half
// going up.
func (p Price) Of(l length.Length) Money {
	whole := decimal.NewFromInt(int64(l)).Mul(p.Amount)
	return Money{whole.DivRound(decimal.NewFromInt(int64(p.Per)), Scale(p.Currency)), p.Currency}
}
