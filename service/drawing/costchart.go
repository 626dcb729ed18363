package drawing

import "github.com/bridletie/bridletie/service"

// CostChart is what a job comes to as one stacked bar: materials, labour,
// overhead with contingency, and tax. Hatching tells the parts apart, so that
// no colour is needed.
func CostChart(c *service.JobCost) *Picture { panic("to be filled") }
