package furniture_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

const cm = length.Centimetre

var lines = []furniture.Line{furniture.ShowLine, furniture.Crease, furniture.TackLine, furniture.SeamLine, furniture.Rebate}

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
			if !slices.Contains(lines, m.From) || !slices.Contains(lines, m.To) {
				t.Errorf("%s: %s runs from %q to %q", k.ID, m.ID, m.From, m.To)
			}
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

// ways are those of cutting.
var ways = []practice.Way{practice.Close, practice.Workroom}

// everyChoice is a piece of that kind for each choice and each way of cutting, the
// other options being first.
func everyChoice(k furniture.Kind) []furniture.Piece {
	var list []furniture.Piece
	for _, way := range ways {
		list = append(list, furniture.Piece{Kind: k.ID, Count: 1, Way: way})
		for _, o := range k.Options {
			for _, c := range o.Choices[1:] {
				list = append(list, furniture.Piece{Kind: k.ID, Count: 1, Way: way, Options: map[string]string{o.ID: c.ID}})
			}
		}
	}
	return list
}

func differ(a, b furniture.List) bool {
	if len(a.Panels) != len(b.Panels) || len(a.Runs) != len(b.Runs) || len(a.Buttons) != len(b.Buttons) || len(a.Fillings) != len(b.Fillings) || len(a.Frames) != len(b.Frames) {
		return true
	}
	for i := range a.Panels {
		if !reflect.DeepEqual(a.Panels[i], b.Panels[i]) {
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
	p := furniture.Piece{Kind: k.ID, Way: rapid.SampledFrom(ways).Draw(t, "way"), Count: rapid.IntRange(1, 4).Draw(t, "count"), Measures: map[string]length.Length{}, Options: map[string]string{}}
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
		if l := p.Faults(fault.Path{}); l.Len() > 0 {
			t.Fatalf("faults of the piece: %+v", l.Faults())
		}
		list := p.List()
		c := cloth.Cloth{Width: 140 * cm, Pattern: rapid.SampledFrom(patterns).Draw(t, "pattern"), OneWay: rapid.Bool().Draw(t, "one way")}
		for _, cover := range []furniture.Cover{furniture.Top, furniture.Outside, furniture.Lining} {
			cut := list.CutFrom(cover, c)
			l := panel.ListFaults(cut, fault.Path{})
			l.Append(panel.ClothFaults(cut, c, 0, fault.Path{}))
			if l.Len() > 0 {
				t.Fatalf("cover %d: %+v", cover, l.Faults())
			}
		}
		if len(list.CutFrom(furniture.Top, c)) == 0 {
			t.Fatal("nothing to cut from the top cover")
		}
		for _, q := range list.Panels {
			if q.How.Code != note.PanelDerived || strings.Count(q.How.Text(length.Metric), " = ") != 2 {
				t.Errorf("%s does not say how it came about: %q", q.ID, q.How)
			}
		}
	})
}

// A larger piece never has less of any panel, run or filling. What is cut off the
// corners of a cushion makes it smaller, and is left as it is.
func TestLargerNeverTakesLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := anyPiece(t)
		k, _ := furniture.Find(small.Kind)
		large := small
		large.Measures = map[string]length.Length{}
		for _, m := range k.Measures {
			if strings.HasPrefix(m.ID, "corner-") {
				large.Measures[m.ID] = small.Measures[m.ID]
				continue
			}
			room := int64((m.Most - small.Measures[m.ID]) / length.Millimetre)
			large.Measures[m.ID] = small.Measures[m.ID] + length.Length(rapid.Int64Range(0, room).Draw(t, "more "+m.ID))*length.Millimetre
		}
		a, b := small.List(), large.List()
		for i, p := range a.Panels {
			q := b.Panels[i]
			if p.ID != q.ID || q.Cut().Across < p.Cut().Across || q.Cut().Along < p.Cut().Along {
				t.Fatalf("%s %v became %s %v", p.ID, p.Cut(), q.ID, q.Cut())
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
		{"allowance", furniture.Piece{Kind: "carver", Count: 1, Allow: furniture.Allowances{Seam: new(-cm)}}, "#/allow/seam too-small"},
	} {
		l := tc.p.Faults(fault.Path{})
		var got []string
		for _, f := range l.Faults() {
			got = append(got, f.Pointer()+" "+string(f.Code))
		}
		if len(got) != 1 || got[0] != tc.want {
			t.Errorf("%s: %q, want %q", tc.name, got, tc.want)
		}
	}
}

