package foam

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/sheet"
)

const (
	mm = length.Millimetre
	cm = length.Centimetre
)

// settee is the settee of the demo: three cushions, T-shaped at the ends.
func settee() *Job {
	end := Shape{Form: TShape, Across: 72 * cm, Along: 60 * cm, EarAcross: 10 * cm, EarAlong: 14 * cm, Ears: EarLeft}
	other := end
	other.Ears = EarRight
	item := func(id string, s Shape) Item {
		return Item{ID: id, Count: 1, Shape: s, Thickness: 110 * mm, Crown: 15 * mm}
	}
	return &Job{
		Foams: []Foam{{ID: "F", Density: 35_000, Hardness: 160, At: 25}},
		Stock: []Stock{
			{ID: "S100", Across: 1200 * mm, Along: 2000 * mm, Thickness: 100 * mm, Trim: 5 * mm, Price: pounds("96")},
			{ID: "S25", Across: 1200 * mm, Along: 2000 * mm, Thickness: 25 * mm, Trim: 5 * mm, Price: pounds("27.5")},
		},
		Items: []Item{item("LEFT", end), item("MIDDLE", Shape{Across: 62 * cm, Along: 60 * cm}), item("RIGHT", other)},
		Shop:  practice.Defaults().With(practice.FoamKerf.Give(3 * mm)), Currency: gbp(),
	}
}

