package piping

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// Run is one length of piping on the piece. Places on it are measured from its
// beginning.
type Run struct {
	Length   length.Length // more than 0
	Closed   bool          // it comes back to its beginning
	Corners  []length.Length
	NoJoin   []Span        // where no join may fall; of a closed run also past its beginning, with From above To
	MaxJoins int           // at most so many; the closing of a closed run is not counted
	Radius   length.Length // of its tightest curve; 0 when it is straight or not known
	Curved   bool          // it goes round a curve of whatever radius
}

// Span is from one place of a run to another. Its ends do not belong to it.
type Span struct{ From, To length.Length }

// Kept is where a run's joins may fall.
type Kept struct {
	Spans  []Span        // forbidden, in order and apart; measured from Closes for a closed run
	Closes length.Length // where a closed run is closed
}

// maxClosings is how many closings of a closed run are tried.
const maxClosings = 4

// KeepClear works out where the joins of a run may fall: not in a span where none
// may, and not within margin of a corner. Of a closed run there is one answer for
// each closing worth trying: the first place from its beginning where a join may
// be, and the ends of its longest spans, so that a span is passed by a piece that
// ends with it. It is empty when a closed run has no place for its closing.
func KeepClear(r Run, margin length.Length) []Kept {
	var spans []Span
	for _, s := range r.NoJoin {
		if s.From > s.To {
			s.To += r.Length
		}
		spans = append(spans, s)
	}
	if margin > 0 {
		for _, c := range r.Corners {
			spans = append(spans, Span{c - margin, c + margin})
		}
	}
	if !r.Closed {
		return []Kept{{Spans: merged(spans)}}
	}
	spans = merged(turned(spans, r.Length, 0))
	var out []Kept
	for _, at := range closings(spans, r.Length) {
		k := Kept{Spans: spans, Closes: at}
		if at > 0 {
			k.Spans = merged(turned(spans, r.Length, -at))
		}
		out = append(out, k)
	}
	return out
}

// closings are the places at which a closed run may be closed that are worth
// trying.
func closings(spans []Span, turn length.Length) []length.Length {
	var first length.Length
	for _, s := range spans {
		if s.From < first && first < s.To {
			first = s.To
		}
	}
	if first >= turn {
		return nil
	}
	out := []length.Length{first}
	bySize := slices.Clone(spans)
	slices.SortStableFunc(bySize, func(a, b Span) int { return cmp.Compare(b.To-b.From, a.To-a.From) })
	for _, s := range bySize {
		if len(out) < maxClosings && s.To >= 0 && s.To < turn && !slices.Contains(out, s.To) {
			out = append(out, s.To)
		}
	}
	return out
}

// turned are the spans moved, each also a turn of the run before and after.
func turned(spans []Span, turn, by length.Length) []Span {
	var out []Span
	for _, s := range spans {
		for _, d := range [3]length.Length{by - turn, by, by + turn} {
			out = append(out, Span{s.From + d, s.To + d})
		}
	}
	return out
}

// merged are spans in order, those that share a place made one. Spans that only
// touch leave a place between them.
func merged(spans []Span) []Span {
	slices.SortFunc(spans, func(a, b Span) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To)) })
	var out []Span
	for _, s := range spans {
		if n := len(out); n > 0 && s.From < out[n-1].To {
			out[n-1].To = max(out[n-1].To, s.To)
			continue
		}
		out = append(out, s)
	}
	return out
}

// before is the last place not past x where a join may fall.
func (k *Kept) before(x length.Length) length.Length {
	i, _ := slices.BinarySearchFunc(k.Spans, x, func(s Span, x length.Length) int {
		if s.To <= x {
			return -1
		}
		return 1
	})
	for i < len(k.Spans) && k.Spans[i].From < x && x < k.Spans[i].To {
		x = k.Spans[i].From
		if i > 0 {
			i--
		}
	}
	return x
}
