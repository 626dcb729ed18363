// Package foam works out cushions and pads of foam: how large they are cut, of
// which stock thicknesses they are made up, what they weigh, how they lie on the
// sheets that are on sale, and whether the foam suits its place.
package foam

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/practice"
)

// Foam is a quality of foam.
type Foam struct {
	ID, Name string
	Density  int64 // grams a cubic metre
	Hardness int64 // newtons; 0 where it is not known
	At       int64 // percent of indentation at which Hardness was measured: 25 or 40
}

// Stock is a sheet on sale.
type Stock struct {
	ID            string
	Foam          int // which foam it is of
	Across, Along length.Length
	Thickness     length.Length
	Trim          length.Length   // lost along each edge
	Price         decimal.Decimal // at most MaxPrice, with at most 4 decimals
}

// Place is where the foam is used.
type Place int

// The places.
const (
	Seat Place = iota
	Back
	Arm
	Pad // a thin seat on a board or on webbing
	Scatter
)

// Use is what the piece must stand.
type Use int

// The uses.
const (
	Domestic Use = iota
	Contract
	HeavyContract
)

// Fit is the over-cut policy: how much larger than the cover the foam is cut.
type Fit int

// The policies.
const (
	ByPlace Fit = iota
	Tight
	Flush
)

// Over is how much is added to the finished width, half of it on each side: by
// place nothing for an arm or a pad, which is glued to its base.
func (f Fit) Over(p Place, shop practice.Set) length.Length {
	switch {
	case f == Tight, f == ByPlace && p == Seat:
		return shop.Length(practice.FoamOverTight)
	case f == ByPlace && (p == Back || p == Scatter):
		return shop.Length(practice.FoamOverSoft)
	}
	return 0
}

// Top is a softer layer above the core, and beneath it too where Both is set.
type Top struct {
	Foam      int
	Thickness length.Length
	Both      bool
}

func (t Top) layers() length.Length {
	if t.Both {
		return 2
	}
	return 1
}

// Item is a cushion or pad, so many alike.
type Item struct {
	ID, Name  string
	Count     int
	Shape     Shape // finished
	Place     Place
	Fit       Fit
	Over      *length.Length // in place of the policy's
	Foam      int
	Thickness length.Length // finished
	Crown     length.Length // how much the middle stands above that
	Top       *Top
}

// over is what is added to the finished width.
func (i *Item) over(shop practice.Set) length.Length {
	if i.Over != nil {
		return *i.Over
	}
	return i.Fit.Over(i.Place, shop)
}

// Wanted is how thick the foam is wanted, crown and all.
func (i *Item) Wanted() length.Length { return i.Thickness + i.Crown }

// Job is what is asked.
type Job struct {
	Foams []Foam
	Stock []Stock
	Items []Item
	Use   Use
	// Currency is that of all sheets' prices; without one no sheet has a price, and
	// the least foam is bought.
	Currency money.Currency
	Effort   Effort
	Shop     practice.Set // what the workroom goes by
}

// Effort is the budget of the search.
type Effort int

// The efforts.
const (
	Normal Effort = iota
	Quick
	Thorough
)

// budget is in places tried, for one choice of sheets.
func (e Effort) budget() int64 {
	switch e {
	case Quick:
		return 5_000
	case Thorough:
		return 2_000_000
	}
	return 150_000
}
