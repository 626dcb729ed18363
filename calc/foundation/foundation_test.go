package foundation_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

func ExamplePlan() {
	w := foundation.Plan(foundation.Job{Frames: []foundation.Frame{{
		ID: "SEAT", Count: 1, Shape: foundation.Trapezoid,
		Front: 60 * length.Centimetre, Back: 52 * length.Centimetre, Depth: 58 * length.Centimetre, EdgeRows: -1,
	}}})
	b := w.Built[0]
	fmt.Println(b.Webbing.Along, "webs front to back,", b.Webbing.Across, "across:", b.Webbing.Total.Text(length.Metric, length.Up))
	fmt.Println(len(b.Grid.Centres), "springs of", b.Spring.Height.Text(length.Imperial, length.Nearest), "gauge", b.Spring.Gauge)
	fmt.Println(b.Lashing.Strands, "strands of cord:", b.Lashing.Cord.Text(length.Metric, length.Up))
	// Output:
	// 5 webs front to back, 5 across: 6.97 m
	// 8 springs of 10 in gauge 8
	// 16 strands of cord: 15.439 m
}

func TestOutlines(t *testing.T) {
	for _, c := range []struct {
		name      string
		f         foundation.Frame
		perimeter float64
		area      float64
	}{
		{"rectangle", foundation.Frame{Front: 50 * cm, Depth: 40 * cm}, 1800, 200_000},
		{"trapezoid of a 3-4-5 triangle at each side", foundation.Frame{Shape: foundation.Trapezoid, Front: 100 * cm, Back: 40 * cm, Depth: 40 * cm}, 2400, 280_000},
		{"circle", foundation.Frame{Shape: foundation.Circle, Front: 40 * cm}, math.Pi * 400, math.Pi * 40_000},
		{"D", foundation.Frame{Shape: foundation.DShape, Front: 40 * cm, Depth: 50 * cm}, 1000 + math.Pi*200, 400*300 + math.Pi*20_000},
		{"D that is half a circle", foundation.Frame{Shape: foundation.DShape, Front: 40 * cm, Depth: 20 * cm}, 400 + math.Pi*200, math.Pi * 20_000},
	} {
		if got := c.f.Perimeter().MM(); got < c.perimeter-1e-6 || got > c.perimeter+0.0011 {
			t.Errorf("%s: perimeter %v, want %v rounded up", c.name, got, c.perimeter)
		}
		if got := c.f.Area(); math.Abs(got-c.area) > 1e-6 {
			t.Errorf("%s: area %v, want %v", c.name, got, c.area)
		}
	}
}

// Webs on a trapezoid fan as its sides do: the fourth part of the front goes to
// the fourth part of the back.
func TestWebsFollowATrapezoid(t *testing.T) {
	w := plan(t, foundation.Job{
		Frames: []foundation.Frame{{Shape: foundation.Trapezoid, Front: 100 * cm, Back: 40 * cm, Depth: 40 * cm, WebsAlong: 3, WebsAcross: 1, EdgeRows: -1}},
		Given:  []practice.Given{size("web-inset", 0), size("web-hand-hold", 0), size("web-turnover", 0), size("web-width", 40*mm)},
	}).Built[0].Webbing
	// gaps: (1000 − 120) / 4 = 220 at the front, (400 − 120) / 4 = 70 at the back
	if w.GapFront != 220*mm || w.GapBack != 70*mm {
		t.Errorf("gaps of %v and %v", w.GapFront, w.GapBack)
	}
	var along []foundation.Web
	for _, web := range w.Webs {
		if web.Way == foundation.Along {
			along = append(along, web)
		} else if web.Span != 70*cm {
			t.Errorf("the web across is %v, want the mean width of 70 cm", web.Span)
		}
	}
	first := along[0] // from 300 + 70 + 20 at the back to 220 + 20 at the front: 150 aside over 400
	if first.From.Across != 390*mm || first.To.Across != 240*mm || math.Abs(first.Span.MM()-math.Hypot(150, 400)) > 0.0011 {
		t.Errorf("the first web is %+v", first)
	}
	if along[1].Span != 40*cm || along[2].Span != first.Span {
		t.Errorf("the middle web is %v, the last %v", along[1].Span, along[2].Span)
	}
}

