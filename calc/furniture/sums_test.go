package furniture_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

var (
	betweenTerms = regexp.MustCompile(` (\+|less) `)
	sideOfTerm   = regexp.MustCompile(` \((left|right|top|bottom)\)$`)
)

// printedSum reads the sum of one side as it is printed, and what its terms add up
// to, in the units that are printed and by nothing but the text.
func printedSum(t *rapid.T, text string) (total string, sum length.Length) {
	total, terms, ok := strings.Cut(text, " = ")
	if !ok {
		t.Fatalf("%q is no sum", text)
	}
	signed := betweenTerms.ReplaceAllString(terms, "\n$1 ")
	for i, line := range strings.Split(signed, "\n") {
		sign, words := length.Length(1), line
		if i > 0 {
			op, rest, _ := strings.Cut(line, " ")
			if words = rest; op == "less" {
				sign = -1
			}
		}
		if n, rest, ok := strings.Cut(words, " × "); ok {
			times, err := strconv.Atoi(n)
			if err != nil {
				t.Fatalf("%q in %q", n, text)
			}
			sign, words = sign*length.Length(times), rest
		}
		sum += sign * lastLength(t, words)
	}
	return total, sum
}

// lastLength is the length that stands last in a term, before a note to it.
func lastLength(t *rapid.T, term string) length.Length {
	words := strings.Fields(strings.TrimSuffix(sideOfTerm.ReplaceAllString(term, ""), " for both edges"))
	for i := range words {
		if l, err := length.Parse(strings.Join(words[i:], " ")); err == nil {
			return l
		}
	}
	t.Fatalf("%q has no length", term)
	return 0
}

// sumsAddUp wants the terms of every printed sum to come to the size that is
// printed, and that to be what is cut, rounded up.
func sumsAddUp(t *rapid.T, p furniture.Piece) {
	for _, q := range p.List().Panels {
		how := q.How.Text(p.Units)
		across, along, ok := strings.Cut(strings.TrimPrefix(how, "across "), "; along ")
		if !ok {
			t.Fatalf("%s: %q", q.ID, how)
		}
		if len(how) > 500 {
			t.Errorf("%s: %d bytes", q.ID, len(how))
		}
		for text, cut := range map[string]length.Length{across: q.Cut().Across, along: q.Cut().Along} {
			total, sum := printedSum(t, text)
			printed, err := length.Parse(total)
			if err != nil {
				t.Fatal(err)
			}
			if sum != printed || total != cut.Text(p.Units, length.Up) {
				t.Errorf("%s of a %s, cut %v: %q comes to %s", q.ID, p.Kind, cut, text, sum.Text(p.Units, length.Nearest))
			}
		}
	}
}

// drawnMeasures gives a piece measures and allowances: to the step of the tape, or
// to anything that can be asked for.
func drawnMeasures(t *rapid.T, k furniture.Kind, p *furniture.Piece) {
	step := rapid.SampledFrom([]length.Length{length.Nanometre, length.Millimetre, length.Inch / 16, length.Inch / 2}).Draw(t, "step")
	draw := func(name string, least, most length.Length) length.Length {
		return least + length.Length(rapid.Int64Range(0, int64((most-least)/step)).Draw(t, name))*step
	}
	p.Measures = map[string]length.Length{}
	for _, m := range k.Measures {
		if rapid.IntRange(0, 4).Draw(t, m.ID+" given") > 0 {
			p.Measures[m.ID] = draw(m.ID, m.Least, m.Most)
		}
	}
	if rapid.Bool().Draw(t, "own allowances") {
		p.Allow = furniture.Allowances{
			Seam: new(draw("seam", 0, 3*cm)), Pull: new(draw("pull", 0, 10*cm)), Tuck: new(draw("tuck", 0, 20*cm)), Under: new(draw("under", 0, 10*cm)),
		}
	}
}

// How a size came about adds up as it is printed: for every choice of every option
// of every kind, in both units, whatever the measures and allowances, and whatever
// the other options are.
func TestPrintedSumsAddUp(t *testing.T) {
	for _, k := range furniture.Kinds() {
		t.Run(k.ID, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				p := furniture.Piece{Kind: k.ID, Count: 1}
				p.Way = rapid.SampledFrom([]practice.Way{practice.Close, practice.Workroom}).Draw(t, "way")
				p.Units = rapid.SampledFrom([]length.System{length.Metric, length.Imperial}).Draw(t, "units")
				drawnMeasures(t, k, &p)
				p.Options = map[string]string{}
				for _, o := range k.Options {
					p.Options[o.ID] = rapid.SampledFrom(o.Choices).Draw(t, o.ID).ID
				}
				sumsAddUp(t, p)
				for _, o := range k.Options {
					drawn := p.Options[o.ID]
					for _, c := range o.Choices {
						p.Options[o.ID] = c.ID
						sumsAddUp(t, p)
					}
					p.Options[o.ID] = drawn
				}
			})
		})
	}
}
