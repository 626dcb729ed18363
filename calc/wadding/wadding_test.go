package wadding_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/wadding"
)

const (
	mm = length.Millimetre
	cm = length.Centimetre
	in = length.Inch
)

func ExamplePlan() {
	w := wadding.Plan(wadding.Job{Items: []wadding.Item{
		{ID: "CUSHION", Count: 3, Width: 60 * length.Centimetre, Depth: 65 * length.Centimetre, Thickness: 12 * length.Centimetre, Layers: 1},
		{ID: "SEAT", Kind: wadding.Seats, Count: 6, Material: wadding.Hair, Place: wadding.DropIn, Layers: 1},
	}})
	for _, p := range w.Sheets[0].Pieces {
		fmt.Println(p.ID, p.Count, "of", p.Cut().Across.Text(length.Metric, length.Up), "by", p.Cut().Along.Text(length.Metric, length.Up))
	}
	fmt.Println(w.Loose[0].Mass/1000, "g of", w.Loose[0].Material)
	// Output:
	// CUSHION 3 of 60 cm by 1.42 m
	// 2724 g of hair
}

func plan(t testing.TB, job wadding.Job) wadding.Work {
	t.Helper()
	for i := range job.Items {
		it := &job.Items[i]
		if it.ID == "" {
			it.ID = fmt.Sprint("I", i)
		}
		it.Count, it.Layers = max(it.Count, 1), max(it.Layers, 1)
	}
	if l := job.Faults(fault.Path{}); l.Len() > 0 {
		t.Fatalf("faults: %+v", l.Faults())
	}
	return wadding.Plan(job)
}

// Weights by arithmetic: 1 oz/yd² is 28.349523125 g to 0.83612736 m².
func TestOuncesAndGrams(t *testing.T) {
	for oz, want := range map[int64]float64{1: 33.9057, 2: 67.8, 4: 135.6, 6: 203.4, 7: 237.3, 9: 305.2, 12: 406.9, 10: 339.06} {
		got := float64(wadding.OuncesPerSquareYard(oz*practice.One)) / practice.One
		if math.Abs(got-want) > 0.06 {
			t.Errorf("%d oz/yd² is %v g/m², want %v", oz, got, want)
		}
	}
	// A chart of fabric weights: 200, 300 and 340 g/m² are 5.90, 8.85 and 10.03 oz/yd².
	for gsm, oz := range map[float64]int64{200: 5_900_000, 300: 8_850_000, 340: 10_030_000} {
		if got := float64(wadding.OuncesPerSquareYard(oz)) / practice.One; math.Abs(got-gsm) > 0.2 {
			t.Errorf("%v millionths of an ounce are %v g/m², want %v", oz, got, gsm)
		}
	}
	// Hessian of 10 oz: by the square yard 339 g/m²; by the running yard of 40 in 305 (from memory).
	if got := float64(wadding.OuncesPerRunningYard(10*practice.One, 40*in)) / practice.One; math.Abs(got-305) > 0.5 {
		t.Errorf("10 oz to a running yard of 40 in are %v g/m²", got)
	}
	if wadding.OuncesPerRunningYard(1, 0) != 0 || wadding.OuncesPerSquareYard(1<<62) != math.MaxInt64 {
		t.Error("the ends of the range")
	}
}

// What the rolls weigh, from the figures that are published of them.
func TestPublishedRolls(t *testing.T) {
	const pound = 453.59237 // g
	all := make(map[string]practice.Setting)
	for _, s := range wadding.Book().Settings() {
		all[s.Name] = s
	}
	for _, c := range []struct {
		source, name string
		grams        float64 // of one roll
		slack        float64
	}{
		// Trade text: 27 in wide, about 1 yd to the pound, rolls of 18 to 22 lb.
		{"cotton felt of 20 yd", "cotton-felt", 20 * pound, 0.001},
		// Trade text: a roll of 27 in, 13 lb, 70 to 80 ft.
		{"polyester of 75 ft", "polyester", 13 * pound, 0.001},
		// Johnson, 1919: sheets of 30 by 36 in, 1 lb to the dozen.
		{"a dozen sheets", "skin", pound, 0.001},
	} {
		area := length.Length(all[c.name+"-width"].Default).MM() * length.Length(all[c.name+"-roll"].Default).MM() / 1e6
		got := area * float64(all[c.name+"-weight"].Default) / practice.One
		if math.Abs(got/c.grams-1) > c.slack {
			t.Errorf("%s: %.1f g, want %.1f", c.source, got, c.grams)
		}
	}
	if got := length.Length(all["cotton-felt-loft"].Default); got != in { // trade text: 1 in thick
		t.Errorf("cotton felt is %v thick", got)
	}
}

