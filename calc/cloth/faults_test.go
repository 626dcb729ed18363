package cloth_test

import (
	"slices"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

const mm, m = length.Millimetre, length.Metre

// heron is a sound half-drop cloth with two motifs.
func heron() cloth.Cloth {
	return cloth.Cloth{
		Width: 1370 * mm,
		Pattern: cloth.Pattern{
			LengthRepeat: 640 * mm, WidthRepeat: 685 * mm, Drop: cloth.Half(),
			Motifs: []cloth.Motif{{Name: "heron", Across: 342 * mm}, {Name: "sedge", Along: 320 * mm}},
		},
	}
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

func TestClothFaults(t *testing.T) {
	for _, tc := range []struct {
		name   string
		change func(*cloth.Cloth)
		want   []string
	}{
		{"sound", func(c *cloth.Cloth) {}, nil},
		{"plain", func(c *cloth.Cloth) { c.Pattern = cloth.Pattern{} }, nil},
		{"narrowest", func(c *cloth.Cloth) { c.Width = 10 * mm }, nil},
		{"too narrow", func(c *cloth.Cloth) { c.Width = 10*mm - 1 }, []string{"#/c/width too-small"}},
		{"widest", func(c *cloth.Cloth) { c.Width = 10 * m }, nil},
		{"too wide", func(c *cloth.Cloth) { c.Width = 10*m + 1 }, []string{"#/c/width too-large"}},
		{"negative width", func(c *cloth.Cloth) { c.Width = -1 }, []string{"#/c/width too-small"}},
		{"tiny length repeat", func(c *cloth.Cloth) { c.Pattern.LengthRepeat = 1 }, []string{"#/c/pattern/lengthRepeat too-small"}},
		{"tiny width repeat", func(c *cloth.Cloth) { c.Pattern.WidthRepeat = mm - 1 }, []string{"#/c/pattern/widthRepeat too-small"}},
		{"long repeats", func(c *cloth.Cloth) {
			c.Pattern.LengthRepeat, c.Pattern.WidthRepeat = 10*m+1, 11*m
		}, []string{"#/c/pattern/lengthRepeat too-large", "#/c/pattern/widthRepeat too-large"}},
		{"drop of nothing", func(c *cloth.Cloth) {
			c.Pattern.LengthRepeat = 0
		}, []string{"#/c/pattern/drop needs-pattern", "#/c/pattern/motifs/1/along needs-pattern"}},
		{"a place across without a width repeat", func(c *cloth.Cloth) {
			c.Pattern.WidthRepeat, c.Pattern.Drop = 0, cloth.Drop{}
		}, []string{"#/c/pattern/motifs/0/across needs-pattern"}},
		{"a place across at the selvedge without a width repeat", func(c *cloth.Cloth) {
			c.Pattern.WidthRepeat, c.Pattern.Drop, c.Pattern.Motifs[0].Across = 0, cloth.Drop{}, 0
		}, nil},
		{"places on plain cloth", func(c *cloth.Cloth) {
			c.Pattern = cloth.Pattern{Motifs: []cloth.Motif{{Name: "heron", Across: mm, Along: mm}}}
		}, []string{"#/c/pattern/motifs/0/across needs-pattern", "#/c/pattern/motifs/0/along needs-pattern"}},
		{"straight drop of nothing", func(c *cloth.Cloth) {
			c.Pattern = cloth.Pattern{Drop: cloth.Drop{Num: 0, Den: 1}}
		}, nil},
		{"drop of a whole", func(c *cloth.Cloth) { c.Pattern.Drop = cloth.Drop{Num: 2, Den: 2} }, []string{"#/c/pattern/drop not-a-fraction"}},
		{"drop in thirteenths", func(c *cloth.Cloth) { c.Pattern.Drop = cloth.Drop{Num: 1, Den: 13} }, []string{"#/c/pattern/drop not-a-fraction"}},
		{"drop in twelfths", func(c *cloth.Cloth) { c.Pattern.Drop = cloth.Drop{Num: 11, Den: 12} }, nil},
		{"negative drop", func(c *cloth.Cloth) { c.Pattern.Drop = cloth.Drop{Num: -1, Den: 3} }, []string{"#/c/pattern/drop not-a-fraction"}},
		{"motif off the left", func(c *cloth.Cloth) { c.Pattern.Motifs[1].Across = -1 }, []string{"#/c/pattern/motifs/1/across too-small"}},
		{"motif far along", func(c *cloth.Cloth) { c.Pattern.Motifs[0].Along = 10*m + 1 }, []string{"#/c/pattern/motifs/0/along too-large"}},
		{"motif twice", func(c *cloth.Cloth) { c.Pattern.Motifs[1].Name = "heron" }, []string{"#/c/pattern/motifs/1/name duplicate"}},
		{"start in the repeat", func(c *cloth.Cloth) { c.StartsAt = new(640*mm - 1) }, nil},
		{"start at the repeat", func(c *cloth.Cloth) { c.StartsAt = new(640 * mm) }, []string{"#/c/startsAt too-large"}},
		{"start before", func(c *cloth.Cloth) { c.StartsAt = new(length.Length(-1)) }, []string{"#/c/startsAt too-small"}},
		{"start without repeat", func(c *cloth.Cloth) { c.Pattern, c.StartsAt = cloth.Pattern{}, new(length.Length(0)) }, []string{"#/c/startsAt needs-pattern"}},
		{"all at once", func(c *cloth.Cloth) {
			c.Width, c.Pattern.WidthRepeat, c.Pattern.Motifs[1].Name = 0, 1, "heron"
		}, []string{"#/c/width too-small", "#/c/pattern/widthRepeat too-small", "#/c/pattern/motifs/1/name duplicate"}},
	} {
		c := heron()
		tc.change(&c)
		if got := found(c.Faults(fault.At("c"))); !slices.Equal(got, tc.want) {
			t.Errorf("%s: Faults = %q, want %q", tc.name, got, tc.want)
		}
	}
}

func TestSoldFaults(t *testing.T) {
	for _, tc := range []struct {
		name string
		sold cloth.Sold
		want []string
	}{
		{"anything", cloth.Sold{}, nil},
		{"least", cloth.Sold{Step: mm, Bolt: 100 * mm}, nil},
		{"most", cloth.Sold{Step: 100 * m, Minimum: 1000 * m, Bolt: 10_000 * m, Flaw: cloth.MaxShare, Shrinkage: cloth.MaxShare}, nil},
		{"below", cloth.Sold{Step: mm - 1, Minimum: -1, Bolt: 100*mm - 1, Flaw: -1, Shrinkage: -1}, []string{
			"#/soldBy too-small", "#/minimum too-small", "#/boltLength too-small",
			"#/flawAllowance too-small", "#/shrinkage too-small"}},
		{"beyond", cloth.Sold{Step: 100*m + 1, Minimum: 1000*m + 1, Bolt: 10_000*m + 1, Flaw: cloth.MaxShare + 1, Shrinkage: cloth.MaxShare + 1}, []string{
			"#/soldBy too-large", "#/minimum too-large", "#/boltLength too-large",
			"#/flawAllowance too-large", "#/shrinkage too-large"}},
	} {
		if got := found(tc.sold.Faults(fault.Path{})); !slices.Equal(got, tc.want) {
			t.Errorf("%s: Faults = %q, want %q", tc.name, got, tc.want)
		}
	}
}