// Elastic webs run one way and give: 550 mm strained by a tenth are cut 500.
func TestElasticWebs(t *testing.T) {
	w := plan(t, foundation.Job{
		Build:  foundation.Modern,
		Frames: []foundation.Frame{{Front: 550 * mm, Depth: 50 * cm, EdgeRows: -1}},
		Given:  []practice.Given{size("web-inset", 0), size("web-hand-hold", 0), size("web-turnover", 0)},
	})
	b := w.Built[0]
	if b.Webbing.Along != 0 || b.Webbing.Webs[0].Cut != 50*cm || len(b.Grid.Centres) != 0 || b.Twine.Total() != 0 || b.Stuffing != 0 {
		t.Errorf("%+v", b)
	}
	for _, p := range w.Panels {
		if p.Use == foundation.Scrim {
			t.Error("a modern build has scrim")
		}
	}
}

// Over and under by turns, whichever web is followed.
func TestInterlacing(t *testing.T) {
	for i := 1; i < 9; i++ {
		for j := 1; j < 9; j++ {
			if foundation.Over(i, j) == foundation.Over(i+1, j) || foundation.Over(i, j) == foundation.Over(i, j+1) {
				t.Errorf("web %d across web %d does not change sides at the next", i, j)
			}
		}
	}
}

// A rectangle by hand, piece by piece.
func TestByHand(t *testing.T) {
	w := plan(t, foundation.Job{Frames: []foundation.Frame{{
		ID: "S", Count: 2, Front: 50 * cm, Depth: 40 * cm, WebsAcross: 3, WebsAlong: 4, Sprung: foundation.No, EdgeRows: 2, ShowWood: true,
	}}, Given: []practice.Given{size("web-inset", 10*mm), size("web-turnover", 25*mm), size("web-hand-hold", 0), size("cover-spacing", 25*mm)}})
	b, sum := w.Built[0], w.Totals
	if b.Webbing.Total != 3*530*mm+4*430*mm || sum.Webbing != 2*b.Webbing.Total || sum.Rolls != 1 {
		t.Errorf("webbing %v, in all %v, %d rolls", b.Webbing.Total, sum.Webbing, sum.Rolls)
	}
	if b.Twine.Edge != 2*3*1800*mm || b.Twine.Springs != 0 {
		t.Errorf("twine %+v", b.Twine)
	}
	if b.Twine.Bridles != 2800*mm || b.Twine.Ties != 1600*mm+16*100*mm { // rows of 200 000 / 125 = 1600 mm, 16 ties
		t.Errorf("ties %+v", b.Twine)
	}
	if b.Stuffing != 1_200_000 { // 0.2 m² × 75 mm × 80 kg/m³
		t.Errorf("stuffing %d mg", b.Stuffing)
	}
	if b.Gimp != 1800*mm+100*mm+50*mm || sum.GimpOrder != 4*length.Metre {
		t.Errorf("gimp %v, order %v", b.Gimp, sum.GimpOrder)
	}
	got := make(map[foundation.Purpose]int64)
	for _, c := range b.Courses {
		got[c.Purpose] = c.Count
	}
	want := map[foundation.Purpose]int64{
		foundation.ForWebs: 77, foundation.ForHessian: 71, foundation.ForScrim: 71, foundation.ForCalico: 71,
		foundation.ForCover: 72, foundation.ForBottoming: 36, foundation.Temporary: 24, foundation.ForGimp: 36,
	}
	for p, n := range want {
		if got[p] != n {
			t.Errorf("%v: %d, want %d", p, got[p], n)
		}
	}
	if len(got) != len(want) {
		t.Errorf("courses %v", got)
	}
	// Temporary tacks are used again on the second frame.
	for _, f := range sum.Fixed {
		if f.Kind == foundation.Tack && f.Size == 10*mm && f.Count != 2*(71+72)+24 {
			t.Errorf("%d tacks of 10 mm", f.Count)
		}
	}
}

