package service

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/repeat"
)

// What the caller should know is said, and nothing else.
func TestRepeatWarnings(t *testing.T) {
	const cm = length.Centimetre
	half := cloth.Pattern{LengthRepeat: 64 * cm, WidthRepeat: 137 * cm, Drop: cloth.Half()}
	joined := []RepeatDrop{{Length: 2 * length.Metre, Count: 1, Widths: 2}}
	for _, tc := range []struct {
		name string
		req  RepeatRequest
		want []string // how each warning begins
	}{
		{"meets", RepeatRequest{Cloth: cloth.Cloth{Width: 137 * cm, Pattern: half}, Drops: joined}, nil},
		{"trimmed", RepeatRequest{Cloth: cloth.Cloth{Width: 140 * cm, Pattern: half}, Drops: joined}, []string{"at the seam allowance the pattern is 3 cm out across: turn in 3 cm more"}},
		{"too narrow", RepeatRequest{Cloth: cloth.Cloth{Width: 100 * cm, Pattern: half}, Drops: joined}, []string{"a width shows less than one width repeat"}},
		{"too narrow, not joined", RepeatRequest{Cloth: cloth.Cloth{Width: 100 * cm, Pattern: half}, Drops: []RepeatDrop{{Length: cm, Count: 3, Widths: 1}}}, nil},
		{"even columns", RepeatRequest{Cloth: cloth.Cloth{Width: 274 * cm, Pattern: half}, Drops: joined}, []string{"a width shows 2 columns"}},
		{"short bolt", RepeatRequest{Cloth: cloth.Cloth{Width: 137 * cm, Pattern: half}, Sold: cloth.Sold{Bolt: 3 * length.Metre}, Drops: joined}, []string{"the order is longer than a bolt of 3 m"}},
		{"shorter bolt", RepeatRequest{Cloth: cloth.Cloth{Width: 137 * cm, Pattern: half}, Sold: cloth.Sold{Bolt: length.Metre}, Drops: joined}, []string{"a drop is longer than a bolt of 1 m"}},
	} {
		a, err := Repeat(tc.req)
		if err != nil {
			t.Fatal(err)
		}
		ok := len(a.Warnings) == len(tc.want)
		for i := range min(len(a.Warnings), len(tc.want)) {
			ok = ok && strings.HasPrefix(a.Warnings[i].Text(length.Metric), tc.want[i])
		}
		if !ok || len(a.Cautions) == 0 {
			t.Errorf("%s: %+v, %d cautions", tc.name, a.Warnings, len(a.Cautions))
		}
	}
}

// Whatever rule is asked for, what is answered is enough for the layout that is
// answered with it: by every rule, from the start that was given and from any.
func TestRepeatOrdersItsLayout(t *testing.T) {
	const mm = length.Millimetre
	rapid.Check(t, func(t *rapid.T) {
		req := RepeatRequest{
			Cloth: cloth.Cloth{
				Width: 137 * length.Centimetre,
				Pattern: cloth.Pattern{
					LengthRepeat: length.Length(rapid.Int64Range(10, 900).Draw(t, "repeat")) * mm,
					WidthRepeat:  length.Length(rapid.Int64Range(200, 1500).Draw(t, "across")) * mm,
				},
			},
			Sold: cloth.Sold{Step: length.Length(rapid.Int64Range(0, 1000).Draw(t, "by")) * mm},
			Seam: length.Length(rapid.Int64Range(0, 20).Draw(t, "seam")) * mm,
			Rule: rapid.SampledFrom([]repeat.Rule{repeat.Exact, repeat.HalfRepeatOnce, repeat.HalfRepeatEach, repeat.InTurn}).Draw(t, "rule"),
		}
		if rapid.Bool().Draw(t, "half") {
			req.Cloth.Pattern.Drop = cloth.Half()
		}
		if rapid.Bool().Draw(t, "known") {
			req.Cloth.StartsAt = new(length.Length(rapid.Int64Range(0, int64(req.Cloth.Pattern.LengthRepeat)-1).Draw(t, "start")))
		}
		for range rapid.IntRange(1, 5).Draw(t, "kinds") {
			d := RepeatDrop{
				Length: length.Length(rapid.Int64Range(1, 3000).Draw(t, "length")) * mm,
				Count:  rapid.IntRange(1, 3).Draw(t, "count"), Widths: rapid.IntRange(1, 4).Draw(t, "widths"),
			}
			if rapid.Bool().Draw(t, "placed") {
				d.Place = &RepeatPlace{FromTop: length.Length(rapid.Int64Range(0, 900).Draw(t, "top")) * mm}
			}
			req.Drops = append(req.Drops, d)
		}
		if l := RepeatFaults(req); l.Len() > 0 {
			t.Fatalf("%v", l)
		}
		a, err := Repeat(req)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range a.Rules {
			if r.Total < a.Layout.Length {
				t.Errorf("rule %d: %v for a layout of %v", r.Rule, r.Total, a.Layout.Length)
			}
			if r.Rule == req.Rule && a.Needed != r.Total {
				t.Errorf("%v is needed, the rule says %v", a.Needed, r.Total)
			}
		}
		if a.Needed < a.Layout.Length || a.AnyStart < a.Layout.AnyStart || a.Order < a.Layout.Length {
			t.Errorf("needed %v, any start %v, order %v for a layout of %v and %v", a.Needed, a.AnyStart, a.Order, a.Layout.Length, a.Layout.AnyStart)
		}
		if req.Cloth.StartsAt == nil && a.Order < a.Layout.AnyStart {
			t.Errorf("order %v, any start %v", a.Order, a.Layout.AnyStart)
		}
	})
}
