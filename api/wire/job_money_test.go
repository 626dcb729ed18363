package wire

import (
	"encoding/json"
	"reflect"
	"strings"
	"sync"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie"
	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/buying"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// schemaOf is a schema of the contract.
func schemaOf(t testing.TB, name string) *openapi3.Schema {
	t.Helper()
	doc, err := contractOnce()
	if err != nil {
		t.Fatal(err)
	}
	return doc.Components.Schemas[name].Value
}

var contractOnce = sync.OnceValues(func() (*openapi3.T, error) { return contract.Open(bridletie.Files) })

// keepsSchema holds a value against a schema, as it goes over the wire.
func keepsSchema(t testing.TB, name string, v any) {
	t.Helper()
	body, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var plain any
	if err := json.Unmarshal(body, &plain); err != nil {
		t.Fatal(err)
	}
	if err := schemaOf(t, name).VisitJSON(plain, openapi3.MultiErrors()); err != nil {
		t.Errorf("%s: %v\n%s", name, err, body)
	}
}

// fromJSON reads a text that keeps a schema.
func fromJSON[T any](t testing.TB, name, text string) T {
	t.Helper()
	var v T
	d := json.NewDecoder(strings.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(&v); err != nil {
		t.Fatal(err)
	}
	keepsSchema(t, name, json.RawMessage(text))
	return v
}

const wholeTerms = `{"currency": "GBP", "labour": {"rate": "34.00", "preset": "rebuild", "lines": [{"name": "covering", "perPanel": "0.4", "rate": "38"}, {"name": "polishing", "fixed": "2"}]},
"discount": "10 %", "markUp": "35 %", "overhead": {"onMaterials": "2 %", "onLabour": "20 %", "perHour": "1.25"}, "contingency": "5 %",
"taxes": [{"name": "standard", "rate": "20 %"}, {"name": "reduced", "rate": "5 %"}], "materialsTax": "standard", "labourTax": "reduced", "overheadTax": "standard",
"taxBy": "rate", "rounding": "customer", "step": "5", "deposit": "40 %", "asOf": "2026-11-30", "validDays": 30, "supply": "2027-01-15"}`

func TestJobTermsAreRead(t *testing.T) {
	var tr translator
	w := fromJSON[gen.JobTerms](t, "JobTerms", wholeTerms)
	got := tr.jobTerms(&w, fault.At("terms"))
	gbp, _ := money.ParseCurrency("GBP")
	own := dec("38")
	want := buying.Terms{
		Currency: gbp, Discount: dec("10"), MarkUp: dec("35"), Contingency: dec("5"), Deposit: dec("40"), Step: dec("5"),
		Labour: &buying.Labour{Rate: dec("34.00"), Preset: new("rebuild"), Lines: []costing.Operation{
			{Name: "covering", PerPanel: dec("0.4"), Rate: &own}, {Name: "polishing", Fixed: dec("2")},
		}},
		Overhead: costing.Overhead{OnMaterials: dec("2"), OnLabour: dec("20"), PerHour: dec("1.25")},
		Taxes:    []costing.Tax{{Name: "standard", Rate: dec("20")}, {Name: "reduced", Rate: dec("5")}}, MaterialsTax: "standard", LabourTax: "reduced", OverheadTax: "standard",
		TaxBy: costing.ByRate, Rounding: costing.Customer,
		Validity: costing.Validity{AsOf: 2026_11_30, Days: 30, Supply: 2027_01_15},
	}
	if a, b := asText(t, got), asText(t, want); a != b {
		t.Errorf("%s\nwant %s", a, b)
	}
	if l := buying.MoneyFaults(nil, got, fault.Path{}); tr.shape.Len() > 0 || l.Len() > 0 {
		t.Errorf("faults %+v %+v", tr.shape.Faults(), l.Faults())
	}
	short := fromJSON[gen.JobTerms](t, "JobTerms", `{"currency": "JPY"}`)
	if got := tr.jobTerms(&short, fault.Path{}); got.Labour != nil || got.TaxBy != costing.ByLine || got.Rounding != costing.HalfUp {
		t.Errorf("%+v", got)
	}
}

// asText is a value with its decimals in digits, whatever they are made of.
func asText(t testing.TB, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestJobPricesAreRead(t *testing.T) {
	var tr translator
	w := fromJSON[gen.JobPrices](t, "JobPrices", `[
		{"article": "cloth/top", "amount": "48.50", "per": "m", "discount": "12.5 %", "markUp": "0 %", "tax": "standard", "minimum": {"length": "1 m"}},
		{"article": "tacks", "amount": "6.80", "per": "pack", "pack": {"count": 500}},
		{"article": "filling", "amount": "14", "per": "kg", "pack": {"kilograms": "2.5"}}]`)
	list := tr.jobPrices(w, fault.At("prices"))
	if len(list) != 3 || tr.shape.Len() > 0 {
		t.Fatalf("%+v, %+v", list, tr.shape.Faults())
	}
	first := list[0]
	if first.Article != "cloth/top" || first.Amount.String() != "48.5" || first.Per != buying.PerMetre || first.Discount.String() != "12.5" ||
		!first.MarkUp.IsZero() || *first.Tax != "standard" || first.Pack != nil {
		t.Errorf("%+v", first)
	}
	for i, want := range []*buying.Quantity{{Measure: buying.Length, Amount: int64(length.Metre)}, {Amount: 500}, {Measure: buying.Mass, Amount: 2_500_000}} {
		got := list[i].Pack
		if i == 0 {
			got = list[i].Minimum
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("price %d: %+v, want %+v", i, got, want)
		}
	}
}

// What the contract lets through and means nothing is a fault at its place.
func TestFaultsOfJobMoneyOnTheWire(t *testing.T) {
	root := fault.Path{}
	zero, long := "0", "0 m"
	for _, tc := range []struct {
		read func(tr *translator)
		want string
	}{
		{func(tr *translator) { tr.jobTerms(&gen.JobTerms{Currency: "QQQ"}, root.Field("terms")) }, "#/terms/currency not-one-of"},
		{func(tr *translator) { tr.jobTerms(&gen.JobTerms{Currency: "GBP", Step: &zero}, root.Field("terms")) }, "#/terms/step too-small"},
		{func(tr *translator) { tr.jobDayTerms(&gen.JobDayTerms{PerDay: &zero}, root.Field("days")) }, "#/days/perDay too-small"},
		{func(tr *translator) {
			tr.jobPrices(gen.JobPrices{{Pack: &gen.JobQuantity{Length: &long}}}, root.Field("prices"))
		}, "#/prices/0/pack/length too-small"},
		{func(tr *translator) {
			tr.jobPrices(gen.JobPrices{{Minimum: &gen.JobQuantity{Kilograms: &zero}}}, root.Field("prices"))
		}, "#/prices/0/minimum/kilograms too-small"},
	} {
		var tr translator
		tc.read(&tr)
		if got := tr.shape.Faults(); len(got) != 1 || got[0].Pointer()+" "+string(got[0].Code) != tc.want {
			t.Errorf("%+v, want %s", got, tc.want)
		}
	}
	// What the contract refuses is read all the same, and must end soon.
	for _, s := range []string{"1e999999999", "-1", "9999999999999999999999", ".", "1.", "", "٣"} {
		if mg := kilogramsFrom(s); mg != 0 {
			t.Errorf("%q is %d mg", s, mg)
		}
		if d := decimalFrom(s); !d.IsZero() {
			t.Errorf("%q is %s", s, d)
		}
	}
}

// All that is written keeps the contract, in both units and by every terms.
func TestJobMoneyIsWritten(t *testing.T) {
	var tr translator
	yardage := func(name string, sold cloth.Sold, lengths ...length.Length) *service.YardageAnswer {
		return &service.YardageAnswer{
			Request: service.YardageRequest{Cloth: cloth.Cloth{Name: name, Width: 137 * length.Centimetre}, Sold: sold}, Result: plan.Result{AnyStart: lengths},
		}
	}
	sold := cloth.Sold{Step: 10 * length.Centimetre, Bolt: 10 * length.Metre, Flaw: 2 * cloth.Percent, Minimum: length.Metre}
	prices := tr.jobPrices(fromJSON[gen.JobPrices](t, "JobPrices", `[{"article": "cloth/top", "amount": "48.50", "per": "yd"}, {"article": "cloth/Lining", "amount": "3", "per": "kg"},
		{"article": "castors", "amount": "3", "per": "each"}]`), fault.Path{})
	for _, units := range []length.System{length.Metric, length.Imperial} {
		list, err := buying.OrderList(buying.Request{Units: units, Prices: prices, Parts: []buying.Part{{Name: "settee", Cloths: []buying.Cloth{
			{Article: "top", For: "top cover", Answer: yardage("Velvet", sold, 7*length.Metre, 6*length.Metre)}, {For: "flies", Answer: yardage("Lining", cloth.Sold{}, length.Metre)},
		}}}})
		if err != nil {
			t.Fatal(err)
		}
		wire := wireOrderLines(list, units)
		for _, l := range wire {
			keepsSchema(t, "OrderLine", l)
		}
		if l := wire[1]; l.Article != "cloth/top" || l.Needed.Amount != "13.26" || l.Order.Amount != "13.4" || l.Order.Unit != gen.OrderAmountUnitM || len(*l.Lengths) != 2 || l.Price.Per != gen.JobPerYd {
			t.Errorf("%+v", l)
		}
		if l := wire[0]; l.Unpriced == nil || l.Price != nil {
			t.Errorf("%+v", l)
		}
		for _, by := range []string{"line", "rate"} {
			w := fromJSON[gen.JobTerms](t, "JobTerms", strings.Replace(wholeTerms, `"taxBy": "rate"`, `"taxBy": "`+by+`"`, 1))
			terms := tr.jobTerms(&w, fault.Path{})
			work := costing.Work{Pieces: 1, Panels: 20, Frames: 3}
			c := wireJobCost(buying.CostOf(list, prices, work, terms), units)
			keepsSchema(t, "JobCost", c)
			if (c.Materials[0].Tax != nil) != (by == "line") || *c.ValidUntil != "2026-12-30" || !*c.Late || c.Complete || len(c.Missing) != 1 || len(c.Unused) != 1 {
				t.Errorf("%+v", c)
			}
			sumsAsWritten(t, c)
			start := "2026-12-07"
			d := buying.PlanDays(terms.Operations(work), tr.jobDayTerms(&gen.JobDayTerms{Start: &start}, fault.Path{}))
			keepsSchema(t, "JobDays", wireJobDays(d))
		}
	}
	bare := wireJobCost(buying.CostOf(nil, nil, costing.Work{}, tr.jobTerms(&gen.JobTerms{Currency: "KWD"}, fault.Path{})), length.Metric)
	if keepsSchema(t, "JobCost", bare); bare.Total.Amount != "0.000" || bare.ValidUntil != nil || bare.Late != nil {
		t.Errorf("%+v", bare)
	}
	keepsSchema(t, "JobDays", wireJobDays(buying.PlanDays(nil, tr.jobDayTerms(nil, fault.Path{}))))
}

// sumsAsWritten adds up what a customer reads.
func sumsAsWritten(t *testing.T, c *gen.JobCost) {
	t.Helper()
	net, tax := dec(c.Overhead.Net.Amount).Add(dec(c.Contingency.Net.Amount)), decimal.Decimal{}
	for _, l := range append(append([]gen.JobCostLine{}, c.Materials...), c.Labour...) {
		net = net.Add(dec(l.Net.Amount))
	}
	for _, x := range c.Taxes {
		tax = tax.Add(dec(x.Tax.Amount))
	}
	total := net.Add(tax).Add(dec(c.Rounded.Amount))
	if !net.Equal(dec(c.Net.Amount)) || !tax.Equal(dec(c.Tax.Amount)) || !total.Equal(dec(c.Total.Amount)) || !total.Equal(dec(c.Deposit.Amount).Add(dec(c.Balance.Amount))) {
		t.Errorf("net %s, tax %s, total %s; written %s, %s, %s", net, tax, total, c.Net.Amount, c.Tax.Amount, c.Total.Amount)
	}
}
