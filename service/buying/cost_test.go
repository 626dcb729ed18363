package buying_test

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service/buying"
)

func workOf(t *rapid.T) costing.Work {
	n := rapid.IntRange(0, 40)
	return costing.Work{
		Pieces: n.Draw(t, "pieces"), Panels: n.Draw(t, "panels"), Cushions: n.Draw(t, "cushions"), Frames: n.Draw(t, "frames"), Buttons: n.Draw(t, "buttons"),
		Piping: decimal.New(rapid.Int64Range(0, 50_000).Draw(t, "piping"), -3),
	}
}

// The cost of an invented job, worked out by hand.
func TestCostOfAJob(t *testing.T) {
	trade, none := gbpOf("10"), gbpOf("0")
	zero := "zero"
	req := buying.Request{
		Currency: currencyOf("GBP"),
		Parts: []buying.Part{{Name: "chair", Cloths: []buying.Cloth{
			{For: "top cover", Answer: planned("Heron and sedge", cloth.Sold{Step: 10 * cm}, 642*cm)},
			{For: "flies", Answer: planned("Lining", cloth.Sold{Step: 10 * cm}, 81*cm)},
			{For: "outside", Answer: planned("Velvet", cloth.Sold{}, length.Yard)},
		}}},
		Prices: []buying.Price{
			{Article: "cloth/Heron and sedge", Amount: gbpOf("48.50"), Per: buying.PerMetre, Discount: &trade},
			{Article: "cloth/Velvet", Amount: gbpOf("33.335"), Per: buying.PerYard, MarkUp: &none, Tax: &zero},
			{Article: "tacks", Amount: gbpOf("4"), Per: buying.PerPack},
		},
	}
	list := orderList(t, req)
	terms := buying.Terms{
		Currency: req.Currency, MarkUp: gbpOf("35"),
		Labour: &buying.Labour{Rate: gbpOf("32"), Preset: new(""), Lines: []costing.Operation{
			{Name: "covering", PerPanel: gbpOf("0.3")}, {Name: "cutting", Fixed: gbpOf("1.5")},
		}},
		Overhead: costing.Overhead{OnLabour: gbpOf("12.5")}, Contingency: gbpOf("5"),
		Taxes: []costing.Tax{{Name: "standard", Rate: gbpOf("20")}, {Name: "zero"}}, MaterialsTax: "standard", LabourTax: "standard", OverheadTax: "standard",
		Deposit: gbpOf("50"), Step: gbpOf("1"),
		Validity: costing.Validity{AsOf: 2026_11_30, Days: 30, Supply: 2027_01_15},
	}
	if l := buying.MoneyFaults(req.Prices, terms, fault.Path{}); l.Len() > 0 {
		t.Fatal(l.Faults())
	}
	c := buying.CostOf(list, req.Prices, costing.Work{Panels: 10}, terms)
	q := c.Quote
	got := strings.Join([]string{
		c.Money(q.Materials[0].Cost).Text(), c.Money(q.Materials[0].Net).Text(), // 6.5 m × 48.50 less 10 % is 283.725, and 35 % on 283.73
		c.Money(q.Materials[1].Net).Text(),                               // a yard at 33.335
		c.Money(q.Labour[0].Net).Text(), c.Money(q.Labour[1].Net).Text(), // 1.5 h, 3 h
		c.Money(q.Overhead.Net).Text(), c.Money(q.Contingency.Net).Text(), // 12.5 % of 144; 5 % of 383.04 + 33.34 + 144 + 18
		c.Money(q.Net).Text(), c.Money(q.Tax).Text(), c.Money(q.Total).Text(), // line by line: 76.61 + 9.60 + 19.20 + 3.60 + 5.78
		c.Money(q.Deposit).Text(), c.Money(q.Balance).Text(), c.Hours.String(),
	}, " ")
	if want := "283.73 383.04 33.34 48.00 96.00 18.00 28.92 607.30 114.79 722.00 361.00 361.00 4.5"; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if c.Complete || len(c.Missing) != 1 || c.Missing[0].Article != "cloth/Lining" || len(c.Unused) != 1 || c.Unused[0] != "tacks" {
		t.Errorf("missing %+v, unused %v", c.Missing, c.Unused)
	}
	if c.ValidUntil != 2026_12_30 || !c.Late || len(c.Warnings) != 3 {
		t.Errorf("until %s, late %v, %q", c.ValidUntil, c.Late, c.Warnings)
	}
}