func pounds(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func gbp() money.Currency {
	c, _ := money.ParseCurrency("GBP")
	return c
}

func ExampleSolve() {
	r, err := Solve(settee(), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(settee().Total(r).Text(), r.Grams, r.Cuts[0].Thickness, r.Cuts[0].Off, r.Proven())
	// Output: 123.50 5210 125 mm 0 mm true
}

// The middle cushion by hand: 63.2 × 61.2 × 12.5 cm at 35 kg/m³ are 1 692.18 g; an
// end, with a corner of 10 × 46 - 1.2 cm less: 1 758.68 g.
func TestMassByHand(t *testing.T) {
	r, err := Solve(settee(), nil)
	if err != nil || r.Cuts[1].Grams != 1692 || r.Cuts[0].Grams != 1759 {
		t.Fatalf("%v, %d and %d g", err, r.Cuts[1].Grams, r.Cuts[0].Grams)
	}
}

func shapes() map[string]Shape {
	return map[string]Shape{
		"rectangle":             {Across: 62 * cm, Along: 60 * cm},
		"trapezoid":             {Form: Trapezoid, Across: 55 * cm, Along: 48 * cm, Back: 42 * cm},
		"reversed":              {Form: Trapezoid, Across: 42 * cm, Along: 48 * cm, Back: 55 * cm},
		"t":                     {Form: TShape, Across: 72 * cm, Along: 60 * cm, EarAcross: 8 * cm, EarAlong: 14 * cm},
		"t left":                {Form: TShape, Across: 72 * cm, Along: 60 * cm, EarAcross: 8 * cm, EarAlong: 14 * cm, Ears: EarLeft},
		"t right":               {Form: TShape, Across: 72 * cm, Along: 60 * cm, EarAcross: 8 * cm, EarAlong: 14 * cm, Ears: EarRight},
		"l":                     {Form: LShape, Across: 90 * cm, Along: 70 * cm, EarAcross: 30 * cm, EarAlong: 20 * cm},
		"rounded":               {Form: Rounded, Across: 50 * cm, Along: 45 * cm, Radius: 6 * cm},
		"circle":                {Form: Circle, Across: 40 * cm, Along: 40 * cm},
		"d":                     {Form: DShape, Across: 44 * cm, Along: 46 * cm},
		"outline":               {Form: Outline, Points: []geom.Point{{}, {Across: 50 * cm, Along: 5 * cm}, {Across: 60 * cm, Along: 40 * cm}, {Across: 30 * cm, Along: 30 * cm}, {Across: 5 * cm, Along: 45 * cm}}},
		"outline the other way": {Form: Outline, Points: []geom.Point{{}, {Along: 30 * cm}, {Across: 50 * cm, Along: 40 * cm}, {Across: 60 * cm, Along: 5 * cm}}},
	}
}

// Areas and bounds are those of an independent polygon library, for the drawn
// outline; arcs are drawn as chords, of which a quarter has twelve: a circle then
// lacks 0.29 % of its area.
func TestAreaAgainstPolygonLibrary(t *testing.T) {
	for name, s := range shapes() {
		for _, over := range []length.Length{0, 6 * mm, 12*mm + 1} {
			g := s.Grown(over)
			var ring orb.Ring
			for _, p := range g.Path() {
				ring = append(ring, orb.Point(p))
			}
			ring = append(ring, ring[0])
			got, want := g.Area().MM2(), math.Abs(planar.Area(ring))
			slack := 1e-6
			if g.Area().Pi > 0 {
				slack = 3e-3
				if got < want {
					t.Errorf("%s: the area %g is less than that of its chords, %g", name, got, want)
				}
			}
			if math.Abs(got-want) > want*slack+4 { // measures go up to a whole micrometre: at most 4 mm² of 2 m of edge
				t.Errorf("%s + %v: area %g, the library has %g", name, over, got, want)
			}
			w, h := g.Bounds()
			b := ring.Bound()
			if math.Abs(b.Max[0]-b.Min[0]-w.MM()) > 1e-3 || math.Abs(b.Max[1]-b.Min[1]-h.MM()) > 1e-3 {
				t.Errorf("%s + %v: bounds %v × %v, the library has %v", name, over, w, h, b)
			}
		}
	}
}

// A grown shape keeps every corner of the old one at least the over-cut inside
// it: the library measures from the old corners to the new outline.
func TestGrownKeepsItsDistance(t *testing.T) {
	const by = 9 * mm
	for name, s := range shapes() {
		if s.Form == Outline {
			continue // drawn from its own corner: see TestGrownOutline
		}
		g := s.Grown(by)
		var ring orb.Ring
		for _, p := range g.Path() {
			ring = append(ring, orb.Point(p))
		}
		ring = append(ring, ring[0])
		dx, dy := by.MM(), by.MM()
		if s.Form == Trapezoid { // the wider end decides
			w, _ := s.Bounds()
			v, _ := g.Bounds()
			dx = (v - w).MM() / 2
		}
		slack := 0.02
		if s.Form == Rounded || s.Form == Circle || s.Form == DShape {
			slack = 1.2 // of chords
		}
		for _, p := range s.Path() {
			q := orb.Point{p[0] + dx, p[1] + dy}
			if d := planar.DistanceFrom(orb.LineString(ring), q); !planar.RingContains(ring, q) || d < by.MM()-slack {
				t.Errorf("%s: the corner %v lies %g mm from the new outline", name, p, d)
			}
		}
	}
}

func TestGrownOutline(t *testing.T) {
	square := Shape{Form: Outline, Points: []geom.Point{{}, {Across: 10 * cm}, {Across: 10 * cm, Along: 10 * cm}, {Along: 10 * cm}}}
	g := square.Grown(5 * mm)
	if fmt.Sprint(g.Points) != fmt.Sprint([]geom.Point{{Across: -5 * mm, Along: -5 * mm}, {Across: 105 * mm, Along: -5 * mm}, {Across: 105 * mm, Along: 105 * mm}, {Across: -5 * mm, Along: 105 * mm}}) {
		t.Errorf("%v", g.Points)
	}
	bow := []geom.Point{{}, {Across: 10 * cm, Along: 10 * cm}, {Across: 10 * cm}, {Along: 10 * cm}}
	if soundOutline(bow) || !soundOutline(square.Points) || soundOutline([]geom.Point{{}, {Across: 50 * cm, Along: 1 * cm}, {Across: 50 * cm}}) {
		t.Error("an outline is taken wrongly")
	}
}

// An outline has the same area wherever it lies, on either side of where it is
// measured from.
func TestAreaDoesNotHangOnThePlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		um := func(name string) length.Length {
			return length.Length(rapid.Int64Range(-1e6, 1e6).Draw(t, name)) * length.Micrometre
		}
		s := shapes()["outline"]
		moved := Shape{Form: Outline}
		dx, dy := um("across"), um("along")
		for _, p := range s.Points {
			moved.Points = append(moved.Points, geom.Point{Across: p.Across + dx, Along: p.Along + dy})
		}
		if got, want := moved.Area(), s.Area(); got != want {
			t.Fatalf("moved by %v and %v it has %v, and %v where it was", dx, dy, got, want)
		}
	})
}

