package httpapi

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// jobPrices are the prices of a request; at is where the list stands.
func (t *translator) jobPrices(w gen.JobPrices, at fault.Path) []service.JobPrice {
	panic("to be filled")
}

// jobTerms are the terms of a request; at is where they stand.
func (t *translator) jobTerms(w *gen.JobTerms, at fault.Path) service.JobTerms {
	panic("to be filled")
}

// jobDayTerms say how a shop works; at is where they stand. nil is all usual.
func (t *translator) jobDayTerms(w *gen.JobDayTerms, at fault.Path) service.DayTerms {
	panic("to be filled")
}

// wireOrderLines is an order list as the contract has it.
func wireOrderLines(list []service.OrderLine, units length.System) []gen.OrderLine {
	panic("to be filled")
}

// wireJobCost is what a job comes to, as the contract has it.
func wireJobCost(c *service.JobCost, units length.System) *gen.JobCost {
	panic("to be filled")
}

// wireJobDays is a day plan as the contract has it.
func wireJobDays(d *service.JobDays) *gen.JobDays {
	panic("to be filled")
}
