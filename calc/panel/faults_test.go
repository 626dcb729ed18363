package panel_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

const mm, cm, m = length.Millimetre, length.Centimetre, length.Metre

// seat is a sound panel.
func seat(id string) panel.Panel {
	return panel.Panel{ID: id, Count: 1, Size: panel.Size{Across: 60 * cm, Along: 66 * cm}}
}

// onto is seat(id), running on from another panel.
func onto(id, from string) panel.Panel {
	p := seat(id)
	p.Match = panel.Match{How: panel.RunsOn, From: from}
	return p
}

// paired is seat(id) with a twin.
func paired(id, twin string, count int) panel.Panel {
	p := seat(id)
	p.Pair, p.Count = twin, count
	return p
}

// trellis is a cloth of 140 cm with both repeats and one motif.
func trellis() cloth.Cloth {
	return cloth.Cloth{Width: 140 * cm, Pattern: cloth.Pattern{
		LengthRepeat: 32 * cm, WidthRepeat: 35 * cm, Motifs: []cloth.Motif{{Name: "crossing"}},
	}}
}

// found is every fault as "pointer code".
func found(l fault.List) []string {
	var all []string
	for _, f := range l.Faults() {
		all = append(all, f.Pointer()+" "+string(f.Code))
		if f.Detail == "" || f.Try == "" {
			all = append(all, f.Pointer()+" has no detail or no way out")
		}
	}
	return all
}

func TestPanelFaults(t *testing.T) {
	for _, tc := range []struct {
		name   string
		change func(*panel.Panel)
		want   []string
	}{
		{"sound", func(*panel.Panel) {}, nil},
		{"least", func(p *panel.Panel) { p.Size = panel.Size{Across: mm, Along: mm} }, nil},
		{"most", func(p *panel.Panel) {
			p.Size = panel.Size{Across: 100 * m, Along: 100 * m}
			p.Allow = panel.Sides{Top: 2 * m, Bottom: 2 * m, Left: 2 * m, Right: 2 * m}
			p.JoinSeam = 10 * cm
		}, nil},
		{"no count", func(p *panel.Panel) { p.Count = 0 }, []string{"#/count too-small"}},
		{"too small", func(p *panel.Panel) { p.Size = panel.Size{Across: mm - 1, Along: -cm} },
			[]string{"#/size/across too-small", "#/size/along too-small"}},
		{"too large", func(p *panel.Panel) { p.Size = panel.Size{Across: 100*m + 1, Along: 1000_000 * m} },
			[]string{"#/size/across too-large", "#/size/along too-large"}},
		{"one allowance for all", func(p *panel.Panel) { p.Allow = panel.Sides{Top: -1, Bottom: -1, Left: -1, Right: -1} },
			[]string{"#/allow too-small"}},
		{"allowances by side", func(p *panel.Panel) { p.Allow = panel.Sides{Top: -1, Bottom: 2*m + 1, Right: 1} },
			[]string{"#/allow/top too-small", "#/allow/bottom too-large"}},
		{"join seam", func(p *panel.Panel) { p.JoinSeam = 10*cm + 1 }, []string{"#/joinSeam too-large"}},
		{"anchor inside", func(p *panel.Panel) {
			p.Match = panel.Match{How: panel.Anchor, Point: panel.Point{Across: 60 * cm, Along: 0}}
		}, nil},
		{"anchor outside", func(p *panel.Panel) {
			p.Match = panel.Match{How: panel.Anchor, Point: panel.Point{Across: 60*cm + 1, Along: -1}}
		}, []string{"#/match/point/across too-large", "#/match/point/along too-small"}},
		{"runs on from nothing", func(p *panel.Panel) { p.Match.How = panel.RunsOn }, []string{"#/match/from missing"}},
		{"offset too far", func(p *panel.Panel) {
			p.Match = panel.Match{How: panel.RunsOn, From: "IB", Offset: -100*m - 1}
		}, []string{"#/match/offset too-small"}},
		{"strays under free", func(p *panel.Panel) {
			p.Match = panel.Match{Motif: "x", Point: panel.Point{Across: 1}, From: "IB", Offset: 1, Tolerance: 1}
		}, []string{"#/match/motif not-allowed", "#/match/point not-allowed", "#/match/from not-allowed",
			"#/match/offset not-allowed", "#/match/tolerance not-allowed"}},
		{"across and along at a point", func(p *panel.Panel) {
			p.Match = panel.Match{How: panel.Along, AtPoint: true, Point: panel.Point{Along: 66 * cm}}
		}, nil},
		{"across off the panel", func(p *panel.Panel) {
			p.Match = panel.Match{How: panel.Across, AtPoint: true, Point: panel.Point{Across: -1, Along: 66*cm + 1}}
		}, []string{"#/match/point/across too-small", "#/match/point/along too-large"}},
		{"a point that says nothing", func(p *panel.Panel) {
			p.Match = panel.Match{How: panel.Centred, AtPoint: true}
		}, []string{"#/match/point not-allowed"}},
		{"motif under runs-on", func(p *panel.Panel) {
			p.Match = panel.Match{How: panel.RunsOn, From: "IB", Motif: "x"}
		}, []string{"#/match/motif not-allowed"}},
		{"negative tolerance", func(p *panel.Panel) {
			p.Match = panel.Match{How: panel.Centred, Tolerance: -1}
		}, []string{"#/match/tolerance too-small"}},
	} {
		p := seat("SEAT")
		tc.change(&p)
		if got := found(p.Faults(fault.Path{})); !slices.Equal(got, tc.want) {
			t.Errorf("%s: Faults = %q, want %q", tc.name, got, tc.want)
		}
	}
}

