package note

import (
	"slices"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
)

// Param is a named value of a note.
type Param struct {
	Name  string
	Value Value
}

// Value is a [Word], [Words], [Number], [Fraction], [Share], [Size], [Figure] or
// [Note].
type Value interface {
	// Text is the value for people.
	Text(units length.System) string
}

// Word is a name, or anything that was given as text.
type Word string

// Words are names. A template lists them with commas, or as {name, list}.
type Words []string

// Number is a count.
type Number int64

// Fraction is a number in millionths.
type Fraction int64

// Share is a part of a whole in millionths, shown in percent to a tenth below.
type Share int64

// Size is a length with the direction in which it is rounded when it is shown.
type Size struct {
	Length length.Length
	Round  length.Rounding
}

// Figure is a length that is shown exactly, in millimetres.
type Figure length.Length

// Name is a parameter that is a word.
func Name[S ~string](name string, s S) Param { return Param{name, Word(s)} }

// Names is a parameter that is a list of words.
func Names(name string, list ...string) Param { return Param{name, Words(list)} }

// Count is a parameter that counts.
func Count[I ~int | ~int64](name string, n I) Param { return Param{name, Number(n)} }

// Decimal is a parameter in millionths, shown with as many decimals as it needs.
func Decimal(name string, millionths int64) Param { return Param{name, Fraction(millionths)} }

// Percent is a parameter in millionths, shown in percent.
func Percent[I ~int64](name string, millionths I) Param { return Param{name, Share(millionths)} }

// Length is a parameter that is a length.
func Length(name string, l length.Length, r length.Rounding) Param { return Param{name, Size{l, r}} }

// Exact is a parameter that is a length as a rule or a table states it.
func Exact(name string, l length.Length) Param { return Param{name, Figure(l)} }

// Why is a parameter that is a note of its own.
func Why(name string, n Note) Param { return Param{name, n} }

func (p Param) same(q Param) bool {
	if p.Name != q.Name {
		return false
	}
	switch v := p.Value.(type) {
	case Words:
		w, ok := q.Value.(Words)
		return ok && slices.Equal(v, w)
	case Note:
		w, ok := q.Value.(Note)
		return ok && v.Same(w)
	}
	return p.Value == q.Value
}

// Text is the word itself.
func (w Word) Text(length.System) string { return string(w) }

// Text is the words with commas between.
func (w Words) Text(length.System) string { return strings.Join(w, ", ") }

// listed are the words with "and" before the last.
func (w Words) listed() string {
	if n := len(w); n > 1 {
		return strings.Join(w[:n-1], ", ") + " and " + w[n-1]
	}
	return strings.Join(w, "")
}

// Text is the number in digits.
func (n Number) Text(length.System) string { return strconv.FormatInt(int64(n), 10) }

// Text is the number, without zeros at the end.
func (f Fraction) Text(length.System) string {
	text := strconv.FormatFloat(float64(f)/1_000_000, 'f', 6, 64)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// Text is the share in percent.
func (s Share) Text(length.System) string {
	return strconv.FormatInt(int64(s)/10_000, 10) + "." + strconv.FormatInt(int64(s)%10_000/1000, 10) + " %"
}

// Text is the length, rounded once.
func (s Size) Text(units length.System) string { return s.Length.Text(units, s.Round) }

// Text is the length in millimetres.
func (f Figure) Text(length.System) string { return length.Length(f).String() }
