// Package pleat shares out the fullness of a cloth that must turn an edge:
// how many pleats or darts, how deep, where, and their marks; or snips where the
// cloth is too short.
//
// # The excess
//
// Cloth that goes past an edge line of radius R by T and is turned over it was
// cut along the radius R + T and must lie along R. Over an angle of A degrees
// that is (R + T)·A·π/180 less R·A·π/180, which is T·A·π/180 whatever R is; round
// a concave edge the cloth is too short by as much. An arc is rounded to the
// nearest micrometre. Given lengths are taken as they are.
//
// A pleat with one fold takes in twice its depth, a box or an inverted pleat four
// times, a dart its width at the edge.
//
// # Exactness
//
// The excess is shared in whole nanometres and the shares add up to it. They are
// the same at equal distances left and right of the centre line; only where an
// odd number of nanometres falls to an even number of pleats has the left one of
// the middle pair one nanometre more.
package pleat

import (
	"slices"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// How is what the excess is worked out from.
type How int

// The ways; the zero value is Corner.
const (
	Corner How = iota
	ScrollArm
	RoundSeat
	Lengths
	Buttons
)

// Style is how fullness is laid away.
type Style string

// The styles; the zero value leaves the choice to Plan.
const (
	AnyStyle Style = ""
	NoStyle  Style = "none"
	Box      Style = "box"
	Inverted Style = "inverted"
	Pairs    Style = "pairs"
	Fan      Style = "fan"
	Darts    Style = "darts"
	Snips    Style = "snips"
)

// From is the geometry.
type From struct {
	How      How
	Radius   length.Length // of the edge line; for Corner, ScrollArm and RoundSeat
	Angle    int           // degrees
	TurnOver length.Length // past the edge line; 0 when not known
	Concave  bool
	Cloth    length.Length // for Lengths the edge, for Buttons from button to button
	Finished length.Length
	Buttons  int
}

// Job is what to lose and how.
type Job struct {
	From
	Style    Style
	Count    int           // 0 for as few as MaxDepth allows
	MaxDepth length.Length // 0 for the workroom's, or for none where it is said how many
	Away     bool          // the folds of a fan point away from the centre
	Over     length.Length // of the finished edge; 0 for all of it
	Face     length.Length // of a box pleat; 0 for half of what it takes in
	Margin   length.Length // of snips; 0 for the workroom's
	Step     length.Length // shares are whole steps where they can be; 0 for the workroom's
	Shop     practice.Set  // what the workroom goes by
}

// MaxCount is how many pleats an edge has at most.
const MaxCount = 400

// Lie is the side to which a fold points.
type Lie string

// The sides.
const (
	LiesLeft  Lie = "left"
	LiesRight Lie = "right"
	LiesBoth  Lie = "both"
	LiesNone  Lie = "none"
)

// Mark is one pleat, dart or snip. Places are from the centre line, negative to
// the left.
type Mark struct {
	Lie      Lie
	Take     length.Length   // what it takes in; what a snip opens by
	Depth    length.Length   // odd nanometres rounded down
	Finished length.Length   // its place on the finished edge
	On       []length.Length // its marks on the cloth, from left to right
}

// Result is how the excess is laid away.
type Result struct {
	Style    Style
	Closed   bool
	Short    bool          // Excess is to be gained, by snips
	Excess   length.Length // never negative
	Cloth    length.Length
	Finished length.Length
	Spacing  length.Length // on the finished edge, odd nanometres rounded down
	Spaced   bool          // some two are Spacing apart: not one alone, nor a single pair, whose folds meet

	Rest  length.Length // what equal whole steps leave over
	Step  length.Length
	Pairs int // how many pairs nearest the middle have a step more

	SnipDepth  length.Length
	DartLength length.Length
	Marks      []Mark
}

// Absorbed is the sum of all shares.
func (r Result) Absorbed() length.Length {
	var sum length.Length
	for _, m := range r.Marks {
		sum += m.Take
	}
	return sum
}

// Excess is what there is to lose, negative for what is short, and the length of
// the finished edge.
func (f From) Excess() (excess, finished length.Length) {
	switch f.How {
	case Lengths:
		return f.Cloth - f.Finished, f.Finished
	case Buttons:
		n := length.Length(f.Buttons)
		return n * (f.Cloth - f.Finished), n * f.Finished
	}
	excess, finished = geom.CircleArc(f.TurnOver, f.Angle), geom.CircleArc(f.Radius, f.Angle)
	if f.Concave {
		excess = -excess
	}
	return excess, finished
}

// Plan lays away the excess of a job that has no faults.
func Plan(j Job) Result {
	excess, finished := j.Excess()
	r := Result{Excess: excess, Finished: finished, Cloth: finished + excess, Closed: j.How == RoundSeat && j.Angle == 360, Step: j.Step}
	if r.Step == 0 {
		r.Step = j.Shop.Length(practice.PleatStep)
	}
	if excess < 0 {
		r.Excess, r.Short = -excess, true
	}
	r.Style = j.style(r)
	if r.Excess == 0 {
		return r
	}
	n := j.count(r)
	takes := r.share(n, j.mostTake(r.Style))
	spread := r.Finished
	if j.Over > 0 && !r.Short {
		spread = j.Over
	}
	if r.Spaced = n > 2 || n == 2 && r.Style != Pairs; r.Spaced {
		r.Spacing = spread / length.Length(n)
	}
	switch {
	case r.Short:
		r.SnipDepth = j.TurnOver - j.SnipMargin()
	case r.Style == Darts:
		r.DartLength = j.TurnOver
	}
	r.Marks = layOut(r.Style, takes, spread, j.Face, j.Away)
	return r
}

// style is the one asked for, or the usual one for what is given.
func (j Job) style(r Result) Style {
	switch {
	case r.Excess == 0:
		return NoStyle
	case r.Short:
		return Snips
	case j.Style != AnyStyle:
		return j.Style
	case j.How == Corner || j.How == Lengths:
		return Pairs
	}
	return Fan
}

// count is the number asked for, or the least whose folds are not too deep.
func (j Job) count(r Result) int {
	if j.How == Buttons {
		return j.Buttons
	}
	if j.Count > 0 {
		return j.Count
	}
	most := j.mostTake(r.Style)
	n := min((r.Excess+most-1)/most, MaxCount)
	if r.Style == Pairs {
		n += n % 2
	}
	return int(n)
}

// Limit is how deep a fold may lie: as deep as was asked for, or as is usual; 0
// for any depth, where it is said how many there are and nothing of their depth.
func (j Job) Limit() length.Length {
	if j.MaxDepth == 0 && j.Count == 0 && j.How != Buttons {
		return j.Shop.Length(practice.PleatDepth)
	}
	return j.MaxDepth
}

// mostTake is how much one may take in, or a snip open by; 0 for any.
func (j Job) mostTake(style Style) length.Length {
	switch style {
	case Snips:
		if j.Count > 0 {
			return 0
		}
		return j.Shop.Length(practice.SnipOpening)
	case Box, Inverted:
		return 4 * j.Limit()
	}
	return 2 * j.Limit()
}

// readable reports whether a length is whole in tenths of a millimetre or in
// sixty-fourths of an inch, and so needs no rounding to be measured.
func readable(l length.Length) bool {
	return l%(length.Millimetre/10) == 0 || l%(length.Inch/64) == 0
}

// share divides the excess by n in whole steps. Where one would take in more than
// most, and equal shares would not, they are equal to a nanometre.
func (r *Result) share(n int, most length.Length) []length.Length {
	each := length.Length(n)
	if r.Excess/each < r.Step || r.Excess%each == 0 && readable(r.Excess/each) {
		r.Step = length.Nanometre
	}
	takes := r.shareIn(n)
	if most > 0 && slices.Max(takes) > most && (r.Excess+each-1)/each <= most {
		r.Step = length.Nanometre
		takes = r.shareIn(n)
	}
	return takes
}

// shareIn gives each of n whole steps, then a step more to each of the pairs
// nearest the middle, as far as they go, and the rest to the middle.
func (r *Result) shareIn(n int) []length.Length {
	each := length.Length(n)
	r.Pairs = 0
	base := (r.Excess / each).Round(r.Step, length.Down)
	rest := r.Excess - base*each
	r.Rest = rest
	takes := make([]length.Length, n)
	for i := range takes {
		takes[i] = base
	}
	left, right := (n-1)/2, n/2
	if left == right {
		left, right = left-1, right+1
	}
	for left >= 0 && rest >= 2*r.Step {
		takes[left] += r.Step
		takes[right] += r.Step
		rest -= 2 * r.Step
		r.Pairs++
		left, right = left-1, right+1
	}
	if n%2 == 1 {
		takes[n/2] += rest
	} else {
		takes[n/2] += rest / 2
		takes[n/2-1] += rest - rest/2
	}
	return takes
}

// SnipMargin is what is kept between the end of a snip and the edge line.
func (j Job) SnipMargin() length.Length {
	if j.Margin == 0 {
		return j.Shop.Length(practice.SnipMargin)
	}
	return j.Margin
}
