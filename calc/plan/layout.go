package plan

import (
	"sort"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// layoutOf is a plan in lengths, of the given items or of all. Positions are
// rounded to the nanometre in a way that keeps panels apart, and moves the place
// of each in the repeat, its y and the start together, by less than one.
func layoutOf(job Job, m *model, sigma int64, spots []spot, only []int32) Layout {
	var l Layout
	rest := int64(0) // of the start, lost in rounding, in parts of a nanometre
	if m.grid.V > 0 {
		exact := length.Mod(sigma, m.grid.V) * m.num
		l.Start = length.Length(exact / m.den)
		rest = exact % m.den
	}
	if only == nil {
		for k := range m.items {
			only = append(only, int32(k))
		}
	}
	for _, k := range only {
		it, sp := &m.items[k], spots[k]
		la := it.lay[sp.lay]
		p := Placement{
			Panel: it.panel, Copy: it.copy, Part: it.part, Parts: it.parts,
			From: m.floorLength(it.from), X: m.floorLength(sp.x), Y: length.Length(length.FloorDiv(sp.y*m.num+rest, m.den)),
			Across: m.floorLength(la.w), Along: m.floorLength(la.h), Turn: la.turn,
		}
		l.Length = max(l.Length, p.Y+p.Along)
		l.Placements = append(l.Placements, p)
	}
	for k := range l.Placements {
		l.Placements[k].Motif = motifFor(job, l.Start, &l.Placements[k])
	}
	sort.SliceStable(l.Placements, func(a, b int) bool {
		p, q := &l.Placements[a], &l.Placements[b]
		if p.Y != q.Y {
			return p.Y < q.Y
		}
		return p.X < q.X
	})
	return l
}

// placeOf is where a point of the cut panel lies on the cloth.
func placeOf(p *Placement, at panel.Point) (x, y length.Length) {
	px, py := at.Across-p.From, at.Along
	switch p.Turn {
	case panel.Half:
		px, py = p.Across-px, p.Along-py
	case panel.Quarter:
		px, py = p.Across-py, px
	}
	return p.X + px, p.Y + py
}

// motifFor is the motif that keeps a panel's wish: of those allowed, the one
// nearest to the place wished for, when it lies on this part of the panel. For
// a panel that runs on it is the nearest motif. Nil on plain cloth, for a free
// panel, and where no such motif lies on the panel.
func motifFor(job Job, start length.Length, p *Placement) *MotifAt {
	pattern, q := job.Cloth.Pattern, job.Panels[p.Panel]
	if pattern.IsPlain() || q.Match.How == panel.Free {
		return nil
	}
	x, y := placeOf(p, q.Reference())
	within := q.Match.Tolerance + layout.Slack
	wantX, wantY := wishAxes(q.Match.How, p.Turn)
	var best *MotifAt
	var least length.Length
	for k, m := range pattern.Principal() {
		if q.Match.Motif != "" && m.Name != q.Match.Motif {
			continue
		}
		eachMotif(job, k, start, p, x, y, func(at MotifAt) {
			if wantX && dist(at.X, x) > within || wantY && dist(at.Y, y) > within {
				return
			}
			if far := dist(at.X, x) + dist(at.Y, y); best == nil || far < least {
				best, least = &at, far
			}
		})
	}
	return best
}

// wishAxes says on which cloth axes a wish binds a motif to its place.
func wishAxes(how panel.How, turn panel.Turn) (x, y bool) {
	x = how == panel.Across || how == panel.Centred || how == panel.Anchor
	y = how == panel.Along || how == panel.Centred || how == panel.Anchor
	if turn == panel.Quarter {
		return y, x
	}
	return x, y
}

func dist(a, b length.Length) length.Length {
	if a > b {
		return a - b
	}
	return b - a
}

// eachMotif calls f for the centres of motif k on a placement, in every column
// the one nearest to y. Where the pattern does not repeat in a direction, the
// motif runs right along it, and (x, y) is where it is named.
func eachMotif(job Job, k int, start length.Length, p *Placement, x, y length.Length, f func(MotifAt)) {
	pattern := job.Cloth.Pattern
	m := pattern.Principal()[k]
	h, v := int64(pattern.WidthRepeat), int64(pattern.LengthRepeat)
	first, last := int64(0), int64(0)
	if h > 0 {
		// The rows come round again after as many columns as the drop has parts.
		round, near := pattern.Drop.Reduced().Den+1, length.FloorDiv(int64(x-m.Across), h)
		first = max(length.CeilDiv(int64(p.X-m.Across-layout.Slack), h), near-round)
		last = min(length.FloorDiv(int64(p.X+p.Across-m.Across+layout.Slack), h), near+1+round)
	}
	for i := first; i <= last; i++ {
		at := MotifAt{Motif: k, X: x, Y: y}
		if h > 0 {
			at.X = m.Across + length.Length(i*h)
		}
		if v > 0 {
			row := int64(m.Along-start) + columnDrop(pattern.Drop, i, v)
			at.Y = length.Length(row + length.FloorDiv(int64(y)-row+v/2, v)*v)
		}
		in := MotifAt{Motif: k, X: min(max(at.X, p.X), p.X+p.Across), Y: min(max(at.Y, p.Y), p.Y+p.Along)}
		if dist(in.X, at.X) <= layout.Slack && dist(in.Y, at.Y) <= layout.Slack {
			f(in) // on the edge, but for the rounding of positions
		}
	}
}

// columnDrop is how much lower column i stands than column 0, modulo the
// length repeat and rounded down to the nanometre.
func columnDrop(d cloth.Drop, i, v int64) int64 {
	d = d.Reduced()
	part := length.Mod(i*d.Num, d.Den)
	return part*(v/d.Den) + part*(v%d.Den)/d.Den
}
