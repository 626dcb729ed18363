package wadding

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// Job is what is to be wrapped and filled.
type Job struct {
	Items []Item
	Shop  practice.Set     // what the workroom goes by
	Given []practice.Given // settings of this job
}

// Sheet is all pieces of one sheet material.
type Sheet struct {
	Material    Material
	Width, Roll length.Length
	Weight      int64 // millionths of g/m²
	Pieces      []Piece
	Mass        int64 // of the pieces, mg
	Loft        length.Length
	Compression int64 // millionths lost
}

// Loose is all of one loose material.
type Loose struct {
	Material    Material
	Mass        int64 // mg
	Bag         int64 // mg
	Bags        int64
	Compression int64
}

// Laid is what the layers or the filling of one item measure.
type Laid struct {
	Before, After, Lost length.Length // thickness as laid, under the cover, and the difference
	Mass                int64         // of one copy, mg
}

// Work is the answer to a job. Laid[k] is of Job.Items[k].
type Work struct {
	Sheets   []Sheet
	Loose    []Loose
	Laid     []Laid
	Settings []practice.Value // that were used
}

// Plan works out a job that has no Faults.
func Plan(job Job) Work {
	u, used := job.Practice().Noted()
	w := Work{Laid: make([]Laid, len(job.Items))}
	for _, m := range Materials() {
		if m.Loose() {
			w.loose(m, job, u)
		} else {
			w.sheet(m, job, u)
		}
	}
	if len(w.Sheets) > 0 {
		u.Length(practice.WaddingStep)
	}
	w.Settings = used.Of(book)
	return w
}

// sheet collects the pieces of a sheet material. Under the cover a layer keeps
// its loft less what compression takes.
func (w *Work) sheet(m Material, job Job, u practice.Set) {
	s := Sheet{Material: m}
	for k, it := range job.Items {
		if it.Material != m {
			continue
		}
		keys := m.sheet()
		s.Width, s.Roll = u.Length(keys.Width), u.Length(keys.Roll)
		s.Weight, s.Loft, s.Compression = u.Number(keys.Weight), u.Length(keys.Loft), u.Number(keys.Compression)
		area := 0.0
		for _, p := range it.pieces(k, u) {
			cut := p.Cut()
			area += float64(cut.Across.MM() * cut.Along.MM() * float64(p.Count))
			s.Pieces = append(s.Pieces, p)
		}
		mass := int64(math.Ceil(float64(area*float64(s.Weight)/1e9) - 1e-6)) // mg, as 1 g/m² is a million millionths and 1 m² a million mm²
		s.Mass += mass
		before := length.Length(it.Layers) * s.Loft
		after := practice.Times(before, practice.One-s.Compression)
		w.Laid[k] = Laid{Before: before, After: after, Lost: before - after, Mass: (mass-1)/int64(it.Count) + 1}
	}
	if len(s.Pieces) > 0 {
		w.Sheets = append(w.Sheets, s)
	}
}

// loose weighs a loose material. Its density is that in the finished work, so
// that it is laid deeper: depth / (1 − compression).
func (w *Work) loose(m Material, job Job, u practice.Set) {
	l := Loose{Material: m}
	for k, it := range job.Items {
		if it.Material != m {
			continue
		}
		l.Bag, l.Compression = u.Number(m.loose().Bag), u.Number(m.loose().Compression)
		mass := it.mass(u)
		l.Mass += int64(it.Count) * mass
		laid := Laid{Mass: mass}
		if it.Kind != Seats {
			laid.After = it.Thickness + it.Rise
			deep, _ := length.Scale(laid.After, practice.One, practice.One-l.Compression, length.Up)
			laid.Before = deep.Round(length.Micrometre, length.Up)
			laid.Lost = laid.Before - laid.After
		}
		w.Laid[k] = laid
	}
	if l.Mass > 0 {
		l.Bags = practice.Packs(l.Mass, l.Bag, 0)
		w.Loose = append(w.Loose, l)
	}
}
