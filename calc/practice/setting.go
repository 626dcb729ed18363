package practice

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
)

// Common marks what the trade does and no publication was found for, and Memory
// what was published somewhere and is remembered only.
const (
	Common = "common practice, no source"
	Memory = "from memory"
)

// The units in which the table is written.
const (
	mm = length.Millimetre
	cm = length.Centimetre
	in = length.Inch
)

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
	Subject              Subject
	Name, What           string
	Kind                 Kind
	Default, Least, Most int64
	Unit                 string // of a Number or a Count, "" for a bare factor
	Source               string

	ways map[Way]figure // where a way of cutting has its own default
	at   int            // its place in the table
}

// LengthKey is that by which a formula asks a [Set] for a length. It is declared
// once, with its row.
type LengthKey struct{ *Setting }

// NumberKey is the same for a number.
type NumberKey struct{ *Setting }

// CountKey is the same for a whole number.
type CountKey struct{ *Setting }

// table is all rows, in the order of the files and in them as they are declared.
// It is filled while the program is loaded and never changed.
var table []*Setting

// Subject is what a setting is about; the rows of one lie in the file of that
// name.
type Subject string

// add puts a row into the table.
func (of Subject) add(s Setting) *Setting {
	s.Subject, s.at = of, len(table)
	table = append(table, &s)
	return &s
}

// length is the row of a length.
func (of Subject) length(name, what string, standard, least, most length.Length, source string) LengthKey {
	return LengthKey{of.add(Setting{Name: name, What: what, Default: int64(standard), Least: int64(least), Most: int64(most), Source: source})}
}

// number is the row of a number, given in thousandths of its unit.
func (of Subject) number(name, what, unit string, standard, least, most int64, source string) NumberKey {
	return NumberKey{of.add(Setting{Name: name, What: what, Kind: Number, Unit: unit, Default: standard * 1000, Least: least * 1000, Most: most * 1000, Source: source})}
}

// count is the row of a whole number.
func (of Subject) count(name, what, unit string, standard, least, most int64, source string) CountKey {
	return CountKey{of.add(Setting{Name: name, What: what, Kind: Count, Unit: unit, Default: standard, Least: least, Most: most, Source: source})}
}

// Table is all settings, with their defaults.
func Table() []Setting {
	all := make([]Setting, len(table))
	for i, row := range table {
		all[i] = *row
	}
	return all
}

// Find is the setting of that name.
func Find(name string) (Setting, bool) {
	if row := find(name); row != nil {
		return *row, true
	}
	return Setting{}, false
}

func find(name string) *Setting {
	for _, row := range table {
		if row.Name == name {
			return row
		}
	}
	return nil
}

// Given is a value to use instead of the default.
type Given struct {
	Name  string
	Kind  Kind
	Value int64
}

// Give is that value of the setting, to be put into a [Set].
func (s Setting) Give(value int64) Given { return Given{s.Name, s.Kind, value} }

// Give is that length.
func (k LengthKey) Give(l length.Length) Given { return k.Setting.Give(int64(l)) }

func (s Setting) limits() string { return "from " + s.text(s.Least) + " to " + s.text(s.Most) }

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

// Halves is a number as a tape says it: whole ones and a half ("10½"), others as
// a decimal.
func Halves(millionths int64) string {
	if millionths < One || millionths%One != One/2 {
		return Decimal(millionths)
	}
	return Decimal(millionths-One/2) + "½"
}

// Inches is a length in inches for a sentence about what is sold by them,
// without the unit.
func Inches(l length.Length) string { return Halves(int64(l) * One / int64(in)) }
