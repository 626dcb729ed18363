package piping

import (
	"github.com/bridletie/bridletie/calc/length"
)

// trial is one attempt at a plan.
type trial struct {
	s      *solver
	way    Way
	shape  Shape
	fell   fell
	strips []Strip // of the rectangles
	order  []int
	how    policy
	cloth  bool // new cloth may be cut
}

// plan lays all runs.
func (t *trial) plan() *Plan {
	switch {
	case !t.cloth:
		return t.lay(source{})
	case t.shape.Cut == Along:
		return t.lengthwise()
	}
	long := t.s.job.Cloth
	if t.shape.Cut == Bias {
		f := newField(t.endless(), t.shape, t.newLean(), t.fell.ends)
		long = down(f.top)
	}
	return t.lay(source{long, MaxStrips})
}

// newLean is how strips of new cloth lean: so that their ends, which lie on the
// selvedges, slope as the others do; or as all are told to.
func (t *trial) newLean() Lean {
	switch {
	case t.fell.lean != Upright:
		return t.fell.lean
	case t.fell.ends == falling:
		return ToRight
	}
	return ToLeft
}

// endless is so long a rectangle of new cloth that its strips go from selvedge to
// selvedge.
func (t *trial) endless() Rect {
	return Rect{Across: t.s.job.Cloth, Along: 100 * t.s.job.Cloth}
}

// lengthwise looks for the shortest length of new cloth whose strips along the
// selvedge do: more length never needs more strips by the construction's own
// measure, so that halving finds a length near the least.
func (t *trial) lengthwise() *Plan {
	j := t.s.job
	columns := int(min(j.Cloth/t.shape.Width, MaxStrips))
	if columns < 1 {
		return &Plan{Way: t.way, Shape: t.shape}
	}
	var sum length.Length
	for _, r := range j.Runs {
		sum += j.Need(r, Along)
	}
	lo, hi := length.Length(0), (sum/length.Millimetre+1)*length.Millimetre
	if len(t.strips) == 0 {
		lo = sum / length.Length(columns)
	}
	best := t.lay(source{hi, columns})
	steps := 16
	if len(j.Runs) >= manyRuns {
		steps = 2
	}
	for n := 0; n < steps && hi-lo > length.Millimetre; n++ {
		mid := lo + (hi-lo)/2
		if n == 0 && len(t.strips) == 0 {
			mid = lo + lo/16 // most jobs end near the least that there can be
		}
		mid = (mid/length.Millimetre + 1) * length.Millimetre
		if mid >= hi {
			break
		}
		if p := t.lay(source{mid, columns}); p.Missing <= best.Missing {
			best, hi = p, mid
		} else {
			lo = mid
		}
	}
	return best
}

// lay lays all runs out of the strips and what new cloth there is.
func (t *trial) lay(from source) *Plan {
	j := t.s.job
	b := &bench{job: j, cut: t.shape.Cut, takes: j.JoinTakes(t.shape.Cut), kept: t.s.kept, how: t.how,
		floor: t.shape.Least, new: from, given: len(t.strips), work: mostWork}
	for i, s := range t.strips {
		b.stock.put(scrap{long: s.Long, strip: i})
	}
	p := &Plan{Way: t.way, Possible: len(t.strips) > 0 || from.long >= t.shape.Least && from.most > 0,
		Shape: t.shape, Runs: make([]Laid, len(j.Runs))}
	for _, i := range t.order {
		l, ok := b.run(i)
		if !ok {
			p.Missing++
			continue
		}
		p.Runs[i] = l
		p.Joins += len(l.Joins)
	}
	t.keepUsed(p, b.cutUp, from.long)
	return p
}

// keepUsed keeps the strips that are used, and gives the new ones their places.
func (t *trial) keepUsed(p *Plan, cutUp int, long length.Length) {
	used := make([]int, len(t.strips)+cutUp)
	for _, l := range p.Runs {
		for _, piece := range l.Pieces {
			used[piece.Strip] = 1
		}
	}
	fresh := 0
	for i := range used {
		if used[i] == 0 {
			continue
		}
		used[i] = len(p.Strips)
		if i < len(t.strips) {
			p.Strips = append(p.Strips, t.strips[i])
			continue
		}
		p.Strips = append(p.Strips, Strip{Rect: -1, Long: long})
		fresh++
	}
	for i := range p.Runs {
		for k := range p.Runs[i].Pieces {
			p.Runs[i].Pieces[k].Strip = used[p.Runs[i].Pieces[k].Strip]
		}
	}
	if fresh > 0 {
		p.Cloth = t.place(p.Strips[len(p.Strips)-fresh:], long)
	}
}

// place lays strips of new cloth side by side, and says how much of the roll they
// take. On the bias that is n*w/sin(a) along one selvedge and the slant of the
// first, width*cot(a), before it.
func (t *trial) place(strips []Strip, long length.Length) length.Length {
	j, w, n := t.s.job, t.shape.Width, length.Length(len(strips))
	var roll Rect
	switch t.shape.Cut {
	case Across:
		roll = Rect{Across: j.Cloth, Along: n * w}
	case Along:
		roll = Rect{Across: j.Cloth, Along: long}
	case Bias:
		sin, cos := sinCos(t.shape.Angle)
		slope := float64(float64(j.Cloth) / sin * cos)
		roll = Rect{Across: j.Cloth, Along: up(slope + float64(float64(n)*float64(w)/sin))}
		f := newField(roll, t.shape, t.newLean(), t.fell.ends)
		for k := range strips {
			strips[k] = f.strip(-float64(float64(k+1)*float64(w)), long, t.newLean())
			strips[k].Rect = -1
		}
		return roll.Along
	}
	for k, s := range straightStrips(roll, t.shape)[:n] {
		s.Rect = -1
		strips[k] = s
	}
	return roll.Along
}
