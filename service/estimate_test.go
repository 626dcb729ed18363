package service_test

import (
	"context"
	"testing"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/service"
)

func estimate(t testing.TB, req service.EstimateRequest) *service.EstimateAnswer {
	t.Helper()
	if l := service.EstimateFaults(req); l.Len() > 0 {
		t.Fatal(l.Faults())
	}
	ans, err := service.Estimate(context.Background(), req, 2)
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

func estimateOf(kind string) service.EstimateRequest {
	return service.EstimateRequest{Piece: furniture.Piece{Kind: kind, Count: 1}}
}

// Every kind, size and class of pattern has an estimate whose figures are in
// order, and a larger look never has a smaller low or high figure by more than a
// metre or 30 %: a step of the pattern for every row, and of a whole part for a
// panel that is joined.
func TestEstimateOfEveryKind(t *testing.T) {
	for _, k := range furniture.Kinds() {
		for _, look := range []service.Patterned{service.Plain, service.SmallPattern, service.Medium, service.LargePattern} {
			var before *service.EstimateAnswer
			for _, size := range []service.Size{service.Small, service.Usual, service.Large} {
				req := estimateOf(k.ID)
				req.Size, req.Patterned = size, look
				ans := estimate(t, req)
				o := ans.Order
				if o.Low <= 0 || o.Low > o.Likely || o.Likely > o.High {
					t.Errorf("%s: %v", k.ID, o)
				}
				if h := ans.Hours; !h.Low.IsPositive() || h.Low.GreaterThan(h.Likely) || h.Likely.GreaterThan(h.High) {
					t.Errorf("%s: hours %v", k.ID, h)
				}
				if ans.Price != nil {
					t.Errorf("%s: a price of nothing", k.ID)
				}
				if step := max(100*cm, o.High*3/10); before != nil && (o.Low < before.Order.Low-step || o.High < before.Order.High-step) {
					t.Errorf("%s: size %d takes %v, the one before %v", k.ID, size, o, before.Order)
				}
				before = ans
			}
		}
	}
}

// What is measured narrows the range, and is no longer named.
func TestMeasuringNarrowsAnEstimate(t *testing.T) {
	req := estimateOf("wing-chair")
	req.Patterned = service.Plain
	ans := estimate(t, req)
	if len(ans.Narrow) == 0 || ans.Narrow[0].Measure == "" || ans.Narrow[0].Percent <= 0 {
		t.Fatalf("narrow: %+v", ans.Narrow)
	}
	k, _ := furniture.Find("wing-chair")
	req.Piece.Measures = make(map[string]length.Length)
	for _, m := range k.Measures {
		req.Piece.Measures[m.ID] = m.Typical
	}
	ans = estimate(t, req)
	if o := ans.Order; o.Low != o.High || len(ans.Narrow) != 0 {
		t.Errorf("all is measured, and still %v, %+v", o, ans.Narrow)
	}
}

// The price is what the cloth and the hours come to, worked out by hand.
func TestEstimatePrices(t *testing.T) {
	gbp := func(s string) money.Money {
		m, err := money.Parse(s, "GBP")
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	req := estimateOf("carver")
	req.Band = &service.PriceBand{Low: money.Price{Money: gbp("20"), Per: length.Metre}, High: money.Price{Money: gbp("30"), Per: length.Metre}}
	req.Labour = &service.LabourRate{Hour: gbp("32")}
	req.Tax = decimal.New(20, 0)
	ans := estimate(t, req)
	metres := decimal.New(int64(ans.Order.High), -9)
	cloth := metres.Mul(decimal.New(30, 0)).Round(2)
	work := ans.Hours.High.Mul(decimal.New(32, 0)).Round(2)
	tax := func(d decimal.Decimal) decimal.Decimal { return d.Mul(decimal.New(2, -1)).Round(2) }
	if want := cloth.Add(work).Add(tax(cloth)).Add(tax(work)); !ans.Price.High.Amount.Equal(want) {
		t.Errorf("high %s, by hand %s", ans.Price.High.Text(), want)
	}
	if ans.Price.Low.Cmp(ans.Price.Likely) > 0 || ans.Price.Likely.Cmp(ans.Price.High) > 0 {
		t.Errorf("prices %+v", *ans.Price)
	}
}

// BenchmarkEstimate is a wing chair of which nothing is measured.
func BenchmarkEstimate(b *testing.B) {
	req := estimateOf("wing-chair")
	for b.Loop() {
		estimate(b, req)
	}
}
