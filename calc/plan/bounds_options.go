package plan

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

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
	// base is where the left edge lies, when the phase across of the group is
	// not known, for the first phase of the stretch. Two options of one choice
	// that move the same way lie exactly as far apart as their bases. tied is 0
	// when the phase is known, 1 for an item that moves with the phase and 2
	// for one that moves against it.
	base   int64
	tied   int8
	id     int32 // among all of the relaxed strip
	node   int   // in relaxed.nodes
	choice int32 // lay, alternative and phase across of the group; -1 when it binds no other item
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
	cells int64   // into how many parts a phase across that is not known is divided
	gaps  []int64 // by pairs of nodes
	// options is how many there are.
	options int
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

// relax lists the kinds of a model with their options: every column that an
// item may lie on, one by one. With no cells it forgets everything about rows
// and about what is tied together.
func relax(m *model, cells int64) *relaxed {
	r := &relaxed{W: m.W, V: m.grid.V, cells: cells}
	byClass := make([]int, len(m.items))
	for k := range m.items {
		it := &m.items[k]
		if it.class != k {
			r.kinds[byClass[it.class]].count++
			continue
		}
		byClass[k] = len(r.kinds)
		kd := kind{count: 1, group: -1}
		if len(m.groups[it.group].items) > 1 && cells > 0 {
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
	r.agree(len(m.groups))
	return r
}

// addOptions adds those of the last kind in one lay and alternative. A phase
// across that is not known is one of cells, in each of which an item has a
// stretch for each column. (The phase may be taken from the first repeat:
// another moves the columns, and with them, by the drop, the rows, and every
// row that differs so is another alternative.)
func (r *relaxed) addOptions(m *model, it *item, o, alt int) {
	l, gl := &it.lay[o], &m.groups[it.group].lay[o]
	choice := int32(-1)
	if r.kinds[len(r.kinds)-1].group >= 0 {
		choice = int32(o)<<24 | int32(alt)<<12
	}
	ph, room := gl.alts[alt], m.W-l.w
	r.halves = r.halves || l.sy < 0 && l.consY
	switch {
	case !l.consX || r.cells == 0 && !gl.xFixed:
		r.addOption(m, it, l, gl, option{lo: 0, hi: room, w: l.w, choice: choice}, ph, 0)
	case gl.xFixed:
		r.addColumns(m, it, l, gl, option{w: l.w, choice: choice}, ph, ph.x, ph.x)
	default:
		cells := min(max(r.cells/int64(len(gl.alts)), 1), m.grid.H)
		for c := range cells {
			r.addColumns(m, it, l, gl, option{w: l.w, choice: choice | int32(c)}, ph,
				c*m.grid.H/cells, (c+1)*m.grid.H/cells)
		}
	}
}

// addColumns adds an option in every column, for phases across from one to
// another.
func (r *relaxed) addColumns(m *model, it *item, l *lay, gl *groupLay, op option, ph phase, from, to int64) {
	room := m.W - l.w
	lo, hi := l.sx*from-l.cx-l.tol, l.sx*to-l.cx+l.tol
	if l.sx < 0 {
		lo, hi = l.sx*to-l.cx-l.tol, l.sx*from-l.cx+l.tol
	}
	for i := length.CeilDiv(-hi, m.grid.H); lo+i*m.grid.H <= room; i++ {
		op.lo, op.hi = max(lo+i*m.grid.H, 0), min(hi+i*m.grid.H, room)
		if from < to && l.tol == 0 {
			op.base, op.tied = lo+i*m.grid.H, 1
			if l.sx < 0 {
				op.tied = 2
			}
		}
		r.addOption(m, it, l, gl, op, ph, i)
	}
}

// addOption adds one option of the last kind, in column i of the pattern,
// unless it is there already.
func (r *relaxed) addOption(m *model, it *item, l *lay, gl *groupLay, op option, ph phase, i int64) {
	kd := &r.kinds[len(r.kinds)-1]
	nd := node{kind: len(r.kinds) - 1, h: l.h, frame: -1}
	if r.cells == 0 {
		op.choice = -1
	} else if l.consY {
		res := i*m.grid.D - l.cy
		if gl.yFixed {
			nd.frame, res = rowsFrame, res+l.sy*ph.y
		} else {
			nd.frame = freeFrame(it.group, l.sy < 0)
		}
		nd.res, nd.tol = length.Mod(res, m.grid.V), l.tol
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
	for k := len(kd.opts) - 1; k >= 0 && kd.opts[k].choice == op.choice; k-- {
		if kd.opts[k] == op {
			return
		}
	}
	kd.opts = append(kd.opts, op)
}

// agree drops the choices of a group that leave one of its items no place, and
// numbers the options.
func (r *relaxed) agree(groups int) {
	type use struct {
		choice int32
		kinds  int
	}
	uses, members := make([][]use, groups), make([]int, groups)
	for k := range r.kinds {
		kd := &r.kinds[k]
		if kd.group < 0 {
			continue
		}
		members[kd.group]++
		for j, o := range kd.opts {
			if j > 0 && kd.opts[j-1].choice == o.choice {
				continue // options of one choice stand together
			}
			at := slices.IndexFunc(uses[kd.group], func(u use) bool { return u.choice == o.choice })
			if at < 0 {
				uses[kd.group] = append(uses[kd.group], use{o.choice, 1})
			} else {
				uses[kd.group][at].kinds++
			}
		}
	}
	for k := range r.kinds {
		kd := &r.kinds[k]
		if kd.group >= 0 {
			kd.opts = slices.DeleteFunc(kd.opts, func(o option) bool {
				at := slices.IndexFunc(uses[kd.group], func(u use) bool { return u.choice == o.choice })
				return uses[kd.group][at].kinds < members[kd.group]
			})
		}
		for j := range kd.opts {
			kd.opts[j].id = int32(r.options)
			r.options++
		}
	}
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
	a := length.Mod(q.res-p.res-p.h-slack, r.V)
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
