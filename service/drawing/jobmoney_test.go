package drawing

import (
	"bytes"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/buying"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// pricedJob is an invented wing chair with its prices.
func pricedJob(t testing.TB, name string) ([]buying.Line, *buying.Cost, *buying.DayPlan) {
	t.Helper()
	gbp, err := money.ParseCurrency("GBP")
	if err != nil {
		t.Fatal(err)
	}
	cover := wingChair()
	cover.Result.AnyStart = []length.Length{cover.AnyStart}
	req := buying.Request{
		Currency: gbp,
		Parts: []buying.Part{{
			Name:       name,
			Cloths:     []buying.Cloth{{Article: "top", For: "top cover", Answer: cover}},
			Piping:     []buying.Piping{{Cloth: "top", Answer: pipingAnswer(t, asked(piping.FullBias))}},
			Foundation: []*service.FoundationAnswer{framed(t, everyFrame(name))},
			Wadding:    []*service.WaddingAnswer{wrapped(t, everyItem(name))},
			Foam:       []*service.FoamAnswer{bench(t, "SEAT35")},
		}},
		Prices: []buying.Price{
			{Article: "cloth/top", Amount: dec("48.50"), Per: buying.PerMetre},
			{Article: "webbing", Amount: dec("0.95"), Per: buying.PerMetre},
			{Article: "tacks", Amount: dec("6.80"), Per: buying.PerPack},
			{Article: "springs", Amount: dec("1.75"), Per: buying.PerEach},
			{Article: "hessian", Amount: dec("5.20"), Per: buying.PerMetre},
			{Article: "calico", Amount: dec("4.10"), Per: buying.PerMetre},
			{Article: "wadding", Amount: dec("3.30"), Per: buying.PerMetre},
			{Article: "castors", Amount: dec("12"), Per: buying.PerEach},
		},
	}
	list, err := buying.OrderList(req)
	if err != nil {
		t.Fatal(err)
	}
	terms := buying.Terms{
		Currency: gbp, MarkUp: dec("35"), Labour: &buying.Labour{Rate: dec("34"), Preset: new("rebuild")},
		Overhead: costing.Overhead{OnLabour: dec("20")}, Contingency: dec("5"), Taxes: []costing.Tax{{Name: "standard rate", Rate: dec("20")}},
		MaterialsTax: "standard rate", LabourTax: "standard rate", OverheadTax: "standard rate", Deposit: dec("40"), Step: dec("5"),
		Validity: costing.Validity{AsOf: 2026_11_30, Days: 30},
	}
	work := costing.Work{Pieces: 1, Panels: 22, Cushions: 1, Frames: 4, Buttons: 18, Piping: dec("7.5")}
	return list, buying.CostOf(list, req.Prices, work, terms), buying.PlanDays(terms.Operations(work), buying.DayTerms{Start: 2026_12_07})
}

func jobMoneyText(list []buying.Line, c *buying.Cost, d *buying.DayPlan) string {
	p := &page{sys: length.Metric}
	p.orderList(list)
	p.jobCost(c)
	p.jobDays(d)
	return p.b.String()
}

// jobMoneySheet is the same on a sheet.
func jobMoneySheet(list []buying.Line, c *buying.Cost, d *buying.DayPlan) *Picture {
	s := benchPaper(length.Metric, usualWidth)
	s.title("Order list, cost and days", "")
	s.orderList(list)
	s.jobCost(c)
	s.jobDays(d)
	return s.picture("Order list, cost and days", "A test.", planStyles(s.k))
}

func TestJobMoneyGolden(t *testing.T) {
	list, c, d := pricedJob(t, "wing chair")
	golden(t, "job-money.txt", []byte(jobMoneyText(list, c, d)))
	golden(t, "job-money.svg", jobMoneySheet(list, c, d).SVG())
	golden(t, "cost-chart.svg", CostChart(c).SVG())
	for _, l := range strings.Split(jobMoneyText(list, c, d), "\n") {
		if cells(l) > pageCells {
			t.Errorf("%d columns: %s", cells(l), l)
		}
	}
}

// The parts of the bar come to the total but for what rounding added.
func TestCostChartAddsUp(t *testing.T) {
	_, c, _ := pricedJob(t, "chair")
	sum := decimal.Decimal{}
	for _, p := range costParts(c) {
		sum = sum.Add(p.sum)
	}
	if q := c.Quote; len(costParts(c)) != 4 || !sum.Add(q.Rounded).Equal(q.Total) {
		t.Errorf("%d parts come to %s of %s", len(costParts(c)), sum, q.Total)
	}
	nothing := buying.CostOf(nil, nil, costing.Work{}, buying.Terms{Currency: c.Terms.Currency})
	if !bytes.Contains(CostChart(nothing).SVG(), []byte("Nothing has a price.")) {
		t.Error("a bar of nothing")
	}
}

// Names cannot break out of a page or a picture.
func TestJobMoneyIsNotBrokenByNames(t *testing.T) {
	list, c, d := pricedJob(t, "<script>alert(1)</script>\x1b[31m\u202e")
	for _, out := range []string{jobMoneyText(list, c, d), string(jobMoneySheet(list, c, d).SVG())} {
		for _, bad := range []string{"<script", "\x1b", "\u202e"} {
			if bad == "<script" && !strings.HasPrefix(out, "<svg") {
				continue
			}
			if strings.Contains(out, bad) {
				t.Errorf("%q is let through", bad)
			}
		}
	}
}
