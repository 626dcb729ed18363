package verify

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// FlawKind says what is wrong with a plan.
type FlawKind string

// The kinds of flaw, a closed list.
const (
	FlawBadJob           FlawKind = "bad-job"           // the request contradicts itself; the plan was not checked
	FlawOutOfRange       FlawKind = "out-of-range"      // a figure of the plan is too large to be checked
	FlawUnknownPanel     FlawKind = "unknown-panel"     // no such panel, or no such copy of it
	FlawMissing          FlawKind = "missing"           // a copy, a part, or a run of them is not laid
	FlawTwice            FlawKind = "twice"             // a copy or a part is laid again
	FlawWrongParts       FlawKind = "wrong-parts"       // the parts of a joined panel do not make it up
	FlawWrongSize        FlawKind = "wrong-size"        // the extents are not those of the cut panel
	FlawWrongTurn        FlawKind = "wrong-turn"        // the panel may not lie that way
	FlawOffTheCloth      FlawKind = "off-the-cloth"     // beyond a selvedge, or before the beginning
	FlawPastTheEnd       FlawKind = "past-the-end"      // beyond the length of the layout
	FlawOverlap          FlawKind = "overlap"           // two placements share cloth
	FlawWrongLength      FlawKind = "wrong-length"      // the length is not that of what is laid on it
	FlawPastTheBolt      FlawKind = "past-the-bolt"     // longer than one piece of cloth
	FlawBadStart         FlawKind = "bad-start"         // not a place in the repeat, or not that of the cloth in hand
	FlawMotifOff         FlawKind = "motif-off"         // across, along, centred or anchor is not kept
	FlawMotifMisreported FlawKind = "motif-misreported" // the motif named is not there, or keeps no wish
	FlawJoinOff          FlawKind = "join-off"          // the pattern does not meet at a join
	FlawSeamOff          FlawKind = "seam-off"          // the pattern does not run on
	FlawPairOff          FlawKind = "pair-off"          // twins do not show the same or mirrored pattern
)

// MaxOverlaps is the number of overlaps that Check names for one placement
// with those that begin before it.
const MaxOverlaps = 8

// Flaw is one thing that is wrong with a plan.
type Flaw struct {
	Kind        FlawKind
	Layout      int           // index; -1 when it is about no one layout
	Placement   int           // index in the layout; -1 when it is about no one placement
	OtherLayout int           // index of the layout of the other party; -1 for none
	Other       int           // index of the other party in that layout; -1 for none
	Panel       int           // index in Job.Panels; -1 when it is about no known panel
	Copy        int           // from 1; 0 when it is about no one copy
	By          length.Length // how far out in all, tolerance not taken off; 0 when not a distance
	Detail      string        // for people
}

// String is the kind and the detail.
func (f Flaw) String() string { return string(f.Kind) + ": " + f.Detail }

// Check proves that the layouts together are a right plan for the job, from
// these two alone. It returns every flaw, in order of layout, placement and
// kind, those about the whole first; nil when the plan is right. A run of
// missing copies is one flaw, and a placement that overlaps many others names
// MaxOverlaps of them. A job that contradicts itself has FlawBadJob flaws and
// no others. Any input is answered; none panics.
func Check(job layout.Job, layouts ...layout.Layout) []Flaw {
	c := &checker{job: job, layouts: layouts, motifs: job.Cloth.Pattern.Principal()}
	if c.request() {
		c.grid = newGrid(job.Cloth.Pattern)
		c.collect()
		c.copies()
		c.positions()
		c.overlaps()
		c.wishes()
		c.links()
	}
	slices.SortStableFunc(c.flaws, func(a, b Flaw) int {
		return cmp.Or(cmp.Compare(a.Layout, b.Layout), cmp.Compare(a.Placement, b.Placement),
			cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.OtherLayout, b.OtherLayout),
			cmp.Compare(a.Other, b.Other), cmp.Compare(a.Panel, b.Panel), cmp.Compare(a.Copy, b.Copy))
	})
	return c.flaws
}

// Figures beyond these are refused, so that no sum or product below leaves an
// int64: twelve times the sum of a few dozen lengths of 2^50 nm still fits.
const (
	reach     length.Length = 1 << 50   // 1,125 km
	mostCount               = 1_000_000 // copies of a panel, and parts of a copy
)

