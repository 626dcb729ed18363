package plan

import (
	"sort"

	"github.com/bridletie/bridletie/calc/length"
)

// Offcuts are the rectangles left over in a layout, largest first and apart
// from each other: at each step the largest empty rectangle is taken. None has
// a side shorter than least, and there are at most limit of them.
func Offcuts(l Layout, width, least length.Length, limit int) []Rect {
	free := keepWide(nil, Rect{0, 0, width, l.Length}, least)
	for _, p := range l.Placements {
		free = subtract(free, Rect{p.X, p.Y, p.Across, p.Along}, least)
	}
	var out []Rect
	for len(free) > 0 && len(out) < limit {
		best := 0
		for k := range free {
			if before(free[k], free[best]) {
				best = k
			}
		}
		taken := free[best]
		out = append(out, taken)
		free = subtract(free, taken, least)
	}
	sort.SliceStable(out, func(a, b int) bool { return before(out[a], out[b]) })
	return out
}

// before orders rectangles by area, then by place.
func before(a, b Rect) bool {
	x, y := area(a), area(b)
	if x != y {
		return x > y
	}
	if a.Y != b.Y {
		return a.Y < b.Y
	}
	return a.X < b.X
}

// area is in square micrometres, which cannot overflow within the limits of a
// request.
func area(r Rect) int64 {
	return int64(r.Across/length.Micrometre) * int64(r.Along/length.Micrometre)
}

// subtract is the maximal rectangles that remain of free, which are maximal,
// once taken is gone.
func subtract(free []Rect, taken Rect, least length.Length) []Rect {
	var whole, parts []Rect
	for _, f := range free {
		if !overlap(f, taken) {
			whole = append(whole, f)
			continue
		}
		right, below := f.X+f.Across, f.Y+f.Along
		parts = keepWide(parts, Rect{f.X, f.Y, taken.X - f.X, f.Along}, least)
		parts = keepWide(parts, Rect{taken.X + taken.Across, f.Y, right - taken.X - taken.Across, f.Along}, least)
		parts = keepWide(parts, Rect{f.X, f.Y, f.Across, taken.Y - f.Y}, least)
		parts = keepWide(parts, Rect{f.X, taken.Y + taken.Along, f.Across, below - taken.Y - taken.Along}, least)
	}
	for k, p := range parts {
		if !contained(p, whole) && !contained(p, parts[:k]) && !containedStrictly(p, parts[k+1:]) {
			whole = append(whole, p)
		}
	}
	return whole
}

func keepWide(to []Rect, r Rect, least length.Length) []Rect {
	if r.Across < least || r.Along < least {
		return to
	}
	return append(to, r)
}

func overlap(a, b Rect) bool {
	return a.X < b.X+b.Across && b.X < a.X+a.Across && a.Y < b.Y+b.Along && b.Y < a.Y+a.Along
}

func within(a, b Rect) bool {
	return a.X >= b.X && a.Y >= b.Y && a.X+a.Across <= b.X+b.Across && a.Y+a.Along <= b.Y+b.Along
}

func contained(a Rect, in []Rect) bool {
	for _, b := range in {
		if within(a, b) {
			return true
		}
	}
	return false
}

func containedStrictly(a Rect, in []Rect) bool {
	for _, b := range in {
		if a != b && within(a, b) {
			return true
		}
	}
	return false
}