// Hair by the seat: the setting lies within 1/2 to 1, 1 1/2 to 2 and 8 to 12 lb
// (common practice, no source).
func TestHairBySeats(t *testing.T) {
	for place, band := range map[wadding.Place][2]float64{wadding.DropIn: {0.5, 1.001}, wadding.StuffOver: {1.5, 2.003}, wadding.EasyChair: {8, 12.003}} {
		w := plan(t, wadding.Job{Items: []wadding.Item{{Kind: wadding.Seats, Material: wadding.Hair, Place: place, Count: 6}}})
		if got := float64(w.Loose[0].Mass) / 6 / 453_592.37; got < band[0] || got > band[1] {
			t.Errorf("place %d: %.3f lb a seat", place, got)
		}
	}
	// And by area and depth, on a seat of 18 by 16 in and 2 in deep, sizes from memory.
	w := plan(t, wadding.Job{Items: []wadding.Item{{Kind: wadding.Pad, Material: wadding.Hair, Width: 18 * in, Depth: 16 * in, Thickness: 2 * in}}})
	if got := float64(w.Loose[0].Mass) / 453_592.37; got < 1.5 || got > 2 {
		t.Errorf("%.2f lb of hair in a stuff-over seat", got)
	}
}

func TestSizes(t *testing.T) {
	box := wadding.Item{Width: 60 * cm, Depth: 50 * cm, Thickness: 10 * cm}
	with := func(change func(*wadding.Item)) wadding.Item {
		it := box
		change(&it)
		return it
	}
	for _, c := range []struct {
		name string
		it   wadding.Item
		want string
	}{
		{"front to back: twice the depth and the thickness", box, "1 of 600 mm × 1100 mm"},
		{"all round", with(func(i *wadding.Item) { i.Wrap = wadding.AllRound }), "1 of 600 mm × 1200 mm"},
		{"with ends", with(func(i *wadding.Item) { i.Ends = true }), "1 of 600 mm × 1100 mm, 2 of 500 mm × 100 mm"},
		{"ends only", with(func(i *wadding.Item) { i.Wrap, i.Layers = wadding.EndsOnly, 2 }), "4 of 500 mm × 100 mm"},
		{"pad", with(func(i *wadding.Item) { i.Kind = wadding.Pad }), "1 of 800 mm × 700 mm"},
		{"flat pad of two layers, three times", with(func(i *wadding.Item) {
			i.Kind, i.Thickness, i.Layers, i.Count = wadding.Pad, 0, 2, 3
		}), "6 of 600 mm × 500 mm"},
		{"arm", with(func(i *wadding.Item) { i.Kind = wadding.Arm }), "1 of 500 mm × 800 mm"},
		{"back", with(func(i *wadding.Item) { i.Kind = wadding.Back }), "1 of 800 mm × 600 mm"},
	} {
		text := ""
		for _, p := range plan(t, wadding.Job{Items: []wadding.Item{c.it}}).Sheets[0].Pieces {
			if text != "" {
				text += ", "
			}
			text += fmt.Sprintf("%d of %v × %v", p.Count, p.Cut().Across, p.Cut().Along)
		}
		if text != c.want {
			t.Errorf("%s: %s, want %s", c.name, text, c.want)
		}
	}
}

// A domed seat is covered over the arc both ways, rounded up: a parabola as high as
// half its chord takes a/2 (√5 + asinh(2) / 2).
func TestDomeTakesTheArc(t *testing.T) {
	w := plan(t, wadding.Job{Items: []wadding.Item{{Kind: wadding.Dome, Width: 40 * cm, Depth: 60 * cm, Rise: 20 * cm}}})
	arc := 200 * (math.Sqrt(5) + math.Asinh(2)/2)
	size := w.Sheets[0].Pieces[0].Size
	if got := size.Across.MM(); got < arc || got > arc+0.001 {
		t.Errorf("over a rise of half the chord it is %v mm wide, want %v", got, arc)
	}
	if size.Along != geom.Parabola(60*cm, 20*cm) {
		t.Errorf("the other way it is %v", size.Along)
	}
}

