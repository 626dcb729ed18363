package furniture

import (
	"slices"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// span is a length and the terms that it is the sum of.
type span struct {
	l     length.Length
	terms []term
}

// term is a length that is added so many times, or taken off when times is below
// 0. note stands after it.
type term struct {
	times int
	name  string
	l     length.Length
	note  string
}

func (s span) plus(t span) span { return span{s.l + t.l, slices.Concat(s.terms, t.terms)} }

func (s span) twice() span { return s.times(2) }

func (s span) times(n int) span {
	terms := slices.Clone(s.terms)
	for i := range terms {
		terms[i].times *= n
	}
	return span{length.Length(n) * s.l, terms}
}

// grown is a span in millionths of itself, which is a term of its own.
func (s span) grown(millionths int64) span {
	if millionths%practice.One == 0 {
		return s.times(int(millionths / practice.One))
	}
	more, share := practice.Part(s.l, millionths)-s.l, practice.Halves(millionths-practice.One)
	if millionths == practice.One*3/2 {
		share = "half"
	}
	return s.plus(span{more, []term{{times: 1, name: share + " as much again", l: more}}})
}

// less is the span without another, but at least so much.
func (s span) less(t span, least length.Length) span {
	if s.l-t.l < least {
		return span{least, []term{{times: 1, name: "at least", l: least}}}
	}
	return s.plus(t.times(-1))
}

// part is an nth of a measure, to the millimetre below.
func (w *work) part(s span, n int) span {
	if n <= 1 {
		return s
	}
	l := s.l / length.Length(n)
	l = l.Round(length.Millimetre, length.Down)
	name := "1/" + strconv.Itoa(n) + " of the "
	switch n {
	case 2:
		name = "half of the "
	case 3:
		name = "a third of the "
	}
	return w.named(name+s.terms[0].name+" of "+w.text(s.l)+":", l)
}

// between is the span with what is added at its two sides.
func (s span) between(a, b edge, atA, atB string) span {
	out := span{s.l + a.l() + b.l(), slices.Clone(s.terms)}
	if a == b {
		for _, p := range a.parts() {
			out.terms = append(out.terms, term{times: 2, name: p.name, l: p.l})
		}
		return out
	}
	for _, p := range a.parts() {
		out.terms = append(out.terms, term{1, p.name, p.l, " (" + atA + ")"})
	}
	for _, p := range b.parts() {
		out.terms = append(out.terms, term{1, p.name, p.l, " (" + atB + ")"})
	}
	return out
}

// sum is the terms that the span came about by. What is cut is rounded up and each
// term to the nearest; by how much they then differ is the last term, so that what is
// read adds up.
func (s span) sum(sys length.System) string {
	step := textStep(sys)
	text := ""
	rest := s.l.Round(step, length.Up)
	for i, t := range s.terms {
		rest -= length.Length(t.times) * t.l.Round(step, length.Nearest)
		text += joined(i, t.times < 0)
		if n := max(t.times, -t.times); n != 1 {
			text += strconv.Itoa(n) + " × "
		}
		text += t.name + " " + t.l.Text(sys, length.Nearest) + t.note
	}
	if rest != 0 {
		text += joined(1, rest < 0) + "rounding " + max(rest, -rest).Text(sys, length.Nearest)
	}
	return strings.TrimPrefix(text, " ")
}

// joined stands before a term.
func joined(i int, off bool) string {
	switch {
	case off:
		return " less "
	case i > 0:
		return " + "
	}
	return " "
}

// textStep is how fine sizes are printed.
func textStep(sys length.System) length.Length {
	if sys == length.Imperial {
		return length.Inch / 16
	}
	return length.Millimetre
}
