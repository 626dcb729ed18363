package plan

// The bounds reason about kinds of item and the stretches of the width on which
// each may lie. Everything here only ever forgets conditions of the model,
// never adds one, so that what holds for every way of choosing the options
// holds for every plan.

// option is one way in which an item may lie: its left edge anywhere in
// [lo, hi], and its top on the rows of a node.
type option struct {
	lo, hi int64
	w      int64
	rows   bool // and only at res within tol, modulo every
	res    int64
	tol    int64
	every  int64
	node   int   // in relaxed.nodes
	choice int32 // lay and alternative of the group; -1 when it binds no other item
}

// at is the least place of the option not before cursor.
func (o *option) at(cursor int64) int64 {
	if o.rows {
		return upTo(max(cursor, o.lo), o.res, o.every, o.tol)
	}
	return max(cursor, o.lo)
}

// kind is a set of interchangeable items.
type kind struct {
	count int64
	group int // -1 when no other item shares its choice
	opts  []option
}

// node is what an item is along the roll: its height, and the residue modulo V
// of its top, in a frame whose place is not known.
type node struct {
	kind  int
	h     int64
	frame int // -1 when it may lie at any height
	res   int64
	tol   int64
}

// relaxed is a model reduced for the bounds.
type relaxed struct {
	W, V  int64
	kinds []kind
	nodes []node
	// halves says that the shortest plan may end between two units. Without
	// items mirrored along the roll the tops are the least solution of
	// differences with whole bounds, once it is settled what lies below what.
	halves bool
}

// Frames: the rows of the cloth, and for each group that is not tied to them
// its own, one for the items laid as they are and one for mirrored ones.
const rowsFrame = 0

func freeFrame(group int, mirrored bool) int {
	if mirrored {
		return 2*group + 2
	}
	return 2*group + 1
}

// relax lists the kinds of a model with their options. The columns of an item
// whose phase across is known are listed one by one; otherwise it may lie
// anywhere, in a row of any column.
func relax(m *model) *relaxed {
	r := &relaxed{W: m.W, V: m.grid.V}
	byClass := make([]int, len(m.items))
	for k := range m.items {
		it := &m.items[k]
		if it.class != k {
			r.kinds[byClass[it.class]].count++
			continue
		}
		byClass[k] = len(r.kinds)
		kd := kind{count: 1, group: -1}
		if len(m.groups[it.group].items) > 1 {
			kd.group = it.group
		}
		r.kinds = append(r.kinds, kd)
		for o := range it.lay {
			gl := &m.groups[it.group].lay[o]
			for a := range gl.alts {
				r.addOptions(m, it, o, a)
			}
		}
	}
	return r
}

// addOptions adds those of the last kind in one lay and alternative.
func (r *relaxed) addOptions(m *model, it *item, o, alt int) {
	l, gl := &it.lay[o], &m.groups[it.group].lay[o]
	choice := int32(-1)
	if r.kinds[len(r.kinds)-1].group >= 0 {
		choice = int32(o)<<16 | int32(alt)
	}
	ph, room := gl.alts[alt], m.W-l.w
	r.halves = r.halves || l.sy < 0 && l.consY
	if !l.consX || !gl.xFixed {
		r.addRows(m, it, l, gl, option{lo: 0, hi: room, w: l.w, choice: choice}, ph)
		return
	}
	origin := l.sx*ph.x - l.cx
	for i := ceilDiv(-l.tol-origin, m.grid.H); ; i++ {
		c := origin + i*m.grid.H
		if c-l.tol > room {
			return
		}
		op := option{lo: max(c-l.tol, 0), hi: min(c+l.tol, room), w: l.w, choice: choice}
		r.addOption(m, it, l, gl, op, ph, i)
	}
}

// addRows adds an option in every row of the columns that differ.
func (r *relaxed) addRows(m *model, it *item, l *lay, gl *groupLay, op option, ph phase) {
	columns := int64(1)
	if l.consX && l.consY && m.grid.D > 0 {
		columns = m.grid.V / gcd(m.grid.V, m.grid.D)
	}
	for i := range columns {
		r.addOption(m, it, l, gl, op, ph, i)
	}
}

// addOption adds one option of the last kind, in column i of the pattern,
// unless it is there already.
func (r *relaxed) addOption(m *model, it *item, l *lay, gl *groupLay, op option, ph phase, i int64) {
	kd := &r.kinds[len(r.kinds)-1]
	nd := node{kind: len(r.kinds) - 1, h: l.h, frame: -1}
	if l.consY {
		res := i*m.grid.D - l.cy
		if gl.yFixed {
			nd.frame, res = rowsFrame, res+l.sy*ph.y
		} else {
			nd.frame = freeFrame(it.group, l.sy < 0)
		}
		nd.res, nd.tol = mod(res, m.grid.V), l.tol
	}
	op.node = -1
	for k := len(r.nodes) - 1; k >= 0 && r.nodes[k].kind == nd.kind; k-- {
		if r.nodes[k] == nd {
			op.node = k
			break
		}
	}
	if op.node < 0 {
		op.node = len(r.nodes)
		r.nodes = append(r.nodes, nd)
	}
	for _, have := range kd.opts {
		if have == op {
			return
		}
	}
	kd.opts = append(kd.opts, op)
}

// gap is the least empty length between an item at node p and one at node q
// that lies below it in a common vertical line (derived here). The tops lie at
// rp + kV and rq + jV within their tolerances, so q's top less p's bottom is
// congruent to rq - rp - hp modulo V within the sum of the tolerances; the
// least such number that is not negative is the answer. It is 0 where either
// may lie at any height, and between frames whose distance is free.
func (r *relaxed) gap(p, q *node) int64 {
	if p.frame < 0 || p.frame != q.frame {
		return 0
	}
	slack := p.tol + q.tol
	a := mod(q.res-p.res-p.h-slack, r.V)
	if a+2*slack >= r.V {
		return 0
	}
	return a
}

// meet reports whether items of two kinds may share a vertical line, each at
// the node given, and neither by the same copy nor by contradicting choices.
func (r *relaxed) meet(p, q int) bool {
	kp, kq := &r.kinds[r.nodes[p].kind], &r.kinds[r.nodes[q].kind]
	if kp == kq && kp.count < 2 {
		return false
	}
	for _, a := range kp.opts {
		if a.node != p {
			continue
		}
		for _, b := range kq.opts {
			if b.node != q || kp.group >= 0 && kp.group == kq.group && a.choice != b.choice {
				continue
			}
			if a.lo < b.hi+b.w && b.lo < a.hi+a.w {
				return true
			}
		}
	}
	return false
}

// everywhere reports whether a kind may lie anywhere in the strip.
func (r *relaxed) everywhere(kd *kind) bool {
	for _, o := range kd.opts {
		if r.nodes[o.node].frame >= 0 || o.lo > 0 || o.hi < r.W-o.w {
			return false
		}
	}
	return true
}

// leastArea is the least area of one item of a kind, in stretched heights.
func (r *relaxed) leastArea(kd *kind, tall []int64) int64 {
	least := int64(-1)
	for _, o := range kd.opts {
		if a := o.w * tall[o.node]; least < 0 || a < least {
			least = a
		}
	}
	return max(least, 0)
}

// heights are those of the nodes as they are.
func (r *relaxed) heights() []int64 {
	out := make([]int64, len(r.nodes))
	for k := range r.nodes {
		out[k] = r.nodes[k].h
	}
	return out
}