// checker is the state of one Check.
type checker struct {
	job     layout.Job
	layouts []layout.Layout
	motifs  []cloth.Motif
	grid    grid
	pieces  []*piece
	of      [][]*piece // by panel; in order of copy, part, layout, placement
	byID    map[string]int
	flaws   []Flaw
}

// piece is a placement of a known panel, with where it was found.
type piece struct {
	layout.Placement
	panel *panel.Panel
	on    int // index of its layout
	index int
	start length.Length
}

// whole adds a flaw that is about no one placement.
func (c *checker) whole(kind FlawKind, on, nth, copyNo int, by length.Length, format string, args ...any) {
	c.flaws = append(c.flaws, Flaw{Kind: kind, Layout: on, Placement: -1, OtherLayout: -1, Other: -1,
		Panel: nth, Copy: copyNo, By: by, Detail: fmt.Sprintf(format, args...)})
}

// add adds a flaw of a placement, other being nil when it is alone in it.
func (c *checker) add(kind FlawKind, p, other *piece, by length.Length, format string, args ...any) {
	f := Flaw{Kind: kind, Layout: p.on, Placement: p.index, OtherLayout: -1, Other: -1,
		Panel: p.Panel, Copy: p.Copy, By: by, Detail: p.name() + " " + fmt.Sprintf(format, args...)}
	if other != nil {
		f.OtherLayout, f.Other = other.on, other.index
		f.Detail += " " + other.name()
	}
	c.flaws = append(c.flaws, f)
}

func (p *piece) name() string {
	s := fmt.Sprintf("%s copy %d", nameOf(p.panel, p.Panel), p.Copy)
	if p.Parts > 1 {
		s += fmt.Sprintf(" part %d of %d", p.Part, p.Parts)
	}
	return s
}

func nameOf(p *panel.Panel, index int) string {
	if p.ID == "" {
		return fmt.Sprintf("panel %d", index)
	}
	return p.ID
}

func inRange(least length.Length, all ...length.Length) bool {
	for _, l := range all {
		if l < least || l > reach {
			return false
		}
	}
	return true
}

// request reports whether the job makes sense, so far as checking needs it.
func (c *checker) request() bool {
	cl, p := c.job.Cloth, c.job.Cloth.Pattern
	if !inRange(1, cl.Width) || !inRange(0, p.LengthRepeat, p.WidthRepeat, cl.Start(), c.job.Bolt) {
		c.whole(FlawBadJob, -1, -1, 0, 0, "the cloth has a figure out of range")
	}
	if d := p.Drop; d != (cloth.Drop{}) && (d.Num < 0 || d.Num >= d.Den || d.Den > cloth.MaxDropDen) {
		c.whole(FlawBadJob, -1, -1, 0, 0, "the drop is not a fraction from 0 to below 1")
	}
	for _, m := range p.Motifs {
		if !inRange(-reach, m.Across, m.Along) {
			c.whole(FlawBadJob, -1, -1, 0, 0, "motif %s is out of range", m.Name)
		}
	}
	c.byID = make(map[string]int, len(c.job.Panels))
	for i, q := range slices.Backward(c.job.Panels) {
		c.byID[q.ID] = i
	}
	for i := range c.job.Panels {
		if why := c.badPanel(i); why != "" {
			c.whole(FlawBadJob, -1, i, 0, 0, "%s %s", nameOf(&c.job.Panels[i], i), why)
		}
	}
	return len(c.flaws) == 0
}

// badPanel is what is wrong with a panel of the job, or "".
func (c *checker) badPanel(i int) string {
	q := &c.job.Panels[i]
	m := q.Match
	if q.Count < 1 || q.Count > mostCount {
		return "has a count out of range"
	}
	if !inRange(1, q.Size.Across, q.Size.Along) || !inRange(-reach, m.Point.Across, m.Point.Along, m.Offset) ||
		!inRange(0, q.Allow.Top, q.Allow.Bottom, q.Allow.Left, q.Allow.Right, q.JoinSeam, m.Tolerance) {
		return "has a figure out of range"
	}
	if m.How < panel.Free || m.How > panel.RunsOn || m.Edge < panel.BottomEdge || m.Edge > panel.RightEdge {
		return "has an unknown match"
	}
	if _, ok := c.job.Cloth.Pattern.Find(m.Motif); !ok && m.Motif != "" && !c.job.Cloth.Pattern.IsPlain() {
		return "wishes for an unknown motif"
	}
	return c.badLinks(i)
}

