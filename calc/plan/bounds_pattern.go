package plan

// pattern is what a horizontal line may cross at once: options whose stretches
// lie side by side, no item more often than there are copies, the options of
// one group agreeing with each other.
type pattern []int32 // by valued.id

// valued is an option with what crossing it is worth.
type valued struct {
	option
	live   bool // not excluded
	kind   int
	group  int
	value  int64 // over what the same width is worth as fluid
	anyone bool  // may lie anywhere
}

// patterns finds the most valuable pattern, by depth-first search from left to
// right. Every pattern has a form pushed to the left, in which each item lies
// at the end of the one before or at the beginning of its stretch; only those
// are tried.
type patterns struct {
	W      int64
	all    []valued // in order of id
	opts   []valued // by value, the most valuable first
	left   []int64  // copies by kind
	choice []int32  // by group
	last   []int32  // by group and way of moving, the last in the current pattern or -1
	undo   []int32
	chosen []int32 // how many of a group are in the current pattern
	top    []int64 // by bucket, the most that may still come
	cur    []int32
	found  pattern
	best   int64
	shift  uint
	slim   int64 // the least width of an option that is worth something
	pruned int64 // no pattern left out is worth more
	nodes  int64
	cap    int64
}

// leastBuckets is how finely the width is divided, at least, for the relaxation
// that guides the search.
const leastBuckets = 96

// prepare computes for each bucket an upper bound of what can still be added
// when the next item may begin no earlier than the bucket does: the dynamic
// program that forgets how many copies there are and rounds positions down to
// the bucket. Valid because a pattern stays one when the cursor moves left.
func (p *patterns) prepare() {
	p.slim = p.W
	for j := range p.opts {
		if o := &p.opts[j]; o.value > 0 {
			p.slim = min(p.slim, o.w)
		}
	}
	for p.shift = 0; int64(2)<<p.shift <= p.slim && p.W>>(p.shift+1) >= leastBuckets; {
		p.shift++
	}
	last := p.W >> p.shift
	p.top = append(p.top[:0], make([]int64, last+1)...)
	for b := last; b >= 0; b-- {
		best := int64(0)
		if b < last {
			best = p.top[b+1]
		}
		for j := range p.opts {
			o := &p.opts[j]
			if o.value <= 0 || b == last {
				break // no item is as narrow as the last bucket, or it ends there
			}
			if x := o.at(b << p.shift); x <= o.hi {
				// No bucket is wider than an item, so this looks further right.
				best = max(best, o.value+p.top[(x+o.w)>>p.shift])
			}
		}
		p.top[b] = best
	}
}

// search answers a number that no pattern's worth passes, and leaves the best
// pattern found in found. It is the exact maximum unless the nodes ran out.
func (p *patterns) search(nodeCap int64) int64 {
	p.prepare()
	p.best, p.pruned, p.nodes, p.cap = 0, 0, 0, nodeCap
	p.found, p.cur = p.found[:0], p.cur[:0]
	p.descend(0, 0, -1)
	return max(p.best, p.pruned)
}

// descend extends the current pattern, which ends at cursor and is worth value.
func (p *patterns) descend(cursor, value int64, last int32) {
	p.nodes++
	if value > p.best {
		p.best = value
		p.found = append(p.found[:0], p.cur...)
	}
	if cursor+p.slim > p.W {
		return
	}
	rest := value + p.top[(cursor+p.slim)>>p.shift]
	for j := range p.opts {
		o := &p.opts[j]
		if o.value <= 0 || rest+o.value <= p.best {
			return // nor will those that are worth less
		}
		if cursor > o.hi || p.left[o.kind] == 0 || value+o.value+p.top[(cursor+o.w)>>p.shift] <= p.best {
			continue
		}
		x := o.at(cursor)
		if x > o.hi {
			continue
		}
		most := value + o.value + p.top[(x+o.w)>>p.shift]
		if most <= p.best {
			continue
		}
		if p.nodes > p.cap {
			p.pruned = max(p.pruned, most)
			continue
		}
		if o.anyone && int32(j) < last || p.clashes(o) {
			continue // two that may change places are tried the other way round
		}
		p.take(o)
		next := int32(-1)
		if o.anyone {
			next = int32(j)
		}
		p.descend(x+o.w, value+o.value, next)
		p.untake(o)
	}
}

// clashes reports whether an option contradicts those of its group that are in
// the current pattern.
func (p *patterns) clashes(o *valued) bool {
	if o.group < 0 || p.chosen[o.group] == 0 {
		return false
	}
	return p.choice[o.group] != o.choice || o.tied > 0 && !p.beside(o)
}

// beside reports whether an option whose phase is not known lies right of the
// last of its group that moves the same way.
func (p *patterns) beside(o *valued) bool {
	at := p.last[2*o.group+int(o.tied)-1]
	return at < 0 || o.base-p.all[at].base >= p.all[at].w
}

func (p *patterns) take(o *valued) {
	p.cur = append(p.cur, o.id)
	p.left[o.kind]--
	if o.group >= 0 {
		p.choice[o.group] = o.choice
		p.chosen[o.group]++
		if o.tied > 0 {
			at := 2*o.group + int(o.tied) - 1
			p.undo = append(p.undo, p.last[at])
			p.last[at] = o.id
		}
	}
}

func (p *patterns) untake(o *valued) {
	p.cur = p.cur[:len(p.cur)-1]
	p.left[o.kind]++
	if o.group >= 0 {
		p.chosen[o.group]--
		if o.tied > 0 {
			p.last[2*o.group+int(o.tied)-1] = p.undo[len(p.undo)-1]
			p.undo = p.undo[:len(p.undo)-1]
		}
	}
}
