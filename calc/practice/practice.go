// Package practice holds the constants of the bench: what a workroom does
// unless it is told otherwise. Each is a [Setting] with a name, a default, the
// range in which it is believed, and its source. A [Book] of them takes what is
// given instead, and a [Used] keeps account of which were used in an answer.
package practice

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// Common marks what the trade does and no publication was found for.
const Common = "common practice, no source"

// Kind is what a setting counts.
type Kind int

// The kinds; the zero value is Length.
const (
	Length Kind = iota // nanometres
	Number             // millionths of its unit
	Count              // whole ones
)

// One is the number 1.
const One = 1_000_000

// Setting is one constant. Default, Least and Most are counted as the kind
// says.
type Setting struct {
	Name, What           string
	Kind                 Kind
	Default, Least, Most int64
	Unit                 string // of a Number or a Count, "" for a bare factor
	Source               string
}

// Of is the setting of a length.
func Of(name, what string, standard, least, most length.Length, source string) Setting {
	return Setting{Name: name, What: what, Default: int64(standard), Least: int64(least), Most: int64(most), Source: source}
}

// Factor is the setting of a number, given in thousandths of its unit.
func Factor(name, what, unit string, standard, least, most int64, source string) Setting {
	return Setting{Name: name, What: what, Kind: Number, Unit: unit, Default: standard * 1000, Least: least * 1000, Most: most * 1000, Source: source}
}

// Ones is the setting of a whole number.
func Ones(name, what, unit string, standard, least, most int64, source string) Setting {
	return Setting{Name: name, What: what, Kind: Count, Unit: unit, Default: standard, Least: least, Most: most, Source: source}
}

// Given is a value to use instead of the default.
type Given struct {
	Name  string
	Kind  Kind
	Value int64
}

// Book is the settings of one operation, in the order in which they are listed.
type Book struct {
	list []Setting
	at   map[string]int
}

// NewBook is a book of these settings. Of two with one name the later counts.
func NewBook(parts ...[]Setting) *Book {
	b := &Book{at: make(map[string]int)}
	for _, part := range parts {
		for _, s := range part {
			b.at[s.Name] = len(b.list)
			b.list = append(b.list, s)
		}
	}
	return b
}

// Settings are all of them, with their defaults.
func (b *Book) Settings() []Setting { return b.list }

// Faults are what is wrong with given values: names that are not in the book or
// given twice, another kind than the setting's, or out of its range. at is where
// the list stands.
func (b *Book) Faults(given []Given, at fault.Path) fault.List {
	var l fault.List
	seen := make(map[string]bool, len(given))
	for i, g := range given {
		here := at.Index(i)
		k, ok := b.at[g.Name]
		switch {
		case !ok:
			l.Add(here.Field("name"), fault.NotOneOf, g.Name, "there is no setting of this name", "a name from the list of settings in /openapi.yaml")
			continue
		case seen[g.Name]:
			l.Add(here.Field("name"), fault.Duplicate, g.Name, "this setting is given already", "each setting once")
			continue
		}
		seen[g.Name] = true
		s := b.list[k]
		field := fieldOf(s.Kind)
		if g.Kind != s.Kind {
			l.Add(here.Field(fieldOf(g.Kind)), fault.NotAllowed, "", s.Name+" is a "+field, "give "+field+" instead")
			continue
		}
		if g.Value < s.Least {
			l.Add(here.Field(field), fault.TooSmall, s.text(g.Value), s.What+" is at least "+s.text(s.Least), s.limits())
		}
		if g.Value > s.Most {
			l.Add(here.Field(field), fault.TooLarge, s.text(g.Value), s.What+" is at most "+s.text(s.Most), s.limits())
		}
	}
	return l
}

func (s Setting) limits() string { return "from " + s.text(s.Least) + " to " + s.text(s.Most) }

// fieldOf is the name of the wire field that holds a value of that kind.
func fieldOf(k Kind) string {
	switch k {
	case Number:
		return "number"
	case Count:
		return "count"
	}
	return "length"
}

// text is a value, exactly.
func (s Setting) text(v int64) string {
	switch s.Kind {
	case Number:
		return withUnit(Decimal(v), s.Unit)
	case Count:
		return withUnit(strconv.FormatInt(v, 10), s.Unit)
	}
	return length.Length(v).String()
}

// Text is a value of the setting for people.
func (s Setting) Text(v int64, sys length.System) string {
	if s.Kind == Length {
		return length.Length(v).Text(sys, length.Nearest)
	}
	return s.text(v)
}

func withUnit(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}

// Decimal prints millionths, without zeros at the end.
func Decimal(millionths int64) string {
	sign := ""
	if millionths < 0 {
		sign, millionths = "-", -millionths
	}
	whole, rest := strconv.FormatInt(millionths/One, 10), millionths%One
	if rest == 0 {
		return sign + whole
	}
	digits := strconv.FormatInt(rest+One, 10)[1:]
	return sign + whole + "." + strings.TrimRight(digits, "0")
}

// Used are the values that an answer goes by.
type Used struct {
	book  *Book
	value []int64
	given []bool
	asked []bool
}

// Use takes the given values, of which Faults has none, and the defaults for
// all others.
func (b *Book) Use(given []Given) *Used {
	u := &Used{book: b, value: make([]int64, len(b.list)), given: make([]bool, len(b.list)), asked: make([]bool, len(b.list))}
	for i, s := range b.list {
		u.value[i] = s.Default
	}
	for _, g := range given {
		if k, ok := b.at[g.Name]; ok {
			u.value[k], u.given[k] = g.Value, true
		}
	}
	return u
}

// Has reports whether the book has the setting.
func (u *Used) Has(name string) bool {
	_, ok := u.book.at[name]
	return ok
}

// ask is the value of a setting, which then counts as used; 0 where the book
// has none of the name.
func (u *Used) ask(name string) int64 {
	k, ok := u.book.at[name]
	if !ok {
		return 0
	}
	u.asked[k] = true
	return u.value[k]
}

// Length is the value of a length.
func (u *Used) Length(name string) length.Length { return length.Length(u.ask(name)) }

// Number is the value of a number in millionths.
func (u *Used) Number(name string) int64 { return u.ask(name) }

// Count is the value of a whole number.
func (u *Used) Count(name string) int64 { return u.ask(name) }

// Value is one setting that was used.
type Value struct {
	Setting
	Value int64
	Given bool // by the request
}

// List is what was used, in the order of the book.
func (u *Used) List() []Value {
	out := []Value{}
	for k, s := range u.book.list {
		if u.asked[k] {
			out = append(out, Value{s, u.value[k], u.given[k]})
		}
	}
	return out
}

// Times is a length by a number in millionths, both not negative, rounded up to
// the nanometre. A result beyond the range of a length is the largest one.
func Times(l length.Length, millionths int64) length.Length {
	out, ok := length.Scale(max(l, 0), max(millionths, 0), One, length.Up)
	if !ok {
		return 1<<63 - 1
	}
	return out
}

// Packs is how many packs of size hold need, after need has grown by a share in
// millionths; rounded up once. Need and size are counted alike.
func Packs(need, size, spare int64) int64 {
	if need <= 0 || size <= 0 {
		return 0
	}
	grown := int64(Times(length.Length(need), One+max(spare, 0)))
	return (grown-1)/size + 1
}
