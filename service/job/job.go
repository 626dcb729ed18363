package job

import (
	"context"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/buying"
)

// Request asks for the job sheet of one piece of furniture or of several that
// share cloth.
type Request struct {
	Name   string
	Units  length.System
	Effort plan.Effort
	Hide   Sections // what the sheet leaves out
	Pieces []Piece
	Cloths []Cloth
	Piping Piping
	Foam   *Foam // nil: the usual, cut to any thickness
	Bench  Bench
	Fire   *service.FireRequest // its layers are what is known of those of the pieces

	Prices []buying.Price
	Terms  *buying.Terms // nil: nothing is costed
	Days   buying.DayTerms

	Shop practice.Set // what the workroom goes by, in every part that has no figure of its own

	MostPanels int // of one cloth, where that is less than usual; 0: the usual
}

// Piping is how piping is cut, without cloth, offcuts and runs.
type Piping struct {
	service.PipingRequest
	Most int // joins in a run that says nothing else
}

// Sections are parts of the sheet.
type Sections struct {
	CuttingLists, Cloths, Piping, Buttoning, Foam, Wadding, Foundation, Fire, OrderList, Cost, DayPlan bool
}

// Piece is a piece of furniture, or so many alike, by its measures or by its
// panels.
type Piece struct {
	ID, Name  string
	Piece     furniture.Piece // of no kind when it is written by hand
	Drop      []string
	Replace   []panel.Panel
	Moved     map[string]furniture.Cover
	Covers    [3][]panel.Panel      // by furniture.Cover, when it is written by hand
	Runs      []service.PipingRun   // besides those of the kind
	HandAt    map[string]fault.Path // where each panel of Covers stands in the request
	Obstacles map[string][]relief.Obstacle
	Cloths    Covers
	Build     Build
	Buttoning service.ButtoningRequest // without panel, cloth, diamonds and margins; without an aim it is as the cloth wants it
	Diamonds  *Diamonds                // nil: the usual, as large as the panel allows
}

// Diamonds are the diamonds of a buttoned panel and the margins around them.
type Diamonds struct {
	Grid    buttoning.Wish
	Margins buttoning.Edges
}

// Covers are indices of cloths of the job; -1 where none is named.
type Covers struct{ Top, Outside, Lining, Piping int }

// Build is what happens beneath the cover.
type Build int

// The builds; the zero value is Traditional.
const (
	Traditional Build = iota
	Modern
	Keep // what is there stays
)

// String is the name of the build.
func (b Build) String() string { return [...]string{"traditional", "modern", "keep"}[b] }

// Cloth is a cloth of the job.
type Cloth struct {
	ID    string
	Cloth cloth.Cloth
	Sold  cloth.Sold
	Hand  []length.Length // lengths of it in hand
}

// Name is what the cloth is called.
func (c Cloth) Name() string {
	if c.Cloth.Name != "" {
		return c.Cloth.Name
	}
	return c.ID
}

// Foam is the foam on sale, and which is used where.
type Foam struct {
	service.FoamRequest
	Seat, Back, Arm int // indices of foams
}

// Bench are the settings of what lies beneath the cover.
type Bench struct {
	Sheet      *wadding.Material // under the cover of fixed pads; nil as the build wants it
	Wadding    []practice.Given
	Fixing     foundation.Fixing
	Foundation []practice.Given
}

// Part is the answer of one part, or what keeps it from being answered.
type Part[A any] struct {
	Answer *A
	Fault  fault.List
}

// OK reports whether the part is answered.
func (p Part[A]) OK() bool { return p.Answer != nil }

// answer fills the part in where nothing is wrong.
func (p *Part[A]) answer(ctx context.Context, ready service.Ready[A], wrong fault.List) (err error) {
	if p.Fault = wrong; wrong.Len() == 0 {
		p.Answer, err = ready(ctx)
	}
	return err
}

// Plan is what is cut from one cloth.
type Plan struct {
	Cloth    int // in Answer.Cloths
	Effort   plan.Effort
	Loosened []service.Loosened
	Plan     Part[service.YardageAnswer]

	// What the order is made up of, before flaws, shrinkage and rounding, and the
	// order.
	ForPanels, ForPiping, ForButtons, Order length.Length
}

// Piped is the piping that is cut from one cloth.
type Piped struct {
	Cloth  int
	Piping Part[service.PipingAnswer]
}

// Buttoned is a panel that is buttoned in diamonds, so many alike.
type Buttoned struct {
	Piece int
	Panel string // its id on the plan
	Count int
	Cloth int
	Chart Part[service.ButtoningAnswer]
	// Copies are the chart for each of them; they differ in the offcuts that their
	// buttons are covered from.
	Copies []*service.ButtoningAnswer
}

// Founded is the foundation of all frames of one build.
type Founded struct {
	Build      Build
	Foundation Part[service.FoundationAnswer]
	notes      []note.Note
}

// Checked is the fire check of all pieces of one stack.
type Checked struct {
	Pieces []int
	Check  Part[service.FireAnswer]
}

// Answer is the job sheet.
type Answer struct {
	Request    Request
	Cloths     []Cloth // those of the request, and the usual lining where it is wanted
	Lists      []*service.CuttingListAnswer
	Plans      []Plan
	Piping     []Piped
	Buttoning  []Buttoned
	Foam       *Part[service.FoamAnswer]    // nil when there is nothing of foam
	Wadding    *Part[service.WaddingAnswer] // nil when nothing is wrapped
	Foundation []Founded
	Fire       []Checked
	Orders     []buying.Line
	Cost       *buying.Cost // nil without terms
	Days       *buying.DayPlan
	Warnings   []note.Note // each with the parts that say so
	Cautions   []note.Note
	Work       plan.Work
}

// usualFoam is the foam where nothing is said of it, without its sheets.
func usualFoam(shop practice.Set) Foam {
	usual := func(id, name string, density practice.NumberKey, hardness practice.CountKey) foam.Foam {
		return foam.Foam{
			ID: id, Name: name + ", " + density.Text(shop.Number(density), length.Metric),
			Density: shop.Density(density), Hardness: shop.Count(hardness), At: 25,
		}
	}
	f := Foam{Back: 1, Arm: 1}
	f.Shop = shop
	f.Foams = []foam.Foam{
		usual("SEAT", "firm seat foam", practice.UsualSeatDensity, practice.UsualSeatHardness),
		usual("BACK", "soft back foam", practice.UsualBackDensity, practice.UsualBackHardness),
	}
	return f
}

// usualLining is the lining where none is named.
func usualLining(shop practice.Set) Cloth {
	return Cloth{
		ID:    "LINING",
		Cloth: cloth.Cloth{Name: "lining", Width: shop.Length(practice.UsualLining)},
		Sold:  cloth.Sold{Step: shop.Length(practice.ClothSoldBy)},
	}
}
