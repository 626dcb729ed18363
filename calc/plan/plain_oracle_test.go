package plan

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// cells decides by trying every cell of a small box whether panels fit in it:
// the first cell that is not settled is the corner of one of them, or empty.
type cells struct {
	width, length int
	rows          []uint32 // settled cells
	w, h          []int
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
		if c.used[k] || x+c.w[k] > c.width || y+c.h[k] > c.length {
			continue
		}
		mask := (uint32(1)<<c.w[k] - 1) << x
		free := true
		for r := y; r < y+c.h[k]; r++ {
			free = free && c.rows[r]&mask == 0
		}
		if !free {
			continue
		}
		for r := y; r < y+c.h[k]; r++ {
			c.rows[r] ^= mask
		}
		c.used[k] = true
		c.left--
		ok := c.fits(spare)
		c.left++
		c.used[k] = false
		for r := y; r < y+c.h[k]; r++ {
			c.rows[r] ^= mask
		}
		if ok {
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

// leastLength is the shortest box of a width that takes the panels.
func leastLength(width int, w, h []int) int {
	area := 0
	for k := range w {
		area += w[k] * h[k]
	}
	for t := (area + width - 1) / width; ; t++ {
		c := &cells{width, t, make([]uint32, t), w, h, make([]bool, len(w)), len(w)}
		if c.fits(width*t - area) {
			return t
		}
	}
}

// smallJob draws a few small panels.
func smallJob(r *rand.Rand, most int) (Job, int, []int, []int) {
	width := 3 + r.IntN(5)
	n := 1 + r.IntN(most)
	var w, h []int
	var job Job
	job.Cloth.Width = length.Length(width) * length.Centimetre
	for k := range n {
		if k > 0 && r.IntN(4) == 0 { // equal panels are common
			w, h = append(w, w[k-1]), append(h, h[k-1])
		} else {
			w, h = append(w, 1+r.IntN(width)), append(h, 1+r.IntN(5))
		}
		job.Panels = append(job.Panels, panel.Panel{ID: fmt.Sprint(k), Count: 1, Size: panel.Size{
			Across: length.Length(w[k]) * length.Centimetre, Along: length.Length(h[k]) * length.Centimetre}})
	}
	return job, width, w, h
}

// TestPlainIsOptimal compares plans and bounds with every way to lay a few
// panels on the cells of a small cloth.
func TestPlainIsOptimal(t *testing.T) {
	jobs, most := 1500, 6
	if testing.Short() {
		jobs = 300
	}
	r := rand.New(rand.NewPCG(7, 11))
	beyond := 0
	for n := range jobs {
		job, width, w, h := smallJob(r, most)
		want := length.Length(leastLength(width, w, h)) * length.Centimetre
		got := Solve(job, Normal, nil)
		if faults := Check(job, got.Cut...); len(faults) > 0 {
			t.Fatalf("job %d, width %d, panels %v by %v: %v", n, width, w, h, faults)
		}
		if got.Needed() != want || got.Bound != want || !got.Proven {
			t.Fatalf("job %d, width %d, panels %v by %v: plan %v, bound %v by %s, proven %v; want %v",
				n, width, w, h, got.Needed(), got.Bound, got.BoundBy, got.Proven, want)
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
	jobs := 1500
	if testing.Short() {
		jobs = 200
	}
	r := rand.New(rand.NewPCG(3, 5))
	var none, found, open int
	for range jobs {
		job, width, w, h := smallJob(r, 6)
		p := plainOf(t, job)
		want := int64(leastLength(width, w, h)) * int64(length.Centimetre) * 2 / p.s.m.num / p.unitY
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
					t.Fatalf("width %d, panels %v by %v: search %d for length %d answers %v, %v; the least is %d", width, w, h, k, size, failed, at, want)
				case k < 2 && failed != (size < want):
					t.Fatalf("width %d, panels %v by %v: search %d for length %d has no answer", width, w, h, k, size)
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
