package verify_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/verify"
	"pgregory.net/rapid"
)

// TestCheckObjectsToAMillimetre lays panels by the formula of the lattice,
// upright and turned, at any drop and start, and then moves one by 1 mm.
func TestCheckObjectsToAMillimetre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(label string, lo, hi length.Length) length.Length {
			return length.Length(rapid.Int64Range(int64(lo), int64(hi)).Draw(t, label))
		}
		den := rapid.Int64Range(1, cloth.MaxDropDen).Draw(t, "den")
		d := cloth.Drop{Num: rapid.Int64Range(0, den-1).Draw(t, "num"), Den: den}
		// Columns and rows far enough apart that no other is a millimetre off.
		h, v := size("h", 30*mm, 900*mm), size("v", 30*mm, 900*mm)
		j := layout.Job{Cloth: onCloth(h, v, d, cloth.Motif{Across: size("across", 0, h-1), Along: size("along", 0, v-1)})}
		j.Cloth.Width = 20 * length.Metre
		j.Cloth.Railroad = cloth.RailroadAllowed
		start := size("start", 0, v-1)
		l := layout.Layout{Start: start}
		var y length.Length
		for i := range rapid.IntRange(1, 5).Draw(t, "panels") {
			p := one(fmt.Sprint("P", i), 0, 0, panel.Match{How: panel.Centred, Tolerance: size("tolerance", 0, mm/2)})
			p.Size = panel.Size{Across: size("size", mm, 2000*mm), Along: size("size", mm, 2000*mm)}
			p.Allow = panel.Sides{Top: size("top", 0, 90*mm), Left: size("left", 0, 90*mm)}
			p.Turn = rapid.SampledFrom([]panel.Turn{panel.Upright, panel.Half, panel.Quarter}).Draw(t, "turn")
			if rapid.Bool().Draw(t, "anchor") {
				p.Match.How, p.Match.Point = panel.Anchor, panel.Point{Across: p.Size.Across / 3, Along: p.Size.Along / 7}
			}
			j.Panels = append(j.Panels, p)
			column := int64((2500*mm)/h) + 1
			pl := fit(j, i, 1, p.Turn, 0, column, 0, start)
			down := (y-pl.Y)/v + 2
			pl.Y += down * v
			pl.Motif.Y += down * v
			y = pl.Y + pl.Along
			l.Placements = append(l.Placements, pl)
		}
		l.Length = y
		if flaws := verify.Check(j, l); flaws != nil {
			t.Fatalf("a right plan has flaws: %v", flaws)
		}
		moved := rapid.IntRange(0, len(l.Placements)-1).Draw(t, "moved")
		step := rapid.SampledFrom([]length.Length{-mm, mm}).Draw(t, "step")
		if rapid.Bool().Draw(t, "sideways") {
			l.Placements[moved].X += step
		} else {
			l.Placements[moved].Y += step
		}
		for _, f := range verify.Check(j, l) {
			if f.Kind == verify.FlawMotifOff && f.Placement == moved && f.By >= mm-2*nm && f.By <= mm+2*nm {
				return
			}
		}
		t.Fatalf("moved by %s and nothing said: %v", step, verify.Check(j, l))
	})
}

// garbage draws any value of a type, mostly of small numbers, so that parts of
// it hang together, and now and then of the ends of the range.
func garbage(t *rapid.T, v reflect.Value) {
	numbers := []int64{0, 1, 2, 3, 5, 12, -1, 1000, 1 << 49, 1 << 50, 1<<50 + 1, math.MaxInt64, math.MinInt64}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			garbage(t, v.Field(i))
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 0, 4))
		for range rapid.IntRange(0, 4).Draw(t, "n") {
			e := reflect.New(v.Type().Elem()).Elem()
			garbage(t, e)
			v.Set(reflect.Append(v, e))
		}
	case reflect.Pointer:
		if rapid.Bool().Draw(t, "some") {
			v.Set(reflect.New(v.Type().Elem()))
			garbage(t, v.Elem())
		}
	case reflect.String:
		v.SetString(rapid.SampledFrom([]string{"", "a", "b"}).Draw(t, "s"))
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, "b"))
	default:
		most := 3
		if rapid.IntRange(0, 15).Draw(t, "wild") == 0 {
			most = len(numbers) - 1
		}
		v.SetInt(numbers[rapid.IntRange(0, most).Draw(t, "i")])
	}
}

