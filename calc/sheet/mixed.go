package sheet

import "slices"

// mixed is the cheapest nesting of pieces that are all of one size on sheets of
// several kinds, each of them cut in the fullest layout that is known; false where
// the pieces or the kinds are not such.
func (n *Nester) mixed(kinds []Kind) (Result, bool) {
	size := short(n.Pieces[0])
	if len(kinds) < 2 || slices.ContainsFunc(n.Pieces, func(p Piece) bool { return short(p) != size }) {
		return Result{}, false
	}
	s := &searcher{pieces: n.Pieces, kinds: kinds, kerf: n.Kerf}
	layouts := make([][]block, len(kinds))
	for k, kind := range kinds {
		l := newLikes(size.Across+n.Kerf, size.Along+n.Kerf)
		o := newOpen(k, kind, n.Kerf, 1)
		layouts[k] = l.full(o.free[0].w, o.free[0].h)
		s.work += int64(likeSteps - l.steps + 1)
	}
	// How so many pieces are cut at the least cost, on the fewest sheets: on one
	// sheet of a kind, and as many fewer are.
	type way struct {
		cost         int64
		sheets, kind int
	}
	ways := make([]way, len(n.Pieces)+1)
	for i := 1; i < len(ways); i++ {
		ways[i].kind = -1
		for k, kind := range kinds {
			takes := countOf(layouts[k])
			if takes == 0 {
				continue
			}
			b := ways[max(0, i-takes)]
			if w := (way{b.cost + kind.Cost, b.sheets + 1, k}); ways[i].kind < 0 || w.cost < ways[i].cost || w.cost == ways[i].cost && w.sheets < ways[i].sheets {
				ways[i] = w
			}
		}
	}
	r := Result{Work: s.work}
	for left := len(n.Pieces); left > 0; {
		k := ways[left].kind
		o := newOpen(k, kinds[k], n.Kerf, 1)
		list := layouts[k]
		take := min(left, countOf(list))
		if take < countOf(list) {
			list = newLikes(size.Across+n.Kerf, size.Along+n.Kerf).some(o.free[0].w, o.free[0].h, take)
		}
		run := make([]int, take)
		for i := range run {
			run[i] = len(n.Pieces) - left + i
		}
		o.putBlocks(list, o.free[0], run)
		r.Cost += kinds[k].Cost
		r.Sheets = append(r.Sheets, o.sheet(kinds[k], n.Kerf, n.Pieces))
		left -= take
	}
	return r, true
}

// short is a piece with its short side across.
func short(p Piece) Piece { return Piece{min(p.Across, p.Along), max(p.Across, p.Along)} }