func TestFaults(t *testing.T) {
	good := func() foundation.Job {
		return foundation.Job{Frames: []foundation.Frame{{ID: "A", Count: 1, Front: 50 * cm, Depth: 40 * cm, EdgeRows: -1}}}
	}
	for _, c := range []struct {
		name  string
		spoil func(*foundation.Job)
		want  string
	}{
		{"nothing", func(j *foundation.Job) { j.Frames = nil }, "#/frames too-few"},
		{"one id twice", func(j *foundation.Job) { j.Frames = append(j.Frames, j.Frames[0]) }, "#/frames/1/id duplicate"},
		{"too small", func(j *foundation.Job) { j.Frames[0].Front = 9 * cm }, "#/frames/0/front too-small"},
		{"too deep", func(j *foundation.Job) { j.Frames[0].Depth = 5 * length.Metre }, "#/frames/0/depth too-large"},
		{"no depth", func(j *foundation.Job) { j.Frames[0].Depth = 0 }, "#/frames/0/depth missing"},
		{"a back width", func(j *foundation.Job) { j.Frames[0].Back = 40 * cm }, "#/frames/0/back not-allowed"},
		{"no back width", func(j *foundation.Job) { j.Frames[0].Shape = foundation.Trapezoid }, "#/frames/0/back missing"},
		{"a flat D", func(j *foundation.Job) { j.Frames[0].Shape, j.Frames[0].Depth = foundation.DShape, 20*cm }, "#/frames/0/depth too-small"},
		{"a deep circle", func(j *foundation.Job) { j.Frames[0].Shape = foundation.Circle }, "#/frames/0/depth not-allowed"},
		{"rail", func(j *foundation.Job) { j.Frames[0].Rail = mm }, "#/frames/0/rail too-small"},
		{"edge", func(j *foundation.Job) { j.Frames[0].EdgeRows = 9 }, "#/frames/0/edgeRows too-large"},
		{"springs in a drop-in", func(j *foundation.Job) { j.Frames[0].Place, j.Frames[0].Springs = foundation.DropIn, []int{2} }, "#/frames/0/springRows not-allowed"},
		{"modern springs", func(j *foundation.Job) { j.Build, j.Frames[0].Sprung = foundation.Modern, foundation.Yes }, "#/frames/0/sprung not-allowed"},
		{"webs under none", func(j *foundation.Job) { j.Frames[0].Sprung, j.Frames[0].UnderSprings = foundation.No, true }, "#/frames/0/layWebs not-allowed"},
		{"webs twice said", func(j *foundation.Job) { j.Frames[0].WebsAlong, j.Frames[0].UnderSprings = 3, true }, "#/frames/0/layWebs not-allowed"},
		{"webs that overlap", func(j *foundation.Job) { j.Frames[0].WebsAcross = 8 }, "#/frames/0/websAcross too-large"},
		{"webs that overlap along", func(j *foundation.Job) { j.Frames[0].WebsAlong = 9 }, "#/frames/0/websAlong too-large"},
		{"too many copies", func(j *foundation.Job) {
			for i := range 5 {
				f := j.Frames[0]
				f.ID, f.Count = fmt.Sprint(i), 50
				j.Frames = append(j.Frames, f)
			}
		}, "#/frames too-many"},
		{"too many webs", func(j *foundation.Job) {
			j.Frames[0].Front = 4 * length.Metre
			j.Given = []practice.Given{size("web-width", 20*mm), size("web-gap", 20*mm)}
		}, "#/frames/0 too-many"},
		{"a setting", func(j *foundation.Job) { j.Given = []practice.Given{size("web-gap", -1)} }, "#/settings/0/length too-small"},
	} {
		job := good()
		c.spoil(&job)
		l := job.Faults(fault.Path{})
		if l.Len() != 1 {
			t.Errorf("%s: %+v", c.name, l.Faults())
			continue
		}
		f := l.Faults()[0]
		if got := f.Pointer() + " " + string(f.Code); got != c.want || f.Detail == "" || f.Try == "" {
			t.Errorf("%s: %s (%s; %s), want %s", c.name, got, f.Detail, f.Try, c.want)
		}
	}
}

// Every setting has what an answer needs, and its default is within its limits.
func TestEverySettingIsWhole(t *testing.T) {
	seen := make(map[string]bool)
	for _, s := range foundation.Book().Settings() {
		if s.Name == "" || s.What == "" || s.Source == "" || seen[s.Name] || s.Default < s.Least || s.Default > s.Most {
			t.Errorf("%+v", s)
		}
		seen[s.Name] = true
	}
}

