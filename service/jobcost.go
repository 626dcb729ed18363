package service

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/money"
)

// JobTerms are the shop's terms: what its work costs, what it adds, what the
// customer pays and when.
type JobTerms struct {
	Currency     money.Currency
	Labour       *JobLabour      // nil: work has no price
	Discount     decimal.Decimal // trade discount, in percent, of articles that have none of their own
	MarkUp       decimal.Decimal // in percent, of articles that have none of their own
	Overhead     costing.Overhead
	Contingency  decimal.Decimal // in percent
	Taxes        []costing.Tax
	MaterialsTax string // by name; "" for none
	LabourTax    string
	OverheadTax  string
	TaxBy        costing.TaxBy
	Rounding     costing.Rounding
	Step         decimal.Decimal // the total is rounded to a multiple; 0 for the smallest unit
	Deposit      decimal.Decimal // in percent of the total
	Validity     costing.Validity
}

// JobLabour is the shop's hours and what one costs.
type JobLabour struct {
	Hours costing.Timetable
	Rate  decimal.Decimal // for an hour, of operations that have no rate of their own
}

// DefaultPreset is the example that hours begin from where nothing is said.
const DefaultPreset = "re-cover"

// Operations are what the work takes by these terms, priced where they say at
// what rate; by the default preset where they say nothing of hours.
func (t JobTerms) Operations(work costing.Work) []costing.Labour {
	panic("to be filled")
}

// JobCost is what a job comes to.
type JobCost struct {
	Terms      JobTerms
	Work       costing.Work
	Quote      costing.Quote
	Complete   bool // everything on the order list has a price
	Missing    []JobUnpriced
	Unused     []string     // prices that no line of the order list took, by article
	ValidUntil calendar.Day // 0 where that is not known
	Late       bool         // the day of supply is past ValidUntil
	Warnings   []string
}

// JobUnpriced is an article on the order list without a price.
type JobUnpriced struct {
	Article, Name string
	Why           string
}

// CostJob puts prices to an order list and to the work. Terms and prices must
// have no faults. What has no price is left out of the sums and listed.
func CostJob(list []OrderLine, prices []JobPrice, work costing.Work, terms JobTerms) *JobCost {
	panic("to be filled")
}

// JobMoneyFaults are what is wrong with terms and prices, each by itself and with
// one another; the pointers are below at: prices/0/amount, terms/rate.
func JobMoneyFaults(prices []JobPrice, terms JobTerms, at fault.Path) fault.List {
	panic("to be filled")
}
