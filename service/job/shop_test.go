package job_test

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/pleat"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/buying"
	"github.com/bridletie/bridletie/service/job"
)

// bench is one answer by the figures of a workroom.
type bench struct {
	name   string
	answer func(t *testing.T, shop practice.Set) any
}

// wireOnly are the settings that stand in for what a request leaves out, which
// the translation of a job reads: TestJobsGoByTheShop there holds them.
var wireOnly = []string{
	practice.UsualButtonEdge.Name, practice.UsualWells.Name, practice.UsualButton.Name, practice.UsualCord.Name,
}

// Every setting of the table is read by some answer and changes it: nobody can
// put one in that no formula goes by, nor a formula keep a figure of its own
// beside it. Where a sentence states the figure, the answer holds the sentence.
func TestEverySettingChangesAnAnswer(t *testing.T) {
	benches := slices.Concat(soldBenches(), cutBenches(), sewnBenches(), stuffedBenches(), wholeBenches()) // the slow ones last
	before := make([]string, len(benches))
	used := make([]*practice.Used, len(benches))
	for i, b := range benches {
		var shop practice.Set
		shop, used[i] = practice.Defaults().Noted()
		a := b.answer(t, shop)
		if l, refused := a.([]fault.Fault); refused {
			t.Fatalf("%s: %+v", b.name, l)
		}
		before[i] = dumped(a)
	}
	for _, s := range practice.Table() {
		if slices.Contains(wireOnly, s.Name) {
			continue
		}
		read, changes := 0, false
		for i, b := range benches {
			if changes || !used[i].Read(s) {
				continue
			}
			read++
			for _, v := range valuesOf(s) {
				if dumped(b.answer(t, practice.Defaults().With(s.Give(v)))) != before[i] {
					changes = true
					break
				}
			}
		}
		if !changes {
			t.Errorf("%s: %d answers read it, and none changes with it", s.Name, read)
		}
	}
}

// valuesOf are some values of a setting other than its default.
func valuesOf(s practice.Setting) []int64 {
	all := []int64{s.Default + (s.Most-s.Default)/8, s.Default - (s.Default-s.Least)/2, s.Most, s.Least, s.Default + (s.Most-s.Default)/2}
	if s.Kind == practice.Count {
		all = append(all, s.Default+1, s.Default-1)
	}
	var out []int64
	for _, v := range all {
		if v != s.Default && v >= s.Least && v <= s.Most && !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}

// dumped is all that an answer holds, but the set that it was asked with.
func dumped(a any) string {
	var b strings.Builder
	dump(&b, reflect.ValueOf(a))
	return b.String()
}

func dump(b *strings.Builder, v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			dump(b, v.Elem())
		}
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[practice.Set]() {
			return
		}
		if v.Type() == reflect.TypeFor[note.Note]() && v.CanInterface() {
			b.WriteString(v.Interface().(note.Note).Text(length.Metric))
		}
		for i := range v.NumField() {
			b.WriteString(v.Type().Field(i).Name + ":")
			dump(b, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			b.WriteByte(' ')
			dump(b, v.Index(i))
		}
	case reflect.Map:
		keys := v.MapKeys()
		slices.SortFunc(keys, func(x, y reflect.Value) int { return cmp.Compare(fmt.Sprint(x), fmt.Sprint(y)) })
		for _, k := range keys {
			fmt.Fprint(b, " ", k, "=")
			dump(b, v.MapIndex(k))
		}
	case reflect.Func:
	default:
		fmt.Fprint(b, v)
	}
	b.WriteByte(';')
}

const (
	mm = length.Millimetre
	cm = length.Centimetre
)