// The makes of cushions, skirts, borders and platforms come out as the trade cuts
// them.
func TestStylesAreCutAsTheTradeCuts(t *testing.T) {
	cut := func(kind string, options ...string) map[string]furniture.Panel {
		p := furniture.Piece{Kind: kind, Count: 1, Options: map[string]string{}}
		for i := 0; i < len(options); i += 2 {
			p.Options[options[i]] = options[i+1]
		}
		out := make(map[string]furniture.Panel)
		for _, q := range p.List().Panels {
			out[q.ID] = q
		}
		return out
	}
	const seam = 15 * length.Millimetre
	size := func(across, along length.Length) panel.Size { return panel.Size{Across: across, Along: along} }
	for _, tc := range []struct {
		what   string
		panels map[string]furniture.Panel
		want   map[string]panel.Size // as cut; zero where there must be no such panel
	}{
		{"boxed", cut("club-chair"), map[string]panel.Size{
			"CT": size(58*cm+2*seam, 60*cm+2*seam), "CF": size(58*cm+2*seam, 12*cm+2*seam), "CB": size(58*cm+2*seam, 14*cm+2*seam),
		}},
		{"knife-edged", cut("club-chair", "cushion-make", "knife"), map[string]panel.Size{
			"CT": size(70*cm+2*seam, 72*cm+2*seam), "CU": size(70*cm+2*seam, 72*cm+2*seam), "CF": {}, "CS": {}, "CB": {},
		}},
		{"bull-nosed", cut("club-chair", "cushion-make", "bull-nose"), map[string]panel.Size{
			"CT": size(58*cm+2*seam, 132*cm+2*seam), "CU": {}, "CF": {}, "CS": size(60*cm+2*seam, 12*cm+2*seam),
		}},
		{"bull-nosed, back cushions boxed", cut("club-chair", "cushion-make", "bull-nose", "back", "cushions"), map[string]panel.Size{
			"BF": size(62*cm+2*seam, 12*cm+2*seam), "BU": size(62*cm+2*seam, 56*cm+2*seam),
		}},
		{"no border, loose cushion", cut("club-chair", "border", "none", "flies", "no"), map[string]panel.Size{
			"FB": {}, "PF": size(58*cm+20*cm, 15*cm+22*cm+seam+4*cm),
		}},
		{"no border, tight seat", cut("club-chair", "border", "none", "cushion", "fixed", "flies", "no"), map[string]panel.Size{
			"FB": {}, "SEAT": size(58*cm+20*cm, 60*cm+22*cm+10*cm+4*cm),
		}},
		{"skirt lined", cut("slipper-chair", "skirt", "tailored", "skirt-make", "lined"), map[string]panel.Size{
			"KF": size(52*cm+2*seam, 16*cm+2*seam), "KFL": size(52*cm+2*seam, 16*cm+2*seam), "KU": size(22*cm+2*seam, 16*cm+2*seam), "KUL": size(22*cm+2*seam, 16*cm+2*seam),
		}},
		{"collars", cut("wing-chair", "collars", "sewn"), map[string]panel.Size{"CO": size(8*cm+2*seam, 42*cm+2*seam)}},
		{"wings on a settee", cut("two-seat-settee", "wings", "yes"), map[string]panel.Size{"IWL": size(22*cm+6*cm+seam, 30*cm+6*cm+10*cm)}},
		{"bordered headboard", cut("headboard", "border", "yes"), map[string]panel.Size{"TB": size(150*cm+2*seam, 8*cm+seam+4*cm), "FRONT": size(150*cm+2*seam, 70*cm+seam+4*cm)}},
		{"return of a corner settee", cut("corner-settee", "cushion", "fixed", "skirt", "tailored"), map[string]panel.Size{"KR": size(100*cm+2*seam, 16*cm+seam+4*cm)}},
	} {
		for id, want := range tc.want {
			got, there := tc.panels[id]
			if there != (want != panel.Size{}) || there && got.Cut() != want {
				t.Errorf("%s: %s is %v, want %v (%s)", tc.what, id, got.Cut(), want, got.How.Text(length.Metric))
			}
		}
	}
	if p := cut("club-chair", "platform", "cover")["PL"]; p.Cover != furniture.Top || p.Hidden {
		t.Error("a platform of the cover is cut from another")
	}
	if p := cut("club-chair")["FB"]; p.Match.How != panel.RunsOn || p.Match.From != "CF" {
		t.Errorf("the front border %+v does not run on from the cushion's", p.Match)
	}
}

