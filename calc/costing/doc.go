// Package costing works out what a job costs and what the customer pays:
// materials by the unit and the pack, labour by the hour, overhead, contingency,
// tax, deposit, in decimal arithmetic that never leaves the minor unit of the
// currency.
//
// Every line is rounded to the minor unit as [Rounding] says, and every total is
// the sum of what is printed above it, so that a customer who adds up gets the
// same figure.
package costing
