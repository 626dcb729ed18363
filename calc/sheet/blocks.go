package sheet

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// block is a grid of like pieces that all lie the same way, in the enlarged measure.
type block struct {
	x, y       length.Length
	w, h       length.Length // of one piece as it lies
	cols, rows int
}

func (b block) across() length.Length { return b.w * length.Length(b.cols) }
func (b block) along() length.Length  { return b.h * length.Length(b.rows) }

func countOf(list []block) (n int) {
	for _, b := range list {
		n += b.cols * b.rows
	}
	return n
}

// likes lays pieces of one enlarged size in blocks. It keeps what it has worked out.
type likes struct {
	w, h  length.Length
	steps *int // left for layouts of more than two blocks
	known map[[2]length.Length][]block
}

// likeSteps is how many ways to cut a rectangle are tried in one search, beyond
// those in two blocks.
const likeSteps = 6000

func newLikes(w, h length.Length, steps *int) *likes {
	return &likes{w: min(w, h), h: max(w, h), steps: steps, known: make(map[[2]length.Length][]block)}
}

// ways are the extents of a piece as it may lie: upright, and turned.
func (l *likes) ways() [][2]length.Length {
	if l.w == l.h {
		return [][2]length.Length{{l.w, l.h}}
	}
	return [][2]length.Length{{l.w, l.h}, {l.h, l.w}}
}

// most is how many pieces a rectangle holds at most, by its area.
func (l *likes) most(w, h length.Length) int { return int(area(w, h)/area(l.w, l.h) + 1e-9) }

// two is the best layout of a rectangle in one block or in two: any two lie side by
// side or one behind the other.
func (l *likes) two(w, h length.Length) []block {
	var best []block
	held, most := 0, l.most(w, h)
	ways := l.ways()
	for n, a := range ways {
		b := ways[len(ways)-1-n]
		cols, rows := int(w/a[0]), int(h/a[1])
		for c := cols; c >= 0 && held < most && rows > 0; c-- {
			first := block{w: a[0], h: a[1], cols: c, rows: rows}
			x := first.across()
			second := block{x: x, w: b[0], h: b[1], cols: int((w - x) / b[0]), rows: int(h / b[1])}
			best, held = morePieces(best, held, first, second)
		}
		for r := rows; r >= 0 && held < most && cols > 0; r-- {
			first := block{w: a[0], h: a[1], cols: cols, rows: r}
			y := first.along()
			second := block{y: y, w: b[0], h: b[1], cols: int(w / b[0]), rows: int((h - y) / b[1])}
			best, held = morePieces(best, held, first, second)
		}
	}
	return best
}

// morePieces is the better of a layout and two blocks.
func morePieces(best []block, held int, first, second block) ([]block, int) {
	n := first.cols*first.rows + second.cols*second.rows
	if n <= held {
		return best, held
	}
	best = best[:0]
	for _, b := range [...]block{first, second} {
		if b.cols*b.rows > 0 {
			best = append(best, b)
		}
	}
	return best, n
}

// full is a layout of a rectangle with as many pieces as are found: in two blocks;
// or, while steps are left, of layouts of its two parts on both sides of a straight
// cut, or of five parts that turn about one of them like a pinwheel.
func (l *likes) full(w, h length.Length) []block {
	if min(w, h) < l.w || max(w, h) < l.h {
		return nil
	}
	asked := [2]length.Length{w, h}
	if best, ok := l.known[asked]; ok {
		return best
	}
	if *l.steps <= 0 {
		return l.two(w, h)
	}
	xs, ys := l.sums(w), l.sums(h)
	w, h = xs[len(xs)-1], ys[len(ys)-1]
	key := [2]length.Length{w, h}
	if best, ok := l.known[key]; ok {
		l.known[asked] = best
		return best
	}
	best := l.two(w, h)
	if most := l.most(w, h); countOf(best) < most {
		l.parted(xs, ys, func(parts ...rect) bool {
			best = l.fuller(best, parts)
			*l.steps--
			return countOf(best) < most && *l.steps > 0
		})
	}
	l.known[key], l.known[asked] = best, best
	return best
}