// Between them these jobs use every setting, and none that there is not.
func TestEverySettingIsUsed(t *testing.T) {
	frames := []foundation.Frame{
		{ID: "A", Count: 1, Front: 60 * cm, Depth: 60 * cm, EdgeRows: -1, ShowWood: true},
		{ID: "B", Count: 1, Front: 60 * cm, Depth: 60 * cm, EdgeRows: -1, Part: foundation.Back},
		{ID: "C", Count: 1, Front: 60 * cm, Depth: 60 * cm, EdgeRows: -1, Part: foundation.Arm},
	}
	used := make(map[string]bool)
	for _, b := range []foundation.Build{foundation.Traditional, foundation.Modern} {
		for _, fix := range []foundation.Fixing{foundation.Tacks, foundation.Staples} {
			for _, v := range foundation.Plan(foundation.Job{Build: b, Fixing: fix, Frames: frames}).Settings {
				used[v.Name] = true
			}
		}
	}
	for _, s := range foundation.Book().Settings() {
		if !used[s.Name] {
			t.Errorf("%s is never used", s.Name)
		}
	}
}

// figures are the totals that never get less for more.
func figures(w foundation.Work) map[string]int64 {
	t := w.Totals
	out := map[string]int64{
		"webbing": int64(t.Webbing), "rolls": t.Rolls, "springs": t.Springs, "lashing": int64(t.Lashing), "lashing balls": t.LashingBalls,
		"twine": int64(t.Twine), "twine balls": t.TwineBalls, "stuffing": t.Stuffing, "bags": t.StuffingBags, "gimp": int64(t.Gimp), "gimp order": int64(t.GimpOrder),
	}
	for _, f := range t.Fixed {
		out[fmt.Sprint(f.Kind, " ", f.Size)] = f.Count
		out[fmt.Sprint("boxes of ", f.Kind, " ", f.Size)] = f.Boxes
	}
	for _, p := range w.Panels {
		out[fmt.Sprint(p.Use, " ", p.Frame, " across")] = int64(p.Cut().Across)
		out[fmt.Sprint(p.Use, " ", p.Frame, " along")] = int64(p.Cut().Along)
	}
	return out
}

func drawFrame(t *rapid.T) foundation.Frame {
	f := foundation.Frame{
		ID: "F", Count: rapid.IntRange(1, 4).Draw(t, "count"), EdgeRows: rapid.IntRange(-1, 4).Draw(t, "edge"),
		Part:     foundation.Part(rapid.IntRange(0, 2).Draw(t, "part")),
		Place:    foundation.Place(rapid.IntRange(0, 3).Draw(t, "place")),
		Shape:    foundation.Shape(rapid.IntRange(0, 3).Draw(t, "shape")),
		Front:    length.Length(rapid.IntRange(100, 2000).Draw(t, "front")) * mm,
		ShowWood: rapid.Bool().Draw(t, "gimp"),
		Sprung:   foundation.Sprung(rapid.IntRange(0, 2).Draw(t, "sprung")),
	}
	switch f.Shape {
	case foundation.Trapezoid:
		f.Back = length.Length(rapid.IntRange(100, 2000).Draw(t, "back")) * mm
		f.Depth = length.Length(rapid.IntRange(100, 2000).Draw(t, "depth")) * mm
	case foundation.DShape:
		f.Depth = f.Front/2 + length.Length(rapid.IntRange(100, 1000).Draw(t, "depth"))*mm
	case foundation.Rectangle:
		f.Depth = length.Length(rapid.IntRange(100, 2000).Draw(t, "depth")) * mm
	}
	return f
}

