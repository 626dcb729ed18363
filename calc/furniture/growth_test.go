package furniture_test

import (
	"maps"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
)

// added are parts that a piece may have or not: the option, the choice without and
// the choice with it.
var added = [][3]string{
	{"skirt", "none", "plain"}, {"skirt", "none", "box"}, {"collars", "none", "sewn"}, {"arm-pads", "no", "yes"},
	{"long-back", "none", "roll"}, {"head", "round", "facings"}, {"fronts", "round", "facings"}, {"cushion-shape", "square", "t"},
	{"cushion-shape", "square", "l"}, {"cushion-shape", "l", "t"}, {"platform", "lining", "cover"}, {"base", "lining", "cover"}, {"back", "plain", "cushions"},
}

// taken is the cloth of a list that is not lining: its area in square millimetres, and
// how long it is when every panel has rows of its own on a cloth of 137 cm.
func taken(l furniture.List) (area int64, rows length.Length) {
	const width = 137 * cm
	for _, p := range l.Panels {
		if p.Cover == furniture.Lining {
			continue
		}
		cut, n := p.Cut(), int64(p.Count)
		area += int64(cut.Across/length.Micrometre) * int64(cut.Along/length.Micrometre) / 1_000_000 * n
		if abreast := int64(width / cut.Across); abreast > 0 {
			n = (n + abreast - 1) / abreast
		} else {
			n *= int64(length.CeilDiv(cut.Across, width))
		}
		rows += length.Length(n) * cut.Along
	}
	return area, rows
}

// The cloth of a piece never falls when a measure, an allowance or an added part
// grows, in either way of cutting. What is cut off a cushion's corners makes it
// smaller.
func TestClothNeverFalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPiece(t)
		p.Allow = furniture.Allowances{}
		grown, what := p, ""
		k, _ := furniture.Find(p.Kind)
		switch rapid.IntRange(0, 2).Draw(t, "what grows") {
		case 0:
			m := rapid.SampledFrom(k.Measures).Draw(t, "measure")
			if strings.HasPrefix(m.ID, "corner-") {
				return
			}
			grown.Measures = maps.Clone(p.Measures)
			grown.Measures[m.ID] += length.Length(rapid.Int64Range(0, int64((m.Most-p.Measures[m.ID])/length.Millimetre)).Draw(t, "more")) * length.Millimetre
			what = m.ID
		case 1:
			draw := func(name string) (small, large *length.Length) {
				a := length.Length(rapid.Int64Range(0, 200).Draw(t, name)) * length.Millimetre
				return &a, new(a + length.Length(rapid.Int64Range(0, 200).Draw(t, name+" more"))*length.Millimetre)
			}
			a, b := &p.Allow, &grown.Allow
			for i, to := range [][2]**length.Length{
				{&a.Seam, &b.Seam}, {&a.Pull, &b.Pull}, {&a.Tuck, &b.Tuck}, {&a.Fly, &b.Fly}, {&a.Under, &b.Under},
				{&a.Outside, &b.Outside}, {&a.BackTack, &b.BackTack}, {&a.Facing, &b.Facing}, {&a.Border, &b.Border},
			} {
				if rapid.Bool().Draw(t, "given") {
					*to[0], *to[1] = draw(string(rune('a' + i)))
				}
			}
			what = "allowances"
		default:
			part := rapid.SampledFrom(added).Draw(t, "part")
			_, has := p.Options[part[0]]
			if !has || !hasChoices(k, part) || part[0] == "back" && p.Kind == "fireside-chair" { // there instead of a cover
				return
			}
			p.Options[part[0]] = part[1]
			grown.Options = maps.Clone(p.Options)
			grown.Options[part[0]] = part[2]
			what = part[0] + " " + part[2]
		}
		area, rows := taken(p.List())
		more, longer := taken(grown.List())
		if more < area || longer < rows {
			t.Errorf("%s: with more %s %d mm² in %v became %d mm² in %v", p.Kind, what, area, rows, more, longer)
		}
	})
}

func hasChoices(k furniture.Kind, part [3]string) bool {
	n := 0
	for _, o := range k.Options {
		for _, c := range o.Choices {
			if o.ID == part[0] && (c.ID == part[1] || c.ID == part[2]) {
				n++
			}
		}
	}
	return n == 2
}
