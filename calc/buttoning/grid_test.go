package buttoning

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

func inches(x float64) length.Length { return length.Length(x * float64(inch)) }

func sized(across, along length.Length) panel.Size { return panel.Size{Across: across, Along: along} }

func allRound(l length.Length) panel.Sides { return panel.Sides{Top: l, Bottom: l, Left: l, Right: l} }

// Printed examples of grids and of the cloth they take. Those without another note
// are of J. W. Stephenson, Cutting and Draping, 1905; the ottoman is of the Upholstery
// Journal, 2011.
func TestPrintedGrids(t *testing.T) {
	t.Run("12 × 18 in, spaces of 3 in with 1½ in more, 1 in all round", func(t *testing.T) {
		p := Panel{Size: sized(12*inch, 18*inch), Allow: allRound(inch)}
		g, ok := GridFor(p, Wish{How: Spacing, Width: 3 * inch, Height: 3 * inch})
		if !ok || g.Columns != 5 || g.Rows != 13 {
			t.Fatalf("%+v, %v", g, ok)
		}
		w := NewWork(g, Spread{Model: ByAmount, Amount: 3 * length.Inch / 2}, practice.Defaults())
		w.Allow = p.Allow
		if w.Span() != sized(18*inch, 27*inch) || w.Cut() != sized(20*inch, 29*inch) {
			t.Errorf("span %v, cut %v", w.Span(), w.Cut())
		}
	})
	t.Run("a scroll of 7 × 5 in, 1½ in more across, from row to row more along", func(t *testing.T) {
		for _, tc := range []struct{ chord, more, want float64 }{{7, 1.5, 8.5}, {5, 1.5, 6.5}, {5, 2.5, 7.5}, {5, 3.5, 8.5}} {
			if got := (Spread{Model: ByAmount, Amount: inches(tc.more)}).Over(inches(tc.chord)); got != inches(tc.want) {
				t.Errorf("%v with %v more is %v", tc.chord, tc.more, got)
			}
		}
	})
	t.Run("half diamonds 3 in apart, 1½ in more", func(t *testing.T) {
		if got := (Spread{Model: ByAmount, Amount: 3 * length.Inch / 2}).Over(3 * inch); got != inches(4.5) {
			t.Error(got)
		}
	})
	t.Run("a small chair in rows of 3, 2, 3, 2", func(t *testing.T) {
		g, ok := GridFor(Panel{Size: sized(14*inch, 16*inch), Edges: Edges{3 * inch, 3 * inch, 3 * inch}}, Wish{Rows: 4, Columns: 3})
		if !ok || g.Buttons() != 10 || g.InRow(0) != 3 || g.InRow(1) != 2 || g.InRow(2) != 3 || g.InRow(3) != 2 {
			t.Errorf("%+v has %d", g, g.Buttons())
		}
		if g.Edges.Side < 3*inch || g.Edges.Top < 3*inch || g.Edges.Bottom < 3*inch {
			t.Errorf("nearer than 3 in to an edge: %+v", g.Edges)
		}
	})
	t.Run("an ottoman of 42 × 31 in, borders of 4 in", func(t *testing.T) {
		g, ok := GridFor(Panel{Size: sized(42*inch, 31*inch), Edges: Edges{4 * inch, 4 * inch, 4 * inch}}, Wish{Rows: 5, Columns: 5})
		if !ok || g.Field != sized(34*inch, 23*inch) || g.Diamond() != sized(inches(8.5), inches(11.5)) {
			t.Errorf("%+v, diamonds of %v", g, g.Diamond())
		}
	})
	t.Run("30 × 16 in, edges of 3 in, diamonds of 3 × 5 in (common practice, no source)", func(t *testing.T) {
		g, ok := GridFor(Panel{Size: sized(30*inch, 16*inch), Edges: Edges{3 * inch, 3 * inch, 3 * inch}}, Wish{How: Spacing, Width: 3 * inch, Height: 5 * inch})
		if !ok || g.Columns != 9 || g.Rows != 5 || g.Edges != (Edges{3 * inch, 3 * inch, 3 * inch}) {
			t.Errorf("%+v", g)
		}
	})
	t.Run("8 × 5 in over 2 in takes at most 12 × 9 (common practice, no source)", func(t *testing.T) {
		s := Spread{Model: ByTwiceDepth, Depth: 2 * inch}
		if s.Over(8*inch) != 12*inch || s.Over(5*inch) != 9*inch {
			t.Errorf("%v × %v", s.Over(8*inch), s.Over(5*inch))
		}
		arc := Spread{Depth: 2 * inch}
		if arc.Over(8*inch) >= 12*inch || arc.Over(5*inch) >= 9*inch {
			t.Error("the arc is above the bound")
		}
	})
	t.Run("diamonds of 3 × 5, 4 × 6, 5 × 7 in by their proportion (common practice, no source)", func(t *testing.T) {
		for _, d := range []struct{ w, h int64 }{{3, 5}, {4, 6}, {5, 7}} {
			g, ok := GridFor(Panel{Size: sized(40*inch, 42*inch)}, Wish{How: Proportion, Width: length.Length(d.w) * inch, Ratio: Ratio{d.h, d.w}})
			if want := sized(length.Length(d.w)*inch, length.Length(d.h)*inch); !ok || g.Diamond() != want {
				t.Errorf("%v, want %v", g.Diamond(), want)
			}
		}
	})
}

