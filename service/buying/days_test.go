package buying_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/service/buying"
)

func daysText(d *buying.DayPlan) string {
	var out []string
	for _, day := range d.Days {
		var parts []string
		for _, s := range day.Work {
			parts = append(parts, s.Operation+" "+s.Hours.String())
		}
		out = append(out, fmt.Sprint(day.Number, " ", day.Date, ": ", strings.Join(parts, ", ")))
	}
	return strings.Join(out, "\n")
}

func hoursOf(pairs ...any) []costing.Labour {
	var out []costing.Labour
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, costing.Labour{Name: pairs[i].(string), Hours: gbpOf(pairs[i+1].(string))})
	}
	return out
}

// A chair rebuilt, by hand: the frame is glued on Thursday and loaded on Friday;
// the cloth comes on the sixth day, which is a Thursday.
func TestDayPlanOfAChair(t *testing.T) {
	work := hoursOf("covering", "9.5", "strip", "3", "frame repair", "2", "foundation", "4.5", "stuffing", "5", "cutting", "1.5", "collection", "0.5")
	d := buying.PlanDays(work, buying.DayTerms{Start: 2026_12_03})
	const want = `1 2026-12-03: strip 3, frame repair 2
2 2026-12-04: foundation 4.5, stuffing 2.5
3 2026-12-07: stuffing 2.5
6 2026-12-10: cutting 1.5, covering 5.5
7 2026-12-11: covering 4, collection 0.5`
	if got := daysText(d); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	if len(d.Waits) != 2 || d.Waits[0].Before != "foundation" || d.Waits[0].Until != 2 || d.Waits[0].Days != 0 ||
		d.Waits[1].Before != "cutting" || d.Waits[1].Until != 6 || d.Waits[1].Days != 2 {
		t.Errorf("waits %+v", d.Waits)
	}
	if d.Hours.String() != "26" || d.Last != 7 || len(d.Defaults) != 4 {
		t.Errorf("%s hours, last day %d, %q", d.Hours, d.Last, d.Defaults)
	}
	none := 0
	d = buying.PlanDays(work, buying.DayTerms{PerDay: gbpOf("8"), Delivery: &none, Glue: &none, Start: 2026_12_05, Weekends: true})
	const straight = `1 2026-12-05: strip 3, frame repair 2, foundation 3
2 2026-12-06: foundation 1.5, stuffing 5, cutting 1.5
3 2026-12-07: covering 8
4 2026-12-08: covering 1.5, collection 0.5`
	if got := daysText(d); got != straight || len(d.Waits) != 0 {
		t.Errorf("%s\nwant\n%s\nwaits %+v", got, straight, d.Waits)
	}
}

// All hours are laid out, no day has more than it holds, operations keep their
// order, and nobody works on a day that is not worked.
func TestDayPlanProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var work []costing.Labour
		all := decimal.Decimal{}
		for _, name := range rapid.Permutation(append(costing.Bench(), "polishing")).Draw(t, "operations") {
			h := decimal.New(rapid.Int64Range(0, 6000).Draw(t, "hours"), -2)
			work = append(work, costing.Labour{Name: name, Hours: h})
			all = all.Add(h)
		}
		terms := buying.DayTerms{
			PerDay: decimal.New(rapid.Int64Range(100, 2400).Draw(t, "per day"), -2), Weekends: rapid.Bool().Draw(t, "weekends"),
			Start: rapid.SampledFrom([]calendar.Day{0, 2026_11_28, 2026_12_31, 2024_02_28}).Draw(t, "start"),
		}
		delivery, glue := rapid.IntRange(0, 20).Draw(t, "delivery"), rapid.IntRange(0, 3).Draw(t, "glue")
		terms.Delivery, terms.Glue = &delivery, &glue
		d := buying.PlanDays(work, terms)
		sum, place, repaired := decimal.Decimal{}, 0, 0
		for i, day := range d.Days {
			sum = sum.Add(day.Hours)
			if day.Hours.GreaterThan(terms.PerDay) || i > 0 && day.Number <= d.Days[i-1].Number || i > 0 && terms.Start != 0 && day.Date <= d.Days[i-1].Date {
				t.Fatalf("day %+v", day)
			}
			if terms.Start != 0 && !terms.Weekends && day.Date.Weekday() >= calendar.Saturday {
				t.Fatalf("%s is worked", day.Date)
			}
			for _, s := range day.Work {
				at := costing.Place(s.Operation)
				if at < place || !s.Hours.IsPositive() {
					t.Fatalf("%s stands out of its order:\n%s", s.Operation, daysText(d))
				}
				place = at
				if at >= costing.Place(costing.Cutting) && s.Operation != costing.Collection && day.Number <= delivery {
					t.Fatalf("%s without the cloth:\n%s", s.Operation, daysText(d))
				}
				if s.Operation == costing.FrameRepair && s.Ends {
					repaired = day.Number
				} else if repaired > 0 && day.Number < repaired+glue {
					t.Fatalf("%s on wet glue:\n%s", s.Operation, daysText(d))
				}
			}
		}
		if !sum.Equal(all) || !d.Hours.Equal(all) {
			t.Fatalf("%s hours laid out, %s of work", sum, all)
		}
		other := buying.PlanDays(work[:0], terms)
		if len(other.Days) != 0 || other.Last != 0 {
			t.Fatal("days for no work")
		}
		slices.Reverse(work)
		if all.IsPositive() && (d.Last != d.Days[len(d.Days)-1].Number || daysText(buying.PlanDays(work, terms)) != daysText(d)) {
			t.Fatal("another order, another plan")
		}
	})
}

// A plan of more days than are listed still says when it ends.
func TestDayPlanOfYears(t *testing.T) {
	d := buying.PlanDays(hoursOf("covering", "2000000000", "trimming", "3"), buying.DayTerms{PerDay: gbpOf("1"), Start: 2199_12_01})
	if len(d.Days) != 1000 || d.Last != 2_000_000_008 || d.Days[999].Date != 0 {
		t.Errorf("%d days listed, last %d", len(d.Days), d.Last)
	}
}

func TestFaultsOfDayTerms(t *testing.T) {
	minus, much := -1, 121
	for _, tc := range []struct {
		terms buying.DayTerms
		want  string
	}{
		{buying.DayTerms{}, ""},
		{buying.DayTerms{PerDay: gbpOf("0.5")}, "#/perDay too-small"},
		{buying.DayTerms{PerDay: gbpOf("24.5")}, "#/perDay too-large"},
		{buying.DayTerms{Delivery: &much}, "#/delivery too-large"},
		{buying.DayTerms{Glue: &minus}, "#/glue too-small"},
	} {
		l := buying.DayFaults(tc.terms, fault.Path{})
		got := ""
		for _, f := range l.Faults() {
			got += f.Pointer() + " " + string(f.Code)
		}
		if got != tc.want {
			t.Errorf("%q, want %q", got, tc.want)
		}
	}
}
