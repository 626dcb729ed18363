package practice_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

func book() *practice.Book {
	return practice.NewBook([]practice.Setting{
		practice.Of("gap", "the gap", 50*length.Millimetre, 0, 100*length.Millimetre, practice.Common),
		practice.Factor("waste", "the waste", "", 1500, 1000, 3000, practice.Common),
		practice.Ones("rows", "the rows", "rows", 3, 1, 9, "a book"),
	})
}

func ExampleBook_Use() {
	u := book().Use([]practice.Given{{Name: "gap", Value: int64(40 * length.Millimetre)}})
	fmt.Println(u.Length("gap"), u.Count("rows"))
	for _, v := range u.List() {
		fmt.Println(v.Name, v.Text(v.Value, length.Metric), v.Given, v.Source)
	}
	// Output:
	// 40 mm 3
	// gap 4 cm true common practice, no source
	// rows 3 rows false a book
}

func TestFaults(t *testing.T) {
	given := []practice.Given{
		{Name: "gap", Value: -1},
		{Name: "gap", Value: 1},
		{Name: "gape", Value: 1},
		{Name: "waste", Kind: practice.Count, Value: 2},
		{Name: "rows", Kind: practice.Count, Value: 10},
	}
	want := []string{
		"#/set/0/length too-small", "#/set/1/name duplicate", "#/set/2/name not-one-of",
		"#/set/3/count not-allowed", "#/set/4/count too-large",
	}
	l := book().Faults(given, fault.At("set"))
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

func TestDecimal(t *testing.T) {
	for n, want := range map[int64]string{0: "0", 1: "0.000001", 1_500_000: "1.5", -250_000: "-0.25", 12_000_000: "12"} {
		if got := practice.Decimal(n); got != want {
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
