package furniture

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// Kind is a kind of furniture.
type Kind struct {
	ID       string // "wing-chair"
	Name     string // "wing chair"
	About    string // what counts as one, in a sentence
	Measures []Measure
	Options  []Option
	build    func(*work)
}

// Measure is a length to be taken with the tape, over the stuffing.
type Measure struct {
	ID      string // "back-width"
	Name    string // "back width", as it stands in derivations
	How     string // where the tape goes
	Typical length.Length
	Least   length.Length // below this it is taken for a slip
	Most    length.Length // and above this
}

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
	all = append(all, settees()...)
	return append(all, others()...)
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
