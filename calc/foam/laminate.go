package foam

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// MaxLayers is how many layers a core or a top is made up of at most.
const MaxLayers = 12

// Option is a stock thickness with what a square metre of it costs, in any unit.
type Option struct {
	Thickness length.Length
	Cost      int64
}

// Lamination is a choice of layers: Counts[i] of option i.
type Lamination struct {
	Thickness length.Length
	Cost      int64
	Layers    int
	Counts    []int
}

// Laminations are the best for every thickness that 1 to MaxLayers layers can
// make, the thinnest first: all choices are looked at, so that each is the
// cheapest of its thickness and, of those, has the fewest layers. Six options
// make 18 563 choices.
func Laminations(options []Option) []Lamination {
	best := make(map[length.Length]Lamination)
	counts := make([]int, len(options))
	var try func(i int, l Lamination)
	try = func(i int, l Lamination) {
		if i == len(options) {
			if b, ok := best[l.Thickness]; l.Layers > 0 && (!ok || cmp.Or(cmp.Compare(l.Cost, b.Cost), l.Layers-b.Layers) < 0) {
				l.Counts = slices.Clone(counts)
				best[l.Thickness] = l
			}
			return
		}
		for n := range MaxLayers - l.Layers + 1 {
			counts[i] = n
			m := length.Length(n)
			try(i+1, Lamination{l.Thickness + m*options[i].Thickness, l.Cost + int64(n)*options[i].Cost, l.Layers + n, nil})
		}
		counts[i] = 0
	}
	try(0, Lamination{})
	out := make([]Lamination, 0, len(best))
	for _, l := range best {
		out = append(out, l)
	}
	slices.SortFunc(out, func(a, b Lamination) int { return cmp.Compare(a.Thickness, b.Thickness) })
	return out
}

// Nearest is the lamination whose thickness is the nearest to what is wanted, and
// the thicker of two that are as near. The list is in order and not empty.
func Nearest(list []Lamination, want length.Length) Lamination {
	i, found := slices.BinarySearchFunc(list, want, func(l Lamination, t length.Length) int { return cmp.Compare(l.Thickness, t) })
	switch {
	case found || i == 0:
		return list[i]
	case i == len(list) || list[i].Thickness-want > want-list[i-1].Thickness:
		return list[i-1]
	}
	return list[i]
}
