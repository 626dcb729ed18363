package service

import (
	"context"
	"errors"
	"math"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// comparer is a comparison while it is made.
type comparer struct {
	ctx     context.Context
	req     CompareRequest
	workers int
	plain   map[unpatterned]trial
}

// unpatterned is what matters of a cloth when its pattern is left out.
type unpatterned struct {
	width    length.Length
	oneWay   bool
	railroad cloth.Railroad
	sold     cloth.Sold
}

// trial is a cutting list on a cloth.
type trial struct {
	usable        bool
	why           note.Note // it is not
	order         length.Length
	anyStart      length.Length // before flaws, shrinkage and rounding
	needed, bound length.Length
	loosened      int
}

// laid is a cutting list as a cloth allows it.
type laid struct {
	on       cloth.Cloth
	sold     cloth.Sold
	panels   []panel.Panel
	loosened int
}

// try plans the cutting list on a cloth, with the wishes that it can keep.
func (c *comparer) try(k cloth.Cloth, sold cloth.Sold) trial {
	if c.ctx.Err() != nil { // what comes before the search is not short where there are many panels
		return trial{why: note.New(note.NotFinished)}
	}
	return laidOn(c.req.Panels, k, sold).try(c.ctx)
}

// try plans the list at a glance.
func (l laid) try(ctx context.Context) trial {
	job := plan.Job{Cloth: l.on, Panels: l.panels, Bolt: l.sold.Bolt}
	r, err := plan.Solve(job, plan.Glance, func() bool { return ctx.Err() != nil })
	if wrong := (fault.List{}); errors.As(err, &wrong) {
		return trial{why: note.New(note.CannotBeCut, note.Name("fault", wrong.Faults()[0].Detail))}
	}
	if ctx.Err() != nil {
		return trial{why: note.New(note.NotFinished)}
	}
	if err := sound(job, r.Cut...); err != nil {
		return trial{why: note.New(note.PlanUnsound)}
	}
	t := trial{usable: true, needed: r.Needed(), bound: r.Bound, loosened: l.loosened}
	for _, need := range r.AnyStart {
		order, err := l.sold.Order(need)
		if err != nil {
			return trial{why: note.New(note.OrderTooLong)}
		}
		t.order += order
		t.anyStart += need
	}
	return t
}

// laidOn is the list with wishes and turns as the cloth allows them. Loosened are
// the wishes that it has a pattern for and cannot keep.
func laidOn(panels []panel.Panel, k cloth.Cloth, sold cloth.Sold) laid {
	list := slices.Clone(panels)
	for i := range list {
		p := &list[i]
		p.Match = p.Match.On(k.Pattern)
		turned := p.Turn == panel.Half && k.OneWay ||
			p.Turn == panel.Quarter && k.Railroad == cloth.RailroadNever && (p.Match.How != panel.Free || k.OneWay)
		if turned {
			p.Turn = panel.Upright
		}
	}
	list, loosened := LoosenWishes(list, k)
	return laid{k, sold, list, len(loosened)}
}

// plains plans the cutting list on plain cloth of each width there is.
func (c *comparer) plains() {
	var keys []unpatterned
	c.plain = make(map[unpatterned]trial)
	for _, k := range c.req.Cloths {
		key := unpatternedOf(k)
		if _, known := c.plain[key]; !known {
			c.plain[key] = trial{}
			keys = append(keys, key)
		}
	}
	found := make([]trial, len(keys))
	SideBySide(c.workers, len(keys), func(i int) {
		key := keys[i]
		found[i] = c.try(cloth.Cloth{Width: key.width, OneWay: key.oneWay, Railroad: key.railroad}, key.sold)
	}, nil)
	for i, key := range keys {
		c.plain[key] = found[i]
	}
}

func unpatternedOf(k CompareCloth) unpatterned {
	return unpatterned{k.Width, k.OneWay, k.Railroad, cloth.Sold{Bolt: k.Sold.Bolt}}
}

// compared is one cloth of the request.
func (c *comparer) compared(i int) ComparedCloth {
	k := c.req.Cloths[i]
	t := c.try(k.Cloth, k.Sold)
	out := ComparedCloth{Index: i, Usable: t.usable, Reason: t.why}
	if !t.usable {
		return out
	}
	out.Order, out.Needed, out.Bound, out.Loosened = t.order, t.needed, t.bound, t.loosened
	plain := c.plain[unpatternedOf(k)]
	if plain.usable {
		out.Plain = plain.needed
	}
	out.Waste = c.waste(k.Width, t.order)
	out.Reason = reason(k.Cloth, t, plain)
	if k.Price != nil {
		cost := k.Price.Of(t.order)
		out.Cost = &cost
	}
	return out
}

// waste is how much of an order is in no panel, in percent to one decimal.
func (c *comparer) waste(width, order length.Length) float64 {
	used := 0.0
	for _, p := range c.req.Panels {
		cut := p.Cut()
		used += float64(cut.Across.MM()*cut.Along.MM()) * float64(p.Count)
	}
	all := float64(width.MM() * order.MM())
	if all <= 0 {
		return 0
	}
	return math.Round(max(1-used/all, 0)*1000) / 10
}

// reason is why a cloth takes what it takes.
func reason(k cloth.Cloth, t, plain trial) note.Note {
	start, more := t.anyStart-t.needed, t.needed-plain.needed
	if start < length.Millimetre {
		start = 0
	}
	if k.Pattern.IsPlain() {
		return note.New(note.NothingNeeds, note.Length("start", start, length.Nearest), note.Count("loosened", t.loosened))
	}
	effect := "nothing"
	switch {
	case !plain.usable:
		effect, more = "decides", 0
	case more > 0:
		effect = "more"
	}
	return note.New(note.PatternTakes, note.Name("match", matchWord(k.Pattern)),
		note.Length("across", k.Pattern.WidthRepeat, length.Nearest), note.Length("along", k.Pattern.LengthRepeat, length.Nearest),
		note.Name("effect", effect), note.Length("more", max(more, 0), length.Nearest), note.Length("start", start, length.Nearest), note.Count("loosened", t.loosened))
}

// matchWord is how a pattern repeats, as notes have it: stripe, crosswise,
// straight, half-drop, or the share of a repeat that it drops.
func matchWord(p cloth.Pattern) string {
	d := p.Drop.Reduced()
	switch {
	case p.LengthRepeat == 0:
		return "stripe"
	case p.WidthRepeat == 0:
		return "crosswise"
	case d.Num == 0:
		return "straight"
	case d == cloth.Half():
		return "half-drop"
	}
	return strconv.FormatInt(d.Num, 10) + "/" + strconv.FormatInt(d.Den, 10)
}

// sensitivity plans the first cloth at every width and repeat. A motif keeps its
// place in the repeat, as far as the repeat goes.
func (c *comparer) sensitivity() []CompareTried {
	first := c.req.Cloths[0]
	var list []CompareTried
	for _, w := range withOwn(c.req.Widths, first.Width) {
		for _, v := range withOwn(c.req.Repeats, first.Pattern.LengthRepeat) {
			list = append(list, CompareTried{Width: w, Repeat: v})
		}
	}
	SideBySide(c.workers, len(list), func(i int) {
		k, at := first.Cloth, &list[i]
		k.Width, k.Pattern.LengthRepeat = at.Width, at.Repeat
		k.Pattern.Motifs = slices.Clone(k.Pattern.Motifs)
		for m := range k.Pattern.Motifs {
			if at.Repeat > 0 {
				k.Pattern.Motifs[m].Along %= at.Repeat
			}
		}
		k.StartsAt = nil
		if at.Repeat == 0 {
			k.Pattern.Drop = cloth.Drop{}
		}
		t := c.try(k, first.Sold)
		at.Usable, at.Order, at.Needed = t.usable, t.order, t.needed
	}, nil)
	return list
}

// withOwn are the lengths with one more, in order, each once.
func withOwn(list []length.Length, own length.Length) []length.Length {
	all := append(slices.Clone(list), own)
	slices.Sort(all)
	return slices.Compact(all)
}