func TestAboutSoMany(t *testing.T) {
	p := Panel{Size: sized(60*cm, 80*cm), Edges: Edges{8 * cm, 8 * cm, 8 * cm}}
	for n := 3; n <= 200; n += 7 {
		g, ok := GridFor(p, Wish{How: About, Buttons: n, Ratio: PleasingRatio(practice.Defaults())})
		if !ok {
			t.Fatalf("no grid of about %d", n)
		}
		if off := max(g.Buttons()-n, n-g.Buttons()); off > 1+n/8 {
			t.Errorf("about %d gives %d", n, g.Buttons())
		}
	}
}

func TestNoGrid(t *testing.T) {
	for name, tc := range map[string]struct {
		p Panel
		w Wish
	}{
		"margins eat the panel":   {Panel{Size: sized(20*cm, 20*cm), Edges: Edges{Side: 10 * cm}}, Wish{Rows: 3, Columns: 3}},
		"one row":                 {Panel{Size: sized(20*cm, 20*cm)}, Wish{Rows: 1, Columns: 3}},
		"diamonds under 2 cm":     {Panel{Size: sized(20*cm, 20*cm)}, Wish{Rows: 3, Columns: 60}},
		"diamonds over 2 m":       {Panel{Size: sized(10*length.Metre, 50*cm)}, Wish{Rows: 3, Columns: 2}},
		"wider than the panel":    {Panel{Size: sized(20*cm, 20*cm)}, Wish{How: Spacing, Width: 30 * cm, Height: 10 * cm}},
		"half one taller than it": {Panel{Size: sized(20*cm, 20*cm)}, Wish{How: Spacing, Width: 10 * cm, Height: 50 * cm}},
		"no room for any":         {Panel{Size: sized(15*mm, 15*mm)}, Wish{How: About, Buttons: 9, Ratio: PleasingRatio(practice.Defaults())}},
	} {
		if g, ok := GridFor(tc.p, tc.w); ok {
			t.Errorf("%s: %+v", name, g)
		}
	}
}

// drawWork is any work.
func drawWork(t *rapid.T) Work {
	side := func(name string) length.Length { return length.Length(rapid.Int64Range(0, int64(20*cm)).Draw(t, name)) }
	p := Panel{
		Size:  sized(length.Length(rapid.Int64Range(int64(60*cm), int64(3*length.Metre)).Draw(t, "across")), length.Length(rapid.Int64Range(int64(60*cm), int64(3*length.Metre)).Draw(t, "along"))),
		Crown: length.Length(rapid.Int64Range(0, int64(20*cm)).Draw(t, "crown")),
		Edges: Edges{side("side"), side("top"), side("bottom")},
		Allow: allRound(side("allow")),
	}
	g, ok := GridFor(p, Wish{How: Counts, Rows: rapid.IntRange(2, 10).Draw(t, "rows"), Columns: rapid.IntRange(2, 10).Draw(t, "columns"), Short: rapid.Bool().Draw(t, "short")})
	if !ok {
		t.Skip("no such grid")
	}
	w := NewWork(g, Spread{Model: Model(rapid.IntRange(0, 2).Draw(t, "model")), Depth: length.Length(rapid.Int64Range(0, int64(150*mm)).Draw(t, "depth")), Amount: 3 * length.Inch / 2}, practice.Defaults())
	w.Allow = p.Allow
	w.Eased = rapid.Bool().Draw(t, "eased")
	return w
}

