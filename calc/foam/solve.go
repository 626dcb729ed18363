package foam

import (
	"errors"
	"math/big"
	"math/bits"
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/sheet"
)

// MaxPieces bounds the layers of one foam and thickness together.
const MaxPieces = 6000

// Errors of Solve.
var (
	ErrNoSheet = errors.New("foam: an item fits on no sheet of its foam, or is too thick for them")
	ErrTooMany = errors.New("foam: too many layers")
	ErrHalted  = errors.New("foam: halted before there was an answer")
)

// Cut is an item as it is cut.
type Cut struct {
	Over          length.Length // added to the finished width and depth
	Shape         Shape         // as cut
	Across, Along length.Length // of the rectangle around it
	Thickness     length.Length // of all layers together
	Off           length.Length // Thickness less what is wanted
	Layers        []Layer       // the core first
	Grams         int64         // of one, to the nearest
	Waste         float64       // square millimetres between the shape and its rectangle, a layer
}

// Layer is so many layers of one foam and thickness in an item.
type Layer struct {
	Foam      int
	Thickness length.Length
	Count     int
	Top       bool
}

// Piece is one layer of one copy of an item.
type Piece struct {
	Item, Copy int // Copy from 1
	Layer      int // from 1, within the layers of its foam and thickness
}

// Group is all that is cut from sheets of one foam and thickness.
type Group struct {
	Foam      int
	Thickness length.Length
	Stock     []int // the sheets that were on sale for it
	Pieces    []Piece
	Sizes     []sheet.Piece
	Nest      sheet.Result // its kinds are places in Stock
	Kinds     []sheet.Kind
	Waste     float64 // share of the foam bought that is in no cushion
}

// Result is the answer.
type Result struct {
	Cuts   []Cut
	Groups []Group
	Cost   int64 // in ten-thousandths where there are prices, else in thousandths of a cubic millimetre
	Grams  int64 // of all items
	Work   int64
}

// solver keeps what is worked out more than once.
type solver struct {
	job    *Job
	halt   func() bool
	boxes  [][2]length.Length
	lists  map[key][]Lamination
	result Result
}

// key is a choice of sheets of a foam, as a set of places in its list.
type key struct {
	foam int
	set  uint
}

// Solve answers a job without faults. Thickness comes first: every item gets the
// nearest that its foam's sheets can make. Then all choices of sheets that still
// make those thicknesses are tried, with the cheapest lamination from each, and the
// cheapest whole answer is kept. So, where every core and top is as thick as before,
// another sheet on sale never makes a job dearer.
func Solve(job *Job, halt func() bool) (*Result, error) {
	s := &solver{job: job, halt: halt, lists: make(map[key][]Lamination)}
	for i := range job.Items {
		it := &job.Items[i]
		cut := it.Shape.Grown(it.over(s.job.Shop) / 2)
		w, h := cut.Bounds()
		s.boxes = append(s.boxes, [2]length.Length{w, h})
		s.result.Cuts = append(s.result.Cuts, Cut{Over: it.over(s.job.Shop), Shape: cut, Across: w, Along: h})
	}
	wants, err := s.wants()
	if err != nil {
		return nil, err
	}
	for f := range job.Foams {
		if err := s.foam(f, wants[f]); err != nil {
			return nil, err
		}
	}
	s.finish()
	return &s.result, nil
}

// want is a thickness that an item needs of one foam, so many times.
type want struct {
	item  int
	thick length.Length
	times int
	top   bool
}

// wants are the thicknesses that can be had, by foam. A top comes first; the core
// makes up what is then still wanting.
func (s *solver) wants() ([][]want, error) {
	out := make([][]want, len(s.job.Foams))
	for i := range s.job.Items {
		it := &s.job.Items[i]
		core := it.Wanted()
		if t := it.Top; t != nil {
			got, ok := s.made(t.Foam, i, t.Thickness)
			if !ok {
				return nil, ErrNoSheet
			}
			core -= got.Thickness * t.layers()
			out[t.Foam] = append(out[t.Foam], want{i, got.Thickness, int(t.layers()), true})
		}
		got, ok := s.made(it.Foam, i, core)
		if !ok {
			return nil, ErrNoSheet
		}
		out[it.Foam] = append(out[it.Foam], want{i, got.Thickness, 1, false})
	}
	return out, nil
}

// made is what a foam's sheets make of a thickness of an item.
func (s *solver) made(f, item int, thick length.Length) (Lamination, bool) {
	return gluing(s.job.Shop).Made(s.laminations(f, s.fitting(f, item)), thick)
}

// Proven reports whether no nesting of the same layers costs less.
func (r *Result) Proven() bool {
	for i := range r.Groups {
		if !r.Groups[i].Nest.Proven {
			return false
		}
	}
	return true
}

// stockOf are the sheets of a foam, by their places in the job.
func (s *solver) stockOf(f int) (list []int) {
	for i := range s.job.Stock {
		if s.job.Stock[i].Foam == f {
			list = append(list, i)
		}
	}
	return list
}

// fitting is the set of a foam's sheets on which an item fits.
func (s *solver) fitting(f, item int) (set uint) {
	for n, i := range s.stockOf(f) {
		if sheet.Fits(sheet.Piece{Across: s.boxes[item][0], Along: s.boxes[item][1]}, []sheet.Kind{s.kind(i)}) {
			set |= 1 << n
		}
	}
	return set
}