// parted tries the ways to part a rectangle, with cuts at those places, as long as
// it is to go on.
func (l *likes) parted(xs, ys []length.Length, try func(parts ...rect) bool) {
	w, h := xs[len(xs)-1], ys[len(ys)-1]
	for _, x := range xs {
		if x > 0 && 2*x <= w && !try(rect{0, 0, x, h}, rect{x, 0, w - x, h}) {
			return
		}
	}
	for _, y := range ys {
		if y > 0 && 2*y <= h && !try(rect{0, 0, w, y}, rect{0, y, w, h - y}) {
			return
		}
	}
	for i, b := range xs {
		for _, a := range xs[min(1, i):i] {
			for m, d := range ys {
				for _, c := range ys[min(1, m):m] {
					if !try(rect{0, 0, a, d}, rect{a, 0, w - a, c}, rect{b, c, w - b, h - c}, rect{0, d, b, h - d}, rect{a, c, b - a, d - c}) {
						return
					}
				}
			}
		}
	}
}

// fuller is a layout of the parts of a rectangle, where it holds more than best.
func (l *likes) fuller(best []block, parts []rect) []block {
	held, n := countOf(best), 0
	for _, p := range parts {
		n += l.most(p.w, p.h)
	}
	if n <= held {
		return best
	}
	n = 0
	for _, p := range parts {
		n += countOf(l.full(p.w, p.h))
	}
	if n <= held {
		return best
	}
	var out []block
	for _, p := range parts {
		for _, b := range l.full(p.w, p.h) {
			b.x, b.y = b.x+p.x, b.y+p.y
			out = append(out, b)
		}
	}
	return out
}

// mostSums is how many lengths are looked at between the sides of a rectangle.
const mostSums = 60

// sums are the lengths up to one that pieces make up that lie one behind another,
// either way, from nothing to the greatest, in order; of many only some.
func (l *likes) sums(most length.Length) []length.Length {
	n := most / l.h
	greatest := length.Length(0)
	var out []length.Length
	for i := range n + 1 {
		rest := (most - i*l.h) / l.w
		greatest = max(greatest, i*l.h+rest*l.w)
		for j := length.Length(0); j <= rest && len(out) < 4*mostSums; j++ {
			out = append(out, i*l.h+j*l.w)
		}
	}
	slices.Sort(out)
	out = slices.Compact(out)
	if len(out) > mostSums {
		out = out[:mostSums]
	}
	if out[len(out)-1] != greatest {
		out = append(out, greatest)
	}
	return out
}

// some is a layout of so many pieces, of a rectangle for which a layout of more is
// given: the one in rows or columns from an edge that leaves the broadest strip, else
// as many of those given as are wanted.
func (l *likes) some(w, h length.Length, want int, of []block) []block {
	var best []block
	least := 2.0
	for _, a := range l.ways() {
		cols, rows := int(w/a[0]), int(h/a[1])
		if cols*rows < want {
			continue
		}
		r := (want + cols - 1) / cols
		if used := (a[1] * length.Length(r)).MM() / h.MM(); used < least {
			least, best = used, firstOf([]block{{w: a[0], h: a[1], cols: cols, rows: r}}, want)
		}
		c := (want + rows - 1) / rows
		if used := (a[0] * length.Length(c)).MM() / w.MM(); used < least {
			least, best = used, firstOf([]block{{w: a[0], h: a[1], cols: c, rows: rows}}, want)
		}
	}
	if best == nil {
		best = firstOf(of, want)
	}
	return best
}

// firstOf are the first so many pieces of a layout: of a block that is not wanted
// whole, full rows and a part of one, or where it is higher than broad, columns.
func firstOf(list []block, want int) (out []block) {
	for _, b := range list {
		n := min(want, b.cols*b.rows)
		want -= n
		whole, part := b, b
		if b.cols <= b.rows && n < b.cols*b.rows && b.rows <= n {
			whole.cols, part.cols, part.rows = n/b.rows, 1, n%b.rows
			part.x += whole.across()
		} else {
			whole.rows, part.rows, part.cols = n/b.cols, 1, n%b.cols
			part.y += whole.along()
		}
		for _, p := range [...]block{whole, part} {
			if p.cols*p.rows > 0 {
				out = append(out, p)
			}
		}
	}
	return out
}
