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
	var r Result
	layouts, takes := make([][]block, len(kinds)), make([]int, len(kinds))
	var l *likes
	for k, kind := range kinds {
		steps := likeSteps
		l = newLikes(size.Across+n.Kerf, size.Along+n.Kerf, &steps) // each kind by itself, whichever others there are
		at := newOpen(k, kind, n.Kerf, 1).free[0]
		layouts[k] = l.full(at.w, at.h)
		takes[k] = countOf(layouts[k])
		r.Work += int64(likeSteps - steps + 1)
	}
	left := make([]int, len(n.Pieces))
	for i := range left {
		left[i] = i
	}
	for _, k := range leastMixture(len(left), kinds, takes) {
		o := newOpen(k, kinds[k], n.Kerf, 1)
		list, run := layouts[k], left[:min(len(left), takes[k])]
		if len(run) < takes[k] {
			list = l.some(o.free[0].w, o.free[0].h, len(run), list)
		}
		o.putBlocks(list, o.free[0], run)
		r.Cost += kinds[k].Cost
		r.Sheets = append(r.Sheets, o.sheet(kinds[k], n.Kerf, n.Pieces))
		left = left[len(run):]
	}
	return r, true
}

// leastMixture are the sheets of the least cost, and of those the fewest, for so
// many pieces, where a sheet of each kind takes so many, and one of them takes any.
func leastMixture(pieces int, kinds []Kind, takes []int) (list []int) {
	type choice struct {
		cost         int64
		sheets, kind int
	}
	best := make([]choice, pieces+1) // by how many pieces are taken
	for i := 1; i <= pieces; i++ {
		best[i].kind = -1
		for k, kind := range kinds {
			if takes[k] == 0 {
				continue
			}
			rest := best[max(0, i-takes[k])]
			c := choice{rest.cost + kind.Cost, rest.sheets + 1, k}
			if b := best[i]; b.kind < 0 || c.cost < b.cost || c.cost == b.cost && c.sheets < b.sheets {
				best[i] = c
			}
		}
	}
	for i := pieces; i > 0; i = max(0, i-takes[best[i].kind]) {
		list = append(list, best[i].kind)
	}
	return list
}

// short is a piece with its short side across.
func short(p Piece) Piece { return Piece{min(p.Across, p.Along), max(p.Across, p.Along)} }