func TestListFaults(t *testing.T) {
	many := seat("B")
	many.Count = 1999
	over := seat("B")
	over.Count = 2000
	twice := onto("B", "A")
	twice.Count = 2
	same := paired("B", "A", 1)
	same.PairAs = panel.SameMotif
	for _, tc := range []struct {
		name string
		list []panel.Panel
		want []string
	}{
		{"none", nil, nil},
		{"two", []panel.Panel{seat("A"), seat("B")}, nil},
		{"an id twice", []panel.Panel{seat("A"), seat("B"), seat("A")}, []string{"#/2/id duplicate"}},
		{"2000 copies", []panel.Panel{seat("A"), many}, nil},
		{"2001 copies", []panel.Panel{seat("A"), over}, []string{"# too-many"}},
		{"chain", []panel.Panel{onto("C", "B"), onto("B", "A"), seat("A")}, nil},
		{"tree", []panel.Panel{seat("A"), onto("B", "A"), onto("C", "A"), onto("D", "B")}, nil},
		{"from nowhere", []panel.Panel{onto("A", "X")}, []string{"#/0/match/from unknown-panel"}},
		{"loop of 1", []panel.Panel{onto("A", "A")}, []string{"#/0/match/from loop"}},
		{"loop of 2", []panel.Panel{onto("A", "B"), onto("B", "A")}, []string{"#/0/match/from loop"}},
		{"loop of 3 with a tail before it", []panel.Panel{onto("T", "C"), onto("C", "B"), onto("B", "A"), onto("A", "C")},
			[]string{"#/1/match/from loop"}},
		{"two loops", []panel.Panel{onto("A", "B"), onto("B", "A"), onto("C", "C")},
			[]string{"#/0/match/from loop", "#/2/match/from loop"}},
		{"unlike counts", []panel.Panel{seat("A"), twice}, []string{"#/1/match/from count-differs"}},
		{"pair named by one", []panel.Panel{paired("A", "B", 1), seat("B")}, nil},
		{"pair named by both", []panel.Panel{paired("A", "B", 1), paired("B", "A", 1)}, nil},
		{"pair of its own", []panel.Panel{paired("A", "A", 2)}, nil},
		{"odd pair of its own", []panel.Panel{paired("A", "A", 3)}, []string{"#/0/pair count-differs"}},
		{"twin from nowhere", []panel.Panel{paired("A", "X", 1)}, []string{"#/0/pair unknown-panel"}},
		{"twins of unlike counts", []panel.Panel{paired("A", "B", 2), seat("B")}, []string{"#/0/pair count-differs"}},
		{"two twins", []panel.Panel{paired("A", "B", 1), paired("C", "B", 1), seat("B")}, []string{"#/1/pair not-allowed"}},
		{"ring of twins", []panel.Panel{paired("A", "B", 1), paired("B", "C", 1), paired("C", "A", 1)},
			[]string{"#/1/pair not-allowed", "#/2/pair not-allowed"}},
		{"twin and runs-on", []panel.Panel{paired("A", "B", 1), onto("B", "A")}, []string{"#/0/pair not-allowed"}},
		{"unlike twins", []panel.Panel{paired("A", "B", 1), same}, []string{"#/1/pairAs not-allowed"}},
	} {
		if got := found(panel.ListFaults(tc.list, fault.Path{})); !slices.Equal(got, tc.want) {
			t.Errorf("%s: ListFaults = %q, want %q", tc.name, got, tc.want)
		}
	}
}

// A ring is found whatever its length and wherever the list begins, and once.
func TestListFaultsLongRing(t *testing.T) {
	const n = 400
	var list []panel.Panel
	name := func(i int) string { return "P" + strings.Repeat("x", i%n) }
	for i := range n {
		list = append(list, onto(name(i), name(i+1)))
	}
	if got, want := found(panel.ListFaults(list, fault.Path{})), []string{"#/0/match/from loop"}; !slices.Equal(got, want) {
		t.Errorf("ListFaults = %q, want %q", got, want)
	}
}

