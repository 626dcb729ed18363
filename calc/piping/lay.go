package piping

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// source is new cloth: strips of one length, at most so many.
type source struct {
	long length.Length
	most int
}

// policy is how pieces are chosen for a run.
type policy uint8

const (
	fewJoins policy = iota // a new strip rather than a join
	thrifty                // what is there, joined, rather than a new strip
)

// bench lays the runs of a job out of strips, one run after another.
type bench struct {
	job   *Job
	cut   Cut
	takes length.Length // by a join
	kept  [][]Kept      // of the runs
	how   policy
	floor length.Length // what is shorter is waste
	new   source
	stock stock
	given int // strips before the first new one
	cutUp int // new strips that have been begun
	undo  []change
	work  int // pieces that may still be tried
}

// change is a scrap put into the stock or taken out of it.
type change struct {
	scrap
	put bool
}

func (b *bench) put(s scrap) {
	if s.long >= b.floor {
		b.stock.put(s)
		b.undo = append(b.undo, change{s, true})
	}
}

func (b *bench) take(s scrap) {
	b.stock.take(s)
	b.undo = append(b.undo, change{s, false})
}

// fresh begins a new strip, which is then in the stock.
func (b *bench) fresh() scrap {
	s := scrap{long: b.new.long, strip: b.given + b.cutUp}
	b.cutUp++
	b.stock.put(s)
	b.undo = append(b.undo, change{s, true})
	return s
}

func (b *bench) canBegin() bool { return b.cutUp < b.new.most && b.new.long >= b.floor }

// mostWork is how many pieces one attempt may try. What is left then is not
// covered; within the limits of a job only runs that fail again and again come to it.
const mostWork = 100_000

// run lays the run of that number. Where the policy fails the other is tried.
func (b *bench) run(i int) (Laid, bool) {
	begun := b.cutUp
	if b.work <= 0 {
		return Laid{}, false
	}
	for _, how := range [2]policy{b.how, thrifty - b.how} {
		for k := range b.kept[i] {
			b.undo = b.undo[:0]
			if l, ok := b.lay(i, &b.kept[i][k], how); ok {
				return l, true
			}
			b.goBack()
			b.cutUp = begun
		}
	}
	return Laid{}, false
}

// goBack puts the stock back as it was before the run.
func (b *bench) goBack() {
	for _, c := range slices.Backward(b.undo) {
		if c.put {
			b.stock.take(c.scrap)
		} else {
			b.stock.put(c.scrap)
		}
	}
}

// lay goes along the run piece by piece: what ends the run when there is such a
// piece, else the longest that may be joined.
func (b *bench) lay(i int, kept *Kept, how policy) (Laid, bool) {
	r := &b.job.Runs[i]
	rest := b.job.Need(*r, b.cut)
	lead := (b.job.spare(*r) + b.job.squaring(b.cut)) / 2
	out := Laid{Closes: kept.Closes}
	var gone length.Length // covered so far
	for left := r.MaxJoins; ; left-- {
		if s, ok := b.last(rest, how == fewJoins || left <= 0); ok {
			out.Pieces = append(out.Pieces, b.cutOff(s, rest))
			return out, true
		}
		if left <= 0 {
			return Laid{}, false
		}
		s, long, ok := b.next(r, kept, how, left, rest, gone-lead)
		if !ok {
			if s, ok = b.last(rest, true); ok {
				out.Pieces = append(out.Pieces, b.cutOff(s, rest))
			}
			return out, ok
		}
		out.Pieces = append(out.Pieces, b.cutOff(s, long))
		gone += long
		at := gone - lead - b.takes/2
		if r.Closed {
			at = (at + out.Closes) % r.Length
		}
		out.Joins = append(out.Joins, at)
		gone -= b.takes
		rest -= long - b.takes
	}
}

// last is the shortest scrap that ends the run, or a new strip where one may be
// begun for that.
func (b *bench) last(rest length.Length, begin bool) (scrap, bool) {
	if s, ok := b.stock.atLeast(rest); ok {
		return s, true
	}
	if begin && b.canBegin() && b.new.long >= rest {
		return b.fresh(), true
	}
	return scrap{}, false
}

// next is the piece after which the run goes on, and how much of it is taken, so
// that the join falls where it may. Done is where on the run the piece begins.
func (b *bench) next(r *Run, kept *Kept, how policy, left int, rest, done length.Length) (scrap, length.Length, bool) {
	const tries = 6
	s, ok := b.stock.longest()
	for n := 0; ok && n < tries && b.work > 0; n++ {
		b.work--
		long := b.upTo(r, kept, s.long, rest, done)
		enough := b.new.most == 0 || b.within(left, rest-long+b.takes)
		if long >= b.job.Least && enough && (how == thrifty || !b.canBegin() || s.long >= b.new.long) {
			return s, long, true
		}
		s, ok = b.stock.below(s)
	}
	if !b.canBegin() || b.new.long >= rest {
		return scrap{}, 0, false
	}
	long := b.upTo(r, kept, b.new.long, rest, done)
	if long < b.job.Least {
		return scrap{}, 0, false
	}
	return b.fresh(), long, true
}

// within reports whether so many pieces of new cloth cover what is left.
func (b *bench) within(pieces int, rest length.Length) bool {
	if !b.canBegin() {
		return true
	}
	n := length.Length(pieces)
	return rest <= n*(b.new.long-b.takes)+b.takes
}

// upTo is how much of a scrap can be taken before a join: the join where it may
// fall, and enough left for the piece after it.
func (b *bench) upTo(r *Run, kept *Kept, long, rest, done length.Length) length.Length {
	long = min(long, rest-b.job.Least+b.takes)
	at := min(done+long-b.takes/2, r.Length)
	at = kept.before(at)
	if at < 0 {
		return 0
	}
	return at - done + b.takes/2
}

// cutOff takes a piece of a scrap and puts back the rest.
func (b *bench) cutOff(s scrap, long length.Length) Piece {
	b.take(s)
	b.put(scrap{s.long - long, s.strip, s.from + long})
	return Piece{Strip: s.strip, From: s.from, Long: long}
}
