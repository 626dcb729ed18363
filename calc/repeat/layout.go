package repeat

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
)

// Drop is one kind of drop.
type Drop struct {
	Name   string
	Length length.Length // cut, with hems and allowances; > 0
	Count  int           // how many finished drops
	Widths int           // joined in each
	Place  *Place        // where the motif falls; nil: as in the other drops
}

// Place is where a motif falls in the first width of a drop: its centre, in the
// column of the pattern that the motif's own offset names, this far below the top.
type Place struct {
	Motif   int // index in Pattern.Principal
	FromTop length.Length
}

// Cut is one width of one drop, as it is cut from the roll.
type Cut struct {
	Drop, Copy, Width int           // index of the drop; copy and width from 1
	From              length.Length // where it begins, from the beginning of the cloth
	Start             length.Length // the same in the length repeat; 0 without one
	Waste             length.Length // passed over before the next width
}

// Layout is the drops in the order in which they are cut.
type Layout struct {
	Cuts     []Cut
	Start    length.Length // in the repeat, where the cloth begins
	Lead     length.Length // passed over before the first cut, when the start is given
	Length   length.Length // the least that the drops take from that start, or from the best
	AnyStart length.Length // the least that is enough wherever in the repeat the cloth begins
	Plain    length.Length // the drops end to end, without matching
	Placed   bool          // some drop says where a motif falls
}

// part is a length in parts of a nanometre.
type part int64

// item is one width to cut: from one place of the repeat to another.
type item struct {
	cut       Cut
	from      part // in the repeat
	long      part
	begin, to int // nodes of the circle
}

// Lay is the shortest layout of all drops, and how long a cloth is enough from
// any start. Drops that name no place begin where the first drop that does
// begins, or, when none does, wherever in the repeat the cloth begins: the start
// then costs nothing. With a start that is known the layout is the shortest from there.
// Times: proportional to the cube of the number of different starts.
func Lay(c cloth.Cloth, drops []Drop, s Seam) Layout {
	den := c.Pattern.Drop.Reduced().Den
	v := part(int64(c.Pattern.LengthRepeat) * den)
	out := Layout{}
	items := itemsOf(c, drops, s, &out)
	if v == 0 {
		lineUp(&out, items, den)
		return out
	}
	w := newWheel(items, v)
	best := w.solve()
	lead := part(0)
	start := w.points[best.first]
	if c.StartsAt != nil {
		start = part(int64(c.Start()) * den)
		if out.Placed {
			best = w.from(start)
		}
	}
	items = w.order(best)
	if c.StartsAt != nil && out.Placed {
		lead = length.Mod(items[0].from-start, v) // the way may begin with a stretch
	}
	at := lead
	for i := range items {
		it := &items[i]
		if i > 0 {
			at += length.Mod(it.from-items[i-1].from-items[i-1].long, v)
		}
		cut := it.cut
		cut.From = up(at, den)
		cut.Start = length.Length(int64(length.Mod(start+at, v)) / den)
		if n := len(out.Cuts); n > 0 {
			prev := &out.Cuts[n-1]
			prev.Waste = max(0, cut.From-prev.From-drops[prev.Drop].Length)
		}
		out.Cuts = append(out.Cuts, cut)
		at += it.long
	}
	out.Start, out.Lead, out.Length = length.Length(int64(start)/den), up(lead, den), up(at, den)
	out.AnyStart = out.Length
	if out.Placed {
		out.AnyStart = up(w.anyStart(), den)
	} else if c.StartsAt != nil {
		out.Start = c.Start()
	}
	return out
}

// itemsOf are all widths, with where in the repeat they begin.
func itemsOf(c cloth.Cloth, drops []Drop, s Seam, out *Layout) []item {
	p := c.Pattern
	den := p.Drop.Reduced().Den
	v := part(int64(p.LengthRepeat) * den)
	step := stepOf(p, s)
	firsts, placed := firstsOf(p, drops, den, v)
	out.Placed = placed
	var items []item
	for n, d := range drops {
		for copied := range d.Count {
			for k := range d.Widths {
				it := item{cut: Cut{Drop: n, Copy: copied + 1, Width: k + 1}, long: part(int64(d.Length) * den)}
				if v > 0 {
					it.from = length.Mod(firsts[n]-part(k)*step, v)
				}
				items = append(items, it)
				out.Plain += d.Length
			}
		}
	}
	return items
}

// firstsOf is where in the repeat the first width of each kind of drop begins, and
// whether some kind says so: then those that do not begin as the first that does.
func firstsOf(p cloth.Pattern, drops []Drop, den int64, v part) (firsts []part, placed bool) {
	firsts = make([]part, len(drops))
	if v <= 0 {
		return firsts, false
	}
	common := part(0)
	for i := len(drops) - 1; i >= 0; i-- {
		if pl := drops[i].Place; pl != nil {
			firsts[i] = startFor(p, *pl, den, v)
			common, placed = firsts[i], true
		}
	}
	for i := range firsts {
		if drops[i].Place == nil {
			firsts[i] = common
		}
	}
	return firsts, placed
}

// startFor is where in the repeat a width begins whose motif falls at the place.
func startFor(p cloth.Pattern, pl Place, den int64, v part) part {
	along := p.Principal()[pl.Motif].Along
	return length.Mod(part(int64(along-pl.FromTop)*den), v)
}

// lineUp lays the drops end to end, where no length repeat asks for more.
func lineUp(out *Layout, items []item, den int64) {
	at := part(0)
	for _, it := range items {
		it.cut.From = up(at, den)
		out.Cuts = append(out.Cuts, it.cut)
		at += it.long
	}
	out.Length = up(at, den)
	out.AnyStart = out.Length
}

// up is a length in whole nanometres that is enough.
func up(a part, den int64) length.Length {
	return length.Length(length.CeilDiv(int64(a), den))
}