// chairBack is the inside back of the demo chair in its half-drop.
func chairBack() service.ButtoningRequest {
	return service.ButtoningRequest{
		Panel: buttoning.Panel{
			Size:  panel.Size{Across: 56 * cm, Along: 78 * cm},
			Edges: buttoning.Edges{Side: 8 * cm, Top: 9 * cm, Bottom: 12 * cm},
			Allow: panel.Sides{Top: 6 * cm, Bottom: 10 * cm, Left: 3 * cm, Right: 3 * cm},
		},
		Grid:  buttoning.Wish{How: buttoning.Spacing, Width: 13 * cm, Height: 19 * cm},
		Depth: 3 * cm,
		Cloth: cloth.Cloth{Width: 137 * cm, Pattern: cloth.Pattern{
			LengthRepeat: 64 * cm, WidthRepeat: 685 * mm, Motifs: []cloth.Motif{{Name: "heron", Across: 342 * mm}},
		}},
		Aim: &service.ButtoningAim{}, Join: true, Buttons: service.ButtonWish{Lines: 28},
	}
}

// pipingRequest asks for a cushion and two facings from new cloth.
func pipingRequest() service.PipingRequest {
	return service.PipingRequest{
		Cord: 4 * mm, Angle: piping.TrueBias, Sold: &cloth.Sold{}, Cloth: cloth.Cloth{Width: 137 * cm},
		Runs: []service.PipingRun{
			{Count: 2, Run: piping.Run{Length: 232 * cm, Closed: true, MaxJoins: 4}},
			{Count: 2, Run: piping.Run{Length: length.Metre, MaxJoins: 4}},
		},
	}
}

// cutBenches are cutting lists, and what is left of a cloth.
func cutBenches() []bench {
	lists := func(options ...map[string]string) func(*testing.T, practice.Set) any {
		return func(_ *testing.T, shop practice.Set) any {
			var out []any
			for _, k := range furniture.Kinds() {
				for _, o := range options {
					list := furniture.Piece{Kind: k.ID, Count: 1, Options: o, Shop: shop}.List()
					list.Assumed = nil
					out = append(out, list)
				}
			}
			return out
		}
	}
	return []bench{
		{"cutting lists", lists(nil, map[string]string{"cushion": "fixed"}, map[string]string{"flies": "no", "collars": "sewn"})},
		{"skirts", lists(map[string]string{"skirt": "plain"}, map[string]string{"skirt": "box"}, map[string]string{"skirt": "knife"},
			map[string]string{"skirt": "gathered"}, map[string]string{"skirt": "tailored"})},
		{"buttoned backs", lists(map[string]string{"back": "buttoned"})},
		{"dining chairs", lists(map[string]string{"back": "pad"})},
		{"offcuts", func(t *testing.T, shop practice.Set) any {
			req := service.YardageRequest{Cloth: cloth.Cloth{Width: 140 * cm}, Effort: plan.Quick, Shop: shop, Panels: []panel.Panel{
				{ID: "A", Count: 1, Size: panel.Size{Across: 90 * cm, Along: 90 * cm}}, {ID: "B", Count: 1, Size: panel.Size{Across: 56 * cm, Along: 52 * cm}},
			}}
			return workedOut(t, req, service.Yardage)
		}},
		{"relief cuts", func(_ *testing.T, shop practice.Set) any {
			req := service.ReliefRequest{}
			req.Size, req.Shop, req.Loose, req.Most = panel.Size{Across: 60 * cm, Along: 60 * cm}, shop, true, cloth.Percent/2
			req.Allow = panel.Sides{Top: 10 * cm, Bottom: 10 * cm, Left: 10 * cm, Right: 10 * cm}
			for i, wide := range []length.Length{3, 12, 25, 31, 45, 60} {
				for _, round := range []bool{false, true} {
					o := relief.Obstacle{ID: fmt.Sprint(wide, round), Round: round, At: 30 * cm, Width: wide * mm, Deep: length.Length(20+10*i) * mm, Stuffing: length.Length(20+20*i) * mm}
					req.Obstacles = append(req.Obstacles, o)
					o.Corner = relief.BottomLeft
					req.Obstacles = append(req.Obstacles, o)
				}
			}
			return service.Relief(req)
		}},
	}
}