// Measures that a style does not want are not assumed.
func TestOnlyWhatIsWantedIsAssumed(t *testing.T) {
	assumed := func(options map[string]string) map[string]bool {
		out := make(map[string]bool)
		p := furniture.Piece{Kind: "two-seat-settee", Count: 1, Options: options}
		for _, m := range p.List().Assumed {
			out[m.ID] = true
		}
		return out
	}
	plain, full := assumed(nil), assumed(map[string]string{"wings": "yes", "skirt": "box"})
	for _, id := range []string{"wing-width", "wing-height", "skirt-height"} {
		if plain[id] || !full[id] {
			t.Errorf("%s is assumed %v without it and %v with it", id, plain[id], full[id])
		}
	}
	if !plain["seat-width"] {
		t.Error("the seat width is not assumed")
	}
}

// Every piece has its stacks for the fire check: a cover first, over a filling, and
// no id twice in one.
func TestStacks(t *testing.T) {
	for _, k := range furniture.Kinds() {
		for _, p := range everyChoice(k) {
			list := p.List()
			stacks := list.Stacks()
			if len(stacks) == 0 {
				t.Fatalf("%s has no stack", k.ID)
			}
			for _, s := range stacks {
				seen, fills := make(map[string]bool), false
				for _, l := range s.Layers {
					if seen[l.ID] {
						t.Errorf("%s %s: %s twice", k.ID, s.Where, l.ID)
					}
					seen[l.ID] = true
					fills = fills || l.Role == "filling" && l.Thickness > 0
				}
				if s.Where != "outside" && (s.Layers[0].Role != "cover" || !fills) {
					t.Errorf("%s %s: %+v", k.ID, s.Where, s.Layers)
				}
			}
		}
	}
	wing := furniture.Piece{Kind: "wing-chair", Count: 1, Options: map[string]string{"outside": "other"}}
	var got []string
	for _, s := range wing.List().Stacks() {
		for _, l := range s.Layers {
			got = append(got, s.Where+" "+l.ID)
		}
	}
	const want = "seat COVER,seat WADDING,seat C,seat PLATFORM,seat DECK,back COVER,back CALICO,back WADDING,back BP,arm COVER,arm WADDING,arm AP,arm WP,outside OUTSIDE,outside LINING,outside BOTTOM"
	if text := strings.Join(got, ","); text != want {
		t.Errorf("stacks of the wing chair: %s", text)
	}
}

// Wings and the arms of a carver are padded on both sides, and only where there
// are any.
func TestThinPads(t *testing.T) {
	for _, c := range []struct {
		kind, option, choice, pad string
		want                      int
	}{
		{"wing-chair", "", "", "WP", 2},
		{"club-chair", "", "", "WP", 0},
		{"three-seat-settee", "wings", "yes", "WP", 2},
		{"three-seat-settee", "wings", "no", "WP", 0},
		{"headboard", "wings", "yes", "WP", 2},
		{"carver", "arm-pads", "yes", "AP", 2},
		{"carver", "arm-pads", "no", "AP", 0},
	} {
		p := furniture.Piece{Kind: c.kind, Count: 1}
		if c.option != "" {
			p.Options = map[string]string{c.option: c.choice}
		}
		n := 0
		for _, f := range p.List().Fillings {
			if f.ID == c.pad {
				n += f.Count
			}
		}
		if n != c.want {
			t.Errorf("%s with %s %s: %d of %s, wanted %d", c.kind, c.option, c.choice, n, c.pad, c.want)
		}
	}
}
