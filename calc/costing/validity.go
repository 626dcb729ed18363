package costing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/fault"
)

// Validity is how long a price holds. There is no clock: AsOf is the day on
// which the price is given.
type Validity struct {
	AsOf   calendar.Day // 0: not said, and then nothing else is known
	Days   int          // it holds for so many days after that
	Supply calendar.Day // when the work is to be delivered; 0: not said
}

// MaxValid is the longest that a price is held, in days.
const MaxValid = 730

// Until is the last day on which the price holds; 0 where that is not known.
func (v Validity) Until() calendar.Day { return v.AsOf.Add(v.Days) }

// Late reports whether the day of supply is past the last day on which the
// price holds.
func (v Validity) Late() bool {
	until := v.Until()
	return v.Supply != 0 && until != 0 && v.Supply > until
}

// Faults are what is wrong with the validity; at is where its fields stand.
func (v Validity) Faults(at fault.Path) fault.List {
	var l fault.List
	days := strconv.Itoa(v.Days)
	switch {
	case v.AsOf == 0 && v.Days != 0:
		l.Add(at.Field("validDays"), fault.NotAllowed, days, "days are counted from the day on which the price is given", "give asOf too, or leave validDays out")
	case v.AsOf == 0 && v.Supply != 0:
		l.Add(at.Field("supply"), fault.NotAllowed, v.Supply.String(), "it is not said on which day the price is given", "give asOf too, or leave supply out")
	case v.Days < 0:
		l.Add(at.Field("validDays"), fault.TooSmall, days, "a price holds for no less than no days", "from 0 to "+strconv.Itoa(MaxValid))
	case v.Days > MaxValid:
		l.Add(at.Field("validDays"), fault.TooLarge, days, "nobody can hold a price for so long", "from 0 to "+strconv.Itoa(MaxValid))
	case v.AsOf != 0 && v.Until() == 0:
		l.Add(at.Field("validDays"), fault.TooLarge, days, "the price would hold past the last day that is believed, "+calendar.Last.String(), "fewer days, or an earlier asOf")
	case v.Supply != 0 && v.Supply < v.AsOf:
		l.Add(at.Field("supply"), fault.TooSmall, v.Supply.String(), "the work is delivered before the price is given", "asOf or later")
	}
	return l
}
