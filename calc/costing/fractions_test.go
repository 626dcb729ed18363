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

// ledger works a job out once more, in fractions of math/big, step by step as
// the package says that it does; exact rounds nothing but the packs.
type ledger struct {
	net, tax, total, deposit *big.Rat
}

func add(list ...*big.Rat) *big.Rat {
	sum := new(big.Rat)
	for _, r := range list {
		sum.Add(sum, r)
	}
	return sum
}

func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

func bought(m costing.Material) *big.Rat {
	buy := m.Need.Rat()
	if least := m.Minimum.Rat(); least.Cmp(buy) > 0 {
		buy = least
	}
	if pack := m.Pack.Rat(); pack.Sign() > 0 {
		n := roundRat(new(big.Rat).Quo(buy, pack), costing.Shop)
		buy = mul(new(big.Rat).SetInt(n), pack)
	}
	return buy
}

func account(j costing.Job, round func(*big.Rat) *big.Rat, step func(*big.Rat) *big.Rat) ledger {
	rates := make(map[string]*big.Rat)
	on := make(map[string]*big.Rat)
	for _, t := range j.Taxes {
		rates[t.Name], on[t.Name] = share(t.Rate), new(big.Rat)
	}
	net, tax := new(big.Rat), new(big.Rat)
	line := func(amount *big.Rat, name string) *big.Rat {
		n := round(amount)
		net = add(net, n)
		if name != "" {
			on[name] = add(on[name], n)
			if j.TaxBy == costing.ByLine {
				tax = add(tax, round(mul(rates[name], n)))
			}
		}
		return n
	}
	var materials, labour, hours = new(big.Rat), new(big.Rat), new(big.Rat)
	for _, m := range j.Materials {
		list := mul(bought(m), m.Price.Rat())
		if per := m.Per.Rat(); per.Sign() > 0 {
			list.Quo(list, per)
		}
		cost := round(mul(list, share(decimal.NewFromInt(100).Sub(m.Discount))))
		materials = add(materials, line(mul(cost, share(decimal.NewFromInt(100).Add(m.MarkUp))), m.Tax))
	}
	for _, w := range j.Labour {
		labour = add(labour, line(mul(w.Hours.Rat(), w.Rate.Rat()), w.Tax))
		hours = add(hours, w.Hours.Rat())
	}
	o := j.Overhead
	over := line(add(mul(share(o.OnMaterials), materials), mul(share(o.OnLabour), labour), mul(o.PerHour.Rat(), hours)), j.OverheadTax)
	line(mul(share(j.Contingency), add(materials, labour, over)), j.OverheadTax)
	if j.TaxBy == costing.ByRate {
		for name, r := range rates {
			tax = add(tax, round(mul(r, on[name])))
		}
	}
	total := step(add(net, tax))
	return ledger{net, tax, total, round(mul(share(j.Deposit), total))}
}

// stepRat rounds to a multiple of the step.
func stepRat(j costing.Job) func(*big.Rat) *big.Rat {
	return func(r *big.Rat) *big.Rat {
		if !j.Step.IsPositive() {
			return r
		}
		n := roundRat(new(big.Rat).Quo(r, j.Step.Rat()), j.Rounding)
		return mul(new(big.Rat).SetInt(n), j.Step.Rat())
	}
}

func same(r *big.Rat) *big.Rat { return r }

// The whole quote, to the penny, in a second arithmetic, in currencies whose
// smallest unit has no, two and three decimals.
func TestQuoteAgreesWithFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		q := j.Cost()
		want := account(j, func(r *big.Rat) *big.Rat { return minor(j, r) }, stepRat(j))
		if q.Net.Rat().Cmp(want.net) != 0 || q.Tax.Rat().Cmp(want.tax) != 0 || q.Total.Rat().Cmp(want.total) != 0 || q.Deposit.Rat().Cmp(want.deposit) != 0 {
			t.Fatalf("%+v\nis net %s tax %s total %s deposit %s, fractions say %s %s %s %s", j, q.Net, q.Tax, q.Total, q.Deposit,
				want.net.FloatString(4), want.tax.FloatString(4), want.total.FloatString(4), want.deposit.FloatString(4))
		}
	})
}

// Rounding profits whom it says: with the customer's the total is never above
// what it is unrounded, with the shop's never below; and the half ways differ
// from it by no more than half a unit a rounding.
func TestRoundingProfitsWhomItSays(t *testing.T) {
	moved := 0
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t)
		j.Rounding = costing.Customer
		low := j.Cost()
		j.Rounding = costing.Shop
		high := j.Cost()
		j.Step = decimal.Decimal{}
		exact := account(j, same, same)
		if low.Total.Rat().Cmp(exact.total) > 0 || high.Total.Rat().Cmp(exact.total) < 0 {
			t.Fatalf("the customer's total is %s, the shop's %s, unrounded %s", low.Total, high.Total, exact.total.FloatString(6))
		}
		if low.Deposit.GreaterThan(low.Total) || high.Deposit.GreaterThan(high.Total) || low.Deposit.IsNegative() {
			t.Fatalf("deposits %s of %s, %s of %s", low.Deposit, low.Total, high.Deposit, high.Total)
		}
		if low.Total.LessThan(high.Total) {
			moved++
		}
		j.Rounding = costing.HalfUp
		unit := decimal.New(1, -money.Scale(j.Currency)).Rat()
		roundings := int64(4*len(j.Materials) + 3*len(j.Labour) + 2*len(j.Taxes) + 4)
		off := new(big.Rat).Sub(j.Cost().Total.Rat(), exact.total)
		// An error of a line goes into overhead, contingency and tax, mark-ups and rates included: at most 30 times.
		if most := mul(unit, big.NewRat(roundings*15, 1)); off.Abs(off).Cmp(most) > 0 {
			t.Fatalf("the nearest total is %s off", off.FloatString(6))
		}
	})
	if moved == 0 {
		t.Error("rounding never mattered")
	}
}

