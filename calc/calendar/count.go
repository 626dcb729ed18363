package calendar

// Weekday is a day of the week; the zero value is Monday (ISO 8601).
type Weekday int

// The days of the week.
const (
	Monday Weekday = iota
	Tuesday
	Wednesday
	Thursday
	Friday
	Saturday
	Sunday
)

// number counts the days from 1 March of the year 0 of the Gregorian calendar,
// by years that begin in March, so that the odd day of a leap year comes last.
// The months from March on have 31, 30, 31, 30, 31 days, and again, which
// (153 m + 2) / 5 adds up.
func (d Day) number() int {
	year, month, date := int(d/10000), int(d/100%100), int(d%100)
	if month < 3 {
		year, month = year-1, month+12
	}
	return 365*year + year/4 - year/100 + year/400 + (153*(month-3)+2)/5 + date - 1
}

// cycle is the number of days in 400 years, after which the calendar recurs.
const cycle = 146_097

// dayOf is the day with that number, which is not negative.
func dayOf(n int) Day {
	era, n := n/cycle, n%cycle
	year := (n - n/1460 + n/36_524 - n/(cycle-1)) / 365
	n -= 365*year + year/4 - year/100
	month := (5*n + 2) / 153
	date := n - (153*month+2)/5 + 1
	year += 400 * era
	if month += 3; month > 12 {
		year, month = year+1, month-12
	}
	return Day(year*10000 + month*100 + date)
}

// Add is the day that many days later; 0 where that is not believed.
func (d Day) Add(days int) Day {
	const most = 1_000_000 // more than lie between the first day and the last
	if d < First || d > Last || days < -most || days > most {
		return 0
	}
	n := d.number() + days
	if n < First.number() || n > Last.number() {
		return 0
	}
	return dayOf(n)
}

// Since is how many days lie between an earlier day and this one; negative when
// it is the later.
func (d Day) Since(earlier Day) int { return d.number() - earlier.number() }

// Weekday is the day of the week; that of 0 means nothing.
func (d Day) Weekday() Weekday { return Weekday((d.number() + 2) % 7) }