var usual = gluing(practice.Defaults())

// Hand-worked laminations.
func TestNearest(t *testing.T) {
	options := []Option{{100 * mm, 40}, {50 * mm, 22}, {25 * mm, 13}}
	list := usual.Laminations(options)
	for _, tc := range []struct {
		want, got length.Length
		counts    string
	}{
		{100 * mm, 100 * mm, "[1 0 0]"}, // 40, where two of 50 cost 44
		{150 * mm, 150 * mm, "[1 1 0]"},
		{125 * mm, 125 * mm, "[1 0 1]"},
		{110 * mm, 100 * mm, "[1 0 0]"},
		{112*mm + mm/2, 125 * mm, "[1 0 1]"}, // as near to 100: the thicker
		{3 * mm, 25 * mm, "[0 0 1]"},
		{600 * mm, 600 * mm, "[6 0 0]"},
		{5000 * mm, 600 * mm, "[6 0 0]"},
	} {
		if l := Nearest(list, tc.want); l.Thickness != tc.got || fmt.Sprint(l.Counts) != tc.counts {
			t.Errorf("%v: %v by %v, want %v by %s", tc.want, l.Thickness, l.Counts, tc.got, tc.counts)
		}
	}
	same := usual.Laminations([]Option{{50 * mm, 20}, {100 * mm, 40}})
	if l := Nearest(same, 100*mm); l.Layers != 1 {
		t.Errorf("%d layers where one costs as much", l.Layers)
	}
}

// No choice of layers that may be glued comes nearer, costs less at that thickness,
// or has fewer layers at that cost: held against a plain sum over all counts of two
// thicknesses.
func TestLaminationIsTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		options := []Option{
			{length.Length(rapid.Int64Range(3, 120).Draw(t, "a")) * mm, rapid.Int64Range(1, 50).Draw(t, "ca")},
			{length.Length(rapid.Int64Range(121, 300).Draw(t, "b")) * mm, rapid.Int64Range(1, 50).Draw(t, "cb")},
		}
		want := length.Length(rapid.Int64Range(1, 900).Draw(t, "want")) * mm
		got := Nearest(usual.Laminations(options), want)
		off := func(l length.Length) length.Length { return max(l-want, want-l) }
		for a := range usual.Layers + 1 {
			for b := range usual.Layers + 1 - a {
				thick := length.Length(a)*options[0].Thickness + length.Length(b)*options[1].Thickness
				cost := int64(a)*options[0].Cost + int64(b)*options[1].Cost
				switch {
				case a+b == 0, a+b > 1 && a > 0 && options[0].Thickness < usual.Thin:
				case off(thick) < off(got.Thickness), thick == got.Thickness && cost < got.Cost,
					thick == got.Thickness && cost == got.Cost && a+b < got.Layers:
					t.Fatalf("%v: %+v, but %d and %d make %v for %d", want, got, a, b, thick, cost)
				}
			}
		}
	})
}

// sixOf reports whether so many layers of one of the sheets, six at most and none
// thin beside another, come within half a sheet of a thickness.
func sixOf(job *Job, want length.Length) bool {
	for _, s := range job.Stock {
		for n := length.Length(1); n <= 6; n++ {
			off := want - n*s.Thickness
			if (n == 1 && want < 10*mm || s.Thickness >= 10*mm) && off <= s.Thickness/2 {
				return true
			}
		}
	}
	return false
}

