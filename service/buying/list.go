package buying

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// Request asks what to buy for the parts of a job.
type Request struct {
	Units    length.System // of names
	Parts    []Part
	Prices   []Price
	Currency money.Currency // of the prices; a price that comes with an article in another is not used
	Shop     practice.Set   // what the workroom goes by
}

// Part is one part of a job, such as a chair, with the answers that say
// what it takes. Several parts may have answers of the same kind, and one part
// may have several.
type Part struct {
	Name       string // what reasons call it: "wing chair"
	Cloths     []Cloth
	Piping     []Piping
	Buttoning  []Buttoning
	Foam       []*service.FoamAnswer
	Wadding    []*service.WaddingAnswer
	Foundation []*service.FoundationAnswer
}

// Cloth is a cloth with the plan by which it is cut. Pieces in hand are
// taken into account when the answer has them: only what is short is ordered.
type Cloth struct {
	// Article is what a list of prices calls it, without "cloth/" before it: "top"
	// for cloth/top. Cloths of one article are bought together; when it is empty
	// it is the cloth's name.
	Article string
	For     string // what it is for: "top cover"
	Answer  *service.YardageAnswer
	Price   *money.Price // when it comes with the cloth; a list of prices comes first
}

// Piping is the piping of a part. Cloth is the article that new strips are
// cut from; when it is empty it is the cloth's name.
type Piping struct {
	Cloth  string
	Answer *service.PipingAnswer
}

// Buttoning is a buttoned panel. Its cover is in a plan of Cloths. The
// covers of the buttons are ordered from the article Cloth, unless that is empty:
// then they come from offcuts.
type Buttoning struct {
	Count  int // panels alike; 0 is one
	Cloth  string
	Answer *service.ButtoningAnswer
}

// Measure is what a quantity counts, and in which unit it is kept.
type Measure int

// The measures.
const (
	Count  Measure = iota // whole ones
	Length                // nanometres, as length.Length
	Mass                  // milligrams
)

// Group is the part of the list that a line stands in; the list is in their
// order.
type Group int

// The groups.
const (
	Cloths Group = iota
	Foundation
	Foam
	Wadding
	Trimmings
	groups
)

// String is the name of the group.
func (g Group) String() string {
	return [groups]string{"cloth", "foundation", "foam", "wadding", "trimmings"}[g]
}

// Line is an article and how much of it to buy. Need and Order are counted
// as Measure says.
type Line struct {
	Article string // what a list of prices calls it: "tacks/13mm"
	Name    string // for people: "tacks, 13 mm"
	Group   Group
	Measure Measure
	Need    int64 // exact: the sum of Reasons
	Order   int64 // as it is sold, never below Need
	Sold    Sold
	Packs   int64           // Order in packs; 0 where it is not sold in packs
	Lengths []length.Length // of a cloth: the lengths that Order is made up of, longest first
	Reasons []Reason
	Price   *Price    // nil: none was given
	Because note.Note // why a price that was given could not be used; says nothing when none was, or it could
}

// Sold is how an article is sold, counted as its line's Measure says.
type Sold struct {
	Step    int64  // in multiples of this; 0 for any quantity
	Pack    int64  // in packs that hold this; 0 where it is not sold in packs
	Name    string // of a pack: "roll", "box", "bag", "ball", "sheet"; "" without packs
	Minimum int64
	Whole   int64 // the longest in one piece, such as a bolt; 0: no limit
}

// Reason is how much one part of the job takes of an article, and what for.
type Reason struct {
	Part   string // Part.Name; "" for what is added to the whole, such as for flaws
	For    string
	Amount int64
}

// Price is the price of an article in a list of the caller's.
type Price struct {
	// Article is an order line's, or the beginning of it before a "/": the price of
	// "tacks" is that of all tacks. The longest that fits counts.
	Article  string
	Amount   decimal.Decimal // list price, before discount and tax
	Per      Per
	Pack     *Quantity        // it is sold in packs of this; nil: as the list says
	Minimum  *Quantity        // the least that is sold
	Discount *decimal.Decimal // in percent; nil: that of the terms
	MarkUp   *decimal.Decimal // in percent; nil: that of the terms
	Tax      *string          // by name; nil: that of the terms
}

// Quantity is a quantity of a measure.
type Quantity struct {
	Measure Measure
	Amount  int64
}

// Per is what a price is for.
type Per int

// What prices are for.
const (
	PerEach Per = iota
	PerHundred
	PerMetre
	PerYard
	PerKilogram
	PerPound
	PerPack // the pack that it is sold in: a roll, a box, a sheet
)

// String is the name of what a price is for.
func (p Per) String() string {
	return [...]string{"each", "hundred", "m", "yd", "kg", "lb", "pack"}[p]
}

// Text is a quantity for people, rounded up.
func (m Measure) Text(q int64, units length.System) string {
	switch m {
	case Length:
		return length.Length(q).Text(units, length.Up)
	case Mass:
		return practice.MassText(q, units)
	}
	return strconv.FormatInt(q, 10)
}

// BoughtText is what to buy, for people: "2 boxes of 1000", "6.5 m".
func (l *Line) BoughtText(units length.System) string {
	if l.Packs == 0 {
		return l.Measure.Text(l.Order, units)
	}
	name := l.Sold.Name
	if l.Packs != 1 {
		name = severalOf(name)
	}
	text := strconv.FormatInt(l.Packs, 10) + " " + name
	if l.Sold.Pack == 1 && l.Measure == Count {
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
func OrderList(req Request) ([]Line, error) {
	b := book{req: &req, entries: make(map[key]*entry)}
	for i := range req.Parts {
		b.cloths(&req.Parts[i])
	}
	for i := range req.Parts {
		b.part(&req.Parts[i])
	}
	var list []Line
	for _, k := range slices.SortedFunc(maps.Keys(b.entries), compareKeys) {
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
