package buying_test

import (
	"context"
	"math/big"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/buying"
)

// planned is the answer of a plan that needs these lengths.
func planned(name string, sold cloth.Sold, lengths ...length.Length) *service.YardageAnswer {
	return &service.YardageAnswer{
		Request: service.YardageRequest{Cloth: cloth.Cloth{Name: name, Width: 137 * cm}, Sold: sold}, Result: plan.Result{AnyStart: lengths},
	}
}

func orderList(t interface{ Fatal(...any) }, req buying.Request) []buying.Line {
	list, err := buying.OrderList(req)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func lineOf(t *testing.T, list []buying.Line, article string) buying.Line {
	t.Helper()
	i := slices.IndexFunc(list, func(l buying.Line) bool { return l.Article == article })
	if i < 0 {
		var have []string
		for _, l := range list {
			have = append(have, l.Article)
		}
		t.Fatalf("%s is not on the list of %s", article, strings.Join(have, ", "))
	}
	return list[i]
}

func gbpOf(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func currencyOf(code string) money.Currency {
	c, err := money.ParseCurrency(code)
	if err != nil {
		panic(err)
	}
	return c
}

// everyPart has an answer of every kind in it.
func everyPart(t testing.TB, name string) buying.Part {
	foamAnswer := foamOf(t)
	return buying.Part{
		Name:       name,
		Cloths:     []buying.Cloth{{For: "top cover", Answer: planned("Heron and sedge", cloth.Sold{Step: 10 * cm, Flaw: 2 * cloth.Percent}, 642*cm)}},
		Piping:     []buying.Piping{{Cloth: "Heron and sedge", Answer: pipingAnswer(t, pipingRequest())}},
		Buttoning:  []buying.Buttoning{{Answer: button(t, chairBack())}},
		Foam:       []*service.FoamAnswer{foamAnswer},
		Wadding:    []*service.WaddingAnswer{waddingOf(t, setteeWadding())},
		Foundation: []*service.FoundationAnswer{foundationOf(t, wingChairFrames())},
	}
}

// An article has one line, whatever needs it, and is rounded once.
func TestOrderListAddsUpBeforeItRounds(t *testing.T) {
	one := everyPart(t, "wing chair")
	two := everyPart(t, "second wing chair")
	alone := orderList(t, buying.Request{Parts: []buying.Part{one}})
	both := orderList(t, buying.Request{Parts: []buying.Part{one, two}})
	if len(alone) != len(both) {
		t.Errorf("%d lines for one, %d for two alike", len(alone), len(both))
	}
	seen := make(map[string]bool)
	for i, l := range both {
		if seen[l.Article] {
			t.Errorf("%s has two lines", l.Article)
		}
		seen[l.Article] = true
		if a := alone[i]; a.Article != l.Article || l.Order > 2*a.Order || l.Need < a.Need {
			t.Errorf("%s: %d of %d for one, %s: %d of %d for two", a.Article, a.Order, a.Need, l.Article, l.Order, l.Need)
		}
	}
	// 1000 tacks of 13 mm and more, of each part's own boxes: by hand from the answer.
	tacks := lineOf(t, both, "tacks/13mm")
	count := int64(0)
	for _, x := range one.Foundation[0].Work.Totals.Fixed {
		if x.Kind == foundation.Tack && x.Size == 13*length.Millimetre {
			count = x.Count
		}
	}
	need := 2*count + (2*count+9)/10 // a tenth is spoilt
	if tacks.Need != need || tacks.Packs != (need+999)/1000 || tacks.Order != tacks.Packs*1000 {
		t.Errorf("tacks: need %d, %d packs, order %d; by hand %d", tacks.Need, tacks.Packs, tacks.Order, need)
	}
	// 2 × 6.42 m of cloth, 2 × the strips for piping, and 2 % for flaws.
	heron := lineOf(t, both, "cloth/Heron and sedge")
	raw := 2 * (642*cm + one.Piping[0].Answer.Plan().Cloth)
	grown := (int64(raw)*102 + 99) / 100
	if heron.Need != grown || heron.Order != (grown+int64(10*cm)-1)/int64(10*cm)*int64(10*cm) {
		t.Errorf("cloth: need %d, by hand %d; order %d", heron.Need, grown, heron.Order)
	}
	if n := len(heron.Reasons); n != 5 || heron.Reasons[n-1].For != "flaws" {
		t.Errorf("reasons: %+v", heron.Reasons)
	}
}

// Lengths that a bolt does not hold together are bought apart, each rounded.
func TestOrderListKeepsToTheBolt(t *testing.T) {
	sold := cloth.Sold{Step: 10 * cm, Bolt: 10 * length.Metre}
	list := orderList(t, buying.Request{Parts: []buying.Part{
		{Name: "settee", Cloths: []buying.Cloth{{Article: "top", For: "top cover", Answer: planned("Velvet", sold, 701*cm, 305*cm)}}},
		{Name: "chair", Cloths: []buying.Cloth{{Article: "top", For: "top cover", Answer: planned("Velvet", sold, 212*cm)}}},
	}})
	l := lineOf(t, list, "cloth/top")
	// 7.01 + 2.12 on one bolt, 3.05 on another.
	if want := []length.Length{920 * cm, 310 * cm}; !slices.Equal(l.Lengths, want) || l.Order != int64(1230*cm) || l.Need != int64(1218*cm) {
		t.Errorf("%+v", l)
	}
}

// A plan for cloth that begins at a known place needs the way there when another
// plan is cut first.
func TestOrderListBeginsEachPlanAtItsPlace(t *testing.T) {
	known := func() *service.YardageAnswer {
		a := planned("Trellis", cloth.Sold{Step: 10 * cm}, 200*cm)
		a.Request.Cloth.StartsAt, a.Request.Cloth.Pattern.LengthRepeat = new(length.Length(0)), 32*cm
		return a
	}
	part := func(as ...*service.YardageAnswer) buying.Part {
		var p buying.Part
		for _, a := range as {
			p.Cloths = append(p.Cloths, buying.Cloth{For: "top cover", Answer: a})
		}
		return p
	}
	if l := orderList(t, buying.Request{Parts: []buying.Part{part(known())}})[0]; l.Need != int64(200*cm) {
		t.Errorf("one plan: %+v", l)
	}
	if l := orderList(t, buying.Request{Parts: []buying.Part{part(known(), known())}})[0]; l.Need != int64(464*cm) || len(l.Reasons) != 2 {
		t.Errorf("two plans: %+v", l)
	}
}

// What pieces in hand do not do is bought, and no more.
func TestOrderListTakesPiecesInHand(t *testing.T) {
	req := drops(cloth.Sold{Step: 10 * cm})
	req.Pieces = []length.Length{20 * length.Metre}
	a := answer(t, req)
	if a.Pieces.Enough == service.EnoughNo {
		t.Fatal("20 m are not enough")
	}
	cloths := func(a *service.YardageAnswer) buying.Request {
		return buying.Request{Parts: []buying.Part{{Cloths: []buying.Cloth{{Answer: a}}}}}
	}
	if list := orderList(t, cloths(a)); len(list) != 0 {
		t.Errorf("bought in vain: %+v", list)
	}
	req.Pieces = []length.Length{50 * cm}
	if a = answer(t, req); a.Pieces.Short == 0 {
		t.Fatal("50 cm are enough")
	}
	if l := orderList(t, cloths(a))[0]; l.Need != int64(a.Pieces.Short) || l.Order != int64(a.Pieces.Order) {
		t.Errorf("need %d, order %d, short %d, order %d", l.Need, l.Order, a.Pieces.Short, a.Pieces.Order)
	}
}

// How an article is sold follows its price, and the longest name that fits counts.
func TestOrderListGoesByPrices(t *testing.T) {
	part := buying.Part{Name: "chair", Foundation: []*service.FoundationAnswer{foundationOf(t, wingChairFrames())}}
	count := func(n int64) *buying.Quantity { return &buying.Quantity{Amount: n} }
	list := orderList(t, buying.Request{Parts: []buying.Part{part}, Prices: []buying.Price{
		{Article: "tacks", Amount: gbpOf("4.20"), Per: buying.PerPack},
		{Article: "tacks/13mm", Amount: gbpOf("2.60"), Per: buying.PerPack, Pack: count(500)},
		{Article: "webbing", Amount: gbpOf("1.10"), Per: buying.PerMetre},
		{Article: "springs", Amount: gbpOf("1.90"), Per: buying.PerEach, Minimum: count(25)},
		{Article: "cord", Amount: gbpOf("9"), Per: buying.PerKilogram},
		{Article: "hessian", Amount: gbpOf("40"), Per: buying.PerPack},
	}})
	for _, l := range list {
		switch {
		case l.Article == "tacks/13mm":
			if l.Price.Article != "tacks/13mm" || l.Sold.Pack != 500 || l.Packs != (l.Need+499)/500 {
				t.Errorf("%+v", l)
			}
		case strings.HasPrefix(l.Article, "tacks/"):
			if l.Price.Article != "tacks" || l.Sold.Pack != 1000 || l.Packs != (l.Need+999)/1000 {
				t.Errorf("%+v", l)
			}
		case strings.HasPrefix(l.Article, "webbing/"): // by the metre, and not by the roll
			if l.Packs != 0 || l.Order%int64(10*cm) != 0 || l.Order-l.Need >= int64(10*cm) {
				t.Errorf("%+v", l)
			}
		case strings.HasPrefix(l.Article, "springs/"):
			if l.Order != max(l.Need, 25) {
				t.Errorf("%+v", l)
			}
		case l.Article == "cord/lashing":
			if l.Price != nil || l.Because.Code != note.PriceMeasure && l.Because.Code != note.PackMeasure || l.Packs == 0 {
				t.Errorf("%+v", l)
			}
		case strings.HasPrefix(l.Article, "hessian/"):
			if l.Price != nil || l.Because.Code != note.PackUnknown {
				t.Errorf("%+v", l)
			}
		default:
			if l.Price != nil || l.Because.Said() {
				t.Errorf("%s has a price that nobody gave", l.Article)
			}
		}
	}
}

// A pack that is shorter than a length is of no use for it.
func TestOrderListRefusesShortPacks(t *testing.T) {
	req := buying.Request{
		Parts:  []buying.Part{{Cloths: []buying.Cloth{{Answer: planned("Velvet", cloth.Sold{Step: 10 * cm, Flaw: cloth.Percent}, 500*cm, 200*cm)}}}},
		Prices: []buying.Price{{Article: "cloth", Amount: gbpOf("100"), Per: buying.PerPack, Pack: &buying.Quantity{Measure: buying.Length, Amount: int64(500 * cm)}}},
	}
	if l := orderList(t, req)[0]; l.Price != nil || l.Because.Code != note.PackTooShort || l.Order != int64(710*cm) {
		t.Errorf("%+v", l)
	}
	req.Prices[0].Pack.Amount = int64(510 * cm)
	if l := orderList(t, req)[0]; l.Price == nil || l.Packs != 2 || l.Order != int64(1020*cm) {
		t.Errorf("%+v", l)
	}
}

// A price that comes with the cloth or the foam is used in its own currency only.
func TestOrderListTakesPricesThatComeWithThings(t *testing.T) {
	pounds := money.Price{Money: money.Money{Amount: gbpOf("48.50"), Currency: currencyOf("GBP")}, Per: length.Yard}
	req := buying.Request{Currency: currencyOf("GBP"), Parts: []buying.Part{{
		Cloths: []buying.Cloth{{Answer: planned("Velvet", cloth.Sold{}, 500*cm), Price: &pounds}},
		Foam:   []*service.FoamAnswer{foamOf(t)},
	}}}
	for _, l := range orderList(t, req) {
		if l.Price == nil {
			t.Errorf("%s: %s", l.Article, l.Because.Code)
		}
	}
	req.Currency = currencyOf("EUR")
	for _, l := range orderList(t, req) {
		if l.Price != nil || !l.Because.Same(note.New(note.OtherCurrency, note.Name("currency", "GBP"))) {
			t.Errorf("%s: %+v %s", l.Article, l.Price, l.Because.Code)
		}
	}
	req.Prices = []buying.Price{{Article: "cloth/Velvet", Amount: gbpOf("52"), Per: buying.PerMetre}}
	if l := orderList(t, req)[0]; l.Price == nil || l.Price.Per != buying.PerMetre {
		t.Errorf("%+v", l)
	}
}

// pool are answers to draw parts from.
type pool struct {
	piping     []*service.PipingAnswer
	buttoning  []*service.ButtoningAnswer
	foam       []*service.FoamAnswer
	wadding    []*service.WaddingAnswer
	foundation []*service.FoundationAnswer
}

func newPool(t testing.TB) pool {
	cord := pipingRequest()
	cord.Cord, cord.Double = 6*length.Millimetre, true
	staples := wingChairFrames()
	staples.Fixing, staples.Build = foundation.Staples, foundation.Modern
	staples.Given = []practice.Given{{Name: "staple-box", Kind: practice.Count, Value: 2000}}
	three := wingChairFrames()
	three.Frames[0].Count = 3
	back := chairBack()
	back.Buttons.Tufts = true
	return pool{
		piping:     []*service.PipingAnswer{pipingAnswer(t, pipingRequest()), pipingAnswer(t, cord)},
		buttoning:  []*service.ButtoningAnswer{button(t, chairBack()), button(t, back)},
		foam:       []*service.FoamAnswer{foamOf(t)},
		wadding:    []*service.WaddingAnswer{waddingOf(t, setteeWadding())},
		foundation: []*service.FoundationAnswer{foundationOf(t, wingChairFrames()), foundationOf(t, staples), foundationOf(t, three)},
	}
}

func some[T any](t *rapid.T, what string, of []T) []T {
	return rapid.SliceOfN(rapid.SampledFrom(of), 0, 3).Draw(t, what)
}

var soldWays = []cloth.Sold{
	{}, {Step: 10 * cm}, {Step: 25 * cm, Minimum: length.Metre}, {Step: length.Yard / 4, Bolt: 12 * length.Metre},
	{Step: 10 * cm, Flaw: 2 * cloth.Percent, Shrinkage: 3 * cloth.Percent, Bolt: 15 * length.Metre},
}

func (p pool) part(t *rapid.T) buying.Part {
	part := buying.Part{
		Name: rapid.SampledFrom([]string{"chair", "settee", "stool"}).Draw(t, "name"),
		Foam: some(t, "foam", p.foam), Wadding: some(t, "wadding", p.wadding), Foundation: some(t, "foundation", p.foundation),
	}
	for range rapid.IntRange(0, 3).Draw(t, "cloths") {
		way := rapid.IntRange(0, len(soldWays)-1).Draw(t, "sold")
		lengths := rapid.SliceOfN(rapid.Int64Range(1, 11_000_000), 1, 3).Draw(t, "lengths") // micrometres, up to 11 m
		var ls []length.Length
		for _, l := range lengths {
			ls = append(ls, length.Length(l)*length.Micrometre)
		}
		c := buying.Cloth{For: rapid.SampledFrom([]string{"top cover", "flies"}).Draw(t, "for"), Answer: planned([]string{"Heron", "Velvet"}[way%2], soldWays[way], ls...)}
		if known := &c.Answer.Request.Cloth; rapid.Bool().Draw(t, "start known") {
			known.StartsAt, known.Pattern.LengthRepeat = new(length.Length(0)), rapid.SampledFrom([]length.Length{32 * cm, 64 * cm}).Draw(t, "repeat")
		}
		part.Cloths = append(part.Cloths, c)
	}
	for _, a := range some(t, "piping", p.piping) {
		part.Piping = append(part.Piping, buying.Piping{Cloth: rapid.SampledFrom([]string{"Heron", "Velvet", ""}).Draw(t, "piped with"), Answer: a})
	}
	for _, a := range some(t, "buttoning", p.buttoning) {
		part.Buttoning = append(part.Buttoning, buying.Buttoning{
			Count: rapid.IntRange(0, 3).Draw(t, "backs"), Cloth: rapid.SampledFrom([]string{"Heron", ""}).Draw(t, "covered with"), Answer: a,
		})
	}
	return part
}

var articles = []string{
	"cloth", "cloth/Heron", "cloth/Velvet", "tacks", "tacks/13mm", "staples", "webbing", "webbing/jute", "springs", "cord", "cord/piping", "twine",
	"filling", "filling/hair", "wadding", "hessian", "calico", "buttons", "washers", "tufts", "gimp", "foam", "scrim", "bottoming", "mistaken",
}

func pricesOf(t *rapid.T) []buying.Price {
	var list []buying.Price
	for _, a := range rapid.SliceOfNDistinct(rapid.SampledFrom(articles), 0, len(articles), rapid.ID).Draw(t, "articles") {
		p := buying.Price{
			Article: a, Amount: decimal.New(rapid.Int64Range(0, 9_999_999).Draw(t, "price"), -4), Per: buying.Per(rapid.IntRange(0, 6).Draw(t, "per")),
		}
		most := []int64{5000, int64(30 * length.Metre), 5_000_000}
		quantity := func(what string) *buying.Quantity {
			if rapid.Bool().Draw(t, what) {
				return nil
			}
			m := rapid.IntRange(0, 2).Draw(t, "measure")
			return &buying.Quantity{Measure: buying.Measure(m), Amount: rapid.Int64Range(1, most[m]).Draw(t, "amount")}
		}
		p.Pack, p.Minimum = quantity("pack"), quantity("minimum")
		list = append(list, p)
	}
	return list
}

func shuffled[T any](t *rapid.T, list []T) []T {
	return rapid.Permutation(list).Draw(t, "shuffled")
}

// Whatever is put in: an order is never below its need and never more than one
// step or pack above it for each length; needs are the sums of their reasons;
// and the order of the parts, of what is in them and of prices changes nothing.
func TestOrderListProperties(t *testing.T) {
	p := newPool(t)
	rapid.Check(t, func(t *rapid.T) {
		req := buying.Request{Currency: currencyOf("GBP"), Prices: pricesOf(t)}
		for range rapid.IntRange(0, 4).Draw(t, "parts") {
			req.Parts = append(req.Parts, p.part(t))
		}
		list := orderList(t, req)
		for i := range list {
			enoughAndNoMore(t, &list[i])
		}
		again := buying.Request{Currency: req.Currency, Prices: shuffled(t, req.Prices)}
		for _, part := range shuffled(t, req.Parts) {
			part.Cloths, part.Piping, part.Buttoning = shuffled(t, part.Cloths), shuffled(t, part.Piping), shuffled(t, part.Buttoning)
			part.Foam, part.Wadding, part.Foundation = shuffled(t, part.Foam), shuffled(t, part.Wadding), shuffled(t, part.Foundation)
			again.Parts = append(again.Parts, part)
		}
		if other := orderList(t, again); !reflect.DeepEqual(list, other) {
			t.Fatalf("another order, another list:\n%+v\n%+v", list, other)
		}
		costsAddUp(t, list, req)
	})
}

func enoughAndNoMore(t *rapid.T, l *buying.Line) {
	sum := int64(0)
	for _, r := range l.Reasons {
		if r.Amount <= 0 || r.For == "" {
			t.Fatalf("%s: a reason for nothing: %+v", l.Article, l.Reasons)
		}
		sum += r.Amount
	}
	if sum != l.Need || l.Need <= 0 {
		t.Fatalf("%s: the reasons come to %d, the need is %d", l.Article, sum, l.Need)
	}
	bought := max(1, int64(len(l.Lengths)), boolInt(l.Packs > 0)*l.Packs)
	unit := max(l.Sold.Step, 1)
	switch {
	case l.Order < l.Need:
		t.Fatalf("%s: %d ordered, %d needed", l.Article, l.Order, l.Need)
	case l.Packs > 0:
		if unit = l.Sold.Pack; l.Order != l.Packs*unit {
			t.Fatalf("%s: %d packs of %d are not %d", l.Article, l.Packs, unit, l.Order)
		}
		if l.Measure != buying.Length {
			bought = 1
		}
	case l.Sold.Step > 0 && l.Order%l.Sold.Step != 0:
		t.Fatalf("%s: %d is no multiple of %d", l.Article, l.Order, l.Sold.Step)
	}
	if most := bought * (max(l.Sold.Minimum, 0) + unit); l.Sold.Minimum == 0 && l.Order-l.Need >= bought*unit || l.Order >= l.Need+most {
		t.Fatalf("%s: %d ordered for %d, sold as %+v, in %d lengths", l.Article, l.Order, l.Need, l.Sold, bought)
	}
	lengths := length.Length(0)
	for i, one := range l.Lengths {
		if lengths += one; i > 0 && one > l.Lengths[i-1] {
			t.Fatalf("%s: lengths %v", l.Article, l.Lengths)
		}
	}
	if len(l.Lengths) > 0 && int64(lengths) != l.Order {
		t.Fatalf("%s: lengths of %d, ordered %d", l.Article, lengths, l.Order)
	}
}

func boolInt(b bool) int64 {
	if b {
		return 1
	}
	return 0
}

// costsAddUp prices a list, and works every line out again in fractions.
func costsAddUp(t *rapid.T, list []buying.Line, req buying.Request) {
	terms := buying.Terms{Currency: currencyOf(rapid.SampledFrom([]string{"GBP", "JPY", "KWD"}).Draw(t, "currency")), MarkUp: gbpOf("35")}
	c := buying.CostOf(list, req.Prices, workOf(t), terms)
	if len(c.Missing)+len(c.Priced) != len(list) || len(c.Quote.Materials) != len(c.Priced) {
		t.Fatalf("%d lines, %d priced, %d missing", len(list), len(c.Priced), len(c.Missing))
	}
	per := map[buying.Per]*big.Rat{
		buying.PerEach: big.NewRat(1, 1), buying.PerHundred: big.NewRat(100, 1), buying.PerMetre: big.NewRat(1_000_000_000, 1),
		buying.PerYard: big.NewRat(914_400_000, 1), buying.PerKilogram: big.NewRat(1_000_000, 1), buying.PerPound: big.NewRat(45_359_237, 100),
	}
	for i, l := range c.Priced {
		of := per[l.Price.Per]
		if l.Price.Per == buying.PerPack {
			of = big.NewRat(l.Sold.Pack, 1)
		}
		cost := new(big.Rat).Mul(new(big.Rat).Quo(big.NewRat(l.Order, 1), of), l.Price.Amount.Rat())
		off := new(big.Rat).Sub(cost, c.Quote.Materials[i].Cost.Rat())
		half := new(big.Rat).Quo(decimal.New(1, -money.Scale(terms.Currency)).Rat(), big.NewRat(2, 1))
		if off.Abs(off).Cmp(half) > 0 {
			t.Fatalf("%s: %d at %s per %d costs %s, fractions say %s", l.Article, l.Order, l.Price.Amount, l.Price.Per, c.Quote.Materials[i].Cost, cost.FloatString(5))
		}
	}
	taken := make(map[string]bool)
	for _, l := range list {
		for _, p := range req.Prices {
			if p.Article == l.Article || strings.HasPrefix(l.Article, p.Article+"/") {
				taken[p.Article] = true
			}
		}
	}
	for _, a := range c.Unused {
		if slices.IndexFunc(c.Priced, func(l buying.Line) bool { return l.Price.Article == a }) >= 0 {
			t.Fatalf("%s is used and said not to be", a)
		}
	}
	if !taken["mistaken"] && slices.ContainsFunc(req.Prices, func(p buying.Price) bool { return p.Article == "mistaken" }) && !slices.Contains(c.Unused, "mistaken") {
		t.Fatal("a price of nothing is not named")
	}
}

// foamOf are two cushions of foam that has a price.
func foamOf(t testing.TB) *service.FoamAnswer {
	t.Helper()
	req := service.FoamRequest{Job: foam.Job{
		Foams:    []foam.Foam{{ID: "SEAT35", Density: 35_000}},
		Stock:    []foam.Stock{{ID: "S100", Across: 120 * cm, Along: 200 * cm, Thickness: 10 * cm, Price: gbpOf("96")}},
		Items:    []foam.Item{{ID: "CUSHION", Count: 2, Thickness: 10 * cm, Shape: foam.Shape{Across: 60 * cm, Along: 62 * cm}}},
		Currency: currencyOf("GBP"),
	}}
	if l := service.Faults(service.PrepareFoam(req)); l.Len() > 0 {
		t.Fatal(l.Faults())
	}
	a, err := service.Foam(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Of one answer the list buys what the answer itself says.
func TestOrderListBuysWhatTheAnswersSay(t *testing.T) {
	p := newPool(t)
	for _, a := range p.foundation {
		list := orderList(t, buying.Request{Parts: []buying.Part{{Foundation: []*service.FoundationAnswer{a}}}})
		total, packs := make(map[string]int64), make(map[string]int64)
		for _, l := range list {
			family, _, _ := strings.Cut(l.Article, "/")
			if l.Article == "twine/stitching" {
				family = l.Article
			}
			total[family] += l.Need
			packs[family] += l.Packs
		}
		w := a.Work.Totals
		for _, tc := range []struct {
			family      string
			need, packs int64
		}{
			{"webbing", int64(w.Webbing), w.Rolls}, {"springs", w.Springs, 0}, {"cord", int64(w.Lashing), w.LashingBalls},
			{"twine/stitching", int64(w.Twine), w.TwineBalls}, {"filling", w.Stuffing, w.StuffingBags}, {"gimp", int64(w.Gimp), 0},
		} {
			if total[tc.family] != tc.need || packs[tc.family] != tc.packs {
				t.Errorf("%s: need %d in %d packs, the answer says %d in %d", tc.family, total[tc.family], packs[tc.family], tc.need, tc.packs)
			}
		}
		for _, x := range w.Fixed {
			article := map[foundation.Kind]string{foundation.Tack: "tacks/" + mmOf(x.Size), foundation.Staple: "staples/" + mmOf(x.Size), foundation.GimpPin: "gimp-pins"}[x.Kind]
			if l := lineOf(t, list, article); l.Packs != x.Boxes || l.Need != x.Count+(x.Count+9)/10 {
				t.Errorf("%s: %d in %d boxes, the answer says %d in %d", article, l.Need, l.Packs, x.Count, x.Boxes)
			}
		}
		for _, c := range a.Cloths {
			if l := lineOf(t, list, c.Use.String()+"/"+mmOf(c.Plan.Request.Cloth.Width)); l.Order != int64(c.Plan.Order) {
				t.Errorf("%s: %d, the answer says %d", l.Article, l.Order, c.Plan.Order)
			}
		}
	}
	a := p.wadding[0]
	list := orderList(t, buying.Request{Parts: []buying.Part{{Wadding: p.wadding}}})
	for _, r := range a.Rolls {
		if l := lineOf(t, list, "wadding/"+r.Sheet.Material.String()+"/"+mmOf(r.Sheet.Width)); l.Order != int64(r.Plan.Order) {
			t.Errorf("%s: %d, the answer says %d", l.Article, l.Order, r.Plan.Order)
		}
	}
	if l := lineOf(t, list, "filling/hair"); l.Packs != a.Work.Loose[0].Bags {
		t.Errorf("hair: %+v", l)
	}
	b := p.buttoning[1]
	list = orderList(t, buying.Request{Parts: []buying.Part{{Buttoning: []buying.Buttoning{{Count: 2, Answer: b}}}}})
	if n := int64(2 * b.Buttons.Count); lineOf(t, list, "tufts").Need != n || lineOf(t, list, "twine/buttoning").Need != n*int64(b.Buttons.Twine) {
		t.Errorf("buttoning: %+v", list)
	}
	if l := lineOf(t, orderList(t, buying.Request{Parts: []buying.Part{{Foam: p.foam}}}), "foam/S100"); l.Order != int64(len(p.foam[0].Result.Groups[0].Nest.Sheets)) {
		t.Errorf("foam: %+v", l)
	}
}

func mmOf(l length.Length) string { return decimal.New(int64(l), -6).String() + "mm" }

// Names say sizes as the trade does, in either units.
func TestOrderListNames(t *testing.T) {
	p := newPool(t)
	for units, want := range map[length.System][]string{
		length.Metric:   {"Velvet, 137 cm wide", "tacks, 13 mm", "springs, 25.4 cm high, 8 gauge", "hessian, 183 cm wide", "piping cord, 4 mm", "foam SEAT35, 120 cm × 200 cm, 100 mm thick"},
		length.Imperial: {"Velvet, 53 15/16 in wide", "tacks, 1/2 in", "springs, 10 in high, 8 gauge", "hessian, 72 1/16 in wide", "piping cord, 3/16 in", "foam SEAT35, 47 1/4 in × 78 3/4 in, 3 15/16 in thick"},
	} {
		list := orderList(t, buying.Request{Units: units, Parts: []buying.Part{{
			Cloths: []buying.Cloth{{Answer: planned("Velvet", cloth.Sold{}, 500*cm)}}, Foundation: p.foundation[:1], Foam: p.foam,
			Piping: []buying.Piping{{Answer: p.piping[0]}},
		}}})
		for _, name := range want {
			if !slices.ContainsFunc(list, func(l buying.Line) bool { return l.Name == name }) {
				t.Errorf("nothing is called %s", name)
			}
		}
		// Cord is bought by the half metre, or by the half yard.
		step := map[length.System]length.Length{length.Metric: 50 * cm, length.Imperial: length.Yard / 2}[units]
		if i := slices.IndexFunc(list, func(l buying.Line) bool { return strings.HasPrefix(l.Article, "cord/piping/") }); i < 0 || list[i].Order%int64(step) != 0 {
			t.Errorf("cord is not bought by %s", step.Text(units, length.Nearest))
		}
	}
}

// BenchmarkOrderList is the list of ten chairs with an answer of every kind, and
// its cost.
func BenchmarkOrderList(b *testing.B) {
	var parts []buying.Part
	for i := range 10 {
		part := everyPart(b, "chair "+string(rune('A'+i)))
		parts = append(parts, part)
	}
	prices := []buying.Price{{Article: "cloth", Amount: gbpOf("48.50"), Per: buying.PerMetre}, {Article: "tacks", Amount: gbpOf("6"), Per: buying.PerPack}}
	terms := buying.Terms{Currency: currencyOf("GBP")}
	for b.Loop() {
		list, err := buying.OrderList(buying.Request{Parts: parts, Prices: prices})
		if err != nil {
			b.Fatal(err)
		}
		buying.CostOf(list, prices, costing.Work{Pieces: 10, Panels: 200}, terms)
	}
}
