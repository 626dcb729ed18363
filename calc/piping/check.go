package piping

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// Tolerance is how far a corner may be out before it counts as a flaw: corners
// are whole nanometres, and lengths of bias strips whole micrometres.
const Tolerance = 2 * length.Micrometre

// Check names what is wrong with a plan for a job. It knows nothing of how plans
// are made: it measures the strips from their corners, lays them over one another,
// and adds up what each run is made of. Runs that a plan says it does not cover
// are not flaws; Missing must count them.
func Check(j Job, p Plan) []string {
	c := checker{job: &j, plan: &p}
	if !p.Possible {
		return nil
	}
	if p.Tube == nil {
		c.strips()
		c.apart()
	}
	c.pieces()
	c.runs()
	return c.flaws
}

type checker struct {
	job   *Job
	plan  *Plan
	flaws []string
}

func (c *checker) add(format string, args ...any) {
	if len(c.flaws) < 100 {
		c.flaws = append(c.flaws, fmt.Sprintf(format, args...))
	}
}

// strips measures every strip from its corners: its two long sides are parallel,
// as long as it says and as far apart as it must be wide, and all of it lies in
// its rectangle.
func (c *checker) strips() {
	leans := make(map[Lean]bool)
	for i, s := range c.plan.Strips {
		in := Rect{Across: c.job.Cloth, Along: c.plan.Cloth}
		switch {
		case s.Rect >= len(c.job.Rects) || s.Rect < -1:
			c.add("strip %d: no such rectangle", i)
			continue
		case s.Rect >= 0:
			in = c.job.Rects[s.Rect]
		}
		for _, q := range s.Corners {
			if q.Across < in.X-Tolerance || q.Across > in.X+in.Across+Tolerance || q.Along < in.Y-Tolerance || q.Along > in.Y+in.Along+Tolerance {
				c.add("strip %d: the corner %v, %v lies outside its rectangle", i, q.Across, q.Along)
			}
		}
		c.measured(i, s)
		leans[s.Lean] = true
	}
	if c.job.OneLean && len(leans) > 1 {
		c.add("strips lean both ways")
	}
}

// measured holds a strip's sides against its length, its width and its angle.
func (c *checker) measured(i int, s Strip) {
	one, two := c.vector(s.Corners[0], s.Corners[3]), c.vector(s.Corners[1], s.Corners[2])
	for _, v := range [2]vector{one, two} {
		if math.Abs(v.size()-float64(s.Long)) > float64(Tolerance) {
			c.add("strip %d: a side is %.0f nm and not %v", i, v.size(), s.Long)
		}
	}
	wide := math.Abs(one.cross(c.vector(s.Corners[0], s.Corners[1]))) / one.size()
	if wide < float64(c.plan.Shape.Width-Tolerance) || wide > float64(c.plan.Shape.Width+Tolerance) {
		c.add("strip %d: it is %.0f nm wide and not %v", i, wide, c.plan.Shape.Width)
	}
	angle := math.Atan2(one.x, one.y) * 180 / math.Pi // from the way of the roll
	want := map[Lean]float64{ToRight: float64(c.plan.Shape.Angle), ToLeft: -float64(c.plan.Shape.Angle)}[s.Lean]
	switch {
	case c.plan.Shape.Cut == Across:
		want = 90
	case c.plan.Shape.Cut == Bias && s.Lean == Upright:
		c.add("strip %d: a bias strip leans to neither side", i)
	}
	if math.Abs(angle-want) > 0.01 {
		c.add("strip %d: it lies at %.3f degrees and not at %.0f", i, angle, want)
	}
}

type vector struct{ x, y float64 }

func (checker) vector(a, b geom.Point) vector {
	return vector{float64(b.Across - a.Across), float64(b.Along - a.Along)}
}

func (v vector) size() float64          { return math.Sqrt(v.dot(v)) }
func (v vector) cross(w vector) float64 { return v.x*w.y - v.y*w.x }
func (v vector) dot(w vector) float64   { return v.x*w.x + v.y*w.y }

// apart looks for two strips of one rectangle that share cloth.
func (c *checker) apart() {
	type tall struct {
		Strip
		number   int
		from, to length.Length
	}
	byRect := make(map[int][]tall)
	for i, s := range c.plan.Strips {
		t := tall{s, i, s.Corners[0].Along, s.Corners[0].Along}
		for _, q := range s.Corners {
			t.from, t.to = min(t.from, q.Along), max(t.to, q.Along)
		}
		byRect[s.Rect] = append(byRect[s.Rect], t)
	}
	for _, strips := range byRect {
		slices.SortFunc(strips, func(a, b tall) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.number, b.number)) })
		for i, a := range strips {
			for _, b := range strips[i+1:] {
				if b.from >= a.to {
					break
				}
				if overlap(a.Corners, b.Corners) {
					c.add("strips %d and %d share cloth", a.number, b.number)
				}
			}
		}
	}
	slices.Sort(c.flaws)
}

