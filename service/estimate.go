package service

import (
	"context"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
)

// Size is how large a piece looks to someone without a tape.
type Size int

// The sizes; the zero value is Usual.
const (
	Usual Size = iota
	Small
	Large
)

// Patterned is how much pattern a cloth has, to someone who has not chosen it.
type Patterned int

// The zero value is Medium.
const (
	Medium Patterned = iota
	Plain
	SmallPattern
	LargePattern
)

// String is the name of the class on the wire.
func (p Patterned) String() string {
	switch p {
	case Plain:
		return "plain"
	case SmallPattern:
		return "small"
	case LargePattern:
		return "large"
	}
	return "medium"
}

// EstimateRequest is the little that a customer knows.
type EstimateRequest struct {
	Piece     furniture.Piece // with the measures that were taken, if any
	Size      Size
	Patterned Patterned
	Cloth     *CompareCloth // nil when none is chosen; its price is that of Band
	Band      *PriceBand    // nil when nothing is known of prices
	Labour    *LabourRate   // nil when the work is not to be priced
	Tax       decimal.Decimal
	Shop      practice.Set // what the workroom goes by
}

// PriceBand is from what to what the cloth may cost.
type PriceBand struct{ Low, High money.Price }

// LabourRate is what an hour costs.
type LabourRate struct{ Hour money.Money }

// Range is a figure with the least and the most that it may be.
type Range[T any] struct{ Low, Likely, High T }

// Narrower is something that would narrow the range of lengths, and by how much
// of it, in percent.
type Narrower struct {
	Measure string // "" for the cloth
	Name    note.Note
	Percent int
}

// EstimateAnswer is what the engine makes of it.
type EstimateAnswer struct {
	Request  EstimateRequest
	Order    Range[length.Length]
	Hours    Range[decimal.Decimal]
	Price    *Range[money.Money] // nil when nothing is priced
	Narrow   []Narrower          // the most helpful first
	Warnings []note.Note         // what is not in the figures, and what was taken for them
	Cautions []note.Note
}

// Estimate runs the engine at three corners of what is likely: measures that were
// not taken are below, at and above what is usual for the size, and a cloth that is
// not chosen has the smaller, the usual and the larger repeat of its class. What is
// wrong with the request is the error.
func Estimate(ctx context.Context, req EstimateRequest, workers int) (*EstimateAnswer, error) {
	ready, wrong := PrepareEstimate(req, workers)
	return unless(ready, wrong)(ctx)
}

// PrepareEstimate fits the piece to the cloth at the three corners, and says
// everything wrong with the request; pointers are those of the wire form. Whether
// the piece can be cut from the cloth at all is asked only when nothing else is
// wrong. The answer is worked on in so many places at a time.
func PrepareEstimate(req EstimateRequest, workers int) (Ready[EstimateAnswer], fault.List) {
	l := EstimateFieldFaults(req)
	if l.Len() > 0 {
		return nil, l
	}
	e := estimator{req: req}
	for i := range e.at {
		e.at[i] = e.laid(i-1, i-1, "")
		if l = e.tooWide(e.at[i]); l.Len() > 0 {
			return nil, l
		}
	}
	return func(ctx context.Context) (*EstimateAnswer, error) {
		e.corners(ctx, workers)
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		ans := &EstimateAnswer{Request: req, Order: e.order, Narrow: e.narrow}
		ans.Hours = e.hours()
		if req.Band != nil || req.Labour != nil {
			ans.Price = e.price(ans.Hours)
		}
		ans.Warnings, ans.Cautions = note.Listed(ans.warnings(), note.Most), note.Listed([]note.Note{note.New(note.FireRules)}, note.Most)
		return ans, nil
	}, l
}

// clothAt is the cloth at a corner: -1, 0 or 1.
func (r EstimateRequest) clothAt(corner int) (cloth.Cloth, cloth.Sold) {
	if r.Cloth != nil {
		return r.Cloth.Cloth, r.Cloth.Sold
	}
	width := r.Shop.Length(practice.UsualCloth)
	k := cloth.Cloth{Width: width, OneWay: true}
	if p := r.repeats()[corner+1]; p.along > 0 {
		k.Pattern = cloth.Pattern{LengthRepeat: p.along, WidthRepeat: min(p.across, width/2), Drop: p.drop}
		k.Pattern.Motifs = []cloth.Motif{{Name: "motif", Across: k.Pattern.WidthRepeat / 2}}
	}
	return k, cloth.Sold{Step: r.Shop.Length(practice.ClothSoldBy)}
}

// standIn is a pattern that stands for its class.
type standIn struct {
	along, across length.Length
	drop          cloth.Drop
}

// repeats are the smaller, the usual and the larger repeat of the class; none of
// plain cloths.
func (r EstimateRequest) repeats() (out [3]standIn) {
	rows := practice.MediumRepeats
	switch r.Patterned {
	case Plain:
		return out
	case SmallPattern:
		rows = practice.SmallRepeats
	case LargePattern:
		rows = practice.LargeRepeats
	}
	for i, row := range rows {
		out[i] = standIn{along: r.Shop.Length(row.Along), across: r.Shop.Length(row.Across)}
		if den := r.Shop.Count(row.Drop); den > 1 {
			out[i].drop = cloth.Drop{Num: 1, Den: den}
		}
	}
	return out
}

// pieceAt is the piece at a corner; a measure named in usual is at its usual
// figure whatever the corner.
func (r EstimateRequest) pieceAt(corner int, usual string) furniture.Piece {
	k, _ := furniture.Find(r.Piece.Kind)
	percent := length.Length(100)
	switch r.Size {
	case Small:
		percent = length.Length(r.Shop.Count(practice.EstimateSmall))
	case Large:
		percent = length.Length(r.Shop.Count(practice.EstimateLarge))
	}
	spread := length.Length(r.Shop.Count(practice.EstimateMeasure))
	p := r.Piece
	p.Shop = r.Shop
	p.Measures = make(map[string]length.Length, len(k.Measures))
	for _, m := range k.Measures {
		if taken, ok := r.Piece.Measures[m.ID]; ok {
			p.Measures[m.ID] = taken
			continue
		}
		l := m.Typical * percent / 100
		if m.ID != usual {
			l = l * (100 + length.Length(corner)*spread) / 100
		}
		l -= l % r.Shop.Length(practice.EstimateStep)
		p.Measures[m.ID] = min(max(l, m.Least), m.Most)
	}
	return p
}
