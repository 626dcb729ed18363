package glance_test

import (
	"context"
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/glance"
)

// chairOn is the cutting list of a club chair, to be compared on n cloths of many
// widths and repeats.
func chairOn(n int) glance.CompareRequest {
	list := furniture.Piece{Kind: "club-chair", Count: 1}.List()
	req := glance.CompareRequest{RankBy: glance.ByLength}
	for _, p := range list.Panels {
		if p.Cover == furniture.Top {
			req.Panels = append(req.Panels, p.Panel)
		}
	}
	for i := range length.Length(n) {
		k := cloth.Cloth{Width: (120 + i%30) * cm, OneWay: i%2 == 0}
		if i%5 > 0 {
			k.Pattern = cloth.Pattern{LengthRepeat: (8 + i%61) * cm, WidthRepeat: (10 + i%53) * cm, Drop: [...]cloth.Drop{{}, cloth.Half(), {Num: 1, Den: 3}}[i%3]}
		}
		req.Cloths = append(req.Cloths, glance.Cloth{Cloth: k, Sold: cloth.Sold{Step: 10 * cm}})
	}
	return req
}

func compare(t testing.TB, req glance.CompareRequest, workers int) *glance.CompareAnswer {
	t.Helper()
	if l := glance.CompareFaults(req); l.Len() > 0 {
		t.Fatal(l.Faults())
	}
	ans, err := glance.Compare(context.Background(), req, workers, nil)
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

// However many work at it, the answer is the same; the cloths come in order, and
// each takes what /v1/yardage says at the same effort.
func TestCompareIsYardageManyTimes(t *testing.T) {
	req := chairOn(40)
	ans := compare(t, req, 1)
	if again := compare(t, req, 7); !reflect.DeepEqual(ans, again) {
		t.Error("two answers to one request")
	}
	last := length.Length(0)
	for _, c := range ans.Cloths {
		if !c.Usable {
			t.Errorf("cloth %d: %s", c.Index, c.Reason.Text(length.Metric))
			continue
		}
		if c.Order < last {
			t.Errorf("cloth %d takes %v, after one that takes %v", c.Index, c.Order, last)
		}
		last = c.Order
		if c.Bound > c.Needed || c.Needed > c.Order || !c.Reason.Said() || c.Waste <= 0 || c.Waste >= 100 {
			t.Errorf("cloth %d: %+v", c.Index, c)
		}
		if c.Loosened > 0 {
			continue
		}
		k := req.Cloths[c.Index]
		one := service.YardageRequest{Cloth: k.Cloth, Sold: k.Sold, Effort: plan.Glance}
		for _, p := range req.Panels {
			p.Match = p.Match.On(k.Pattern)
			if p.Turn == panel.Half && k.OneWay {
				p.Turn = panel.Upright
			}
			one.Panels = append(one.Panels, p)
		}
		want, err := service.Yardage(context.Background(), one)
		if err != nil || want.Order != c.Order || want.Result.Needed() != c.Needed {
			t.Errorf("cloth %d takes %v, and %v, %v alone", c.Index, c.Order, want.Order, err)
		}
	}
}

func TestCompareRanks(t *testing.T) {
	req := chairOn(12)
	for i := range req.Cloths {
		m, err := money.Parse([]string{"12.50", "80", "31.99"}[i%3], "GBP")
		if err != nil {
			t.Fatal(err)
		}
		req.Cloths[i].Price = &money.Price{Money: m, Per: length.Metre}
	}
	req.RankBy = glance.ByDefault
	ans := compare(t, req, 2)
	for i := range ans.Cloths[1:] {
		if ans.Cloths[i].Cost.Cmp(*ans.Cloths[i+1].Cost) > 0 {
			t.Errorf("%s before %s", ans.Cloths[i].Cost.Text(), ans.Cloths[i+1].Cost.Text())
		}
	}
	req.RankBy = glance.ByWaste
	ans = compare(t, req, 2)
	for i := range ans.Cloths[1:] {
		if ans.Cloths[i].Waste > ans.Cloths[i+1].Waste {
			t.Errorf("%v before %v", ans.Cloths[i].Waste, ans.Cloths[i+1].Waste)
		}
	}
}

// A cloth that is too narrow comes last and says why; what is sent on the way is
// in the order of the request.
func TestCompareSaysWhatCannotBe(t *testing.T) {
	req := chairOn(6)
	req.Cloths[2].Width = 20 * cm
	for i := range req.Panels {
		req.Panels[i].Join = panel.NoJoin
	}
	var sent []int
	ans, err := glance.Compare(context.Background(), req, 2, func(c glance.Compared) { sent = append(sent, c.Index) })
	if err != nil {
		t.Fatal(err)
	}
	if last := ans.Cloths[5]; last.Index != 2 || last.Usable || !last.Reason.Said() {
		t.Errorf("last is %+v", last)
	}
	if !reflect.DeepEqual(sent, []int{0, 1, 2, 3, 4, 5}) {
		t.Errorf("sent %v", sent)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := glance.Compare(ctx, req, 2, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v when stopped", err)
	}
}

// The first cloth is tried at every width and repeat, its own among them.
func TestCompareIsSensitive(t *testing.T) {
	req := chairOn(2)
	req.Cloths = req.Cloths[1:]
	own := req.Cloths[0]
	req.Sensitive = true
	req.Widths, req.Repeats = []length.Length{150 * cm, own.Width}, []length.Length{32 * cm, 64 * cm}
	ans := compare(t, req, 2)
	if len(ans.Sensitivity) != 2*3 {
		t.Fatalf("%d tried, want 6", len(ans.Sensitivity))
	}
	for _, s := range ans.Sensitivity {
		if s.Width == own.Width && s.Repeat == own.Pattern.LengthRepeat && s.Order != ans.Cloths[0].Order {
			t.Errorf("tried at its own %+v, and it takes %v", s, ans.Cloths[0].Order)
		}
	}
}

func TestCompareFaults(t *testing.T) {
	gbp, eur := money.Price{Per: length.Metre}, money.Price{Per: length.Metre}
	gbp.Money, _ = money.Parse("1", "GBP")
	eur.Money, _ = money.Parse("1", "EUR")
	for _, tc := range []struct {
		name  string
		spoil func(*glance.CompareRequest)
		want  string
	}{
		{"width", func(r *glance.CompareRequest) { r.Cloths[1].Width = 1 }, "#/cloths/1/cloth/width too-small"},
		{"panel", func(r *glance.CompareRequest) { r.Panels[0].Size.Along = 0 }, "#/panels/0/size/along too-small"},
		{"too many", func(r *glance.CompareRequest) {
			r.Panels = r.Panels[:1]
			r.Panels[0].Count = 2000
			r.Cloths = chairOn(60).Cloths
		}, "#/cloths too-many"},
		{"no price", func(r *glance.CompareRequest) { r.RankBy = glance.ByCost; r.Cloths[0].Price = &gbp }, "#/cloths/1/price missing"},
		{"two currencies", func(r *glance.CompareRequest) {
			r.RankBy = glance.ByCost
			r.Cloths[0].Price, r.Cloths[1].Price = &gbp, &eur
		}, "#/cloths/1/price/currency not-allowed"},
		{"width to try", func(r *glance.CompareRequest) { r.Widths = []length.Length{1} }, "#/sensitivity/widths/0 too-small"},
		{"repeat to try", func(r *glance.CompareRequest) { r.Repeats = []length.Length{cm, 11 * length.Metre} }, "#/sensitivity/lengthRepeats/1 too-large"},
	} {
		req := chairOn(2)
		tc.spoil(&req)
		l := glance.CompareFaults(req)
		if got := l.Faults(); len(got) != 1 || got[0].Pointer()+" "+string(got[0].Code) != tc.want {
			text, _ := json.Marshal(got)
			t.Errorf("%s: %s, want %s", tc.name, text, tc.want)
		}
	}
}

// BenchmarkCompare is a chair on 500 cloths, two at a time.
func BenchmarkCompare(b *testing.B) {
	req := chairOn(500)
	for b.Loop() {
		compare(b, req, 2)
	}
}
