package money_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
)

func Example() {
	m, _ := money.Parse("48.5", "GBP")
	p := money.Price{Money: m, Per: length.Metre}
	fmt.Println(p.Of(620*length.Centimetre).Text(), m.Text(), m.Code())
	// Output: 300.70 48.50 GBP
}

func TestParse(t *testing.T) {
	for _, tc := range []struct{ amount, code, want string }{
		{"48.5", "GBP", "48.50"}, {"0", "JPY", "0"}, {"1234567.8912", "KWD", "1234567.891"}, {"007.10", "EUR", "7.10"}, {"3.5", "JPY", "4"},
	} {
		if m, err := money.Parse(tc.amount, tc.code); err != nil || m.Text() != tc.want || m.Code() != tc.code {
			t.Errorf("%s %s: %s %s, %v", tc.amount, tc.code, m.Text(), m.Code(), err)
		}
	}
	for _, s := range []string{"", ".5", "5.", "1e3", "-1", "+1", "1,5", "1.23456", "12345678", " 1", "٣", "0x1", "1.2.3"} {
		if _, err := money.Parse(s, "GBP"); err != money.ErrAmount {
			t.Errorf("%q is taken: %v", s, err)
		}
	}
	for _, s := range []string{"", "gbp", "QQQ", "XXX", "XTS", "826", "£", "GBPP"} {
		if c, err := money.ParseCurrency(s); err != money.ErrCurrency || c != money.None {
			t.Errorf("%q is taken: %v", s, err)
		}
	}
}

// A length costs what fractions make of it: the quotient to the nearest smallest
// unit, half going up.
func TestPriceAgreesWithFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		code := rapid.SampledFrom([]string{"GBP", "JPY", "KWD"}).Draw(t, "currency")
		price := decimal.New(rapid.Int64Range(0, 9_999_999).Draw(t, "price"), -4)
		l := rapid.OneOf(
			rapid.Map(rapid.Int64Range(0, 999_999), func(mm int64) length.Length { return length.Length(mm) * length.Millimetre }),
			rapid.Map(rapid.Int64Range(0, int64(length.Metre)*1000), func(n int64) length.Length { return length.Length(n) }),
		).Draw(t, "length")
		per := rapid.SampledFrom([]length.Length{length.Metre, length.Yard}).Draw(t, "per")
		m, err := money.Parse(price.String(), code)
		if err != nil {
			t.Fatal(err)
		}
		scale := money.Scale(m.Currency)
		units := new(big.Rat).Mul(price.Rat(), big.NewRat(int64(l), int64(per)))
		units.Mul(units, decimal.New(1, scale).Rat()).Add(units, big.NewRat(1, 2))
		want := decimal.NewFromBigInt(new(big.Int).Div(units.Num(), units.Denom()), -scale).StringFixed(scale)
		if got := (money.Price{Money: m, Per: per}).Of(l); got.Text() != want || got.Code() != code {
			t.Fatalf("%s %s for %v, %v of it: %s %s, want %s", price, code, per, l, got.Text(), got.Code(), want)
		}
	})
}
