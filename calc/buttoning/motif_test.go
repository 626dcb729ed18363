package buttoning

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

func trellis(drop cloth.Drop) cloth.Pattern {
	return cloth.Pattern{LengthRepeat: 32 * cm, WidthRepeat: 28 * cm, Drop: drop, Motifs: []cloth.Motif{{Name: "crossing", Across: 14 * cm}, {Name: "bud", Across: 0, Along: 16 * cm}}}
}

func bench(t testing.TB, rows, columns int) Work {
	t.Helper()
	g, ok := GridFor(Panel{Size: sized(120*cm, 80*cm), Edges: Edges{8 * cm, 8 * cm, 8 * cm}}, Wish{Rows: rows, Columns: columns})
	if !ok {
		t.Fatal("no grid")
	}
	return NewWork(g, Spread{Depth: 35 * mm}, practice.Defaults())
}

func drawPattern(t *rapid.T) cloth.Pattern {
	p := cloth.Pattern{
		LengthRepeat: length.Length(rapid.Int64Range(4, 90).Draw(t, "V")) * cm,
		WidthRepeat:  length.Length(rapid.Int64Range(4, 90).Draw(t, "H")) * cm,
		Drop:         rapid.SampledFrom([]cloth.Drop{{}, cloth.Half(), {Num: 1, Den: 3}, {Num: 3, Den: 4}}).Draw(t, "drop"),
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "motifs") {
		p.Motifs = append(p.Motifs, cloth.Motif{
			Name:   string(rune('a' + i)),
			Across: length.Length(rapid.Int64Range(0, 900).Draw(t, "across")) * mm, Along: length.Length(rapid.Int64Range(0, 900).Draw(t, "along")) * mm,
		})
	}
	switch rapid.IntRange(0, 5).Draw(t, "stripe") {
	case 0:
		p.LengthRepeat, p.Drop = 0, cloth.Drop{}
	case 1:
		p.WidthRepeat, p.Drop = 0, cloth.Drop{}
	}
	return p
}

func drawShift(t *rapid.T) Shift {
	return Shift{
		length.Length(rapid.Int64Range(-900, 900).Draw(t, "x")) * mm / 2,
		length.Length(rapid.Int64Range(-900, 900).Draw(t, "y")) * mm / 2,
	}
}

// The nearest motif against one looked for among many columns and rows.
func TestNearestMotifIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, s := drawPattern(t), drawShift(t)
		l := latticeOf(p)
		k := rapid.IntRange(0, len(p.Motifs)-1).Draw(t, "motif")
		at := drawShift(t)
		best := math.Inf(1)
		span := int64(40)
		for i := -span; i <= span; i++ {
			for j := -span * 2; j <= span*2; j++ {
				x := s.X + p.Motifs[k].Across - p.Motifs[0].Across + length.Length(i)*p.WidthRepeat - at.X
				y := s.Y + p.Motifs[k].Along - p.Motifs[0].Along + length.Length(j)*p.LengthRepeat - at.Y
				if d := p.Drop.Reduced(); d.Num > 0 {
					y += length.Length(i) * p.LengthRepeat * length.Length(d.Num) / length.Length(d.Den)
				}
				if p.WidthRepeat == 0 {
					x = 0
				}
				if p.LengthRepeat == 0 {
					y = 0
				}
				best = min(best, math.Hypot(x.MM(), y.MM()))
			}
		}
		_, _, q := l.offset(k, s, at.X, at.Y)
		if got := math.Sqrt(q) / 1000; math.Abs(got-best) > 1e-3 {
			t.Errorf("the nearest is %v mm off, of all looked at %v", got, best)
		}
	})
}

// The best shift is never worse than 1,000 random ones on the lattice of Step,
// nor than as many off it, for each aim.
func TestBestIsNeverWorseThanRandom(t *testing.T) {
	w := bench(t, 5, 8)
	for _, drop := range []cloth.Drop{{}, cloth.Half(), {Num: 1, Den: 3}} {
		p := trellis(drop)
		for name, aim := range map[string]Aim{
			"diamonds": aimAt(w, w.Diamonds(), 0),
			"buttons":  aimAt(w, w.Marks(), 1),
			"either":   aimAt(w, w.Diamonds(), 0, 1),
			"places": {Wants: []Want{
				{Mark: w.mark(0, -7, 1), Motifs: []int{0}}, {Mark: w.mark(2, 1, 5), Motifs: []int{1}}, {Mark: w.mark(4, 3, 6), Motifs: []int{0}},
			}},
		} {
			t.Run(fmt.Sprint(name, drop), func(t *testing.T) {
				best := Best(p, aim, 40_000_000)
				if !best.Complete {
					t.Fatalf("not complete after %d", best.Work)
				}
				if got := aim.Score(p, best.Shift); math.Abs(got-best.Score) > 1e-12 {
					t.Errorf("said to be %v, is %v", best.Score, got)
				}
				rng := rand.New(rand.NewPCG(1, 2))
				for n := range 2000 {
					s := Shift{length.Length(rng.Int64N(560)) * Step, length.Length(rng.Int64N(640)) * Step}
					if n >= 1000 {
						s = Shift{length.Length(rng.Int64N(int64(28 * cm))), length.Length(rng.Int64N(int64(32 * cm)))}
					}
					if got := aim.Score(p, s); got > best.Score+1e-12 {
						t.Errorf("%v scores %v, the best %v only %v", s, got, best.Shift, best.Score)
					}
				}
			})
		}
	}
}

