package service

import (
	"cmp"
	"context"
	"slices"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
)

// estimator is an estimate while it is made.
type estimator struct {
	req    EstimateRequest
	at     [3]laid // the corners
	order  Range[length.Length]
	narrow []Narrower
}

// mostNarrowing is how many measures are looked at for what would narrow the
// range.
const mostNarrowing = 3

// corners runs the engine at the three corners, and again at the low and the high
// corner with what might narrow the range held at its usual figure.
func (e *estimator) corners(ctx context.Context, workers int) {
	ask := func(piece, cloth int, usual string) func() laid {
		return func() laid { return e.laid(piece, cloth, usual) }
	}
	var runs []func() laid
	for _, l := range e.at {
		runs = append(runs, func() laid { return l })
	}
	candidates := e.candidates()
	for _, m := range candidates {
		runs = append(runs, ask(-1, -1, m.ID), ask(1, 1, m.ID))
	}
	if e.req.Cloth == nil && e.req.Patterned != Plain {
		runs = append(runs, ask(-1, 0, ""), ask(1, 0, ""))
		candidates = append(candidates, furniture.Measure{})
	}
	orders := make([]length.Length, len(runs))
	SideBySide(workers, len(runs), func(i int) {
		if ctx.Err() == nil {
			orders[i] = runs[i]().try(ctx).order
		}
	}, nil)
	low, likely, high := orders[0], orders[1], orders[2]
	e.order = Range[length.Length]{min(low, likely, high), likely, max(low, likely, high)}
	spread := e.order.High - e.order.Low
	for i, m := range candidates {
		a, b := orders[3+2*i], orders[4+2*i]
		left := max(a, b, likely) - min(a, b, likely)
		if percent := int((spread - left) * 100 / max(spread, 1)); percent > 0 {
			name := note.New(note.NarrowByChoice)
			if m.ID != "" {
				name = note.New(note.NarrowMeasure, note.Name("measure", m.Name))
			}
			e.narrow = append(e.narrow, Narrower{m.ID, name, percent})
		}
	}
	slices.SortStableFunc(e.narrow, func(a, b Narrower) int { return cmp.Compare(b.Percent, a.Percent) })
}

// laid is the piece at a corner of its measures, of which one may be held at its
// usual figure, on the cloth at a corner of its own.
func (e *estimator) laid(piece, cloth int, usual string) laid {
	k, sold := e.req.clothAt(cloth)
	return laidOn(e.req.pieceAt(piece, usual).List().CutFrom(furniture.Top, k), k, sold)
}

// candidates are the measures not taken that change the area of the panels most.
func (e *estimator) candidates() []furniture.Measure {
	k, _ := furniture.Find(e.req.Piece.Kind)
	type weighed struct {
		furniture.Measure
		by float64
	}
	var list []weighed
	whole := area(e.req.pieceAt(1, "").List())
	for _, m := range k.Measures {
		if _, taken := e.req.Piece.Measures[m.ID]; taken {
			continue
		}
		if by := whole - area(e.req.pieceAt(1, m.ID).List()); by > 0 {
			list = append(list, weighed{m, by})
		}
	}
	slices.SortStableFunc(list, func(a, b weighed) int { return cmp.Compare(b.by, a.by) })
	var out []furniture.Measure
	for _, m := range list[:min(len(list), mostNarrowing)] {
		out = append(out, m.Measure)
	}
	return out
}

// area is that of all panels of the top cover, in square millimetres.
func area(list furniture.List) float64 {
	sum := 0.0
	for _, p := range list.Panels {
		if p.Cover == furniture.Top {
			cut := p.Cut()
			sum += float64(cut.Across.MM()*cut.Along.MM()) * float64(p.Count)
		}
	}
	return sum
}

// hours are those of the example preset for a new cover.
func (e *estimator) hours() Range[decimal.Decimal] {
	u, sum := e.req.Shop, decimal.Decimal{}
	table := costing.Timetable{Preset: "re-cover", Shop: u}
	for _, l := range table.Labour(workOf(e.req.pieceAt(0, "").List(), e.req.Piece.Count, u), decimal.Decimal{}, "") {
		sum = sum.Add(l.Hours)
	}
	part := func(percent int64) decimal.Decimal { return sum.Mul(decimal.New(percent, -2)).Round(1) }
	return Range[decimal.Decimal]{part(100 - u.Count(practice.EstimateHoursOff)), part(100), part(100 + u.Count(practice.EstimateHoursOn))}
}

// workOf counts what hours are reckoned by. Buttons stand as far apart as is usual.
func workOf(list furniture.List, pieces int, shop practice.Set) costing.Work {
	w := costing.Work{Pieces: pieces}
	for _, p := range list.Panels {
		w.Panels += p.Count
	}
	for _, f := range list.Fillings {
		if f.Loose {
			w.Cushions += f.Count
		}
	}
	for _, f := range list.Frames {
		w.Frames += f.Count
	}
	for _, b := range list.Buttons {
		w.Buttons += pieces * int(b.Size.Across/shop.Length(practice.UsualDiamondWidth)) * int(b.Size.Along/shop.Length(practice.UsualDiamondHeight))
	}
	piping := length.Length(0)
	for _, r := range list.Runs {
		piping += r.Length * length.Length(r.Count)
	}
	w.Piping = metres(piping)
	return w
}

// metres is a length in metres, exactly.
func metres(l length.Length) decimal.Decimal { return decimal.New(int64(l), -9) }

// price is the cloth and the work at each corner, with tax.
func (e *estimator) price(hours Range[decimal.Decimal]) *Range[money.Money] {
	one := func(order length.Length, cloth *money.Price, h decimal.Decimal) money.Money {
		job := costing.Job{Taxes: []costing.Tax{{Name: "tax", Rate: e.req.Tax}}}
		if cloth != nil {
			job.Currency = cloth.Currency
			per := decimal.New(int64(order), 0).DivRound(decimal.New(int64(cloth.Per), 0), 9)
			job.Materials = []costing.Material{{Name: "cloth", Need: per, Price: cloth.Amount, Tax: "tax"}}
		}
		if l := e.req.Labour; l != nil {
			job.Currency = l.Hour.Currency
			job.Labour = []costing.Labour{{Name: "work", Hours: h, Rate: l.Hour.Amount, Tax: "tax"}}
		}
		return money.Money{Amount: job.Cost().Total, Currency: job.Currency}
	}
	if e.req.Band == nil {
		return &Range[money.Money]{one(0, nil, hours.Low), one(0, nil, hours.Likely), one(0, nil, hours.High)}
	}
	low, high := e.req.Band.Low, e.req.Band.High
	middle := low
	middle.Amount = low.Amount.Add(high.Amount).Div(decimal.New(2, 0))
	return &Range[money.Money]{
		one(e.order.Low, &low, hours.Low), one(e.order.Likely, &middle, hours.Likely), one(e.order.High, &high, hours.High),
	}
}
