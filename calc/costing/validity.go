package costing

import "github.com/bridletie/bridletie/calc/calendar"

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
