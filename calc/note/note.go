// Package note holds what an answer says in words: warnings, cautions and
// reasons. A [Note] is a [Code] with parameters. What the code says, how grave it
// is and when it is said stand once, in the tables of this package, one file a
// subject. A template is written in a part of the ICU message format, so that a
// catalogue in another language can give its own template for each code.
package note

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// Severity says what is lost when a note is not read. The zero value is Danger.
type Severity uint8

// The severities, the gravest first.
const (
	Danger Severity = iota // to health
	Order                  // too little or too much is bought, or a result cannot be kept
	Wish                   // something that was wished for is not had
	Remark                 // good to know
)

// String is the name of the severity on the wire.
func (s Severity) String() string {
	if s > Remark {
		s = Danger
	}
	return [...]string{"danger", "order", "wish", "note"}[s]
}

// Code names what a note says. Codes are lower case words joined by hyphens; one
// that was published keeps its meaning.
type Code string

// entry is what is known of a code.
type entry struct {
	severity Severity
	when     string // it is said, for translators and readers of the tables
	template string
}

type table map[Code]entry

// registry is all tables together; TestCodes finds a code that is in two of them.
var registry = merged(tables())

func tables() []table {
	return []table{health, cloths, cutting, estimates, buttons, pipes, fillings, fires, jobs, buying, bounds}
}

func merged(all []table) table {
	out := make(table)
	for _, t := range all {
		for c, e := range t {
			out[c] = e
		}
	}
	return out
}

// Severity is how grave a note of this code is; Danger for a code that is not in
// the registry.
func (c Code) Severity() Severity { return registry[c].severity }

// When says when a note of this code is given; "" for an unknown code.
func (c Code) When() string { return registry[c].when }

// Codes are all codes, in alphabetical order.
func Codes() []Code {
	out := make([]Code, 0, len(registry))
	for c := range registry {
		out = append(out, c)
	}
	slices.Sort(out)
	return out
}

// Note is one thing that is said.
type Note struct {
	Code     Code
	Severity Severity
	Params   []Param  // in the order in which they were given
	From     []string // on a job, the parts that say so
}

// New is a note of a code with the parameters that its template names. That every
// call gives just those is held by TestCallsMatchTemplates.
func New(c Code, params ...Param) Note {
	return Note{Code: c, Severity: c.Severity(), Params: params}
}

// Said reports whether there is a note at all: the zero value says nothing.
func (n Note) Said() bool { return n.Code != "" }

// Same reports whether two notes say the same: the same code with the same
// parameters, whoever says it.
func (n Note) Same(o Note) bool {
	return n.Code == o.Code && slices.EqualFunc(n.Params, o.Params, Param.same)
}

// With is the note with another value for one of its parameters.
func (n Note) With(p Param) Note {
	n.Params = slices.Clone(n.Params)
	for i := range n.Params {
		if n.Params[i].Name == p.Name {
			n.Params[i] = p
		}
	}
	return n
}

// Most is how many notes an answer lists, where none of them is grave.
const Most = 100

// Listed are notes in the order in which they are shown everywhere: the gravest
// first, and those alike as they were given. Where there are more than most, what
// is no more than a wish or a remark is cut off at the end and counted in a last
// note. The list is never nil.
func Listed(notes []Note, most int) []Note {
	out := append([]Note{}, notes...)
	slices.SortStableFunc(out, func(a, b Note) int { return int(a.Severity) - int(b.Severity) })
	if len(out) <= most {
		return out
	}
	grave := slices.IndexFunc(out, func(n Note) bool { return n.Severity > Order })
	if grave < 0 {
		return out
	}
	keep := max(grave, most-1)
	if keep >= len(out) {
		return out
	}
	return append(out[:keep], New(LeftOut, Count("count", len(out)-keep)))
}

// Texts are the texts of notes, in their order.
func Texts(notes []Note, units length.System) []string {
	out := make([]string, len(notes))
	for i, n := range notes {
		out[i] = n.Text(units)
	}
	return out
}
