package plan

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// model is a Job reduced to integers: rectangles with admissible positions.
// One model unit is num/den nanometres, chosen so that every half length and
// every drop is a whole number of units.
type model struct {
	W        int64 // width of the strip
	grid     grid
	num, den int64
	items    []item
	groups   []group
	tied     []int // the groups of more than one item
	fixed    bool  // the cloth begins at sigma
	sigma    int64 // where in the repeat, when fixed
	anyAbs   bool  // some group is tied to rows of the cloth
	minW     int64 // least extents of any item, to drop useless holes
	minH     int64
	cross    bool   // every panel lies across the roll
	halved   bool   // the units are half as long as the lengths of the job need
	whole    *model // when halved, the model in whole units
	touching bool   // the exact search tries only places of contact, however few units there are

	salt int64       // stirred into the seed of the search
	stop func() bool // polled by the bounds; nil never ends them early
}

// item is one rectangle to cut: a panel copy, or one part of a joined panel.
type item struct {
	panel, copy int // index in Job.Panels; copy from 1
	part, parts int
	from        int64 // of the part, in the cut panel
	group       int
	class       int // items of one class are interchangeable
	lay         []lay
	// cols are the columns on which it may lie, by way of lying and alternative,
	// where the phase is known from the start; nil where it is not.
	cols [][][]column
}

// column is a place across, and the pattern coordinate at which an item may
// begin there, modulo V.
type column struct{ x, row int64 }

// lay is an item in one of the ways that it may lie. With consX, x + cx must
// be congruent to sx*phase.x modulo H; with consY, y + cy to sy*phase.y modulo
// V, in pattern coordinates (y + sigma); with both and a drop, shifted by D for
// each column.
type lay struct {
	turn         panel.Turn
	w, h         int64
	consX, consY bool
	sx, sy       int64
	cx, cy       int64
	tol          int64
}

// group is a set of items whose pattern is tied together. Its phase is where,
// modulo the grid, the visual centre of its first panel lies.
type group struct {
	items []int
	lay   []groupLay // by way of lying, as in item.lay
}

// groupLay is what is known of a group's phase in one way of lying.
type groupLay struct {
	xFixed, yFixed bool
	alts           []phase // never empty; unknown parts are 0
	reach          []arc   // where a free phase.x may lie, modulo H; nil for anywhere
	mirrorsRows    bool    // twins are mirrored along the roll
}

// phase is a place modulo the grid, in pattern coordinates.
type phase struct{ x, y int64 }

// arc is the closed interval [lo, hi] of the circle of residues modulo H.
type arc struct{ lo, hi int64 }

// buildFault is a wish that cannot be expressed or kept.
type buildFault struct {
	panel int
	kind  buildKind
}

type buildKind int

const (
	noPlace   buildKind = iota // no admissible place across the width
	conflicts                  // wishes tied together contradict each other
	tooWide                    // wider than the cloth however it may lie
	tooLong                    // longer than a bolt in every way in which those tied to it fit one
)

// builder carries the state of reducing a Job.
type builder struct {
	job    Job
	m      *model
	faults []buildFault
}

// buildModel reduces a job; cross lays every panel across the roll.
func buildModel(job Job, cross bool) (*model, []buildFault) {
	return buildModelIn(job, &model{cross: cross})
}

// buildModelIn reduces a job into an empty model, which says how.
func buildModelIn(job Job, m *model) (*model, []buildFault) {
	b := &builder{job: job, m: m}
	m.salt = job.Salt
	b.scale()
	b.addGroups()
	b.holdToBolt()
	if len(b.faults) > 0 {
		return nil, b.faults
	}
	b.finish()
	return b.m, nil
}

// scale chooses the model unit: the greatest common divisor of all lengths,
// counted in 1/(2*den) nanometres so that halves and drops are whole.
func (b *builder) scale() {
	c, m := b.job.Cloth, b.m
	drop := c.Pattern.Drop.Reduced()
	fine := 2 * drop.Den
	g := int64(0)
	add := func(ls ...length.Length) {
		for _, l := range ls {
			g = gcd(g, fine*abs(int64(l)))
		}
	}
	p := c.Pattern
	add(c.Width, p.LengthRepeat, p.WidthRepeat, c.Start())
	g = gcd(g, 2*int64(p.LengthRepeat)*drop.Num)
	for _, k := range p.Principal() {
		add(k.Across, k.Along)
	}
	for _, q := range b.job.Panels {
		a := q.Allow
		add(a.Top, a.Bottom, a.Left, a.Right, q.JoinSeam, q.Match.Offset, q.Match.Tolerance)
		add(q.Match.Point.Across, q.Match.Point.Along)
		g = gcd(g, drop.Den*abs(int64(q.Size.Across)))
		g = gcd(g, drop.Den*abs(int64(q.Size.Along)))
		if q.Join != panel.NoJoin && q.Cut().Across > c.Width {
			add(length.Millimetre, q.Cut().Across/2)
		}
	}
	m.num, m.den = max(g, 1), fine
	if m.halved {
		m.den *= 2
	}
	m.W = b.units(c.Width)
	if p.LengthRepeat > 0 {
		m.grid.V = b.units(p.LengthRepeat)
	}
	if p.WidthRepeat > 0 {
		m.grid.H = b.units(p.WidthRepeat)
	}
	if m.grid.V > 0 && m.grid.H > 0 {
		m.grid.D = m.grid.V / drop.Den * drop.Num
	}
	if c.StartsAt != nil && m.grid.V > 0 {
		m.fixed, m.sigma = true, length.Mod(b.units(c.Start()), m.grid.V)
	}
}