// A shop's own line stands in the place of the example's.
func ExampleTimetable() {
	table := costing.Timetable{Preset: "re-cover", Lines: []costing.Operation{{Name: costing.Covering, PerPanel: d("0.25")}}}
	for _, l := range table.Labour(costing.Work{Pieces: 1, Panels: 10}, d("34"), "") {
		fmt.Println(l.Name, l.Hours)
	}
	// Output:
	// strip 1.05
	// cutting 1
	// machining 0.4
	// covering 2.5
	// trimming 0.55
	// collection 0.5
}

func TestTimetable(t *testing.T) {
	own := d("45")
	table := costing.Timetable{Preset: "re-cover", Lines: []costing.Operation{
		{Name: "covering", PerPanel: d("0.5"), Rate: &own},
		{Name: "trimming"},
		{Name: "polishing", Fixed: d("2.25")},
		{Name: "frame repair", Fixed: d("1")},
	}}
	w := costing.Work{Pieces: 1, Panels: 10}
	got := ""
	for _, l := range table.Labour(w, d("32"), "standard") {
		got += l.Name + " " + l.Hours.String() + " at " + l.Rate.String() + "; "
	}
	// 0.25 + 10 × 0.08; 1; 0.3 + 10 × 0.07; 10 × 0.04; 10 × 0.5; 2.25; 0.5
	const want = "strip 1.05 at 32; frame repair 1 at 32; cutting 1 at 32; machining 0.4 at 32; covering 5 at 45; polishing 2.25 at 32; collection 0.5 at 32; "
	if got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if own := (costing.Timetable{Lines: []costing.Operation{{Name: "cutting", Fixed: d("3")}}}).Labour(w, d("1"), ""); len(own) != 1 || own[0].Name != "cutting" {
		t.Errorf("hours of one's own: %+v", own)
	}
}

func TestFaultsOfTimetableAndValidity(t *testing.T) {
	neg := d("-1")
	for _, tc := range []struct {
		table costing.Timetable
		want  string
	}{
		{costing.Timetable{Preset: "quick"}, "#/preset not-one-of"},
		{costing.Timetable{Lines: []costing.Operation{{Name: "a"}, {Name: "a"}}}, "#/lines/1/name duplicate"},
		{costing.Timetable{Lines: []costing.Operation{{Name: "a", PerButton: d("201")}}}, "#/lines/0/perButton too-large"},
		{costing.Timetable{Lines: []costing.Operation{{Name: "a", Fixed: d("2001")}}}, "#/lines/0/fixed too-large"},
		{costing.Timetable{Lines: []costing.Operation{{Name: "a", Rate: &neg}}}, "#/lines/0/rate too-small"},
		{costing.Timetable{Lines: make([]costing.Operation, costing.MaxOperations+1)}, "#/lines too-many"},
	} {
		l := tc.table.Faults(fault.Path{})
		if got := l.Faults(); len(got) != 1 || got[0].Pointer()+" "+string(got[0].Code) != tc.want {
			t.Errorf("%+v, want %s", got, tc.want)
		}
	}
	for _, tc := range []struct {
		v    costing.Validity
		want string
	}{
		{costing.Validity{AsOf: 2026_11_25, Days: 30, Supply: 2027_03_01}, ""},
		{costing.Validity{Days: 30}, "#/validDays not-allowed"},
		{costing.Validity{Supply: 2026_11_25}, "#/supply not-allowed"},
		{costing.Validity{AsOf: 2026_11_25, Days: 731}, "#/validDays too-large"},
		{costing.Validity{AsOf: 2026_11_25, Days: -1}, "#/validDays too-small"},
		{costing.Validity{AsOf: 2199_12_31, Days: 1}, "#/validDays too-large"},
		{costing.Validity{AsOf: 2026_11_25, Supply: 2026_11_24}, "#/supply too-small"},
	} {
		l := tc.v.Faults(fault.Path{})
		got := ""
		for _, f := range l.Faults() {
			got += f.Pointer() + " " + string(f.Code)
		}
		if got != tc.want {
			t.Errorf("%+v: %q, want %q", tc.v, got, tc.want)
		}
	}
	v := costing.Validity{AsOf: 2026_11_25, Days: 30, Supply: 2026_12_25}
	if v.Until() != 2026_12_25 || v.Late() {
		t.Errorf("holds until %s", v.Until())
	}
	if v.Supply = 2026_12_26; !v.Late() {
		t.Error("a day late is not late")
	}
}
