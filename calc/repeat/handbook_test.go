package repeat_test

import (
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/repeat"
)

const (
	in = length.Inch
	cm = length.Centimetre
)

func straight(v length.Length) cloth.Cloth {
	return cloth.Cloth{Width: 54 * in, Pattern: cloth.Pattern{LengthRepeat: v}}
}

// halfDrop shows one column of the pattern in a width.
func halfDrop(v length.Length) cloth.Cloth {
	return cloth.Cloth{Width: 137 * cm, Pattern: cloth.Pattern{LengthRepeat: v, WidthRepeat: 137 * cm, Drop: cloth.Half()}}
}

// A drop rounded up to whole repeats. Common practice, no source: the printed
// examples agree with the arithmetic, which is what is tested.
func TestWholeRepeats(t *testing.T) {
	for _, tc := range []struct {
		need, v length.Length
		repeats int64
		cut     length.Length
	}{
		{116 * in, 25 * in, 5, 125 * in}, // waste 9 in
		{114 * in, 4*in + in/2, 26, 117 * in},
		{114 * in, 11 * in, 11, 121 * in},
		{240 * cm, 37 * cm, 7, 259 * cm},
		{250 * cm, 27 * cm, 10, 270 * cm}, // spare 20 cm
		{100 * in, 26 * in, 4, 104 * in},
		{108 * in, 27 * in, 4, 108 * in},           // no repeat too many
		{108*in + 1, 27 * in, 5, 135 * in},         // a nanometre too long
		{1, 27 * in, 1, 27 * in},                   // a drop far below one repeat
		{114 * in, 0, 0, 114 * in},                 // plain along
		{3 * 64 * cm / 2, 64 * cm, 2, 2 * 64 * cm}, // half a repeat over
	} {
		k := repeat.KindOf(straight(tc.v), repeat.Drop{Length: tc.need, Count: 1, Widths: 1}, repeat.Seam{})
		if k.Repeats != tc.repeats || k.Alike != tc.cut {
			t.Errorf("%v in %v: %d repeats, %v; want %d, %v", tc.need, tc.v, k.Repeats, k.Alike, tc.repeats, tc.cut)
		}
	}
}

// Totals for several widths of a straight match: by the printed rule every
// width is whole repeats; the exact layout saves what is over in the last. Common
// practice, no source.
func TestStraightTotals(t *testing.T) {
	for _, tc := range []struct {
		need, v           length.Length
		n                 int
		printed, any, lay length.Length
	}{
		{114 * in, 4*in + in/2, 2, 234 * in, 238*in + in/2, 231 * in}, // with a repeat for the start 238.5 in = 6.625 yd
		{114 * in, 11 * in, 4, 484 * in, 495 * in, 477 * in},
		{100 * in, 26 * in, 2, 208 * in, 234 * in, 204 * in},  // where need + repeat in each would take 252 in
		{114 * in, 114 * in, 4, 456 * in, 570 * in, 456 * in}, // 3 widths of 63 in over 54 in; 12.667 yd, not 12.6
		{240 * cm, 240 * cm, 4, 960 * cm, 1200 * cm, 960 * cm},
		{104 * in, 26 * in, 12, 1248 * in, 1274 * in, 1248 * in},
	} {
		c := straight(tc.v)
		drops := []repeat.Drop{{Length: tc.need, Count: 1, Widths: tc.n, Place: &repeat.Place{}}}
		s := repeat.SeamOf(c, 0)
		l := repeat.Lay(c, drops, s)
		for _, r := range []repeat.Rule{repeat.HalfRepeatOnce, repeat.HalfRepeatEach, repeat.InTurn} {
			if got := repeat.Printed(r, c, drops, s, l.Length); got != tc.printed {
				t.Errorf("%v: rule %d: %v, want %v", tc.need, r, got, tc.printed)
			}
		}
		if got := repeat.Printed(repeat.HalfRepeatOnce, c, drops, s, l.Length) + tc.v; got != tc.any {
			t.Errorf("%v: with a repeat %v, want %v", tc.need, got, tc.any)
		}
		if l.Length != tc.lay || l.AnyStart != tc.lay+tc.v {
			t.Errorf("%v: layout %v, any start %v; want %v", tc.need, l.Length, l.AnyStart, tc.lay)
		}
	}
}

// The printed rules for a half-drop, beside the exact layout.
func TestHalfDropRules(t *testing.T) {
	for _, tc := range []struct {
		name                    string
		need, v                 length.Length
		n                       int
		once, each, turn, exact length.Length
	}{
		// Spare 20 cm is more than 13.5 cm: no extra cloth. Common practice, no source.
		{"spare enough", 250 * cm, 27 * cm, 4, 1080 * cm, 1080*cm + 54*cm, 1080*cm + 3*27*cm/2, 4*250*cm + 3*13*cm/2},
		// Spare 6 cm: half a repeat once in four widths, not in each. Common practice, no source.
		{"once", 250 * cm, 64 * cm, 4, 4*256*cm + 32*cm, 4 * 288 * cm, 4*256*cm + 3*32*cm, 3*256*cm + 32*cm + 250*cm},
		// Six widths in turn waste five half repeats against one. Common practice, no source.
		{"six widths", 256 * cm, 64 * cm, 6, 6*256*cm + 32*cm, 6 * 288 * cm, 6*256*cm + 5*32*cm, 6*256*cm + 32*cm},
		// Adjusted cut drop and half a repeat in each width; an odd number takes a
		// whole repeat more (Merrick and Day, The Encyclopaedia of Curtains, p. 119).
		{"odd", 256 * cm, 64 * cm, 3, 3*256*cm + 32*cm, 3*288*cm + 64*cm, 3*256*cm + 2*32*cm, 3*256*cm + 32*cm},
	} {
		c := halfDrop(tc.v)
		drops := []repeat.Drop{{Length: tc.need, Count: 1, Widths: tc.n}}
		s := repeat.SeamOf(c, 0)
		l := repeat.Lay(c, drops, s)
		got := [4]length.Length{
			repeat.Printed(repeat.HalfRepeatOnce, c, drops, s, l.Length), repeat.Printed(repeat.HalfRepeatEach, c, drops, s, l.Length),
			repeat.Printed(repeat.InTurn, c, drops, s, l.Length), repeat.Printed(repeat.Exact, c, drops, s, l.Length),
		}
		if want := [4]length.Length{tc.once, tc.each, tc.turn, tc.exact}; got != want {
			t.Errorf("%s: %v, want %v", tc.name, got, want)
		}
	}
}
