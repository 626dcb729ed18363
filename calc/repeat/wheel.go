package repeat

import (
	"math"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// wheel is the length repeat as a circle: points where widths begin and end,
// and the widths between them. One goes round it forward only.
type wheel struct {
	v       part
	points  []part // sorted, each once
	items   []item
	surplus []int // surplus of ends over begins at each point
	begins  []int // points at which some width begins
	ends    []int
	least   map[int]route // the best way by its first point
}

// route is a way through all widths: its first and last point, how often the
// stretch after the last point of the circle is passed over, and how long it is
// with the widths.
type route struct {
	first, last int
	base        int
	total       part
}

func newWheel(items []item, v part) *wheel {
	w := &wheel{v: v, items: items, least: make(map[int]route)}
	for _, it := range items {
		w.points = append(w.points, it.from, length.Mod(it.from+it.long, v))
	}
	slices.Sort(w.points)
	w.points = slices.Compact(w.points)
	w.surplus = make([]int, len(w.points))
	for i := range items {
		it := &items[i]
		it.begin, _ = slices.BinarySearch(w.points, it.from)
		it.to, _ = slices.BinarySearch(w.points, length.Mod(it.from+it.long, v))
		w.surplus[it.begin]--
		w.surplus[it.to]++
		w.begins = append(w.begins, it.begin)
		w.ends = append(w.ends, it.to)
	}
	slices.Sort(w.begins)
	slices.Sort(w.ends)
	w.begins, w.ends = slices.Compact(w.begins), slices.Compact(w.ends)
	return w
}

// solve tries every first and last point; the first of equals is kept.
func (w *wheel) solve() route {
	var widths part
	for _, it := range w.items {
		widths += it.long
	}
	lines, f := w.lines(), make([]int, len(w.points))
	best := route{total: math.MaxInt64}
	for _, a := range w.begins {
		mine := route{total: math.MaxInt64}
		for _, b := range w.ends {
			w.passes(f, a, b)
			r := route{first: a, last: b, base: -slices.Min(f), total: widths}
			for i, n := range f {
				r.total += part(n+r.base) * w.stretch(i)
			}
			if r.total >= mine.total {
				continue
			}
			if !w.hangs(f, r.base, a, b, lines) {
				r.base, r.total = r.base+1, r.total+w.v
			}
			if r.total < mine.total {
				mine = r
			}
		}
		w.least[a] = mine
		if mine.total < best.total {
			best = mine
		}
	}
	return best
}

// stretch is how long the circle is from point i to the next.
func (w *wheel) stretch(i int) part {
	if i+1 < len(w.points) {
		return w.points[i+1] - w.points[i]
	}
	return w.points[0] + w.v - w.points[i]
}

// lines are the pairs of points that some width joins, each once.
func (w *wheel) lines() [][2]int {
	var out [][2]int
	for _, it := range w.items {
		out = append(out, [2]int{it.begin, it.to})
	}
	slices.SortFunc(out, func(a, b [2]int) int {
		if a[0] != b[0] {
			return a[0] - b[0]
		}
		return a[1] - b[1]
	})
	return slices.Compact(out)
}

// passes puts into f how often each stretch is passed over on a way from a to b,
// but for a number that is the same for all.
func (w *wheel) passes(f []int, a, b int) {
	sum := 0
	for i := range f {
		sum += w.surplus[i]
		if i == a {
			sum++
		}
		if i == b {
			sum--
		}
		f[i] = sum
	}
}

// hangs reports whether the widths, with the stretches that are passed over and
// the way back from the last end to the first begin, are of one piece.
func (w *wheel) hangs(f []int, base, a, b int, lines [][2]int) bool {
	of := make([]int, len(w.points))
	for i := range of {
		of[i] = i
	}
	root := func(i int) int {
		for of[i] != i {
			of[i] = of[of[i]]
			i = of[i]
		}
		return i
	}
	of[root(b)] = root(a)
	for _, l := range lines {
		of[root(l[0])] = root(l[1])
	}
	for i, n := range f {
		if n+base > 0 {
			of[root(i)] = root((i + 1) % len(of))
		}
	}
	for i := range of {
		if root(i) != root(a) {
			return false
		}
	}
	return true
}

// order is the widths in the order of a way: a trail over every width and every
// stretch as often as it is passed over, found as Hierholzer did.
func (w *wheel) order(r route) []item {
	left := make([]int, len(w.points))
	w.passes(left, r.first, r.last)
	for i := range left {
		left[i] += r.base
	}
	at := make([][]int, len(w.points)) // widths that begin at a point, the last first
	for i := len(w.items) - 1; i >= 0; i-- {
		at[w.items[i].begin] = append(at[w.items[i].begin], i)
	}
	type leg struct{ point, item int }
	stack, trail := []leg{{r.first, -1}}, []leg{}
	for len(stack) > 0 {
		top := stack[len(stack)-1]
		p := top.point
		switch n := len(at[p]); {
		case n > 0:
			i := at[p][n-1]
			at[p] = at[p][:n-1]
			stack = append(stack, leg{w.items[i].to, i})
		case left[p] > 0:
			left[p]--
			stack = append(stack, leg{(p + 1) % len(left), -1})
		default:
			trail = append(trail, top)
			stack = stack[:len(stack)-1]
		}
	}
	var out []item
	for _, l := range slices.Backward(trail) {
		if l.item >= 0 {
			out = append(out, w.items[l.item])
		}
	}
	return out
}

// from is the best way for cloth that begins at a given place of the repeat, with
// what is passed over before its first width.
func (w *wheel) from(start part) route {
	best, least := route{}, part(math.MaxInt64)
	for _, a := range w.begins {
		if d := length.Mod(w.points[a]-start, w.v) + w.least[a].total; d < least {
			best, least = w.least[a], d
		}
	}
	return best
}

// anyStart is the least length that is enough from every start. The worst is
// just past a place at which some width begins.
func (w *wheel) anyStart() part {
	var worst part
	for _, c := range w.begins {
		least := part(math.MaxInt64)
		for _, a := range w.begins {
			d := length.Mod(w.points[a]-w.points[c], w.v)
			if d == 0 {
				d = w.v
			}
			least = min(least, d+w.least[a].total)
		}
		worst = max(worst, least)
	}
	return worst
}
