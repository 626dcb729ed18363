package pleat

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// layOut places the pleats, from the centre line outwards on each side.
func layOut(style Style, takes []length.Length, spread, face length.Length, away bool) []Mark {
	n := len(takes)
	marks := make([]Mark, n)
	var right, left length.Length // what the pleats between here and the centre line take in
	if n%2 == 1 {
		m := n / 2
		marks[m] = middle(style, takes[m], face)
		right = takes[m] / 2
		left = takes[m] - right
	}
	for k := range n / 2 {
		i := (n+1)/2 + k
		at := place(style, n, k, spread)
		marks[i] = beside(style, takes[i], at, right, face, away)
		right += takes[i]
		i = n/2 - 1 - k
		marks[i] = mirrored(beside(style, takes[i], at, left, face, away))
		left += takes[i]
	}
	return marks
}

// place is where the k-th of n to one side of the centre line lies on the
// finished edge. Of pairs the first two meet on the centre line.
func place(style Style, n, k int, spread length.Length) length.Length {
	halves := 2*k + 1
	switch {
	case style == Pairs:
		halves = 2 * k
	case n%2 == 1:
		halves = 2 * (k + 1)
	}
	return spread * length.Length(halves) / length.Length(2*n)
}

// middle is the one on the centre line. A single fold there could not lie to one
// side without the other; it is laid as a box pleat.
func middle(style Style, take, face length.Length) Mark {
	if style == Fan || style == Pairs {
		style = Box
	}
	return centred(style, take, face, 0, 0)
}

// centred is a pleat, dart or snip whose middle is c on the cloth and at on the
// finished edge.
func centred(style Style, take, face, c, at length.Length) Mark {
	m := Mark{Lie: LiesNone, Take: take, Depth: take / 2, Finished: at}
	low, high := take-take/2, take/2
	switch style {
	case Snips:
		m.On = []length.Length{c}
	case Darts:
		m.On = []length.Length{c - low, c, c + high}
	case Inverted:
		m.Lie, m.Depth = LiesBoth, take/4
		m.On = []length.Length{c - low, c - low/2, c, c + high/2, c + high}
	default:
		if face == 0 {
			face = take / 2
		}
		m.Lie, m.Depth = LiesBoth, take/4
		half := face / 2
		m.On = []length.Length{c - half - low, c - half - low/2, c - half, c + half, c + half + high/2, c + half + high}
	}
	return m
}

// beside is one to the right of the centre line; inner is what those between
// take in.
func beside(style Style, take, at, inner, face length.Length, away bool) Mark {
	begin := at + inner
	switch style {
	case Snips:
		return centred(style, take, face, at-inner-take/2, at)
	case Box, Inverted, Darts:
		return centred(style, take, face, begin+take/2, at)
	}
	m := Mark{Lie: LiesLeft, Take: take, Depth: take / 2, Finished: at, On: []length.Length{begin, begin + take/2, begin + take}}
	if away && style == Fan {
		m.Lie = LiesRight
	}
	return m
}

// mirrored is the same on the other side of the centre line.
func mirrored(m Mark) Mark {
	m.Finished = -m.Finished
	on := slices.Clone(m.On)
	slices.Reverse(on)
	for i := range on {
		on[i] = -on[i]
	}
	m.On = on
	switch m.Lie {
	case LiesLeft:
		m.Lie = LiesRight
	case LiesRight:
		m.Lie = LiesLeft
	}
	return m
}