// units is a length in model units; exact for every length that scale saw.
func (b *builder) units(l length.Length) int64 { return int64(l) * b.m.den / b.m.num }

// halfUnits is half a length in model units.
func (b *builder) halfUnits(l length.Length) int64 { return int64(l) * (b.m.den / 2) / b.m.num }

// floorLength is a number of model units in nanometres, rounded down.
func (m *model) floorLength(u int64) length.Length {
	if m.num%m.den == 0 {
		return length.Length(u * (m.num / m.den))
	}
	return length.Length(length.FloorDiv(u*m.num, m.den))
}

// floorUnits is a length in model units, rounded down.
func (m *model) floorUnits(l length.Length) int64 { return length.FloorDiv(int64(l)*m.den, m.num) }

// ceilLength is a number of model units in nanometres, rounded up.
func (m *model) ceilLength(u int64) length.Length { return -m.floorLength(-u) }

// holdToBolt wants a way of lying for every group in which a bolt takes it.
func (b *builder) holdToBolt() {
	if b.job.Bolt == 0 || len(b.faults) > 0 {
		return
	}
	m := b.m
	limit := m.floorUnits(b.job.Bolt)
	for g := range m.groups {
		if m.wayWithin(&m.groups[g], limit) >= 0 {
			continue
		}
		items := m.groups[g].items
		longest := slices.MaxFunc(items, func(j, k int) int { return cmp.Compare(m.leastHeight(j), m.leastHeight(k)) })
		b.faults = append(b.faults, buildFault{m.items[longest].panel, tooLong})
	}
}

func abs(a int64) int64 {
	if a < 0 {
		return -a
	}
	return a
}

// finish numbers the classes of interchangeable items and sums up.
func (b *builder) finish() {
	m := b.m
	for g := range m.groups {
		for _, gl := range m.groups[g].lay {
			m.anyAbs = m.anyAbs || gl.yFixed || gl.mirrorsRows
		}
	}
	m.classify()
}

// classify numbers the classes of interchangeable items and takes the least
// extents.
func (m *model) classify() {
	m.minW, m.minH = m.W, 1<<62
	m.tied = nil
	for g := range m.groups {
		if len(m.groups[g].items) > 1 {
			m.tied = append(m.tied, g)
		}
	}
	for k := range m.items {
		it := &m.items[k]
		m.listColumns(it)
		it.class = k
		for j := range k {
			if m.sameClass(it, &m.items[j]) {
				it.class = m.items[j].class
				break
			}
		}
		for _, l := range it.lay {
			m.minW, m.minH = min(m.minW, l.w), min(m.minH, l.h)
		}
	}
}

// manyColumns reports that the width repeat is so small against the width that
// columns are not gone through one by one: they are tried where an item touches
// something, and nothing is proved from them.
func (m *model) manyColumns() bool { return m.grid.H > 0 && m.W/m.grid.H > 128 }

// listColumns lists the columns of an item where they are known beforehand.
func (m *model) listColumns(it *item) {
	it.cols = make([][][]column, len(it.lay))
	if m.manyColumns() {
		return
	}
	for o := range it.lay {
		l, gl := &it.lay[o], &m.groups[it.group].lay[o]
		if !l.consX || !gl.xFixed || l.tol > 0 ||
			int64(len(gl.alts))*(m.W/m.grid.H+1) > 512 {
			continue
		}
		it.cols[o] = make([][]column, len(gl.alts))
		for a, ph := range gl.alts {
			l.columns(m.grid.H, ph, 0, m.W-l.w, func(x, _ int64) {
				c := column{x: x}
				if l.consY {
					c.row = length.Mod(m.patternY(l, ph, x, true), m.grid.V) // for a phase along of 0 while that is open
				}
				it.cols[o][a] = append(it.cols[o][a], c)
			})
		}
	}
}

// sameClass reports whether two items may be exchanged in any plan: alike in
// every way of lying, and not tied to others.
func (m *model) sameClass(a, b *item) bool {
	ga, gb := &m.groups[a.group], &m.groups[b.group]
	if len(ga.items) != 1 || len(gb.items) != 1 || !slices.Equal(a.lay, b.lay) {
		return false
	}
	return slices.EqualFunc(ga.lay, gb.lay, func(x, y groupLay) bool {
		return x.xFixed == y.xFixed && x.yFixed == y.yFixed &&
			slices.Equal(x.alts, y.alts) && slices.Equal(x.reach, y.reach)
	})
}
