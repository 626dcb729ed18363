package buying

import (
	"cmp"
	"slices"
	"strconv"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
)

// DayTerms say how a shop works.
type DayTerms struct {
	PerDay   decimal.Decimal // working hours in a day; 0: the usual
	Start    calendar.Day    // the first working day; 0: days are only numbered
	Weekends bool            // Saturdays and Sundays are worked too
	Delivery *int            // working days until the cloth is there; nil: the usual
	Glue     *int            // working days until glued frame joints may be loaded; nil: the usual
	Shop     practice.Set    // what the workroom goes by
}

// The most, in working days.
const (
	MaxDelivery = 120
	MaxGlue     = 20
)

// DayPlan is the work in the order in which it is done, by working days.
type DayPlan struct {
	PerDay   decimal.Decimal
	Hours    decimal.Decimal // in all
	Days     []Day           // those on which there is work
	Waits    []Wait
	Last     int      // the number of the last day
	Defaults []string // what was not asked for, and where it comes from
}

// Day is a working day.
type Day struct {
	Number int          // from 1, waiting days counted
	Date   calendar.Day // 0 without a start
	Work   []Spell
	Hours  decimal.Decimal
}

// Spell is the part of an operation that is done on one day.
type Spell struct {
	Operation string
	Hours     decimal.Decimal
	Begins    bool // the operation begins here
	Ends      bool // and ends here
}

// Wait is time that passes before an operation can begin. Days are how many
// working days nothing of this job can be done for it; 0 when other operations
// fill the time.
type Wait struct {
	For    string // "glue", "cloth"
	Before string // the operation that waits
	From   int    // the day on which waiting begins
	Until  int    // the first day on which the operation may begin
	Days   int
	Why    note.Note
}

// PlanDays lays operations out over working days, one after the other in the
// order of the bench, whatever order they come in. Work on the cloth waits until
// the cloth is there, and what follows a repair of the frame until the glue has
// set.
func PlanDays(work []costing.Labour, terms DayTerms) *DayPlan {
	d := dayPlanner{DayPlan: &DayPlan{}, terms: terms}
	d.usual()
	work = slices.Clone(work)
	slices.SortStableFunc(work, func(a, b costing.Labour) int { return cmp.Compare(costing.Place(a.Name), costing.Place(b.Name)) })
	for _, o := range work {
		if o.Hours.IsPositive() {
			d.wait(o.Name)
			d.do(o.Name, o.Hours)
		}
	}
	return d.DayPlan
}

// maxDays is how many days with work a plan lists.
const maxDays = 1000

// dayPlanner is a day plan while it is made.
type dayPlanner struct {
	*DayPlan
	terms    DayTerms
	day      int             // on which the next work may begin, from 0
	used     decimal.Decimal // of its hours
	delivery int
	glue     int
	glued    int // the day on which the frame was glued; 0 when it was not
	cloth    bool
	date     calendar.Day
	dated    int // the working day that date is of
}

// usual fills in what is not said.
func (d *dayPlanner) usual() {
	d.PerDay, d.delivery, d.glue = d.terms.PerDay, int(d.terms.Shop.Count(practice.DayDelivery)), int(d.terms.Shop.Count(practice.DayGlue))
	if !d.PerDay.IsPositive() {
		d.PerDay = decimal.New(d.terms.Shop.Number(practice.DayHours), -6)
		d.Defaults = append(d.Defaults, "A working day has "+d.PerDay.String()+" hours ("+d.terms.Shop.Basis(practice.DayHours.Setting)+").")
	}
	if d.terms.Delivery != nil {
		d.delivery = *d.terms.Delivery
	}
	if d.terms.Glue != nil {
		d.glue = *d.terms.Glue
	}
	d.Defaults = append(d.Defaults, "Foam, webbing and sundries are taken to be in the house; public holidays are not known.")
	d.date, d.dated = d.working(d.terms.Start), 1
}

// onCloth are the operations that cannot begin without the cloth.
func onCloth(operation string) bool {
	place := costing.Place(operation)
	return place >= costing.Place(costing.Cutting) && operation != costing.Collection
}

// wait is the time that passes before an operation.
func (d *dayPlanner) wait(operation string) {
	if d.glued > 0 {
		if d.terms.Glue == nil {
			d.Defaults = append(d.Defaults, "A glued frame is loaded "+afterGlue(d.glue)+" ("+d.terms.Shop.Basis(practice.DayGlue.Setting)+").")
		}
		d.until(Wait{For: "glue", Before: operation, From: d.glued, Until: d.glued + d.glue, Why: note.New(note.WaitsForGlue, note.Count("days", d.glue))})
		d.glued = 0
	}
	if onCloth(operation) && !d.cloth {
		d.cloth = true
		if d.terms.Delivery == nil {
			d.Defaults = append(d.Defaults, "The cloth is there "+workingDays(d.delivery)+" after it is ordered on the first day ("+d.terms.Shop.Basis(practice.DayDelivery.Setting)+").")
		}
		d.until(Wait{For: "cloth", Before: operation, From: 1, Until: 1 + d.delivery, Why: note.New(note.WaitsForCloth, note.Count("days", d.delivery))})
	}
}

