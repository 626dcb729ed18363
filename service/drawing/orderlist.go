package drawing

import "github.com/bridletie/bridletie/service"

// orderList is the order list as a section of a page of text.
func (p *page) orderList(list []service.OrderLine) { panic("to be filled") }

// jobCost is what a job comes to, as sections of a page of text: lines, sums,
// what is missing.
func (p *page) jobCost(c *service.JobCost) { panic("to be filled") }

// jobDays is the day plan as a section of a page of text.
func (p *page) jobDays(d *service.JobDays) { panic("to be filled") }
