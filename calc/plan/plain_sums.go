package plan

import "math/bits"

// sums is a set of small numbers: the totals that some panels can reach.
type sums struct {
	word []uint64
	top  int64
}

// maxSums is the greatest number that is worth a table.
const maxSums = 1 << 18

// newSums holds the total of nothing; nil when top is too great for a table.
func newSums(top int64) *sums {
	if top < 0 || top > maxSums {
		return nil
	}
	s := &sums{word: make([]uint64, top/64+1), top: top}
	s.word[0] = 1
	return s
}

// shiftIn adds v to every member, from a copy in old.
func shiftIn(word, old []uint64, v int64) {
	q, r := int(v>>6), uint(v&63)
	for k := len(word) - 1; k >= q; k-- {
		x := old[k-q] << r
		if r > 0 && k > q {
			x |= old[k-q-1] >> (64 - r)
		}
		word[k] |= x
	}
}

// add lets a panel join once, by its length or its width, in any of its ways.
// It answers the steps that this took.
func (s *sums) add(r *rect, along bool) int64 {
	v := [2]int64{r.way[0].w, r.way[1].w}
	if along {
		v = [2]int64{r.way[0].h, r.way[1].h}
	}
	if r.ways == 1 {
		shiftIn(s.word, s.word, v[0]) // downward, so in place
		return int64(len(s.word))
	}
	old := append([]uint64(nil), s.word...)
	for o := range r.ways {
		shiftIn(s.word, old, v[o])
	}
	return 3 * int64(len(s.word))
}

// floor is the greatest member up to v.
func (s *sums) floor(v int64) int64 { return floorIn(s.word, min(v, s.top)) }

// floorIn is the greatest member of the set up to v; -1 when there is none.
func floorIn(word []uint64, v int64) int64 {
	if v < 0 {
		return -1
	}
	k := int(v >> 6)
	x := word[k] & (^uint64(0) >> (63 - uint(v&63)))
	for x == 0 {
		if k--; k < 0 {
			return -1
		}
		x = word[k]
	}
	return int64(k)<<6 + int64(bits.Len64(x)) - 1
}

// ceil is the least member from v; v itself beyond the table.
func (s *sums) ceil(v int64) int64 {
	if v < 0 {
		v = 0
	}
	if v > s.top {
		return v
	}
	k := int(v >> 6)
	x := s.word[k] >> uint(v&63) << uint(v&63)
	for x == 0 {
		if k++; k == len(s.word) {
			return s.top + 1
		}
		x = s.word[k]
	}
	return int64(k)<<6 + int64(bits.TrailingZeros64(x))
}
