package plan

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/verify"
)

// cells decides by trying every cell of a small box whether panels fit in it:
// the first cell that is not settled is the corner of one of them, or empty.
type cells struct {
	width, length int
	rows          []uint32 // settled cells
	w, h          []int
	turn          []bool // may be turned by a quarter
	used          []bool
	left          int
}

func (c *cells) fits(spare int) bool {
	if c.left == 0 {
		return true
	}
	x, y := 0, 0
	for c.rows[y]>>x&1 == 1 {
		if x++; x == c.width {
			if x, y = 0, y+1; y == c.length {
				return false
			}
		}
	}
	for k := range c.w {
		if !c.used[k] && (c.lay(k, x, y, c.w[k], c.h[k], spare) || c.turn[k] && c.lay(k, x, y, c.h[k], c.w[k], spare)) {
			return true
		}
	}
	if spare == 0 {
		return false
	}
	c.rows[y] ^= 1 << x
	ok := c.fits(spare - 1)
	c.rows[y] ^= 1 << x
	return ok
}

// lay lays a panel at a cell, if it is free there, and goes on.
func (c *cells) lay(k, x, y, w, h, spare int) bool {
	if x+w > c.width || y+h > c.length {
		return false
	}
	mask := (uint32(1)<<w - 1) << x
	for r := y; r < y+h; r++ {
		if c.rows[r]&mask != 0 {
			return false
		}
	}
	flip := func() {
		for r := y; r < y+h; r++ {
			c.rows[r] ^= mask
		}
	}
	flip()
	c.used[k] = true
	c.left--
	ok := c.fits(spare)
	c.left++
	c.used[k] = false
	flip()
	return ok
}

// small is a job of a few small panels, in cells.
type small struct {
	width int
	w, h  []int
	turn  []bool
}

// least is the length of the shortest box that takes the panels.
func (s *small) least() int {
	area := 0
	for k := range s.w {
		area += s.w[k] * s.h[k]
	}
	for t := (area + s.width - 1) / s.width; ; t++ {
		c := &cells{s.width, t, make([]uint32, t), s.w, s.h, s.turn, make([]bool, len(s.w)), len(s.w)}
		if c.fits(s.width*t - area) {
			return t
		}
	}
}

// smallJob draws a few small panels, some of which may be turned.
func smallJob(r *rand.Rand, most int, turns bool) (Job, *small) {
	s := &small{width: 3 + r.IntN(5)}
	var job Job
	job.Cloth.Width = length.Length(s.width) * length.Centimetre
	for k := range 1 + r.IntN(most) {
		w, h, turn := 1+r.IntN(s.width), 1+r.IntN(5), turns && r.IntN(2) == 0
		if k > 0 && r.IntN(4) == 0 { // equal panels are common
			w, h = s.w[k-1], s.h[k-1]
		}
		s.w, s.h, s.turn = append(s.w, w), append(s.h, h), append(s.turn, turn)
		p := panel.Panel{ID: fmt.Sprint(k), Count: 1, Size: panel.Size{
			Across: length.Length(w) * length.Centimetre, Along: length.Length(h) * length.Centimetre}}
		if turn {
			p.Turn = panel.Quarter
		}
		job.Panels = append(job.Panels, p)
	}
	return job, s
}

// TestPlainIsOptimal compares plans and bounds with every way to lay a few
// panels on the cells of a small cloth.
func TestPlainIsOptimal(t *testing.T) {
	jobs, most := 300, 6
	if testing.Short() {
		jobs = 120
	}
	r := rand.New(rand.NewPCG(7, 11))
	beyond := 0
	for n := range jobs {
		turns := n%3 == 2
		job, s := smallJob(r, most, turns)
		want := length.Length(s.least()) * length.Centimetre
		got, err := Solve(job, Normal, nil)
		if err != nil {
			t.Fatal(err)
		}
		if faults := verify.Check(job, got.Cut...); len(faults) > 0 {
			t.Fatalf("job %d, %+v: %v", n, *s, faults)
		}
		if got.Needed() != want || got.Bound > want || !turns && !got.Proven || got.Proven != (got.Bound == want) {
			t.Fatalf("job %d, %+v: plan %v, bound %v by %s, proven %v; want %v",
				n, *s, got.Needed(), got.Bound, got.BoundBy, got.Proven, want)
		}
		if got.BoundBy != "area" && got.BoundBy != "tallest panel" {
			beyond++
		}
	}
	if beyond == 0 {
		t.Error("no job needed more than the area and the tallest panel")
	}
	t.Logf("%d of %d jobs needed a search or a better bound", beyond, jobs)
}

// plainOf is the reduced problem of a job, beside a plan that is far too long.
func plainOf(tb testing.TB, job Job) *plain {
	tb.Helper()
	m, faults := buildModel(job, false)
	if faults != nil {
		tb.Fatal(faults)
	}
	s := newSearcher(m, 1<<40, bound{1, "nothing"}, func() bool { return false })
	s.try(s.constructions()[0])
	if s.best == nil {
		tb.Fatal("no plan")
	}
	return newPlain(s)
}

// TestPlainProofs compares what the exhaustive searches show, each alone and
// from both sides of the box, with every way to lay a few panels.
func TestPlainProofs(t *testing.T) {
	jobs := 600
	if testing.Short() {
		jobs = 120
	}
	r := rand.New(rand.NewPCG(3, 5))
	var none, found, open int
	for n := range jobs {
		job, s := smallJob(r, 6, n%3 == 2)
		p := plainOf(t, job)
		want := int64(s.least()) * int64(length.Centimetre) * p.s.m.den / p.s.m.num / p.unitY
		for _, size := range []int64{want - 1, want} {
			if size < 1 {
				continue
			}
			for k := range 4 {
				turned := k%2 == 1
				var e exhaustive = &stairs{p: p, turned: turned}
				if k > 1 {
					e = &sweep{p: p, turned: turned}
				}
				e.begin(size)
				e.run(1 << 40)
				failed, at := e.shown()
				switch {
				case failed && (size == want || at != nil), at != nil && size < want:
					t.Fatalf("%+v: search %d for length %d answers %v, %v; the least is %d", *s, k, size, failed, at, want)
				case k < 2 && failed != (size < want):
					t.Fatalf("%+v: search %d for length %d has no answer", *s, k, size)
				case failed:
					none++
				case at != nil:
					found++
					checkPlaces(t, p, size, at)
				case e.useless():
					open++
				default:
					t.Fatalf("search %d ended without an answer", k)
				}
			}
		}
	}
	if none == 0 || found == 0 || open == 0 {
		t.Errorf("%d times none, %d times a plan, %d times open: want some of each", none, found, open)
	}
	t.Logf("%d times none, %d times a plan, %d times open", none, found, open)
}

// checkPlaces checks that panels lie in the box and apart.
func checkPlaces(t *testing.T, p *plain, size int64, at []place) {
	t.Helper()
	for a, q := range at {
		s := p.rects[a].way[q.way]
		if q.x < 0 || q.y < 0 || q.x+s.w > p.W || q.y+s.h > size {
			t.Fatalf("panel %d of %v lies outside at %v", a, p.rects, at)
		}
		for b, o := range at[:a] {
			z := p.rects[b].way[o.way]
			if q.x < o.x+z.w && o.x < q.x+s.w && q.y < o.y+z.h && o.y < q.y+s.h {
				t.Fatalf("panels %d and %d of %v overlap at %v", a, b, p.rects, at)
			}
		}
	}
}
