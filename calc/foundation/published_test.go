package foundation_test

import (
	"testing"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

const (
	mm = length.Millimetre
	cm = length.Centimetre
	in = length.Inch
)

// settings are the defaults by name.
func settings() map[string]practice.Setting {
	all := make(map[string]practice.Setting)
	for _, s := range foundation.Book().Settings() {
		all[s.Name] = s
	}
	return all
}

// plan answers one frame.
func plan(t testing.TB, job foundation.Job) foundation.Work {
	t.Helper()
	for i := range job.Frames {
		f := &job.Frames[i]
		if f.ID == "" {
			f.ID = "F"
		}
		f.Count = max(f.Count, 1)
	}
	if l := job.Faults(fault.Path{}); l.Len() > 0 {
		t.Fatalf("faults: %+v", l.Faults())
	}
	return foundation.Plan(job)
}

func size(name string, v length.Length) practice.Given {
	return practice.Given{Name: name, Value: int64(v)}
}

// Defaults that are published figures.
func TestPublishedDefaults(t *testing.T) {
	all := settings()
	for _, c := range []struct {
		source, name string
		want         int64
	}{
		{"upholstery textbook, 1961: gap of 2 1/4 in, one web", "web-gap", int64(9 * in / 4)},
		{"upholstery textbook, 1961: gap of 2 1/4 in, one web", "web-width", int64(9 * in / 4)},
		{"upholstery textbook, 1961: 5 tacks on the folded start", "web-tacks-start", 5},
		{"upholstery textbook, 1961: 4 + 2 tacks at the finish", "web-tacks-finish", 6},
		{"Johnson, 1919: webbing cut 1 in beyond and folded over", "web-turnover", int64(in)},
		{"Johnson, 1919: a piece of webbing is 72 yd", "web-roll", int64(72 * length.Yard)},
		{"Johnson, 1919: springs 5 in across", "spring-width", int64(5 * in)},
		{"Johnson, 1919: springs 3 in from the edge", "spring-edge", int64(3 * in)},
		{"upholstery textbook, 1961: about 2 in between top coils", "spring-gap", int64(2 * in)},
		{"Spons' Mechanics' Own Book: 6 in tied down to 4 1/2 in", "spring-tied", practice.One * 3 / 4},
		{"LandScape, 2016: improved tacks of 16 mm for webbing", "web-tack", int64(16 * mm)},
		{"LandScape, 2016: fine tacks of 13 mm for hessian", "hessian-tack", int64(13 * mm)},
		{"LandScape, 2016: 13 mm for the bottom", "bottoming-tack", int64(13 * mm)},
		{"LandScape, 2016: a lining at 50 mm", "bottoming-spacing", int64(50 * mm)},
		{"Johnson, 1919, and Univ. of New Hampshire: about 1 in in general", "cover-spacing", int64(in)},
		{"Johnson, 1919, and Univ. of New Hampshire: gimp tacks at 2 in", "gimp-pin-spacing", int64(2 * in)},
	} {
		if got := all[c.name].Default; got != c.want {
			t.Errorf("%s: %s is %d, want %d", c.source, c.name, got, c.want)
		}
	}
}

// Tacks are traded by rounded millimetres: 3/8, 1/2 and 5/8 in are 9.525, 12.7
// and 15.875 mm (computed), sold as 10, 13 and 16. Spons' gives 5/8 in for webs
// and 1/2 in for scrim, the textbook of 1961 3/8 in for all but webbing.
func TestTackSizesAreThoseOfTheTrade(t *testing.T) {
	all := settings()
	for name, exact := range map[string]length.Length{"web-tack": in * 5 / 8, "scrim-tack": in / 2, "cover-tack": in * 3 / 8, "calico-tack": in * 3 / 8} {
		if got := length.Length(all[name].Default); got < exact || got-exact > mm/2 {
			t.Errorf("%s is %v, want %v rounded up", name, got, exact)
		}
	}
}

// Tacks by the ounce: Noyes, Handwork in Wood, 1910, to 6 oz; 8 oz from trade
// text, 10 to 14 oz from memory. Those of the trade by the millimetre are near.
func TestTacksByTheOunce(t *testing.T) {
	for size, want := range map[length.Length]int{
		in / 4: 2, in * 3 / 8: 3, in * 7 / 16: 4, in / 2: 6, in * 9 / 16: 8, in * 5 / 8: 10, in * 11 / 16: 12, in * 3 / 4: 14,
		10 * mm: 3, 13 * mm: 6, 16 * mm: 10, 25 * mm: 0, 3 * mm: 0,
	} {
		if got := foundation.Ounces(size); got != want {
			t.Errorf("tacks of %v are of %d oz, want %d", size, got, want)
		}
	}
}

// A chair of the early twentieth century (trade text): seat of 6 by 8 webs and 16
// springs, back of 6 by 9 webs and springs in rows of 4 and 3. What is told is
// laid as told; the sizes are from memory.
func TestQuaintEasyChair(t *testing.T) {
	w := plan(t, foundation.Job{Frames: []foundation.Frame{
		{ID: "S", Front: 30 * in, Depth: 30 * in, WebsAcross: 6, WebsAlong: 8, EdgeRows: -1},
		{ID: "B", Part: foundation.Back, Front: 29 * in, Depth: 26 * in, WebsAcross: 9, WebsAlong: 6, Springs: []int{4, 3}, EdgeRows: -1},
	}})
	seat, back := w.Built[0], w.Built[1]
	if len(seat.Webbing.Webs) != 14 || len(seat.Grid.Centres) != 16 {
		t.Errorf("the seat has %d webs and %d springs", len(seat.Webbing.Webs), len(seat.Grid.Centres))
	}
	if len(back.Webbing.Webs) != 15 || len(back.Grid.Centres) != 7 {
		t.Errorf("the back has %d webs and %d springs", len(back.Webbing.Webs), len(back.Grid.Centres))
	}
}

// Springs are made from 3 to 14 in (upholstery textbook, 1961); those advised
// without a rail are.
func TestAdvisedSpringsAreMade(t *testing.T) {
	for part := foundation.Seat; part <= foundation.Arm; part++ {
		for place := foundation.EasyChair; place <= foundation.Divan; place++ {
			h := plan(t, foundation.Job{Frames: []foundation.Frame{{Part: part, Place: place, Sprung: foundation.Yes, Front: 22 * in, Depth: 22 * in, EdgeRows: -1}}}).Built[0].Spring.Height
			if h < 3*in || h > 14*in {
				t.Errorf("part %v, place %v: springs of %v", part, place, h)
			}
		}
	}
}

// Johnson, Furniture Upholstery for Schools, 1919: webs of 3 1/2 in, springs 5
// in across and 3 in from the edge, so that the first web begins 3 + 2 1/2 − 1
// 3/4 = 3 3/4 in from the edge of the frame.
func TestJohnsonWebsUnderSprings(t *testing.T) {
	w := plan(t, foundation.Job{
		Frames: []foundation.Frame{{Front: 20 * in, Depth: 20 * in, UnderSprings: true, EdgeRows: -1}},
		Given:  []practice.Given{size("web-width", 7*in/2), size("web-inset", 0)},
	})
	b := w.Built[0]
	if !b.Webbing.WebsUnderSprings || b.Webbing.Along != b.Grid.Rows[0] {
		t.Fatalf("%d webs along under %v springs", b.Webbing.Along, b.Grid.Rows)
	}
	for _, web := range b.Webbing.Webs {
		if web.Number != 1 {
			continue
		}
		at := web.From.Across
		if web.Way == foundation.Across {
			at = web.From.Along
		}
		edge := at - 7*in/4
		if edge != 15*in/4 {
			t.Errorf("the first web begins %v from the edge, want 3 3/4 in", edge)
		}
	}
}

// Johnson, 1919: a strand of spring twine is 1 2/3 times the frame, and each
// spring is crossed by four.
func TestJohnsonTwine(t *testing.T) {
	for frame, want := range map[length.Length]length.Length{24 * in: 40 * in, 18 * in: 30 * in, 21 * in: 35 * in} {
		w := plan(t, foundation.Job{
			Frames: []foundation.Frame{{Front: frame, Depth: frame, Springs: []int{1}, Sprung: foundation.Yes, EdgeRows: -1}},
			Given:  []practice.Given{{Name: "lashing-ways", Kind: practice.Count, Value: 4}},
		})
		got := w.Built[0].Lashing
		one := got.Cord / 2 // a row and a column
		if got.Strands != 2 || one < want || one-want > want/1000 {
			t.Errorf("a frame of %v takes %d strands of %v, want 2 of %v", frame, got.Strands, one, want)
		}
	}
	w := plan(t, foundation.Job{Frames: []foundation.Frame{{Front: 24 * in, Depth: 24 * in, Springs: []int{3, 3, 3}, EdgeRows: -1}}})
	if got := w.Built[0].Lashing.Strands; got != 3+3+2*5 {
		t.Errorf("nine springs tied eight ways take %d strands, want 16", got)
	}
	railed := plan(t, foundation.Job{Frames: []foundation.Frame{{Front: 24 * in, Depth: 24 * in, Rail: 9 * in / 2, EdgeRows: -1}}})
	if got := railed.Built[0].Spring.Height; got != 9*in { // Johnson, 1919: twice the rail, 9 in usual
		t.Errorf("a rail of 4 1/2 in takes springs of %v, want 9 in", got)
	}
}

// Standard Wire Gauge, BS 3737:1964.
func TestWireGauges(t *testing.T) {
	for gauge, want := range map[int]float64{7: 4.470, 8: 4.064, 9: 3.658, 10: 3.251, 11: 2.946, 12: 2.642, 13: 2.337, 14: 2.032, 15: 1.829} {
		if got := foundation.WireOf(gauge).MM(); got != want {
			t.Errorf("gauge %d is %v mm, want %v", gauge, got, want)
		}
	}
	if foundation.WireOf(6) != 0 {
		t.Error("a gauge that is not in the table has a wire")
	}
}

// How many webs the books lay. Their frames are not given: those here are of
// usual sizes, from memory, so that these are bands.
func TestPublishedWebCounts(t *testing.T) {
	const gap, web = 9 * in / 4, 9 * in / 4
	for _, c := range []struct {
		source      string
		span        length.Length
		least, most int
	}{
		{"upholstery textbook, 1961: easy chair seat, 5 or 6 webs", 24 * in, 5, 6},
		{"upholstery textbook, 1961: easy chair back, 4 webs", 20 * in, 4, 4},
		{"upholstery textbook, 1961: loose seat, 3 webs back to front", 15 * in, 3, 3},
		{"upholstery textbook, 1961: loose seat, 2 webs across", 11 * in, 2, 2},
		{"upholstery textbook, 1961: pin-cushion seat, 2 or 3 webs", 12 * in, 2, 3},
		{"Spons' Mechanics' Own Book: small chair, 3 webs", 15 * in, 3, 3},
		{"LandScape, 2016: seat of 3 by 3 webs", 15 * in, 3, 3},
	} {
		if got := foundation.WebCount(c.span, web, gap); got < c.least || got > c.most {
			t.Errorf("%s: %d webs on %v", c.source, got, c.span)
		}
	}
	// University of New Hampshire: webs of 3 1/2 in, 2 across and 2 or 3 front to back.
	if n := foundation.WebCount(16*in, 7*in/2, 7*in/2); n < 2 || n > 3 {
		t.Errorf("University of New Hampshire: %d webs of 3 1/2 in on 16 in", n)
	}
}

// How many springs the books set.
func TestPublishedSpringCounts(t *testing.T) {
	count := func(span length.Length) int { return foundation.SpringCount(span, 5*in, 3*in, 2*in, 12*mm) }
	if n := count(22 * in); n != 3 { // upholstery textbook, 1961: nine in an easy chair
		t.Errorf("%d springs in a row of an easy chair, want 3", n)
	}
	if n := count(36 * in); n < 4 || n > 5 { // trade text: a divan of 3 ft, 4 or 5 to a slat
		t.Errorf("%d springs over 3 ft", n)
	}
	if n := count(54 * in); n < 6 || n > 7 { // trade text: a divan of 4 ft 6 in, 6 or 7 to a slat
		t.Errorf("%d springs over 4 ft 6 in", n)
	}
}

// Which springs the books set, by place.
func TestPublishedSprings(t *testing.T) {
	frame := foundation.Frame{Front: 22 * in, Depth: 22 * in, EdgeRows: -1}
	for _, c := range []struct {
		source string
		set    func(*foundation.Frame)
		height length.Length
		gauge  string
		tied   length.Length
	}{
		{"upholstery textbook, 1961: 10 in × 8 in an easy chair", func(*foundation.Frame) {}, 10 * in, "8", 15 * in / 2},
		{"upholstery textbook, 1961: 6 in × 12 in its back", func(f *foundation.Frame) { f.Part = foundation.Back }, 6 * in, "12", 9 * in / 2},
		{"Spons' and Furniture for the Craftsman: small chair", func(f *foundation.Frame) { f.Place = foundation.SmallChair }, 6 * in, "10½", 9 * in / 2},
		{"trade text: divan, 6 to 7 in × 12", func(f *foundation.Frame) { f.Place = foundation.Divan }, 7 * in, "12", 21 * in / 4},
		{"Johnson, 1919: twice the rail", func(f *foundation.Frame) { f.Rail = 9 * in / 2 }, 9 * in, "8", 27 * in / 4},
	} {
		f := frame
		c.set(&f)
		got := plan(t, foundation.Job{Frames: []foundation.Frame{f}}).Built[0].Spring
		if got.Height != c.height || got.Gauge != c.gauge || got.Tied != c.tied || got.Source == "" {
			t.Errorf("%s: %+v", c.source, got)
		}
	}
}

// Hair in a seat: 1/2 to 1 lb in a dining drop-in, 1 1/2 to 2 lb in a
// stuff-over seat, 8 to 12 lb in an easy chair (common practice, no source).
// Sizes and depths are usual ones, from memory.
func TestHairByCommonPractice(t *testing.T) {
	const pound = 453_592 // mg
	for _, c := range []struct {
		name         string
		front, depth length.Length
		first, extra length.Length
		least, most  float64
	}{
		{"drop-in", 15 * in, 14 * in, 25 * mm, 5 * mm, 0.5, 1},
		{"stuff-over", 18 * in, 16 * in, 38 * mm, 12 * mm, 1.5, 2},
	} {
		w := plan(t, foundation.Job{
			Frames: []foundation.Frame{{Front: c.front, Depth: c.depth, Place: foundation.DropIn, EdgeRows: -1}},
			Given:  []practice.Given{size("seat-first-depth", c.first), size("seat-second-depth", c.extra)},
		})
		if got := float64(w.Built[0].Stuffing) / pound; got < c.least || got > c.most {
			t.Errorf("%s: %.2f lb of hair, want %v to %v", c.name, got, c.least, c.most)
		}
	}
	// An easy chair: seat, back and two arms.
	w := plan(t, foundation.Job{Frames: []foundation.Frame{
		{ID: "S", Front: 22 * in, Depth: 22 * in, EdgeRows: -1},
		{ID: "B", Part: foundation.Back, Front: 20 * in, Depth: 28 * in, EdgeRows: -1},
		{ID: "A", Part: foundation.Arm, Count: 2, Front: 21 * in, Depth: 12 * in, EdgeRows: -1},
	}})
	if got := float64(w.Totals.Stuffing) / pound; got < 8 || got > 12 {
		t.Errorf("easy chair: %.2f lb of hair, want 8 to 12", got)
	}
}