// A bigger frame never needs less of anything, nor do more of them.
func TestBiggerNeverNeedsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		job := foundation.Job{
			Build:  foundation.Build(rapid.IntRange(0, 1).Draw(t, "build")),
			Fixing: foundation.Fixing(rapid.IntRange(0, 1).Draw(t, "fixing")),
			Frames: []foundation.Frame{f},
		}
		if f.Sprung == foundation.Yes && job.Build == foundation.Modern {
			t.Skip("no such frame")
		}
		bigger, splay := f, false
		switch rapid.IntRange(0, 3).Draw(t, "what grows") {
		case 0:
			more := length.Length(rapid.IntRange(1, 500).Draw(t, "by")) * mm
			bigger.Front += more
			switch f.Shape {
			case foundation.DShape:
				bigger.Depth += more
			case foundation.Trapezoid:
				bigger.Back += more
			}
		case 1:
			if f.Depth > 0 {
				bigger.Depth += length.Length(rapid.IntRange(1, 500).Draw(t, "by")) * mm
			}
		case 2:
			if f.Shape == foundation.Trapezoid {
				bigger.Back += length.Length(rapid.IntRange(1, 500).Draw(t, "by")) * mm
				splay = true
			}
		case 3:
			bigger.Count++
		}
		small := figures(foundation.Plan(job))
		job.Frames = []foundation.Frame{bigger}
		large := figures(foundation.Plan(job))
		for name, n := range small {
			if splay && (name == "webbing" || name == "rolls") {
				continue // webs that fan less are shorter
			}
			if name == "webbing" || name == "lashing" { // each web or strand is rounded up to the micrometre
				n -= 4 * 200 * int64(length.Micrometre)
			}
			if large[name] < n {
				t.Fatalf("%s: %d for %+v, but %d for %+v", name, n, f, large[name], bigger)
			}
		}
	})
}

// The totals are the sum of the parts, and every web lies within the frame.
func TestTotalsAreSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var job foundation.Job
		for i := range rapid.IntRange(1, 4).Draw(t, "frames") {
			f := drawFrame(t)
			f.ID = fmt.Sprint(i)
			job.Frames = append(job.Frames, f)
		}
		w := foundation.Plan(job)
		var webbing, lashing, twine, gimp length.Length
		var springs, stuffing, tacks, temporary int64
		for k, b := range w.Built {
			n := length.Length(job.Frames[k].Count)
			for _, web := range b.Webbing.Webs {
				webbing += n * web.Cut
				for _, p := range []geom.Point{web.From, web.To} {
					if p.Across < 0 || p.Along < 0 || p.Along > max(job.Frames[k].Depth, job.Frames[k].Front) {
						t.Fatalf("%+v ends outside the frame", web)
					}
				}
			}
			if got := len(b.Webbing.Webs); got != b.Webbing.Across+b.Webbing.Along {
				t.Fatalf("%d webs of %d and %d", got, b.Webbing.Across, b.Webbing.Along)
			}
			rows := 0
			for _, r := range b.Grid.Rows {
				rows += r
			}
			if rows != len(b.Grid.Centres) {
				t.Fatalf("%d springs in rows %v", len(b.Grid.Centres), b.Grid.Rows)
			}
			springs += int64(n) * int64(rows)
			lashing += n * b.Lashing.Cord
			twine += n * (b.Twine.Springs + b.Twine.Bridles + b.Twine.Ties + b.Twine.Edge)
			gimp += n * b.Gimp
			stuffing += int64(n) * b.Stuffing
			for _, c := range b.Courses {
				if c.Purpose == foundation.Temporary {
					temporary = max(temporary, c.Count)
					continue
				}
				tacks += int64(n) * c.Count
			}
		}
		all := int64(0)
		for _, f := range w.Totals.Fixed {
			all += f.Count
		}
		s := w.Totals
		if s.Webbing != webbing || s.Lashing != lashing || s.Twine != twine || s.Gimp != gimp || s.Springs != springs || s.Stuffing != stuffing || all != tacks+temporary {
			t.Fatalf("totals %+v are not the sums", s)
		}
	})
}

// No gap is wider than was asked for.
func TestWebCountKeepsTheGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := length.Length(rapid.Int64Range(1, 1<<32).Draw(t, "span"))
		web := length.Length(rapid.Int64Range(int64(20*mm), int64(200*mm)).Draw(t, "web"))
		gap := length.Length(rapid.Int64Range(0, int64(500*mm)).Draw(t, "gap"))
		n := length.Length(foundation.WebCount(span, web, gap))
		if n*web+(n+1)*gap < span {
			t.Fatalf("%d webs are too few", n)
		}
		if n > 1 && (n-1)*web+n*gap >= span {
			t.Fatalf("%d webs are too many", n)
		}
	})
}