// overlap reports whether two convex shapes of four corners share more than an
// edge: no line along one of their sides has them apart.
func overlap(a, b [4]geom.Point) bool {
	for _, sides := range [2][4]geom.Point{a, b} {
		for _, k := range [4]int{1, 0, 3, 2} { // the long sides part most strips
			side := checker{}.vector(sides[k], sides[(k+1)%4])
			size := side.size()
			normal := vector{-side.y / size, side.x / size}
			aFrom, aTo := along(a, normal)
			bFrom, bTo := along(b, normal)
			if aTo <= bFrom+float64(Tolerance) || bTo <= aFrom+float64(Tolerance) {
				return false
			}
		}
	}
	return true
}

func along(shape [4]geom.Point, n vector) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for _, q := range shape {
		d := n.dot(vector{float64(q.Across), float64(q.Along)})
		from, to = min(from, d), max(to, d)
	}
	return from, to
}

// pieces wants every piece on its strip, and no two of them on the same part.
func (c *checker) pieces() {
	type part struct{ from, to length.Length }
	on := make([][]part, len(c.plan.Strips))
	for i, l := range c.plan.Runs {
		for _, q := range l.Pieces {
			if q.Strip < 0 || q.Strip >= len(on) {
				c.add("run %d: no strip %d", i, q.Strip)
				continue
			}
			if q.From < 0 || q.Long <= 0 || q.From+q.Long > c.plan.Strips[q.Strip].Long {
				c.add("run %d: a piece lies beyond strip %d", i, q.Strip)
			}
			on[q.Strip] = append(on[q.Strip], part{q.From, q.From + q.Long})
		}
	}
	for i, parts := range on {
		slices.SortFunc(parts, func(a, b part) int { return cmp.Compare(a.from, b.from) })
		for k := 1; k < len(parts); k++ {
			if parts[k].from < parts[k-1].to {
				c.add("strip %d: two pieces share a part of it", i)
			}
		}
	}
}

// runs adds up what each run is made of, and looks at its joins.
func (c *checker) runs() {
	missing, joins := 0, 0
	if len(c.plan.Runs) != len(c.job.Runs) {
		c.add("%d runs are laid and not %d", len(c.plan.Runs), len(c.job.Runs))
		return
	}
	for i, l := range c.plan.Runs {
		if len(l.Pieces) == 0 {
			missing++
			continue
		}
		c.covered(i, l)
		joins += len(l.Joins)
	}
	if missing != c.plan.Missing || c.plan.Tube == nil && joins != c.plan.Joins {
		c.add("%d runs are missing and not %d; %d joins and not %d", missing, c.plan.Missing, joins, c.plan.Joins)
	}
}

// covered measures one run anew: it begins half of what it has to spare before its
// beginning, each join takes its part, and lies where it is said to.
func (c *checker) covered(i int, l Laid) {
	r, cut := c.job.Runs[i], c.plan.Shape.Cut
	extra := 2 * c.job.Ends
	if r.Closed {
		extra = c.job.Overlap
	}
	takes := c.job.Width
	if cut == Bias {
		extra += c.job.Width
		takes = up(scaled(c.job.JoinSeam, 2*math.Sqrt2))
	}
	if len(l.Joins) != len(l.Pieces)-1 || len(l.Joins) > r.MaxJoins {
		c.add("run %d: %d pieces with %d joins, at most %d are allowed", i, len(l.Pieces), len(l.Joins), r.MaxJoins)
		return
	}
	at := -extra / 2
	for k, q := range l.Pieces {
		if len(l.Pieces) > 1 && q.Long < c.job.Least {
			c.add("run %d: a piece of %v is too short to be joined", i, q.Long)
		}
		at += q.Long
		if k == len(l.Joins) {
			break
		}
		c.join(i, l, k, at-takes/2)
		at -= takes
	}
	if at < r.Length+extra/2 {
		c.add("run %d: it is covered to %v of %v", i, at, r.Length+extra/2)
	}
	if r.Closed && c.forbids(r, l.Closes) {
		c.add("run %d: it closes where no join may fall", i)
	}
}

func (c *checker) join(i int, l Laid, k int, at length.Length) {
	r := c.job.Runs[i]
	if at < 0 || at > r.Length {
		c.add("run %d: join %d lies beyond the run", i, k+1)
	}
	if r.Closed {
		at = (at + l.Closes) % r.Length
	}
	if at-l.Joins[k] > 1 || l.Joins[k]-at > 1 {
		c.add("run %d: join %d lies at %v and not at %v", i, k+1, at, l.Joins[k])
	}
	if c.forbids(r, at) {
		c.add("run %d: join %d lies at %v, where no join may fall", i, k+1, at)
	}
}

// forbids looks through the run's own corners and spans.
func (c *checker) forbids(r Run, at length.Length) bool {
	for _, corner := range r.Corners {
		d := at - corner
		if d < 0 {
			d = -d
		}
		if r.Closed {
			d = min(d, r.Length-d)
		}
		if d < c.job.Margin {
			return true
		}
	}
	for _, s := range r.NoJoin {
		if s.From < s.To && s.From < at && at < s.To {
			return true
		}
		past := s.To + r.Length // a span over the beginning of a closed run ends a turn later
		if s.From > s.To && (s.From < at && at < past || s.From < at+r.Length && at+r.Length < past) {
			return true
		}
	}
	return false
}
