package buttoning

import (
	"cmp"
	"math"
	"slices"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// Step is the fineness of the search: every place on this lattice is covered.
const Step = length.Millimetre / 2

// Want is a place that should carry a motif.
type Want struct {
	Mark
	Motifs []int // any of these, by number in Pattern.Principal
}

// Aim is what the shift of the cloth is chosen for.
//
// The objective is the mean, over all places wanted, of
//
//	1 − min(1, d²/cap²)
//
// where d is the distance, on the cloth as it is marked, from the place to the
// nearest wanted motif. It is 1 when every place has its motif in the middle. A
// cap of 0 stands for named places, which count however far off they are: the
// objective is then minus the mean of d², in square millimetres.
type Aim struct {
	Wants     []Want
	Cap       length.Length
	Symmetric bool // only shifts at which left and right agree, where there are any
}

// CapFor is half the shorter of a diamond's width and height on the cloth: a
// motif farther than that from a place does not belong to it.
func (w Work) CapFor() length.Length { return min(w.Cloth.Across, w.Cloth.Along) / 2 }

// Found is the best shift.
type Found struct {
	Shift
	Score    float64 // the objective there
	Complete bool    // nothing on the lattice of Step is better
	Mirrored bool    // the shift was looked for among those at which left and right agree
	Work     int     // places looked at, each once for every motif that it may carry
}

// MaxWork is the usual budget of a search, counted as Found.Work is.
const MaxWork = 1_500_000

// Score is the objective at a shift, 0 without places.
func (a Aim) Score(p cloth.Pattern, s Shift) float64 {
	if len(a.Wants) == 0 {
		return 0
	}
	f := finder{lattice: latticeOf(p), aim: a, cap: square(a.Cap)}
	return f.gain(s, 0) / f.unit()
}

func square(l length.Length) float64 { return squareOf(l, 0) }

// finder looks for the best shift by halving: the gain of a box of shifts is at
// most what every place would gain if its motif came nearer by half the box's
// diagonal.
type finder struct {
	lattice
	aim    Aim
	cap    float64 // squared, in square micrometres
	found  Found
	best   float64 // the gain of found, or that to be beaten
	any    bool    // one was found
	budget int
}

// gain is the sum over the places, in square micrometres, when each may be
// nearer by slack micrometres. It is not negative with a cap, nor positive
// without.
func (f *finder) gain(s Shift, slack float64) float64 {
	sum := 0.0
	for i := range f.aim.Wants {
		w := &f.aim.Wants[i]
		f.found.Work += len(w.Motifs)
		near := math.Inf(1)
		for _, k := range w.Motifs {
			_, _, q := f.offset(k, s, w.X, w.Y)
			near = min(near, q)
		}
		if slack > 0 {
			d := max(0, math.Sqrt(near)-slack)
			near = float64(d * d)
		}
		if f.cap > 0 {
			sum += max(0, f.cap-near)
		} else {
			sum -= near
		}
	}
	return sum
}

// unit is the gain of a score of 1.
func (f *finder) unit() float64 {
	n := float64(len(f.aim.Wants))
	if f.cap > 0 {
		return n * f.cap
	}
	return n * 1e6
}

// Best is the best shift of a pattern for an aim. It covers every shift on the
// lattice of Step about the centre lines, by halving with bounds, and then moves
// off the lattice to where the motifs are nearest in the mean. Among equals the
// one found first counts, beginning with those that put a motif exactly on a
// place. The budget bounds Found.Work; when it ends first,
// Complete is false. An aim without places is answered with no shift.
func Best(p cloth.Pattern, a Aim, budget int) Found {
	found, _ := Better(p, a, budget, math.Inf(-1))
	return found
}

// Better is the best shift with a higher score than one that is had already;
// false when none was found. That none is found takes less work than the best.
func Better(p cloth.Pattern, a Aim, budget int, had float64) (Found, bool) {
	if len(a.Wants) == 0 {
		return Found{}, false
	}
	f := &finder{lattice: latticeOf(p), aim: a, cap: square(a.Cap), budget: budget}
	f.best = had * f.unit()
	f.found.Complete = true
	xs := f.across()
	f.seeds(xs)
	for _, x := range xs {
		if all := (region{x, box{0, f.stepsOf(f.v) - 1}}); f.bound(all) > f.best {
			f.halve(all.x, all.y)
		}
	}
	if f.any {
		f.polish()
	}
	f.found.Score = f.best / f.unit()
	return f.found, f.any
}

// box is a run of steps, both ends in it.
type box struct{ lo, hi int64 }

func (b box) size() int64 { return b.hi - b.lo }

// stepsOf is how many places on the lattice a repeat has; one without a repeat.
func (l lattice) stepsOf(repeat length.Length) int64 {
	if repeat == 0 {
		return 1
	}
	return int64(length.CeilDiv(repeat, Step))
}

// at is the place of a step, from minus half the repeat on; odd steps of a
// repeat keep 0 on the lattice.
func at(n int64, repeat length.Length) length.Length {
	if repeat == 0 {
		return 0
	}
	return length.Length(n)*Step - (repeat/2).Round(Step, length.Down)
}

// strip is the shifts across that are looked at together: a run of steps, or
// one place that left and right agree at.
type strip struct {
	box
	fixed bool
	x     length.Length
}

// across are the shifts to be looked at across: those at which left and right
// agree if the aim wants that and there are any, else all.
func (f *finder) across() []strip {
	if f.aim.Symmetric {
		var motifs []int
		for _, w := range f.aim.Wants {
			for _, k := range w.Motifs {
				if !hasInt(motifs, k) {
					motifs = append(motifs, k)
				}
			}
		}
		var out []strip
		for _, x := range f.mirrors(motifs) {
			out = append(out, strip{fixed: true, x: x})
		}
		if len(out) > 0 {
			f.found.Mirrored = true
			return out
		}
	}
	return []strip{{box: box{0, f.stepsOf(f.h) - 1}}}
}

func hasInt(list []int, n int) bool {
	for _, m := range list {
		if m == n {
			return true
		}
	}
	return false
}

// maxSeeds bounds the shifts that are tried before the search.
const maxSeeds = 48

// seeds tries the shifts that put a motif exactly on a place, beginning with the
// places nearest to the crossing of the centre lines; where left and right must
// agree, on its height.
func (f *finder) seeds(xs []strip) {
	n := 0
	wants := slices.Clone(f.aim.Wants)
	slices.SortStableFunc(wants, func(a, b Want) int { return cmp.Compare(squareOf(a.X, a.Y), squareOf(b.X, b.Y)) })
	for _, w := range wants {
		for _, k := range w.Motifs {
			y := f.fold(w.Y-f.dy[k], f.v)
			for _, x := range xs {
				if n++; n > maxSeeds || f.found.Work > f.budget/8 {
					return
				}
				if x.fixed {
					f.try(Shift{x.x, y})
				} else {
					f.try(Shift{f.fold(w.X-f.dx[k], f.h), y})
				}
			}
		}
	}
}

// fold brings a shift into the middle repeat.
func (f *finder) fold(x, repeat length.Length) length.Length {
	if repeat == 0 {
		return 0
	}
	return centred(x, repeat)
}

func (f *finder) try(s Shift) {
	if g := f.gain(s, 0); g > f.best {
		f.best, f.found.Shift, f.any = g, s, true
	}
}

// halve looks at all shifts of a strip and a run of steps along.
func (f *finder) halve(x strip, y box) {
	if x.size() == 0 && y.size() == 0 {
		f.try(f.middle(x, y))
		return
	}
	if f.found.Work > f.budget {
		f.found.Complete = false
		return
	}
	first, second := f.split(x, y)
	a, b := f.bound(first), f.bound(second)
	if b > a {
		first, second, a, b = second, first, b, a
	}
	if a > f.best {
		f.halve(first.x, first.y)
	}
	if b > f.best {
		f.halve(second.x, second.y)
	}
}

type region struct {
	x strip
	y box
}

// split halves the longer side.
func (f *finder) split(x strip, y box) (region, region) {
	if x.size() > y.size() {
		mid := x.lo + x.size()/2
		left, right := x, x
		left.hi, right.lo = mid, mid+1
		return region{left, y}, region{right, y}
	}
	mid := y.lo + y.size()/2
	return region{x, box{y.lo, mid}}, region{x, box{mid + 1, y.hi}}
}

// middle is the middle of a region; off the lattice where its runs are odd.
func (f *finder) middle(x strip, y box) Shift {
	s := Shift{x.x, at(y.lo, f.v) + length.Length(y.size())*Step/2}
	if !x.fixed {
		s.X = at(x.lo, f.h) + length.Length(x.size())*Step/2
	}
	return s
}

// bound is a gain that no shift of a region exceeds. A little more slack makes
// up for the rounding of the roots.
func (f *finder) bound(r region) float64 {
	half := float64(Step/length.Micrometre) / 2
	across := float64(r.x.size()) * half
	if r.x.fixed {
		across = 0
	}
	slack := geom.Hypot(across, float64(r.y.size())*half) + 0.01
	return f.gain(f.middle(r.x, r.y), slack)
}

// polish moves the shift to the mean of what the places wish, while that gains.
// Only along, where left and right must agree.
func (f *finder) polish() {
	for range 8 {
		var sx, sy, n length.Length
		for i := range f.aim.Wants {
			w := &f.aim.Wants[i]
			ox, oy, near := length.Length(0), length.Length(0), math.Inf(1)
			for _, k := range w.Motifs {
				if x, y, q := f.offset(k, f.found.Shift, w.X, w.Y); q < near {
					ox, oy, near = x, y, q
				}
			}
			if f.cap == 0 || near < f.cap {
				sx, sy, n = sx+ox, sy+oy, n+1
			}
		}
		if n == 0 {
			return
		}
		s := Shift{f.found.X, f.fold(f.found.Y-sy/n, f.v)}
		if !f.found.Mirrored {
			s.X = f.fold(f.found.X-sx/n, f.h)
		}
		before := f.best
		if f.try(s); f.best <= before {
			return
		}
	}
}