// Without labour the hours are known and the work has no price.
func TestCostWithoutLabour(t *testing.T) {
	c := buying.CostOf(nil, nil, costing.Work{Pieces: 1, Panels: 10}, buying.Terms{Currency: currencyOf("GBP")})
	if c.Complete || len(c.Quote.Labour) != 0 || !c.Hours.IsPositive() || !c.Quote.Total.IsZero() || len(c.Warnings) != 1 {
		t.Errorf("%+v", c)
	}
	if c = buying.CostOf(nil, nil, costing.Work{}, buying.Terms{Currency: currencyOf("GBP")}); !c.Complete {
		t.Errorf("nothing to do, and still %q", c.Warnings)
	}
}

func TestFaultsOfJobMoney(t *testing.T) {
	tax := "reduced"
	many := make([]buying.Price, buying.MaxPrices+1)
	q := func(m buying.Measure, n int64) *buying.Quantity {
		return &buying.Quantity{Measure: m, Amount: n}
	}
	minus, much := gbpOf("-1"), gbpOf("1001")
	for _, tc := range []struct {
		prices []buying.Price
		terms  buying.Terms
		want   string
	}{
		{terms: buying.Terms{MaterialsTax: "standard"}, want: "#/terms/materialsTax not-one-of"},
		{terms: buying.Terms{LabourTax: "standard"}, want: "#/terms/labourTax not-one-of"},
		{terms: buying.Terms{OverheadTax: "standard"}, want: "#/terms/overheadTax not-one-of"},
		{terms: buying.Terms{Discount: gbpOf("101")}, want: "#/terms/discount too-large"},
		{terms: buying.Terms{MarkUp: gbpOf("1001")}, want: "#/terms/markUp too-large"},
		{terms: buying.Terms{Deposit: gbpOf("100.5")}, want: "#/terms/deposit too-large"},
		{terms: buying.Terms{Contingency: gbpOf("101")}, want: "#/terms/contingency too-large"},
		{terms: buying.Terms{Step: gbpOf("0.001")}, want: "#/terms/step not-allowed"},
		{terms: buying.Terms{Validity: costing.Validity{Days: 5}}, want: "#/terms/validDays not-allowed"},
		{terms: buying.Terms{Labour: &buying.Labour{Preset: new("fast")}}, want: "#/terms/labour/preset not-one-of"},
		{prices: []buying.Price{{Article: "gimp"}, {Article: "gimp"}}, want: "#/prices/1/article duplicate"},
		{prices: []buying.Price{{Tax: &tax}}, want: "#/prices/0/tax not-one-of"},
		{prices: []buying.Price{{Discount: &minus}}, want: "#/prices/0/discount too-small"},
		{prices: []buying.Price{{MarkUp: &much}}, want: "#/prices/0/markUp too-large"},
		{prices: []buying.Price{{Pack: q(buying.Count, 0)}}, want: "#/prices/0/pack too-small"},
		{prices: []buying.Price{{Per: buying.PerPack, Pack: q(buying.Length, 999_999)}}, want: "#/prices/0/pack too-small"},
		{prices: []buying.Price{{Minimum: q(buying.Mass, 10_000_000_001)}}, want: "#/prices/0/minimum too-large"},
		{prices: []buying.Price{{Per: buying.PerMetre, Pack: q(buying.Mass, 5000)}}, want: "#/prices/0/pack not-allowed"},
		{prices: many, want: "#/prices too-many"},
	} {
		tc.terms.Currency = currencyOf("GBP")
		l := buying.MoneyFaults(tc.prices, tc.terms, fault.Path{})
		if got := l.Faults(); len(got) != 1 || got[0].Pointer()+" "+string(got[0].Code) != tc.want {
			t.Errorf("%+v, want %s", got, tc.want)
		}
	}
}