func aimAt(w Work, marks []Mark, motifs ...int) Aim {
	a := Aim{Cap: w.CapFor()}
	for _, m := range marks {
		a.Wants = append(a.Wants, Want{m, motifs})
	}
	return a
}

// A pattern whose lattice is that of the diamonds sits in every one of them.
func TestBestFindsAPerfectFit(t *testing.T) {
	w := bench(t, 5, 6)
	p := cloth.Pattern{WidthRepeat: w.Cloth.Across / 2, LengthRepeat: w.Cloth.Along, Drop: cloth.Half(), Motifs: []cloth.Motif{{Name: "star", Across: 3 * cm, Along: 7 * cm}}}
	for _, symmetric := range []bool{false, true} {
		a := aimAt(w, w.Diamonds(), 0)
		a.Symmetric = symmetric
		if got := Best(p, a, MaxWork); math.Abs(got.Score-1) > 1e-12 || !got.Complete || got.Mirrored != symmetric {
			t.Errorf("%+v", got)
		}
	}
}

// Left and right agree in everything that is answered, when the aim wants it and
// the pattern can.
func TestSymmetricAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t)
		p := drawPattern(t)
		p.Motifs = p.Motifs[:1]
		if p.WidthRepeat == 0 || p.Drop.Reduced().Den > 2 || w.MotifCount(p) > 400 {
			t.Skip()
		}
		a := aimAt(w, w.Marks(), 0)
		a.Symmetric = true
		best := Best(p, a, 200_000)
		if skew := Skew(p, best.Shift, []int{0}); !best.Mirrored || skew > length.Micrometre {
			t.Fatalf("%+v, skew %v", best, skew)
		}
		size := sized(p.WidthRepeat/3, p.LengthRepeat/3)
		mirrored := map[string]int{}
		for _, m := range w.Map(p, best.Shift, []panel.Size{size}, Cover{10 * mm}) {
			mirrored[fmt.Sprint(m.Work.X/1000, m.Work.Y, m.Hidden)]++
			mirrored[fmt.Sprint(-m.Work.X/1000, m.Work.Y, m.Hidden)]--
		}
		for place, n := range mirrored {
			if n != 0 && p.WidthRepeat%2 == 0 && p.LengthRepeat%2 == 0 {
				t.Errorf("%s has no mirror image", place)
			}
		}
	})
}

// A map holds every motif between the finished edges once, on the work between
// its edges, with nothing hidden where nothing is deep.
func TestMap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, p, s := drawWork(t), drawPattern(t), drawShift(t)
		if n := w.MotifCount(p); n > 500 {
			t.Skip("too many")
		}
		sizes := make([]panel.Size, len(p.Motifs))
		list := w.Map(p, s, sizes, Cover{})
		if len(list) > w.MotifCount(p) {
			t.Errorf("%d motifs, counted %d", len(list), w.MotifCount(p))
		}
		line := w.LinesOnWork()
		seen := map[Mapped]bool{}
		for _, m := range list {
			if m.Work.X < -line.Across || m.Work.X > line.Across || m.Work.Y < -line.Along || m.Work.Y > w.Over.Along-line.Along {
				t.Errorf("off the work: %+v", m)
			}
			if seen[m] || m.Hidden < 0 || m.Hidden > 100 {
				t.Errorf("twice, or nonsense: %+v", m)
			}
			seen[m] = true
		}
	})
}

// What is hidden, where it can be said beforehand.
func TestHidden(t *testing.T) {
	w := bench(t, 5, 6)
	w.Groove = 0
	p := cloth.Pattern{LengthRepeat: 5 * length.Metre, WidthRepeat: 5 * length.Metre}
	at := func(x, y length.Length, size panel.Size, c Cover) Mapped {
		t.Helper()
		list := w.Map(p, Shift{x, y}, []panel.Size{size}, c)
		if len(list) != 1 {
			t.Fatalf("%d motifs", len(list))
		}
		return list[0]
	}
	b, _ := w.ButtonAt(Spot{3, 3})
	d, _ := w.DiamondAt(Spot{3, 2})
	small := sized(4*mm, 4*mm)
	if m := at(d.X, d.Y, small, Cover{10 * mm}); m.Fate != Shown || m.Hidden != 0 {
		t.Errorf("in the middle of a diamond: %+v", m)
	}
	if m := at(b.X, b.Y, small, Cover{10 * mm}); m.Fate != Swallowed || m.Hidden != 100 {
		t.Errorf("under a button: %+v", m)
	}
	// Midway between two buttons, on the pleat: all of what it takes up.
	mid := Place{b.X + w.Cloth.Across/4, b.Y + w.Cloth.Along/4}
	if m := at(mid.X, mid.Y, small, Cover{}); m.Fate != Swallowed || m.Hidden != 100 {
		t.Errorf("in a pleat: %+v", m)
	}
	// A large one over the same place is hidden by as much as the pleat covers.
	take := w.takeUp().MM()
	want := 100 * take * 60 / (math.Pi / 4 * 60 * 60)
	if m := at(mid.X, mid.Y, sized(60*mm, 60*mm), Cover{}); math.Abs(float64(m.Hidden)-want) > 6 {
		t.Errorf("over a pleat: %+v, want about %.0f", m, want)
	}
	if m := at(w.half().Across, w.Cloth.Along/4, sized(40*mm, 0), Cover{}); m.Hidden < 45 || m.Hidden > 75 {
		t.Errorf("half past the edge: %+v", m)
	}
}
