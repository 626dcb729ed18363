package money_test

import (
	"fmt"
	"testing"

	iso "github.com/govalues/money"
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

// A length costs what a second library of money makes of it. That one works with
// 19 digits, so that lengths are whole millimetres here.
func TestPriceAgreesWithASecondLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		code := rapid.SampledFrom([]string{"GBP", "JPY", "KWD"}).Draw(t, "currency")
		price := decimal.New(rapid.Int64Range(0, 9_999_999).Draw(t, "price"), -4).String()
		mm := rapid.Int64Range(0, 999_999).Draw(t, "mm")
		p := money.Price{Per: length.Metre}
		var err error
		if p.Money, err = money.Parse(price, code); err != nil {
			t.Fatal(err)
		}
		got := p.Of(length.Length(mm) * length.Millimetre)
		want, err := iso.ParseAmount(code, price)
		if err != nil {
			t.Fatal(err)
		}
		metres, err := iso.ParseAmount(code, decimal.New(mm, -3).String())
		if err != nil {
			t.Fatal(err)
		}
		if want, err = want.Mul(metres.Decimal()); err != nil {
			t.Fatal(err)
		}
		// That library rounds half to even: an exact half is pushed up first.
		exact := want.Decimal().Trim(0).String()
		if half := decimal.RequireFromString(exact).Mod(decimal.New(1, -money.Scale(p.Currency))); half.Equal(decimal.New(5, -money.Scale(p.Currency)-1)) {
			return
		}
		if rounded := want.RoundToCurr().Decimal().String(); rounded != got.Text() {
			t.Fatalf("%s %s a metre, %d mm: %s, a second library says %s", price, code, mm, got.Text(), rounded)
		}
	})
}
