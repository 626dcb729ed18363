package service_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/note"
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

// What an estimate leaves out it says, and says nothing of what it has not: for
// every kind, whatever is chosen, measured and priced. What a piece takes is counted
// here off its cutting list.
func TestEstimateSaysWhatItLeavesOut(t *testing.T) {
	hour, err := money.Parse("32", "GBP")
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		piece := drawnPiece(t)
		for id := range piece.Measures {
			if rapid.Bool().Draw(t, id+" left out") {
				delete(piece.Measures, id)
			}
		}
		req := service.EstimateRequest{Piece: piece, Patterned: service.Plain}
		if rapid.Bool().Draw(t, "cloth chosen") {
			req.Cloth = &service.CompareCloth{Cloth: cloth.Cloth{Width: 140 * cm}}
		}
		if rapid.Bool().Draw(t, "cloth priced") {
			req.Band = &service.PriceBand{Low: money.Price{Money: hour, Per: length.Metre}, High: money.Price{Money: hour, Per: length.Metre}}
		}
		if rapid.Bool().Draw(t, "work priced") {
			req.Labour = &service.LabourRate{Hour: hour}
		}
		if rapid.Bool().Draw(t, "taxed") {
			req.Tax = decimal.New(20, 0)
		}
		if l := service.EstimateFaults(req); l.Len() > 0 {
			t.Skip(l.Faults())
		}
		ans, err := service.Estimate(context.Background(), req, 1)
		if err != nil {
			t.Fatal(err)
		}
		list := piece.List()
		cut := map[furniture.Cover]bool{}
		for _, p := range list.Panels {
			cut[p.Cover] = true
		}
		want := map[note.Code]bool{
			note.NoQuotation: true, note.NoPlanFound: ans.Order.High == 0,
			note.WithoutLining: cut[furniture.Lining], note.WithoutSecondCloth: cut[furniture.Outside],
			note.WithoutPiping: len(list.Runs) > 0, note.WithoutButtons: len(list.Buttons) > 0,
			note.WithoutFillings: len(list.Fillings)+len(list.Frames) > 0,
			note.ClothUnpriced:   req.Band == nil, note.WorkUnpriced: req.Labour == nil,
			note.WithoutTax:    (req.Band != nil || req.Labour != nil) && req.Tax.IsZero(),
			note.UsualMeasures: len(list.Assumed) > 0, note.UsualCloth: req.Cloth == nil, note.PresetHours: true,
		}
		got := map[note.Code]bool{}
		for _, n := range ans.Warnings {
			if got[n.Code] || !strings.HasPrefix(string(n.Code), "estimate-") {
				t.Errorf("%+v", n)
			}
			got[n.Code] = true
			if n.Code == note.UsualMeasures {
				for _, m := range list.Assumed {
					if !strings.Contains(n.Text(length.Metric), m.Name) {
						t.Errorf("%s is not among %q", m.Name, n.Text(length.Metric))
					}
				}
			}
		}
		for code, is := range want {
			if got[code] != is {
				t.Errorf("%s: said %v, want %v", code, got[code], is)
			}
		}
		if len(got) > len(want) {
			t.Errorf("notes %v", got)
		}
	})
}

// The usual cloth is named by its class and by the width that is taken.
func TestEstimateNamesTheUsualCloth(t *testing.T) {
	for look, want := range map[service.Patterned]string{
		service.Plain:        "no cloth is chosen: one 1.37 m wide without a pattern is taken",
		service.SmallPattern: "no cloth is chosen: one 1.37 m wide with the usual repeat of small patterns is taken",
		service.Medium:       "no cloth is chosen: one 1.37 m wide with the usual repeat of medium patterns is taken",
		service.LargePattern: "no cloth is chosen: one 1.37 m wide with the usual repeat of large patterns is taken",
	} {
		req := estimateOf("drop-in-seat")
		req.Patterned = look
		if texts := note.Texts(estimate(t, req).Warnings, length.Metric); !slices.Contains(texts, want) {
			t.Errorf("%q is not among %q", want, texts)
		}
	}
}

// BenchmarkEstimate is a wing chair of which nothing is measured.
func BenchmarkEstimate(b *testing.B) {
	req := estimateOf("wing-chair")
	for b.Loop() {
		estimate(b, req)
	}
}
