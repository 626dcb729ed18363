package service

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/practice"
)

// OrderRequest asks what to buy for the parts of a job.
type OrderRequest struct {
	Units    length.System // of names
	Parts    []OrderPart
	Prices   []JobPrice
	Currency money.Currency // of the prices; a price that comes with an article in another is not used
}

// OrderPart is one part of a job, such as a chair, with the answers that say
// what it takes. Several parts may have answers of the same kind, and one part
// may have several.
type OrderPart struct {
	Name       string // what reasons call it: "wing chair"
	Cloths     []OrderCloth
	Piping     []OrderPiping
	Buttoning  []OrderButtoning
	Foam       []*FoamAnswer
	Wadding    []*WaddingAnswer
	Foundation []*FoundationAnswer
}

// OrderCloth is a cloth with the plan by which it is cut. Pieces in hand are
// taken into account when the answer has them: only what is short is ordered.
type OrderCloth struct {
	// Article is what a list of prices calls it, without "cloth/" before it: "top"
	// for cloth/top. Cloths of one article are bought together; when it is empty
	// it is the cloth's name.
	Article string
	For     string // what it is for: "top cover"
	Answer  *YardageAnswer
	Price   *money.Price // when it comes with the cloth; a list of prices comes first
}

// OrderPiping is the piping of a part. Cloth is the article that new strips are
// cut from; when it is empty it is the cloth's name.
type OrderPiping struct {
	Cloth  string
	Answer *PipingAnswer
}

// OrderButtoning is a buttoned panel. Its cover is in a plan of Cloths. The
// covers of the buttons are ordered from the article Cloth, unless that is empty:
// then they come from offcuts.
type OrderButtoning struct {
	Count  int // panels alike; 0 is one
	Cloth  string
	Answer *ButtoningAnswer
}

// OrderMeasure is what a quantity counts, and in which unit it is kept.
type OrderMeasure int

// The measures.
const (
	OrderCount  OrderMeasure = iota // whole ones
	OrderLength                     // nanometres, as length.Length
	OrderMass                       // milligrams
)

// OrderGroup is the part of the list that a line stands in; the list is in their
// order.
type OrderGroup int

// The groups.
const (
	OrderCloths OrderGroup = iota
	OrderFoundation
	OrderFoam
	OrderWadding
	OrderTrimmings
	orderGroups
)

// String is the name of the group.
func (g OrderGroup) String() string {
	return [orderGroups]string{"cloth", "foundation", "foam", "wadding", "trimmings"}[g]
}

// OrderLine is an article and how much of it to buy. Need and Order are counted
// as Measure says.
type OrderLine struct {
	Article string // what a list of prices calls it: "tacks/13mm"
	Name    string // for people: "tacks, 13 mm"
	Group   OrderGroup
	Measure OrderMeasure
	Need    int64 // exact: the sum of Reasons
	Order   int64 // as it is sold, never below Need
	Sold    OrderSold
	Packs   int64           // Order in packs; 0 where it is not sold in packs
	Lengths []length.Length // of a cloth: the lengths that Order is made up of, longest first
	Reasons []OrderReason
	Price   *JobPrice // nil: none was given
	Because string    // why a price that was given could not be used; "" when none was, or it could
}

// OrderSold is how an article is sold, counted as its line's Measure says.
type OrderSold struct {
	Step    int64  // in multiples of this; 0 for any quantity
	Pack    int64  // in packs that hold this; 0 where it is not sold in packs
	Name    string // of a pack: "roll", "box", "bag", "ball", "sheet"; "" without packs
	Minimum int64
	Whole   int64 // the longest in one piece, such as a bolt; 0: no limit
}

// OrderReason is how much one part of the job takes of an article, and what for.
type OrderReason struct {
	Part   string // OrderPart.Name; "" for what is added to the whole, such as for flaws
	For    string
	Amount int64
}

// JobPrice is the price of an article in a list of the caller's.
type JobPrice struct {
	// Article is an order line's, or the beginning of it before a "/": the price of
	// "tacks" is that of all tacks. The longest that fits counts.
	Article  string
	Amount   decimal.Decimal // list price, before discount and tax
	Per      JobPer
	Pack     *OrderQuantity   // it is sold in packs of this; nil: as the list says
	Minimum  *OrderQuantity   // the least that is sold
	Discount *decimal.Decimal // in percent; nil: that of the terms
	MarkUp   *decimal.Decimal // in percent; nil: that of the terms
	Tax      *string          // by name; nil: that of the terms
}

// OrderQuantity is a quantity of a measure.
type OrderQuantity struct {
	Measure OrderMeasure
	Amount  int64
}

// JobPer is what a price is for.
type JobPer int

// What prices are for.
const (
	PerEach JobPer = iota
	PerHundred
	PerMetre
	PerYard
	PerKilogram
	PerPound
	PerPack // the pack that it is sold in: a roll, a box, a sheet
)

// String is the name of what a price is for.
func (p JobPer) String() string {
	return [...]string{"each", "hundred", "m", "yd", "kg", "lb", "pack"}[p]
}

// Text is a quantity for people, rounded up.
func (m OrderMeasure) Text(q int64, units length.System) string {
	switch m {
	case OrderLength:
		return length.Length(q).Text(units, length.Up)
	case OrderMass:
		return practice.MassText(q, units)
	}
	return strconv.FormatInt(q, 10)
}

// BoughtText is what to buy, for people: "2 boxes of 1000", "6.5 m".
func (l *OrderLine) BoughtText(units length.System) string {
	if l.Packs == 0 {
		return l.Measure.Text(l.Order, units)
	}
	name := l.Sold.Name
	if l.Packs != 1 {
		name = severalOf(name)
	}
	text := strconv.FormatInt(l.Packs, 10) + " " + name
	if l.Sold.Pack == 1 && l.Measure == OrderCount {
		return text
	}
	return text + " of " + l.Measure.Text(l.Sold.Pack, units)
}

// severalOf is the plural of what things are sold in.
func severalOf(pack string) string {
	if strings.HasSuffix(pack, "x") {
		return pack + "es"
	}
	return pack + "s"
}

// OrderList is everything to buy, one line an article. What several parts take is
// added up first and then rounded once, to what is sold. The same parts in any
// order, and prices in any order, give the same list.
func OrderList(req OrderRequest) ([]OrderLine, error) {
	b := orderBook{req: &req, entries: make(map[orderKey]*orderEntry)}
	for i := range req.Parts {
		b.cloths(&req.Parts[i])
	}
	for i := range req.Parts {
		b.part(&req.Parts[i])
	}
	var list []OrderLine
	for _, k := range slices.SortedFunc(maps.Keys(b.entries), compareOrderKeys) {
		line, err := b.line(k, b.entries[k])
		if err != nil {
			return nil, err
		}
		if line.Need > 0 {
			list = append(list, line)
		}
	}
	return list, nil
}
