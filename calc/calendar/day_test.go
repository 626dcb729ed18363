package calendar_test

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/calendar"
)

func Example() {
	asked, _ := calendar.Parse("2026-11-25")
	fmt.Println(asked.Add(30), asked.Add(30).Weekday() == calendar.Friday)
	// Output: 2026-12-25 true
}

// Every day of the calendar is counted as a second calendar does.
func TestEveryDayIsCounted(t *testing.T) {
	at := time.Date(1000, 1, 1, 0, 0, 0, 0, time.UTC)
	d, n := calendar.First, 0
	for d != calendar.Last {
		if d = calendar.First.Add(n); d.String() != at.Format(time.DateOnly) {
			t.Fatalf("day %d is %s, want %s", n, d, at.Format(time.DateOnly))
		}
		if want := (int(at.Weekday()) + 6) % 7; int(d.Weekday()) != want {
			t.Fatalf("%s is weekday %d, want %d", d, d.Weekday(), want)
		}
		if got := d.Since(calendar.First); got != n {
			t.Fatalf("%s is %d days after the first, want %d", d, got, n)
		}
		at, n = at.AddDate(0, 0, 1), n+1
	}
	if calendar.Last.Add(1) != 0 || calendar.First.Add(-1) != 0 || calendar.Day(0).Add(1) != 0 || calendar.First.Add(1<<40) != 0 {
		t.Error("a day that is not believed")
	}
}

func TestAddAndSinceAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := calendar.First.Add(rapid.IntRange(0, 438_000).Draw(t, "a"))
		n := rapid.IntRange(-2000, 2000).Draw(t, "n")
		if b := a.Add(n); b != 0 && (b.Since(a) != n || (n > 0) != (b > a)) {
			t.Fatalf("%s and %d days is %s", a, n, b)
		}
	})
}

func TestDays(t *testing.T) {
	for s, want := range map[string]calendar.Span{
		"2025-10-30": {First: 20251030, Last: 20251030}, "2024-02-29": {First: 20240229, Last: 20240229}, "2000-02-29": {First: 20000229, Last: 20000229},
		"2025-02": {First: 20250201, Last: 20250228}, "2025-04": {First: 20250401, Last: 20250430}, "1908": {First: 19080101, Last: 19081231},
	} {
		got, ok := calendar.ParseSpan(s)
		if !ok || got != want || got.String() != s {
			t.Errorf("%q is %v %v, printed %q", s, got, ok, got)
		}
	}
	for _, s := range []string{"", "2025-02-29", "1900-02-29", "2025-13", "2025-00", "2025-1", "25", "2025-10-32", "2025-10-00", "2025-10-30-1", "+025", "0999", "2200", " 2025", "２０２５"} {
		if _, ok := calendar.ParseSpan(s); ok {
			t.Errorf("%q is taken for a day", s)
		}
	}
	if _, ok := calendar.Parse("2025-10"); ok {
		t.Error("a month is taken for a day")
	}
}

// What is taken for a day or a part of one is printed as it was read.
func FuzzSpan(f *testing.F) {
	for _, s := range []string{"2025-10-30", "2025-10", "1908", "2025-02-29", "-1", "٢٠٢٥"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, ok := calendar.ParseSpan(s)
		if ok && (got.String() != s || got.First > got.Last || got.First < calendar.First || got.Last > calendar.Last) {
			t.Errorf("%q is %v", s, got)
		}
	})
}
