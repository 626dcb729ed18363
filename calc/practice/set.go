package practice

import (
	"slices"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// Set is what a workroom goes by: a value for every setting of the table. The
// zero Set holds the defaults. A Set is never changed, and a copy of one costs
// three words, so that formulas take it as they take a length.
type Set struct {
	way    Way
	values *values // nil where the way's defaults are those of the rows
	used   *Used   // nil where nobody asks which settings are read
}

// values are those of a whole table.
type values struct {
	of    []int64
	given []bool
}

// Defaults is the set that nobody has changed.
func Defaults() Set { return Set{} }

// With is the set with these values in place of its own. A name that is not in
// the table, or a value of another kind, is passed over: [Book.Faults] names them.
func (s Set) With(list ...Given) Set {
	if len(list) == 0 {
		return s
	}
	v := s.copied()
	for _, g := range list {
		if row := find(g.Name); row != nil && row.Kind == g.Kind {
			v.of[row.at], v.given[row.at] = g.Value, true
		}
	}
	s.values = v
	return s
}

// Over is the set of base with what is given in this one in its place.
func (s Set) Over(base Set) Set {
	if s.values == nil {
		return base
	}
	var list []Given
	for i, row := range table {
		if s.values.given[i] {
			list = append(list, row.Give(s.values.of[i]))
		}
	}
	return base.With(list...)
}

// copied are the values of the set, to be changed.
func (s Set) copied() *values {
	if s.values != nil {
		return &values{slices.Clone(s.values.of), slices.Clone(s.values.given)}
	}
	v := &values{of: make([]int64, len(table)), given: make([]bool, len(table))}
	for i, row := range table {
		v.of[i] = row.in(s.way).value
	}
	return v
}

// Length is the value of a length.
func (s Set) Length(k LengthKey) length.Length { return length.Length(s.read(k.Setting)) }

// Number is the value of a number, in millionths of its unit.
func (s Set) Number(k NumberKey) int64 { return s.read(k.Setting) }

// Count is the value of a whole number.
func (s Set) Count(k CountKey) int64 { return s.read(k.Setting) }

// Check wants a length in the range of its row.
func (s Set) Check(l *fault.List, at fault.Path, what string, k LengthKey) {
	l.Between(at, what, s.Length(k), length.Length(k.Least), length.Length(k.Most))
}

// Value is the value of a setting, counted as its kind says.
func (s Set) Value(row Setting) int64 { return s.read(&row) }

func (s Set) read(row *Setting) int64 {
	for u := s.used; u != nil; u = u.outer {
		u.read[row.at] = true
	}
	if s.values == nil {
		return row.Default
	}
	return s.values.of[row.at]
}

// Source is where the value of a setting comes from.
func (s Set) Source(row Setting) string {
	if s.values != nil && s.values.given[row.at] {
		return OwnFigure
	}
	return row.in(s.way).source
}

// Basis is what a sentence that states figures of common practice goes by: Common,
// or OwnFigure where one of them was given.
func (s Set) Basis(rows ...*Setting) string {
	for _, row := range rows {
		if s.Source(*row) == OwnFigure {
			return OwnFigure
		}
	}
	return Common
}

// OwnFigure is the source of a value that was given.
const OwnFigure = "the workroom's own figure"

// Used is an account of the settings that an answer goes by.
type Used struct {
	set   Set
	read  []bool
	outer *Used // of the set that was noted again
}

// Noted is the set with an account of what is read from it and from its copies,
// beside an account that is kept already. Such a set belongs to one goroutine.
func (s Set) Noted() (Set, *Used) {
	u := &Used{set: s, read: make([]bool, len(table)), outer: s.used}
	s.used = u
	return s, u
}

// Value is one setting that was used.
type Value struct {
	Setting
	Value int64
	Given bool // in place of the default
}

// Of are the settings of a book that were used, in its order.
func (u *Used) Of(b *Book) []Value {
	out := []Value{}
	v := u.set.copied()
	for _, row := range b.list {
		if u.read[row.at] {
			out = append(out, Value{row.In(u.set.way), v.of[row.at], v.given[row.at]})
		}
	}
	return out
}

// Read reports whether a setting was used.
func (u *Used) Read(s Setting) bool { return u.read[s.at] }
