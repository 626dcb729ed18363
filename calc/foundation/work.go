package foundation

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// Job is the frames of one piece of work.
type Job struct {
	Build  Build
	Fixing Fixing
	Frames []Frame
	Shop   practice.Set     // what the workroom goes by
	Given  []practice.Given // settings of this job
}

// Built is what one frame takes. All figures are of one copy.
type Built struct {
	Perimeter length.Length
	Area      float64 // mm²
	Webbing   Webbing
	Grid      Grid
	Spring    Spring // of no meaning without springs
	Lashing   Lashing
	Twine     Twine
	Stuffing  int64 // mg
	Courses   []Course
	Gimp      length.Length
}

// Fixed is all tacks, staples or pins of one kind and size.
type Fixed struct {
	Kind  Kind
	Size  length.Length
	Count int64
	Boxes int64
}

// Ounces is the size of tacks by the ounce; 0 for staples and pins, and where
// there is none.
func (f Fixed) Ounces() int {
	if f.Kind != Tack {
		return 0
	}
	return Ounces(f.Size)
}

// Totals is what all frames take together, and what to buy.
type Totals struct {
	Webbing         length.Length
	Rolls           int64
	Springs         int64
	Lashing         length.Length
	LashingBalls    int64
	Twine           length.Length
	TwineBalls      int64
	Stuffing        int64 // mg
	StuffingBags    int64
	Fixed           []Fixed
	Gimp, GimpOrder length.Length
}

// Work is the answer to a job. Built[k] is of Job.Frames[k].
type Work struct {
	Built    []Built
	Panels   []Panel
	Totals   Totals
	Settings []practice.Value // that were used
}

// Plan works out a job that has no Faults.
func Plan(job Job) Work {
	u, used := job.Practice().Noted()
	w := Work{Built: make([]Built, len(job.Frames))}
	for k, f := range job.Frames {
		w.Built[k] = f.build(job, u)
		w.Panels = append(w.Panels, f.panels(k, job.Build, f.isSprung(job.Build), u)...)
	}
	w.Totals = w.add(job, u)
	for _, p := range w.Panels { // what the cutting plans go by
		u.Length(p.Use.Width())
	}
	u.Length(practice.ClothStep)
	u.Length(practice.ClothBolt)
	w.Settings = used.Of(book)
	return w
}

func (f Frame) build(job Job, u practice.Set) Built {
	grid := f.grid(job.Build, u)
	b := Built{Perimeter: f.Perimeter(), Area: f.Area(), Grid: grid, Webbing: f.webbing(job.Build, grid, u)}
	if len(grid.Centres) > 0 {
		b.Spring, b.Lashing = f.spring(u), f.lashing(grid, u)
	}
	if job.Build == Traditional {
		b.Twine, b.Stuffing = f.twine(len(grid.Centres), u), f.stuffing(u)
	}
	b.Courses = f.courses(job.Build, job.Fixing, b.Webbing, b.Lashing, u)
	b.Gimp = f.gimp(u)
	return b
}

// add sums the exact figures of all copies, and rounds each sum up once to what
// is sold. Temporary tacks are those of the frame that takes most: they are
// drawn and used again.
func (w Work) add(job Job, u practice.Set) Totals {
	var t Totals
	fixed := make(map[Fixed]int64)
	temporary := Course{}
	for k, b := range w.Built {
		n := length.Length(job.Frames[k].Count)
		t.Webbing += n * b.Webbing.Total
		t.Springs += int64(n) * int64(len(b.Grid.Centres))
		t.Lashing += n * b.Lashing.Cord
		t.Twine += n * b.Twine.Total()
		t.Stuffing += int64(n) * b.Stuffing
		t.Gimp += n * b.Gimp
		for _, c := range b.Courses {
			if c.Purpose == Temporary {
				if c.Count > temporary.Count {
					temporary = c
				}
				continue
			}
			fixed[Fixed{Kind: c.Kind, Size: c.Size}] += int64(n) * c.Count
		}
	}
	if temporary.Count > 0 {
		fixed[Fixed{Kind: Tack, Size: temporary.Size}] += temporary.Count
	}
	t.Rolls = t.rolls(job.Build, u)
	if t.Lashing > 0 {
		t.LashingBalls = practice.Packs(int64(t.Lashing), int64(u.Length(practice.LashingBall)), 0)
	}
	if t.Twine > 0 {
		t.TwineBalls = practice.Packs(int64(t.Twine), int64(u.Length(practice.TwineBall)), 0)
	}
	if t.Stuffing > 0 {
		t.StuffingBags = practice.Packs(t.Stuffing, u.Number(practice.StuffingBag), 0)
	}
	for f, n := range fixed {
		f.Count = n
		f.Boxes = practice.Packs(n, u.Count(boxOf(f.Kind)), u.Number(practice.TackSpare))
		t.Fixed = append(t.Fixed, f)
	}
	slices.SortFunc(t.Fixed, func(a, b Fixed) int { return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Size, a.Size)) })
	if t.Gimp > 0 {
		t.GimpOrder = t.Gimp.Round(u.Length(practice.GimpStep), length.Up)
	}
	return t
}

func (t Totals) rolls(b Build, u practice.Set) int64 {
	roll := practice.WebRoll
	if b == Modern {
		roll = practice.ElasticRoll
	}
	return practice.Packs(int64(t.Webbing), int64(u.Length(roll)), 0)
}

func boxOf(k Kind) practice.CountKey {
	switch k {
	case Staple:
		return practice.StapleBox
	case GimpPin:
		return practice.GimpPinBox
	}
	return practice.TackBox
}