// sewnBenches are buttoning, piping and pleats.
func sewnBenches() []bench {
	buttoned := func(change func(*service.ButtoningRequest)) func(*testing.T, practice.Set) any {
		return func(t *testing.T, shop practice.Set) any {
			req := chairBack()
			req.Shop = shop
			change(&req)
			if l := service.Faults(service.PrepareButtoning(req)); l.Len() > 0 {
				return l.Faults()
			}
			return []any{workedOut(t, req, service.Buttoning), req.Button().Covered()}
		}
	}
	piped := func(units length.System, change func(*service.PipingRequest)) func(*testing.T, practice.Set) any {
		return func(t *testing.T, shop practice.Set) any {
			req := pipingRequest()
			req.Units, req.Shop = units, shop
			change(&req)
			return workedOut(t, req, service.Piping)
		}
	}
	pleated := func(req service.PleatsRequest) func(*testing.T, practice.Set) any {
		return func(_ *testing.T, shop practice.Set) any {
			req.Shop = shop
			if l := service.PleatsFaults(req); l.Len() > 0 {
				return l.Faults()
			}
			return service.Pleats(req)
		}
	}
	arc := pleat.From{How: pleat.ScrollArm, Radius: 70 * mm, Angle: 180, TurnOver: 30 * mm}
	concave := arc
	concave.Concave = true
	return []bench{
		{"diamonds on the arc", buttoned(func(*service.ButtoningRequest) {})},
		{"diamonds by the rule", buttoned(func(r *service.ButtoningRequest) { r.Model = buttoning.ByAmount })},
		{"joined diamonds", buttoned(func(r *service.ButtoningRequest) {
			r.Panel.Size.Across, r.Aim, r.Cloth = 180*cm, nil, cloth.Cloth{Width: 137 * cm}
		})},
		{"askew", buttoned(func(r *service.ButtoningRequest) {
			r.Aim, r.Lies.X = nil, 4*mm
		})},
		{"piping in millimetres", piped(length.Metric, func(*service.PipingRequest) {})},
		{"piping in inches", piped(length.Imperial, func(*service.PipingRequest) {})},
		{"piping round corners", piped(length.Metric, func(r *service.PipingRequest) {
			r.Runs[0].Corners = []length.Length{0, 56 * cm, 116 * cm, 172 * cm}
			r.Runs[1].Radius = 3 * cm
		})},
		{"piping that curves, cut straight", piped(length.Metric, func(r *service.PipingRequest) { r.Cut, r.Runs[1].Radius = piping.Along, 15*cm })},
		{"pleats", pleated(service.PleatsRequest{Job: pleat.Job{From: arc}})},
		{"pleats in inches", pleated(service.PleatsRequest{Units: length.Imperial, Job: pleat.Job{From: arc, Count: 7}})},
		{"shallow pleats", pleated(service.PleatsRequest{Job: pleat.Job{From: arc, Count: 20}})},
		{"uneven pleats", pleated(service.PleatsRequest{Job: pleat.Job{From: arc, Count: 7}})},
		{"snips", pleated(service.PleatsRequest{Job: pleat.Job{From: concave}})},
	}
}

