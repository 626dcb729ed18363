package foam

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// Gluing is of what a core or a top is glued up. A sheet thinner than Thin only serves
// alone, for what is itself thinner.
type Gluing struct {
	Layers int           // at most
	Thin   length.Length // no layer that is glued to another is thinner
}

func gluing(shop practice.Set) Gluing {
	return Gluing{int(shop.Count(practice.FoamLayers)), shop.Length(practice.FoamThinLayer)}
}

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

// Laminations are the best for every thickness that can be glued up, the thinnest
// first: all choices are looked at, so that each is the cheapest of its thickness
// and, of those, has the fewest layers. Of six options, 6 layers at most make 923
// choices.
func (g Gluing) Laminations(options []Option) []Lamination {
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
		for n := range g.Layers - l.Layers + 1 {
			if n > 0 && l.Layers+n > 1 && (options[i].Thickness < g.Thin || l.Thickness > 0 && l.Thickness < g.Thin) {
				break
			}
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

// Made is the lamination that is taken for a wanted thickness: the nearest, and for
// Thin or more the nearest that is no thinner than that. It is false where there is
// none, or where one layer more than may be, of the thickest, would come nearer.
func (g Gluing) Made(list []Lamination, want length.Length) (Lamination, bool) {
	if want >= g.Thin {
		i, _ := slices.BinarySearchFunc(list, g.Thin, func(l Lamination, t length.Length) int { return cmp.Compare(l.Thickness, t) })
		list = list[i:]
	}
	if len(list) == 0 {
		return Lamination{}, false
	}
	thickest := length.Length(0)
	for _, l := range list {
		if l.Layers == 1 {
			thickest = l.Thickness
		}
	}
	l := Nearest(list, want)
	return l, want-l.Thickness <= thickest/2
}
