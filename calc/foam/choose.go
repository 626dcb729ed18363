package foam

import (
	"fmt"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/sheet"
)

// choice is a solution for one foam from a subset of its sheets.
type choice struct {
	groups []Group
	layers [][]Layer // by want
	cost   int64
	sheets int
	count  int // layers
}

// nests caches the nestings of one foam.
type nests struct {
	known map[string]*sheet.Nester // by the sizes of the pieces
	done  map[nestKey]sheet.Result
}

// nestKey identifies a group by the sizes of its pieces and the sheets of its thickness.
type nestKey struct {
	sizes     string
	thickness length.Length
}

// foam finds the cheapest choice of a foam's sheets. Choices differ in the layers that
// they make. All layers of one thickness are nested on all sheets on sale of that
// thickness.
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
	known := nests{make(map[string]*sheet.Nester), make(map[nestKey]sheet.Result)}
	tooMany := false
	for set := uint(1); set < 1<<len(stock); set++ {
		c, many := s.layersFrom(f, stock, wants, fits, set)
		tooMany = tooMany || many
		if c != nil && !s.nestAll(c, best, &known) {
			c = nil
		}
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

// layersFrom returns the layers made from a set of sheets, in groups not yet nested; nil
// when the set cannot make every thickness.
func (s *solver) layersFrom(f int, stock []int, wants []want, fits []uint, set uint) (c *choice, tooMany bool) {
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
		for _, i := range stock {
			if s.job.Stock[i].Thickness == thick[j] {
				g.Stock = append(g.Stock, i)
				g.Kinds = append(g.Kinds, s.kind(i))
			}
		}
		c.groups = append(c.groups, *g)
	}
	return c, false
}

// nestAll nests the groups of a choice. It returns false as soon as the choice is certain
// to cost more than the best so far.
func (s *solver) nestAll(c, best *choice, known *nests) bool {
	ids := make([]string, len(c.groups))
	for i := range c.groups {
		ids[i] = sizesText(c.groups[i].Sizes)
	}
	if best != nil {
		least := int64(0)
		for i := range c.groups {
			_, cost := s.nester(known, ids[i], &c.groups[i]).Bounds(c.groups[i].Kinds)
			least += cost
		}
		if least > best.cost {
			return false
		}
	}
	for i := range c.groups {
		g := &c.groups[i]
		id := nestKey{ids[i], g.Thickness}
		r, ok := known.done[id]
		if !ok {
			var err error
			if r, err = s.nester(known, ids[i], g).Nest(g.Kinds); err != nil {
				return false
			}
			known.done[id] = r
		}
		g.Nest = r
		c.cost += r.Cost
		c.sheets += len(r.Sheets)
	}
	return true
}

// nester returns the nester for the sizes of a group. Groups of equal pieces share one,
// with its cached results.
func (s *solver) nester(known *nests, id string, g *Group) *sheet.Nester {
	n := known.known[id]
	if n == nil {
		n = &sheet.Nester{Pieces: g.Sizes, Kerf: s.job.Shop.Length(practice.FoamKerf), Budget: s.job.Effort.budget(), Halt: s.halt}
		known.known[id] = n
	}
	return n
}

// sizesText returns a text that identifies sizes in their order.
func sizesText(sizes []sheet.Piece) string {
	var id strings.Builder
	last, run := sheet.Piece{}, 0
	for _, p := range sizes {
		if p != last {
			fmt.Fprint(&id, run, p)
			last, run = p, 0
		}
		run++
	}
	fmt.Fprint(&id, run)
	return id.String()
}
