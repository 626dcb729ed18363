package plan

import (
	"fmt"
	"math/rand/v2"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// brute is an independent search for the shortest plan of a tiny model: every
// start of the repeat, every way of lying, every alternative, every phase and
// every place, straight from the conditions written at lay. Whole units are
// enough to test a bound: leaving out plans that lie between units can only
// make the shortest one found longer, never shorter than the true one, and a
// bound that is not above the true one is not above it. (Where no panels are
// mirrored it is the true one: once it is settled which item lies beside and
// which below which, and on which rows and columns, the tops are the least
// solution of differences with whole bounds, and so are the left edges.)
type brute struct {
	m     *model
	best  int64
	steps int
	limit int
	sigma int64
	at    []placedAt
	group []groupAt
}

type placedAt struct{ x, y, w, h int64 }

type groupAt struct {
	set bool
	lay int
	ph  phase
}

const bruteSteps = 300_000

// shortest is the length of the shortest plan not longer than upper, and false
// when that would take too long to find out.
func shortest(m *model, upper int64) (int64, bool) { return shortestWithin(m, upper, bruteSteps) }

// shortestWithin is shortest with a limit on the places that may be tried.
func shortestWithin(m *model, upper int64, limit int) (int64, bool) {
	b := &brute{m: m, best: upper + 1, limit: limit, group: make([]groupAt, len(m.groups))}
	last := max(m.grid.V, 1)
	for b.sigma = 0; b.sigma < last; b.sigma++ {
		if m.fixed && b.sigma != m.sigma {
			continue
		}
		b.place(0, 0)
	}
	return b.best, b.steps < b.limit
}

// place lays item k and all after it; top is how far those before reach.
func (b *brute) place(k int, top int64) {
	if top >= b.best || b.steps >= b.limit {
		return
	}
	if k == len(b.m.items) {
		b.best = top
		return
	}
	it := &b.m.items[k]
	if b.group[it.group].set {
		b.placeIn(k, top, b.group[it.group])
		return
	}
	for o := range it.lay {
		gl := &b.m.groups[it.group].lay[o]
		for _, a := range gl.alts {
			nx, ny := int64(1), int64(1)
			if !gl.xFixed {
				nx = max(b.m.grid.H, 1)
			}
			if !gl.yFixed {
				ny = max(b.m.grid.V, 1)
			}
			if !it.lay[o].consX && !it.lay[o].consY {
				nx, ny = 1, 1
			}
			for px := range nx {
				for py := range ny {
					g := groupAt{true, o, phase{a.x + px, a.y + py}}
					b.group[it.group] = g
					b.placeIn(k, top, g)
				}
			}
		}
	}
	b.group[it.group].set = false
}

func (b *brute) placeIn(k int, top int64, g groupAt) {
	l := &b.m.items[k].lay[g.lay]
	for y := int64(0); y+l.h < b.best; y++ {
		for x := int64(0); x+l.w <= b.m.W; x++ {
			b.steps++
			if b.covered(x, y, l.w, l.h) || !b.admissible(l, g.ph, x, y) {
				continue
			}
			b.at = append(b.at, placedAt{x, y, l.w, l.h})
			b.place(k+1, max(top, y+l.h))
			b.at = b.at[:len(b.at)-1]
		}
	}
}

func (b *brute) covered(x, y, w, h int64) bool {
	for _, p := range b.at {
		if x < p.x+p.w && p.x < x+w && y < p.y+p.h && p.y < y+h {
			return true
		}
	}
	return false
}

// admissible tries every column of the pattern that could be meant.
func (b *brute) admissible(l *lay, ph phase, x, y int64) bool {
	g := b.m.grid
	rowOK := func(shift int64) bool {
		return !l.consY || nearMultiple(y+b.sigma+l.cy-l.sy*ph.y-shift, g.V, l.tol)
	}
	if !l.consX {
		return rowOK(0)
	}
	near := (x + l.cx - l.sx*ph.x) / g.H
	for i := near - 3 - l.tol; i <= near+3+l.tol; i++ {
		if off := x + l.cx - l.sx*ph.x - i*g.H; -l.tol <= off && off <= l.tol && rowOK(i*g.D) {
			return true
		}
	}
	return false
}

// nearMultiple reports whether some multiple of m is within tol of d.
func nearMultiple(d, m, tol int64) bool {
	for e := -tol; e <= tol; e++ {
		if (d+e)%m == 0 {
			return true
		}
	}
	return false
}

// tinyJob draws a job of two to four panels of a few units each.
func tinyJob(seed uint64) Job { return tinyJobOf(seed, 2, 4) }

// tinyJobOf draws a job of least to most panels.
func tinyJobOf(seed uint64, least, most int) Job {
	r := rand.New(rand.NewPCG(seed, 7))
	const unit = length.Millimetre
	units := func(lo, hi int) length.Length { return length.Length(lo+r.IntN(hi-lo+1)) * unit }
	var j Job
	c := &j.Cloth
	c.Width = units(4, 8)
	c.OneWay = r.IntN(2) == 0
	if r.IntN(4) > 0 {
		c.Pattern.LengthRepeat = units(2, 6)
	}
	if r.IntN(4) > 0 {
		c.Pattern.WidthRepeat = units(2, 5)
	}
	if c.Pattern.LengthRepeat > 0 && c.Pattern.WidthRepeat > 0 && r.IntN(2) == 0 {
		c.Pattern.Drop = [...]cloth.Drop{{Num: 1, Den: 2}, {Num: 1, Den: 3}, {Num: 2, Den: 3}}[r.IntN(3)]
	}
	for k := range r.IntN(3) {
		c.Pattern.Motifs = append(c.Pattern.Motifs, cloth.Motif{Name: string(rune('a' + k)), Across: units(0, 3), Along: units(0, 3)})
	}
	if r.IntN(4) == 0 {
		c.Railroad = cloth.RailroadAllowed
	}
	if c.Pattern.LengthRepeat > 0 && r.IntN(3) == 0 {
		c.StartsAt = new(units(0, 1))
	}
	for k := range least + r.IntN(most-least+1) {
		tinyPanel(r, &j, k, units)
	}
	return j
}

// tinyPanel adds panel k with any wish that the cloth can express.
func tinyPanel(r *rand.Rand, j *Job, k int, units func(lo, hi int) length.Length) {
	pat := j.Cloth.Pattern
	p := panel.Panel{ID: fmt.Sprint(k), Count: 1, Size: panel.Size{Across: units(1, 5), Along: units(1, 5)}}
	if r.IntN(3) == 0 {
		p.Allow = panel.Sides{Top: units(0, 1), Bottom: units(0, 1), Left: units(0, 1), Right: units(0, 1)}
	}
	how := panel.How(r.IntN(6))
	switch {
	case how == panel.RunsOn && k > 0:
		p.Match = panel.Match{How: how, From: fmt.Sprint(r.IntN(k)), Edge: panel.Edge(r.IntN(4)), Offset: units(0, 2)}
	case how == panel.Across && pat.WidthRepeat > 0, how == panel.Along && pat.LengthRepeat > 0,
		(how == panel.Centred || how == panel.Anchor) && !pat.IsPlain():
		p.Match.How = how
		if how == panel.Anchor {
			p.Match.Point = panel.Point{Across: units(0, 1), Along: units(0, 1)}
		}
		if len(pat.Motifs) > 0 && r.IntN(2) == 0 {
			p.Match.Motif = "a"
		}
		if r.IntN(4) == 0 {
			p.Match.Tolerance = units(1, 1)
		}
	}
	if k > 0 && r.IntN(4) == 0 && p.Match.How != panel.RunsOn {
		p.Pair = fmt.Sprint(k - 1)
		p.PairAs = panel.PairAs(r.IntN(2))
	}
	p.Turn = [...]panel.Turn{panel.Upright, panel.Upright, panel.Half, panel.Quarter}[r.IntN(4)]
	j.Panels = append(j.Panels, p)
}
