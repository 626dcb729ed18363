package plan

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
)

// Loosened is a wish of a panel that the cloth cannot keep, and what is wished
// instead. The two are equal when only the tie to a twin is given up.
type Loosened struct {
	Panel           int // index in Job.Panels
	Wished, Instead panel.Match
	// Moved says that the wish is for the same motif at another place of the panel,
	// and Off how far that is from the place first wished for: the least there is,
	// as nearest measures it.
	Moved bool
	Off   length.Length
	Why   note.Note
}

// Loosen returns the panels of a job with those wishes about the pattern changed
// that no plan can keep, and what was changed, in the order of the panels. A wish
// for a motif is moved to the nearest place that exists; where none is on the panel,
// first what is wished across is given up and then all. A seam or a twin is given up
// where nothing else helps. Where a cloth may be railroaded, it is the way with fewer
// changes, then with fewer that are not moved, then with less moved. What is too wide
// for the cloth stays so.
func Loosen(job Job) ([]panel.Panel, []Loosened) {
	var best *loosener
	for _, cross := range ways(job.Cloth.Railroad) {
		l := newLoosener(job, cross)
		l.run()
		if best == nil || l.lessThan(best) {
			best = l
		}
	}
	return best.panels(job.Panels), best.list()
}

// loosener loosens the wishes of a job that lies one way.
type loosener struct {
	job   Job // one copy of each panel, or two where some are each other's twins
	cross bool
	was   []panel.Panel
	moved []bool
	why   []note.Note
	left  int // faults that no wish is to blame for
}

func newLoosener(job Job, cross bool) *loosener {
	n := len(job.Panels)
	l := &loosener{job: job, cross: cross, was: job.Panels, moved: make([]bool, n), why: make([]note.Note, n)}
	l.job.Panels = slices.Clone(job.Panels)
	copies := 1
	if slices.ContainsFunc(job.Panels, func(p panel.Panel) bool { return p.Pair != "" && p.Pair == p.ID }) {
		copies = 2
	}
	for i := range l.job.Panels {
		l.job.Panels[i].Count = copies
	}
	return l
}

// run loosens until every wish can be kept. Each panel is loosened at most five
// times: moved, parted from its twin, parted from the panel that it runs on from,
// and its wish made weaker twice.
func (l *loosener) run() {
	for range 5*len(l.was) + 1 {
		_, faults := buildModel(l.job, l.cross)
		l.left = len(faults)
		changed := false
		for _, f := range faults {
			switch f.kind {
			case noPlace: // each is of another group, or of another copy
				changed = l.place(f.panel) || changed
			case conflicts: // what is changed may be enough for the others
				changed = changed || l.agree(f.panel)
			}
		}
		if !changed {
			return
		}
	}
}

// place changes something in the group of a panel that finds no room; false when
// there is nothing left to change.
func (l *loosener) place(i int) bool {
	group := l.tiedTo(i, true)
	if l.fits(group) && !l.paired(group) {
		return true // by what was changed for another copy
	}
	for _, k := range group {
		if wish := l.job.Panels[k].Match; (wish.Fixes() || wish.How == panel.Along) && !l.fits([]int{k}) {
			l.move(k)
			return true
		}
	}
	return l.twinsOf(i) == nil && l.unsew(group) || l.agree(i)
}

// agree parts a panel from its twin, or another of its group from its own; when
// there are no twins it takes the panel's wish.
func (l *loosener) agree(i int) bool {
	for _, k := range append([]int{i}, l.tiedTo(i, true)...) {
		if l.twinsOf(k) != nil {
			l.part(k)
			return true
		}
	}
	if l.job.Panels[i].Match.How == panel.Free {
		return false
	}
	l.blame(i, why(l.job, buildFault{i, conflicts}))
	l.weaken(i)
	return true
}

// part parts a panel from its twin.
func (l *loosener) part(i int) {
	for _, k := range l.twinsOf(i) {
		l.job.Panels[k].Pair = ""
		l.blame(k, note.New(note.TwinsParted, note.Name("panel", l.job.Panels[k].ID), note.Length("off", 0, length.Nearest)))
	}
}

// unsew takes its wish from each panel of a group that runs on from one with which
// it finds no room, and reports whether there is one. What runs on from it still
// does.
func (l *loosener) unsew(group []int) bool {
	var room []int
	waits := make(map[int]bool)
	for _, i := range group {
		if l.job.Panels[i].Match.How == panel.RunsOn {
			waits[i] = true
		} else {
			room = append(room, i)
		}
	}
	found := false
	for next := 0; next < len(room); next++ {
		for _, i := range group {
			if !waits[i] || l.job.Panels[i].Match.From != l.job.Panels[room[next]].ID {
				continue
			}
			delete(waits, i)
			if try := append(slices.Clone(room), i); l.fits(try) {
				room = try
				continue
			}
			found = true
			l.blame(i, why(l.job, buildFault{i, noPlace}))
			l.weaken(i)
		}
	}
	return found
}

