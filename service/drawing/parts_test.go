package drawing

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

func TestNum(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", -0.0001: "0", 1: "1", -2.5: "-2.5", 0.0005: "0.001", 342.0005: "342.001",
		1370: "1370", 1.23456: "1.235", 1e6: "1000000", math.NaN(): "0", math.Inf(1): "0",
	} {
		if got := num(v); got != want {
			t.Errorf("%v is written %q, wanted %q", v, got, want)
		}
	}
}

func TestTape(t *testing.T) {
	for _, c := range []struct {
		l    length.Length
		sys  length.System
		want string
	}{
		{685 * cm / 10, length.Metric, "68.5"},
		{137 * cm, length.Metric, "137"},
		{-2 * cm, length.Metric, "-2"},
		{-length.Micrometre, length.Metric, "0"},
		{29*in + in/2, length.Imperial, "29 1/2"},
		{15 * in / 16, length.Imperial, "15/16"},
		{-in / 4, length.Imperial, "-1/4"},
	} {
		if got := tape(c.l, c.sys); got != c.want {
			t.Errorf("%v reads %q, wanted %q", c.l, got, c.want)
		}
	}
}

func TestPercentIsRoundedUp(t *testing.T) {
	for _, c := range []struct {
		part, whole length.Length
		want        string
	}{
		{0, 10, "0 %"}, {1, 1000, "0.1 %"}, {1, 1001, "0.1 %"}, {11, 10000, "0.2 %"}, {2, 100, "2 %"},
		{math.MaxInt64, 1, "more than 1000 %"}, {5, 0, "0 %"},
	} {
		if got := percent(c.part, c.whole); got != c.want {
			t.Errorf("%d of %d is %q, wanted %q", c.part, c.whole, got, c.want)
		}
	}
}

// A panel of 40 by 100 with a corner at 10, 20 on the cloth.
func TestFrame(t *testing.T) {
	for _, c := range []struct {
		turn      panel.Turn
		w, h      float64
		topLeft   Pt
		down      Pt // 30 below the top left
		topSide   side
		rightSide side
	}{
		{panel.Upright, 40, 100, Pt{10, 20}, Pt{10, 50}, sideTop, sideRight},
		{panel.Half, 40, 100, Pt{50, 120}, Pt{50, 90}, sideBottom, sideLeft},
		{panel.Quarter, 100, 40, Pt{110, 20}, Pt{80, 20}, sideRight, sideBottom},
	} {
		f := frame{box{10, 20, c.w, c.h}, c.turn}
		if across, along := f.size(); across != 40 || along != 100 {
			t.Errorf("turn %d: size %v × %v", c.turn, across, along)
		}
		if got := f.at(0, 0); got != c.topLeft {
			t.Errorf("turn %d: the top left is at %v, wanted %v", c.turn, got, c.topLeft)
		}
		if got := f.at(0, 30); got != c.down {
			t.Errorf("turn %d: 30 below it is %v, wanted %v", c.turn, got, c.down)
		}
		if a, b := f.sideOf(panel.TopEdge), f.sideOf(panel.RightEdge); a != c.topSide || b != c.rightSide {
			t.Errorf("turn %d: top on side %d, right on side %d", c.turn, a, b)
		}
	}
}

func TestFinishedPartEndsAtItsSeams(t *testing.T) {
	ans := joined()
	p := ans.Request.Panels[0]
	want := []box{{15, 30, 1370, 600}, {30, 690, 335, 600}, {395, 690, 335, 600}}
	for i, pl := range ans.Result.Cut[0].Placements[:3] {
		if got, ok := frameOf(pl).finished(p, pl); !ok || got != want[i] {
			t.Errorf("part %d: %v, wanted %v", pl.Part, got, want[i])
		}
	}
}

func TestHalfDropLattice(t *testing.T) {
	c := heronAndSedge()
	g := gridOf(c, plan.Layout{Start: 12 * cm}, 1300)
	heron := g.motifs(c.Pattern.Motifs[0])
	want := []Pt{{342, 520}, {342, 1160}, {1027, 200}, {1027, 840}}
	if !slices.Equal(heron, want) {
		t.Errorf("herons at %v, wanted %v", heron, want)
	}
	at, ok := firstMotif(c, plan.Layout{Start: 12 * cm})
	if !ok || at != (plan.MotifAt{Motif: 1, X: 0, Y: 20 * cm}) {
		t.Errorf("first motif %+v, %v", at, ok)
	}
}

