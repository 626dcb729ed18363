package service

import (
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
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
