package practice_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

var update = flag.Bool("update", false, "write the golden file anew")

func ExampleSet_With() {
	shop := practice.Defaults().With(practice.WebGap.Give(40 * length.Millimetre))
	fmt.Println(practice.Defaults().Length(practice.WebGap), shop.Length(practice.WebGap))
	// Output:
	// 57.15 mm 40 mm
}

func ExampleSet_Noted() {
	set, used := practice.Defaults().With(practice.WebInset.Give(0)).Noted()
	set.Length(practice.WebInset)
	set.Count(practice.LashingWays)
	for _, v := range used.Of(practice.BookOf(practice.Foundation)) {
		fmt.Println(v.Name, v.Text(v.Value, length.Metric), v.Given)
	}
	// Output:
	// web-inset 0 cm true
	// lashing-ways 8 false
}

// A constant lives in the table alone. Whoever changes one, its range or its
// source changes this file with it, and so has looked twice.
func TestTableIsAsWritten(t *testing.T) {
	var b strings.Builder
	last := practice.Subject("")
	for _, s := range practice.Table() {
		if s.Subject != last {
			fmt.Fprintf(&b, "\n# %s\n", s.Subject)
			last = s.Subject
		}
		fmt.Fprintf(&b, "%s | %s | %s, %s to %s | %s\n", s.Name, s.What, said(s, s.Default), said(s, s.Least), said(s, s.Most), s.Source)
		if in := s.In(practice.Workroom); in.Default != s.Default || in.Source != s.Source {
			fmt.Fprintf(&b, "%s | in the workroom's way | %s | %s\n", s.Name, said(in, in.Default), in.Source)
		}
	}
	path := filepath.Join("testdata", "table.txt")
	if *update {
		if err := os.WriteFile(path, []byte(b.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if b.String() != string(want) {
		t.Error("the table is not as testdata/table.txt has it; make golden writes it anew")
	}
}

func said(s practice.Setting, v int64) string {
	if s.Kind == practice.Length {
		return length.Length(v).String()
	}
	return s.Text(v, length.Metric)
}

// Every row has what an answer needs, a name of its own, and a default in its
// range.
func TestEveryRowIsWhole(t *testing.T) {
	seen := make(map[string]bool)
	for _, s := range practice.Table() {
		if s.Subject == "" || s.Name == "" || s.What == "" || s.Source == "" || seen[s.Name] || s.Default < s.Least || s.Default > s.Most || s.Least >= s.Most {
			t.Errorf("%+v", s)
		}
		seen[s.Name] = true
		if found, ok := practice.Find(s.Name); !ok || found.What != s.What {
			t.Errorf("%s is not found by its name", s.Name)
		}
	}
}

func TestFaults(t *testing.T) {
	given := []practice.Given{
		practice.WebGap.Give(-1),
		practice.WebGap.Give(1),
		{Name: "web-gape", Value: 1},
		{Name: "lashing", Kind: practice.Count, Value: 2},
		practice.LashingWays.Give(10),
		practice.WaddingLap.Give(1),
	}
	want := []string{
		"#/set/0/length too-small", "#/set/1/name duplicate", "#/set/2/name not-one-of",
		"#/set/3/count not-allowed", "#/set/4/count too-large", "#/set/5/name not-one-of",
	}
	l := practice.BookOf(practice.Foundation).Faults(given, fault.At("set"))
	if l.Len() != len(want) {
		t.Fatalf("faults: %+v", l.Faults())
	}
	for i, f := range l.Faults() {
		if got := f.Pointer() + " " + string(f.Code); got != want[i] {
			t.Errorf("fault %d is %s, want %s", i, got, want[i])
		}
		if f.Detail == "" || f.Try == "" {
			t.Errorf("fault %d has no detail or no way out", i)
		}
	}
}

// A set is never changed: what one is made into leaves it and its copies as they
// were, and a later value stands before an earlier one.
func TestSetsAreValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := practice.Table()
		sets := []practice.Set{practice.Defaults()}
		want := []map[string]int64{{}}
		for _, s := range rows {
			want[0][s.Name] = s.Default
		}
		for range rapid.IntRange(1, 6).Draw(t, "steps") {
			from := rapid.IntRange(0, len(sets)-1).Draw(t, "from")
			next := make(map[string]int64, len(rows))
			for k, v := range want[from] {
				next[k] = v
			}
			var given []practice.Given
			for range rapid.IntRange(0, 3).Draw(t, "given") {
				s := rapid.SampledFrom(rows).Draw(t, "row")
				v := rapid.Int64Range(s.Least, s.Most).Draw(t, "value")
				given, next[s.Name] = append(given, s.Give(v)), v
			}
			sets, want = append(sets, sets[from].With(given...)), append(want, next)
		}
		for i, set := range sets {
			for _, s := range rows {
				if got := set.Value(s); got != want[i][s.Name] {
					t.Fatalf("set %d: %s is %d, want %d", i, s.Name, got, want[i][s.Name])
				}
			}
		}
	})
}