// Whatever is on sale and wanted, no answer has many layers or thin ones glued, and
// what cannot be made without them is refused where its thickness is given.
func TestNoAbsurdLayers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := &Job{Foams: []Foam{{ID: "F", Density: 35_000}}, Effort: Quick}
		for i := range rapid.IntRange(1, 3).Draw(t, "stock") {
			job.Stock = append(job.Stock, Stock{ID: fmt.Sprint(i), Across: 1200 * mm, Along: 2000 * mm,
				Thickness: length.Length(rapid.Int64Range(3, 40).Draw(t, "thick")) * mm})
		}
		it := Item{ID: "A", Count: 1, Place: Pad, Shape: shapes()["rectangle"], Thickness: length.Length(rapid.Int64Range(3, 300).Draw(t, "wanted")) * mm}
		if rapid.Bool().Draw(t, "topped") && it.Thickness > 12*mm {
			it.Top = &Top{Thickness: it.Thickness / 4, Both: rapid.Bool().Draw(t, "both")}
		}
		job.Items = []Item{it}
		l := Faults(job)
		if it.Top == nil && (l.Len() == 0) != sixOf(job, it.Thickness) {
			t.Fatalf("%v of %+v: %+v", it.Thickness, job.Stock, l.Faults())
		}
		if l.Len() > 0 {
			f := l.Faults()[0]
			if l.Len() > 1 || f.Code != fault.TooLarge || f.Given == "" || f.Try == "" ||
				f.Pointer() != "#/items/0/thickness" && f.Pointer() != "#/items/0/top/thickness" {
				t.Fatalf("%+v", l.Faults())
			}
			return
		}
		r, err := Solve(job, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, top := range []bool{false, true} {
			layers, thinnest := 0, length.Metre
			for _, y := range r.Cuts[0].Layers {
				if y.Top == top {
					layers, thinnest = layers+y.Count, min(thinnest, y.Thickness)
				}
			}
			if top && it.Top != nil && it.Top.Both {
				layers /= 2
			}
			if layers > 6 || layers > 1 && thinnest < 10*mm {
				t.Fatalf("%v of %+v: %+v", it.Thickness, job.Stock, r.Cuts[0].Layers)
			}
		}
	})
}

// A workroom that glues more and thinner layers is answered.
func TestOwnGluing(t *testing.T) {
	job := &Job{Foams: []Foam{{ID: "F", Density: 35_000}},
		Stock: []Stock{{ID: "S", Across: 1000 * mm, Along: 2000 * mm, Thickness: 3 * mm}},
		Items: []Item{{ID: "A", Count: 1, Place: Pad, Thickness: 36 * mm, Shape: Shape{Across: 62 * cm, Along: 47 * cm}}}}
	if l := Faults(job); l.Len() != 1 {
		t.Fatalf("%+v", l.Faults())
	}
	job.Shop = practice.Defaults().With(practice.FoamLayers.Give(12), practice.FoamThinLayer.Give(3*mm))
	l := Faults(job)
	if r, err := Solve(job, nil); l.Len() > 0 || err != nil || r.Cuts[0].Layers[0].Count != 12 {
		t.Errorf("%+v, %v", l.Faults(), err)
	}
}

// Six pieces of 62 × 47 cm stand two by three on a sheet of 1 × 2 m, at any effort,
// though each by itself lies tighter the other way.
func TestEvenGrid(t *testing.T) {
	for _, e := range []Effort{Quick, Normal, Thorough} {
		job := &Job{Foams: []Foam{{ID: "F", Density: 35_000}}, Effort: e,
			Stock: []Stock{{ID: "S", Across: 1000 * mm, Along: 2000 * mm, Thickness: 50 * mm}},
			Items: []Item{{ID: "A", Count: 6, Place: Pad, Thickness: 50 * mm, Shape: Shape{Across: 62 * cm, Along: 47 * cm}}}}
		r, err := Solve(job, nil)
		if err != nil || len(r.Groups[0].Nest.Sheets) != 1 || !r.Proven() {
			t.Errorf("effort %d: %v, %+v", e, err, r.Groups)
		}
	}
}

