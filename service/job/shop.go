package job

import "slices"

// ofShop is the request with the figures of its workroom in every part, where the
// part has none of its own.
func (r Request) ofShop() Request {
	r.Pieces = slices.Clone(r.Pieces)
	for i := range r.Pieces {
		p := &r.Pieces[i]
		p.Piece.Shop = p.Piece.Shop.Over(r.Shop)
		p.Buttoning.Shop = p.Buttoning.Shop.Over(r.Shop)
	}
	r.Piping.Shop = r.Piping.Shop.Over(r.Shop)
	if r.Foam != nil {
		foam := *r.Foam
		foam.Shop = foam.Shop.Over(r.Shop)
		r.Foam = &foam
	}
	r.Days.Shop = r.Days.Shop.Over(r.Shop)
	if r.Terms != nil {
		terms := *r.Terms
		terms.Shop = terms.Shop.Over(r.Shop)
		r.Terms = &terms
	}
	return r
}
