package practice

import "github.com/bridletie/bridletie/calc/length"

// Way is a way of cutting: how much a cutting list allows at each edge. A row
// has one default for every way, or one for each.
type Way int

// The ways; the zero value is Close.
const (
	Close    Way = iota // the panel by its show line, and as little more as can be tacked
	Workroom            // with the hold that a workroom cuts
)

// figure is the default of a row for one way.
type figure struct {
	value  int64
	source string
}

// by says what the row holds for a way. It is chained to the row.
func (k LengthKey) by(w Way, standard length.Length, source string) LengthKey { //nolint:unparam // another way may have figures of its own
	if k.ways == nil {
		k.ways = make(map[Way]figure)
	}
	k.ways[w] = figure{int64(standard), source}
	return k
}

// in is what the row holds for a way.
func (s *Setting) in(w Way) figure {
	if f, ok := s.ways[w]; ok {
		return f
	}
	return figure{s.Default, s.Source}
}

// In is the setting with the default and the source that it has for a way.
func (s Setting) In(w Way) Setting {
	f := s.in(w)
	s.Default, s.Source = f.value, f.source
	return s
}

// For is the set of a way, with nothing given. That of Close is [Defaults].
func For(w Way) Set {
	s := Set{way: w}
	for _, row := range table {
		if _, ok := row.ways[w]; ok {
			s.values = s.copied()
			break
		}
	}
	return s
}

// Way is the way whose defaults the set holds.
func (s Set) Way() Way { return s.way }

// As is the set with the defaults of a way. What was given stays, and so does the
// account of what is read.
func (s Set) As(w Way) Set {
	if s.way == w {
		return s
	}
	out := s.Over(For(w))
	out.used = s.used
	return out
}
