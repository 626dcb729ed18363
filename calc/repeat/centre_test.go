package repeat_test

import (
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/repeat"
)

func TestSeam(t *testing.T) {
	for _, tc := range []struct {
		name            string
		w, h, s         length.Length
		drop            cloth.Drop
		columns         int64
		can             bool
		off, trim, out  length.Length
		next, remaining length.Length
	}{
		{"goes into the width", 137 * cm, 685 * length.Millimetre, 0, cloth.Half(), 2, true, 0, 0, 0, 0, 0},
		{"one column", 137 * cm, 137 * cm, 0, cloth.Half(), 1, true, 0, 0, 0, 32 * cm, 0},
		{"a seam turned in", 140 * cm, 28 * cm, 2 * cm, cloth.Drop{}, 4, true, -4 * cm, 24 * cm, 4 * cm, 0, 0},
		{"over a little", 140 * cm, 30 * cm, 0, cloth.Half(), 4, true, -10 * cm, 20 * cm, 0, 0, 0},
		{"over by less than half", 140 * cm, 33 * cm, 0, cloth.Drop{Num: 1, Den: 4}, 4, true, 8 * cm, 8 * cm, 0, 0, 0},
		{"a third", 140 * cm, 70 * cm, 0, cloth.Drop{Num: 1, Den: 3}, 2, true, 0, 0, 0, 426666667, 0},
		{"too narrow", 140 * cm, 150 * cm, 0, cloth.Half(), 0, false, -10 * cm, 0, 0, 0, -10 * cm},
		{"no width repeat", 140 * cm, 0, 2 * cm, cloth.Drop{}, 0, true, 0, 0, 0, 0, 0},
	} {
		s := repeat.SeamOf(cloth.Cloth{Width: tc.w, Pattern: cloth.Pattern{LengthRepeat: 64 * cm, WidthRepeat: tc.h, Drop: tc.drop}}, tc.s)
		want := repeat.Seam{Left: tc.s, Right: tc.w - tc.s - tc.trim, Shows: tc.w - 2*tc.s - tc.trim, Columns: tc.columns, CanMeet: tc.can,
			Off: tc.off, Trim: tc.trim, LetOut: tc.out, NextStart: tc.next, Remaining: tc.remaining}
		if s != want {
			t.Errorf("%s:\n%+v, want\n%+v", tc.name, s, want)
		}
	}
}

// What is shown adds up to the finished width, whole motifs stand to the middle
// of it, and what is cut lies on the cloth.
func TestCentreAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := cloths().Draw(t, "cloth")
		c.Pattern.Motifs = []cloth.Motif{{Across: length.Length(rapid.Int64Range(0, 3000).Draw(t, "at")) * length.Millimetre}}
		h := c.Pattern.WidthRepeat
		f := 2 * length.Length(rapid.Int64Range(1, 4000).Draw(t, "half")) * length.Millimetre
		s := repeat.SeamOf(c, 0)
		gap := rapid.Bool().Draw(t, "gap")
		got := repeat.Centre(c, s, 0, gap, f)
		if got.Repeats*int64(h)+2*int64(got.Part) != int64(f) {
			t.Errorf("%+v does not add up to %v", got, f)
		}
		want := int64(1)
		if gap {
			want = 0
		}
		if got.Part < 0 || got.Part >= h || got.Repeats%2 != want && got.Repeats != 0 {
			t.Errorf("%+v of repeats of %v", got, h)
		}
		at := 2*got.Middle - 2*c.Pattern.Motifs[0].Across
		if gap {
			at += h
		}
		if at%(2*h) > 1 || at%(2*h) < -1 && at%(2*h) > 1-2*h {
			t.Errorf("the middle %v is not a motif", got.Middle)
		}
		switch {
		case !s.CanMeet:
		case !got.Joined:
			if got.Cut < 0 || got.Cut+f > c.Width {
				t.Errorf("cut from %v to %v of %v", got.Cut, got.Cut+f, c.Width)
			}
		default:
			left := length.Length(got.LeftWhole)*s.Shows + got.LeftPart
			right := length.Length(got.RightWhole)*s.Shows + got.RightPart
			if sum := left + s.Shows + right; left > 0 && right > 0 && (sum < f-2 || sum > f) {
				t.Errorf("%v + %v + %v, want %v", left, s.Shows, right, f)
			}
		}
	})
}

// Common practice, no source: 200 cm in repeats of 28 cm, by hand.
func TestCentreByHand(t *testing.T) {
	c := cloth.Cloth{Width: 140 * cm, Pattern: cloth.Pattern{WidthRepeat: 28 * cm, Motifs: []cloth.Motif{{Across: 14 * cm}}}}
	s := repeat.SeamOf(c, 0)
	motif, gap := repeat.Centre(c, s, 0, false, 200*cm), repeat.Centre(c, s, 0, true, 200*cm)
	if want := (repeat.Centring{Middle: 70 * cm, Repeats: 7, Part: 2 * cm, Joined: true, LeftPart: 30 * cm, RightPart: 30 * cm}); motif != want {
		t.Errorf("motif %+v, want %+v", motif, want)
	}
	if want := (repeat.Centring{Middle: 56 * cm, Repeats: 6, Part: 16 * cm, Joined: true, LeftPart: 44 * cm, RightPart: 16 * cm}); gap != want {
		t.Errorf("gap %+v, want %+v", gap, want)
	}
}

