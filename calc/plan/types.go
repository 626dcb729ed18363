package plan

import (
	"github.com/bridletie/bridletie/calc/layout"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

// Job is what is to be cut. This type and those below are shared with the verifier.
type Job = layout.Job

// Layout is one length of cloth and what is cut from it.
type Layout = layout.Layout

// Placement is where one panel, or one part of a joined panel, lies.
type Placement = layout.Placement

// MotifAt is the centre of a motif.
type MotifAt = layout.MotifAt

// Effort is the budget of the search, in units of work and never in time.
type Effort int

// The efforts; the zero value is Normal.
const (
	Normal Effort = iota
	Quick
	Thorough
	Glance // a fraction of Quick, to compare many cloths
)

// Ended says why the search stopped.
type Ended int

// The ways to end.
const (
	BudgetUsed  Ended = iota // the budget of work was used
	Proved                   // no shorter plan exists
	NothingLeft              // every move that the engine knows was tried
)

// Rect is a rectangle on a layout.
type Rect struct{ X, Y, Across, Along length.Length }

// Work is how much of the budget was used.
type Work struct{ Used, Budget int64 }

// Step is one change in a search: after so much work, the best plan had this
// length and nothing below the bound was possible.
type Step struct {
	Work        int64
	Plan, Bound length.Length
}

// Result is the answer to a Job.
type Result struct {
	Cut        []Layout        // what to cut, from the best start; one layout unless the bolt is too short
	AnyStart   []length.Length // for each of Cut, the length that is enough wherever the repeat begins
	Starts     []Layout        // when Cut is one layout: plans that between them serve every start
	Bound      length.Length   // no plan can be shorter, in as many lengths as Cut has
	BoundBy    note.Code       // the argument that gives the bound
	Proven     bool
	Ended      Ended
	Rows       length.Length // the hand method, the panels laid the same way
	Railroaded bool          // the panels lie across the roll
	RowBound   bool          // the plan depends on where in the length repeat the cloth begins
	Work       Work
	Progress   []Step // how the search went, for those who tune it
}

// Needed is the total length of Cut.
func (r Result) Needed() length.Length {
	var sum length.Length
	for _, l := range r.Cut {
		sum += l.Length
	}
	return sum
}
