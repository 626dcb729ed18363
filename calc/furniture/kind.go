package furniture

import (
	"slices"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
)

// Kind is a kind of furniture.
type Kind struct {
	ID       string // "wing-chair"
	Name     string // "wing chair"
	About    string // what counts as one, in a sentence
	Measures []Measure
	Options  []Option
	sided    sided
	class    class // for the guard against a list that is too short
	build    func(*work)
}

// Measure is a length to be taken with the tape, over the stuffing.
type Measure struct {
	ID      string // "back-width"
	Name    string // "back width", as it stands in derivations
	How     string // where the tape goes
	From    Line   // where it begins
	To      Line   // and where it ends
	Typical length.Length
	Least   length.Length // below this it is taken for a slip
	Most    length.Length // and above this
	Apart   bool          // left out, it is as another measure has it, and is not taken as typical
}

// Line is where a tape begins or ends.
type Line string

// The lines.
const (
	ShowLine Line = "show-line" // where a part is last seen
	Crease   Line = "crease"    // where two parts meet and the cover goes on out of sight; the tape is not pushed in
	TackLine Line = "tack-line" // where the cover is tacked off, behind an edge or under a roll
	SeamLine Line = "seam"      // where panels are sewn together
	Rebate   Line = "rebate"    // where the wood begins
)

// Name is the line in words: "tack line".
func (l Line) Name() string { return strings.ReplaceAll(string(l), "-", " ") }

// Option is a choice of style.
type Option struct {
	ID      string
	Name    string
	Choices []Choice // the first is taken when none is made
}

// Choice is one way out of an Option.
type Choice struct{ ID, Name string }

// kinds are all of them, made once.
var kinds = allKinds()

func allKinds() []Kind {
	var all []Kind
	all = append(all, seats()...)
	all = append(all, easyChairs()...)
	all = append(all, smallChairs()...)
	all = append(all, settees()...)
	all = append(all, chesterfields()...)
	all = append(all, others()...)
	return append(all, looseOnes()...)
}

// Kinds are all kinds, in the order in which they are shown. What they hold is
// shared and must not be changed.
func Kinds() []Kind { return slices.Clone(kinds) }

// Find is the kind with that id.
func Find(id string) (Kind, bool) {
	for i := range kinds {
		if kinds[i].ID == id {
			return kinds[i], true
		}
	}
	return Kind{}, false
}

// measure is the one with that id.
func (k Kind) measure(id string) (Measure, bool) {
	for _, m := range k.Measures {
		if m.ID == id {
			return m, true
		}
	}
	return Measure{}, false
}

// option is the one with that id.
func (k Kind) option(id string) (Option, bool) {
	for _, o := range k.Options {
		if o.ID == id {
			return o, true
		}
	}
	return Option{}, false
}

// has reports whether the option has that choice.
func (o Option) has(choice string) bool {
	for _, c := range o.Choices {
		if c.ID == choice {
			return true
		}
	}
	return false
}

// kindIDs, measureIDs, optionIDs and choiceIDs say what can be given instead of
// what is not known.
func kindIDs() string { return anyOf(kinds, func(k Kind) string { return k.ID }) }

func (k Kind) measureIDs() string { return anyOf(k.Measures, func(m Measure) string { return m.ID }) }

func (k Kind) optionIDs() string { return anyOf(k.Options, func(o Option) string { return o.ID }) }

func (o Option) choiceIDs() string { return anyOf(o.Choices, func(c Choice) string { return c.ID }) }

func anyOf[T any](list []T, id func(T) string) string {
	if len(list) == 0 {
		return "leave it out"
	}
	ids := make([]string, len(list))
	for i, one := range list {
		ids[i] = id(one)
	}
	return "one of " + strings.Join(ids, ", ")
}
