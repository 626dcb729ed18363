package glance

import (
	"cmp"
	"context"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
)

// Rank is what cloths are ranked by.
type Rank int

// The ranks; the zero value is ByDefault: by cost where every cloth has a price,
// or else by length.
const (
	ByDefault Rank = iota
	ByLength
	ByCost
	ByWaste
)

// Cloth is a cloth that is looked at.
type Cloth struct {
	cloth.Cloth
	Sold  cloth.Sold
	Price *money.Price // nil when it is not known
}

// CompareRequest asks which of many cloths suits a cutting list.
type CompareRequest struct {
	Units  length.System
	Cloths []Cloth
	Panels []panel.Panel
	RankBy Rank
	// Sensitive asks what the first cloth would take at other widths and length
	// repeats, each with each and with its own.
	Sensitive       bool
	Widths, Repeats []length.Length
}

// Compared is a cloth with what the cutting list takes of it.
type Compared struct {
	Index    int // in the request
	Usable   bool
	Order    length.Length
	Needed   length.Length
	Bound    length.Length
	Plain    length.Length // what plain cloth of the same width needs; 0 when it cannot be used
	Waste    float64       // of the order, in percent to one decimal
	Cost     *money.Money
	Loosened int
	Reason   note.Note
}

// Tried is what the first cloth takes at another width and repeat.
type Tried struct {
	Width, Repeat length.Length
	Usable        bool
	Order, Needed length.Length
}

// CompareAnswer is the cloths, the best first.
type CompareAnswer struct {
	Request     CompareRequest
	RankedBy    Rank
	Cloths      []Compared
	Sensitivity []Tried
	Warnings    []note.Note
}

// Compare plans the cutting list on every cloth, so many at a time, at a glance;
// see plan.Glance. Each is handed to each, which may be nil, in the order of the request.
// The request must have no faults. It returns the context's error when the
// context ends before the answer is complete.
func Compare(ctx context.Context, req CompareRequest, workers int, each func(Compared)) (*CompareAnswer, error) {
	c := comparer{ctx: ctx, req: req, workers: workers}
	c.plains()
	ans := &CompareAnswer{Request: req, RankedBy: req.rank(), Cloths: make([]Compared, len(req.Cloths))}
	service.SideBySide(workers, len(req.Cloths),
		func(i int) { ans.Cloths[i] = c.compared(i) },
		func(i int) {
			if each != nil && ctx.Err() == nil {
				each(ans.Cloths[i])
			}
		})
	if req.Sensitive {
		ans.Sensitivity = c.sensitivity()
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	slices.SortStableFunc(ans.Cloths, ans.RankedBy.order)
	ans.Warnings = note.Listed(compareWarnings(ans), note.Most)
	return ans, nil
}

// rank is what the request is ranked by.
func (r CompareRequest) rank() Rank {
	if r.RankBy != ByDefault {
		return r.RankBy
	}
	for _, c := range r.Cloths {
		if c.Price == nil || c.Price.Code() != r.Cloths[0].Price.Code() {
			return ByLength
		}
	}
	return ByCost
}

// order puts the better of two cloths first, and those that cannot be used last.
func (r Rank) order(a, b Compared) int {
	switch {
	case a.Usable != b.Usable:
		if a.Usable {
			return -1
		}
		return 1
	case !a.Usable:
		return 0
	case r == ByCost:
		return cmp.Or(a.Cost.Cmp(*b.Cost), cmp.Compare(a.Order, b.Order))
	case r == ByWaste:
		return cmp.Or(cmp.Compare(a.Waste, b.Waste), cmp.Compare(a.Order, b.Order))
	}
	return cmp.Or(cmp.Compare(a.Order, b.Order), cmp.Compare(a.Needed, b.Needed))
}

// MaxCompared bounds the cloths times the copies of all panels.
const MaxCompared = 100_000

// CompareFaults are everything wrong with the request; pointers are those of the
// wire form. What a cloth does not allow of a panel is no fault: that cloth comes
// last. It may be asked of a request of which a part could not be read.
func CompareFaults(req CompareRequest) fault.List {
	var l fault.List
	root := fault.Path{}
	for i, c := range req.Cloths {
		here := root.Field("cloths").Index(i).Field("cloth")
		l.Append(c.Faults(here))
		l.Append(c.Sold.Faults(here))
	}
	panels := root.Field("panels")
	l.Append(panel.ListFaults(req.Panels, panels))
	copies := 0
	for _, p := range req.Panels {
		copies += p.Count
	}
	if n := copies * len(req.Cloths); n > MaxCompared {
		l.Add(root.Field("cloths"), fault.TooMany, "",
			strconv.Itoa(len(req.Cloths))+" cloths with "+strconv.Itoa(copies)+" panels each are too many for one request",
			"at most "+strconv.Itoa(MaxCompared)+" panels on all cloths together: ask in parts")
	}
	rankFaults(&l, req, root)
	at := root.Field("sensitivity")
	for i, w := range req.Widths {
		l.Between(at.Field("widths").Index(i), "the usable width", w, cloth.MinWidth, cloth.MaxWidth)
	}
	for i, v := range req.Repeats {
		l.Between(at.Field("lengthRepeats").Index(i), "a length repeat", v, cloth.MinRepeat, cloth.MaxRepeat)
	}
	return l
}

// rankFaults wants prices in one currency where cost decides.
func rankFaults(l *fault.List, req CompareRequest, root fault.Path) {
	if req.RankBy != ByCost {
		return
	}
	code := ""
	for i, c := range req.Cloths {
		here := root.Field("cloths").Index(i).Field("price")
		switch {
		case c.Price == nil:
			l.Add(here, fault.Missing, "", "to rank by cost every cloth needs a price", "give it, or rank by length or waste")
		case code == "":
			code = c.Price.Code()
		case c.Price.Code() != code:
			l.Add(here.Field("currency"), fault.NotAllowed, c.Price.Code(), "prices in two currencies cannot be ranked", "give all prices in "+code)
		}
	}
}

func compareWarnings(a *CompareAnswer) []note.Note {
	out := []note.Note{note.New(note.AtAGlance)}
	bad := 0
	for _, c := range a.Cloths {
		if !c.Usable {
			bad++
		}
	}
	if bad > 0 {
		out = append(out, note.New(note.ClothsNotUsed, note.Count("count", bad)))
	}
	return out
}