// TestCheckTakesAnything gives Check requests and answers without sense. It
// must answer, the same both times, with indexes that exist.
func TestCheckTakesAnything(t *testing.T) {
	reached := 0
	rapid.Check(t, func(t *rapid.T) {
		var in struct {
			Job     layout.Job
			Layouts []layout.Layout
		}
		garbage(t, reflect.ValueOf(&in).Elem())
		if rapid.IntRange(0, 3).Draw(t, "sane job") > 0 {
			saneJob(&in.Job)
		}
		flaws := verify.Check(in.Job, in.Layouts...)
		if again := verify.Check(in.Job, in.Layouts...); !reflect.DeepEqual(flaws, again) {
			t.Fatalf("two answers: %v and %v", flaws, again)
		}
		for _, f := range flaws {
			if f.Kind == verify.FlawBadJob {
				return
			}
			if f.By < 0 || f.Detail == "" || f.Layout < -1 || f.Layout >= len(in.Layouts) || f.Panel < -1 || f.Panel >= len(in.Job.Panels) {
				t.Fatalf("a flaw of nothing: %#v", f)
			}
			if f.Placement >= 0 && f.Placement >= len(in.Layouts[f.Layout].Placements) ||
				f.Other >= 0 && f.Other >= len(in.Layouts[f.OtherLayout].Placements) {
				t.Fatalf("a flaw of no placement: %#v", f)
			}
		}
		reached++
	})
	if reached == 0 {
		t.Error("no request was good enough to have its plan checked")
	}
}

// saneJob mends a job just so far that Check goes on to the plan, and keeps
// figures at the end of what it takes.
func saneJob(j *layout.Job) {
	fix := func(ls ...*length.Length) {
		for _, l := range ls {
			*l = min(max(*l, 1), 1<<50)
		}
	}
	p := &j.Cloth.Pattern
	fix(&j.Cloth.Width, &p.LengthRepeat, &p.WidthRepeat, &j.Bolt)
	if at := j.Cloth.StartsAt; at != nil {
		fix(at)
	}
	p.Drop = cloth.Drop{Num: 11, Den: 12}
	for i := range p.Motifs {
		fix(&p.Motifs[i].Across, &p.Motifs[i].Along)
	}
	for i := range j.Panels {
		q := &j.Panels[i]
		q.ID, q.Count, q.Match.Motif = fmt.Sprint(i), 2, ""
		q.Match.From = fmt.Sprint((i + 1) % len(j.Panels))
		q.Pair = fmt.Sprint(i / 2)
		if q.Match.How = min(max(q.Match.How, 0), panel.RunsOn); len(j.Panels) == 1 {
			q.Match.How = panel.Anchor
		}
		q.Match.Edge = min(max(q.Match.Edge, 0), panel.RightEdge)
		fix(&q.Size.Across, &q.Size.Along, &q.Match.Point.Across, &q.Match.Point.Along, &q.Match.Offset, &q.Match.Tolerance)
		fix(&q.Allow.Top, &q.Allow.Bottom, &q.Allow.Left, &q.Allow.Right, &q.JoinSeam)
	}
}

// many is a right plan of n copies, in columns of ten, all centred on motifs.
func many(n int) (layout.Job, layout.Layout) {
	p := one("SEAT", 100, 100, panel.Match{How: panel.Centred})
	p.Count, p.Pair, p.PairAs = n, "SEAT", panel.SameMotif
	j := layout.Job{Cloth: onCloth(140*mm, 120*mm, cloth.Half()), Panels: []panel.Panel{p}}
	l := layout.Layout{}
	for i := range n {
		l.Placements = append(l.Placements, fit(j, 0, i+1, panel.Upright, 0, int64(i%9)+1, int64(i/9)+1, 0))
		l.Length = max(l.Length, l.Placements[i].Y+100*mm)
	}
	return j, l
}

func TestCheckNamesFewOfManyOverlaps(t *testing.T) {
	j, l := many(400)
	if flaws := verify.Check(j, l); flaws != nil {
		t.Fatalf("a right plan has flaws: %v", flaws[0])
	}
	for i := range l.Placements {
		l.Placements[i].X, l.Placements[i].Y, l.Placements[i].Motif = 90*mm, 70*mm, nil
	}
	overlaps := 0
	for _, f := range verify.Check(j, l) {
		if f.Kind == verify.FlawOverlap {
			overlaps++
		}
	}
	want := 0 // the first overlaps none before it, the second one, and so on
	for i := range 400 {
		want += min(i, verify.MaxOverlaps)
	}
	if overlaps != want {
		t.Errorf("%d overlaps named, want %d", overlaps, want)
	}
}