// Springs never stand into one another by the rule.
func TestSpringsStandClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		f.Sprung, f.Part, f.Place, f.Shape = foundation.Yes, foundation.Seat, foundation.EasyChair, foundation.Rectangle
		f.Depth = max(f.Depth, 30*cm)
		f.Front = max(f.Front, 30*cm)
		g := foundation.Plan(foundation.Job{Frames: []foundation.Frame{f}}).Built[0].Grid
		if len(g.Centres) > 1 && (g.Over || g.Gap < 11*mm) {
			t.Fatalf("%+v", g)
		}
		if !slices.IsSorted(g.Rows) && !slices.Contains(g.Rows, g.Rows[0]) {
			t.Fatal("rows differ on a rectangle")
		}
	})
}

// Five springs stand as on a die, the middle one half a diagonal from the rest.
func TestFiveSprings(t *testing.T) {
	g := plan(t, foundation.Job{Frames: []foundation.Frame{{Front: 23 * in, Depth: 19 * in, Springs: []int{2, 1, 2}, EdgeRows: -1}}}).Built[0].Grid
	// Middles 5 1/2 in from the edges: 12 in and 8 in apart, so that half the diagonal is √(6² + 4²) in.
	want := (math.Sqrt(52) - 5) * 25.4
	if len(g.Centres) != 5 || g.Over || math.Abs(g.Gap.MM()-want) > 0.0011 {
		t.Errorf("%+v, want a gap of %v", g, want)
	}
}

// outlineOf is the outline as a polygon of many corners, worked out from the shape
// alone.
func outlineOf(f foundation.Frame) [][2]float64 {
	const n = 20_000
	front, back, depth := f.Front.MM(), f.Back.MM(), f.Depth.MM()
	var pts [][2]float64
	arc := func(x, y, r, from, to float64) {
		for i := range n + 1 {
			a := from + (to-from)*float64(i)/n
			pts = append(pts, [2]float64{x + r*math.Cos(a), y + r*math.Sin(a)})
		}
	}
	switch f.Shape {
	case foundation.Trapezoid:
		return [][2]float64{{-back / 2, 0}, {back / 2, 0}, {front / 2, depth}, {-front / 2, depth}}
	case foundation.Circle:
		arc(0, 0, front/2, 0, 2*math.Pi)
	case foundation.DShape:
		pts = append(pts, [2]float64{-front / 2, 0}, [2]float64{front / 2, 0})
		arc(0, depth-front/2, front/2, 0, math.Pi)
	default:
		return [][2]float64{{0, 0}, {front, 0}, {front, depth}, {0, depth}}
	}
	return pts
}

// Perimeter and area against the polygon: its sides, and the shoelace formula.
func TestOutlinesAgainstPolygons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		pts := outlineOf(f)
		around, twice := 0.0, 0.0
		for i, p := range pts {
			q := pts[(i+1)%len(pts)]
			around += math.Hypot(q[0]-p[0], q[1]-p[1])
			twice += p[0]*q[1] - q[0]*p[1]
		}
		if got := f.Perimeter().MM(); math.Abs(got/around-1) > 1e-5 {
			t.Fatalf("%+v: perimeter %v, of the polygon %v", f, got, around)
		}
		if got := f.Area(); math.Abs(got/(twice/2)-1) > 1e-5 {
			t.Fatalf("%+v: area %v, of the polygon %v", f, got, twice/2)
		}
	})
}

func wingChair() foundation.Job {
	return foundation.Job{Frames: []foundation.Frame{
		{ID: "SEAT", Count: 1, Shape: foundation.Trapezoid, Front: 62 * cm, Back: 54 * cm, Depth: 60 * cm, EdgeRows: -1, ShowWood: true},
		{ID: "IB", Count: 1, Part: foundation.Back, Front: 56 * cm, Depth: 76 * cm, EdgeRows: -1},
		{ID: "ARM", Count: 2, Part: foundation.Arm, Front: 54 * cm, Depth: 34 * cm, EdgeRows: -1},
		{ID: "WING", Count: 2, Part: foundation.Arm, Front: 24 * cm, Depth: 48 * cm, EdgeRows: -1},
	}}
}

func BenchmarkPlan(b *testing.B) {
	job := wingChair()
	for b.Loop() {
		foundation.Plan(job)
	}
}