// badLinks is what is wrong with the panel from which panel i runs on, or with
// its twin, or "".
func (c *checker) badLinks(i int) string {
	q := &c.job.Panels[i]
	if q.Match.How == panel.RunsOn {
		from, ok := c.byID[q.Match.From]
		if !ok || from == i {
			return "runs on from no other panel"
		}
		if c.job.Panels[from].Count != q.Count {
			return "has not the count of the panel from which it runs on"
		}
	}
	if q.Pair == "" {
		return ""
	}
	twin, ok := c.byID[q.Pair]
	if !ok {
		return "has an unknown twin"
	}
	if twin == i && q.Count%2 != 0 || c.job.Panels[twin].Count != q.Count {
		return "has not a twin for every copy"
	}
	return ""
}

// collect checks each layout by itself and gathers the placements that can be
// checked further.
func (c *checker) collect() {
	c.of = make([][]*piece, len(c.job.Panels))
	for li := range c.layouts {
		l := &c.layouts[li]
		start := c.figures(li, l)
		for pi, pl := range l.Placements {
			bad := Flaw{Layout: li, Placement: pi, OtherLayout: -1, Other: -1, Panel: -1}
			if pl.Panel < 0 || pl.Panel >= len(c.job.Panels) {
				bad.Kind, bad.Detail = FlawUnknownPanel, fmt.Sprintf("there is no panel %d", pl.Panel)
				c.flaws = append(c.flaws, bad)
				continue
			}
			p := &piece{Placement: pl, panel: &c.job.Panels[pl.Panel], on: li, index: pi, start: start}
			switch {
			case pl.Copy < 1 || pl.Copy > p.panel.Count:
				c.add(FlawUnknownPanel, p, nil, 0, "is not among the %d to be cut", p.panel.Count)
			case !inRange(-reach, pl.X, pl.Y, pl.Across, pl.Along, pl.From):
				c.add(FlawOutOfRange, p, nil, 0, "has a figure out of range")
			default:
				c.pieces = append(c.pieces, p)
				c.of[pl.Panel] = append(c.of[pl.Panel], p)
			}
		}
	}
	for _, list := range c.of {
		slices.SortStableFunc(list, func(a, b *piece) int {
			return cmp.Or(cmp.Compare(a.Copy, b.Copy), cmp.Compare(a.Part, b.Part))
		})
	}
}

// figures checks the figures of one layout and returns the start to reckon with.
func (c *checker) figures(li int, l *layout.Layout) length.Length {
	var used length.Length
	for _, p := range l.Placements {
		if inRange(-reach, p.Y, p.Along) {
			used = max(used, p.Y+p.Along)
		}
	}
	if !inRange(-reach, l.Length) {
		c.whole(FlawOutOfRange, li, -1, 0, 0, "the length is out of range")
	} else if l.Length != used {
		by := max(l.Length-used, used-l.Length)
		c.whole(FlawWrongLength, li, -1, 0, by, "the length is %s, what is laid takes %s", l.Length, used)
	}
	if bolt := c.job.Bolt; bolt > 0 && l.Length > bolt {
		by := min(l.Length, reach) - bolt
		c.whole(FlawPastTheBolt, li, -1, 0, by, "the length is %s, a bolt has %s", l.Length, bolt)
	}
	repeat := c.job.Cloth.Pattern.LengthRepeat
	if l.Start < 0 || l.Start > 0 && l.Start >= repeat {
		c.whole(FlawBadStart, li, -1, 0, 0, "the start %s is no place in a repeat of %s", l.Start, repeat)
	} else if known := c.job.Cloth; li == 0 && known.StartsAt != nil && l.Start != known.Start() {
		c.whole(FlawBadStart, li, -1, 0, 0, "the start is %s, the cloth in hand begins at %s", l.Start, known.Start())
	}
	if !inRange(-reach, l.Start) {
		return 0
	}
	return l.Start
}

