// Package wadding works out what wraps and lines: the pieces of sheet wadding
// for cushions, pads, arms, backs and domed seats, and loose hair or fibre by
// mass. Lengths are exact, those over a dome rounded up to the micrometre; masses
// are whole milligrams, rounded up. Every constant is a setting of [Book].
package wadding

import (
	"math"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// Material is what wraps or fills.
type Material int

// The materials; the zero value is Polyester. Hair and Fibre are loose.
const (
	Polyester Material = iota
	Skin
	CottonFelt
	Hair
	Fibre
	materials
)

// Materials are all of them: sheets, then loose ones.
func Materials() []Material { return []Material{Polyester, Skin, CottonFelt, Hair, Fibre} }

// String is the name that the settings of the material begin with.
func (m Material) String() string {
	return [materials]string{"polyester", "skin", "cotton-felt", "hair", "fibre"}[m]
}

// Loose reports whether the material is weighed instead of cut.
func (m Material) Loose() bool { return m >= Hair }

// Kind is what is wrapped or lined.
type Kind int

// The kinds; the zero value is Cushion. Seats are filled by their number alone.
const (
	Cushion Kind = iota
	Pad
	Arm
	Back
	Dome
	Seats
)

// Wrap is how a cushion is wrapped.
type Wrap int

// The wraps; the zero value is FrontToBack: over the top, round the front and
// under the bottom, open at the back.
const (
	FrontToBack Wrap = iota
	AllRound
	EndsOnly
)

// Place is the seat that is filled by its number.
type Place int

// The places; the zero value is StuffOver.
const (
	StuffOver Place = iota
	DropIn
	EasyChair
)

// Item is one thing, Count times.
//
//	Cushion  Width by Depth by Thickness
//	Pad      Width by Depth, and down its four sides by Thickness
//	Arm      Depth is its length; over Width, and down both sides by Thickness
//	Back     Width by Depth (its height), and over both sides and the top by Thickness
//	Dome     Width by Depth, risen in the middle by Rise above its edge, which is Thickness high
//	Seats    nothing but Place
//
// For a loose material Thickness is the depth of the filling.
type Item struct {
	ID, Name        string
	Kind            Kind
	Count           int // >= 1
	Width, Depth    length.Length
	Thickness, Rise length.Length
	Wrap            Wrap
	Ends            bool // pieces of their own over both ends of a cushion
	Layers          int  // >= 1
	Material        Material
	Whole           bool // must not be joined
	Place           Place
}

// Piece is one piece of sheet, cut Count times.
type Piece struct {
	Item int
	End  bool // over an end of a cushion
	panel.Panel
}

// sizes are the main piece, and that over an end; zero where there is none.
func (it Item) sizes(overlap length.Length) (main, end panel.Size) {
	w, d, t := it.Width, it.Depth, it.Thickness
	switch it.Kind {
	case Pad:
		main = panel.Size{Across: w + 2*t, Along: d + 2*t}
	case Arm:
		main = panel.Size{Across: d, Along: w + 2*t}
	case Back:
		main = panel.Size{Across: w + 2*t, Along: d + t}
	case Dome:
		main = panel.Size{Across: geom.Parabola(w, it.Rise) + 2*t, Along: geom.Parabola(d, it.Rise) + 2*t}
	case Cushion:
		main = panel.Size{Across: w, Along: 2*d + t + overlap}
		if it.Wrap == AllRound {
			main.Along += t
		}
		if it.Ends || it.Wrap == EndsOnly {
			end = panel.Size{Across: d, Along: t}
		}
		if it.Wrap == EndsOnly {
			main = panel.Size{}
		}
	}
	return main, end
}

// pieces are those of item k, of a sheet that wide.
func (it Item) pieces(k int, u practice.Set) []Piece {
	width := u.Length(it.Material.sheet().Width)
	overlap := length.Length(0)
	if it.Kind == Cushion && it.Wrap != EndsOnly {
		overlap = u.Length(practice.WaddingOverlap)
	}
	main, end := it.sizes(overlap)
	var out []Piece
	add := func(size panel.Size, per int, isEnd bool) {
		if size.Across == 0 || size.Along == 0 {
			return
		}
		id := it.ID
		if isEnd {
			id = id[:min(len(id), 28)] + "-end"
		}
		p := panel.Panel{ID: id, Name: it.Name, Count: it.Count * it.Layers * per, Size: size, Turn: panel.Quarter}
		if min(size.Across, size.Along) > width {
			p.Turn = panel.Upright
			if !it.Whole {
				p.Join, p.JoinSeam = panel.JoinSides, u.Length(practice.WaddingLap)/2
			}
		}
		out = append(out, Piece{k, isEnd, p})
	}
	add(main, 1, false)
	add(end, 2, true)
	return out
}

// volume is what a loose filling fills in one item, in mm³. A dome rises as
// (1 − x²)(1 − y²) does, four ninths of its rise on the average.
func (it Item) volume() float64 {
	main, _ := it.sizes(0)
	area := main.Across.MM() * main.Along.MM()
	switch it.Kind {
	case Cushion:
		area = it.Width.MM() * it.Depth.MM()
	case Pad, Dome, Back:
		area = it.Width.MM() * it.Depth.MM()
	}
	deep := it.Thickness.MM()
	if it.Kind == Dome {
		deep += it.Rise.MM() * 4 / 9
	}
	return area * deep
}

// mass is what the loose filling of one item weighs, in milligrams.
func (it Item) mass(u practice.Set) int64 {
	if it.Kind == Seats {
		return u.Number(it.Place.seat())
	}
	return int64(math.Ceil(it.volume()*float64(u.Number(it.Material.loose().Density))/1e9 - 1e-6))
}
