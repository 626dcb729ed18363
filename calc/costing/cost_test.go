package costing_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/money"
)

func d(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// The sums of an invented job, worked out by hand.
func Example() {
	gbp, _ := money.ParseCurrency("GBP")
	q := costing.Job{
		Currency: gbp,
		Taxes:    []costing.Tax{{Name: "standard", Rate: d("20")}},
		Materials: []costing.Material{
			{Name: "heron and sedge", Unit: "m", Need: d("6.2"), Price: d("48.50"), Discount: d("10"), MarkUp: d("35"), Tax: "standard"},
			{Name: "tacks 10 mm", Unit: "box", Need: d("0.4"), Pack: d("1"), Price: d("3.75"), Tax: "standard"},
		},
		Labour:  []costing.Labour{{Name: "covering", Hours: d("9.5"), Rate: d("32"), Tax: "standard"}},
		Deposit: d("50"),
	}.Cost()
	fmt.Println(q.Materials[0].Cost, q.Materials[0].Net, q.Materials[1].Quantity, q.Net, q.Tax, q.Total, q.Deposit, q.Balance)
	// Output: 270.63 365.35 1 673.1 134.62 807.72 403.86 403.86
}

func currency(code string) money.Currency {
	c, err := money.ParseCurrency(code)
	if err != nil {
		panic(err)
	}
	return c
}

var currencies = []string{"GBP", "EUR", "JPY", "KWD", "HUF"} // minor units of 2, 2, 0, 3 and 2 decimals (ISO 4217)

func amount(t *rapid.T, label string, most, decimals int64) decimal.Decimal {
	scale := int64(1)
	for range decimals {
		scale *= 10
	}
	return decimal.New(rapid.Int64Range(0, most*scale).Draw(t, label), -int32(decimals))
}

func anyJob(t *rapid.T) costing.Job {
	j := costing.Job{
		Currency:    currency(rapid.SampledFrom(currencies).Draw(t, "currency")),
		Taxes:       []costing.Tax{{"standard", amount(t, "standard", 30, 2)}, {"reduced", amount(t, "reduced", 10, 2)}},
		Rounding:    costing.Rounding(rapid.IntRange(0, 3).Draw(t, "rounding")),
		TaxBy:       costing.TaxBy(rapid.IntRange(0, 1).Draw(t, "tax by")),
		Contingency: amount(t, "contingency", 20, 2),
		Deposit:     amount(t, "deposit", 100, 1),
		Overhead:    costing.Overhead{OnMaterials: amount(t, "on materials", 50, 2), OnLabour: amount(t, "on labour", 50, 2), PerHour: amount(t, "per hour", 50, 4)},
		OverheadTax: rapid.SampledFrom([]string{"", "standard"}).Draw(t, "overhead tax"),
		Step:        decimal.NewFromInt(rapid.Int64Range(0, 10).Draw(t, "step")),
	}
	tax := rapid.SampledFrom([]string{"", "standard", "reduced"})
	for range rapid.IntRange(0, 6).Draw(t, "materials") {
		j.Materials = append(j.Materials, costing.Material{
			Need: amount(t, "need", 1000, 4), Pack: amount(t, "pack", 5, 2), Minimum: amount(t, "minimum", 3, 1), Price: amount(t, "price", 1000, 4),
			Per:      rapid.SampledFrom([]decimal.Decimal{{}, d("1"), d("0.9144"), d("0.45359237"), d("100"), d("7")}).Draw(t, "per"),
			Discount: amount(t, "discount", 100, 4), MarkUp: amount(t, "mark-up", 300, 4), Tax: tax.Draw(t, "tax"),
		})
	}
	for range rapid.IntRange(0, 6).Draw(t, "labour") {
		j.Labour = append(j.Labour, costing.Labour{Hours: amount(t, "hours", 100, 2), Rate: amount(t, "rate", 200, 4), Tax: tax.Draw(t, "tax")})
	}
	return j
}

// What is printed adds up, to the smallest unit, whatever the prices.
func TestSumsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		if l := j.Faults(fault.Path{}); l.Len() > 0 {
			t.Fatal(l.Faults())
		}
		q := j.Cost()
		var net, tax, cost decimal.Decimal
		lines := append(append([]costing.Line{}, q.Materials...), q.Labour...)
		for _, l := range append(lines, q.Overhead, q.Contingency) {
			whole(t, j, l.Net, l.Tax, l.Gross, l.Cost)
			net, tax, cost = net.Add(l.Net), tax.Add(l.Tax), cost.Add(l.Cost)
			if !l.Gross.Equal(l.Net.Add(l.Tax)) {
				t.Fatalf("%s: %s + %s is not %s", l.Name, l.Net, l.Tax, l.Gross)
			}
		}
		if j.TaxBy == costing.ByRate {
			tax = decimal.Decimal{}
			for _, x := range q.Taxes {
				tax = tax.Add(x.Sum)
			}
		}
		if !net.Equal(q.Net) || !tax.Equal(q.Tax) || !cost.Equal(q.Cost) {
			t.Fatalf("net %s %s, tax %s %s, cost %s %s", net, q.Net, tax, q.Tax, cost, q.Cost)
		}
		if !q.Total.Equal(q.Net.Add(q.Tax).Add(q.Rounded)) || !q.Total.Equal(q.Deposit.Add(q.Balance)) {
			t.Fatalf("%+v", q)
		}
		whole(t, j, q.Total, q.Deposit, q.Balance)
		if j.Step.IsPositive() && !q.Total.Mod(j.Step).IsZero() {
			t.Fatalf("total %s is no multiple of %s", q.Total, j.Step)
		}
		if off := q.Rounded.Abs(); j.Step.IsPositive() && off.GreaterThanOrEqual(j.Step) {
			t.Fatalf("rounding to %s moved the total by %s", j.Step, q.Rounded)
		}
		if j.Rounding == costing.Customer && q.Rounded.IsPositive() || j.Rounding == costing.Shop && q.Rounded.IsNegative() {
			t.Fatalf("rounding %d moved the total by %s", j.Rounding, q.Rounded)
		}
	})
}