// stuffedBenches are foundation, wadding and foam.
func stuffedBenches() []bench {
	founded := func(build foundation.Build, fix foundation.Fixing) func(*testing.T, practice.Set) any {
		return func(t *testing.T, shop practice.Set) any {
			req := service.FoundationRequest{}
			req.Build, req.Fixing, req.Shop = build, fix, shop
			for _, part := range []foundation.Part{foundation.Seat, foundation.Back, foundation.Arm} {
				req.Frames = append(req.Frames, foundation.Frame{ID: part.String(), Part: part, Count: 1, Front: 60 * cm, Depth: 58 * cm, EdgeRows: -1, ShowWood: true})
			}
			if build == foundation.Traditional {
				req.Frames[1].Sprung = foundation.Yes
				for place := foundation.EasyChair; place <= foundation.Divan; place++ {
					req.Frames = append(req.Frames, foundation.Frame{ID: fmt.Sprint("P", place), Place: place, Count: 1, Front: 55 * cm, Depth: 50 * cm, EdgeRows: -1, Sprung: foundation.Yes})
				}
				req.Frames = append(req.Frames,
					foundation.Frame{ID: "LOW", Count: 1, Front: 55 * cm, Depth: 50 * cm, EdgeRows: -1, Rail: 30 * mm},
					foundation.Frame{ID: "HIGH", Count: 1, Front: 55 * cm, Depth: 50 * cm, EdgeRows: -1, Rail: 20 * cm},
					foundation.Frame{ID: "NARROW", Count: 1, Front: 32 * cm, Depth: 30 * cm, EdgeRows: -1, Sprung: foundation.Yes},
					foundation.Frame{ID: "WIDE", Count: 1, Front: 240 * cm, Depth: 200 * cm, EdgeRows: -1})
			}
			return workedOut(t, req, service.Foundation)
		}
	}
	return []bench{
		{"traditional, tacked", founded(foundation.Traditional, foundation.Tacks)},
		{"traditional, stapled", founded(foundation.Traditional, foundation.Staples)},
		{"modern", founded(foundation.Modern, foundation.Tacks)},
		{"wadding", func(t *testing.T, shop practice.Set) any {
			req := service.WaddingRequest{}
			req.Shop = shop
			for _, m := range wadding.Materials() {
				it := wadding.Item{ID: m.String(), Material: m, Count: 1, Layers: 1, Width: 100 * cm, Depth: 100 * cm, Thickness: 10 * cm}
				if !m.Loose() {
					it.Wrap = wadding.AllRound
				}
				req.Items = append(req.Items, it)
			}
			for p := wadding.StuffOver; p <= wadding.EasyChair; p++ {
				req.Items = append(req.Items, wadding.Item{ID: fmt.Sprint("S", p), Count: 1, Layers: 1, Kind: wadding.Seats, Material: wadding.Hair, Place: p})
			}
			return workedOut(t, req, service.Wadding)
		}},
		{"foam", func(t *testing.T, shop practice.Set) any {
			req := service.FoamRequest{}
			req.Shop, req.Effort = shop, foam.Quick
			for i, density := range []int64{14_000, 20_000, 35_000, 60_000, 110_000} {
				req.Foams = append(req.Foams, foam.Foam{ID: fmt.Sprint("F", i), Density: density, Hardness: []int64{100, 120, 150, 100, 90}[i], At: 25})
				req.Stock = append(req.Stock, foam.Stock{ID: fmt.Sprint("S", i), Foam: i, Across: 120 * cm, Along: 200 * cm, Thickness: 20 * mm})
				for _, place := range []foam.Place{foam.Seat, foam.Back, foam.Arm, foam.Pad, foam.Scatter} {
					for _, thick := range []length.Length{20, 60} {
						req.Items = append(req.Items, foam.Item{ID: fmt.Sprint(i, place, thick), Count: 1, Place: place, Foam: i, Thickness: thick * mm,
							Shape: foam.Shape{Form: foam.Rectangle, Across: 50 * cm, Along: 48 * cm}})
					}
				}
			}
			req.Items[0].Fit = foam.Tight
			return workedOut(t, req, service.Foam)
		}},
	}
}