func TestFlawString(t *testing.T) {
	j, ls := settee()
	piece(ls, 2).X = 680*mm - nm
	measure(ls)
	got := verify.Check(j, ls...)
	want := verify.Flaw{Kind: verify.FlawOverlap, Layout: 0, Placement: 2, OtherLayout: 0, Other: 0, Panel: 1, Copy: 1, By: nm,
		Detail: "FLY copy 1 overlaps IB copy 1"}
	if len(got) != 1 || got[0] != want || got[0].String() != "overlap: FLY copy 1 overlaps IB copy 1" {
		t.Errorf("got %#v, want %#v", got, want)
	}
}

// TestCheckTwoTwins has two panels that name each other, or one the other, as
// twins, to the same effect or not.
func TestCheckTwoTwins(t *testing.T) {
	for _, c := range []struct {
		pairA, pairB string
		asA, asB     panel.PairAs
		x            length.Length
		want         int
	}{
		{"B", "A", panel.Mirrored, panel.Mirrored, 950, 0},
		{"B", "A", panel.Mirrored, panel.Mirrored, 851, 1},
		{"B", "", panel.Mirrored, panel.SameMotif, 851, 1},
		{"", "A", panel.SameMotif, panel.Mirrored, 851, 1},
		{"", "A", panel.SameMotif, panel.Mirrored, 950, 0},
		{"B", "A", panel.Mirrored, panel.SameMotif, 950, 1},
		{"B", "A", panel.SameMotif, panel.Mirrored, 850, 1},
		{"B", "A", panel.SameMotif, panel.Mirrored, 851, 2},
		{"", "", panel.Mirrored, panel.Mirrored, 851, 0},
	} {
		j := layout.Job{Cloth: heron(cloth.Drop{}), Panels: []panel.Panel{one("A", 300, 400, panel.Match{Motif: "heron"}), one("B", 300, 400, panel.Match{})}}
		j.Panels[0].Pair, j.Panels[0].PairAs, j.Panels[1].Pair, j.Panels[1].PairAs = c.pairA, c.asA, c.pairB, c.asB
		ls := []layout.Layout{on(0, lay(j, 0, 1, panel.Upright, 150*mm, 0)), on(40*mm, lay(j, 1, 1, panel.Upright, c.x*mm, 600*mm))}
		measure(ls)
		tolerant := j
		tolerant.Panels = slices.Clone(j.Panels)
		tolerant.Panels[0].Match.Tolerance = 150 * mm // more than any of these is out
		if flaws := verify.Check(tolerant, ls...); flaws != nil {
			t.Errorf("%+v, of one twin tolerant: flaws %v", c, flaws)
		}
		flaws := verify.Check(j, ls...)
		if len(flaws) != c.want || c.want > 0 && kinds(flaws) != "pair-off" {
			t.Errorf("%+v: flaws %v", c, flaws)
		}
	}
}

// TestCheckLength keeps the length of a layout apart from the other cases,
// which measure it.
func TestCheckLength(t *testing.T) {
	for out, want := range map[length.Length]string{0: "", nm: "wrong-length", -nm: "past-the-end wrong-length", math.MaxInt64 - 1260*mm: "out-of-range"} {
		j, ls := settee()
		measure(ls)
		ls[0].Length += out
		if got := kinds(verify.Check(j, ls...)); got != want {
			t.Errorf("length out by %s: flaws %q, want %q", out, got, want)
		}
	}
	j, ls := settee()
	measure(ls)
	if got := kinds(verify.Check(j, append(ls, layout.Layout{Length: 1})...)); got != "wrong-length" {
		t.Errorf("a length with nothing laid on it: flaws %q, want wrong-length", got)
	}
}

func BenchmarkCheck(b *testing.B) {
	j, l := many(2000)
	for b.Loop() {
		if verify.Check(j, l) != nil {
			b.Fatal("a right plan has flaws")
		}
	}
}

func BenchmarkCheckHeap(b *testing.B) {
	j, l := many(2000)
	for i := range l.Placements {
		l.Placements[i].X, l.Placements[i].Y = 0, 0
	}
	for b.Loop() {
		if verify.Check(j, l) == nil {
			b.Fatal("a heap of panels has no flaw")
		}
	}
}
