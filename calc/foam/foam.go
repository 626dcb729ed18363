// Package foam works out cushions and pads of foam: how large they are cut, of
// which stock thicknesses they are made up, what they weigh, how they lie on the
// sheets that are on sale, and whether the foam suits its place.
package foam

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
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

// The over-cuts, on the whole width. 12 mm is common practice, no source; 25 mm is
// an inch over in all ways for soft foam, common practice, no source: half an inch
// of seam all round, to which the foam is cut.
const (
	overTight = 12 * length.Millimetre
	overSoft  = 25 * length.Millimetre
)

// Over is how much is added to the finished width, half of it on each side: tight
// 12 mm, flush nothing, by place a seat 12 mm, a back or a scatter cushion 25 mm,
// an arm or a pad, which is glued to its base, nothing.
func (f Fit) Over(p Place) length.Length {
	switch {
	case f == Tight, f == ByPlace && p == Seat:
		return overTight
	case f == ByPlace && (p == Back || p == Scatter):
		return overSoft
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
func (i *Item) over() length.Length {
	if i.Over != nil {
		return *i.Over
	}
	return i.Fit.Over(i.Place)
}

// Wanted is how thick the foam is wanted, crown and all.
func (i *Item) Wanted() length.Length { return i.Thickness + i.Crown }

// Job is what is asked.
type Job struct {
	Foams []Foam
	Stock []Stock
	Items []Item
	Use   Use
	Kerf  length.Length // lost between two pieces
	// Currency is that of all sheets' prices; without one no sheet has a price, and
	// the least foam is bought.
	Currency money.Currency
	Effort   Effort
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
