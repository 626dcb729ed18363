package plan

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
)

// Job is what is to be cut: the panels of one cutting list from one cloth.
type Job struct {
	Cloth  cloth.Cloth
	Panels []panel.Panel
	Bolt   length.Length // longest length in one piece; 0 means no limit
}

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

// Placement is where one panel, or one part of a joined panel, lies on the
// cloth. X and Y are of the corner nearest the origin, Across and Along the
// extents as laid.
type Placement struct {
	Panel  int           // index in Job.Panels
	Copy   int           // from 1
	Part   int           // from 1; 1 for a whole panel
	Parts  int           // 1 for a whole panel
	From   length.Length // across, where in the cut panel this part begins; 0 for a whole panel
	X, Y   length.Length
	Across length.Length
	Along  length.Length
	Turn   panel.Turn
	Motif  *MotifAt // the motif that keeps the wish; nil when nothing is wished
}

// MotifAt is a motif's centre on the cloth.
type MotifAt struct {
	Motif int // index in Pattern.Principal
	X, Y  length.Length
}

// Layout is one length of cloth and what is cut from it. Start is where in the
// length repeat it begins: the pattern's rows lie at y = Along + j*V - Start.
type Layout struct {
	Length     length.Length
	Start      length.Length
	Placements []Placement
}

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
