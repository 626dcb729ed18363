package repeat

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
)

// Rule is a way to reckon how much cloth drops take.
type Rule int

// The rules. Exact is the layout of Lay; the others are the three that handbooks
// print for a half-drop. On a straight match all three come to the number of
// widths times whole repeats, and what is passed over between kinds of drop whose
// motifs fall at different places.
const (
	Exact          Rule = iota
	HalfRepeatOnce      // whole repeats, and half a repeat once where what is spare in a width is less than that (common practice, no source)
	HalfRepeatEach      // whole repeats and half a repeat in every width, and a whole one more when the widths are odd in number (Merrick and Day, The Encyclopaedia of Curtains, p. 119)
	InTurn              // whole repeats, the widths cut in the order in which they are joined: half a repeat at every change of start (common practice, no source)
)

// Kind is what one kind of drop comes to.
type Kind struct {
	Repeats int64         // of the length repeat in a drop, a part counted as a whole; 0 without one
	First   length.Length // cut for a width with none after it: the drop itself
	Alike   length.Length // from the top of one width to that of the next with the same start: whole repeats
	Next    length.Length // the same where the next is the one joined to its right
	Starts  int           // how many different starts its widths have
	InTurn  length.Length // waste when the widths are cut in the order in which they are joined
	Grouped length.Length // waste when all of one start are cut first, then all of the next

	// Without matching, widths cut one below another: how far the pattern of one
	// is below that of its neighbour on the left; above it when less than 0. The
	// nearest way counts.
	Off length.Length
}

// KindOf is what one kind of drop comes to by itself.
//
//	Repeats = ceil(D / V)
//	Alike   = Repeats * V
//	Next    = the least length >= D that is -m*d*V modulo V
func KindOf(c cloth.Cloth, d Drop, s Seam) Kind {
	k := Kind{First: d.Length, Alike: d.Length, Next: d.Length, Starts: 1}
	v := c.Pattern.LengthRepeat
	if v <= 0 {
		return k
	}
	den := c.Pattern.Drop.Reduced().Den
	whole, long, step := part(int64(v)*den), part(int64(d.Length)*den), stepOf(c.Pattern, s)
	k.Repeats = int64((d.Length + v - 1) / v)
	k.Alike = length.Length(k.Repeats) * v
	next := long + length.Mod(-step-long, whole)
	k.Next = up(next, den)
	k.Starts = startsOf(d, step, whole)
	off := length.Mod(-long-step, whole) // begun so much later, the width would match
	if 2*off > whole {
		off -= whole
	}
	k.Off = length.Length(int64(off) / den)
	k.InTurn, k.Grouped = orders(d, k.Starts, step, whole, long, den)
	return k
}

// startsOf is how many different starts the widths of a drop have.
func startsOf(d Drop, step, v part) int {
	n := 1
	for at := length.Mod(-step, v); n < d.Widths && at != 0; at = length.Mod(at-step, v) {
		n++
	}
	return n
}

// orders is the waste of the two orders that suggest themselves.
func orders(d Drop, starts int, step, v, long part, den int64) (inTurn, grouped length.Length) {
	gap := func(from, to int) part { return length.Mod(part(to)*-step-part(from)*-step-long, v) }
	var turn, group part
	last := -1
	for range d.Count {
		for k := range d.Widths {
			if last >= 0 {
				turn += gap(last%starts, k%starts)
			}
			last = k
		}
	}
	last = -1
	for start := range starts {
		n := d.Count * ((d.Widths - start + starts - 1) / starts)
		if last >= 0 {
			group += gap(last, start)
		}
		group += part(n-1) * gap(start, start)
		last = start
	}
	return up(turn, den), up(group, den)
}

// IsHalf reports whether the printed rules are about this pattern: it has a
// length repeat, and a straight match or a half-drop.
func IsHalf(p cloth.Pattern) bool { return p.LengthRepeat > 0 && p.Drop.Reduced().Den <= 2 }

// Printed is what a printed rule reckons for all drops of a straight match or a
// half-drop; for Exact it is layout. The kinds of drop are cut one after another in
// the order given. Each is reckoned by itself, and between two kinds the cloth is
// passed over until a start of the next kind comes round. For InTurn that is the
// start of its first width; for the others that of its first or its second width,
// whichever is sooner. With c.StartKnown the same holds before the first kind, where
// some drop says where a motif falls.
//
// The drops can be cut from that length as the rule says, so that it is never less
// than Lay's. Halves of a repeat are exact; the total is rounded up to a nanometre.
// The rules count every width of a half-drop as one of two starts, also where the
// width shows an even number of columns.
func Printed(r Rule, c cloth.Cloth, drops []Drop, s Seam, layout length.Length) length.Length {
	if r == Exact || c.Pattern.LengthRepeat <= 0 {
		return layout
	}
	const den = 2
	v := part(int64(c.Pattern.LengthRepeat) * den)
	half, turned := part(0), part(0) // what a rule counts; by how much the second width really begins later
	if !c.Pattern.Drop.IsStraight() {
		half = v / den
	}
	if r != InTurn && s.Columns%2 == 1 {
		turned = half
	}
	firsts, placed := firstsOf(c.Pattern, drops, den, v)
	at := firsts[0] // in the repeat, where the cloth is passed over from
	if c.StartsAt != nil && placed {
		at = part(int64(c.Start()) * den)
	}
	sum := part(0)
	for i, d := range drops {
		gap := length.Mod(firsts[i]-at-sum, v)
		if d.Widths > 1 {
			gap = min(gap, length.Mod(firsts[i]+turned-at-sum, v))
		}
		sum += gap + printedKind(r, d, v, half, den)
	}
	return up(sum, den)
}

// printedKind is what a printed rule reckons for one kind of drop by itself, in
// parts of a nanometre.
func printedKind(r Rule, d Drop, v, half part, den int64) part {
	n, long := part(d.Count*d.Widths), part(int64(d.Length)*den)
	cut := length.CeilDiv(long, v) * v
	sum := n * cut
	if d.Widths < 2 || half == 0 {
		return sum
	}
	switch r {
	case HalfRepeatOnce:
		if cut-long < half {
			sum += half
		}
	case HalfRepeatEach:
		sum += n * half
		if n%2 == 1 {
			sum += v
		}
	case InTurn:
		changes := n - 1
		if d.Widths%2 == 1 {
			changes -= part(d.Count - 1) // an odd set ends on the start with which the next begins
		}
		sum += changes * half
	}
	return sum
}
