package foundation

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// Twine is the twine of one frame, by what it sews.
type Twine struct{ Springs, Bridles, Ties, Edge length.Length }

// Total is all of it.
func (t Twine) Total() length.Length { return t.Springs + t.Bridles + t.Ties + t.Edge }

// edgeRows are the rows of stitches round the edge.
func (f Frame) edgeRows(u practice.Set) int64 {
	if f.EdgeRows >= 0 {
		return int64(f.EdgeRows)
	}
	return u.Count(f.Part.keys().edgeRows)
}

// twine sews each spring twice, to the webs and to the hessian; bridle ties in
// rows, and a stuffing tie at every gap of them through the first stuffing and
// back; and the rows of the stitched edge. The rows are counted as area by gap.
func (f Frame) twine(springs int, u practice.Set) Twine {
	rows := up(f.Area() / u.Length(practice.BridleGap).MM())
	ties := float64(rows) / float64(u.Length(practice.TieGap))
	return Twine{
		Springs: 2 * length.Length(springs) * u.Length(practice.SpringTwine),
		Bridles: practice.Times(rows, u.Number(practice.Bridle)),
		Ties:    rows + up(ties*2*u.Length(f.Part.keys().first).MM()),
		Edge:    length.Length(f.edgeRows(u)) * practice.Times(f.Perimeter(), u.Number(practice.EdgeTwine)),
	}
}

// stuffing is what the hair or fibre of one frame weighs: area by both depths
// by density, in milligrams, rounded up.
func (f Frame) stuffing(u practice.Set) int64 {
	deep := (u.Length(f.Part.keys().first) + u.Length(f.Part.keys().second)).MM()
	perM3 := float64(u.Number(practice.StuffingDensity)) // mg/m³, as 1 kg is a million mg
	return int64(math.Ceil(f.Area()*deep*perM3/1e9 - 1e-6))
}

// Purpose is what tacks or staples hold.
type Purpose int

// The purposes; the zero value is ForWebs.
const (
	ForWebs Purpose = iota
	ForLashing
	ForHessian
	ForScrim
	ForCalico
	ForCover
	ForBottoming
	Temporary // drawn again and used again
	ForGimp   // gimp pins
)

// String names the purpose.
func (p Purpose) String() string {
	return [...]string{"webbing", "lashing", "hessian", "scrim", "calico", "top cover", "bottoming", "temporary", "gimp"}[p]
}

// Kind is what is driven in.
type Kind int

// The kinds; the zero value is Tack.
const (
	Tack Kind = iota
	Staple
	GimpPin
)

// String names the kind.
func (k Kind) String() string { return [...]string{"tack", "staple", "gimp pin"}[k] }

// Course is the tacks, staples or pins of one purpose in one frame.
type Course struct {
	Purpose Purpose
	Kind    Kind
	Size    length.Length // of a tack, or the leg of a staple; 0 for gimp pins
	Spacing length.Length // 0 where they are counted by the end
	Count   int64
}

// Spaced is how many tacks a closed run takes with none further apart than
// spacing.
func Spaced(run, spacing length.Length) int64 {
	if run <= 0 || spacing <= 0 {
		return 0
	}
	return int64((run-1)/spacing) + 1
}

// ounceSizes are tacks as they are sold by the ounce: to 6 oz from Noyes, Handwork
// in Wood, 1910; 8 oz from trade text, 10 to 14 oz from memory.
var ounceSizes = []struct {
	size   length.Length
	ounces int
}{
	{in / 4, 2}, {in * 3 / 8, 3}, {in * 7 / 16, 4}, {in / 2, 6}, {in * 9 / 16, 8}, {in * 5 / 8, 10}, {in * 11 / 16, 12}, {in * 3 / 4, 14},
}

// Ounces is the size by the ounce of the tack that is nearest in length, of two
// as near the longer; 0 where none is within a sixteenth of an inch.
func Ounces(size length.Length) int {
	best, off := 0, in/16+1
	for _, s := range ounceSizes {
		if d := max(size-s.size, s.size-size); d <= off {
			best, off = s.ounces, d
		}
	}
	return best
}

// courses are all that hold one frame.
func (f Frame) courses(b Build, fix Fixing, w Webbing, l Lashing, u practice.Set) []Course {
	around := f.Perimeter()
	webs := int64(len(w.Webs))
	var out []Course
	if fix == Staples {
		out = append(out, Course{ForWebs, Staple, u.Length(practice.WebStapleLeg), 0, 2 * webs * u.Count(practice.WebStaples)})
	} else {
		out = append(out, Course{ForWebs, Tack, u.Length(practice.WebTack), 0, webs * (u.Count(practice.WebTacksStart) + u.Count(practice.WebTacksFinish))})
	}
	if l.Strands > 0 { // staples do not hold the pull of springs
		out = append(out, Course{ForLashing, Tack, u.Length(practice.LashingTack), 0, 2 * int64(l.Strands) * u.Count(practice.LashingTacks)})
	}
	run := func(p Purpose, tack, spacing practice.LengthKey) {
		c := Course{Purpose: p, Kind: Staple}
		if fix == Staples {
			c.Size, c.Spacing = u.Length(practice.StapleLeg), u.Length(practice.StapleSpacing)
		} else {
			c.Kind, c.Size, c.Spacing = Tack, u.Length(tack), u.Length(spacing)
		}
		c.Count = Spaced(around, c.Spacing)
		out = append(out, c)
	}
	for _, use := range f.uses(b) {
		run([...]Purpose{ForHessian, ForScrim, ForCalico, ForBottoming}[use], use.keys().tack, use.keys().spacing)
	}
	run(ForCover, practice.CoverTack, practice.CoverSpacing)
	if fix == Tacks {
		out = append(out, Course{Temporary, Tack, u.Length(practice.CoverTack), u.Length(practice.TemporarySpacing), Spaced(around, u.Length(practice.TemporarySpacing))})
	}
	if run := f.showWood(); run > 0 {
		spacing := u.Length(practice.GimpPinSpacing)
		out = append(out, Course{ForGimp, GimpPin, 0, spacing, Spaced(run, spacing)})
	}
	return out
}

// gimp is the gimp or braid over the tacked edge, with its corners and ends.
func (f Frame) gimp(u practice.Set) length.Length {
	run := f.showWood()
	if run == 0 {
		return 0
	}
	return run + length.Length(f.corners())*u.Length(practice.GimpCorner) + u.Length(practice.GimpEnds)
}