func TestFirstMotifLiesOnTheLattice(t *testing.T) {
	c := heronAndSedge()
	c.Pattern.Drop = cloth.Drop{Num: 1, Den: 3}
	c.Pattern.Motifs = []cloth.Motif{{Name: "far", Across: 250 * cm, Along: 5 * cm}}
	l := plan.Layout{Start: 50 * cm}
	at, ok := firstMotif(c, l)
	found := slices.ContainsFunc(gridOf(c, l, 640).motifs(c.Pattern.Motifs[0]), func(p Pt) bool {
		return math.Abs(p.X-at.X.MM()) < 1e-3 && math.Abs(p.Y-at.Y.MM()) < 1e-3
	})
	if !ok || !found {
		t.Errorf("%+v is not on the lattice", at)
	}
}

func TestFineRepeatIsNotDrawn(t *testing.T) {
	ans := turned()
	ans.Request.Cloth.Pattern = cloth.Pattern{LengthRepeat: 2 * cm, WidthRepeat: 2 * cm}
	svg := string(PlanPicture(ans).SVG())
	if !strings.Contains(svg, "too small or too frequent") || strings.Contains(svg, "edge of a repeat") {
		t.Error("a repeat of 2 cm is drawn")
	}
	ans.Request.Cloth.Pattern = cloth.Pattern{LengthRepeat: 20 * cm, WidthRepeat: 20 * cm}
	if svg = string(PlanPicture(ans).SVG()); !strings.Contains(svg, "edge of a repeat") {
		t.Error("a repeat of 20 cm is not drawn")
	}
}

func TestRulerTicks(t *testing.T) {
	for _, c := range []struct {
		sys         length.System
		step, major length.Length
	}{
		{length.Metric, 10 * cm, 50 * cm}, {length.Imperial, 6 * in, 12 * in},
	} {
		m := measureFor(c.sys, leastTick, 7000)
		if m.step != c.step || m.major != c.major {
			t.Errorf("system %d: a tick every %v, a figure every %v", c.sys, m.step, m.major)
		}
	}
	n := 0
	for range measureFor(length.Metric, leastTick, 1e12).ticks(1e12) {
		n++
	}
	if n == 0 || n > maxTicks {
		t.Errorf("%d ticks", n)
	}
}

func TestHatchStaysInside(t *testing.T) {
	lines := Hatch{X: 5, Y: 7, W: 30, H: 12, Gap: 4}.Lines()
	if len(lines) != 10 {
		t.Errorf("%d lines", len(lines))
	}
	for _, l := range lines {
		for _, p := range l.Pts {
			if p.X < 5 || p.X > 35 || p.Y < 7 || p.Y > 19 {
				t.Errorf("%v lies outside", p)
			}
		}
	}
	if n := len(Hatch{W: 1e9, H: 1, Gap: 1}.Lines()); n > maxHatch {
		t.Errorf("%d lines", n)
	}
}

// A name that runs from right to left does not carry the words after it along,
// on any line.
func TestNameIsSetApartOnEveryLine(t *testing.T) {
	name := apart("כיסא נוח מאוד")
	lines := wrap("OA "+name+" 1 of 2", 7)
	if len(lines) < 3 {
		t.Fatalf("%q is not broken", lines)
	}
	for _, l := range lines {
		if strings.Count(l, string(isolate)) != strings.Count(l, string(endIsolate)) {
			t.Errorf("%q is open at an end", l)
		}
		if _, after, ok := strings.Cut(l, string(endIsolate)); ok && strings.ContainsFunc(after, rightToLeft) {
			t.Errorf("%q runs over its end", l)
		}
	}
}

func TestWrapKeepsEveryRune(t *testing.T) {
	for _, text := range hostile {
		text = strings.ToValidUTF8(clean(text), "\ufffd")
		for _, width := range []float64{-1, 0.1, 3, 12, 200} {
			got := strings.Join(wrap(text, width), "")
			if strings.ReplaceAll(got, " ", "") != strings.ReplaceAll(text, " ", "") {
				t.Errorf("%q at %v became %q", text, width, got)
			}
		}
	}
}