// kind is a sheet on sale as the nesting takes it.
func (s *solver) kind(i int) sheet.Kind {
	k := &s.job.Stock[i]
	return sheet.Kind{Across: k.Across, Along: k.Along, Trim: k.Trim, Cost: s.cost(i)}
}

// cost is that of a sheet: its price, or its volume in thousandths of a cubic
// millimetre; the largest sheet has 8·10^18 cubic micrometres, which an int64 holds.
func (s *solver) cost(i int) int64 {
	k := &s.job.Stock[i]
	if s.job.Priced() {
		return counted(k.Price)
	}
	return max(1, micro(k.Across)*micro(k.Along)*micro(k.Thickness)/1_000_000)
}

// laminations are those of a choice of a foam's sheets, with the counts by
// thickness, as thicknesses has them.
func (s *solver) laminations(f int, set uint) []Lamination {
	at := key{f, set}
	if list, ok := s.lists[at]; ok {
		return list
	}
	var options []Option
	stock := s.stockOf(f)
	for _, t := range s.thicknesses(f) {
		best := int64(-1)
		for n, i := range stock {
			k := &s.job.Stock[i]
			if set>>n&1 == 0 || k.Thickness != t {
				continue
			}
			// In thousandths, a square metre, rounded up.
			hi, lo := bits.Mul64(uint64(s.cost(i)), 1_000_000_000)
			per, _ := bits.Div64(hi, lo, uint64(micro(k.Across)/1000*(micro(k.Along)/1000)))
			if c := int64(per) + 1; best < 0 || c < best {
				best = c
			}
		}
		if best >= 0 {
			options = append(options, Option{t, best})
		}
	}
	var list []Lamination
	if len(options) > 0 {
		list = gluing(s.job.Shop).Laminations(options)
		for i := range list {
			list[i].Counts = s.spread(f, options, list[i].Counts)
		}
	}
	s.lists[at] = list
	return list
}

// thicknesses are those of a foam's sheets, in the order of the job.
func (s *solver) thicknesses(f int) (list []length.Length) {
	seen := make(map[length.Length]bool)
	for _, i := range s.stockOf(f) {
		if t := s.job.Stock[i].Thickness; !seen[t] {
			seen[t] = true
			list = append(list, t)
		}
	}
	return list
}

// spread puts counts by option into counts by thickness of the foam.
func (s *solver) spread(f int, options []Option, counts []int) []int {
	all := s.thicknesses(f)
	out := make([]int, len(all))
	for i, o := range options {
		for j, t := range all {
			if t == o.Thickness {
				out[j] = counts[i]
			}
		}
	}
	return out
}

// grams is the mass of an item, worked out exactly and rounded once.
func (s *solver) grams(c *Cut) int64 {
	volume := new(big.Int) // nm × g/m³
	for _, l := range c.Layers {
		v := new(big.Int).Mul(big.NewInt(int64(l.Thickness)*int64(l.Count)), big.NewInt(s.job.Foams[l.Foam].Density))
		volume.Add(volume, v)
	}
	mass := volume.Mul(volume, c.Shape.Area().scaled())
	// Eighths of µm², scaled, times nm times g/m³: 8 · piScale · 10^12 · 10^9.
	unit := new(big.Int).Mul(big.NewInt(8*1_000_000_000), big.NewInt(piScale))
	unit.Mul(unit, big.NewInt(1_000_000_000_000))
	mass.Add(mass, new(big.Int).Rsh(unit, 1))
	return mass.Div(mass, unit).Int64()
}

func (s *solver) finish() {
	r := &s.result
	for i := range r.Cuts {
		c, it := &r.Cuts[i], &s.job.Items[i]
		var core, tops []Layer
		for _, l := range c.Layers {
			if l.Top {
				tops = append(tops, l)
			} else {
				core = append(core, l)
			}
			c.Thickness += l.Thickness * length.Length(l.Count)
		}
		c.Layers = slices.Concat(core, tops)
		c.Off = c.Thickness - it.Wanted()
		c.Grams = s.grams(c)
		c.Waste = max(0, float64(c.Across.MM()*c.Along.MM())-c.Shape.Area().MM2())
		r.Grams += c.Grams * int64(it.Count)
	}
	for i := range r.Groups {
		g := &r.Groups[i]
		used, bought := 0.0, 0.0
		for _, p := range g.Pieces {
			used += r.Cuts[p.Item].Shape.Area().MM2()
		}
		for _, n := range g.Nest.Sheets {
			bought += float64(g.Kinds[n.Kind].Across.MM() * g.Kinds[n.Kind].Along.MM())
		}
		g.Waste = max(0, 1-used/bought)
		r.Cost += r.Groups[i].Nest.Cost
		r.Work += r.Groups[i].Nest.Work
	}
}

// Buy is so many sheets of one kind on sale.
type Buy struct{ Stock, Count int }

// Buy is what a group takes, in the order of the stock.
func (g *Group) Buy() (list []Buy) {
	counts := make([]int, len(g.Stock))
	for _, s := range g.Nest.Sheets {
		counts[s.Kind]++
	}
	for k, n := range counts {
		if n > 0 {
			list = append(list, Buy{g.Stock[k], n})
		}
	}
	return list
}