// move puts a wish for a motif where the cloth can keep it nearest to the place
// first wished for, and parts the panel from its twin. First a place is looked for
// at which those that run on from the panel have room.
func (l *loosener) move(i int) {
	l.blame(i, why(l.job, buildFault{i, noPlace}))
	if l.twinsOf(i) != nil {
		l.part(i)
	}
	if !l.moved[i] {
		for _, job := range []Job{l.of(l.tiedTo(i, false)), l.of([]int{i})} {
			if to, ok := nearest(job, slices.IndexFunc(job.Panels, func(p panel.Panel) bool { return p.ID == l.was[i].ID }), l.cross); ok {
				l.job.Panels[i].Match, l.moved[i] = to, true
				return
			}
		}
	}
	l.weaken(i)
}

// weaken gives up the part of a wish that fixes the panel across the roll, or else
// the wish.
func (l *loosener) weaken(i int) {
	m := &l.job.Panels[i].Match
	l.moved[i] = false
	switch centred := m.How == panel.Centred && l.job.Cloth.Pattern.LengthRepeat > 0; {
	case centred && l.cross:
		*m = panel.Match{How: panel.Across, Motif: m.Motif}
	case centred:
		*m = panel.Match{How: panel.Along, Motif: m.Motif}
	default:
		*m = panel.Match{}
	}
}

// blame keeps the first reason why a panel was loosened.
func (l *loosener) blame(i int, why note.Note) {
	if !l.why[i].Said() {
		l.why[i] = why
	}
}

// twinsOf are a panel and its twin; nil when it has none.
func (l *loosener) twinsOf(i int) []int {
	id, pair := l.job.Panels[i].ID, l.job.Panels[i].Pair
	twins := []int{i}
	for k, q := range l.job.Panels {
		if k != i && (pair != "" && q.ID == pair || q.Pair != "" && q.Pair == id) {
			twins = append(twins, k)
		}
	}
	if len(twins) == 1 && pair == "" {
		return nil
	}
	return twins
}

// tiedTo are a panel and all that are tied to it, in the order of the list: those
// that run on from it or it from them, and with twins those too.
func (l *loosener) tiedTo(i int, twins bool) []int {
	in := make([]bool, len(l.job.Panels))
	in[i] = true
	for open := []int{i}; len(open) > 0; open = open[1:] {
		p := l.job.Panels[open[0]]
		for k, q := range l.job.Panels {
			sewn := q.Match.How == panel.RunsOn && q.Match.From == p.ID || p.Match.How == panel.RunsOn && p.Match.From == q.ID
			if !in[k] && (sewn || twins && (q.Pair != "" && q.Pair == p.ID || p.Pair != "" && p.Pair == q.ID)) {
				in[k], open = true, append(open, k)
			}
		}
	}
	var out []int
	for k := range in {
		if in[k] {
			out = append(out, k)
		}
	}
	return out
}

// of is a job of some of the panels, one copy of each, without twins.
func (l *loosener) of(panels []int) Job {
	job := Job{Cloth: l.job.Cloth}
	for _, i := range panels {
		p := l.job.Panels[i]
		p.Count, p.Pair = 1, ""
		job.Panels = append(job.Panels, p)
	}
	return job
}

// paired reports whether some of the panels are twins.
func (l *loosener) paired(panels []int) bool {
	return slices.ContainsFunc(panels, func(i int) bool { return l.twinsOf(i) != nil })
}

// fits reports whether some of the panels, without twins, find places.
func (l *loosener) fits(panels []int) bool {
	_, faults := buildModel(l.of(panels), l.cross)
	return !slices.ContainsFunc(faults, func(f buildFault) bool { return f.kind == noPlace })
}

// panels are those given, with what they now wish.
func (l *loosener) panels(given []panel.Panel) []panel.Panel {
	out := slices.Clone(given)
	for i, p := range l.job.Panels {
		out[i].Match, out[i].Pair = p.Match, p.Pair
	}
	return out
}

// list is what was changed.
func (l *loosener) list() []Loosened {
	var out []Loosened
	for i, p := range l.job.Panels {
		if p.Match == l.was[i].Match && p.Pair == l.was[i].Pair {
			continue
		}
		one := Loosened{Panel: i, Wished: l.was[i].Match, Instead: p.Match, Moved: l.moved[i], Why: l.why[i]}
		if l.moved[i] {
			one.Off = farFrom(&l.was[i], p.Match)
			one.Why = one.Why.With(note.Length("off", one.Off, length.Nearest))
		}
		out = append(out, one)
	}
	return out
}

// lessThan prefers the way that can be cut, then few changes, few of them given up,
// and little moved.
func (l *loosener) lessThan(o *loosener) bool {
	if l.left > 0 || o.left > 0 {
		return l.left == 0
	}
	a, b := l.cost(), o.cost()
	return slices.Compare(a[:], b[:]) < 0
}

func (l *loosener) cost() (cost [3]int64) {
	for _, one := range l.list() {
		cost[0]++
		if !one.Moved {
			cost[1]++
		}
		cost[2] += int64(one.Off)
	}
	return cost
}