// The shortened intervals add up to the finished size over the dome, and those
// on the cloth to its span, to the nanometre; every mark lies where its
// intervals end.
func TestIntervalsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t)
		sum := func(list []Interval) (work, cloth length.Length) {
			for _, i := range list {
				if i.Work < 0 || i.Cloth < 0 || i.Work > i.Cloth && i.Work-i.Cloth > 2 {
					t.Errorf("an interval of %v takes %v", i.Work, i.Cloth)
				}
				work, cloth = work+i.Work, cloth+i.Cloth
			}
			return work, cloth
		}
		if a, c := sum(w.IntervalsAcross()); a != w.Over.Across || c != w.Span().Across {
			t.Errorf("across %v of %v, %v of %v", a, w.Over.Across, c, w.Span().Across)
		}
		if a, c := sum(w.IntervalsAlong()); a != w.Over.Along || c != w.Span().Along {
			t.Errorf("along %v of %v, %v of %v", a, w.Over.Along, c, w.Span().Along)
		}
	})
}

// Marks agree left and right and about the level line, on work and cloth; the
// map carries every mark on the cloth to its mark on the work, and the finished
// edges to the finished edges; tape figures are never more than half a
// millimetre off.
func TestMarksMirrorAndMap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t)
		work, cloth := w.OnWork(), w.OnCloth()
		count := 0
		for r := range work {
			n := len(work[r].Across)
			count += n
			if work[r].Along != -work[len(work)-1-r].Along {
				t.Errorf("row %d is not opposite the last but as many", r)
			}
			for i, x := range work[r].Across {
				if x != -work[r].Across[n-1-i] || cloth[r].Across[i] != -cloth[r].Across[n-1-i] {
					t.Errorf("row %d does not mirror", r)
				}
				mx, my := w.WorkAt(cloth[r].Across[i], cloth[r].Along)
				if max(mx-x, x-mx) > 1 || max(my-work[r].Along, work[r].Along-my) > 1 {
					t.Errorf("mark %v, %v goes to %v, %v, want %v, %v", cloth[r].Across[i], cloth[r].Along, mx, my, x, work[r].Along)
				}
			}
		}
		if count != w.Buttons() {
			t.Errorf("%d marks, %d buttons", count, w.Buttons())
		}
		h := w.half()
		if x, y := w.WorkAt(h.Across, h.Along); max(x-w.Over.Across/2, w.Over.Across/2-x) > 1 || y != w.Over.Along-w.LinesOnWork().Along {
			t.Errorf("the corner goes to %v, %v", x, y)
		}
	})
}

// More depth never needs less cloth, and never makes a pleat at the edge
// shallower, whatever the way to allow for it.
func TestMoreDepthNeverLessCloth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t)
		deeper := w.Spread
		deeper.Depth += length.Length(rapid.Int64Range(0, int64(100*mm)).Draw(t, "more"))
		d := NewWork(w.Grid, deeper, practice.Defaults())
		d.Allow = w.Allow
		a, b := w.Cut(), d.Cut()
		if b.Across < a.Across || b.Along < a.Along {
			t.Errorf("%v deep takes %v, %v deep %v", w.Spread.Depth, a, deeper.Depth, b)
		}
		if d.Cloth.Across < w.Cloth.Across || d.Cloth.Along < w.Cloth.Along {
			t.Errorf("a diamond of %v, deeper %v", w.Cloth, d.Cloth)
		}
	})
}

func TestPleats(t *testing.T) {
	g, _ := GridFor(Panel{Size: sized(60*cm, 60*cm), Edges: Edges{10 * cm, 10 * cm, 10 * cm}}, Wish{Rows: 5, Columns: 5})
	w := NewWork(g, Spread{Depth: 40 * mm}, practice.Defaults())
	counts := map[PleatKind]int{}
	for _, p := range w.Pleats() {
		counts[p.Kind] = p.Count
		if p.Depth != p.TakeUp/2 {
			t.Errorf("%+v", p)
		}
	}
	// 4 × 4 half diamonds of two pleats each; 5 buttons in the first and the last
	// row; 3 longer rows end at the sides.
	if want := fmt.Sprint(map[PleatKind]int{Diagonal: 32, ToTop: 5, ToBottom: 5, ToTheSides: 6}); fmt.Sprint(counts) != want {
		t.Errorf("%v, want %v", counts, want)
	}
	if flat := NewWork(g, Spread{}, practice.Defaults()); len(flat.Pleats()) != 0 {
		t.Errorf("wells of no depth make pleats: %v", flat.Pleats())
	}
	w.Eased = true
	if len(w.Pleats()) != 1 {
		t.Errorf("eased edges have pleats: %v", w.Pleats())
	}
	// With no groove at all a pleat takes up the whole difference.
	w.Groove = 0
	d := w.Diamond()
	want := geom.Hypot(w.Cloth.Across.MM(), w.Cloth.Along.MM())/2 - geom.Hypot(d.Across.MM(), d.Along.MM())/2
	if got := w.takeUp().MM(); got < want-1e-3 || got > want+1e-3 {
		t.Errorf("%v, want %v", got, want)
	}
}