// A saw has room where every row of pieces may be drawn apart by what it takes, and
// only what was nested without a kerf is warned of.
func TestNoRoomForSaw(t *testing.T) {
	for _, tc := range []struct {
		name          string
		count         int
		across, along length.Length
		kerf          length.Length
		want          int
	}{
		{"fills the width", 2, 500 * mm, 400 * mm, 0, 1},
		{"a millimetre to spare", 2, 999 * mm / 2, 400 * mm, 0, 1},
		{"3 mm to spare", 2, 997 * mm / 2, 400 * mm, 0, 0},
		{"one alone may fill it", 1, 1000 * mm, 2000 * mm, 0, 0},
		{"fills the length", 4, 900 * mm, 500 * mm, 0, 1},
		{"with room for both cuts", 3, 900 * mm, 1994 * mm / 3, 0, 0},
		{"two sheets, and one piece on a third", 5, 500 * mm, 2000 * mm, 0, 2},
		{"a kerf", 2, 997 * mm / 2, 400 * mm, 3 * mm, 0},
		{"a kerf smaller than the saw", 2, 999 * mm / 2, 400 * mm, mm, 0},
	} {
		job := &Job{Foams: []Foam{{ID: "F", Density: 35_000}}, Shop: practice.Defaults().With(practice.FoamKerf.Give(tc.kerf)),
			Stock: []Stock{{ID: "S", Across: 1000 * mm, Along: 2000 * mm, Thickness: 50 * mm}},
			Items: []Item{{ID: "A", Count: tc.count, Place: Pad, Thickness: 50 * mm, Shape: Shape{Across: tc.across, Along: tc.along}}}}
		r, err := Solve(job, nil)
		if err != nil {
			t.Fatal(err)
		}
		if got := job.NoRoomForSaw(r); got != tc.want {
			t.Errorf("%s: %d sheets, want %d: %+v", tc.name, got, tc.want, r.Groups[0].Nest.Sheets)
		}
	}
}

func drawJob(t *rapid.T) *Job {
	job := &Job{Foams: []Foam{{ID: "F", Density: 35_000}, {ID: "S", Density: 22_000}}, Shop: practice.Defaults().With(practice.FoamKerf.Give(3 * mm)), Currency: rapid.SampledFrom([]money.Currency{money.None, gbp()}).Draw(t, "currency"), Effort: Quick}
	n := rapid.IntRange(1, 3).Draw(t, "stock")
	for f := range 2 {
		for i := range n {
			s := drawStock(t, f)
			if i == 0 { // thick enough for all that is drawn
				s.Thickness = max(s.Thickness, 50*mm)
			}
			job.Stock = append(job.Stock, s)
		}
	}
	all := shapes()
	for i := range rapid.IntRange(1, 3).Draw(t, "items") {
		name := rapid.SampledFrom([]string{"rectangle", "trapezoid", "t", "l", "rounded", "circle", "d", "outline"}).Draw(t, "shape")
		it := Item{ID: fmt.Sprint(i), Count: rapid.IntRange(1, 3).Draw(t, "count"), Shape: all[name],
			Thickness: length.Length(rapid.Int64Range(30, 200).Draw(t, "thick")) * mm, Place: Place(rapid.IntRange(0, 4).Draw(t, "place"))}
		if rapid.Bool().Draw(t, "topped") {
			it.Top = &Top{Foam: 1, Thickness: 12 * mm, Both: rapid.Bool().Draw(t, "both")}
		}
		job.Items = append(job.Items, it)
	}
	return job
}

func drawStock(t *rapid.T, f int) Stock {
	return Stock{Foam: f, Across: length.Length(rapid.Int64Range(1000, 1500).Draw(t, "w")) * mm, Along: length.Length(rapid.Int64Range(1000, 2100).Draw(t, "h")) * mm,
		Thickness: rapid.SampledFrom([]length.Length{12 * mm, 25 * mm, 50 * mm, 100 * mm}).Draw(t, "t"), Price: decimal.New(rapid.Int64Range(1, 900).Draw(t, "price"), -1)}
}