// workedOut is an answer, or what is wrong with the request by these figures.
func workedOut[R, A any](t *testing.T, req R, answer func(context.Context, R) (*A, error)) any {
	t.Helper()
	a, err := answer(context.Background(), req)
	if wrong := (fault.List{}); errors.As(err, &wrong) {
		return wrong.Faults()
	}
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// soldBenches are order lists, hours and days.
func soldBenches() []bench {
	one := costing.Work{Pieces: 3, Sound: 1, Panels: 7, Cushions: 5, Frames: 11, Buttons: 13, Piping: buying.Length.Amount(int64(17 * length.Metre))}
	hours := func(preset string) bench {
		return bench{"hours of " + preset, func(_ *testing.T, shop practice.Set) any {
			return buying.Terms{Preset: preset, Shop: shop}.Operations(one)
		}}
	}
	return []bench{
		hours("re-cover"), hours("rebuild"), hours("new-work"),
		{"days", func(_ *testing.T, shop practice.Set) any {
			return buying.PlanDays(buying.Terms{Preset: "rebuild"}.Operations(one), buying.DayTerms{Shop: shop})
		}},
		{"orders", func(t *testing.T, shop practice.Set) any {
			return []any{orders(t, length.Metric, shop), orders(t, length.Imperial, shop)}
		}},
	}
}

// wholeBenches are estimates and a job.
func wholeBenches() []bench {
	var out []bench
	for size, kind := range []string{service.Usual: "wing-chair", service.Small: "fireside-chair", service.Large: "fireside-chair"} {
		for _, look := range []service.Patterned{service.Plain, service.SmallPattern, service.Medium, service.LargePattern} {
			out = append(out, bench{fmt.Sprint("estimate ", size, look), func(t *testing.T, shop practice.Set) any {
				req := service.EstimateRequest{Piece: furniture.Piece{Kind: kind, Count: 1}}
				req.Size, req.Patterned, req.Shop = service.Size(size), look, shop
				req.Piece.Options = map[string]string{"back": "buttoned", "piping": "all"}
				ans, err := service.Estimate(context.Background(), req, 1)
				if err != nil {
					t.Fatal(err)
				}
				return []any{ans.Order, ans.Hours}
			}})
		}
	}
	return append(out, bench{"a job", func(t *testing.T, shop practice.Set) any {
		req := job.Request{
			Effort: plan.Quick, Shop: shop,
			Cloths: []job.Cloth{{ID: "TOP", Cloth: cloth.Cloth{Width: 137 * cm}, Sold: cloth.Sold{Step: 10 * cm}}},
		}
		for i, kind := range []string{"wing-chair", "drop-in-seat"} {
			req.Pieces = append(req.Pieces, job.Piece{
				ID: fmt.Sprint("P", i), Build: job.Modern, Piece: furniture.Piece{Kind: kind, Count: 1},
				Cloths: job.Covers{Top: -1, Outside: -1, Lining: -1, Piping: -1},
			})
		}
		req.Piping.Cord, req.Piping.Angle = 4*mm, piping.TrueBias
		if l := job.Faults(req); l.Len() > 0 {
			return l.Faults()
		}
		ans, err := job.Run(context.Background(), nil, req, 1)
		if err != nil {
			t.Fatal(err)
		}
		return []any{ans.Plans, ans.Foam, ans.Orders, ans.Cloths}
	}})
}

// orders is what a seat with buttons and piping takes, of which some is sold
// loose.
func orders(t *testing.T, units length.System, shop practice.Set) any {
	t.Helper()
	chart := chairBack()
	chart.Shop = practice.Defaults()
	found := service.FoundationRequest{}
	found.Frames = []foundation.Frame{{ID: "S", Count: 1, Front: 60 * cm, Depth: 58 * cm, EdgeRows: -1}}
	part := buying.Part{
		Name: "chair", Piping: []buying.Piping{{Answer: workedOut(t, pipingRequest(), service.Piping).(*service.PipingAnswer)}}, Buttoning: []buying.Buttoning{{Answer: workedOut(t, chart, service.Buttoning).(*service.ButtoningAnswer)}},
		Foundation: []*service.FoundationAnswer{workedOut(t, found, service.Foundation).(*service.FoundationAnswer)},
	}
	list, err := buying.OrderList(buying.Request{Units: units, Parts: []buying.Part{part}, Shop: shop, Prices: []buying.Price{
		{Article: "webbing", Amount: buying.Count.Amount(1), Per: buying.PerMetre}, {Article: "filling", Amount: buying.Count.Amount(1), Per: buying.PerKilogram},
		{Article: "tacks", Amount: buying.Count.Amount(1), Per: buying.PerHundred},
	}})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// A sentence that states a figure is made from the set: with another figure it
// says that one.
func TestSentencesStateTheFiguresOfTheShop(t *testing.T) {
	benches := make(map[string]bench)
	for _, b := range slices.Concat(soldBenches(), sewnBenches(), stuffedBenches()) {
		benches[b.name] = b
	}
	for _, c := range []struct {
		bench string
		given practice.Given
		want  string
	}{
		{"foam", practice.FoamOverTight.Give(9 * mm), "Over-cut by place: a seat 9 mm over"},
		{"foam", practice.FoamOverTight.Give(9 * mm), "Over-cut of a tight cushion: 9 mm over"},
		{"foam", practice.FoamOverSoft.Give(31 * mm), "a back or scatter cushion 31 mm,"},
		{"foam", practice.FoamThinSeat.Give(81 * mm), "a seat is 81 mm or more"},
		{"foam", practice.FoamThinBack.Give(51 * mm), "a back or scatter cushion 51 mm"},
		{"foam", practice.FoamThinPad.Give(27 * mm), "a pad 27 mm"},
		{"foam", practice.FoamThinArm.Give(11 * mm), "an arm 11 mm"},
		{"foam", practice.FoamSoftSeat.Give(141), "where a seat has 141 to 178 N"},
		{"foam", practice.FoamHardSeat.Give(181), "where a seat has 133 to 181 N"},
		{"foam", practice.FoamHardestBack.Give(91), "where a back has 91 N or less"},
		{"foam", practice.FoamLightSeat.Give(29 * practice.One), "a seat has 29 to 51.3 kg/m³"},
		{"foam", practice.FoamDenseSeat.Give(52 * practice.One), "a seat has 28.8 to 52 kg/m³"},
		{"foam", practice.FoamLightest.Give(16 * practice.One), "polyurethane foam has 16 to 100 kg/m³"},
		{"foam", practice.FoamDensest.Give(105 * practice.One), "polyurethane foam has 15 to 105 kg/m³"},
		{"shallow pleats", practice.PleatShallow.Give(4 * mm), "less than 4 mm deep"},
		{"diamonds on the arc", practice.ButtoningEdge.Give(10 * cm), "nearer to the edge than 10 cm"},
		{"traditional, tacked", practice.SpringLowest.Give(4 * length.Inch), "they come from 4 to 14 in high"},
		{"traditional, tacked", practice.SpringHighest.Give(13 * length.Inch), "they come from 3 to 13 in high"},
		{"traditional, tacked", practice.SmallSpring.Height.Give(7 * length.Inch), practice.OwnFigure},
		{"foam", practice.FoamOverTight.Give(9 * mm), practice.OwnFigure},
		{"days", practice.DayHours.Give(8 * practice.One), "A working day has 8 hours (" + practice.OwnFigure + ")"},
		{"days", practice.DayDelivery.Give(9), "The cloth is there 9 working days after"},
		{"days", practice.DayGlue.Give(1), "A glued frame is loaded on the next working day"},
		{"days", practice.DayGlue.Give(2), "A glued frame is loaded 2 working days later"},
	} {
		if got := dumped(benches[c.bench].answer(t, practice.Defaults().With(c.given))); !strings.Contains(got, c.want) {
			t.Errorf("%s of %d: no sentence says %q", c.given.Name, c.given.Value, c.want)
		}
	}
}

// The figures of a workroom reach every part of its job, and a part's own stand
// before them.
func TestJobsHandTheShopToTheirParts(t *testing.T) {
	shop := practice.Defaults().With(practice.UsualLining.Give(150*cm), practice.CoverSeam.Give(2*cm), practice.HessianTurn.Give(4*cm), practice.CoverPull.Give(5*cm))
	req := job.Request{Effort: plan.Quick, Shop: shop, Cloths: []job.Cloth{{ID: "TOP", Cloth: cloth.Cloth{Width: 137 * cm}}}}
	req.Pieces = []job.Piece{{ID: "P", Piece: furniture.Piece{Kind: "wing-chair", Count: 1, Allow: furniture.Allowances{Pull: 7 * cm}}, Cloths: job.Covers{Top: -1, Outside: -1, Lining: -1, Piping: -1}}}
	req.Piping.Cord, req.Piping.Angle = 4*mm, piping.TrueBias
	ans, err := job.Run(context.Background(), nil, req, 1)
	if err != nil {
		t.Fatal(err)
	}
	if got := ans.Cloths[1].Cloth.Width; got != 150*cm {
		t.Errorf("the lining is %v wide", got)
	}
	if got := ans.Lists[0].List.Panels[0].Allow; got.Left != 2*cm || got.Top != 7*cm {
		t.Errorf("the inside back has %+v", got)
	}
	for _, p := range ans.Foundation[0].Foundation.Answer.Work.Panels {
		if p.Use == foundation.Hessian && p.Allow.Top != 4*cm {
			t.Errorf("hessian is turned by %v", p.Allow.Top)
		}
	}
}