// A value of a name or kind that the table has not is passed over.
func TestWithPassesOverWhatIsUnknown(t *testing.T) {
	set := practice.Defaults().With(practice.Given{Name: "nothing", Value: 1}, practice.Given{Name: practice.WebGap.Name, Kind: practice.Count, Value: 1})
	for _, s := range practice.Table() {
		if set.Value(s) != s.Default {
			t.Errorf("%s became %d", s.Name, set.Value(s))
		}
	}
}

func TestSource(t *testing.T) {
	set := practice.Defaults().With(practice.WebGap.Give(5))
	if got := set.Source(*practice.WebGap.Setting); got != practice.OwnFigure {
		t.Errorf("a given figure comes from %q", got)
	}
	if got := set.Source(*practice.WebWidth.Setting); got != practice.WebWidth.Source {
		t.Errorf("a default comes from %q", got)
	}
}

func TestDecimal(t *testing.T) {
	for n, want := range map[int64]string{0: "0", 1: "0.000001", 1_500_000: "1.5", -250_000: "-0.25", 12_000_000: "12"} {
		if got := practice.Decimal(n); got != want {
			t.Errorf("%d millionths are %q, want %q", n, got, want)
		}
	}
	for n, want := range map[int64]string{0: "0", 500_000: "0.5", 1_500_000: "1½", 10_500_000: "10½", 2_000_000: "2", 1_250_000: "1.25"} {
		if got := practice.Halves(n); got != want {
			t.Errorf("%d millionths are %q, want %q", n, got, want)
		}
	}
}

func TestTimesAndPacks(t *testing.T) {
	if got := practice.Times(3, 333_334); got != 2 { // 1.000002
		t.Errorf("3 nm by 0.333334 is %d, want 2, rounded up", got)
	}
	if got := practice.Times(1<<62, 1<<62); got != 1<<63-1 {
		t.Errorf("a product beyond the range is %d", got)
	}
	for _, c := range []struct{ need, size, spare, want int64 }{
		{0, 10, 0, 0}, {10, 10, 0, 1}, {11, 10, 0, 2}, {10, 10, practice.One / 10, 2}, {1, 0, 0, 0},
	} {
		if got := practice.Packs(c.need, c.size, c.spare); got != c.want {
			t.Errorf("%+v: %d", c, got)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Int64Range(0, 1<<40).Draw(t, "l")
		n := rapid.Int64Range(0, 1<<22).Draw(t, "n")
		got := int64(practice.Times(length.Length(l), n))
		if got*practice.One < l*n || (got-1)*practice.One >= l*n && got > 0 {
			t.Fatalf("%d by %d millionths is %d", l, n, got)
		}
		if down := int64(practice.Part(length.Length(l), n)); down != l*n/practice.One {
			t.Fatalf("%d by %d millionths is %d, rounded down", l, n, down)
		}
	})
}

func TestMassText(t *testing.T) {
	for mg, want := range map[int64][2]string{
		0: {"0 g", "0 oz"}, 1: {"1 g", "1 oz"}, 999_000: {"999 g", "2 lb 4 oz"}, 999_001: {"1 kg", "2 lb 4 oz"},
		1_230_001: {"1.24 kg", "2 lb 12 oz"}, 453_584: {"454 g", "1 lb"}, -5: {"0 g", "0 oz"},
	} {
		if got := practice.MassText(mg, length.Metric); got != want[0] {
			t.Errorf("%d mg are %q, want %q", mg, got, want[0])
		}
		if got := practice.MassText(mg, length.Imperial); got != want[1] {
			t.Errorf("%d mg are %q, want %q", mg, got, want[1])
		}
	}
}
