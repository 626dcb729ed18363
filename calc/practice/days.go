package practice

// Days is how a shop works.
const Days Subject = "days"

// The working day and what is waited for.
var (
	DayHours    = Days.number("day-hours", "working hours in a day", "hours", 7_000, 100, 24_000, Common)
	DayDelivery = Days.count("day-delivery", "from the order to the cloth", "working days", 5, 0, 120, Common)
	DayGlue     = Days.count("day-glue", "until a glued frame may be loaded", "working days", 1, 0, 20, Common)
)
