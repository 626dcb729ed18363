package foam

import (
	"fmt"
	"strings"

	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/sheet"
)

// choice is an answer for one foam from some of its sheets.
type choice struct {
	groups []Group
	layers [][]Layer // by want
	cost   int64
	sheets int
	count  int // layers
}

// foam finds the cheapest choice of a foam's sheets.
func (s *solver) foam(f int, wants []want) error {
	if len(wants) == 0 {
		return nil
	}
	stock := s.stockOf(f)
	fits := make([]uint, len(wants))
	for i, w := range wants {
		fits[i] = s.fitting(f, w.item)
	}
	var best *choice
	known := make(map[string]*sheet.Nester)
	tooMany := false
	for set := uint(1); set < 1<<len(stock); set++ {
		c, many := s.choose(f, stock, wants, fits, set, known)
		tooMany = tooMany || many
		if s.halt != nil && s.halt() {
			return ErrHalted
		}
		if c != nil && (best == nil || c.cost < best.cost ||
			c.cost == best.cost && (c.sheets < best.sheets || c.sheets == best.sheets && c.count < best.count)) {
			best = c
		}
	}
	switch {
	case best == nil && tooMany:
		return ErrTooMany
	case best == nil:
		return ErrNoSheet
	}
	for i, w := range wants {
		c := &s.result.Cuts[w.item]
		c.Layers = append(c.Layers, best.layers[i]...)
	}
	s.result.Groups = append(s.result.Groups, best.groups...)
	return nil
}

// choose answers with a set of sheets, or with nil where they do not make every
// thickness.
func (s *solver) choose(f int, stock []int, wants []want, fits []uint, set uint, known map[string]*sheet.Nester) (c *choice, tooMany bool) {
	c = &choice{layers: make([][]Layer, len(wants))}
	thick := s.thicknesses(f)
	groups := make([]Group, len(thick))
	for i, w := range wants {
		list := s.laminations(f, set&fits[i])
		if len(list) == 0 {
			return nil, false
		}
		l := Nearest(list, w.thick)
		if l.Thickness != w.thick {
			return nil, false
		}
		for j, n := range l.Counts {
			if n == 0 {
				continue
			}
			c.layers[i] = append(c.layers[i], Layer{f, thick[j], n * w.times, w.top})
			g := &groups[j]
			box := s.boxes[w.item]
			for nth := range s.job.Items[w.item].Count {
				for k := range n * w.times {
					g.Pieces = append(g.Pieces, Piece{w.item, nth + 1, k + 1})
					g.Sizes = append(g.Sizes, sheet.Piece{Across: box[0], Along: box[1]})
				}
			}
			if c.count += n * w.times * s.job.Items[w.item].Count; len(g.Pieces) > MaxPieces {
				return nil, true
			}
		}
	}
	for j := range groups {
		g := &groups[j]
		if len(g.Pieces) == 0 {
			continue
		}
		g.Foam, g.Thickness = f, thick[j]
		for n, i := range stock {
			if set>>n&1 == 1 && s.job.Stock[i].Thickness == thick[j] {
				g.Stock = append(g.Stock, i)
				g.Kinds = append(g.Kinds, s.kind(i))
			}
		}
		var ok bool
		if g.Nest, ok = s.nest(g, known); !ok {
			return nil, false
		}
		c.cost += g.Nest.Cost
		c.sheets += len(g.Nest.Sheets)
		c.groups = append(c.groups, *g)
	}
	return c, false
}

// nest nests a group. Like pieces share what has been searched for them.
func (s *solver) nest(g *Group, known map[string]*sheet.Nester) (sheet.Result, bool) {
	var id strings.Builder
	last, run := sheet.Piece{}, 0
	for _, p := range g.Sizes {
		if p != last {
			fmt.Fprint(&id, run, p)
			last, run = p, 0
		}
		run++
	}
	fmt.Fprint(&id, run)
	n := known[id.String()]
	if n == nil {
		n = &sheet.Nester{Pieces: g.Sizes, Kerf: s.job.Shop.Length(practice.FoamKerf), Budget: s.job.Effort.budget(), Halt: s.halt}
		known[id.String()] = n
	}
	r, err := n.Nest(g.Kinds)
	return r, err == nil
}
