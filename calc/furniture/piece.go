package furniture

import (
	"cmp"
	"maps"
	"slices"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// Piece is a piece of furniture as it was measured.
type Piece struct {
	Kind     string
	Count    int                      // pieces alike, 1 to MaxCount
	Measures map[string]length.Length // those left out are taken as typical
	Options  map[string]string        // those left out are the first choice
	Way      practice.Way             // of cutting: how much is allowed at each edge
	Allow    Allowances               // those left out are of the way and of Shop
	Shop     practice.Set             // what the workroom goes by
	Motif    string                   // the motif for the panels that show; "" for any
	Units    length.System            // of the texts
}

// MaxCount is how many pieces alike there may be.
const MaxCount = 50

// Allowances are what is added to the finished size of this piece, by what
// happens at the edge. Nil is as the way of cutting has it, 0 is nothing: a pattern
// may hold its seams already.
type Allowances struct {
	Seam     *length.Length // sewn to another panel
	Pull     *length.Length // tacked off, past the stuffing or past the tack line
	Tuck     *length.Length // pushed through between back, arms and seat, by the cover or by a fly
	Fly      *length.Length // past the show line before a fly
	Under    *length.Length // turned under the rail or over the edge of the frame
	Outside  *length.Length // at the sides of outside panels
	BackTack *length.Length // at their top
	Facing   *length.Length // round the facings of the arms
	Border   *length.Length // at the ends of a front border
}

// over is what the piece goes by: its own allowances before those of the
// workroom.
func (a Allowances) over(shop practice.Set) practice.Set {
	var given []practice.Given
	for _, one := range a.each() {
		if one.given == nil {
			continue
		}
		for _, row := range one.rows {
			given = append(given, row.Give(*one.given))
		}
	}
	return shop.With(given...)
}

// allowance is one of them, with its rows.
type allowance struct {
	name  string // its field on the wire
	given *length.Length
	rows  []practice.LengthKey
}

func (a Allowances) each() []allowance {
	type rows = []practice.LengthKey
	return []allowance{
		{"seam", a.Seam, rows{practice.CoverSeam}},
		{"pull", a.Pull, rows{practice.CoverPull, practice.DropInTurn}},
		{"tuck", a.Tuck, rows{practice.CoverTuck, practice.CoverJoint, practice.FlyDepth}},
		{"fly", a.Fly, rows{practice.FlyPast}},
		{"under", a.Under, rows{practice.CoverUnder}},
		{"outside", a.Outside, rows{practice.OutsideSide}},
		{"backTack", a.BackTack, rows{practice.BackTack}},
		{"facing", a.Facing, rows{practice.FacingTurn, practice.PlyTurn}},
		{"border", a.Border, rows{practice.BorderEnd}},
	}
}

// Set are the figures that the piece goes by.
func (p Piece) Set() practice.Set { return p.goesBy() }

// goesBy are the figures for the piece. What a piece gives for a seam or a pull, the
// close way takes for the edges that it sews or pulls no otherwise.
func (p Piece) goesBy() practice.Set {
	a := p.Allow
	if p.Way == practice.Close {
		for _, to := range []**length.Length{&a.Outside, &a.BackTack, &a.Facing} {
			*to = cmp.Or(*to, a.Seam)
		}
		a.Border = cmp.Or(a.Border, a.Pull)
	}
	return a.over(p.Shop.As(p.Way))
}

// Faults are what is wrong with the piece; at is where it stands. Faults of
// measures and options come in the order of their names.
func (p Piece) Faults(at fault.Path) fault.List {
	var l fault.List
	k, ok := Find(p.Kind)
	if !ok {
		l.Add(at.Field("kind"), fault.NotOneOf, p.Kind, "there is no such kind of furniture", kindIDs())
	}
	if p.Count < 1 {
		l.Add(at.Field("count"), fault.TooSmall, "", "there is at least one piece", "1 to 50")
	}
	if p.Count > MaxCount {
		l.Add(at.Field("count"), fault.TooLarge, "", "there are at most 50 pieces alike", "1 to 50")
	}
	for _, a := range p.Allow.each() {
		if a.given != nil {
			l.Between(at.Field("allow").Field(a.name), "an allowance", *a.given, length.Length(a.rows[0].Least), length.Length(a.rows[0].Most))
		}
	}
	if !ok {
		return l
	}
	for _, id := range slices.Sorted(maps.Keys(p.Measures)) {
		here := at.Field("measures").Field(id)
		m, ok := k.measure(id)
		if !ok {
			l.Add(here, fault.UnknownField, "", "a "+k.Name+" has no measure "+fault.Clip(id), k.measureIDs())
			continue
		}
		l.Between(here, "the "+m.Name+" of a "+k.Name, p.Measures[id], m.Least, m.Most)
	}
	for _, id := range slices.Sorted(maps.Keys(p.Options)) {
		here := at.Field("options").Field(id)
		o, ok := k.option(id)
		switch {
		case !ok:
			l.Add(here, fault.UnknownField, "", "a "+k.Name+" has no option "+fault.Clip(id), k.optionIDs())
		case !o.has(p.Options[id]):
			l.Add(here, fault.NotOneOf, p.Options[id], "the "+o.Name+" cannot be chosen so", o.choiceIDs())
		}
	}
	return l
}