func whole(t *rapid.T, j costing.Job, amounts ...decimal.Decimal) {
	for _, a := range amounts {
		if !a.Equal(a.Truncate(money.Scale(j.Currency))) {
			t.Fatalf("%s has a part of the smallest unit of %s", a, j.Currency)
		}
	}
}

// The lines are those that exact fractions give, in a second arithmetic.
func TestLinesAgreeWithFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		q := j.Cost()
		for i, m := range j.Materials {
			buy := m.Need.Rat()
			if least := m.Minimum.Rat(); least.Cmp(buy) > 0 {
				buy = least
			}
			if pack := m.Pack.Rat(); pack.Sign() > 0 {
				n := new(big.Rat).Quo(buy, pack)
				buy = new(big.Rat).Mul(new(big.Rat).SetInt(roundRat(n, costing.Shop)), pack)
			}
			cost := new(big.Rat).Mul(buy, m.Price.Rat())
			if per := m.Per.Rat(); per.Sign() > 0 {
				cost.Quo(cost, per)
			}
			cost = minor(j, new(big.Rat).Mul(cost, share(decimal.NewFromInt(100).Sub(m.Discount))))
			net := minor(j, new(big.Rat).Mul(cost, share(decimal.NewFromInt(100).Add(m.MarkUp))))
			l := q.Materials[i]
			if l.Quantity.Rat().Cmp(buy) != 0 || l.Cost.Rat().Cmp(cost) != 0 || l.Net.Rat().Cmp(net) != 0 {
				t.Fatalf("%+v: bought %s, cost %s, net %s; fractions say %s, %s, %s", m, l.Quantity, l.Cost, l.Net,
					buy.FloatString(4), cost.FloatString(4), net.FloatString(4))
			}
		}
		for i, w := range j.Labour {
			if net := minor(j, new(big.Rat).Mul(w.Hours.Rat(), w.Rate.Rat())); q.Labour[i].Net.Rat().Cmp(net) != 0 {
				t.Fatalf("%+v: net %s, fractions say %s", w, q.Labour[i].Net, net.FloatString(4))
			}
		}
	})
}

func share(percent decimal.Decimal) *big.Rat {
	return new(big.Rat).Quo(percent.Rat(), big.NewRat(100, 1))
}

// minor is an amount in whole minor units.
func minor(j costing.Job, r *big.Rat) *big.Rat {
	scale := big.NewRat(1, 1)
	for range money.Scale(j.Currency) {
		scale.Mul(scale, big.NewRat(10, 1))
	}
	n := roundRat(new(big.Rat).Mul(r, scale), j.Rounding)
	return new(big.Rat).Quo(new(big.Rat).SetInt(n), scale)
}

// roundRat is a fraction that is not negative, rounded.
func roundRat(r *big.Rat, how costing.Rounding) *big.Int {
	n, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	half := new(big.Int).Lsh(rest, 1).Cmp(r.Denom())
	up := half >= 0
	switch how {
	case costing.Customer:
		up = false
	case costing.Shop:
		up = rest.Sign() > 0
	case costing.HalfEven:
		up = half > 0 || half == 0 && n.Bit(0) == 1
	}
	if up {
		n.Add(n, big.NewInt(1))
	}
	return n
}

func TestFaultsOfAJob(t *testing.T) {
	gbp, _ := money.ParseCurrency("GBP")
	for _, tc := range []struct {
		name string
		job  costing.Job
		want string
	}{
		{"below nothing", costing.Job{Materials: []costing.Material{{Need: d("-1")}}}, "#/materials/0/need too-small"},
		{"dear", costing.Job{Materials: []costing.Material{{Price: d("10000001")}}}, "#/materials/0/price too-large"},
		{"too fine", costing.Job{Labour: []costing.Labour{{Hours: d("0.00001")}}}, "#/labour/0/hours too-large"},
		{"more than all", costing.Job{Materials: []costing.Material{{Discount: d("100.1")}}}, "#/materials/0/discount too-large"},
		{"no such tax", costing.Job{OverheadTax: "standard"}, "#/overheadTax not-one-of"},
		{"twice", costing.Job{Taxes: []costing.Tax{{Name: "a"}, {Name: "a"}}}, "#/taxes/1/name duplicate"},
		{"step", costing.Job{Step: d("0.005")}, "#/step not-allowed"},
	} {
		tc.job.Currency = gbp
		l := tc.job.Faults(fault.Path{})
		if got := l.Faults(); len(got) != 1 || got[0].Pointer()+" "+string(got[0].Code) != tc.want {
			t.Errorf("%s: %+v, want %s", tc.name, got, tc.want)
		}
	}
}