// afterGlue is when the glue has set.
func afterGlue(n int) string {
	if n == 1 {
		return "on the next working day"
	}
	return workingDays(n) + " later"
}

func workingDays(n int) string {
	if n == 1 {
		return "1 working day"
	}
	return strconv.Itoa(n) + " working days"
}

// until lets days pass, and says so when waiting was called for.
func (d *dayPlanner) until(w Wait) {
	if w.Until == w.From {
		return // nothing to wait for
	}
	now := d.day + 1 // the day on which work could go on
	if w.Until > now {
		w.Days = w.Until - now
		if d.used.IsPositive() { // today is no waiting day
			w.Days--
		}
		d.day, d.used = w.Until-1, decimal.Decimal{}
	}
	d.Waits = append(d.Waits, w)
}

// do lays an operation out from where the last one ended.
func (d *dayPlanner) do(operation string, hours decimal.Decimal) {
	d.Hours = d.Hours.Add(hours)
	begins := true
	for hours.IsPositive() {
		if len(d.Days) == maxDays && d.Days[maxDays-1].Number <= d.day {
			d.skip(hours)
			break
		}
		spell := decimal.Min(hours, d.PerDay.Sub(d.used))
		hours = hours.Sub(spell)
		today := d.today()
		today.Work = append(today.Work, Spell{Operation: operation, Hours: spell, Begins: begins, Ends: !hours.IsPositive()})
		today.Hours = today.Hours.Add(spell)
		begins = false
		d.spend(spell)
	}
	if operation == costing.FrameRepair && d.glue > 0 {
		d.glued = d.Last
	}
}

// spend uses hours of the day.
func (d *dayPlanner) spend(hours decimal.Decimal) {
	d.Last = d.day + 1
	if d.used = d.used.Add(hours); d.used.GreaterThanOrEqual(d.PerDay) {
		d.day, d.used = d.day+1, decimal.Decimal{}
	}
}

// skip lets the days of some hours pass without listing them.
func (d *dayPlanner) skip(hours decimal.Decimal) {
	days, rest := d.used.Add(hours).QuoRem(d.PerDay, 0)
	d.day += int(days.IntPart())
	d.used = rest
	if d.Last = d.day; rest.IsPositive() {
		d.Last++
	}
}

// today is the day on which work goes on.
func (d *dayPlanner) today() *Day {
	number := d.day + 1
	if n := len(d.Days); n > 0 && d.Days[n-1].Number == number {
		return &d.Days[n-1]
	}
	d.Days = append(d.Days, Day{Number: number, Date: d.dateOf(number)})
	return &d.Days[len(d.Days)-1]
}

// working is the day itself or the next that is worked.
func (d *dayPlanner) working(on calendar.Day) calendar.Day {
	for on != 0 && !d.terms.Weekends && on.Weekday() >= calendar.Saturday {
		on = on.Add(1)
	}
	return on
}

// dateOf is the date of a working day; 0 without a start, and after the last day
// that is believed. Numbers are asked for in rising order.
func (d *dayPlanner) dateOf(number int) calendar.Day {
	for ; d.dated < number && d.date != 0; d.dated++ {
		d.date = d.working(d.date.Add(1))
	}
	return d.date
}

// DayFaults are what is wrong with the terms.
func DayFaults(terms DayTerms, at fault.Path) fault.List {
	var l fault.List
	const from, to = 1, 24
	if h := terms.PerDay; !h.IsZero() && h.LessThan(decimal.NewFromInt(from)) {
		l.Add(at.Field("perDay"), fault.TooSmall, h.String(), "a working day has at least an hour", "from 1 to 24")
	} else if h.GreaterThan(decimal.NewFromInt(to)) {
		l.Add(at.Field("perDay"), fault.TooLarge, h.String(), "a day has 24 hours", "from 1 to 24")
	}
	for _, n := range []struct {
		field string
		days  *int
		most  int
	}{{"delivery", terms.Delivery, MaxDelivery}, {"glue", terms.Glue, MaxGlue}} {
		switch {
		case n.days == nil:
		case *n.days < 0:
			l.Add(at.Field(n.field), fault.TooSmall, strconv.Itoa(*n.days), "nobody waits less than no days", "from 0 to "+strconv.Itoa(n.most))
		case *n.days > n.most:
			l.Add(at.Field(n.field), fault.TooLarge, strconv.Itoa(*n.days), "nobody waits so long", "from 0 to "+strconv.Itoa(n.most))
		}
	}
	return l
}