func TestClothFaults(t *testing.T) {
	wide := func(p *panel.Panel) { p.Size.Across = 140*cm + 1 }
	for _, tc := range []struct {
		name   string
		change func(*panel.Panel, *cloth.Cloth)
		bolt   length.Length
		want   []string
	}{
		{"free", func(*panel.Panel, *cloth.Cloth) {}, 0, nil},
		{"across without width repeat", func(p *panel.Panel, c *cloth.Cloth) {
			p.Match.How, c.Pattern.WidthRepeat = panel.Across, 0
		}, 0, []string{"#/0/match/how needs-pattern"}},
		{"along without length repeat", func(p *panel.Panel, c *cloth.Cloth) {
			p.Match.How, c.Pattern.LengthRepeat = panel.Along, 0
		}, 0, []string{"#/0/match/how needs-pattern"}},
		{"centred on a stripe", func(p *panel.Panel, c *cloth.Cloth) {
			p.Match.How, c.Pattern.LengthRepeat = panel.Centred, 0
		}, 0, nil},
		{"centred on plain", func(p *panel.Panel, c *cloth.Cloth) {
			p.Match.How, c.Pattern = panel.Centred, cloth.Pattern{}
		}, 0, []string{"#/0/match/how needs-pattern"}},
		{"anchor on plain", func(p *panel.Panel, c *cloth.Cloth) {
			p.Match.How, c.Pattern = panel.Anchor, cloth.Pattern{}
		}, 0, []string{"#/0/match/how needs-pattern"}},
		{"known motif", func(p *panel.Panel, c *cloth.Cloth) {
			p.Match = panel.Match{How: panel.Centred, Motif: "crossing"}
		}, 0, nil},
		{"unknown motif", func(p *panel.Panel, c *cloth.Cloth) {
			p.Match = panel.Match{How: panel.Centred, Motif: "heron"}
		}, 0, []string{"#/0/match/motif unknown-motif"}},
		{"tolerance of a tenth", func(p *panel.Panel, c *cloth.Cloth) {
			p.Match = panel.Match{How: panel.Centred, Tolerance: 32 * mm}
		}, 0, nil},
		{"tolerance over a tenth", func(p *panel.Panel, c *cloth.Cloth) {
			p.Match = panel.Match{How: panel.Centred, Tolerance: 32*mm + 1}
		}, 0, []string{"#/0/match/tolerance too-large"}},
		{"half turn", func(p *panel.Panel, c *cloth.Cloth) { p.Turn = panel.Half }, 0, nil},
		{"half turn, one way", func(p *panel.Panel, c *cloth.Cloth) {
			p.Turn, c.OneWay = panel.Half, true
		}, 0, []string{"#/0/turn not-allowed"}},
		{"quarter turn, free", func(p *panel.Panel, c *cloth.Cloth) { p.Turn = panel.Quarter }, 0, nil},
		{"quarter turn, centred", func(p *panel.Panel, c *cloth.Cloth) {
			p.Turn, p.Match.How = panel.Quarter, panel.Centred
		}, 0, []string{"#/0/turn not-allowed"}},
		{"quarter turn, centred, railroaded", func(p *panel.Panel, c *cloth.Cloth) {
			p.Turn, p.Match.How, c.Railroad = panel.Quarter, panel.Centred, cloth.RailroadAllowed
		}, 0, nil},
		{"as wide as the cloth", func(p *panel.Panel, c *cloth.Cloth) { p.Size.Across = 140 * cm }, 0, nil},
		{"wider than the cloth", func(p *panel.Panel, c *cloth.Cloth) { wide(p) }, 0, []string{"#/0/size/across wider-than-cloth"}},
		{"wider with its allowances", func(p *panel.Panel, c *cloth.Cloth) {
			p.Size.Across, p.Allow.Left = 140*cm, 1
		}, 0, []string{"#/0/size/across wider-than-cloth"}},
		{"wider, halves", func(p *panel.Panel, c *cloth.Cloth) { wide(p); p.Join = panel.JoinHalves }, 0, nil},
		{"too wide for halves", func(p *panel.Panel, c *cloth.Cloth) {
			p.Size.Across, p.Join = 281*cm, panel.JoinHalves
		}, 0, []string{"#/0/size/across wider-than-cloth"}},
		{"far wider, sides", func(p *panel.Panel, c *cloth.Cloth) {
			p.Size.Across, p.Join = 20*m, panel.JoinSides
		}, 0, nil},
		{"too many parts", func(p *panel.Panel, c *cloth.Cloth) {
			p.Size.Across, p.Join, c.Width = 100*m, panel.JoinSides, 50*cm
		}, 0, []string{"#/0/size/across wider-than-cloth"}},
		{"seams as wide as the cloth", func(p *panel.Panel, c *cloth.Cloth) {
			p.Join, p.JoinSeam, c.Width = panel.JoinSides, 10*cm, 20*cm
		}, 0, []string{"#/0/size/across wider-than-cloth"}},
		{"wider, quarter turn", func(p *panel.Panel, c *cloth.Cloth) { wide(p); p.Turn = panel.Quarter }, 0, nil},
		{"wider, railroad allowed", func(p *panel.Panel, c *cloth.Cloth) { wide(p); c.Railroad = cloth.RailroadAllowed }, 0, nil},
		{"long, railroaded", func(p *panel.Panel, c *cloth.Cloth) {
			p.Size.Along, c.Railroad = 141*cm, cloth.RailroadAlways
		}, 0, []string{"#/0/size/along wider-than-cloth"}},
		{"as long as the bolt", func(*panel.Panel, *cloth.Cloth) {}, 66 * cm, nil},
		{"longer than the bolt", func(*panel.Panel, *cloth.Cloth) {}, 66*cm - 1, []string{"#/0/size/along longer-than-bolt"}},
		{"longer than the bolt, quarter turn", func(p *panel.Panel, c *cloth.Cloth) { p.Turn = panel.Quarter }, 60 * cm, nil},
		{"no width", func(p *panel.Panel, c *cloth.Cloth) { c.Width = 0 }, 0, nil},
	} {
		p, c := seat("SEAT"), trellis()
		tc.change(&p, &c)
		if got := found(panel.ClothFaults([]panel.Panel{p}, c, tc.bolt, fault.Path{})); !slices.Equal(got, tc.want) {
			t.Errorf("%s: ClothFaults = %q, want %q", tc.name, got, tc.want)
		}
	}
}