// positions checks the extents, the turn and the place of every piece.
func (c *checker) positions() {
	railroaded := c.railroaded()
	for _, p := range c.pieces {
		c.size(p)
		if why := c.wrongTurn(p, railroaded); why != "" {
			c.add(FlawWrongTurn, p, nil, 0, "%s", why)
		}
		if out := max(-p.X, p.X+p.Across-c.job.Cloth.Width, -p.Y); out > 0 {
			c.add(FlawOffTheCloth, p, nil, out, "lies %s off the cloth", out)
		}
		end := c.layouts[p.on].Length
		if !inRange(-reach, end) {
			continue
		}
		if out := p.Y + p.Along - end; out > 0 {
			c.add(FlawPastTheEnd, p, nil, out, "lies %s past the end", out)
		}
	}
}

// size checks the extents of a piece; the widths of parts are for parts.
func (c *checker) size(p *piece) {
	want := p.panel.Cut()
	if p.Turn == panel.Quarter {
		want = panel.Size{Across: want.Along, Along: want.Across}
	}
	if p.Parts > 1 && p.Turn != panel.Quarter && p.Across > 0 {
		want.Across = p.Across
	}
	if p.Across == want.Across && p.Along == want.Along {
		return
	}
	by := max(p.Across-want.Across, want.Across-p.Across, p.Along-want.Along, want.Along-p.Along)
	c.add(FlawWrongSize, p, nil, by, "is laid %s by %s and is cut %s by %s", p.Across, p.Along, want.Across, want.Along)
}

// eitherWay reports whether a panel may always lie upright or by a quarter.
func (p *piece) eitherWay() bool {
	return p.panel.Match.How == panel.Free && p.panel.Turn == panel.Quarter
}

// railroaded reports whether the whole plan lies across the roll, as it may.
func (c *checker) railroaded() bool {
	for _, p := range c.pieces {
		if p.Turn != panel.Quarter && !p.eitherWay() {
			return c.job.Cloth.Railroad == cloth.RailroadAlways
		}
	}
	return c.job.Cloth.Railroad != cloth.RailroadNever
}

// turnKnown reports whether the turn is one of the three.
func (p *piece) turnKnown() bool { return p.Turn >= panel.Upright && p.Turn <= panel.Quarter }

// wrongTurn is why a piece may not lie as it does, or "".
func (c *checker) wrongTurn(p *piece, railroaded bool) string {
	cl := c.job.Cloth
	switch p.Turn {
	case panel.Upright, panel.Half:
		if cl.Railroad == cloth.RailroadAlways && !p.eitherWay() {
			return "must lie across the roll"
		}
		if p.Turn == panel.Half && (p.panel.Turn != panel.Half || cl.OneWay || p.Parts > 1) {
			return "may not be turned by a half"
		}
	case panel.Quarter:
		own := p.panel.Turn == panel.Quarter && (p.panel.Match.How == panel.Free || cl.Railroad != cloth.RailroadNever)
		if p.Parts > 1 || !own && !railroaded {
			return "may not be turned by a quarter"
		}
	default:
		return "has an unknown turn"
	}
	return ""
}

// overlaps sweeps each layout from its beginning, holding those placements
// that have begun and not ended.
func (c *checker) overlaps() {
	order := slices.Clone(c.pieces)
	order = slices.DeleteFunc(order, func(p *piece) bool { return p.Across <= 0 || p.Along <= 0 })
	slices.SortStableFunc(order, func(a, b *piece) int {
		return cmp.Or(cmp.Compare(a.on, b.on), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
	})
	var open []*piece
	for _, p := range order {
		open = slices.DeleteFunc(open, func(q *piece) bool { return q.on != p.on || q.Y+q.Along <= p.Y })
		found := 0
		for _, q := range open {
			dx := min(p.X+p.Across, q.X+q.Across) - max(p.X, q.X)
			if dx <= 0 {
				continue
			}
			if found++; found > MaxOverlaps {
				break
			}
			dy := min(p.Y+p.Along, q.Y+q.Along) - p.Y
			c.add(FlawOverlap, p, q, min(dx, dy), "overlaps")
		}
		open = append(open, p)
	}
}