func TestDomeAndLoss(t *testing.T) {
	w := plan(t, wadding.Job{Items: []wadding.Item{
		{Kind: wadding.Dome, Width: 50 * cm, Depth: 40 * cm, Rise: 9 * cm, Thickness: 10 * mm, Material: wadding.Fibre},
		{Kind: wadding.Pad, Width: 50 * cm, Depth: 40 * cm, Layers: 2},
	}, Given: []practice.Given{
		{Name: "fibre-density", Kind: practice.Number, Value: 100 * practice.One},
		{Name: "fibre-compression", Kind: practice.Number, Value: practice.One / 2},
	}})
	if got := w.Loose[0].Mass; got != 1_000_000 { // 0.2 m² × (10 + 90 × 4/9) mm × 100 kg/m³
		t.Errorf("%d mg in the dome", got)
	}
	if got := w.Laid[0]; got.Before != 20*cm || got.After != 10*cm || got.Lost != 10*cm {
		t.Errorf("the dome is laid %+v", got)
	}
	if got := w.Laid[1]; got.Before != 50*mm || got.After != 30*mm || got.Lost != 20*mm { // two layers of 25 mm lose 0.4
		t.Errorf("two layers are laid %+v", got)
	}
}

func TestFaults(t *testing.T) {
	good := wadding.Item{ID: "A", Count: 1, Layers: 1, Width: 60 * cm, Depth: 50 * cm, Thickness: 10 * cm}
	for _, c := range []struct {
		name  string
		spoil func(*wadding.Job)
		want  string
	}{
		{"nothing", func(j *wadding.Job) { j.Items = nil }, "#/items too-few"},
		{"twice", func(j *wadding.Job) { j.Items = append(j.Items, j.Items[0]) }, "#/items/1/id duplicate"},
		{"small", func(j *wadding.Job) { j.Items[0].Width = mm }, "#/items/0/width too-small"},
		{"large", func(j *wadding.Job) { j.Items[0].Depth = 6 * length.Metre }, "#/items/0/depth too-large"},
		{"thin", func(j *wadding.Job) { j.Items[0].Thickness = 0 }, "#/items/0/thickness missing"},
		{"rise", func(j *wadding.Job) { j.Items[0].Rise = cm }, "#/items/0/rise not-allowed"},
		{"flat dome", func(j *wadding.Job) { j.Items[0].Kind = wadding.Dome }, "#/items/0/rise missing"},
		{"wrapped pad", func(j *wadding.Job) { j.Items[0].Kind, j.Items[0].Wrap = wadding.Pad, wadding.AllRound }, "#/items/0/wrap not-allowed"},
		{"pad with ends", func(j *wadding.Job) { j.Items[0].Kind, j.Items[0].Ends = wadding.Pad, true }, "#/items/0/ends not-allowed"},
		{"layers of hair", func(j *wadding.Job) { j.Items[0].Material, j.Items[0].Layers = wadding.Hair, 2 }, "#/items/0/layers not-allowed"},
		{"place", func(j *wadding.Job) { j.Items[0].Place = wadding.DropIn }, "#/items/0/place not-allowed"},
		{"seats of felt", func(j *wadding.Job) {
			j.Items[0] = wadding.Item{ID: "A", Count: 1, Layers: 1, Kind: wadding.Seats, Material: wadding.CottonFelt}
		}, "#/items/0/material not-allowed"},
		{"sized seats", func(j *wadding.Job) {
			j.Items[0] = wadding.Item{ID: "A", Count: 1, Layers: 1, Kind: wadding.Seats, Material: wadding.Hair, Width: cm}
		}, "#/items/0/width not-allowed"},
		{"wide and whole", func(j *wadding.Job) { j.Items[0].Width, j.Items[0].Whole = 80*cm, true }, "#/items/0 wider-than-cloth"},
		{"long", func(j *wadding.Job) {
			j.Given = []practice.Given{{Name: "polyester-roll", Value: int64(length.Metre)}}
		}, "#/items/0 longer-than-bolt"},
		{"many", func(j *wadding.Job) { j.Items[0].Count, j.Items[0].Layers = 100, 10 }, "#/items too-many"},
		{"setting", func(j *wadding.Job) { j.Given = []practice.Given{{Name: "web-gap"}} }, "#/settings/0/name not-one-of"},
	} {
		job := wadding.Job{Items: []wadding.Item{good}}
		c.spoil(&job)
		l := job.Faults(fault.Path{})
		if l.Len() != 1 {
			t.Errorf("%s: %+v", c.name, l.Faults())
			continue
		}
		f := l.Faults()[0]
		if got := f.Pointer() + " " + string(f.Code); got != c.want || f.Detail == "" || f.Try == "" {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

func TestEverySettingIsWholeAndUsed(t *testing.T) {
	var items []wadding.Item
	for _, m := range wadding.Materials() {
		items = append(items, wadding.Item{Material: m, Width: 100 * cm, Depth: 100 * cm, Thickness: 10 * cm})
	}
	for p := wadding.StuffOver; p <= wadding.EasyChair; p++ {
		items = append(items, wadding.Item{Kind: wadding.Seats, Material: wadding.Hair, Place: p})
	}
	used := make(map[string]bool)
	for _, v := range plan(t, wadding.Job{Items: items}).Settings {
		used[v.Name] = true
	}
	for _, s := range wadding.Book().Settings() {
		if !used[s.Name] || s.What == "" || s.Source == "" || s.Default < s.Least || s.Default > s.Most {
			t.Errorf("%+v used %v", s, used[s.Name])
		}
	}
}

func drawItem(t *rapid.T) wadding.Item {
	it := wadding.Item{
		ID: "A", Count: rapid.IntRange(1, 5).Draw(t, "count"), Layers: 1,
		Kind:      wadding.Kind(rapid.IntRange(0, 4).Draw(t, "kind")),
		Material:  wadding.Material(rapid.IntRange(0, 4).Draw(t, "material")),
		Width:     length.Length(rapid.IntRange(10, 1500).Draw(t, "width")) * mm,
		Depth:     length.Length(rapid.IntRange(10, 1500).Draw(t, "depth")) * mm,
		Thickness: length.Length(rapid.IntRange(1, 300).Draw(t, "thickness")) * mm,
	}
	if it.Kind == wadding.Dome {
		it.Rise = length.Length(rapid.IntRange(1, 300).Draw(t, "rise")) * mm
	}
	if !it.Material.Loose() {
		it.Layers = rapid.IntRange(1, 3).Draw(t, "layers")
	}
	return it
}

func massOf(w wadding.Work) (mass, bags int64) {
	for _, s := range w.Sheets {
		mass += s.Mass
	}
	for _, l := range w.Loose {
		mass, bags = mass+l.Mass, bags+l.Bags
	}
	return mass, bags
}

// A bigger thing, more of them or more layers never take less, and no piece of
// them gets smaller.
func TestBiggerNeverTakesLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		it := drawItem(t)
		more := it
		by := length.Length(rapid.IntRange(1, 300).Draw(t, "by")) * mm
		switch rapid.IntRange(0, 5).Draw(t, "what grows") {
		case 0:
			more.Width += by
		case 1:
			more.Depth += by
		case 2:
			more.Thickness += by
		case 3:
			more.Count++
		case 4:
			if !it.Material.Loose() {
				more.Layers++
			}
		case 5:
			if it.Kind == wadding.Dome {
				more.Rise += by
			}
		}
		small, large := wadding.Plan(wadding.Job{Items: []wadding.Item{it}}), wadding.Plan(wadding.Job{Items: []wadding.Item{more}})
		m1, b1 := massOf(small)
		m2, b2 := massOf(large)
		if m2 < m1 || b2 < b1 {
			t.Fatalf("%+v takes %d mg, %+v %d", it, m1, more, m2)
		}
		if len(small.Sheets) > 0 {
			a, b := small.Sheets[0].Pieces[0], large.Sheets[0].Pieces[0]
			if b.Count < a.Count || b.Cut().Across < a.Cut().Across-length.Micrometre || b.Cut().Along < a.Cut().Along-length.Micrometre {
				t.Fatalf("%+v is cut smaller than %+v", b, a)
			}
		}
	})
}

func BenchmarkPlan(b *testing.B) {
	job := wadding.Job{Items: []wadding.Item{
		{ID: "C", Count: 3, Layers: 1, Width: 60 * cm, Depth: 65 * cm, Thickness: 12 * cm, Ends: true},
		{ID: "D", Kind: wadding.Dome, Count: 6, Layers: 2, Width: 45 * cm, Depth: 42 * cm, Rise: 4 * cm, Material: wadding.CottonFelt},
	}}
	for b.Loop() {
		wadding.Plan(job)
	}
}