func solved(t *rapid.T, job *Job) *Result {
	if l := Faults(job); l.Len() > 0 {
		t.Fatal(l.Faults())
	}
	r, err := Solve(job, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// What holds of every answer: the layers make the thickness, every layer of every
// copy is nested once, nothing overlaps, and the cost is that of the sheets.
func TestSolveHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := drawJob(t)
		r := solved(t, job)
		layers := 0
		for i, c := range r.Cuts {
			sum := length.Length(0)
			for _, l := range c.Layers {
				sum += length.Length(l.Count) * l.Thickness
				layers += l.Count * job.Items[i].Count
			}
			if sum != c.Thickness || c.Off != sum-job.Items[i].Wanted() {
				t.Fatalf("%+v", c)
			}
		}
		cost := int64(0)
		for _, g := range r.Groups {
			layers -= len(g.Pieces)
			if flaws := sheet.Check(g.Sizes, g.Kinds, job.Shop.Length(practice.FoamKerf), g.Nest.Sheets); flaws != nil {
				t.Fatal(flaws)
			}
			for _, b := range g.Buy() {
				if job.Priced() {
					cost += counted(job.Stock[b.Stock].Price) * int64(b.Count)
				}
			}
		}
		if layers != 0 || job.Priced() && cost != r.Cost {
			t.Fatalf("%d layers over, cost %d of %d", layers, r.Cost, cost)
		}
	})
}

// A bigger cushion never weighs less.
func TestBiggerNeverWeighsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := drawJob(t)
		job.Items = job.Items[:1]
		job.Items[0].Count = 1
		before := solved(t, job).Grams
		more := length.Length(rapid.Int64Range(1, 40).Draw(t, "more")) * mm
		it := &job.Items[0]
		switch rapid.IntRange(0, 2).Draw(t, "what") {
		case 0:
			it.Thickness += more
		case 1:
			it.Over = &more
			*it.Over += it.Fit.Over(it.Place, practice.Defaults())
		default:
			it.Shape = it.Shape.Grown(more / 2)
		}
		if after := solved(t, job).Grams; after < before {
			t.Fatalf("%d g, and %d g when it is bigger", before, after)
		}
	})
}

// parts are how thick a core and its tops are.
func parts(c Cut) (thick [2]length.Length) {
	for _, l := range c.Layers {
		n := 0
		if l.Top {
			n = 1
		}
		thick[n] += l.Thickness * length.Length(l.Count)
	}
	return thick
}

// Another size of sheet never costs more, where cores and tops stay as thick
// as they were.
func TestAnotherSheetNeverCostsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := drawJob(t)
		before := solved(t, job)
		more := drawStock(t, rapid.IntRange(0, 1).Draw(t, "foam"))
		if rapid.Bool().Draw(t, "known") {
			more.Thickness = job.Stock[0].Thickness
			more.Foam = 0
		}
		job.Stock = append(job.Stock, more)
		after := solved(t, job)
		for i := range after.Cuts {
			if parts(after.Cuts[i]) != parts(before.Cuts[i]) { // a core or a top has come nearer to what is wanted
				return
			}
		}
		if after.Cost > before.Cost {
			t.Fatalf("%d, and %d with another sheet", before.Cost, after.Cost)
		}
	})
}

// The classes of use are those of BS 3379:2005, as FIRA prints them: X heavy
// contract seats, V contract and public seats, S domestic seats and contract backs
// and arms, A domestic backs and arms, L scatter cushions and padding.
func TestClassesOfUse(t *testing.T) {
	want := map[Use]string{HeavyContract: "XSSXL", Contract: "VSSVL", Domestic: "SAASL"}
	for use, classes := range want {
		var got strings.Builder
		for p := Seat; p <= Scatter; p++ {
			got.WriteString(Advise(p, use).Class)
		}
		if got.String() != classes {
			t.Errorf("use %d: %s, want %s", use, &got, classes)
		}
	}
}

