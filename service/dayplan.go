package service

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
)

// DayTerms say how a shop works.
type DayTerms struct {
	PerDay   decimal.Decimal // working hours in a day; 0: the usual
	Start    calendar.Day    // the first working day; 0: days are only numbered
	Weekends bool            // Saturdays and Sundays are worked too
	Delivery *int            // working days until the cloth is there; nil: the usual
	Glue     *int            // working days until glued frame joints may be loaded; nil: the usual
}

// The usual (common practice, no source).
const (
	UsualDelivery = 5
	UsualGlue     = 1
)

// JobDays is the work in the order in which it is done, by working days.
type JobDays struct {
	PerDay   decimal.Decimal
	Hours    decimal.Decimal // in all
	Days     []JobDay        // those on which there is work
	Waits    []JobWait
	Last     int      // the number of the last day
	Defaults []string // what was not asked for, and where it comes from
}

// JobDay is a working day.
type JobDay struct {
	Number int          // from 1, waiting days counted
	Date   calendar.Day // 0 without a start
	Work   []JobSpell
	Hours  decimal.Decimal
}

// JobSpell is the part of an operation that is done on one day.
type JobSpell struct {
	Operation string
	Hours     decimal.Decimal
	Begins    bool // the operation begins here
	Ends      bool // and ends here
}

// JobWait is time that passes before an operation can begin. Days are how many
// working days nothing of this job can be done for it; 0 when other operations
// fill the time.
type JobWait struct {
	For    string // "glue", "cloth"
	Before string // the operation that waits
	From   int    // the day on which waiting begins
	Until  int    // the first day on which the operation may begin
	Days   int
	Why    string
}

// PlanDays lays operations out over working days. Operations are done in the
// order of the bench, whatever order they come in.
func PlanDays(work []costing.Labour, terms DayTerms) *JobDays {
	panic("to be filled")
}

// DayFaults are what is wrong with the terms.
func DayFaults(terms DayTerms, at fault.Path) fault.List {
	panic("to be filled")
}
