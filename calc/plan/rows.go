package plan

import (
	"sort"

	"github.com/bridletie/bridletie/calc/length"
)

// found is a complete plan in one strip.
type found struct {
	top   int64
	area  float64
	sigma int64
	spots []spot
	genes genes
}

// rows is the hand method: rows across the roll, the tallest panels first, each
// next panel in the first row that takes it, each row a whole number of length
// repeats (or as tall as its tallest panel where the cloth has no length
// repeat). It answers the cloth that those rows take and the plan itself, whose
// last row is not rounded up.
func rows(m *model) (int64, *found) {
	order := make([]int, len(m.items))
	for k := range order {
		order[k] = k
	}
	sort.SliceStable(order, func(a, b int) bool {
		return m.items[order[a]].lay[0].h > m.items[order[b]].lay[0].h
	})
	r := rower{d: newDecoder(m)}
	r.d.start()
	s := &r.d.bins[0]
	for _, k := range order {
		r.lay(k)
	}
	total := int64(0)
	for _, row := range r.rows {
		total += row.height
	}
	return total, &found{top: s.top, sigma: s.sigma, spots: append([]spot(nil), r.d.spots...)}
}

type row struct{ y, height, cursor int64 }

type rower struct {
	d    *decoder
	rows []row
}

// lay puts item k into the first row that takes it, or into a new one.
func (r *rower) lay(k int) {
	for n := range r.rows {
		if r.into(k, n) {
			return
		}
	}
	y := int64(0)
	if n := len(r.rows); n > 0 {
		y = r.rows[n-1].y + r.rows[n-1].height
	}
	r.rows = append(r.rows, row{y: y})
	r.into(k, len(r.rows)-1)
}

// into tries to lay item k in row n; a row without height is new and grows.
func (r *rower) into(k, n int) bool {
	const never = int64(1) << 61
	w, s := &r.rows[n], &r.d.bins[0]
	if w.cursor >= s.W {
		return false
	}
	s.holes = s.holes[:0]
	s.segs = s.segs[:0]
	if w.cursor > 0 {
		s.segs = append(s.segs, seg{0, never})
	}
	s.segs = append(s.segs, seg{w.cursor, w.y})
	s.limit = w.y + w.height
	if w.height == 0 {
		s.limit = noEnd
	}
	sp := r.d.find(k, 0)
	s.limit = noEnd
	if !sp.found || sp.y >= never {
		return false
	}
	r.d.commit(k, sp)
	l := r.d.m.items[k].lay[sp.lay]
	w.cursor = sp.x + l.w
	if w.height == 0 {
		w.height = sp.y + l.h - w.y
		if v := r.d.m.grid.V; v > 0 {
			w.height = length.CeilDiv(w.height, v) * v
		}
	}
	return true
}
