package calendar

import (
	"fmt"
	"strconv"
	"strings"
)

// Day is a day of the calendar as the number yyyymmdd, 0 for none. Days compare
// as numbers do.
type Day int32

// The first and the last day that are believed.
const (
	First Day = 1000_01_01
	Last  Day = 2199_12_31
)

// String is the day as 2025-10-30; "" for none.
func (d Day) String() string {
	if d == 0 {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d/10000, d/100%100, d%100)
}

// YearsBefore is the same day of an earlier year. Of a 29 February that may be a
// day that the calendar lacks, which still compares as it should.
func (d Day) YearsBefore(n Day) Day { return d - n*10000 }

// Parse reads a day such as 2025-10-30.
func Parse(s string) (Day, bool) {
	span, ok := ParseSpan(s)
	return span.First, ok && span.First == span.Last
}

// Span is the days between which something lies; the zero Span says that
// nothing is known.
type Span struct{ First, Last Day }

// Known reports whether anything is known.
func (s Span) Known() bool { return s != Span{} }

// String is the span as it was read: a day, a month or a year.
func (s Span) String() string {
	switch {
	case !s.Known():
		return "unknown"
	case s.First == s.Last:
		return s.First.String()
	case s.First/100 == s.Last/100:
		return s.First.String()[:7]
	}
	return s.First.String()[:4]
}

// ParseSpan reads a day, a month (2025-10) or a year (2025).
func ParseSpan(s string) (Span, bool) {
	parts := strings.Split(s, "-")
	if len(parts) > 3 {
		return Span{}, false
	}
	var n [3]int
	for i, part := range parts {
		want := 2
		if i == 0 {
			want = 4
		}
		v, err := strconv.ParseUint(part, 10, 16)
		if err != nil || len(part) != want {
			return Span{}, false
		}
		n[i] = int(v)
	}
	if n[0] < int(First/10000) || n[0] > int(Last/10000) {
		return Span{}, false
	}
	day := func(month, day int) Day { return Day(n[0]*10000 + month*100 + day) }
	switch {
	case len(parts) == 1:
		return Span{day(1, 1), day(12, 31)}, true
	case n[1] < 1 || n[1] > 12:
		return Span{}, false
	case len(parts) == 2:
		return Span{day(n[1], 1), day(n[1], daysIn(n[0], n[1]))}, true
	case n[2] < 1 || n[2] > daysIn(n[0], n[1]):
		return Span{}, false
	}
	return Span{day(n[1], n[2]), day(n[1], n[2])}, true
}

func daysIn(year, month int) int {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}
