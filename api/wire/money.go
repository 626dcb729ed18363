package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
)

// money is an amount; at is where its currency stands. An amount that the
// contract refuses counts as none.
func (t *translator) money(amount, currency string, at fault.Path) money.Money {
	m := money.Money{Currency: t.currency(currency, at)}
	m.Amount, _ = money.ParseAmount(amount)
	return m
}

// currency is a currency by its code; at is where the field stands.
func (t *translator) currency(code string, at fault.Path) money.Currency {
	c, err := money.ParseCurrency(code)
	if err != nil {
		t.shape.Add(at.Field("currency"), fault.NotOneOf, code, "there is no such currency", "a code of ISO 4217, for example GBP")
	}
	return c
}

// amount is an amount of a currency that is looked at elsewhere; nil when either
// cannot be read.
func (t *translator) amount(amount, currency string) *money.Money {
	m, err := money.Parse(amount, currency)
	if err != nil {
		return nil
	}
	return &m
}

// price is what a length of cloth costs.
func (t *translator) price(w *gen.Price, at fault.Path) *money.Price {
	p := money.Price{Money: t.money(w.Amount, w.Currency, at), Per: length.Metre}
	if w.Per == gen.PricePerYd {
		p.Per = length.Yard
	}
	return &p
}

func wireMoney(m money.Money) gen.Money {
	return gen.Money{Amount: m.Text(), Currency: m.Code()}
}
