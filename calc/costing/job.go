package costing

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/money"
)

// Rounding says who has the part of a minor unit that a line comes out at.
type Rounding int

// The ways to round; the zero value is HalfUp.
const (
	HalfUp   Rounding = iota // to the nearest, half goes up
	HalfEven                 // to the nearest, half goes to the even neighbour
	Customer                 // down: the customer gains
	Shop                     // up: the shop gains
)

// TaxBy says what tax is worked out on.
type TaxBy int

// The zero value is ByLine.
const (
	ByLine TaxBy = iota // each line's tax is rounded, and added up
	ByRate              // the lines of a rate are added up, and the tax on that rounded once
)

// Job is what is to be costed. All money is in Currency.
type Job struct {
	Currency  money.Currency // which has the minor unit, by ISO 4217
	Materials []Material
	Labour    []Labour
	Overhead  Overhead
	// Contingency is a percentage of materials, labour and overhead together.
	Contingency decimal.Decimal
	Taxes       []Tax
	OverheadTax string          // the tax on overhead and contingency; "" for none
	Deposit     decimal.Decimal // a percentage of the total
	Rounding    Rounding
	TaxBy       TaxBy
	Step        decimal.Decimal // the total is rounded to a multiple; 0 for the minor unit
}

// Tax is a rate of tax, in percent.
type Tax struct {
	Name string
	Rate decimal.Decimal
}

// Material is an article.
type Material struct {
	Name     string
	Unit     string          // what the price is for: "m", "each", "kg"
	Need     decimal.Decimal // how much the job takes, in units
	Pack     decimal.Decimal // it is sold in multiples of this; 0 for any quantity
	Minimum  decimal.Decimal // the least that is sold
	Price    decimal.Decimal // list price of Per units
	Per      decimal.Decimal // 0 for one: a price for a yard of what is counted in metres is for 0.9144
	Discount decimal.Decimal // trade discount, in percent of the list price
	MarkUp   decimal.Decimal // in percent of what the shop pays
	Tax      string          // its rate, by name; "" for none
}

// Labour is an operation.
type Labour struct {
	Name  string
	Hours decimal.Decimal
	Rate  decimal.Decimal // for an hour
	Tax   string
}

// Overhead is what the shop itself costs: a percentage of materials at what the
// customer pays, one of labour, and an amount an hour.
type Overhead struct {
	OnMaterials decimal.Decimal
	OnLabour    decimal.Decimal
	PerHour     decimal.Decimal
}

// Line is a line of the answer. Net, Tax and Gross are in whole minor units; Tax
// is zero when it is worked out by rate.
type Line struct {
	Name     string
	Quantity decimal.Decimal // bought, or hours
	Cost     decimal.Decimal // what the shop pays; zero for labour, overhead and contingency
	Net      decimal.Decimal
	Tax      decimal.Decimal
	Gross    decimal.Decimal // Net and Tax
	TaxName  string
}

// TaxLine is the tax of one rate.
type TaxLine struct {
	Tax
	On  decimal.Decimal // the net that it is on
	Sum decimal.Decimal
}

// Quote is a job with its cost.
type Quote struct {
	Materials   []Line
	Labour      []Line
	Overhead    Line
	Contingency Line
	Taxes       []TaxLine
	Cost        decimal.Decimal // what the shop pays for materials
	Net         decimal.Decimal // all lines, before tax
	Tax         decimal.Decimal
	Rounded     decimal.Decimal // what rounding the total to the step added; may be negative
	Total       decimal.Decimal // Net + Tax + Rounded
	Deposit     decimal.Decimal
	Balance     decimal.Decimal // Total - Deposit
}
