package furniture_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

const cm = length.Centimetre

func TestKindsAreWhole(t *testing.T) {
	kinds := furniture.Kinds()
	if len(kinds) < 16 {
		t.Errorf("%d kinds, want 16 or more", len(kinds))
	}
	seen := make(map[string]bool)
	for _, k := range kinds {
		if seen[k.ID] {
			t.Errorf("two kinds %s", k.ID)
		}
		seen[k.ID] = true
		if k.Name == "" || k.About == "" || len(k.Measures) == 0 {
			t.Errorf("%s says too little of itself", k.ID)
		}
		measures := make(map[string]bool)
		for _, m := range k.Measures {
			if measures[m.ID] {
				t.Errorf("%s: two measures %s", k.ID, m.ID)
			}
			measures[m.ID] = true
			if m.Name == "" || m.How == "" || m.Least <= 0 || m.Typical < m.Least || m.Most < m.Typical {
				t.Errorf("%s: %+v", k.ID, m)
			}
		}
		for _, o := range k.Options {
			if len(o.Choices) < 2 || o.Name == "" {
				t.Errorf("%s: option %s", k.ID, o.ID)
			}
		}
	}
}

// Every measure of a kind changes its list: none is asked for in vain.
func TestEveryMeasureCounts(t *testing.T) {
	for _, k := range furniture.Kinds() {
		for _, m := range k.Measures {
			counts := false
			for _, p := range everyChoice(k) {
				before := p.List()
				p.Measures = map[string]length.Length{m.ID: m.Most}
				if m.Typical == m.Most {
					p.Measures[m.ID] = m.Least
				}
				counts = counts || differ(before, p.List())
			}
			if !counts {
				t.Errorf("%s: %s changes nothing", k.ID, m.ID)
			}
		}
	}
}

// Every choice of a kind changes its list.
func TestEveryOptionCounts(t *testing.T) {
	for _, k := range furniture.Kinds() {
		for _, o := range k.Options {
			for _, c := range o.Choices[1:] {
				counts := false
				for _, p := range everyChoice(k) {
					before := p.List()
					q := p
					q.Options = map[string]string{}
					for id, v := range p.Options {
						q.Options[id] = v
					}
					q.Options[o.ID] = c.ID
					counts = counts || differ(before, q.List())
				}
				if !counts {
					t.Errorf("%s: %s %s changes nothing", k.ID, o.ID, c.ID)
				}
			}
		}
	}
}

// everyChoice is a piece of that kind for each choice, the others being first.
func everyChoice(k furniture.Kind) []furniture.Piece {
	list := []furniture.Piece{{Kind: k.ID, Count: 1}}
	for _, o := range k.Options {
		for _, c := range o.Choices[1:] {
			list = append(list, furniture.Piece{Kind: k.ID, Count: 1, Options: map[string]string{o.ID: c.ID}})
		}
	}
	return list
}

func differ(a, b furniture.List) bool {
	if len(a.Panels) != len(b.Panels) || len(a.Runs) != len(b.Runs) || len(a.Buttons) != len(b.Buttons) || len(a.Fillings) != len(b.Fillings) || len(a.Frames) != len(b.Frames) {
		return true
	}
	for i := range a.Panels {
		if a.Panels[i] != b.Panels[i] {
			return true
		}
	}
	for i := range a.Fillings {
		if a.Fillings[i] != b.Fillings[i] {
			return true
		}
	}
	for i := range a.Frames {
		if a.Frames[i] != b.Frames[i] {
			return true
		}
	}
	return false
}

// anyPiece is a piece of any kind within its measures and options.
func anyPiece(t *rapid.T) furniture.Piece {
	k := rapid.SampledFrom(furniture.Kinds()).Draw(t, "kind")
	p := furniture.Piece{Kind: k.ID, Count: rapid.IntRange(1, 4).Draw(t, "count"), Measures: map[string]length.Length{}, Options: map[string]string{}}
	for _, m := range k.Measures {
		mm := rapid.Int64Range(int64(m.Least/length.Millimetre), int64(m.Most/length.Millimetre)).Draw(t, m.ID)
		p.Measures[m.ID] = length.Length(mm) * length.Millimetre
	}
	for _, o := range k.Options {
		p.Options[o.ID] = rapid.SampledFrom(o.Choices).Draw(t, o.ID).ID
	}
	return p
}

