package repeat_test

import (
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/repeat"
)

var printedRules = []repeat.Rule{repeat.HalfRepeatOnce, repeat.HalfRepeatEach, repeat.InTurn}

// halfCloths draws cloths that the printed rules are about: of any repeat, matched
// straight or by a half-drop, with one or several columns in a width, or none.
func halfCloths() *rapid.Generator[cloth.Cloth] {
	return rapid.Custom(func(t *rapid.T) cloth.Cloth {
		c := cloth.Cloth{
			Width: length.Length(rapid.Int64Range(200, 2000).Draw(t, "width")) * length.Millimetre,
			Pattern: cloth.Pattern{
				LengthRepeat: length.Length(rapid.Int64Range(1, 900*int64(length.Millimetre)).Draw(t, "v")),
				WidthRepeat:  length.Length(rapid.Int64Range(0, 1500).Draw(t, "h")) * length.Millimetre,
				Motifs: []cloth.Motif{
					{Name: "heron"},
					{Name: "sedge", Along: length.Length(rapid.Int64Range(0, 900).Draw(t, "along")) * length.Millimetre},
				},
			},
		}
		if rapid.IntRange(0, 3).Draw(t, "coarse") > 0 { // so that drops are often whole repeats
			c.Pattern.LengthRepeat = length.Length(rapid.Int64Range(1, 8).Draw(t, "hundreds")) * 100 * length.Millimetre
		}
		if rapid.IntRange(0, 3).Draw(t, "straight") > 0 {
			c.Pattern.Drop = cloth.Half()
		}
		if rapid.Bool().Draw(t, "known") {
			c.StartsAt = new(length.Length(rapid.Int64Range(0, int64(c.Pattern.LengthRepeat)-1).Draw(t, "start")))
		}
		return c
	})
}

// kindsOf draws kinds of drop; some have a motif at a place, some have none.
func kindsOf(t *rapid.T) []repeat.Drop {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) repeat.Drop {
		d := repeat.Drop{
			Length: length.Length(rapid.Int64Range(1, 4000).Draw(t, "length")) * length.Millimetre,
			Count:  rapid.IntRange(1, 4).Draw(t, "count"), Widths: rapid.IntRange(1, 5).Draw(t, "widths"),
		}
		if rapid.Bool().Draw(t, "coarse") {
			d.Length = length.Length(rapid.Int64Range(1, 80).Draw(t, "half hundreds")) * 50 * length.Millimetre
		}
		if rapid.IntRange(0, 3).Draw(t, "placed") > 0 {
			d.Place = &repeat.Place{
				Motif:   rapid.IntRange(0, 1).Draw(t, "motif"),
				FromTop: length.Length(rapid.Int64Range(0, 500).Draw(t, "top")) * length.Millimetre,
			}
		}
		return d
	}), 1, 6).Draw(t, "drops")
}

// No printed rule reckons less than the layout that is answered beside it: for any
// kinds of drop, wherever their motifs fall and wherever the cloth begins.
func TestPrintedRulesFitTheLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, drops := halfCloths().Draw(t, "cloth"), kindsOf(t)
		s := repeat.SeamOf(c, 0)
		l := repeat.Lay(c, drops, s)
		best := c
		best.StartsAt = nil
		for _, r := range printedRules {
			got := repeat.Printed(r, c, drops, s, l.Length)
			if got < l.Length {
				t.Errorf("rule %d takes %v, the layout %v", r, got, l.Length)
			}
			from := repeat.Printed(r, best, drops, s, l.Length)
			if got != from && !(c.StartsAt != nil && l.Placed) {
				t.Errorf("rule %d takes %v, from the best start %v, though the start says nothing", r, got, from)
			}
			if l.Placed && from+c.Pattern.LengthRepeat < l.AnyStart {
				t.Errorf("rule %d takes %v from any start, the layout %v", r, from+c.Pattern.LengthRepeat, l.AnyStart)
			}
		}
	})
}

// The rule that cuts in turn is a layout by itself: it is laid here width by width,
// each where its start comes round next, and whole repeats are cut for each.
func TestInTurnIsItsOwnLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, drops := halfCloths().Draw(t, "cloth"), kindsOf(t)
		s := repeat.SeamOf(c, 0)
		if !c.Pattern.Drop.IsStraight() && s.Columns%2 == 0 {
			return // the rule counts two starts where there is one
		}
		v2 := 2 * int64(c.Pattern.LengthRepeat) // in halves of a nanometre
		first := func(d repeat.Drop) int64 {
			return 2 * int64(c.Pattern.Principal()[d.Place.Motif].Along-d.Place.FromTop)
		}
		common, placed := int64(0), false
		for _, d := range drops {
			if d.Place != nil && !placed {
				common, placed = first(d), true
			}
		}
		at, begun := int64(0), false
		if c.StartsAt != nil && placed {
			at, begun = 2*int64(*c.StartsAt), true
		}
		from := at
		for _, d := range drops {
			begin := common
			if d.Place != nil {
				begin = first(d)
			}
			for range d.Count {
				for k := range d.Widths {
					want := begin
					if k%2 == 1 && !c.Pattern.Drop.IsStraight() {
						want += v2 / 2
					}
					if !begun {
						at, from, begun = want, want, true
					}
					at += ((want-at)%v2 + v2) % v2
					at += (2*int64(d.Length) + v2 - 1) / v2 * v2
				}
			}
		}
		if got, want := repeat.Printed(repeat.InTurn, c, drops, s, 0), length.Length((at-from+1)/2); got != want {
			t.Errorf("in turn %v, laid width by width %v", got, want)
		}
	})
}
