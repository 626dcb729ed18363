package furniture

import (
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
	Allow    Allowances               // zero fields are those of Shop
	Shop     practice.Set             // what the workroom goes by
	Motif    string                   // the motif for the panels that show; "" for any
	Units    length.System            // of the texts
}

// MaxCount is how many pieces alike there may be.
const MaxCount = 50

// Allowances are what is added to the finished size of this piece, by what
// happens at the edge.
type Allowances struct {
	Seam  length.Length // sewn to another panel
	Pull  length.Length // pulled over the stuffing and tacked off
	Tuck  length.Length // pushed through between back, arms and seat and tacked off
	Under length.Length // turned under the rail or over the edge of the frame
}

// over is what the piece goes by: its own allowances before those of the
// workroom.
func (a Allowances) over(shop practice.Set) practice.Set {
	var given []practice.Given
	for _, one := range a.each() {
		if one.given != 0 {
			given = append(given, one.row.Give(one.given))
		}
	}
	return shop.With(given...)
}

// allowance is one of them, with its row.
type allowance struct {
	name  string // its field on the wire
	given length.Length
	row   practice.LengthKey
}

func (a Allowances) each() [4]allowance {
	return [...]allowance{
		{"seam", a.Seam, practice.CoverSeam}, {"pull", a.Pull, practice.CoverPull},
		{"tuck", a.Tuck, practice.CoverTuck}, {"under", a.Under, practice.CoverUnder},
	}
}

// Faults are what is wrong with the piece; at is where it stands. Faults of
// measures and options come in the order of their names.
func (p Piece) Faults(at fault.Path) fault.List {
	var l fault.List
	k, ok := Find(p.Kind)
	if !ok {
		l.Add(at.Field("kind"), fault.NotOneOf, p.Kind, "there is no such kind of furniture", "one of those that /v1/furniture lists")
	}
	if p.Count < 1 {
		l.Add(at.Field("count"), fault.TooSmall, "", "there is at least one piece", "1 to 50")
	}
	if p.Count > MaxCount {
		l.Add(at.Field("count"), fault.TooLarge, "", "there are at most 50 pieces alike", "1 to 50")
	}
	for _, a := range p.Allow.each() {
		l.Between(at.Field("allow").Field(a.name), "an allowance", a.given, length.Length(a.row.Least), length.Length(a.row.Most))
	}
	if !ok {
		return l
	}
	for _, id := range slices.Sorted(maps.Keys(p.Measures)) {
		here := at.Field("measures").Field(id)
		m, ok := k.measure(id)
		if !ok {
			l.Add(here, fault.UnknownField, "", "a "+k.Name+" has no measure "+fault.Clip(id), "one of those that /v1/furniture lists for it")
			continue
		}
		l.Between(here, "the "+m.Name+" of a "+k.Name, p.Measures[id], m.Least, m.Most)
	}
	for _, id := range slices.Sorted(maps.Keys(p.Options)) {
		here := at.Field("options").Field(id)
		o, ok := k.option(id)
		switch {
		case !ok:
			l.Add(here, fault.UnknownField, "", "a "+k.Name+" has no option "+fault.Clip(id), "one of those that /v1/furniture lists for it")
		case !o.has(p.Options[id]):
			l.Add(here, fault.NotOneOf, p.Options[id], "the "+o.Name+" cannot be chosen so", "one of those that /v1/furniture lists for it")
		}
	}
	return l
}