// Whatever the measures and options, the list has no faults as a cutting list,
// for a cloth of any kind of pattern.
func TestListsHaveNoFaults(t *testing.T) {
	patterns := []cloth.Pattern{
		{}, {WidthRepeat: 7 * cm}, {LengthRepeat: 32 * cm},
		{LengthRepeat: 32 * cm, WidthRepeat: 28 * cm, Motifs: []cloth.Motif{{Name: "heron", Across: 14 * cm}}},
	}
	rapid.Check(t, func(t *rapid.T) {
		p := anyPiece(t)
		p.Motif = rapid.SampledFrom([]string{"", "heron"}).Draw(t, "motif")
		if l := p.Faults(""); l.Len() > 0 {
			t.Fatalf("faults of the piece: %+v", l.Faults())
		}
		list := p.List()
		c := cloth.Cloth{Width: 140 * cm, Pattern: rapid.SampledFrom(patterns).Draw(t, "pattern"), OneWay: rapid.Bool().Draw(t, "one way")}
		for _, cover := range []furniture.Cover{furniture.Top, furniture.Outside, furniture.Lining} {
			cut := list.CutFrom(cover, c)
			l := panel.ListFaults(cut, "")
			l.Append(panel.ClothFaults(cut, c, 0, ""))
			if l.Len() > 0 {
				t.Fatalf("cover %d: %+v", cover, l.Faults())
			}
		}
		if len(list.CutFrom(furniture.Top, c)) == 0 {
			t.Fatal("nothing to cut from the top cover")
		}
		for _, q := range list.Panels {
			if q.How == "" || !strings.Contains(q.How, " = ") {
				t.Errorf("%s does not say how it came about: %q", q.ID, q.How)
			}
		}
	})
}

// A larger piece never has less of any panel, run or filling.
func TestLargerNeverTakesLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := anyPiece(t)
		k, _ := furniture.Find(small.Kind)
		large := small
		large.Measures = map[string]length.Length{}
		for _, m := range k.Measures {
			room := int64((m.Most - small.Measures[m.ID]) / length.Millimetre)
			large.Measures[m.ID] = small.Measures[m.ID] + length.Length(rapid.Int64Range(0, room).Draw(t, "more "+m.ID))*length.Millimetre
		}
		a, b := small.List(), large.List()
		for i, p := range a.Panels {
			q := b.Panels[i]
			if p.ID != q.ID || q.Size.Across < p.Size.Across || q.Size.Along < p.Size.Along {
				t.Fatalf("%s %v became %s %v", p.ID, p.Size, q.ID, q.Size)
			}
		}
		for i, r := range a.Runs {
			if b.Runs[i].Length < r.Length {
				t.Fatalf("run %s", r.Name)
			}
		}
	})
}

func TestFaultsOfAPiece(t *testing.T) {
	for _, tc := range []struct {
		name string
		p    furniture.Piece
		want string
	}{
		{"unknown kind", furniture.Piece{Kind: "hammock", Count: 1}, "#/kind not-one-of"},
		{"no pieces", furniture.Piece{Kind: "carver"}, "#/count too-small"},
		{"many pieces", furniture.Piece{Kind: "carver", Count: 51}, "#/count too-large"},
		{"unknown measure", furniture.Piece{Kind: "carver", Count: 1, Measures: map[string]length.Length{"wing-width": cm}}, "#/measures/wing-width unknown-field"},
		{"a slip of the tape", furniture.Piece{Kind: "carver", Count: 1, Measures: map[string]length.Length{"seat-width": 5 * cm}}, "#/measures/seat-width too-small"},
		{"inches for centimetres", furniture.Piece{Kind: "carver", Count: 1, Measures: map[string]length.Length{"seat-width": 54 * length.Inch}}, "#/measures/seat-width too-large"},
		{"unknown option", furniture.Piece{Kind: "carver", Count: 1, Options: map[string]string{"wheels": "four"}}, "#/options/wheels unknown-field"},
		{"unknown choice", furniture.Piece{Kind: "carver", Count: 1, Options: map[string]string{"back": "glass"}}, "#/options/back not-one-of"},
		{"allowance", furniture.Piece{Kind: "carver", Count: 1, Allow: furniture.Allowances{Seam: -cm}}, "#/allow/seam too-small"},
	} {
		l := tc.p.Faults(fault.Path(""))
		var got []string
		for _, f := range l.Faults() {
			got = append(got, f.Pointer+" "+string(f.Code))
		}
		if len(got) != 1 || got[0] != tc.want {
			t.Errorf("%s: %q, want %q", tc.name, got, tc.want)
		}
	}
}
