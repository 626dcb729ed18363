package costing

import "github.com/shopspring/decimal"

// Timetable is the hours of a shop: those of a preset, with lines of the shop's
// own in their place.
type Timetable struct {
	Preset string // "": none, and Lines are all
	// Lines stand in the place of the preset's lines of the same name; others are
	// added. A line without hours takes an operation out.
	Lines []Operation
}

// Operations are the operations of the timetable, in the order of the bench.
func (t Timetable) Operations() []Operation { panic("to be filled") }

// Labour is what the work takes, at the rate for an hour where a line has none of
// its own, without operations that take no time.
func (t Timetable) Labour(w Work, rate decimal.Decimal, tax string) []Labour { panic("to be filled") }

// Bench are the operations in the order in which they are done.
func Bench() []string {
	return []string{"strip", "frame repair", "foundation", "stuffing", "cutting", "machining", "covering", "buttoning", "trimming", "collection"}
}
