package service

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/calc/wadding"
)

// JobRequest asks for the job sheet of one piece of furniture or of several that
// share cloth.
type JobRequest struct {
	Name   string
	Units  length.System
	Effort plan.Effort
	Hide   JobSections // what the sheet leaves out
	Pieces []JobPiece
	Cloths []JobCloth
	Piping JobPiping
	Foam   JobFoam
	Bench  JobBench
	Fire   *FireRequest // its layers are what is known of those of the pieces

	Prices     []JobPrice
	Terms      *JobTerms // nil: nothing is costed
	PresetSaid bool      // the terms name the example that hours begin from
	Days       DayTerms

	MostPanels int // of one cloth, where that is less than usual; 0: the usual
}

// JobPiping is how piping is cut, without cloth, offcuts and runs.
type JobPiping struct {
	PipingRequest
	LeanSaid bool // OneLean is as it was asked for; else as the cloth wants it
	Most     int  // joins in a run that says nothing else
}

// JobSections are parts of the sheet.
type JobSections struct {
	CuttingLists, Cloths, Piping, Buttoning, Foam, Wadding, Foundation, Fire, OrderList, Cost, DayPlan bool
}

// JobPiece is a piece of furniture, or so many alike, by its measures or by its
// panels.
type JobPiece struct {
	ID, Name  string
	Piece     furniture.Piece // of no kind when it is written by hand
	Drop      []string
	Replace   []panel.Panel
	Moved     map[string]furniture.Cover
	Covers    [3][]panel.Panel      // by furniture.Cover, when it is written by hand
	Runs      []PipingRun           // besides those of the kind
	HandAt    map[string]fault.Path // where each panel of Covers stands in the request
	Obstacles map[string][]relief.Obstacle
	Cloths    JobCovers
	Build     JobBuild
	Buttoning ButtoningRequest // without panel and cloth
	NoAim     bool             // nothing is said of what the diamonds are to show
	NoGrid    bool             // nor of the diamonds and their margins
}

// JobCovers are indices of cloths of the job; -1 where none is named.
type JobCovers struct{ Top, Outside, Lining, Piping int }

// JobBuild is what happens beneath the cover.
type JobBuild int

// The builds; the zero value is JobTraditional.
const (
	JobTraditional JobBuild = iota
	JobModern
	JobKeep // what is there stays
)

// String is the name of the build.
func (b JobBuild) String() string { return [...]string{"traditional", "modern", "keep"}[b] }

// JobCloth is a cloth of the job.
type JobCloth struct {
	ID    string
	Cloth cloth.Cloth
	Sold  cloth.Sold
	Hand  []length.Length // lengths of it in hand
}

// Name is what the cloth is called.
func (c JobCloth) Name() string {
	if c.Cloth.Name != "" {
		return c.Cloth.Name
	}
	return c.ID
}

// JobFoam is the foam on sale, and which is used where.
type JobFoam struct {
	FoamRequest
	Seat, Back, Arm int // indices of foams
	Usual           bool
}

// JobBench are the settings of what lies beneath the cover.
type JobBench struct {
	Sheet      *wadding.Material // under the cover of fixed pads; nil as the build wants it
	Wadding    []practice.Given
	Fixing     foundation.Fixing
	Foundation []practice.Given
}

// JobPart is the answer of one part, or what keeps it from being answered.
type JobPart[A any] struct {
	Answer *A
	Fault  fault.List
}

// OK reports whether the part is answered.
func (p JobPart[A]) OK() bool { return p.Answer != nil }

// JobPlan is what is cut from one cloth.
type JobPlan struct {
	Cloth    int // in JobAnswer.Cloths
	Effort   plan.Effort
	Loosened []Loosened
	Plan     JobPart[YardageAnswer]

	// What the order is made up of, before flaws, shrinkage and rounding, and the
	// order.
	ForPanels, ForPiping, ForButtons, Order length.Length
}

// JobPiped is the piping that is cut from one cloth.
type JobPiped struct {
	Cloth  int
	Piping JobPart[PipingAnswer]
}

// JobButtoned is a panel that is buttoned in diamonds, so many alike.
type JobButtoned struct {
	Piece int
	Panel string // its id on the plan
	Count int
	Cloth int
	Chart JobPart[ButtoningAnswer]
	// Copies are the chart for each of them; they differ in the offcuts that their
	// buttons are covered from.
	Copies []*ButtoningAnswer
}

// JobFounded is the foundation of all frames of one build.
type JobFounded struct {
	Build      JobBuild
	Foundation JobPart[FoundationAnswer]
	notes      []string
}

// JobChecked is the fire check of all pieces of one stack.
type JobChecked struct {
	Pieces []int
	Check  JobPart[FireAnswer]
}

// JobNote is a warning or a caution, and which parts say so.
type JobNote struct {
	Text string
	From []string
}

// JobAnswer is the job sheet.
type JobAnswer struct {
	Request    JobRequest
	Cloths     []JobCloth // those of the request, and the usual lining where it is wanted
	Lists      []*CuttingListAnswer
	Plans      []JobPlan
	Piping     []JobPiped
	Buttoning  []JobButtoned
	Foam       *JobPart[FoamAnswer]    // nil when there is nothing of foam
	Wadding    *JobPart[WaddingAnswer] // nil when nothing is wrapped
	Foundation []JobFounded
	Fire       []JobChecked
	Orders     []OrderLine
	Cost       *JobCost // nil without terms
	Days       *JobDays
	Warnings   []JobNote
	Cautions   []JobNote
	Work       plan.Work
}

// UsualFoam is the foam where nothing is said of it, without its sheets (common
// practice, no source).
func UsualFoam() JobFoam {
	f := JobFoam{Usual: true, Seat: 0, Back: 1, Arm: 1}
	f.Foams = []foam.Foam{
		{ID: "SEAT", Name: "firm seat foam, 35 kg/m³", Density: 35_000, Hardness: 160, At: 25},
		{ID: "BACK", Name: "soft back foam, 26 kg/m³", Density: 26_000, Hardness: 80, At: 25},
	}
	return f
}

// usualLining is the lining where none is named (common practice, no source).
func usualLining() JobCloth {
	return JobCloth{
		ID:    "LINING",
		Cloth: cloth.Cloth{Name: "lining", Width: 140 * length.Centimetre},
		Sold:  cloth.Sold{Step: 10 * length.Centimetre},
	}
}