// Where either way of laying suits each panel but neither suits all, there is
// no plan.
func TestClothFaultsNoOneWay(t *testing.T) {
	c := trellis()
	c.Railroad = cloth.RailroadAllowed
	wide, long := seat("W"), seat("L")
	wide.Size.Across, long.Size.Along = 150*cm, 150*cm
	for _, tc := range []struct {
		list []panel.Panel
		want []string
	}{
		{[]panel.Panel{wide}, nil},
		{[]panel.Panel{long}, nil},
		{[]panel.Panel{long, wide}, []string{"#/1/size/across wider-than-cloth"}},
	} {
		if got := found(panel.ClothFaults(tc.list, c, 0, fault.Path{})); !slices.Equal(got, tc.want) {
			t.Errorf("ClothFaults = %q, want %q", got, tc.want)
		}
	}
}

func TestClothFaultsSums(t *testing.T) {
	c := trellis()
	parts, long := seat("P"), seat("L")
	parts.Size.Across, parts.Join, parts.Count = 20*m, panel.JoinSides, 2000
	long.Size.Along, long.Count = 100*m, 1000
	if got, want := found(panel.ClothFaults([]panel.Panel{parts}, c, 0, fault.Path{})), []string{"# too-many"}; !slices.Equal(got, want) {
		t.Errorf("parts: ClothFaults = %q, want %q", got, want)
	}
	if got := found(panel.ClothFaults([]panel.Panel{long}, c, 0, fault.Path{})); got != nil {
		t.Errorf("100 km: ClothFaults = %q, want none", got)
	}
	long.Count++
	if got, want := found(panel.ClothFaults([]panel.Panel{long}, c, 0, fault.Path{})), []string{"# too-many"}; !slices.Equal(got, want) {
		t.Errorf("over 100 km: ClothFaults = %q, want %q", got, want)
	}
}

// Sizes at the ends of the range of a length are faults and no panic.
func TestFaultsExtremes(t *testing.T) {
	const most = length.Length(1<<63 - 1)
	for _, v := range []length.Length{most, -most - 1, 0} {
		for _, join := range []panel.Join{panel.NoJoin, panel.JoinSides, panel.JoinHalves} {
			p := seat("A")
			p.Size = panel.Size{Across: v, Along: v}
			p.Allow = panel.Sides{Top: v, Left: v, Right: v}
			p.Join, p.JoinSeam, p.Count = join, v, 1<<62
			list := []panel.Panel{p, p}
			l := panel.ListFaults(list, fault.Path{})
			l.Append(panel.ClothFaults(list, trellis(), 1, fault.Path{}))
			if l.Len() == 0 {
				t.Errorf("%v: no faults", v)
			}
		}
	}
}