// Pounds a cubic foot and pounds force by their definitions (international pound
// 0.453 592 37 kg, foot 0.3048 m, standard gravity 9.806 65 m/s²): 1.8 and 3.2
// lb/ft³, 30 and 20 lbf, the figures common practice names, without a source.
func TestLimitsInPounds(t *testing.T) {
	const perFoot, force = 0.45359237 / (0.3048 * 0.3048 * 0.3048) * 1000, 0.45359237 * 9.80665
	usual := practice.Defaults()
	for name, pair := range map[string][2]float64{
		"light seat": {float64(usual.Density(practice.FoamLightSeat)), 1.8 * perFoot}, "dense seat": {float64(usual.Density(practice.FoamDenseSeat)), 3.2 * perFoot},
		"soft seat": {float64(usual.Count(practice.FoamSoftSeat)), 30 * force}, "hard back": {float64(usual.Count(practice.FoamHardestBack)), 20 * force},
	} {
		if math.Abs(pair[0]-pair[1]) > pair[1]*0.005 {
			t.Errorf("%s: %g, want %g", name, pair[0], pair[1])
		}
	}
}

func TestConcerns(t *testing.T) {
	for _, tc := range []struct {
		place Place
		thick length.Length
		foam  Foam
		want  string
	}{
		{Seat, 100 * mm, Foam{Density: 35_000, Hardness: 160, At: 25}, "[]"},
		{Seat, 74 * mm, Foam{Density: 35_000}, "[too thin]"},
		{Seat, 100 * mm, Foam{Density: 28_000, Hardness: 120, At: 40}, "[too soft too light]"},
		{Seat, 100 * mm, Foam{Density: 60_000, Hardness: 160, At: 25}, "[too dense]"},
		{Back, 60 * mm, Foam{Density: 22_000, Hardness: 130, At: 25}, "[too hard]"},
		{Back, 60 * mm, Foam{Density: 22_000, Hardness: 130, At: 40}, "[]"},
		{Scatter, 60 * mm, Foam{Density: 14_999}, "[too light]"},
		{Arm, 10 * mm, Foam{Density: 100_001}, "[too dense]"},
	} {
		if got := fmt.Sprint(Concerns(tc.place, tc.thick, tc.foam, practice.Defaults())); got != tc.want {
			t.Errorf("%+v: %s, want %s", tc, got, tc.want)
		}
	}
}

// What is said of the groups adds up to what is said of all, in currencies of
// every smallest unit.
func TestGroupsAddUp(t *testing.T) {
	for _, code := range []string{"GBP", "JPY", "KWD"} {
		job := settee()
		job.Currency, _ = money.ParseCurrency(code)
		job.Stock[0].Price, job.Stock[1].Price = pounds("96.0055"), pounds("27.5055")
		r, err := Solve(job, nil)
		if err != nil {
			t.Fatal(err)
		}
		sum := decimal.Decimal{}
		for i := range r.Groups {
			sum = sum.Add(job.Money(&r.Groups[i]).Amount)
		}
		want := map[string]string{"GBP": "123.52", "JPY": "124", "KWD": "123.512"}[code] // 96.01 + 27.51; 96 + 28; 96.006 + 27.506
		if total := job.Total(r); !total.Amount.Equal(sum) || total.Text() != want {
			t.Errorf("%s: the groups add up to %s, all is said to be %s, want %s", code, sum, total.Text(), want)
		}
	}
}

func BenchmarkSettee(b *testing.B) {
	for b.Loop() {
		if _, err := Solve(settee(), nil); err != nil {
			b.Fatal(err)
		}
	}
}

// many are 500 cushions of as many sizes.
func many() *Job {
	job := settee()
	job.Items = nil
	for i := range 500 {
		job.Items = append(job.Items, Item{ID: fmt.Sprint(i), Count: 1, Thickness: 125 * mm,
			Shape: Shape{Across: length.Length(400+i*37%300) * mm, Along: length.Length(450+i*53%250) * mm}})
	}
	return job
}

func Benchmark500(b *testing.B) {
	for b.Loop() {
		if _, err := Solve(many(), nil); err != nil {
			b.Fatal(err)
		}
	}
}