// The window is held against a look at every motif, at its edges and at random.
func TestWindowHoldsWhatItSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := cloths().Draw(t, "cloth")
		p := c.Pattern
		mm := func(label string, most int64) length.Length {
			return length.Length(rapid.Int64Range(1, most).Draw(t, label)) * length.Millimetre
		}
		c.Pattern.Motifs = []cloth.Motif{{Across: mm("x", 300), Along: mm("y", 300)}}
		size, panel := repeat.Extent{Across: 2 * mm("a", 50), Along: 2 * mm("b", 200)}, repeat.Extent{Across: mm("A", 600), Along: mm("B", 1200)}
		w := repeat.WindowOf(c, 0, size, panel)
		if !w.Fits {
			return
		}
		// whole looks for a motif inside a panel at u, v.
		whole := func(u, v length.Length) bool {
			for i := -int64(310*length.Millimetre/p.WidthRepeat) - 2; ; i++ {
				x := c.Pattern.Motifs[0].Across + length.Length(i)*p.WidthRepeat
				if x-size.Across/2 > u+panel.Across {
					return false
				}
				if x-size.Across/2 < u || x+size.Across/2 > u+panel.Across {
					continue
				}
				y := c.Pattern.Motifs[0].Along + length.Length(i*p.Drop.Num)*(p.LengthRepeat/length.Length(p.Drop.Den))
				n := (v + size.Along/2 - y) / p.LengthRepeat
				for k := n - 1; k <= n+1; k++ {
					if at := y + k*p.LengthRepeat; at-size.Along/2 >= v && at+size.Along/2 <= v+panel.Along {
						return true
					}
				}
			}
		}
		for _, u := range []length.Length{w.AcrossFrom, w.AcrossFrom + w.AcrossRange} {
			for _, v := range []length.Length{w.AlongFrom, w.AlongFrom + w.AlongRange} {
				if !whole(u, v) {
					t.Errorf("no motif is whole at %v, %v: %+v", u, v, w)
				}
			}
		}
		never := true
		for range 30 {
			u := length.Length(rapid.Int64Range(0, int64(p.WidthRepeat)-1).Draw(t, "u"))
			v := length.Length(rapid.Int64Range(0, int64(p.LengthRepeat)-1).Draw(t, "v"))
			never = never && whole(u, v)
		}
		if w.Always && !never {
			t.Errorf("not always: %+v", w)
		}
		// Just past the corner nothing is whole but by a copy of the window.
		if w.AcrossRange < p.WidthRepeat-2 && whole(w.AcrossFrom-1, w.AlongFrom) {
			t.Errorf("a motif is whole left of the window: %+v", w)
		}
	})
}

func TestAlways(t *testing.T) {
	for _, tc := range []struct {
		drop cloth.Drop
		a, l length.Length // that the motif may be moved
		want bool
	}{
		{cloth.Drop{}, 30 * cm, 64 * cm, true},
		{cloth.Drop{}, 30*cm - 2, 64 * cm, false},
		{cloth.Drop{}, 30 * cm, 64*cm - 2, false},
		{cloth.Half(), 60 * cm, 32 * cm, true},
		{cloth.Half(), 60*cm - 2, 32 * cm, false},
		{cloth.Half(), 30 * cm, 64 * cm, true},
		{cloth.Drop{Num: 1, Den: 4}, 90 * cm, 32 * cm, true}, // starts 0, 1/4, 1/2: a gap of half
		{cloth.Drop{Num: 1, Den: 4}, 90 * cm, 32*cm - 2, false},
	} {
		c := cloth.Cloth{Width: 140 * cm, Pattern: cloth.Pattern{LengthRepeat: 64 * cm, WidthRepeat: 30 * cm, Drop: tc.drop}}
		w := repeat.WindowOf(c, 0, repeat.Extent{Across: 10 * cm, Along: 10 * cm}, repeat.Extent{Across: 10*cm + tc.a, Along: 10*cm + tc.l})
		if w.Always != tc.want {
			t.Errorf("%v, %v, %v: always is %v", tc.drop, tc.a, tc.l, w.Always)
		}
	}
}

func BenchmarkLay(b *testing.B) {
	c := halfDrop(64 * cm)
	s := repeat.SeamOf(c, 0)
	drops := []repeat.Drop{
		{Length: 250 * cm, Count: 4, Widths: 3, Place: &repeat.Place{FromTop: 40 * cm}},
		{Length: 130 * cm, Count: 2, Widths: 2}, {Length: 60 * cm, Count: 2, Widths: 4}, {Length: 92 * cm, Count: 6, Widths: 1},
	}
	for b.Loop() {
		repeat.Lay(c, drops, s)
	}
}

// Twelve kinds of drops in twelfths, 2000 widths: the most that the contract
// lets through.
func BenchmarkLayLargest(b *testing.B) {
	c := cloth.Cloth{Width: 137 * cm, Pattern: cloth.Pattern{LengthRepeat: 64 * cm, WidthRepeat: 137 * cm, Drop: cloth.Drop{Num: 5, Den: 12}}}
	s := repeat.SeamOf(c, 0)
	var drops []repeat.Drop
	for n := range 12 {
		drops = append(drops, repeat.Drop{Length: length.Length(101+n*17) * cm, Count: 1, Widths: 100, Place: &repeat.Place{FromTop: length.Length(n) * 7 * length.Millimetre}})
	}
	for b.Loop() {
		repeat.Lay(c, drops, s)
	}
}
